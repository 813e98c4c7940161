"""Copper conductors: size, resistance, the current they may carry and the breaker that may protect them."""

from __future__ import annotations

from collections.abc import Mapping
from math import pi
from typing import TypeVar

from store.trade.measured.bounds import exceeds, not_negative, positive
from store.trade.power import tables_metric as metric
from store.trade.power import tables_us as us

MM_PER_IN = 25.4
FT_PER_KM = 1000 / 0.3048
AWG_36_IN = 0.005  # ASTM B258: 36 AWG is 0.0050 in
AWG_RATIO = 92.0  # ASTM B258: 36 AWG to 4/0 AWG is a ratio of 92 in 39 equal steps
AWG_STEPS = 39
IACS_OHM_MM2_PER_M = 0.017241  # IEC 60028: annealed copper at 20 °C
IACS_PER_C = 0.00393  # IEC 60028: temperature coefficient of that copper, referred to 20 °C

K = TypeVar("K")
V = TypeVar("V")


def _of(table: Mapping[K, V], key: K, what: str) -> V:
    try:
        return table[key]
    except KeyError:
        known = ", ".join(map(str, table))
        raise ValueError(f"{what} {key!r} is not in the table; it has {known}") from None


def awg_diameter_in(gauge: int) -> float:
    """Diameter in inches of a solid conductor; 1/0 is gauge 0, 2/0 is -1, to 4/0 which is -3.

    ASTM B258. Holds for one solid round wire without insulation, gauges -3 to 40; ValueError outside.
    """
    if not -3 <= gauge <= 40:
        raise ValueError(f"gauge must be from -3 (4/0) to 40, not {gauge!r}")
    return AWG_36_IN * float(AWG_RATIO ** ((36 - gauge) / AWG_STEPS))


def awg_area_mm2(gauge: int) -> float:
    """Copper area in mm² of a solid conductor (ASTM B258). No metric size is an exact twin of a gauge."""
    return pi / 4 * (awg_diameter_in(gauge) * MM_PER_IN) ** 2


def annealed_ohm_per_kft(gauge: int, temp_c: float = 20.0) -> float:
    """Resistance in ohm per 1000 ft of a solid wire from its geometry (ASTM B258, IEC 60028).

    Agrees with Chapter 9, Table 8 within half a percent; rules use the table. Linear in temperature, so it
    holds for the range wiring works in, not near absolute zero.
    """
    at_20c = IACS_OHM_MM2_PER_M * 1000 / awg_area_mm2(gauge)
    return at_20c * (1 + IACS_PER_C * (temp_c - 20.0)) * 1000 / FT_PER_KM


def ohm_per_kft(gauge: int, *, stranded: bool = False, temp_c: float = us.TABLE_8_TEMP_C) -> float:
    """DC resistance of one copper conductor in ohm per 1000 ft.

    NEC Chapter 9, Table 8 (uncoated copper, 75 °C); another temperature by its note 2. Cable of 14, 12 and
    10 AWG is normally solid, conductors pulled in a raceway often stranded: the caller says which.
    ValueError for a size that the chosen column lacks.
    """
    table = us.STRANDED_OHM_PER_KFT if stranded else us.SOLID_OHM_PER_KFT
    at_75c = _of(table, gauge, f"{'stranded' if stranded else 'solid'} AWG size")
    return at_75c * (1 + us.TABLE_8_COPPER_PER_C * (temp_c - us.TABLE_8_TEMP_C))


def ohm_per_km(mm2: float, *, flexible: bool = False, temp_c: float = metric.RUNS_AT_C) -> float:
    """Largest DC resistance of one copper conductor in ohm per km at a temperature.

    IEC 60228, classes 1 and 2 (class 5 if `flexible`) at 20 °C, times (230 + t) / 250. ValueError for a size that is
    not listed.
    """
    table = metric.FLEXIBLE_OHM_PER_KM_20C if flexible else metric.OHM_PER_KM_20C
    zero = metric.COPPER_ZERO_C
    return _of(table, mm2, "size in mm²") * (temp_c - zero) / (20.0 - zero)


def bundle_factor(current_carrying: int) -> float:
    """Factor on ampacity for this many current-carrying conductors together for more than 24 in.

    NEC Table 310.15(C)(1) (Table 310.15(B)(3)(a) in 2017). 334.80 asks for it also where more than two NM
    cables share a sealed hole or lie together in insulation. Grounds do not count. ValueError below one
    conductor.
    """
    positive("the number of conductors", current_carrying)
    for most, factor in us.BUNDLE_FACTORS:
        if current_carrying <= most:
            return factor
    return us.BUNDLE_FACTOR_BEYOND


def nm_ampacity_a(gauge: int, current_carrying: int = 2) -> float:
    """Ampacity in A of copper NM cable: the adjusted 90 °C figure, never above the 60 °C column.

    NEC 334.80 with Table 310.16 (2011 edition and later). No correction for a hot place is made (30 °C
    assumed). ValueError for a size that is not listed (14 to 6 AWG).
    """
    start = _of(us.AMPACITY_90C_A, gauge, "AWG size")
    return min(start * bundle_factor(current_carrying), float(us.AMPACITY_60C_A[gauge]))


def standard_breaker_a(amps: float) -> int:
    """Smallest standard breaker in A that is not below `amps` (NEC 240.6(A), 15 to 100 A; 10 A left out).

    ValueError above 100 A: no circuit of one wall comes near it.
    """
    not_negative("the current", amps)
    for size in us.STANDARD_BREAKERS_A:
        if not exceeds(amps, size):
            return size
    raise ValueError(f"{amps} A is beyond the {us.STANDARD_BREAKERS_A[-1]} A this table reaches")


def max_breaker_a(gauge: int, current_carrying: int = 2) -> int:
    """Largest breaker in A allowed on copper NM cable of this size.

    NEC 240.4(D) for 14, 12 and 10 AWG. Otherwise the next standard size above the ampacity, 240.4(B); that
    step up is not given to a circuit that feeds several receptacles for cord-and-plug loads.
    """
    above = standard_breaker_a(nm_ampacity_a(gauge, current_carrying))
    return min(above, us.SMALL_CONDUCTOR_MAX_BREAKER_A.get(gauge, above))


def smallest_nm_gauge(design_a: float, breaker_a: int) -> int:
    """Smallest copper NM cable (AWG) that carries `design_a` and may stand behind a breaker of `breaker_a`.

    NEC 210.19(A)(1), 240.4 and 334.80, one cable alone. ValueError beyond 6 AWG.
    """
    not_negative("the design current", design_a)
    for gauge in us.AMPACITY_60C_A:
        if not exceeds(design_a, nm_ampacity_a(gauge)) and max_breaker_a(gauge) >= breaker_a:
            return gauge
    raise ValueError(f"{design_a} A on a {breaker_a} A breaker needs more than 6 AWG; ask an electrician")


def buried_factor(length_mm: float) -> float:
    """Factor on capacity for a cable wholly inside thermal insulation for `length_mm` (BS 7671 Table 52.2).

    The next longer printed length is taken, never one between. Half from 500 mm on.
    """
    not_negative("the length in insulation", length_mm)
    for most, factor in metric.BURIED_FACTORS:
        if length_mm <= most:
            return factor
    return metric.BURIED_FACTOR_BEYOND


def flat_cable_capacity_a(mm2: float, method: metric.Method, buried_mm: float = 0.0) -> float:
    """Capacity in A of flat twin-and-earth cable by installation method (BS 7671 Table 4D5).

    One circuit, 30 °C round it, no grouping. Methods 100 to 103 already allow for their insulation, so
    `buried_mm` goes with method "C" only; ValueError otherwise, and for a size or method that is not
    listed.
    """
    capacity = _of(_of(metric.CAPACITY_A, method, "method"), mm2, "size in mm²")
    if buried_mm and method != "C":
        raise ValueError(f"method {method} already allows for insulation; give a buried length with method C")
    return capacity * buried_factor(buried_mm)
