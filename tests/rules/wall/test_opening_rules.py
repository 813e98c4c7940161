"""Places on the wall: overlaps against an independent geometry, edges, obstacles, studs, doors and drawers."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import box

from store.measure.length import INCH_NM
from store.records.whole import Job
from store.rules.wall import layout as layout_module
from store.rules.wall.layout import MOST_OVERLAPS, Neighbours, Placed, overlapping
from store.trade.measured.plane import Rect
from tests.jobs.wall_jobs import ROOM, device, found, job_of, obstacle, one, opening, panel, read, wall
from tests.rows import rows

RECTS = st.lists(
    st.tuples(st.integers(0, 20), st.integers(0, 20), st.integers(1, 8), st.integers(1, 8)), min_size=1, max_size=8
)


def placed(rects: list[tuple[int, int, int, int]], letter: str) -> list[Placed]:
    return [Placed(f"{letter}{at}", Rect(*each)) for at, each in enumerate(rects)]


def shape(each: Placed) -> Any:
    return box(each.rect.x_nm, each.rect.y_nm, each.rect.right_nm, each.rect.top_nm)


@given(RECTS)
def test_overlaps_of_one_kind_are_those_of_shapely(rects: list[tuple[int, int, int, int]]) -> None:
    things = placed(rects, "N")
    expected = {
        frozenset((one.tag, other.tag))
        for at, one in enumerate(things)
        for other in things[at + 1 :]
        if shape(one).intersection(shape(other)).area > 0
    }
    assert {frozenset((a.tag, b.tag)) for a, b in overlapping(things)} == expected


@given(RECTS, RECTS)
def test_overlaps_of_two_kinds_are_those_of_shapely(
    first: list[tuple[int, int, int, int]], second: list[tuple[int, int, int, int]]
) -> None:
    ours, theirs = placed(first, "N"), placed(second, "O")
    expected = {(a.tag, b.tag) for a in ours for b in theirs if shape(a).intersection(shape(b)).area > 0}
    assert {(a.tag, b.tag) for a, b in overlapping(ours, theirs)} == expected


@given(RECTS, st.sampled_from(["top", "bottom", "left", "right"]))
def test_what_faces_a_rectangle_is_what_a_ray_meets_first(rects: list[tuple[int, int, int, int]], way: Any) -> None:
    """Rays from the middle of every unit of the edge, stopped by the first thing whose near edge is ahead."""
    me, *others = placed(rects, "N")
    upright = way in ("top", "bottom")
    low, high = (me.rect.x_nm, me.rect.right_nm) if upright else (me.rect.y_nm, me.rect.top_nm)
    seen = set()
    for unit in range(low, high):
        ahead = []
        for each in others:
            rect = each.rect
            across = rect.x_nm <= unit < rect.right_nm if upright else rect.y_nm <= unit < rect.top_nm
            gap = {
                "top": rect.y_nm - me.rect.top_nm,
                "bottom": me.rect.y_nm - rect.top_nm,
                "right": rect.x_nm - me.rect.right_nm,
                "left": me.rect.x_nm - rect.right_nm,
            }[way]
            if across and gap >= 0:
                ahead.append((gap, each.tag))
        if ahead:
            nearest = min(gap for gap, _ in ahead)
            seen.add(frozenset(tag for gap, tag in ahead if gap == nearest))
    facing = {each.tag for each in Neighbours(others).facing(me.rect, way)}
    assert all(group & facing for group in seen)
    assert facing <= set().union(*seen)


def test_many_on_one_spot_do_not_multiply() -> None:
    things = placed([(0, 0, 5, 5)] * 60, "N")
    assert len(list(overlapping(things))) <= 60 * MOST_OVERLAPS


def test_openings_that_overlap_and_those_that_touch() -> None:
    touching = job_of(*ROOM, opening("N1", 10, 10, 20, 20), opening("N2", 30, 10, 20, 20))
    over = job_of(*ROOM, opening("N1", 10, 10, 20, 20), opening("N2", 29.75, 25, 20, 20))
    assert not found(touching, "openings_overlap")
    finding = one(over, "openings_overlap")
    assert (finding.severity, finding.tags) == ("fix", ("N1", "N2"))
    assert finding.numbers == {"across": '1/4"', "up": '5"'}


def test_outside_the_wall_is_beyond_its_least_reading() -> None:
    readings = (read("D1", "width", 144), read("D2", "width", "144 1/4"), read("D3", "height", 96))
    assert not found(job_of(wall(), *readings, opening("N1", 124, 76, 20, 20)), "outside_wall")
    finding = one(job_of(wall(), *readings, opening("N1", 124.125, 76, 20, 20)), "outside_wall")
    assert (finding.severity, finding.numbers) == ("fix", {"right": 'by 1/8" at the right'})
    assert one(job_of(wall(), *readings, panel("A1", 20, 90, 6, 7)), "outside_wall").tags == ("A1", "W1")


@rows(("what", "severity"), [("vent", "fix"), ("window", "fix"), ("baseboard", "look")])
def test_on_an_obstacle(what: str, severity: str) -> None:
    there = obstacle("O1", what, 30, 10, 14, 6)
    assert not found(job_of(*ROOM, there, opening("N1", 10, 10, 20, 20)), "on_obstacle")
    finding = one(job_of(*ROOM, there, opening("N1", 11, 12, 20, 20)), "on_obstacle")
    assert (finding.severity, finding.tags) == (severity, ("N1", "O1"))


def with_studs(bearing: Any, x: float, depth: float) -> Job:
    return job_of(wall(first_stud=16, bearing=bearing), *ROOM[1:], opening("N1", x, 40, 14.5, 10, depth=depth))


@pytest.mark.parametrize("bearing", ["yes", "unknown"])
def test_studs_that_may_carry_the_house_are_cut_by_nobody_unasked(bearing: str) -> None:
    # Bay 2 is clear from 16 3/4 in to 31 1/4 in.
    assert not found(with_studs(bearing, 16.75, 6), "cuts_studs")
    finding = one(with_studs(bearing, 16.8125, 6), "cuts_studs")
    assert finding.severity == "fix"
    assert "2' 8\"" in finding.numbers["studs"]
    assert "R602.6" in finding.source
    assert "engineer" in finding.remedy


def test_studs_of_a_wall_that_carries_nothing_are_told_once_a_wall() -> None:
    finding = one(with_studs("no", 16.8125, 6), "interrupts_studs")
    assert (finding.severity, finding.tags) == ("look", ("W1", "N1"))
    assert not found(with_studs("no", 16.8125, 6), "cuts_studs")
    assert not found(with_studs("no", 16.75, 6), "interrupts_studs")


def test_a_shallow_opening_notches_within_the_limit() -> None:
    # A 3 1/2 in stud that carries may lose 7/8 in; the board in front of it is 1/2 in.
    assert not found(with_studs("yes", 20, 0.5), "notches_studs")
    assert one(with_studs("yes", 20, 1.375), "notches_studs").numbers["into"] == '7/8"'
    assert found(with_studs("yes", 20, 1.4375), "cuts_studs")


def side_door(hinge: str, x: float) -> Job:
    """A door 20 in wide at x = 40, and a screen 30 in wide that stands 3 in proud of a recess beside it."""
    return job_of(
        *ROOM,
        opening("N1", x, 10, 24, 20, depth=2),
        device("E1", 30, 18, 5, mounting="wall bracket"),
        opening("N2", 40, 10, 20, 20, door="solid", hinge=hinge),
    )


def test_a_door_that_moves_into_what_stands_proud() -> None:
    # N1 from 61 in: the screen reaches from 58 in to 88 in, 2 in over the door.
    finding = one(side_door("left", 61), "door_swings_into")
    assert (finding.severity, finding.tags) == ("fix", ("N2", "E1"))
    assert finding.numbers["proud"] == '3"'
    assert not found(side_door("left", 63), "door_swings_into")
    assert not found(side_door("sliding", 61), "door_swings_into")
    assert found(side_door("drawer", 61), "door_swings_into")
    # Hinged on the right it turns about 60 in, so the screen is at its hinge and bars it all the same.
    assert found(side_door("right", 61), "door_swings_into")


def test_a_flap_turns_about_its_lower_edge() -> None:
    def flap(hinge: str, y: float) -> Job:
        return job_of(
            *ROOM,
            opening("N1", 40, y, 20, 10, depth=1),
            device("E1", 20, 10, 2, mounting="surface only"),
            opening("N2", 40, 10, 20, 20, door="glass", hinge=hinge),
        )

    assert found(flap("bottom", 29), "door_swings_into")
    assert not found(flap("bottom", 30), "door_swings_into")


def test_a_door_hinged_at_a_side_wall() -> None:
    def at(x: float, hinge: str) -> Job:
        return job_of(*ROOM, opening("N1", x, 10, 20, 20, door="solid", hinge=hinge))

    assert one(at(0.8125, "left"), "door_at_side_wall").severity == "look"
    assert not found(at(0.875, "left"), "door_at_side_wall")
    assert found(at(124, "right"), "door_at_side_wall")
    assert not found(at(124, "left"), "door_at_side_wall")


def test_a_drawer_under_a_screen() -> None:
    screen, drawer = opening("N1", 40, 40, 60, 36, use="screen"), opening("N2", 30, 10, 20, 12, use="drawer")
    assert one(job_of(*ROOM, screen, drawer), "drawer_under_screen").tags == ("N2", "N1")
    shelf = opening("N3", 30, 25, 30, 10, use="shelf")
    assert not found(job_of(*ROOM, screen, drawer, shelf), "drawer_under_screen")
    assert not found(job_of(*ROOM, screen, opening("N2", 20, 10, 20, 12, use="drawer")), "drawer_under_screen")


def test_the_wall_is_looked_up_once_a_job() -> None:
    job = job_of(*ROOM, opening("N1", 10, 10, 20, 20))
    assert layout_module.walls(job) is layout_module.walls(job)
    assert layout_module.walls(job)["W1"].width_nm == 144 * INCH_NM


@rows(
    ("bearing", "y", "height", "told_of"),
    [
        # Plates of 1-1/2 in: one at the floor, two under a ceiling of 96 in, so 93 in is their underside.
        ("yes", 1.5, 40, []),
        ("yes", 1.4375, 40, ["look"]),
        ("yes", 50, 43, []),
        ("yes", 50, 43.0625, ["fix"]),
        ("no", 50, 43.0625, ["look"]),
    ],
)
def test_a_hole_keeps_clear_of_the_plates(bearing: str, y: float, height: float, told_of: list[str]) -> None:
    room = (wall(bearing=bearing, stud_depth=3.5), *ROOM[1:])
    recess = opening("N1", 10, y, 20, height, depth=4, use="screen")
    assert [each.severity for each in found(job_of(*room, recess), "cuts_plate")] == told_of


def test_one_top_plate_is_thinner_and_new_framing_is_set_out_round_its_openings() -> None:
    recess = opening("N1", 10, 50, 20, 44, depth=4, use="screen")
    single = (wall(bearing="no", stud_depth=3.5, top_plates="1"), *ROOM[1:])
    assert not found(job_of(*single, recess), "cuts_plate")
    new = (wall(bearing="no", stud_depth=3.5, framing="new wood"), *ROOM[1:])
    assert not found(job_of(*new, recess), "cuts_plate")
