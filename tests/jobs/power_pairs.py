"""For each grave finding of power: the smallest job that raises it, and the nearest one that does not.

`PAIRS` is by the name of the finding. The second job is made of the first by one change of one record (or one more
record); `test_power_cases.py` holds both to that, and holds the list to the rules themselves.
"""

from __future__ import annotations

from typing import Any, NamedTuple

import msgspec

from store.records.base import Record
from store.records.equipment import Equipment
from store.records.wall import Opening, Reading, Wall
from store.records.whole import Job
from store.records.wiring import Box, Cable, Circuit
from store.rules.core.findings import Severity
from tests.jobs.power_case import LENGTHS, TODAY, at, circuit, job_of, make


class Pair(NamedTuple):
    """A job that raises a finding, and the nearest that does not."""

    severity: Severity
    raised: Job
    quiet: Job


def changed(job: Job, tag: str, **values: Any) -> Job:
    """The job with some fields of one record otherwise; `job` stands for what holds for the whole."""
    record = job.get(tag)
    assert record is not None
    read = {key: at(each) if key in LENGTHS and isinstance(each, str) else each for key, each in values.items()}
    new = msgspec.structs.replace(record, **read)
    return Job({**job.tables, record.kind: {**job.tables[record.kind], tag: new}}, today=TODAY)


def more(job: Job, record: Record) -> Job:
    """The job with one more record."""
    return Job({**job.tables, record.kind: {**job.tables[record.kind], record.tag: record}}, today=TODAY)


def thing(tag: str = "E1", **values: Any) -> Equipment:
    """Something with a cord, plugged into B1."""
    given: dict[str, Any] = {"name": "thing", "power": "cord", "plug": "B1"}
    return make(Equipment, tag, **{**given, **values})


def heater(tag: str = "E1", **values: Any) -> Equipment:
    """A 1500 W fireplace wired in B1."""
    given: dict[str, Any] = {"what": "fireplace", "power": "hard-wired", "watts": 1500.0, "name": "fireplace"}
    return thing(tag, **{**given, **values})


def box(tag: str = "B1", what: str = "receptacle", **values: Any) -> Box:
    """A box of which nothing is noted but what it is."""
    return make(Box, tag, what=what, **values)


def on_c1(*others: Any, **values: Any) -> Job:
    """A 20 A circuit in 12 AWG, or with these values, a duplex on it, and these records."""
    return job_of(circuit(**values), box(circuit="C1"), *others)


def opening(tag: str, use: str, **values: Any) -> Opening:
    """An opening."""
    return make(Opening, tag, name=use, use=use, **values)


def _wall(**values: Any) -> tuple[Wall, Reading]:
    """A wall 20 ft long of two-by-fours that carries nothing."""
    given: dict[str, Any] = {"name": "wall", "stud_depth": at("3 1/2"), "first_stud": at("16"), "bearing": "no"}
    return make(Wall, "W1", **{**given, **values}), make(Reading, "D1", wall="W1", what="width", value="20'")


def _boxes() -> dict[str, Pair]:
    full = job_of(box(volume=16.0, conductors=("2 x 12-2 G",), clamps=True, devices=("receptacle 12",)))
    two = job_of(box(devices=("receptacle 12", "switch 12")))
    deep = job_of(box(setback="5/16"))
    buried = job_of(box(what="junction"))
    cabinet = opening("N1", "equipment", wall="W1", x="10", y="0", width="30", height="30")
    covered = job_of(cabinet, box(wall="W1", x="20", y="12"))
    shared = job_of(circuit(), box(what="low-voltage", circuit="C1"))
    half = job_of(box(switched="half", receptacles=1))
    old = box(new=False, volume=18.0, conductors=("2 x 12-2 G",), devices=("receptacle 12",))
    tapped = job_of(old, make(Cable, "K1", type="nm-12-2", start="B1"))
    return {
        "box_overfull": Pair("fix", full, changed(full, "B1", volume=18.0)),
        "box_overfull_with_plan": Pair("fix", tapped, changed(tapped, "B1", volume=20.25)),
        "more_devices_than_gangs": Pair("fix", two, changed(two, "B1", gangs=2)),
        "box_set_too_deep": Pair("fix", deep, changed(deep, "B1", setback="1/4")),
        "junction_buried": Pair("stop", buried, changed(buried, "B1", plate=True)),
        "box_behind_cabinet": Pair("stop", covered, changed(covered, "B1", reached="N1")),
        "power_in_low_voltage_box": Pair("stop", shared, changed(shared, "B1", divider=True)),
        "half_of_one_place": Pair("fix", half, changed(half, "B1", receptacles=2)),
    }


def _circuits() -> dict[str, Pair]:
    thin = job_of(circuit(conductor="14"))
    small = on_c1(breaker=10.0, conductor="14")
    heavy = job_of(circuit(conductor="14", load=2160.0))
    long = on_c1(heater(what="other", hours=3.0, watts=1560.0), breaker=15.0, conductor="14")
    shared = on_c1(heater(what="other", watts=1560.0), load=60.0)
    plug = on_c1(thing(watts=1560.0))
    share = on_c1(thing(watts=1500.0), breaker=15.0, conductor="14")
    single = job_of(circuit(), box(circuit="C1", receptacles=1, devices=("receptacle 15 A 12",)))
    wire = job_of(circuit(), box(circuit="C1"), make(Cable, "K1", type="nm-14-2", end="B1"))
    kept = on_c1(thing(), thing("E2"), only_for="E1")
    near = job_of(circuit(breaker=15.0, conductor="14"), box(circuit="C1", receptacles=1), heater(power="cord"))
    return {
        "breaker_too_small": Pair("fix", small, changed(small, "C1", breaker=15.0)),
        "breaker_over_wire": Pair("stop", thin, changed(thin, "C1", breaker=15.0)),
        "circuit_overloaded": Pair("fix", long, changed(long, "E1", watts=1440.0)),
        "wire_overloaded": Pair("fix", heavy, changed(heavy, "C1", load=1800.0)),
        "fixed_over_half": Pair("fix", shared, changed(shared, "E1", watts=1200.0)),
        "receptacle_overloaded": Pair("fix", plug, changed(plug, "E1", watts=1440.0)),
        "plug_in_over_80": Pair("fix", share, changed(share, "E1", watts=1440.0)),
        "receptacle_rating": Pair("fix", single, changed(single, "B1", devices=("receptacle 20 A 12",))),
        "thin_wire_on_breaker": Pair("stop", wire, changed(wire, "K1", type="nm-12-2")),
        "not_the_only_one": Pair("fix", kept, changed(kept, "E2", plug="")),
        "heater_near_limit": Pair("look", near, changed(near, "E1", watts=1440.0)),
    }


def _plugs() -> dict[str, Pair]:
    nowhere = job_of(thing(plug=""))
    switch = job_of(box(what="switch"), thing())
    wart = job_of(box(receptacles=1), thing(power="wall-wart"))
    strip = {"what": "strip", "places": 6}
    chain = job_of(thing("E1", plug="E2", **strip), thing("E2", plug="", **strip))
    heavy = job_of(thing("E1", plug="E2", watts=1501.0), thing("E2", plug="", rating=1500.0, **strip))
    return {
        "no_place_to_plug": Pair("fix", nowhere, changed(nowhere, "E1", power="none")),
        "wrong_kind_of_place": Pair("fix", switch, changed(switch, "B1", what="receptacle")),
        "too_few_places": Pair("fix", wart, changed(wart, "E1", power="cord")),
        "strip_on_strip": Pair("stop", chain, changed(chain, "E1", plug="")),
        "strip_over_rating": Pair("fix", heavy, changed(heavy, "E1", watts=1500.0)),
    }


def _cords() -> dict[str, Pair]:
    cord = job_of(make(Cable, "K1", type="extension cord"))
    inside = job_of(thing(what="strip", plug=""), make(Cable, "K1", type="extension cord", end="E1"))
    places: dict[str, Any] = {"wall": "W1", "y": "0", "width": "40", "height": "30"}
    screen, cabinet = opening("N1", "screen", x="0", **places), opening("N2", "equipment", x="60", **places)
    through = job_of(screen, box(reached="N2"), cabinet, thing(opening="N1"))
    size = {"width": "20", "height": "10"}
    short = job_of(
        screen, box(wall="W1", x="90", y="5"), thing(opening="N1", cord="4'", **size),
    )  # fmt: skip
    bare = job_of(opening("N1", "screen"), thing(what="screen", opening="N1", plug=""))
    alone = job_of(box(what="quick-connect"))
    hidden = job_of(thing(what="driver", plug="", power="wall-wart", wall="W1", x="40", y="80"))
    wired = job_of(thing(power="cord"), make(Cable, "K1", type="nm-12-2", end="E1"))
    return {
        "cord_in_wall": Pair("stop", cord, changed(cord, "K1", in_wall=False)),
        "strip_in_wall": Pair("stop", inside, changed(inside, "K1", in_wall=False)),
        "wired_to_a_cord": Pair("fix", wired, changed(wired, "E1", power="hard-wired")),
        "plug_inside_wall": Pair("stop", hidden, changed(hidden, "E1", power="hard-wired")),
        "cord_through_wall": Pair("stop", through, changed(through, "B1", reached="N1")),
        "cord_too_short": Pair("fix", short, changed(short, "E1", cord="8'")),
        "no_receptacle_behind_screen": Pair("fix", bare, more(bare, box(reached="N1"))),
        "quick_connect_without_power": Pair("fix", alone, changed(alone, "B1", circuit="C1")),
    }


def _switched() -> dict[str, Pair]:
    router = job_of(box(switched="all"), thing(what="router"))
    meant = job_of(box(), thing(half="switched"))
    lamp = job_of(box(switched="half"), thing(what="light", half="always on"))
    two = job_of(box(switched="half"), thing(half="switched"), thing("E2", half="switched"))
    stay = job_of(box(switched="half"), thing(half="always on"), thing("E2", half="always on"))
    return {
        "always_on_is_switched": Pair("fix", router, changed(router, "B1", switched="none")),
        "half_not_there": Pair("fix", meant, changed(meant, "B1", switched="half")),
        "lamp_on_unswitched_half": Pair("fix", lamp, changed(lamp, "E1", half="switched")),
        "too_few_switched": Pair("fix", two, changed(two, "E2", half="always on")),
        "too_few_always_on": Pair("fix", stay, changed(stay, "E2", half="switched")),
    }


def _heaters() -> dict[str, Pair]:
    strip = job_of(heater(power="cord", plug="E2"), thing("E2", what="strip", places=6, plug=""))
    other = job_of(circuit(), box(what="junction", circuit="C1"), heater(), thing("E2", plug="B1"))
    small = job_of(circuit(breaker=15.0, conductor="14"), box(what="junction", circuit="C1"), heater())
    metric = job_of(heater(power="cord", watts=3000.0, plug=""), region="metric")
    return {
        "heater_on_strip": Pair("stop", strip, changed(strip, "E1", plug="")),
        "heater_shares_circuit": Pair("fix", other, changed(other, "E2", plug="")),
        "heater_circuit_too_small": Pair("fix", small, changed(small, "E1", watts=1440.0)),
        "metric_heater_too_large": Pair("fix", metric, changed(metric, "E1", watts=2990.0)),
    }


def _protection() -> dict[str, Pair]:
    arc = job_of(circuit(afci=False), box(circuit="C1"))
    residual = job_of(make(Circuit, "C1", name="ring"), box(circuit="C1"), region="metric")
    bare = job_of(box(conductors=("12-2 without ground",)))
    hidden = job_of(
        opening("N1", "screen", wall="W1", x="0", y="0", width="40", height="30"),
        box(devices=("GFCI receptacle 12",), reached="N1"),
    )
    return {
        "protection_out_of_reach": Pair("fix", hidden, changed(hidden, "B1", devices=("receptacle 12",))),
        "no_ground_there": Pair("fix", bare, changed(bare, "B1", conductors=("12-2 G",))),
        "arc_fault_missing": Pair("fix", arc, changed(arc, "C1", afci=True)),
        "residual_current_missing": Pair("fix", residual, changed(residual, "C1", gfci=True)),
    }


def _of_the_wall() -> dict[str, Pair]:
    apart = job_of(*_wall(), box("B1", wall="W1", x="3'", y="16"), box("B2", wall="W1", x="15' 2", y="16"))
    ends = [box(tag, wall="W1", x=x, y="16") for tag, x in (("B1", "20"), ("B2", "60"))]
    bored = job_of(_wall()[0], *ends, make(Cable, "K1", type="nm-12-2", start="B1", end="B2", hole="2 1/8"))
    notched = changed(changed(bored, "K1", hole=None), "K1", notch="1 7/16")
    high = make(Reading, "D2", wall="W1", what="height", value="8'")
    over = changed(more(changed(bored, "W1", bearing="yes"), high), "K1", route="up and over", hole="1 13/16")
    return {
        "notch_too_deep": Pair("fix", notched, changed(notched, "K1", notch="1 3/8")),
        "top_plate_cut": Pair("fix", over, changed(over, "K1", hole="1 3/4")),
        "receptacles_too_far": Pair("fix", apart, changed(apart, "B2", x="15'")),
        "hole_too_large": Pair("fix", bored, changed(bored, "K1", hole="2 1/16")),
    }


PAIRS: dict[str, Pair] = {
    **_boxes(), **_circuits(), **_plugs(), **_cords(), **_switched(), **_heaters(), **_protection(), **_of_the_wall(),
}  # fmt: skip
