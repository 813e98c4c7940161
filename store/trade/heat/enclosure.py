"""Heat and air of a closed cabinet: how much air carries the heat off, and how warm it gets without a fan.

Dry standard air (0.075 lb/ft³, 0.24 Btu/lb°F): q = 1.08 · cfm · rise. ASHRAE Handbook Fundamentals. The
cabinet walls are taken to let no heat through, so a real cabinet runs a little cooler. The manufacturers' own limits
win.
"""

from __future__ import annotations

from math import sqrt

import msgspec

from store.measure.length import INCH_NM

BTUH_PER_WATT = 3.412142
AIR_FACTOR = 1.08
"""Btu/h per cfm and °F: 60 min/h × 0.075 lb/ft³ × 0.24 Btu/lb°F, ASHRAE Fundamentals."""
M3H_PER_CFM = 1.699011
"""0.3048³ m³ a cubic foot × 60 (computed)."""
F_PER_C = 1.8
KELVIN_AT_0_C = 273.15
GRAVITY_M_PER_S2 = 9.80665
DISCHARGE = 0.65
"""Share of the ideal flow through a plain opening, one-way: ASHRAE Fundamentals, stack effect (from memory,
high)."""
GOOD_RISE_C = 10 / F_PER_C
MOST_RISE_C = 15 / F_PER_C
"""Rise of cabinet air over room air to aim for, 10 to 15 °F: common practice (from memory, medium)."""
USUAL_LIMIT_C = 35.0
"""Warmest surrounding air that home equipment is made for, 35 or 40 °C: typical manuals (from memory,
high)."""
BALANCE_STEPS = 80
HOTTEST_RISE_C = 2_000.0


class Airflow(msgspec.Struct, frozen=True):
    """A flow of air, in both units."""

    cfm: float
    m3_per_h: float


class Stack(msgspec.Struct, frozen=True):
    """A cabinet that breathes by itself: how much warmer than the room it settles, and the air it then
    moves."""

    rise_c: float
    cabinet_c: float
    airflow: Airflow


def btu_per_hour(watts: float) -> float:
    """Heat in Btu/h of an electric load in watts: all of it turns to heat in the end."""
    return watts * BTUH_PER_WATT


def airflow_needed(watts: float, rise_c: float) -> Airflow:
    """The air that carries off a heat with a given rise: cfm = 3.159 · W / rise in °F.

    Raises ValueError for heat below 0 or a rise not above 0. At altitude thinner air needs more of it.
    """
    if watts < 0 or rise_c <= 0:
        raise ValueError("airflow needs heat of at least 0 and a rise above 0")
    return _airflow(btu_per_hour(watts) / (AIR_FACTOR * rise_c * F_PER_C))


def rise_with_fan(watts: float, cfm: float) -> float:
    """Rise in °C of the air that a fan moves through a cabinet. Free flow of the fan is more than it moves
    through grilles.

    Raises ValueError for heat below 0 or a flow not above 0.
    """
    if watts < 0 or cfm <= 0:
        raise ValueError("a rise needs heat of at least 0 and a flow above 0")
    return btu_per_hour(watts) / (AIR_FACTOR * cfm * F_PER_C)


def heat_carried(cfm: float, rise_c: float) -> float:
    """The heat in watts that a flow carries off at a rise in °C."""
    return AIR_FACTOR * cfm * rise_c * F_PER_C / BTUH_PER_WATT


def series_area(first: float, second: float) -> float:
    """The area of one opening that resists like two in a row, in their unit: 1 / √(1/A₁² + 1/A₂²); 0 when one
    is shut.

    Raises ValueError for an area below 0.
    """
    if first < 0 or second < 0:
        raise ValueError("an opening has an area of at least 0")
    return 0.0 if 0 in (first, second) else 1 / sqrt(1 / first**2 + 1 / second**2)


def stack_flow(
    low_in2: float, high_in2: float, height_nm: int, inside_c: float, outside_c: float, discharge: float = DISCHARGE
) -> Airflow:
    """Air that rises by warmth through a low and a high opening: C · A · √(2g · height · (Ti - To) / Ti).

    Free areas in square inches, height between the middles of the openings, A that of both in a row. Source:
    ASHRAE Fundamentals, stack effect; for equal openings it is the printed form with the neutral level
    half-way up. No flow when it is not warmer inside. Raises ValueError for an area or height below 0, or a
    temperature below -273.15 °C. Holds for openings at two heights with no fan and no draught; one opening
    alone breathes far less.
    """
    if height_nm < 0 or min(inside_c, outside_c) <= -KELVIN_AT_0_C:
        raise ValueError("a stack needs a height of at least 0 and temperatures above absolute zero")
    warmer = max(0.0, inside_c - outside_c) / (inside_c + KELVIN_AT_0_C)
    area_m2 = series_area(low_in2, high_in2) * (INCH_NM / 1e9) ** 2
    metres_per_s = sqrt(2 * GRAVITY_M_PER_S2 * height_nm / 1e9 * warmer)
    return _airflow(discharge * area_m2 * metres_per_s * 3600 / M3H_PER_CFM)


def stack_balance(watts: float, low_in2: float, high_in2: float, height_nm: int, room_c: float) -> Stack | None:
    """How warm a cabinet gets with a heat inside and no fan: the rise at which its own draught carries the
    heat off.

    None when an opening or the height is 0, so that nothing is carried off, or no rise below 2,000 °C is
    enough. Found by halving. Raises ValueError for a figure below 0. A first answer, not a test: watch a real
    thermometer.
    """
    if watts < 0:
        raise ValueError("a cabinet takes heat of at least 0")
    low, high = 0.0, HOTTEST_RISE_C
    if watts > 0 and heat_carried(stack_flow(low_in2, high_in2, height_nm, room_c + high, room_c).cfm, high) < watts:
        return None
    for _ in range(BALANCE_STEPS if watts > 0 else 0):
        middle = (low + high) / 2
        flow = stack_flow(low_in2, high_in2, height_nm, room_c + middle, room_c)
        low, high = (middle, high) if heat_carried(flow.cfm, middle) < watts else (low, middle)
    rise = high if watts > 0 else 0.0
    return Stack(rise, room_c + rise, stack_flow(low_in2, high_in2, height_nm, room_c + rise, room_c))


def _airflow(cfm: float) -> Airflow:
    return Airflow(cfm, cfm * M3H_PER_CFM)
