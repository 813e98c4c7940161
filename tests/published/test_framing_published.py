"""Framing, squareness, shelves and cabinet heat against printed figures; each table names where they come
from."""

from __future__ import annotations

import pytest

from store.measure.length import INCH_NM
from store.trade import framing, survey


def inches(number: float) -> int:
    return round(number * INCH_NM)


# Carpentry texts (from memory, high): a straight wall of length L has ceil(L / s) + 1 studs.
STUD_COUNTS = [
    (96, 16, 7), (96, 24, 5), (120, 16, 9), (144, 16, 10), (150, 16, 11), (168, 16, 12),
    (120, 24, 6), (144, 24, 7), (150, 24, 8), (168, 24, 8),
]  # fmt: skip


@pytest.mark.parametrize(("length", "spacing", "count"), STUD_COUNTS)
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
    assert not framing.needs_plate(inches(1.375))
    assert framing.needs_plate(inches(1.25) - 1)


# Pythagoras and the law of cosines, by hand.
@pytest.mark.parametrize(("width", "height", "diagonal"), [(96, 60, 113.208), (144, 96, 173.067), (36, 48, 60)])
def test_diagonals(width: int, height: int, diagonal: float) -> None:
    found = survey.square_diagonal(inches(width), inches(height))
    assert found / INCH_NM == pytest.approx(diagonal, abs=0.0006)


def test_a_quarter_inch_over_on_three_four_five_opens_the_corner_by_half_a_degree() -> None:
    found = survey.corner(inches(36), inches(48), inches(60.25))
    assert found.angle_deg == pytest.approx(90.50, abs=0.005)
