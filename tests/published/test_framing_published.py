"""Framing, squareness, shelves and cabinet heat against printed figures; each table names where they come
from."""

from __future__ import annotations

import pytest

from store.measure.length import INCH_NM
from store.trade.fit import shelf
from store.trade.heat import enclosure
from store.trade.measured import framing, survey
from tests.rows import rows


def inches(number: float) -> int:
    return round(number * INCH_NM)


# Carpentry texts (from memory, high): a straight wall of length L has ceil(L / s) + 1 studs.
STUD_COUNTS = [
    (96, 16, 7), (96, 24, 5), (120, 16, 9), (144, 16, 10), (150, 16, 11), (168, 16, 12),
    (120, 24, 6), (144, 24, 7), (150, 24, 8), (168, 24, 8),
]  # fmt: skip


@rows(("length", "spacing", "count"), STUD_COUNTS)
def test_stud_counts(length: int, spacing: int, count: int) -> None:
    assert len(framing.studs(inches(length), inches(spacing), inches(spacing))) == count


@pytest.mark.parametrize(("spacing", "clear"), [(16, 14.5), (24, 22.5)])
def test_clear_bays(spacing: int, clear: float) -> None:
    line = framing.studs(inches(144), inches(spacing), inches(spacing))
    assert framing.bays(inches(144), line)[1].clear_nm == inches(clear)


# IRC R602.6 (2018, secondary copies): 25 % and 40 % notches, 40 % and 60 % holes, of actual stud depths (NIST
# PS 20).
LIMITS = [(3.5, 0.875, 1.400, 1.400, 2.100), (5.5, 1.375, 2.200, 2.200, 3.300)]


@pytest.mark.parametrize(("depth", "notch_bearing", "notch", "bore_bearing", "bore"), LIMITS)
def test_notches_and_holes_in_studs(
    depth: float, notch_bearing: float, notch: float, bore_bearing: float, bore: float
) -> None:
    assert framing.notch_limit(inches(depth), True) == inches(notch_bearing)
    assert framing.notch_limit(inches(depth), False) == inches(notch)
    assert framing.bore_limit(inches(depth), True) == inches(bore_bearing)
    assert framing.bore_limit(inches(depth), True, doubled=True) == inches(bore)
    assert framing.bore_limit(inches(depth), False) == inches(bore)


# The largest hole of IRC R602.6 in a two-by-four leaves 0.70 in on each side, more than the 5/8 in asked for.
def test_the_largest_hole_keeps_its_edges() -> None:
    look = framing.look_at_bore(inches(3.5), inches(2.1), False)
    assert look.allowed
    assert look.edge_spare_nm == inches(0.70) - inches(0.625)
    assert (look.plate_front, look.plate_back) == (True, True)


# NEC 300.4(A)(1) (secondary copy): 1-1/4 in to each edge leaves 1.0 in in a two-by-four and 3.0 in in a
# two-by-six.
@pytest.mark.parametrize(("depth", "hole"), [(3.5, 1.0), (5.5, 3.0)])
def test_holes_without_plates(depth: float, hole: float) -> None:
    assert framing.largest_hole_without_plate(inches(depth)) == inches(hole)
    clean = framing.look_at_bore(inches(depth), inches(hole), False)
    assert (clean.plate_front, clean.plate_back) == (False, False)
    larger = framing.look_at_bore(inches(depth), inches(hole) + 1, False)
    assert (larger.plate_front, larger.plate_back) == (True, True)


def test_a_three_quarter_hole_in_the_middle_of_a_two_by_four_needs_no_plate() -> None:
    look = framing.look_at_bore(inches(3.5), inches(0.75), None)
    assert (look.allowed, look.plate_front, look.plate_back) == (True, False, False)


def test_a_quarter_inch_over_on_three_four_five_opens_the_corner_by_half_a_degree() -> None:
    found = survey.corner(inches(36), inches(48), inches(60.25))
    assert found.angle_deg == pytest.approx(90.50, abs=0.005)


# Beam formulas calculated by hand: shelf 11-1/4 × 3/4 in, 25 lb/ft, simple supports; stiffness of the Wood
# Handbook (FPL-GTR-190 Tables 5-3b and 12-1). Sag at 24, 30, 36 and 48 in, then the longest span for L/600
# and for L/360.
SHELVES = [
    (1.95, (0.0117, 0.0285, 0.0591, 0.1867), 36.19, 42.90),
    (1.82, (0.0125, 0.0305, 0.0633, 0.2000), 35.36, 41.93),
    (1.58, (0.0144, 0.0352, 0.0729, 0.2304), 33.74, 40.00),
    (1.24, (0.0184, 0.0448, 0.0929, 0.2936), 31.12, 36.89),
    (1.01, (0.0225, 0.0550, 0.1141, 0.3605), 29.06, 34.46),
    (0.60, (0.0379, 0.0926, 0.1920, 0.6068), 24.43, 28.96),
    (0.52, (0.0438, 0.1068, 0.2215, 0.7002), 23.29, 27.62),
    (0.40, (0.0569, 0.1389, 0.2880, 0.9102), 21.34, 25.30),
]
BOARD = shelf.stiffness_in4(inches(11.25), inches(0.75))


def test_the_stiffness_of_a_plain_board() -> None:
    assert pytest.approx(0.395508, abs=5e-7) == BOARD


@rows(("million", "sags", "seen", "building"), SHELVES)
def test_shelf_sags(million: float, sags: tuple[float, ...], seen: float, building: float) -> None:
    for span, printed in zip((24, 30, 36, 48), sags, strict=True):
        sag = shelf.sag_nm(inches(span), BOARD, million * 1e6, shelf.even_load_lbf(inches(span), 25))
        assert sag / INCH_NM == pytest.approx(printed, abs=5.1e-5)
    longest = shelf.longest_span_nm(BOARD, million * 1e6, 25)
    assert longest / INCH_NM == pytest.approx(seen, abs=0.0051)
    wider = shelf.longest_span_nm(BOARD, million * 1e6, 25, ratio=360)
    assert wider / INCH_NM == pytest.approx(building, abs=0.0051)


# Red oak, 36 in, 75 lb: creep factors of NDS 3.5.2; the standard cases of the beam tables.
@rows(
    ("support", "load", "creep", "printed"),
    [
        ("simple", "even", 1.5, 0.0949),
        ("simple", "even", 2.0, 0.1266),
        ("simple", "centre", 1.0, 0.1013),
        ("fixed", "even", 1.0, 0.01266),
        ("fixed and simple", "even", 1.0, 0.02628),
    ],
)
def test_a_red_oak_shelf_held_and_loaded_in_other_ways(
    support: shelf.Support, load: shelf.Load, creep: float, printed: float
) -> None:
    sag = shelf.sag_nm(inches(36), BOARD, 1.82e6, 75, support, load, creep)
    # The last row is printed with the rounded L⁴/185, 0.2 % under the exact coefficient.
    assert sag / INCH_NM == pytest.approx(printed, rel=2.5e-3)


# ASHRAE Fundamentals, q = 1.08 · cfm · ΔT, with 3.412142 Btu/h a watt; rises in °F.
@rows(("watts", "rise_f", "cfm", "m3_per_h"), [(100, 10, 31.59, 53.7), (200, 15, 42.12, 71.6), (300, 20, 47.39, 80.5)])
def test_airflow_for_a_heat(watts: float, rise_f: float, cfm: float, m3_per_h: float) -> None:
    flow = enclosure.airflow_needed(watts, rise_f / 1.8)
    assert flow.cfm == pytest.approx(cfm, abs=0.0075)
    assert flow.m3_per_h == pytest.approx(m3_per_h, abs=0.051)
    assert enclosure.rise_with_fan(watts, flow.cfm) == pytest.approx(rise_f / 1.8)


def test_airflow_factors() -> None:
    assert pytest.approx(enclosure.AIR_FACTOR) == 60 * 0.075 * 0.24
    assert enclosure.airflow_needed(1, 1 / 1.8).cfm == pytest.approx(3.159, abs=5e-4)
    assert enclosure.airflow_needed(1, 1).cfm == pytest.approx(1.755, abs=5e-4)
    assert enclosure.airflow_needed(1, 1).m3_per_h == pytest.approx(3600 / (1.2 * 1006), abs=5e-3)


def celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32) / 1.8


# ASHRAE Fundamentals, stack effect: equal openings, neutral level half-way, C 0.65.
@pytest.mark.parametrize(
    ("square_feet", "height_ft", "inside_f", "outside_f", "cfm"), [(0.25, 3, 95, 75, 18.19), (1, 20, 80, 60, 190.5)]
)
def test_stack_flow_in_feet(
    square_feet: float, height_ft: float, inside_f: float, outside_f: float, cfm: float
) -> None:
    area = square_feet * 144
    flow = enclosure.stack_flow(area, area, inches(12 * height_ft), celsius(inside_f), celsius(outside_f))
    assert flow.cfm == pytest.approx(cfm, rel=4e-4)


def test_stack_flow_in_metres() -> None:
    area = 0.02 / 0.0254**2
    flow = enclosure.stack_flow(area, area, 1_000_000_000, 35, 25)
    assert flow.m3_per_h == pytest.approx(26.4, abs=0.05)
    # Printed with 1.2 kg/m³ and 1006 J/kgK, 0.1 % from the rounded 1.08.
    assert enclosure.heat_carried(flow.cfm, 10) == pytest.approx(88.5, rel=2e-3)


def test_the_heat_that_a_cabinet_sheds_at_twenty_degrees() -> None:
    assert enclosure.heat_carried(18.19, 20 / 1.8) == pytest.approx(115.1, abs=0.06)
    balance = enclosure.stack_balance(115.1, 36, 36, inches(36), celsius(75))
    assert balance is not None
    assert balance.rise_c * 1.8 == pytest.approx(20, abs=0.02)


def test_unequal_openings_in_a_row() -> None:
    assert enclosure.series_area(0.25, 0.50) == pytest.approx(0.2236, abs=5e-5)
