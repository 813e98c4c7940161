"""One circuit, one breaker: each rule with the smallest job that raises it and the nearest that does not."""

from __future__ import annotations

from typing import Any

from store.records.whole import Job
from store.records.wiring import Box, Cable
from tests.jobs.power_case import circuit, job_of, make, only, told
from tests.jobs.power_pairs import box, changed, more, thing


def two_circuits(kind: str = "nm-12-2") -> Job:
    """B1 on C1 and B2 on C2, with a cable between them."""
    second = box("B2", circuit="C2")
    return job_of(
        circuit(), circuit("C2"), box(circuit="C1"), second, make(Cable, "K1", type=kind, start="B1", end="B2")
    )


def test_a_cable_between_boxes_of_two_circuits_ties_them() -> None:
    found = only(two_circuits(), "circuits_joined", "stop")
    assert found.tags == ("K1", "C1", "C2")
    assert not told(changed(two_circuits(), "B2", circuit="C1"), "circuits_joined")


def test_it_is_told_through_a_junction_box_without_a_circuit_too() -> None:
    joint = more(two_circuits(), make(Box, "B3", what="junction", plate=True))
    joint = changed(joint, "K1", end="B3")
    joint = more(joint, make(Cable, "K2", type="nm-12-2", start="B3", end="B2"))
    assert only(joint, "circuits_joined", "stop").tags[0] == "K2"
    assert not told(changed(joint, "K2", end=""), "circuits_joined")


def test_thin_wire_behind_the_larger_breaker_is_said() -> None:
    found = only(changed(two_circuits("nm-14-2"), "C1", breaker=15.0), "circuits_joined", "stop")
    assert "14 AWG wire can be behind 15 A at most; a 20 A breaker" in found.why
    assert "at most" not in only(two_circuits("nm-12-2"), "circuits_joined", "stop").why


def test_a_cable_of_three_wires_shares_a_neutral() -> None:
    found = only(two_circuits("nm-12-3"), "shared_neutral", "fix")
    assert "210.4(B)" in found.source
    assert not told(two_circuits("nm-12-3"), "circuits_joined")
    feed = more(two_circuits(), make(Cable, "K2", type="nm-12-3", end="B1"))
    assert only(feed, "shared_neutral", "fix").tags[0] == "K1"
    assert not told(changed(two_circuits("nm-12-3"), "B2", circuit="C1"), "shared_neutral")


def test_a_circuit_with_two_home_runs() -> None:
    once = job_of(circuit(), box(circuit="C1"), make(Cable, "K1", type="nm-12-2", end="B1"))
    twice = more(once, make(Cable, "K2", type="nm-12-2", end="B1"))
    assert "210.7" in only(twice, "circuit_fed_twice", "fix").source
    assert not told(once, "circuit_fed_twice")
    # A cable that leaves a box and ends nowhere brings nothing.
    assert not told(more(once, make(Cable, "K2", type="nm-12-2", start="B1")), "circuit_fed_twice")


def test_the_thinnest_wire_decides_on_the_way_to_equipment_and_beyond_a_box_without_a_circuit() -> None:
    heater = thing(power="hard-wired", watts=900.0)
    wired = job_of(circuit(), box(circuit="C1"), heater, make(Cable, "K1", type="nm-14-2", start="B1", end="E1"))
    assert only(wired, "thin_wire_on_breaker", "stop").tags == ("C1", "K1")
    assert not told(changed(wired, "K1", type="nm-12-2"), "thin_wire_on_breaker")
    beyond = job_of(
        circuit(), box(circuit="C1"), box("B2", "junction", plate=True), box("B3", "junction", plate=True),
        make(Cable, "K1", type="nm-12-2", start="B1", end="B2"),
        make(Cable, "K2", type="nm-14-2", start="B2", end="B3"),
    )  # fmt: skip
    assert only(beyond, "thin_wire_on_breaker", "stop").tags == ("C1", "K2")


def ring(**values: Any) -> Job:
    """A 32 A ring of 2.5 mm² from the consumer unit to B1, B2 and back."""
    cables = [
        make(Cable, "K1", type="2.5 mm2 twin and earth", end="B1"),
        make(Cable, "K2", type="2.5 mm2 twin and earth", start="B1", end="B2"),
        make(Cable, "K3", type="2.5 mm2 twin and earth", end="B2"),
    ]
    given: dict[str, Any] = {"breaker": 32.0, "volts": 230.0, "conductor": "2.5 mm2", "gfci": True, **values}
    return job_of(circuit(**given), box(circuit="C1"), box("B2", circuit="C1"), *cables, region="metric")


def test_a_ring_is_a_ring() -> None:
    # BS 7671 433.1.204: 30 or 32 A device, 2.5 mm², 20 A as installed (method 102 carries 21 A, 103 carries 13.5 A).
    for name in ("breaker_over_wire", "thin_wire_on_breaker", "ring_not_closed"):
        assert not told(ring(), name)
        assert not told(ring(wiring="ring"), name)
    radial = changed(ring(), "K3", retired=ring().today)
    assert told(radial, "breaker_over_wire")
    assert told(ring(lies="103"), "breaker_over_wire")
    assert told(changed(ring(), "K2", type="1.5 mm2 twin and earth"), "thin_wire_on_breaker")


def test_a_ring_that_is_drawn_open() -> None:
    opened = changed(ring(wiring="ring"), "K3", retired=ring().today)
    assert "433.1.204" in only(opened, "ring_not_closed", "fix").source
    assert not told(changed(opened, "B1", new=False), "ring_not_closed")


def one_yoke(devices: tuple[str, ...] = ("receptacle TR 12 C1 + C2",), **values: Any) -> Job:
    """A duplex whose halves are on two circuits."""
    return job_of(circuit(slot="7"), circuit("C2", slot="9"), box(circuit="C1", devices=devices, **values))


def test_two_circuits_on_one_yoke_go_off_together() -> None:
    found = only(one_yoke(), "two_circuits_on_one_yoke", "fix")
    assert found.source.startswith("NEC 2020 210.7")
    assert not told(changed(one_yoke(), "C2", slot="7"), "two_circuits_on_one_yoke"), "a two-pole breaker"
    assert not told(one_yoke(("receptacle TR 12",)), "two_circuits_on_one_yoke")
    assert not told(one_yoke(("receptacle TR 12 C1",)), "two_circuits_on_one_yoke")


def test_two_circuits_in_one_box_are_said_to_whoever_opens_it() -> None:
    two = one_yoke(("receptacle TR 12", "switch 12 on C2"), gangs=2)
    assert only(two, "two_circuits_in_box", "look").tags == ("B1", "C1", "C2")
    assert not told(two, "two_circuits_on_one_yoke")
    assert not told(one_yoke(("receptacle TR 12", "switch 12"), gangs=2), "two_circuits_in_box")


def test_cables_to_a_box_of_two_circuits_tie_nothing() -> None:
    second = two_circuits()
    assert told(second, "circuits_joined")
    assert not told(changed(second, "B2", devices=("receptacle TR 12", "switch 12 on C1"), gangs=2), "circuits_joined")


def test_each_circuit_of_a_box_has_a_home_run() -> None:
    feeds = [make(Cable, f"K{n}", type="nm-12-2", end="B1") for n in (1, 2)]
    fed = {
        how: more(more(job, feeds[0]), feeds[1])
        for how, job in (("one", one_yoke(("receptacle TR 12",))), ("two", one_yoke()))
    }
    assert told(fed["one"], "circuit_fed_twice")
    assert not told(fed["two"], "circuit_fed_twice")
    assert told(more(fed["two"], make(Cable, "K3", type="nm-12-2", end="B1")), "circuit_fed_twice")


def test_two_circuits_in_one_cable_share_its_neutral() -> None:
    two = more(
        one_yoke(("receptacle TR 12", "receptacle TR 12 C2"), gangs=2), make(Cable, "K1", type="nm-12-3", end="B1")
    )
    assert only(two, "shared_neutral", "fix").tags == ("K1", "C1", "C2")
    assert not told(changed(two, "K1", type="nm-12-2"), "shared_neutral")
    assert not told(changed(two, "C2", slot="7"), "shared_neutral"), "a two-pole breaker"


def test_a_breaker_number_is_of_one_circuit() -> None:
    two = job_of(circuit(slot="7"), circuit("C2", slot="7"), box(circuit="C1"), box("B2", circuit="C2"))
    assert only(two, "breaker_entered_twice", "look").tags == ("C1", "C2")
    assert not told(changed(two, "C2", slot="9"), "breaker_entered_twice")
    shared = changed(changed(two, "B1", devices=("receptacle TR 12 C1 + C2",)), "B2", circuit="C1")
    assert not told(shared, "breaker_entered_twice"), "a two-pole breaker for one receptacle"
