"""The longest sheet round a corner, against a search for the angle at which it is tightest (scipy)."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import minimize_scalar

from store.measure.length import INCH_NM
from store.trade.build.way_in import HANDS_NM, longest_round_corner, longest_stick, widest_through

WIDTHS = st.integers(20, 120)


@given(WIDTHS, WIDTHS)
def test_it_is_the_least_that_any_angle_lets_through(first: int, second: int) -> None:
    one, other = (each * INCH_NM - HANDS_NM for each in (first, second))
    tight = minimize_scalar(
        lambda at: one / math.cos(at) + other / math.sin(at), bounds=(0.01, math.pi / 2 - 0.01), method="bounded",
        options={"xatol": 1e-9},
    )  # fmt: skip
    goes = longest_round_corner(first * INCH_NM, second * INCH_NM)
    assert 0 <= tight.fun - goes < INCH_NM * 1.01
    assert goes == longest_round_corner(second * INCH_NM, first * INCH_NM)


def test_two_equal_hallways_let_through_as_many_times_their_width_as_two_diagonals() -> None:
    # 37 in less a hand: 36 in times 2 √2 is 101.8 in.
    assert longest_round_corner(37 * INCH_NM, 37 * INCH_NM) == 101 * INCH_NM
    with pytest.raises(ValueError, match="hands"):
        longest_round_corner(HANDS_NM, 37 * INCH_NM)
    with pytest.raises(ValueError, match="hands"):
        widest_through(32 * INCH_NM, HANDS_NM)


def test_a_sheet_goes_through_a_door_along_its_diagonal_and_a_stick_round_a_corner_tilted() -> None:
    assert widest_through(31 * INCH_NM, 41 * INCH_NM) == 50 * INCH_NM, "30, 40, 50"
    assert longest_stick(60 * INCH_NM, 81 * INCH_NM) == 100 * INCH_NM, "60, 80, 100"
    assert longest_stick(60 * INCH_NM, 0) == 60 * INCH_NM
