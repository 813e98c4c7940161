"""Where a box cannot be: each with the smallest job that is told and the nearest that is not, and where it goes."""

from __future__ import annotations

from typing import Any

import pytest

from store.records.equipment import Equipment
from store.records.wall import BuildOut
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.fixes.fix import applied, offer
from tests.jobs.wall_jobs import ROOM, found, job_of, made, obstacle, one, opening, wall
from tests.rows import rows


def box(tag: str = "B1", x: float = 40, y: float = 40, what: Any = "low-voltage", **more: Any) -> Box:
    """A box of one gang: 2-1/4 in wide and 3-3/4 in high about its center."""
    return made(Box, tag, what=what, wall="W1", x=x, y=y, **more)


def case(*records: Any, **of_wall: Any) -> Job:
    """144 x 96 in, studs every 16 in from 16 in."""
    return job_of(wall(first_stud=16, **of_wall), *ROOM[1:], *records)


@rows(
    ("x", "y", "head"),
    [
        (40, 40, ""),
        (1.125, 40, ""),
        (1, 40, 'past the left end of W1'),
        (142.875, 40, ""),
        (143.5, 40, '5/8" past the right end of W1'),
        (150, 40, '7-1/8" past the right end of W1'),
        (40, 1.5, '3/8" past the floor of W1'),
        (40, 3, "In the bottom plate of W1"),  # from 1-1/8 in up
        (40, 3.375, ""),  # from 1-1/2 in up
        (40, 91.125, ""),  # to 93 in: two plates of 1-1/2 in above it
        (40, 91.5, "In the top plate of W1"),
        (40, 95, '7/8" past the ceiling of W1'),
    ],
)  # fmt: skip
def test_a_box_is_on_its_wall_and_between_its_plates(x: float, y: float, head: str) -> None:
    told = found(case(box(x=x, y=y)), "box_off_wall")
    assert bool(told) == bool(head)
    assert not told or head in told[0].head


def test_a_box_under_a_slope_and_on_a_build_out() -> None:
    """At 120 in across the ceiling is 72 in up: a box at 70 in is past it. On a front it may be at its very top."""
    slope = {"ceiling_line": ("0/8'", "6'/8'", "12'/5'")}
    assert found(case(box(x=120, y=70), **slope), "box_off_wall")
    assert not found(case(box(x=120, y=60), **slope), "box_off_wall")
    front = made(BuildOut, "U1", name="front", wall="W1", x=30, width=40, depth=24, height=50)
    assert not found(case(front, box(x=40, y=48)), "box_off_wall")
    # Its own center at 48-1/2 in is on the front, its top is not.
    assert one(case(front, box(x=40, y=48.5)), "box_off_wall").head == '3/8" past the top of U1'
    # On the return, 24 in deep, from the wall out.
    assert found(case(front, box(x=23.5, y=20, face="left return", on="U1")), "box_off_wall")
    assert not found(case(front, box(x=20, y=20, face="left return", on="U1")), "box_off_wall")


def test_a_box_is_clear_of_what_is_in_the_wall() -> None:
    for what in ("window", "door", "vent", "pipe"):
        assert found(case(box(), obstacle("O1", what, 38, 30, 20, 20)), "box_on_obstacle")
        # 2-1/4 in wide about 40 in: it ends at 41-1/8 in.
        assert found(case(box(), obstacle("O1", what, 41, 30, 20, 20)), "box_on_obstacle")
        assert not found(case(box(), obstacle("O1", what, 41.125, 30, 20, 20)), "box_on_obstacle")
    assert not found(case(box(), obstacle("O1", "baseboard", 0, 30, 144, 20)), "box_on_obstacle")


def test_a_box_is_in_an_opening_or_beside_it() -> None:
    for x, told in ((38, False), (38.875, False), (39, True), (40, True), (41.125, False), (45, False)):
        job = case(box(x=x), opening("N1", 40, 30, 20, 20, depth=2, use="screen"))
        assert bool(found(job, "box_on_edge")) == told, x
    cabinet = opening("N1", 40, 30, 20, 20, depth=16, thickness=0.75, use="equipment")
    assert not found(case(box(), cabinet), "box_on_edge"), "it stands before the wall"


def test_two_boxes_do_not_share_a_place() -> None:
    assert one(case(box(), box("B2", 42)), "boxes_overlap").tags == ("B2", "B1")
    assert not found(case(box(), box("B2", 42.25)), "boxes_overlap")
    assert not found(case(box(), box("B2", 40, 43.75)), "boxes_overlap")
    # Of two gangs it is 1-13/16 in wider, half of it at each side.
    assert found(case(box(gangs=2), box("B2", 43)), "boxes_overlap")
    assert not found(case(box(gangs=2), box("B2", 43.1875)), "boxes_overlap")
    side = made(BuildOut, "U1", name="front", wall="W1", x=40, width=40, depth=24, height=60)
    apart = case(side, box(x=10, y=20, face="left return", on="U1"), box("B2", 10, 20))
    assert not found(apart, "boxes_overlap"), "on another face"


@pytest.mark.parametrize(
    ("what", "y", "told"),
    [("switch", 48, False), ("switch", 20, True), ("switch", 61, True), ("low-voltage", 60, False),
     ("low-voltage", 80, True), ("receptacle", 80, True), ("junction", 85, False)],
)  # fmt: skip
def test_a_height_that_somebody_uses(what: str, y: float, told: bool) -> None:
    assert bool(found(case(box(y=y, what=what)), "box_height_odd")) == told
    high = made(Equipment, "E1", name="TV", what="screen", wall="W1", x=40, y=y, width=50, height=20, depth=3)
    if what != "switch":
        assert not found(case(box(y=y, what=what), high), "box_height_odd"), "behind a TV"


def test_the_nearest_place_that_is_free_is_named() -> None:
    """A window from 30 to 60 in: with half its width the box clears it at 28-7/8 in, 27-1/2 in the first half-inch."""
    job = case(box(x=34), obstacle("O1", "window", 30, 30, 30, 30))
    found_fix = offer(job, one(job, "box_on_obstacle"))
    assert found_fix is not None
    moved = applied(job, found_fix.fix).of(Box)["B1"]
    assert moved.x is not None
    assert moved.x.inches == 28.5
    front = made(BuildOut, "U1", name="front", wall="W1", x=30, width=40, depth=24, height=50)
    side = case(front, box(x=23.5, y=20, face="left return", on="U1"))
    onto = offer(side, one(side, "box_off_wall"))
    assert onto is not None
    assert applied(side, onto.fix).of(Box)["B1"].x == made(Box, "B1", what="switch", x=22.875).x
    both = case(box(x=48), box("B2", 64))
    beside = offer(both, one(both, "box_on_stud"))
    assert beside is not None
    at = [each.x.inches for each in applied(both, beside.fix).of(Box).values() if each.x is not None]
    # Studs from 47-1/4 to 48-3/4 and 63-1/4 to 64-3/4 in.
    assert at == [46, 62]
