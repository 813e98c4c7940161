"""Screws and brackets: what the formulas do between and beyond the printed cells."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.measure.length import INCH_NM
from store.trade import hanging

GRAVITY = st.floats(0.3, 0.8)


@given(GRAVITY, st.integers(INCH_NM // 8, INCH_NM))
def test_the_breaking_load_of_a_lag_screw_is_four_and_a_half_times_the_allowable(gravity: float, nm: int) -> None:
    # Wood Handbook FPL-GTR-190 ch. 8 (from memory, high): 8100 · G^1.5 · D^0.75 · L.
    breaking = 8100 * gravity**1.5 * (nm / INCH_NM) ** 0.75
    assert breaking / hanging.lag_withdrawal(gravity, nm) == pytest.approx(4.5)


def test_the_unknown_wood_is_the_weakest_in_the_list() -> None:
    assert min(hanging.SPECIFIC_GRAVITY.values()) == hanging.UNKNOWN_GRAVITY


@pytest.mark.parametrize(("number", "inches"), [(6, 0.138), (8, 0.164), (10, 0.190), (12, 0.216), (14, 0.242)])
def test_wood_screw_numbers_have_their_diameters(number: int, inches: float) -> None:
    assert hanging.WOOD_SCREW_DIAMETER_NM[number] == round(inches * INCH_NM)


@pytest.mark.parametrize(
    ("screw", "tip", "covering", "threaded", "bite"),
    [
        (300, 25, 62, 250, 213),  # the covering decides
        (300, 25, 10, 200, 175),  # the smooth shank decides
        (100, 25, 90, 100, 0),  # the tip alone reaches the stud
    ],
)
def test_only_thread_in_the_stud_counts(screw: int, tip: int, covering: int, threaded: int, bite: int) -> None:
    assert hanging.thread_in_wood(screw, tip, covering, threaded) == bite


@given(st.floats(1, 500), st.integers(1, 10**9), st.integers(1, 10**9), st.integers(1, 8))
def test_the_pull_balances_the_load_about_the_lower_row(load: float, arm: int, rows: int, bolts: int) -> None:
    pull = hanging.lever_pull(load, arm, rows, bolts)
    assert pull.bolt_lbf * bolts * rows == pytest.approx(load * arm)
    assert pull.row_lbf == pytest.approx(pull.bolt_lbf * bolts)


def test_bolts_needed_rounds_up() -> None:
    assert [hanging.bolts_needed(pull, 100) for pull in (0, 1, 100, 100.1)] == [0, 1, 1, 2]


def test_lead_holes_are_known_for_soft_wood_only() -> None:
    assert hanging.lead_hole(0.42, 1_000) == (400, 700)
    assert hanging.lead_hole(0.55, 1_000) is None


@pytest.mark.parametrize(
    "refused",
    [
        lambda: hanging.lag_withdrawal(0, 1),
        lambda: hanging.wood_screw_withdrawal(0.4, 0),
        lambda: hanging.lever_pull(1, 1, 0, 1),
        lambda: hanging.lever_pull(1, 1, 1, 0),
        lambda: hanging.lever_pull(-1, 1, 1, 1),
        lambda: hanging.allowable_lbf(1, -1, 1),
        lambda: hanging.bolts_needed(1, 0),
    ],
)
def test_impossible_fixings_are_refused(refused: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match=r"above 0|negative|counted on"):
        refused()
