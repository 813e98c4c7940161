"""Pieces of sheet out of whole sheets, against what is known to be least, a solver for rips, and an outline check."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import LinearConstraint, milp

from store.trade.build.nest import sheets_for
from tests.tries import tries

FEET = (8, 9, 10, 12, 14, 16)


@pytest.mark.parametrize(
    ("pieces", "bought"),
    [
        ([], {}),
        ([(144, 48)] * 2, {144: 2}),
        ([(96, 24)] * 2, {96: 1}),  # two rips side by side
        ([(96, 24)] * 3, {96: 2}),  # not one of sixteen feet, which is as much
        ([(96, 14), (96, 14), (96, 14)], {96: 1}),  # three returns of 14
        ([(108, 12), (96, 12)], {108: 1}),
        ([(60, 48), (60, 48)], {120: 1}),  # one of ten feet, where eight feet would take two
        ([(42, 48), (54, 48)], {96: 1}),
        ([(72, 48)] * 4, {144: 2}),
        ([(96, 36), (96, 12), (48, 36)], {144: 1}),  # the short one at the end of the wide one
    ],
)
def test_known_least(pieces: list[tuple[int, int]], bought: dict[int, int]) -> None:
    assert sheets_for(pieces, 48, [12 * each for each in FEET]) == bought


def test_what_no_sheet_holds_is_refused() -> None:
    for piece in ((60, 60), (200, 12)):
        with pytest.raises(ValueError, match="larger than a sheet"):
            sheets_for([piece], 48, [96, 120])


def least_sheets(widths: list[int], sheet: int) -> int:
    """The least number of sheets for rips of one length, by an integer program."""
    n = len(widths)
    cost = np.concatenate([np.zeros(n * n), np.ones(n)])
    once, full = np.zeros((n, n * n + n)), np.zeros((n, n * n + n))
    for piece in range(n):
        once[piece, piece * n : (piece + 1) * n] = 1
        for at in range(n):
            full[at, piece * n + at] = widths[piece]
    for at in range(n):
        full[at, n * n + at] = -sheet
    rules = [LinearConstraint(once, 1, 1), LinearConstraint(full, -np.inf, 0)]
    least: int = round(milp(cost, constraints=rules, integrality=np.ones(n * n + n), bounds=(0, 1)).fun)
    return least


@given(st.lists(st.integers(8, 48), min_size=1, max_size=6))
@tries(10)
def test_rips_of_one_length_come_from_one_sheet_more_at_most_than_the_solver_finds(widths: list[int]) -> None:
    found = sum(sheets_for([(96, each) for each in widths], 48, [96]).values())
    assert least_sheets(widths, 48) <= found <= least_sheets(widths, 48) + 1


@given(st.lists(st.tuples(st.integers(6, 144), st.integers(4, 48)), min_size=1, max_size=12))
@tries(30)
def test_no_less_is_bought_than_is_hung_and_no_more_than_a_sheet_each(pieces: list[tuple[int, int]]) -> None:
    sold = [12 * each for each in FEET]
    bought = sum(long * 48 * count for long, count in sheets_for(pieces, 48, sold).items())
    each = sum(48 * min(long for long in sold if long >= along) for along, _ in pieces)
    assert sum(along * across for along, across in pieces) <= bought <= each
