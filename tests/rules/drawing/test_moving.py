"""Moving things on the wall: steps, snaps, and what cannot be moved."""

from __future__ import annotations

from typing import Any

import msgspec
import pytest

from store.measure.errors import BadValue
from store.measure.length import INCH_NM, Length
from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.inside import ShelfBoard
from store.records.wall import BuildOut, Opening, Reading, Wall
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.drawing.cuts import section, through
from store.rules.drawing.elevation import scene
from store.rules.drawing.moving import movable, move_words, moved, snapped, step_nm, stepped, view_for
from tests.jobs.wall_jobs import ROOM, board, job_of, made, read, wall

WALL = (wall(first_stud=16, spacing=16), read("D1", "width", 144), read("D2", "height", 96))


def opening(tag: str, x: float, width: float = 20, **values: Any) -> Opening:
    """An opening on W1, 30 in up and 20 in high."""
    return made(Opening, tag, name=tag, wall="W1", x=x, y=30, width=width, height=20, **values)


def left(record: Any) -> float:
    """Its place from the left, inches."""
    return float(record.x.nm / INCH_NM)


def snap(job: Job, tag: str, to: Any) -> float:
    """Where it comes by a snap."""
    return left(snapped(job, movable(job, tag), to))


def test_steps_are_those_of_a_tape() -> None:
    assert [step_nm(False, fine) * 16 for fine in (False, True)] == [8 * INCH_NM, INCH_NM]
    assert [step_nm(True, fine) for fine in (False, True)] == [10_000_000, 1_000_000]


def test_nothing_goes_left_of_the_corner_or_below_the_floor() -> None:
    gone = moved(opening("N1", 3), -10 * INCH_NM, -100 * INCH_NM)
    assert (gone.x, gone.y) == (Length(0), Length(0))


def test_an_opening_snaps_to_the_nearest_stud_face_with_either_side() -> None:
    # Studs of 1 1/2 in have faces at 15 1/4 and 16 3/4, 31 1/4 and 32 3/4, ...; the right side is 20 in away.
    job = job_of(*WALL, opening("N1", 17), opening("N2", 50))
    assert snap(job, "N1", "stud") == 16.75
    # From 50 the left face 48 3/4 is 1 1/4 away; the right side at 70 is 6 in from 64 3/4 and 9 1/4 from 79 1/4.
    assert snap(job, "N2", "stud") == 48.75


def test_a_box_snaps_with_its_side_to_a_stud() -> None:
    job = job_of(*WALL, made(Box, "B1", what="receptacle", wall="W1", x=18.5, y=16))
    # Half of a single-gang box is 1 1/8 in: its side comes to the face at 16 3/4.
    assert snap(job, "B1", "stud") == 16.75 + 1.125


def test_an_opening_snaps_to_its_neighbour() -> None:
    job = job_of(*WALL, opening("N1", 10), opening("N2", 32))
    assert snap(job, "N2", "neighbour") == 30


def test_the_centre_is_that_of_the_wall_as_it_governs() -> None:
    job = job_of(*WALL, opening("N1", 10))
    assert snap(job, "N1", "centre") == 62


def test_where_there_is_nothing_to_snap_to_it_says_so() -> None:
    job = job_of(*WALL, opening("N1", 10))
    with pytest.raises(BadValue, match="no neighbour"):
        snap(job, "N1", "neighbour")
    bare = job_of(wall(first_stud=None), *WALL[1:], opening("N1", 10))
    with pytest.raises(BadValue, match="no stud"):
        snap(bare, "N1", "stud")


def test_what_has_no_place_or_is_no_opening_is_not_moved() -> None:
    job = job_of(*WALL, made(Opening, "N1", name="somewhere"))
    with pytest.raises(BadValue, match="not placed yet"):
        movable(job, "N1")
    with pytest.raises(BadValue, match="Move an opening, an access panel, a box"):
        movable(job, "W1")


def test_a_move_is_told_in_words() -> None:
    was = opening("N1", 10)
    assert move_words(was, moved(was, 2 * INCH_NM, -INCH_NM // 2), False) == 'right 2", down 1/2"'
    assert move_words(was, was, False) == ""


def test_a_look_at_what_would_follow_leaves_the_job_alone() -> None:
    job = job_of(*WALL, opening("N1", 10))
    there = job.having(opening("N1", 40))
    assert left(there.of(Opening)["N1"]) == 40
    assert left(job.of(Opening)["N1"]) == 10


def test_a_shelf_goes_up_and_down_inside_and_a_divider_sideways() -> None:
    given = {"use": "equipment", "depth": 20, "thickness": 0.75, "pin_first": 6, "pin_step": 1.25}
    job = job_of(
        *WALL, opening("N1", 10, 37.5, **given), board("G1", 10), board("G2", what="divider", along=10), board("G3")
    )
    shelf = moved(movable(job, "G1"), 5 * INCH_NM, INCH_NM)
    assert isinstance(shelf, ShelfBoard)
    assert (shelf.up, shelf.along) == (Length(11 * INCH_NM), None)
    assert move_words(movable(job, "G1"), shelf, False) == 'up 1"'
    # Undersides at 6, 7-1/4, 8-1/2, 9-3/4: from 9-1/4 the nearest is 9-3/4, and the top then 10-1/2.
    pinned = snapped(job, movable(job, "G1"), "neighbour")
    assert isinstance(pinned, ShelfBoard)
    assert pinned.up == Length(21 * INCH_NM // 2)
    # The opening is 36 in wide inside: a divider of 3/4 in stands in its middle from 17-5/8 in.
    divider = snapped(job, movable(job, "G2"), "centre")
    assert isinstance(divider, ShelfBoard)
    assert divider.along == Length(141 * INCH_NM // 8)
    with pytest.raises(BadValue, match="not placed yet"):
        movable(job, "G3")
    with pytest.raises(BadValue, match="Move it with the arrows"):
        snapped(job, movable(job, "G2"), "stud")
    ceiling = job_of(*WALL, made(Panel, "A1", name="hatch", wall="W1", x=10, y=10, width=12, height=12, face="ceiling"))
    with pytest.raises(BadValue, match="no drawing shows"):
        movable(ceiling, "A1")


def test_past_the_end_of_a_wall_a_thing_goes_round_the_corner() -> None:
    """W1 is 144 wide, W2 120: a box 2-1/4 wide at the end of W1 goes to the left end of W2, and back."""
    walls = [wall(meets_right="W2"), *ROOM[1:], made(Wall, "W2", name="side"),
             made(Reading, "D3", wall="W2", what="width", value=120)]  # fmt: skip
    job = job_of(*walls, made(Box, "B1", what="switch", wall="W1", x=142.5, y=48))
    box = movable(job, "B1")
    near = stepped(job, box, INCH_NM // 4, 0)
    assert isinstance(near, Box)
    assert (near.wall, near.x) == ("W1", Length(round(142.75 * INCH_NM)))
    over = stepped(job, box, INCH_NM // 2, INCH_NM)
    assert isinstance(over, Box)
    assert (over.wall, over.x, over.y) == ("W2", Length(round(1.125 * INCH_NM)), Length(49 * INCH_NM))
    assert move_words(box, over, metric=False) == 'to W2, 1-1/8" from left, 4\'-1" up'
    back = stepped(job.having(over), over, -INCH_NM // 2, 0)
    assert isinstance(back, Box)
    assert (back.wall, back.x) == ("W1", Length(round(142.875 * INCH_NM)))
    # A wide thing is put whole on the other wall; where none meets it goes on, and the problem is told.
    tv = made(Equipment, "E1", name="TV", what="screen", wall="W2", x=30, y=50, width=60, height=34)
    left = stepped(job.having(tv), tv, -INCH_NM, 0)
    assert (left.wall, left.x) == ("W1", Length(114 * INCH_NM))
    assert stepped(job, msgspec.structs.replace(tv, x=Length(90 * INCH_NM)), INCH_NM, 0).wall == "W2"


def place(record: Any) -> tuple[float, float]:
    """Its place across and up, inches."""
    return left(record), float(record.y.nm / INCH_NM)


def test_nothing_is_moved_up_through_the_ceiling_nor_sideways_under_a_lower_one() -> None:
    """A ceiling that falls from 8 ft at the left to 4 ft at the right end, 144 in on: a third of an inch an inch."""
    sloped = (wall(ceiling_line=("0/96", "144/48")), read("D1", "width", 144), read("D2", "height", 96))
    # N1 is 30 to 50 in up and 20 in wide: at 100 in its right end is under 56 in.
    job, far = job_of(*sloped, opening("N1", 100)), 100 * INCH_NM
    one = movable(job, "N1")
    assert place(stepped(job, one, 0, 4 * INCH_NM)) == (100, 34)
    assert place(stepped(job, one, 0, far)) == (100, 36), "it touches"
    there = stepped(job, one, 0, far)
    assert stepped(job, there, 0, INCH_NM) == there
    assert stepped(job, there, 3 * INCH_NM, 0) == there, "to the right the ceiling is lower"
    assert place(stepped(job, there, -3 * INCH_NM, 0)) == (97, 36)
    # What is above it already, as its ceiling was read later, is let down and to where it is higher.
    high = movable(job_of(*sloped, made(Opening, "N1", name="N1", wall="W1", x=100, y=50, width=20, height=20)), "N1")
    assert place(stepped(job, high, 0, -INCH_NM)) == (100, 49)
    assert place(stepped(job, high, -INCH_NM, 0)) == (99, 50)
    assert stepped(job, high, 0, INCH_NM) == high
    no_height = job_of(wall(), opening("N1", 100))
    assert place(stepped(no_height, one, 0, far)) == (100, 130)


def test_a_thing_on_a_return_goes_out_and_back_and_not_off_its_build_out() -> None:
    breast = made(BuildOut, "U1", name="breast", wall="W1", x=40, width=60, depth=12)
    sconce = {"name": "sconce", "what": "sconce", "wall": "W1", "on": "U1", "width": 4, "height": 8, "depth": 3}

    def job(**values: Any) -> Job:
        return job_of(*WALL, breast, made(Equipment, "E1", **sconce, **values))

    side = job(face="left return", x=6, y=60)
    one = movable(side, "E1")
    assert view_for(one) == "section"
    # The upright cut has the room at the left: to the left is out from the wall.
    out = stepped(side, one, -2 * INCH_NM, 0)
    assert place(out) == (8, 60)
    assert move_words(one, out, False) == 'out 2"'
    assert place(stepped(side, one, 2 * INCH_NM, INCH_NM)) == (4, 61)
    assert move_words(one, stepped(side, one, 2 * INCH_NM, INCH_NM), False) == 'back 2", up 1"'
    assert stepped(side, one, -5 * INCH_NM, 0) == one, "past the front edge"
    assert stepped(side, one, 5 * INCH_NM, 0) == one, "into the wall"
    assert stepped(side, one, 0, 33 * INCH_NM) == one, "through the ceiling"
    # From above the room is at the bottom: down is out.
    raised = made(BuildOut, "U1", name="soffit", wall="W1", x=40, y=70, width=60, depth=12, height=20)
    below = made(Equipment, "E1", **sconce, face="underside", x=70, y=6)
    under = job_of(*WALL, raised, below)
    lamp = movable(under, "E1")
    assert view_for(lamp) == "plan"
    assert move_words(lamp, stepped(under, lamp, INCH_NM, -INCH_NM), False) == 'right 1", out 1"'
    assert stepped(under, lamp, 0, -3 * INCH_NM) == lamp
    assert stepped(under, lamp, 29 * INCH_NM, 0) == lamp
    with pytest.raises(BadValue, match="arrows"):
        snapped(side, one, "stud")
    panel = made(Panel, "A1", name="hatch", wall="W1", face="ceiling", x=10, y=10, width=12, height=12)
    with pytest.raises(BadValue, match="no drawing shows"):
        movable(job_of(*WALL, panel), "A1")


def test_what_stands_on_a_return_is_seen_from_the_front_as_far_as_it_stands_out_and_in_the_cut_through_it() -> None:
    breast = made(BuildOut, "U1", name="breast", wall="W1", x=40, width=60, depth=12)
    sconce = {"name": "sconce", "what": "sconce", "wall": "W1", "on": "U1", "width": 4, "height": 8, "depth": 3}
    for face, left_in, cut in (("left return", 37, 38.5), ("right return", 100, 101.5)):
        job = job_of(*WALL, breast, made(Equipment, "E1", **sconce, face=face, x=6, y=60))
        shape = scene(job, "W1").get("E1")
        assert shape is not None
        assert [each / INCH_NM for each in shape.extent] == [left_in, 56, left_in + 3, 64]
        assert through(job, "W1", "E1", upright=True) == cut * INCH_NM
        assert through(job, "W1", "E1", upright=False) == 60 * INCH_NM
        seen = section(job, "W1", round(cut * INCH_NM)).get("E1")
        assert seen is not None
        assert [each / INCH_NM for each in seen.extent] == [-8, 56, -4, 64]
    assert through(job, "W1", "E9", upright=True) is None
