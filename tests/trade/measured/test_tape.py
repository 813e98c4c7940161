"""Marking out: every edge appears once on its level, in walking order, and the tape is enough."""

from __future__ import annotations

from collections.abc import Callable
from math import hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.measure.length import FOOT_NM, INCH_NM
from store.trade.measured import tape
from store.trade.measured.tape import Outline
from tests.rows import rows

OUTLINES = st.lists(
    st.builds(Outline, st.sampled_from("NEBA"), st.integers(-50, 50), st.integers(-50, 50), st.integers(1,
    60), st.integers(1, 60)), max_size=12, )  # fmt: skip


def test_edges_centre_and_diagonal_of_one_outline() -> None:
    at = tape.marks(Outline("N1", 10 * INCH_NM, -3 * INCH_NM, 40 * INCH_NM, 30 * INCH_NM))
    assert (at.left_nm, at.right_nm) == (10 * INCH_NM, 50 * INCH_NM)
    assert (at.bottom_nm, at.top_nm) == (-3 * INCH_NM, 27 * INCH_NM)
    assert (at.centre_x_nm, at.centre_y_nm) == (30 * INCH_NM, 12 * INCH_NM)
    assert at.diagonal_nm == 50 * INCH_NM


def test_two_outlines_side_by_side_share_the_stop_between_them() -> None:
    lines = tape.running([Outline("N2", 30, 0, 20, 10), Outline("N1", 0, 0, 30, 10)])
    assert [line.level_nm for line in lines] == [0, 10]
    assert lines[0].stops == (
        tape.Stop(0, (("N1", "left"),)),
        tape.Stop(30, (("N1", "right"), ("N2", "left"))),
        tape.Stop(50, (("N2", "right"),)),
    )


@given(OUTLINES)
def test_running_marks_hold_each_corner_once_and_never_walk_back(outlines: list[Outline]) -> None:
    lines = tape.running(outlines)
    wanted = sorted(
        (level, x, outline.tag, edge)
        for outline in outlines
        for level in (outline.y_nm, outline.y_nm + outline.height_nm)
        for x, edge in ((outline.x_nm, "left"), (outline.x_nm + outline.width_nm, "right"))
    )
    walked = [
        (line.level_nm, stop.at_nm, tag, edge) for line in lines for stop in line.stops for tag, edge in stop.edges
    ]
    assert walked == wanted
    for line in lines:
        places = [stop.at_nm for stop in line.stops]
        assert places == sorted(set(places))


@given(OUTLINES, st.integers(1, 500), st.integers(0, 50))
def test_the_rolls_hold_the_tape_and_one_fewer_would_not(outlines: list[Outline], roll: int, spare: int) -> None:
    length = tape.tape_length(outlines)
    count = tape.rolls(length, roll, spare)
    assert count * roll * 100 >= length * (100 + spare)
    assert count == 0 or (count - 1) * roll * 100 < length * (100 + spare)


def test_the_diagonal_is_that_of_the_outline() -> None:
    assert tape.marks(Outline("N1", 0, 0, 12_345, 6_789)).diagonal_nm == round(hypot(12_345, 6_789))


def test_one_roll_outlines_twelve_65_inch_pictures_and_not_thirteen() -> None:
    # 2 (W + H) of a 65 in picture is 177.04 in, 14.75 ft; a roll is 180 ft (by hand).
    picture = Outline("E1", 0, 0, round(56.652 * INCH_NM), round(31.867 * INCH_NM))
    length = tape.tape_length([picture])
    assert length / FOOT_NM == pytest.approx(14.75, abs=0.005)
    assert tape.rolls(12 * length) == 1
    assert tape.rolls(13 * length) == 2


@rows(
    "refused",
    [
        lambda: tape.marks(Outline("N1", 0, 0, 0, 1)),
        lambda: tape.tape_length([Outline("N1", 0, 0, 1, 0)]),
        lambda: tape.rolls(1, 0),
        lambda: tape.rolls(-1),
    ],
)
def test_nothing_to_mark_is_refused(refused: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match="above 0"):
        refused()
