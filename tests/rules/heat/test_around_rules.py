"""What stands round a heater, at both sides of the figure of its manual; no figure is made up."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.measure.errors import BadValue
from store.measure.length import INCH_NM
from store.records.equipment import Equipment
from store.records.room import Furniture
from store.records.wall import Zone
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.heat.around_rules import least_height, mantel_heights, round_heaters
from store.rules.wall.places import equipment_rect
from tests.jobs.wall_jobs import ROOM, device, found, job_of, made, one, opening
from tests.rows import rows


def hot(**values: Any) -> Equipment:
    """A fireplace 50 in by 18 in that fills its opening from 11 in across and 10 in up: its top is at 28 in."""
    return device("E1", 50, 18, 6, **{"what": "fireplace", "mounting": "made to be recessed", **values})


def hanging(tag: str, what: str, x: float, y: float, width: float, height: float, **values: Any) -> Equipment:
    """Something on the face of W1, by its center, inches."""
    return device(
        tag, width, height, **{"depth": 3, "what": what, "wall": "W1", "x": x, "y": y, "opening": "", **values}
    )


def wall_with(heater: Equipment, *others: Equipment) -> Job:
    return job_of(*ROOM, opening("N1", 11, 10, 50, 18, use="fireplace", depth=8), heater, *others)


@pytest.mark.parametrize(("up", "told"), [(55.9375, True), (56, False)])
def test_a_tv_nearer_than_the_manual_asks_is_a_stop(up: float, told: bool) -> None:
    """A TV 32 in high: its lower edge is 16 in below its center; 12 in above 28 in is 40 in."""
    job = wall_with(hot(keep_screen=12), hanging("E2", "screen", 36, up, 56, 32))
    assert bool(found(job, "too_near_heat")) is told
    if told:
        finding = one(job, "too_near_heat")
        assert (finding.severity, finding.tags) == ("stop", ("E2", "E1"))
        assert finding.why.endswith('The manual asks for 12".')
        assert "Never change" in finding.do


def test_a_tv_without_a_figure_of_its_own_takes_that_of_what_burns_above() -> None:
    near = hanging("E2", "screen", 36, 50, 56, 32)
    assert found(wall_with(hot(keep_above=12), near), "too_near_heat")
    assert not found(wall_with(hot(keep_above=12, keep_screen=6), near), "too_near_heat")


def test_no_figure_is_told_once_and_is_no_stop() -> None:
    shelves = [hanging(f"E{n}", "floating shelf", 36, 40 + 8 * n, 40, 2) for n in (2, 3)]
    job = wall_with(hot(), *shelves)
    assert not found(job, "too_near_heat")
    finding = one(job, "heat_around_not_known")
    assert (finding.severity, finding.tags) == ("look", ("E1", "E2", "E3"))
    assert not found(wall_with(hot(keep_above=12), *shelves), "heat_around_not_known")
    assert not found(wall_with(hot()), "heat_around_not_known")


def test_an_opening_above_counts_like_a_thing_and_what_is_not_above_does_not() -> None:
    screen = opening("N2", 20, 36, 60, 30, use="screen")
    job = job_of(*ROOM, opening("N1", 11, 10, 50, 18, use="fireplace", depth=8), hot(keep_above=10), screen)
    assert one(job, "too_near_heat").tags == ("N2", "E1")
    far = wall_with(hot(keep_above=12), hanging("E2", "screen", 100, 60, 56, 32))
    assert round_heaters(far)["E1"] == ()


@pytest.mark.parametrize(("x", "told"), [(66, True), (67, False)])
def test_what_burns_beside_it(x: float, told: bool) -> None:
    """The fireplace ends at 61 in; a speaker 6 in wide at 66 in begins at 63 in."""
    job = wall_with(hot(keep_sides=3), hanging("E2", "speaker", x, 20, 6, 10))
    assert bool(found(job, "too_near_heat")) is told


# --- mantels ---

TABLE = ("6/10", "10/14", "8/12 1/2")


@rows(
    ("depth", "least"),
    [(4, 10), (6, 10), (7, 11.25), (8, 12.5), (9, 13.25), (10, 14)],
)
def test_a_mantel_by_its_depth_and_the_table_of_the_manual(depth: float, least: float) -> None:
    """By hand: on the line between 6/10 and 8/12.5, and between 8/12.5 and 10/14."""
    table = mantel_heights(hot(mantel=TABLE), False)
    assert least_height(table, int(depth * INCH_NM)) == least * INCH_NM
    low = wall_with(hot(mantel=TABLE), hanging("E2", "mantel", 36, 28 + least + 2.9375, 60, 6, depth=depth))
    assert one(low, "too_near_heat").tags == ("E2", "E1")
    high = wall_with(hot(mantel=TABLE), hanging("E2", "mantel", 36, 28 + least + 3, 60, 6, depth=depth))
    assert not found(high, "too_near_heat")


def test_a_mantel_deeper_than_the_table_has_no_figure() -> None:
    job = wall_with(hot(mantel=TABLE), hanging("E2", "mantel", 36, 60, 60, 6, depth=10.125))
    assert not found(job, "too_near_heat")
    assert "as deep" in one(job, "heat_around_not_known").do


def test_a_pair_that_is_none_is_named() -> None:
    with pytest.raises(BadValue, match="6 in 10"):
        mantel_heights(hot(mantel=("6 in 10",)), False)


@given(
    st.lists(st.tuples(st.integers(1, 40), st.integers(1, 60)), min_size=1, max_size=5, unique_by=lambda each: each[0]),
    st.integers(1, 40),
)
def test_never_below_the_line_between_two_figures(pairs: list[tuple[int, int]], depth: int) -> None:
    table = sorted(pairs)
    found_ = least_height(table, depth)
    if depth > table[-1][0]:
        assert found_ is None
        return
    assert found_ is not None
    below, above = [p for p in table if p[0] <= depth], [p for p in table if p[0] >= depth]
    near = {p[1] for p in (*below[-1:], *above[:1])}
    assert min(near) <= found_ <= max(near)
    if any(p[0] == depth for p in table):
        assert found_ == dict(table)[depth]


@rows(
    ("x", "y", "keeps", "told"),
    [
        (36.0, 41.0, {"keep_above": 12.0}, True),
        (36.0, 43.0, {"keep_above": 12.0}, False),
        (65.0, 20.0, {"keep_sides": 6.0}, True),
        (75.0, 20.0, {"keep_sides": 6.0}, False),
        (65.0, 41.0, {"keep_above": 12.0}, False),
        (36.0, 41.0, {"clear_top": 12.0}, False),
    ],
)
def test_a_box_is_out_of_what_the_manual_keeps_clear(x: float, y: float, keeps: dict[str, float], told: bool) -> None:
    """The top of the heater is at 28 in, its right side at 61 in; clearances inside its opening are no such figure."""
    box = made(Box, "B1", what="receptacle", wall="W1", x=x, y=y)
    job = job_of(*ROOM, opening("N1", 11, 10, 50, 18, use="fireplace", depth=8), hot(**keeps), box)
    assert bool(found(job, "box_near_heater")) is told
    if told:
        assert (one(job, "box_near_heater").severity, one(job, "box_near_heater").tags) == ("fix", ("B1", "E1"))


@rows(("off", "told"), [(35.9, True), (36, False), (0, False)])
def test_furniture_nearer_in_front_than_the_manual_asks(off: float, told: bool) -> None:
    """A heater flush in its recess that wants 36 in in front; a bench before it, and one of the same beside it."""
    fire = hot(clear_front=36)
    bench = made(Furniture, "J1", name="Bench", wall="W1", x=55 if off else 120, width=24, depth=16, height=18, off=off)
    said = [each for each in found(wall_with(fire).having(bench), "too_near_heat") if "J1" in each.tags]
    assert bool(said) == told
    if said:
        assert said[0].severity == "stop"
        assert "in front of the heater" in said[0].head


def test_a_finish_that_burns_beside_or_above_it() -> None:
    """Wood 3 in beside the body, where the manual wants 12; stone of the same place is no matter."""
    fire = hot(keep_sides=12)
    job = wall_with(fire)
    rect = equipment_rect(job, fire)
    assert rect is not None
    right = rect.right / INCH_NM + 3
    for burns, told in (("yes", [("Z1", "E1")]), ("no", [])):
        wood = made(Zone, "Z1", name="Wood", wall="W1", x=right, y=0, width=12, height=60, thickness=0.75, burns=burns)
        assert [each.tags for each in found(job.having(wood), "too_near_heat")] == told
