"""Readings, squareness and slips, with parallelograms drawn by coordinates as the independent check."""

from __future__ import annotations

from collections.abc import Callable
from math import atan2, cos, degrees, hypot, radians, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.measure.length import FOOT_NM, INCH_NM, MM_NM
from store.trade.measured import survey
from tests.rows import rows

SIDES = st.integers(12 * INCH_NM, 240 * INCH_NM)


def sixteenths(whole: int, parts: int = 0) -> int:
    return whole * INCH_NM + parts * INCH_NM // 16


def test_the_least_reading_governs_and_the_scribe_takes_the_rest() -> None:
    found = survey.spread([sixteenths(75, 8), sixteenths(75, 4), sixteenths(75, 10)])
    assert (found.least_nm, found.greatest_nm) == (sixteenths(75, 4), sixteenths(75, 10))
    assert found.scribe_nm == sixteenths(0, 6)
    assert (found.count, found.within) == (3, False)


def test_an_eighth_of_an_inch_is_within_and_one_nanometre_more_is_not() -> None:
    assert survey.spread([0, INCH_NM // 8]).within
    assert not survey.spread([0, INCH_NM // 8 + 1]).within
    assert survey.spread([0, INCH_NM // 8 + 1], INCH_NM // 4).within


@given(st.lists(SIDES, min_size=1))
def test_the_spread_holds_every_reading(readings: list[int]) -> None:
    found = survey.spread(readings)
    assert found.least_nm in readings
    assert found.greatest_nm in readings
    assert all(found.least_nm <= each <= found.least_nm + found.scribe_nm for each in readings)


@given(SIDES, SIDES, st.floats(-20, 20))
def test_a_parallelogram_drawn_by_coordinates_gives_back_its_lean(width: int, height: int, lean: float) -> None:
    # Bottom from (0, 0) to (w, 0); the sides have length h and lean by the angle from the upright.
    dx, dy = height * sin(radians(lean)), height * cos(radians(lean))
    rising, falling = hypot(width + dx, dy), hypot(width - dx, dy)
    found = survey.square_by_diagonals(width, height, round(rising), round(falling))
    assert found.lean_nm == pytest.approx(dx, abs=30)
    assert found.off_deg == pytest.approx(lean, abs=1e-5)
    assert abs(found.misfit_nm) <= 2
    assert found.diagonals_differ_nm == abs(round(rising) - round(falling))


@given(SIDES, SIDES, st.integers(-20, 20))
def test_a_whole_lean_comes_back_to_the_nanometre_within_what_rounding_allows(
    width: int, height: int, lean: int
) -> None:
    # The diagonals are each known to half a nanometre, so the lean is known to (rising + falling) / 4·width.
    upright = (height**2 - lean**2) ** 0.5
    rising, falling = hypot(width + lean, upright), hypot(width - lean, upright)
    found = survey.square_by_diagonals(width, height, round(rising), round(falling))
    assert abs(found.lean_nm - lean) <= 1 + (rising + falling) / (4 * width)


def test_equal_diagonals_are_square_and_a_misread_one_shows_as_misfit() -> None:
    true = round(hypot(96, 60) * INCH_NM)
    found = survey.square_by_diagonals(96 * INCH_NM, 60 * INCH_NM, true, true)
    assert (found.lean_nm, found.off_deg, found.misfit_nm, found.within) == (0, 0, 0, True)
    wrong = survey.square_by_diagonals(96 * INCH_NM, 60 * INCH_NM, true + INCH_NM, true + INCH_NM)
    assert wrong.misfit_nm == INCH_NM
    assert wrong.lean_nm == 0


def test_which_diagonal_is_longer_says_which_way_it_leans() -> None:
    right = survey.square_by_diagonals(100, 100, 142, 141)
    left = survey.square_by_diagonals(100, 100, 141, 142)
    assert (right.lean_nm, left.lean_nm) == (1, -1)
    assert right.off_deg == -left.off_deg


@given(SIDES, SIDES, st.floats(30, 150))
def test_a_corner_drawn_by_coordinates_gives_back_its_angle(leg: int, other: int, angle: float) -> None:
    x, y = other * cos(radians(angle)), other * sin(radians(angle))
    found = survey.corner(leg, other, round(hypot(leg - x, y)))
    assert found.angle_deg == pytest.approx(degrees(atan2(y, x)), abs=1e-5)
    assert found.off_nm == pytest.approx(-x, abs=30)
    assert found.off_deg == pytest.approx(angle - 90, abs=1e-5)


@rows(
    ("one", "other", "name", "rest"),
    [
        (sixteenths(95, 12), sixteenths(83, 12), "one foot", 0),
        (sixteenths(95, 12), sixteenths(84, 4), "one foot", -sixteenths(0, 8)),
        (sixteenths(83, 4), sixteenths(95, 12), "one foot", sixteenths(0, 8)),
        (sixteenths(60), sixteenths(61), "one inch", 0),
        (sixteenths(60), sixteenths(70), "ten inches", 0),
        (1917 * MM_NM, 1817 * MM_NM, "ten centimetres", 0),
        (1917 * MM_NM, 1927 * MM_NM, "one centimetre", 0),
        (1917 * MM_NM, 2922 * MM_NM, "one metre", 5 * MM_NM),
    ],
)
def test_slips_of_the_tape_are_named(one: int, other: int, name: str, rest: int) -> None:
    slip = survey.likely_slip(one, other)
    assert slip is not None
    assert (slip.name, slip.rest_nm) == (name, rest)
    assert survey.likely_slip(other, one) == slip


@rows(
    "difference",
    [0, INCH_NM // 8, sixteenths(0, 15), sixteenths(1, 1), sixteenths(11, 7), sixteenths(12, 9), sixteenths(10, 1),
     101 * MM_NM, 11 * MM_NM, FOOT_NM + INCH_NM // 2 + 1],
)  # fmt: skip
def test_differences_that_look_real_are_let_be(difference: int) -> None:
    assert survey.likely_slip(sixteenths(96), sixteenths(96) + difference) is None


def test_the_odd_reading_among_three_is_the_one_named() -> None:
    found = survey.odd_readings([sixteenths(96), sixteenths(108, 2), sixteenths(96, 1)])
    assert [(odd.index, odd.against, odd.slip.name) for odd in found] == [(1, 2, "one foot")]
    assert found[0].slip.rest_nm == sixteenths(0, 1)


def test_a_single_reading_has_nothing_to_differ_from() -> None:
    assert survey.odd_readings([sixteenths(96)]) == ()


@rows(
    "refused",
    [
        lambda: survey.spread([]),
        lambda: survey.square_by_diagonals(0, 1, 1, 1),
        lambda: survey.square_by_diagonals(10, 10, 40, 1),
        lambda: survey.corner(10, 10, 21),
        lambda: survey.corner(10, 0, 10),
    ],
)
def test_readings_that_cannot_be_are_refused(refused: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match=r"at least one|above 0|read them again"):
        refused()
