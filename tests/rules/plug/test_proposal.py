"""The plan that is proposed for what is unplugged: right by the rules it will be judged by."""

from __future__ import annotations

from typing import Any

import msgspec
from hypothesis import given
from hypothesis import strategies as st

from store.records.base import Record
from store.records.equipment import Equipment
from store.records.wall import Opening
from store.records.whole import Job
from store.rules.core.findings import findings
from store.rules.plug.proposal import HEATER_ROOM, plan_plugs
from tests.jobs.power_case import circuit, job_of, make, receptacle
from tests.rows import rows
from tests.rules.plug.test_plug_rules import strip, thing


def loose(tag: str = "E1", **values: Any) -> Equipment:
    """Something with a cord that is plugged in nowhere."""
    return thing(tag, plug="", **values)


def with_plan(job: Job) -> Job:
    """The job with its proposal carried out."""
    things = dict(job.of(Equipment))
    for tag, place, half in plan_plugs(job).placed:
        things[tag] = msgspec.structs.replace(things[tag], plug=place, half=half)
    return Job({**job.tables, "equipment": things}, today=job.today)


def test_nothing_to_propose() -> None:
    assert plan_plugs(job_of(circuit(), receptacle(), thing())).placed == []
    assert plan_plugs(job_of(circuit(), receptacle(), loose(power="hard-wired"))).placed == []


def test_the_free_place_is_taken_once() -> None:
    job = job_of(circuit(), receptacle(), thing("E1"), loose("E2"), loose("E3"))
    assert plan_plugs(job).placed == [("E2", "B1", "either")]


def test_its_own_opening_comes_first() -> None:
    here = make(Opening, "N1", name="a", use="equipment")
    there = make(Opening, "N2", name="b", use="equipment")
    job = job_of(circuit(), here, there, receptacle("B1", reached="N1"), receptacle("B2", reached="N2"),
                 loose(opening="N2", watts=300.0))  # fmt: skip
    assert plan_plugs(job).placed == [("E1", "B2", "either")]


def test_a_screen_is_never_led_through_the_wall() -> None:
    recess = make(Opening, "N1", name="a", use="screen")
    cabinet = make(Opening, "N2", name="b", use="equipment")
    job = job_of(circuit(), recess, cabinet, receptacle("B1", reached="N2"), loose(what="screen", opening="N1"))
    assert plan_plugs(job).placed == []


def test_what_stands_in_the_room_takes_no_place_in_a_recess() -> None:
    recess = make(Opening, "N1", name="a", use="screen")
    wall_side = receptacle("B2", wall="W1", x="10", y="16")
    job = job_of(circuit(), recess, receptacle("B1", reached="N1"), wall_side, loose())
    assert plan_plugs(job).placed == [("E1", "B2", "either")]


def test_a_heater_gets_a_circuit_alone_and_never_a_strip() -> None:
    fire = loose("E1", what="fireplace", heats=True, watts=1500.0)
    shared = [circuit(), receptacle(), strip(), thing("E2", plug="E9")]
    assert plan_plugs(job_of(*shared, fire)).placed == []
    own = [circuit("C2"), receptacle("B2", circuit="C2", receptacles=1, devices=("single receptacle TR 12",))]
    assert plan_plugs(job_of(*shared, *own, fire)).placed == [("E1", "B2", "either")]


def test_nothing_joins_the_heater() -> None:
    fire = loose("E1", what="fireplace", heats=True, watts=1500.0)
    rated = receptacle(devices=("receptacle TR 20 A 12",))
    job = job_of(circuit(), rated, fire, loose("E2"))
    assert plan_plugs(job).placed == [("E1", "B1", "either")]


def test_a_strip_goes_in_the_wall_and_takes_the_small_things() -> None:
    job = job_of(circuit(), receptacle(), strip(plug=""), loose("E1"), loose("E2", power="wall-wart"), loose("E3"))
    assert plan_plugs(job).placed == [
        ("E9", "B1", "either"),
        ("E1", "E9", "either"),
        ("E2", "E9", "either"),
        ("E3", "E9", "either"),
    ]


def test_halves() -> None:
    job = job_of(circuit(), receptacle(switched="half"), loose("E1", what="light"), loose("E2", what="router"))
    assert plan_plugs(job).placed == [("E1", "B1", "switched"), ("E2", "B1", "always on")]
    assert plan_plugs(job_of(circuit(), receptacle(switched="all"), loose("E2", what="router"))).placed == []


def test_a_strip_is_not_overloaded() -> None:
    job = job_of(
        circuit(), receptacle(), thing("E8"), strip(rating=100.0), loose("E1", watts=60.0), loose("E2", watts=60.0)
    )
    assert [each[0] for each in plan_plugs(job).placed] == ["E1"]


WHAT = st.sampled_from(["other", "router", "light", "strip", "heater", "screen", "player", "receiver"])


@st.composite
def jobs(draw: st.DrawFn) -> Job:
    """Walls with receptacles of every kind, strips that are plugged in or not, and things of every kind."""
    records: list[Record] = [
        circuit("C1", load=draw(st.sampled_from([0.0, 600.0]))),
        circuit("C2", lighting=draw(st.booleans())),
        make(Opening, "N1", name="recess", use="screen"),
        make(Opening, "N2", name="cabinet", use="equipment"),
    ]
    for at in range(draw(st.integers(1, 4))):
        records.append(
            receptacle(
                f"B{at + 1}",
                circuit=draw(st.sampled_from(["C1", "C2"])),
                receptacles=draw(st.sampled_from([1, 2, 4])),
                devices=("receptacle TR 12",),
                switched=draw(st.sampled_from(["none", "none", "half", "all"])),
                reached=draw(st.sampled_from(["", "N1", "N2"])),
            )
        )
    for at in range(draw(st.integers(1, 7))):
        what = draw(WHAT)
        records.append(
            loose(
                f"E{at + 1}",
                what=what,
                heats=what == "heater",
                watts=draw(st.sampled_from([5.0, 90.0, 700.0, 1500.0])) if what != "strip" else None,
                hours=draw(st.sampled_from([None, 1.0, 5.0, 24.0])),
                power="cord" if what in ("strip", "heater") else draw(st.sampled_from(["cord", "wall-wart"])),
                half=draw(st.sampled_from(["either", "either", "always on", "switched"])),
                opening=draw(st.sampled_from(["", "N1", "N2"])),
                places=6 if what == "strip" else 0,
                rating=1000.0 if what == "strip" else None,
            )
        )
    return job_of(*records)


UNTOUCHED = {"no_place_to_plug", "no_receptacle_behind_screen"}
"""What no plug can mend: it wants another receptacle."""


@given(jobs())
def test_a_proposal_breaks_no_rule(job: Job) -> None:
    """Whatever is given a place, no finding of weight appears that was not there before."""
    before = {each.key for each in findings(job) if each.severity != "look"}
    planned = with_plan(job)
    after = {each.key: each for each in findings(planned) if each.severity != "look"}
    worse = {key for key in after if key not in before and after[key].rule not in UNTOUCHED}
    assert not worse, [after[key].says for key in worse]


@given(jobs())
def test_a_proposal_is_whole_and_repeats(job: Job) -> None:
    """It names each thing once, only what was unplugged, and is the same each time; carried out, it is done."""
    plan = plan_plugs(job).placed
    tags = [each[0] for each in plan]
    assert len(tags) == len(set(tags))
    assert all(not job.of(Equipment)[tag].plug for tag in tags)
    assert plan == plan_plugs(job).placed
    again = {each[0] for each in plan_plugs(with_plan(job)).placed}
    assert again.isdisjoint(tags)


def test_a_screen_comes_before_a_larger_plug() -> None:
    job = job_of(circuit(), receptacle(), loose("E1", power="wall-wart"), loose("E2", what="screen"))
    plan = plan_plugs(job)
    assert plan.placed == [("E2", "B1", "either")]
    assert plan.left == [("E1", "the receptacles in reach are taken")]


@rows(
    ("records", "values", "why"),
    [
        ((), {}, "no receptacle and no strip is planned"),
        ((receptacle(reached="N1"),), {"opening": "N2"}, "only through the wall"),
        ((strip("E9"), receptacle()), {"what": "heater"}, "a heater needs a circuit of its own"),
        ((receptacle(switched="all"),), {"what": "router"}, "switched and it must stay on"),
        ((receptacle(), thing("E8"), thing("E9")), {}, "are taken"),
        ((receptacle(circuit="C2"), circuit("C2", load=2400.0)), {"watts": 60.0}, "have no room left"),
    ],
)
def test_what_finds_no_place_is_told_why(records: tuple[Record, ...], values: dict[str, Any], why: str) -> None:
    openings = (make(Opening, "N1", name="a", use="equipment"), make(Opening, "N2", name="b", use="screen"))
    (tag, said), *others = plan_plugs(job_of(*openings, *records, loose(**values))).left
    assert tag == "E1"
    assert why in said
    assert not others


def test_a_heater_is_told_what_it_lacks_and_not_who_came_after_it() -> None:
    """A 15 A duplex gives 12 A: 1500 W do not go there, and the screen that takes a place later is not the reason."""
    job = job_of(circuit(), receptacle(), loose("E1", what="heater", watts=1500.0), loose("E2"), loose("E3"))
    plan = plan_plugs(job)
    assert [each[0] for each in plan.placed] == ["E2", "E3"]
    assert plan.left == [("E1", HEATER_ROOM)]
