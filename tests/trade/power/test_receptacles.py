"""Receptacle spacing: every point of the floor line, checked against shapes cut by another library."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Point, unary_union

from store.trade.power.receptacles import Gap, Receptacle, Spacing, spacing, wall_spaces, why_not_counted
from tests.rows import rows

EDITION = 2020


def at(*places: float) -> list[Receptacle]:
    return [Receptacle(f"B{number}", place, 16) for number, place in enumerate(places, 1)]


def out_of_reach(found: Spacing) -> list[tuple[float, float]]:
    return [(gap.start_in, gap.end_in) for space in found.spaces for gap in space.out_of_reach]


@st.composite
def gap_lists(draw: st.DrawFn) -> list[Gap]:
    edges = draw(st.lists(st.integers(0, 480), max_size=6, unique=True).map(sorted))
    return [
        Gap(low, high, "doorway") for low, high in zip(edges[::2], edges[1::2], strict=False) if draw(st.booleans())
    ]


@given(st.integers(30, 480), gap_lists(), st.lists(st.integers(0, 480), max_size=6))
def test_out_of_reach_is_the_line_less_all_that_is_reached(length: int, openings: list[Gap], places: list[int]) -> None:
    """Cutting the line with a geometry library leaves the same total length out of reach, space by space."""
    breaks = unary_union([LineString([(gap.start_in, 0), (gap.end_in, 0)]) for gap in openings])
    line = LineString([(0, 0), (length, 0)]).difference(breaks)
    parts = [part for part in getattr(line, "geoms", [line]) if part.length >= 24]
    found = spacing(length, openings, at(*places), EDITION)
    assert len(found.spaces) == len(parts)
    for space, part in zip(found.spaces, parts, strict=True):
        own = [place for place in places if part.distance(Point(place, 0)) == 0]
        reached = unary_union([LineString([(place - 72, 0), (place + 72, 0)]) for place in own])
        left = part.difference(reached).length
        assert sum(gap.width_in for gap in space.out_of_reach) == pytest.approx(left)
        assert len(space.serving) == len(own)


@given(st.integers(30, 480), gap_lists(), st.lists(st.floats(0, 480), max_size=4))
def test_places_offered_serve_the_whole_wall(length: int, openings: list[Gap], places: list[float]) -> None:
    """With receptacles where they are offered nothing is out of reach; with any one of them missing something is."""
    offered = [place for space in spacing(length, openings, at(*places), EDITION).spaces for place in space.add_at_in]
    assert spacing(length, openings, at(*places, *offered), EDITION).within_reach
    for left_out in range(len(offered)):
        fewer = [*places, *offered[:left_out], *offered[left_out + 1 :]]
        assert not spacing(length, openings, at(*fewer), EDITION).within_reach


def test_six_feet_is_within_reach_and_a_hair_more_is_not() -> None:
    """210.52(A)(1): 6 ft either side, so 12 ft between receptacles."""
    assert spacing(288, [], at(72, 216), EDITION).within_reach
    assert out_of_reach(spacing(288, [], at(72, 216.5), EDITION)) == [(144, 144.5)]


def test_a_doorway_is_not_reached_across() -> None:
    """The short side of a doorway needs its own receptacle although one is near on the other side."""
    found = spacing(150, [Gap(60, 96, "doorway")], at(50), EDITION)
    assert out_of_reach(found) == [(96, 150)]
    assert found.spaces[1].add_at_in == (123,)
    assert found.spaces[1].serving == ()


def test_a_space_under_two_feet_needs_none() -> None:
    assert [space.width_in for space in wall_spaces(100, [Gap(23.9, 60, "fireplace")])] == [40]
    assert [space.width_in for space in wall_spaces(100, [Gap(24, 60, "fireplace")])] == [24, 40]


def test_overlapping_openings_break_once() -> None:
    openings = [Gap(80, 120, "doorway"), Gap(40, 100, "fireplace"), Gap(50, 60, "fixed cabinet without countertop")]
    assert [(space.start_in, space.end_in) for space in wall_spaces(200, openings)] == [(0, 40), (120, 200)]
    assert wall_spaces(100, [Gap(-5, 200, "fireplace")]) == ()


@rows(
    ("receptacle", "reason"),
    [
        (Receptacle("a", 50, 66), None),
        (Receptacle("a", 50, 66.1), "5-1/2 ft"),
        (Receptacle("a", 50, 20, in_cabinet=True), "cabinet"),
        (Receptacle("a", 50, 20, part_of_equipment=True), "luminaire or an appliance"),
        (Receptacle("a", 50, 20, switched_for_light=True), "switched"),
        (Receptacle("a", 50, 0, from_wall_in=18), None),
        (Receptacle("a", 50, 0, from_wall_in=18.5), "18 in"),
    ],
)
def test_which_receptacles_count(receptacle: Receptacle, reason: str | None) -> None:
    """210.52, opening list, and (A)(3)."""
    why = why_not_counted(receptacle)
    assert (why is None) == (reason is None)
    assert reason is None or (why is not None and reason in why)
    found = spacing(100, [], [receptacle], EDITION)
    assert found.within_reach == (reason is None)
    assert len(found.not_counted) == (0 if reason is None else 1)


def test_one_inside_an_opening_serves_nothing() -> None:
    found = spacing(150, [Gap(40, 90, "fixed cabinet without countertop")], at(65), EDITION)
    assert [space.serving for space in found.spaces] == [(), ()]
    assert not found.within_reach


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(ValueError, match="length of the wall"):
        spacing(0, [], [], EDITION)
    with pytest.raises(ValueError, match="before its start"):
        spacing(100, [Gap(60, 40, "doorway")], [], EDITION)
    with pytest.raises(ValueError, match="1999"):
        spacing(100, [], [], 1999)
