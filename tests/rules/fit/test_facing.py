"""Doors, flaps and drawers round the corners of a room, and a flap over a drawer: what meets and what just does not."""

from __future__ import annotations

from typing import Any

import pytest
from shapely.geometry import Polygon

from store.records.room import Furniture
from store.records.wall import BuildOut, Opening, Reading, Wall
from store.records.whole import Job
from store.rules.fit.facing import _areas, frames
from tests.jobs.wall_jobs import found, job_of, made, one
from tests.rows import rows


def room(*records: Any, wide: float = 60, **corner: Any) -> Job:
    """Three walls round an alcove: W1 120 in, W2 `wide`, W3 120 in, each 96 in high."""
    walls = [
        made(Wall, "W1", name="left", meets_right="W2", **corner), made(Wall, "W2", name="back", meets_right="W3"),
        made(Wall, "W3", name="right"),
    ]  # fmt: skip
    sizes = [
        made(Reading, f"D{at}{high}", wall=f"W{at}", what="height" if high else "width", value=96 if high else across)
        for at, across in ((1, 120), (2, wide), (3, 120)) for high in (0, 1)
    ]  # fmt: skip
    return job_of(*walls, *sizes, *records)


def cupboard(tag: str, wall: str, x: float, width: float, **more: Any) -> Opening:
    """In the wall, from the floor to 30 in up, with a door."""
    given = {"door": "solid", "hinge": "left", "depth": 4, "use": "shelf", **more}
    return made(Opening, tag, name=tag, wall=wall, x=x, y=given.pop("y", 0), width=width, height=30, **given)


@rows(("x", "told"), [(0, True), (29, True), (30, False)])
def test_two_doors_round_an_inside_corner(x: float, told: bool) -> None:
    """One of 30 in on W1, hinged at the corner, sweeps a quarter of 30 in about it; the other on W2 sweeps back to its
    own left edge, x from the corner, along the wall itself: they part at 30 in."""
    job = room(cupboard("N1", "W1", 90, 30, hinge="right"), cupboard("N2", "W2", x, 24, hinge="right"))
    assert bool(found(job, "doors_meet")) == told


def test_who_opens_away_or_stands_above_does_not_meet() -> None:
    drawer = cupboard("N1", "W1", 96, 24, use="drawer", door="none", hinge="none", depth=20)
    assert [each.tags for each in found(room(drawer, cupboard("N2", "W2", 2, 18)), "doors_meet")] == [("N1", "N2")]
    assert not found(room(drawer, cupboard("N2", "W2", 20, 18)), "doors_meet"), "20 in of drawer end there"
    assert not found(room(drawer, cupboard("N2", "W2", 2, 18, y=30)), "doors_meet"), "above it"
    around = room(drawer, cupboard("N2", "W2", 2, 18), right_corner="outside")
    assert not found(around, "doors_meet"), "round an outside corner the walls part"


def test_doors_that_face_each_other_across_an_alcove() -> None:
    """24 in each: they meet across 40 in, and not across 48."""
    pair = cupboard("N1", "W1", 40, 24, hinge="right"), cupboard("N2", "W3", 60, 24, hinge="left")
    assert [each.tags for each in found(room(*pair, wide=40), "doors_meet")] == [("N1", "N2")]
    assert not found(room(*pair, wide=48), "doors_meet")
    assert not found(room(pair[0], cupboard("N2", "W3", 100, 20), wide=40), "doors_meet")


def test_a_door_that_hits_what_stands_before_the_next_wall() -> None:
    """A build-out 16 in deep on W2, up to its left end, ends 16 in along W1: a door hinged nearer to it hits it."""
    out = made(BuildOut, "U1", name="Breast", wall="W2", x=0, width=30, depth=16)
    hits = room(out, cupboard("N1", "W1", 90, 14, hinge="right"))
    assert not found(hits, "door_meets_round_corner"), "its hinge is at 104, the build-out begins there"
    told = one(room(out, cupboard("N1", "W1", 92, 14, hinge="left")), "door_meets_round_corner")
    assert (told.tags, told.severity) == (("N1", "U1"), "fix")
    over = made(BuildOut, "U1", name="Soffit", wall="W2", x=0, width=30, depth=16, y=84)
    assert not found(room(over, cupboard("N1", "W1", 92, 14)), "door_meets_round_corner")


def test_a_flap_over_a_drawer() -> None:
    drawer = cupboard("N1", "W1", 20, 30, use="drawer", door="none", hinge="none", depth=20)
    flap = cupboard("N2", "W1", 20, 30, y=31, hinge="bottom")
    told = one(room(drawer, flap), "flap_over_drawer")
    assert told.tags == ("N2", "N1")
    assert '1" above' in told.why
    assert not found(room(drawer, cupboard("N2", "W1", 20, 30, y=42, hinge="bottom")), "flap_over_drawer")
    assert not found(room(drawer, cupboard("N2", "W1", 20, 30, y=31, hinge="top")), "flap_over_drawer")
    assert not found(room(drawer, cupboard("N2", "W1", 51, 30, y=31, hinge="bottom")), "flap_over_drawer")


def test_what_meets_is_what_another_library_says() -> None:
    cupboards = [
        cupboard("N1", "W1", 90, 28, hinge="right"), cupboard("N2", "W2", 3, 20, hinge="right"),
        cupboard("N3", "W2", 25, 30, use="drawer", door="none", hinge="none", depth=18),
        cupboard("N4", "W3", 5, 22), cupboard("N5", "W3", 60, 30, hinge="bottom"),
        cupboard("N6", "W1", 30, 26, hinge="right"),
    ]  # fmt: skip
    job = room(*cupboards, made(BuildOut, "U1", name="b", wall="W2", x=0, width=12, depth=20), wide=58)
    areas = [area for wall, (_, frame) in frames(job).items() for area in _areas(job, wall, frame)]
    assert len(areas) > 6
    met = 0
    for area in areas:
        for other in areas:
            if area.wall == other.wall:
                continue
            shared = Polygon(area.outline).intersection(Polygon(other.outline)).area
            assert area.meets(other) == (shared > 1e6 and area.low_nm < other.top_nm and other.low_nm < area.top_nm)
            met += area.meets(other)
    assert met


@pytest.mark.parametrize(("off", "told"), [(19, True), (20, False)])
def test_a_door_and_furniture_before_the_wall_round_the_corner(off: float, told: bool) -> None:
    """A door of 20 in on W1 ends in the corner and is hinged 20 in from W2: it sweeps from there to W2. The side of a
    chest that is 19 in off W2 is 1 in within that; 20 in off, it stands beside."""
    chest = made(Furniture, "J1", name="Chest", wall="W2", x=0, width=18, depth=15, height=30, off=off)
    job = room(cupboard("N1", "W1", 100, 20), chest)
    assert bool(found(job, "door_meets_round_corner")) == told
