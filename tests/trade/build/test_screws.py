"""Screws and brackets: laws between and beyond the printed cells, and refusals."""

from __future__ import annotations

from collections.abc import Callable
from math import hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.trade.build import bracket, screws
from store.trade.build.bracket import Hung
from store.trade.build.screws import Held

GRAVITY = st.floats(0.3, 0.8)


@given(GRAVITY, st.floats(0.1, 1))
def test_breaking_loads_are_the_usual_multiples_of_the_allowable(gravity: float, inch: float) -> None:
    # Wood Handbook FPL-GTR-190 ch. 8 (from memory, high): 8100 · G^1.5 · D^0.75 and 15 700 · G² · D an inch of thread.
    assert 8100 * gravity**1.5 * inch**0.75 / screws.lag_withdrawal(gravity, inch) == pytest.approx(4.5)
    assert 15_700 * gravity**2 * inch / screws.wood_screw_withdrawal(gravity, inch) == pytest.approx(5.509, abs=0.001)


def test_the_unknown_wood_is_the_weakest_in_the_list() -> None:
    assert min(screws.GRAVITY.values()) == screws.UNKNOWN_GRAVITY


@given(st.sampled_from(sorted(screws.SCREWS)), st.floats(0.1, 4), st.floats(0.05, 1.5), GRAVITY)
def test_more_wood_never_holds_less(name: str, into: float, side: float, gravity: float) -> None:
    one = screws.SCREWS[name]
    less, more = (screws.lateral(one, gravity, each, side) for each in (into, into + 0.25))
    assert less <= more + 1e-9
    assert screws.lateral(one, gravity, into, side, across=True) <= screws.lateral(
        one, gravity, into, side, across=False
    )


@pytest.mark.parametrize(("name", "least"), [("lag 5/16", 4 * 0.3125), ("wood screw 10", 6 * 0.190)])
def test_too_little_wood_holds_nothing_sideways(name: str, least: float) -> None:
    one = screws.SCREWS[name]
    assert screws.lateral(one, 0.42, least - 0.01, 0.75) == 0
    assert screws.lateral(one, 0.42, least + 0.01, 0.75) > 0
    assert screws.in_wood(name, 0.42, 0, 0.75) == (0, 0)


@pytest.mark.parametrize(
    ("screw", "tip", "covering", "threaded", "bite"),
    [
        (3.0, 0.25, 0.62, 2.5, 2.13),  # the covering decides
        (3.0, 0.25, 0.10, 2.0, 1.75),  # the smooth shank decides
        (1.0, 0.25, 0.90, 1.0, 0.0),  # the tip alone reaches the stud
        (3.0, 0.1875, 0.625, None, 1.8125),  # two thirds of it threaded
    ],
)
def test_only_thread_in_the_stud_counts(
    screw: float, tip: float, covering: float, threaded: float | None, bite: float
) -> None:
    assert screws.thread_in_wood(screw, tip, covering, threaded) == pytest.approx(bite)


@given(st.floats(1, 500), st.floats(1, 500), st.floats(0, 300), st.floats(0, 300))
def test_a_slanting_load_is_held_between_both_ways_and_straight_ones_by_their_own(
    pull: float, shear: float, out: float, down: float
) -> None:
    held = Held(pull, shear)
    low, high = sorted(held)
    assert low - 1e-6 <= screws.at_angle(held, out, down) <= high + 1e-6
    assert screws.at_angle(held, 1, 0) == pull
    assert screws.at_angle(held, 0, 1) == shear
    assert screws.at_angle(Held(0, shear), 1, 1) == 0


@given(st.floats(1, 500), st.floats(0, 60), st.floats(1, 40), st.integers(1, 8), st.integers(0, 8))
def test_the_pull_balances_the_load_about_the_lower_row(
    load: float, arm: float, apart: float, upper: int, lower: int
) -> None:
    found = bracket.hardest([Hung(load, arm)], apart, upper, upper + lower)
    assert found.pull_lbf * upper * apart == pytest.approx(load * arm)
    assert found.shear_lbf * (upper + lower) == pytest.approx(load)
    assert found.both_lbf == pytest.approx(hypot(*found))


@given(st.floats(1, 300), st.floats(0, 40), st.floats(2, 30), st.sampled_from([1, 2]), st.floats(1, 3))
def test_the_number_of_screws_that_is_named_holds_and_one_row_less_does_not(
    load: float, arm: float, apart: float, rows: int, factor: float
) -> None:
    held = Held(150, 80)
    count = bracket.screws_needed(held, [Hung(load, arm)], apart, rows, factor)
    assert count is not None
    assert count % rows == 0

    def holds(number: int) -> bool:
        found = bracket.margin(held, bracket.hardest([Hung(load, arm)], apart, number // rows, number))
        return found is not None and found >= factor - 1e-6

    assert holds(count)
    assert count == rows or not holds(count - rows)


def test_no_load_wants_no_screw_and_nothing_that_holds_wants_none_either() -> None:
    assert bracket.screws_needed(Held(100, 100), [], 8, 2) == 0
    assert bracket.margin(Held(1, 1), bracket.hardest([], 8, 2, 4)) is None
    assert bracket.screws_needed(Held(0, 100), [Hung(10, 10)], 8, 2) is None


@pytest.mark.parametrize(
    "refused",
    [
        lambda: screws.lag_withdrawal(0, 1),
        lambda: screws.wood_screw_withdrawal(0.4, 0),
        lambda: screws.lateral(screws.SCREWS["lag 1/4"], 0.42, 2, 0),
        lambda: bracket.hardest([Hung(1, 1)], 0, 1, 1),
        lambda: bracket.hardest([Hung(1, 1)], 1, 0, 1),
        lambda: bracket.hardest([Hung(1, 1)], 1, 2, 1),
        lambda: bracket.hardest([Hung(-1, 1)], 1, 1, 1),
        lambda: bracket.screws_needed(Held(1, 1), [Hung(1, 1)], 1, 3),
    ],
)
def test_impossible_fixings_are_refused(refused: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match=r"above 0|one row or two"):
        refused()
