"""Each condition of the stops about heaters by itself: the nearest jobs on both sides of it."""

from __future__ import annotations

from typing import Any

from store.measure.length import Length, parse_length
from store.records.room import Furniture
from store.records.whole import Job
from store.records.wiring import Box, Cable
from store.rules.core.findings import findings
from store.rules.heat.around_rules import round_heaters
from tests.jobs.power_case import circuit, job_of, make, receptacle, told
from tests.jobs.wall_jobs import ROOM, found, made, one, opening
from tests.jobs.wall_jobs import job_of as wall_job
from tests.rows import rows
from tests.rules.heat.test_around_rules import hanging, hot, wall_with
from tests.rules.heat.test_fireplace_rules import burning, fire
from tests.rules.heat.test_heater_rules import heater
from tests.rules.plug.test_plug_rules import strip

SIXTEENTH_NM = 1_587_500


def rules_of(job: Job, tag: str = "E1") -> set[str]:
    """The rules that tell of a thing."""
    return {each.rule for each in findings(job) if tag in each.tags}


def test_of_a_heater_that_is_out_of_use_nothing_is_told() -> None:
    gone: dict[str, Any] = {"retired": job_of().today}
    raised = {"surface_unit_recessed", "heater_clearance_not_known", "heat_outlet_closed"}
    for given in ({}, gone):
        hot_job = burning(door="solid", mounting="surface only", clear_top=None, **given)
        assert raised & rules_of(hot_job) == (set() if given else raised)
        assert bool(rules_of(burning(mounting="unknown", **given)) & {"heater_not_known"}) is not bool(given)
        on_strip = job_of(circuit(), receptacle(), strip(), heater(power="cord", plug="E9", **given))
        assert bool(told(on_strip, "heater_on_strip")) is not bool(given)
        near = wall_with(hot(keep_screen=12, **given), hanging("E2", "screen", 36, 50, 56, 32))
        assert bool(found(near, "too_near_heat")) is not bool(given)
        assert ("E1" in round_heaters(near)) is not bool(given)


def test_how_deep_its_recess_is_is_asked_of_what_was_not_made_for_one() -> None:
    for mounting, depth, asked in (
        ("surface only", None, True), ("surface only", 8, False), ("made to be recessed", None, False),
    ):  # fmt: skip
        missing = [
            each.numbers["missing"] for each in found(burning(mounting=mounting, depth=depth), "heater_not_known")
        ]
        assert missing == (["how deep N1 is"] if asked else [])


@rows(
    ("side", "width", "height", "room"),
    [
        ("sides", 96, 20, None), ("sides", 73, 20, '11-1/2"'), ("bottom", 52, 42, None), ("bottom", 52, 41, '11-1/2"'),
    ],
)  # fmt: skip
def test_what_hangs_in_its_recess_has_half_of_the_spare_room_on_each_side(
    side: str, width: float, height: float, room: str | None
) -> None:
    job = wall_job(*ROOM, opening("N1", 10, 10, width, height, use="fireplace", depth=8), fire(heat_side=side))
    heads = [each.head for each in found(job, "heat_outlet_closed")]
    assert all(room is not None and f", {room} off" in head for head in heads)
    assert len(heads) == (0 if room is None else 2 if side == "sides" else 1)


def test_what_stands_on_the_floor_of_its_recess_blows_at_it_and_has_all_the_room_above() -> None:
    for side, height, closed in (("top", 30, False), ("top", 29, True), ("bottom", 60, True)):
        recess = opening("N1", 10, 10, 52, height, use="fireplace", depth=8)
        job = wall_job(*ROOM, recess, fire(heat_side=side, mounting="shelf"))
        assert bool(found(job, "heat_outlet_closed")) is closed, (side, height)


def test_heat_downwards_counts_from_the_body_to_the_closed_cabinet_below() -> None:
    """18 in of heater centered in 20 in: 1 in below it; from 30 in down to a cabinet whose top is at 24 in: 7 in."""
    recess = opening("N1", 40, 30, 52, 20, use="fireplace", depth=8)
    for door, wants, told_gap in (("solid", 7.125, '7"'), ("solid", 7, None), ("none", None, None)):
        below = opening("N2", 40, 4, 52, 20, door=door)
        job = wall_job(*ROOM, recess, below, fire(heat_side="bottom", clear_bottom=wants))
        gaps = [each.numbers.get("gap") for each in found(job, "heat_outlet_closed") if "N2" in each.tags]
        assert gaps == ([told_gap] if told_gap else []), (door, wants)


def test_furniture_against_the_front_of_a_heater_is_before_it() -> None:
    for off, said in ((0, True), (36, False)):
        bench = made(Furniture, "J1", name="Bench", wall="W1", x=30, width=24, depth=16, height=18, off=off)
        job = wall_with(hot(clear_front=36)).having(bench)
        heads = [each.head for each in found(job, "too_near_heat") if "J1" in each.tags]
        assert bool(heads) is said
        assert all("in front of the heater" in head for head in heads)


def test_a_box_just_out_of_what_the_manual_keeps_clear_is_out_of_it() -> None:
    recess = opening("N1", 11, 10, 50, 18, use="fireplace", depth=8)
    job = wall_job(*ROOM, recess, hot(keep_above=12), made(Box, "B1", what="receptacle", wall="W1", x=36, y=41))
    gap = parse_length(one(job, "box_near_heater").numbers["gap"])
    for more, said in ((0, False), (1, True)):
        keeps = Length(gap.nm + more * SIXTEENTH_NM)
        assert bool(found(job.having(hot(keep_above=keeps)), "box_near_heater")) is said


def test_wiring_that_ends_at_a_cord_is_mains_in_use() -> None:
    lamp = heater(power="cord", plug="", what="light", heats=False)
    run = make(Cable, "K1", type="nm-12-2", rating="NM-B", start="B1", end="E1")
    for more, said in (
        ({}, True), ({"retired": job_of().today}, False), ({"type": "cat6", "rating": "CM"}, False),
    ):  # fmt: skip
        values: dict[str, Any] = {"type": "nm-12-2", "rating": "NM-B", "start": "B1", "end": "E1", **more}
        job = job_of(circuit(), receptacle(), lamp, make(Cable, "K1", **values))
        assert bool(told(job, "wired_to_a_cord")) is said, more
    wart = job_of(circuit(), receptacle(), heater(power="wall-wart", plug="", what="driver", heats=False), run)
    assert told(wart, "wired_to_a_cord")
    assert not told(
        job_of(circuit(), receptacle(), heater(power="cord", plug="", what="strip"), run), "wired_to_a_cord"
    )
