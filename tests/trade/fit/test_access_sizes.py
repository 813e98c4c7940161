"""Openings for hands and parts: against the figures of the printed sources, and against trying every turn."""

from __future__ import annotations

from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.measure.length import INCH_NM, MM_NM
from store.trade.fit.access_sizes import (
    DOORS_IN,
    HELD_LEAST_NM,
    HELD_SIDES_NM,
    HELD_TOP_NM,
    LEAST,
    REACH_NM,
    USUAL,
    door_for,
    doors,
    framed_nm,
    held_through,
    lets_through,
    part_through,
)
from store.trade.fit.pieces import Size

SIZES = st.integers(1, 40).map(lambda inches: inches * INCH_NM)


@pytest.mark.parametrize(
    ("task", "width", "height"),
    [("one hand", 3.5, 5.0), ("an arm", 5.0, 5.0)],  # clenched hand, and arm to the shoulder: MIL-STD-1472, from memory
)
def test_the_least_openings_are_those_of_the_standard(task: str, width: float, height: float) -> None:
    way = LEAST[task]  # type: ignore[index]
    assert (way.width_nm, way.height_nm) == (width * INCH_NM, height * INCH_NM)
    assert way.sure


def test_what_is_not_sure_is_marked_as_common_practice() -> None:
    assert not LEAST["two hands"].sure
    assert all(not way.sure for way in USUAL.values())


def test_what_is_usual_lets_the_least_through_too() -> None:
    for task, way in USUAL.items():
        assert lets_through(way.width_nm, way.height_nm, LEAST[task])
        assert REACH_NM[task] > 0


def test_an_opening_may_be_turned_on_its_side() -> None:
    hand = LEAST["one hand"]
    assert lets_through(hand.height_nm, hand.width_nm, hand)
    assert not lets_through(hand.height_nm, hand.width_nm - 1, hand)
    assert not lets_through(hand.height_nm - 1, hand.width_nm, hand)


def test_the_door_is_the_smallest_that_gives_the_size() -> None:
    door = door_for(9 * INCH_NM, 6 * INCH_NM)
    assert door is not None
    assert (door.width_nm, door.height_nm) == (9 * INCH_NM, 6 * INCH_NM)
    larger = door_for(9 * INCH_NM + 1, 6 * INCH_NM)
    assert larger is not None
    assert (larger.width_nm, larger.height_nm) == (10 * INCH_NM, 10 * INCH_NM)
    assert door_for(37 * INCH_NM, INCH_NM) is None


def test_metric_doors_are_square_and_in_millimetres() -> None:
    door = door_for(301 * MM_NM, 200 * MM_NM, metric=True)
    assert door is not None
    assert (door.width_nm, door.height_nm) == (400 * MM_NM, 400 * MM_NM)
    assert len(doors(metric=False)) == len(DOORS_IN)


@given(SIZES, SIZES)
def test_no_smaller_door_would_do(width: int, height: int) -> None:
    found = door_for(width, height)
    fitting = [
        (w * INCH_NM) * (h * INCH_NM)
        for each in DOORS_IN
        for w, h in permutations(each)
        if w * INCH_NM >= width and h * INCH_NM >= height
    ]
    assert (found.width_nm * found.height_nm if found else None) == min(fitting, default=None)


def test_a_bay_of_14_1_2_in_takes_a_door_of_14_in_in_its_frame() -> None:
    assert framed_nm(14 * INCH_NM) <= 29 * INCH_NM // 2 < framed_nm(16 * INCH_NM)


def test_a_part_goes_through_in_the_turn_that_suits_it() -> None:
    part = Size(10 * INCH_NM, 4 * INCH_NM, 3 * INCH_NM)
    assert part_through(part, 5 * INCH_NM, 4 * INCH_NM).verdict == "fits"
    assert part_through(part, 3 * INCH_NM, 3 * INCH_NM).verdict == "does not fit"


def test_hands_at_its_sides_take_4_1_2_in_more() -> None:
    part = Size(6 * INCH_NM, 6 * INCH_NM, 6 * INCH_NM)
    assert held_through(part, 6 * INCH_NM + HELD_SIDES_NM, 6 * INCH_NM + HELD_TOP_NM) is True
    assert held_through(part, 6 * INCH_NM + HELD_SIDES_NM - 1, 6 * INCH_NM + HELD_TOP_NM) is False
    assert held_through(Size(INCH_NM, INCH_NM, INCH_NM), INCH_NM + HELD_SIDES_NM, HELD_LEAST_NM) is True
    assert held_through(Size(INCH_NM, INCH_NM, None), 20 * INCH_NM, 20 * INCH_NM) is None


@given(SIZES, SIZES, SIZES, SIZES, SIZES)
def test_what_passes_held_also_passes(width: int, height: int, depth: int, across: int, up: int) -> None:
    part = Size(width, height, depth)
    if held_through(part, across, up):
        assert part_through(part, across, up).verdict in ("fits", "tight")
