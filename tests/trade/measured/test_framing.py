"""Stud lines, bays and cuts on walls drawn by hand, and the limits just inside and just outside."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.measure.length import INCH_NM
from store.trade.measured import framing
from store.trade.measured.framing import Bay, Stud
from tests.rows import rows

WALL = framing.studs(96 * INCH_NM, 16 * INCH_NM, 16 * INCH_NM)


def halves(number: int) -> int:
    return number * INCH_NM // 2


def test_an_eight_foot_wall_has_its_studs_on_the_sixteens_and_at_both_ends() -> None:
    centres = [stud.centre_nm / INCH_NM for stud in WALL]
    assert centres == [0.75, 16, 32, 48, 64, 80, 95.25]
    assert {stud.right_nm - stud.left_nm for stud in WALL} == {halves(3)}


def test_a_clear_bay_at_sixteen_inches_is_fourteen_and_a_half() -> None:
    spaces = framing.bays(96 * INCH_NM, WALL)
    assert [bay.clear_nm / INCH_NM for bay in spaces] == [13.75, 14.5, 14.5, 14.5, 14.5, 13.75]
    assert [bay.number for bay in spaces] == [1, 2, 3, 4, 5, 6]


def test_a_wall_without_end_studs_leaves_a_bay_at_each_end() -> None:
    line = framing.studs(40 * INCH_NM, 16 * INCH_NM, 5 * INCH_NM, ends=False)
    assert [stud.centre_nm for stud in line] == [5 * INCH_NM, 21 * INCH_NM, 37 * INCH_NM]
    spaces = framing.bays(40 * INCH_NM, line)
    assert (spaces[0].left_nm, spaces[-1].right_nm) == (0, 40 * INCH_NM)
    assert len(spaces) == 4


def test_doubled_studs_leave_no_bay_between_them() -> None:
    line = [Stud(10, 13), Stud(13, 16), Stud(15, 18)]
    assert framing.bays(30, line) == (Bay(1, 0, 10), Bay(2, 18, 30))


@given(st.integers(8, 400), st.sampled_from([12, 16, 24]), st.integers(0, 24), st.booleans())
def test_studs_and_bays_fill_the_wall_without_overlap(width: int, spacing: int, first: int, ends: bool) -> None:
    first = min(first, width)
    line = framing.studs(width * INCH_NM, spacing * INCH_NM, first * INCH_NM, ends=ends)
    assert all(before.right_nm <= after.left_nm for before, after in pairwise(line))
    spaces = framing.bays(width * INCH_NM, line)
    inside = sum(min(stud.right_nm, width * INCH_NM) - max(stud.left_nm, 0) for stud in line)
    assert sum(bay.clear_nm for bay in spaces) + inside == width * INCH_NM
    for bay in spaces:
        assert not framing.studs_cut(line, bay.left_nm, bay.right_nm)
        assert framing.bay_of(spaces, bay.left_nm, bay.right_nm) == bay


def test_a_panel_fits_a_bay_up_to_its_clear_width_and_no_farther() -> None:
    spaces = framing.bays(96 * INCH_NM, WALL)
    left = spaces[1].left_nm
    assert framing.bay_of(spaces, left, left + halves(29)) == spaces[1]
    assert framing.bay_of(spaces, left, left + halves(29) + 1) is None
    assert framing.bay_of(spaces, left - 1, left + INCH_NM) is None


def test_an_opening_cuts_the_studs_it_runs_into_and_not_the_one_it_touches() -> None:
    left, right = WALL[1].right_nm, WALL[4].left_nm
    assert [stud.centre_nm // INCH_NM for stud in framing.studs_cut(WALL, left, right)] == [32, 48]
    assert len(framing.studs_cut(WALL, left - 1, right + 1)) == 4


def test_a_level_cable_crosses_the_studs_between_its_ends_either_way() -> None:
    crossed = framing.studs_crossed(WALL, 20 * INCH_NM, 70 * INCH_NM)
    assert [stud.centre_nm // INCH_NM for stud in crossed] == [32, 48, 64]
    assert framing.studs_crossed(WALL, 70 * INCH_NM, 20 * INCH_NM) == crossed
    at_centres = framing.studs_crossed(WALL, 32 * INCH_NM, 64 * INCH_NM)
    assert [stud.centre_nm // INCH_NM for stud in at_centres] == [48]


def test_a_wall_that_may_bear_is_held_to_the_bearing_limits() -> None:
    depth = halves(7)
    assert framing.bore_limit(depth, None) == framing.bore_limit(depth, True) < framing.bore_limit(depth, False)
    assert framing.notch_limit(depth, None) == framing.notch_limit(depth, True) < framing.notch_limit(depth, False)


def test_a_hole_at_the_limit_is_allowed_and_one_nanometre_more_is_not() -> None:
    limit = framing.bore_limit(halves(7), False)
    assert framing.look_at_bore(halves(7), limit, False).allowed
    over = framing.look_at_bore(halves(7), limit + 1, False)
    assert (over.allowed, over.diameter_spare_nm) == (False, -1)


def test_a_hole_that_only_a_doubled_stud_takes_says_so() -> None:
    hole = 2 * INCH_NM
    assert not framing.look_at_bore(halves(7), hole, True).allowed
    look = framing.look_at_bore(halves(7), hole, True, doubled=True)
    assert (look.allowed, look.only_doubled) == (True, True)
    assert not framing.look_at_bore(halves(7), INCH_NM, True, doubled=True).only_doubled


def test_a_hole_near_the_front_wants_its_plate_there_and_keeps_five_eighths() -> None:
    look = framing.look_at_bore(halves(7), INCH_NM, False, centre_nm=9 * INCH_NM // 8)
    assert (look.allowed, look.edge_spare_nm) == (True, 0)
    assert (look.plate_front, look.plate_back) == (True, False)
    nearer = framing.look_at_bore(halves(7), INCH_NM, False, centre_nm=9 * INCH_NM // 8 - 1)
    assert (nearer.allowed, nearer.edge_spare_nm) == (False, -1)


@given(st.integers(1, 10**9), st.integers(1, 10**9), st.integers(-(10**9), 10**9))
def test_turning_the_stud_round_turns_the_plates_round(depth: int, hole: int, centre: int) -> None:
    one = framing.look_at_bore(depth, hole, False, centre_nm=centre)
    other = framing.look_at_bore(depth, hole, False, centre_nm=depth - centre)
    assert (one.allowed, one.edge_spare_nm) == (other.allowed, other.edge_spare_nm)
    assert (one.plate_front, one.plate_back) == (other.plate_back, other.plate_front)


@rows(
    "refused",
    [
        lambda: framing.studs(INCH_NM, 16 * INCH_NM, 0),
        lambda: framing.studs(96 * INCH_NM, INCH_NM, 0),
        lambda: framing.studs(96 * INCH_NM, 16 * INCH_NM, 97 * INCH_NM),
        lambda: framing.studs(10**15, 10, 0, 10),
        lambda: framing.look_at_bore(0, 1, True),
    ],
)  # fmt: skip
def test_walls_that_cannot_be_are_refused(refused: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match=r"room for a stud|mistyped|above 0"):
        refused()
