"""Paths and cut lengths: exact, and never short."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from itertools import pairwise
from math import dist

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.measure.length import FOOT_NM, INCH_NM
from store.trade.cable.length import (
    METRE_NM,
    QUARTER_METRE_NM,
    cut_length_nm,
    next_sold_nm,
    path_length_nm,
    round_up_nm,
    studs_crossed,
)
from tests.rows import rows

nm = st.integers(-10 * METRE_NM, 10 * METRE_NM)
points = st.lists(st.tuples(nm, nm, nm), max_size=8)


def test_a_square_path_is_exact_and_a_3_4_5_one_too() -> None:
    square = [(0, 0, 0), (7 * FOOT_NM, 0, 0), (7 * FOOT_NM, 3 * FOOT_NM, 0), (7 * FOOT_NM, 3 * FOOT_NM, 1)]
    assert path_length_nm(square) == 10 * FOOT_NM + 1
    assert path_length_nm([(0, 0, 0), (36 * INCH_NM, 48 * INCH_NM, 0)]) == 60 * INCH_NM


def test_a_slanted_leg_is_rounded_up_and_no_path_is_nothing() -> None:
    assert path_length_nm([(0, 0, 0), (1, 1, 0)]) == 2
    assert path_length_nm([(5, 5, 5)]) == 0
    assert path_length_nm([]) == 0


@given(points)
def test_a_path_is_never_short_and_the_same_backwards(path: list[tuple[int, int, int]]) -> None:
    length = path_length_nm(path)
    assert length == path_length_nm(path[::-1])
    true = sum(dist(one, two) for one, two in pairwise(path))
    assert -1e-4 <= length - true <= len(path) + 1e-4


@given(points.filter(bool), st.tuples(nm, nm, nm))
def test_a_detour_never_shortens(path: list[tuple[int, int, int]], extra: tuple[int, int, int]) -> None:
    # Each leg may be rounded up by less than 1 nm, so the one.
    assert path_length_nm([path[0], extra, *path[1:]]) + 1 >= path_length_nm(path)


STUDS = [at * 16 * INCH_NM for at in range(6)]
THICK = 3 * INCH_NM // 2


def test_studs_between_two_boxes() -> None:
    assert studs_crossed(8 * INCH_NM, 40 * INCH_NM, STUDS, THICK) == (16 * INCH_NM, 32 * INCH_NM)
    assert studs_crossed(40 * INCH_NM, 8 * INCH_NM, STUDS, THICK) == (32 * INCH_NM, 16 * INCH_NM)


def test_a_run_within_one_bay_or_up_a_wall_bores_nothing() -> None:
    assert studs_crossed(2 * INCH_NM, 14 * INCH_NM, STUDS, THICK) == ()
    assert studs_crossed(16 * INCH_NM, 16 * INCH_NM, STUDS, THICK) == ()


def test_touching_a_face_is_not_boring_but_a_hair_into_it_is() -> None:
    face = 16 * INCH_NM - THICK // 2
    assert studs_crossed(2 * INCH_NM, face, STUDS, THICK) == ()
    assert studs_crossed(2 * INCH_NM, face + 1, STUDS, THICK) == (16 * INCH_NM,)
    far_face = 16 * INCH_NM + THICK // 2
    assert studs_crossed(far_face, 30 * INCH_NM, STUDS, THICK) == ()
    assert studs_crossed(far_face - 1, 30 * INCH_NM, STUDS, THICK) == (16 * INCH_NM,)


def test_a_stud_given_twice_is_bored_once() -> None:
    assert studs_crossed(0, 100, [50, 50]) == (50,)


def test_cut_length_adds_waste_and_both_allowances_and_rounds_up() -> None:
    cut = cut_length_nm(20 * FOOT_NM, 10, 12 * INCH_NM, 3 * FOOT_NM)
    assert cut == 26 * FOOT_NM
    assert cut_length_nm(20 * FOOT_NM + 1, 10, 12 * INCH_NM, 3 * FOOT_NM) == 27 * FOOT_NM
    assert cut_length_nm(6 * METRE_NM, 10, 0, METRE_NM, QUARTER_METRE_NM) == 7_750_000_000


def test_waste_may_be_a_fraction_of_a_percent() -> None:
    assert cut_length_nm(1000, Decimal("2.5"), 0, 0, 1) == 1025
    assert cut_length_nm(1000, Fraction(1, 3), 0, 0, 1) == 1004


@rows("bad", [(-1, 0, 0, 0), (0, -1, 0, 0), (0, 0, -1, 0), (0, 0, 0, -1)])
def test_nothing_negative(bad: tuple[int, int, int, int]) -> None:
    with pytest.raises(ValueError, match="negative"):
        cut_length_nm(*bad)


@given(
    st.integers(0, 10**11), st.integers(0, 100), st.integers(0, 10**10), st.sampled_from([FOOT_NM, QUARTER_METRE_NM])
)
def test_the_cut_is_the_least_whole_step_that_reaches(path: int, waste: int, slack: int, step: int) -> None:
    cut = cut_length_nm(path, waste, slack, slack, step)
    need = path * Fraction(100 + waste, 100) + 2 * slack
    assert cut % step == 0
    assert cut - step < need <= cut


def test_a_step_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="step"):
        round_up_nm(5, 0)


def test_an_assembled_cable_takes_the_next_length_sold() -> None:
    sold = [3 * FOOT_NM, 10 * FOOT_NM, 6 * FOOT_NM]
    assert next_sold_nm(6 * FOOT_NM, sold) == 6 * FOOT_NM
    assert next_sold_nm(6 * FOOT_NM + 1, sold) == 10 * FOOT_NM
    assert next_sold_nm(11 * FOOT_NM, sold) is None
