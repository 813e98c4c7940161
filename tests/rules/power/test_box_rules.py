"""Findings about boxes: each with the smallest job that raises it, and the nearest that does not."""

from __future__ import annotations

from typing import Any

import msgspec
import pytest

from store.measure.length import inches
from store.records.access import Panel
from store.records.gate import Answer
from store.records.wall import Opening, Wall
from store.records.whole import Job
from store.records.wiring import Box, Cable, Circuit
from store.rules.core.findings import findings
from store.rules.power.box_contents import looks
from tests.jobs.power_case import TODAY, at, circuit, job_of, make, only, receptacle, told
from tests.rows import rows


def full(volume: float = 16.0) -> Job:
    """A receptacle with two 12-2 cables and clamps: 4 + 1 + 2 + 1 allowances of 2.25 in³, 18 in³ in all."""
    box = receptacle(volume=volume, conductors=("12-2 G", "12-2 G"), clamps=True)
    return job_of(circuit(), box)


def test_overfull_box() -> None:
    finding = only(full(), "box_overfull", "fix")
    assert finding.numbers == {"needs": "18.00 in³", "has": "16.00 in³"}
    assert "314.16" in finding.source
    assert "18 in³" in finding.remedy
    assert "electrician" in finding.remedy


def tapped(*kinds: str, **values: Any) -> Job:
    """A duplex that lists two 12-2 cables, 15.75 in³ of 18, and cables of the plan that end there."""
    box = receptacle(**{"volume": 18.0, "conductors": ("2 x 12-2 G",), "new": False, **values})
    return job_of(circuit(), box, *(make(Cable, f"K{at}", type=kind, start="B1") for at, kind in enumerate(kinds, 1)))


def test_a_cable_of_the_plan_comes_on_top_of_what_an_old_box_holds() -> None:
    """Two more conductors of 12 AWG are 4.5 in³; the third ground is free."""
    finding = only(tapped("nm-12-2"), "box_overfull_with_plan", "fix")
    assert finding.tags == ("B1", "K1")
    assert finding.numbers == {"needs": "20.25 in³", "has": "18.00 in³", "cables": "K1"}
    assert not told(tapped("cat6"), "box_overfull_with_plan")
    assert not told(tapped("nm-12-2", volume=20.25), "box_overfull_with_plan")


def test_a_cable_that_the_box_lists_by_its_tag_is_counted_once() -> None:
    named = tapped("nm-12-2", conductors=("12-2 G", "K1"))
    assert not told(named, "box_overfull_with_plan")
    more = tapped("nm-12-2", conductors=("2 x 12-2 G", "k1"))
    assert only(more, "box_overfull", "fix").numbers["needs"] == "20.25 in³"
    assert not told(more, "box_overfull_with_plan"), "it is told once"
    pulled = msgspec.structs.replace(make(Cable, "K1", type="nm-12-2", start="B1"), state="pulled")
    job = tapped("nm-12-2")
    assert not told(Job({**job.tables, "cable": {"K1": pulled}}, today=TODAY), "box_overfull_with_plan")


def test_in_the_list_of_a_new_box_a_cable_stands_for_one_of_the_plan() -> None:
    assert not told(tapped("nm-12-2", "nm-12-2", new=True), "box_overfull_with_plan")
    third = tapped("nm-12-2", "nm-12-2", "nm-12-2", new=True)
    assert only(third, "box_overfull_with_plan", "fix").tags == ("B1", "K3")
    mixed = tapped("nm-12-2", "nm-12-2", "nm-12-2", new=True, conductors=("12-2 G", "K1"))
    assert only(mixed, "box_overfull_with_plan", "fix").tags == ("B1", "K3")
    loose = tapped("nm-12-2", new=True, conductors=("6 x 12", "ground 12"))
    assert not told(loose, "box_overfull_with_plan"), "loose conductors cannot be matched with cables"


def test_box_that_is_just_large_enough() -> None:
    assert not told(full(18.0), "box_overfull")


def test_the_edition_of_the_code_decides_on_the_grounds() -> None:
    """Six cables bring six grounds: one allowance by the 2017 counting, one and a half by that of 2020."""
    box = make(Box, "B1", what="junction", circuit="C1", plate=True, volume=29.25, conductors=("6 x 12-2 G",))
    assert not told(job_of(circuit(), box, edition="2017"), "box_overfull")
    assert only(job_of(circuit(), box, edition="2020"), "box_overfull", "fix").numbers["needs"] == "30.38 in³"


def test_an_answer_holds_until_the_numbers_change() -> None:
    """Who answered stays on record; one more cable in the box, and the question is open again."""
    job = full()
    finding = only(job, "box_overfull", "fix")
    answer = Answer(tag=finding.key, date=TODAY, by="Sam, licence 1", says="extender fitted", vouches=finding.numbers)
    answered = Job({**job.tables, "answer": {answer.tag: answer}}, today=TODAY)
    assert next(each for each in findings(answered) if each.rule == "box_overfull").answered
    box = msgspec.structs.replace(answered.of(Box)["B1"], conductors=("12-2 G", "12-2 G", "12-2 G"))
    changed = Job({**answered.tables, "box": {"B1": box}}, today=TODAY)
    again = next(each for each in findings(changed) if each.rule == "box_overfull")
    assert again.answer == answer
    assert not again.answered


def test_cables_of_the_plan_are_counted_where_a_box_lists_none() -> None:
    box = receptacle(conductors=(), volume=10.0)
    feeds = [make(Cable, f"K{n}", type="nm-12-2", end="B1") for n in (1, 2)]
    assert only(job_of(circuit(), box, *feeds), "box_overfull", "fix").numbers["needs"] == "15.75 in³"
    retired = msgspec.structs.replace(feeds[1], retired=TODAY)
    assert only(job_of(circuit(), box, feeds[0], retired), "box_overfull", "fix").numbers["needs"] == "11.25 in³"


@rows(
    ("values", "field"),
    [
        ({"devices": ("12",)}, "devices"),
        ({"conductors": ("fat cable",)}, "cables in it"),
        ({"size": "shoe box", "volume": None}, "standard size"),
        ({"volume": 0.25, "divider": True, "metal": True}, "volume"),
    ],
)
def test_a_text_that_cannot_be_read_names_its_field(values: dict[str, Any], field: str) -> None:
    finding = only(job_of(circuit(), receptacle(**values)), "box_text_unreadable", "look")
    assert field in finding.says.lower()
    assert not told(job_of(circuit(), receptacle()), "box_text_unreadable")


def test_volume_not_noted() -> None:
    job = job_of(circuit(), receptacle(volume=None))
    assert only(job, "box_volume_unknown", "look").numbers == {"needs": "11.25 in³"}
    standard = job_of(circuit(), receptacle(volume=None, size="3 x 2 x 2-1/2 device"))
    assert not told(standard, "box_volume_unknown")


def test_half_of_the_contents_noted() -> None:
    bare = receptacle(devices=())
    assert "no devices" in only(job_of(circuit(), bare), "box_contents_unknown", "look").says
    empty = receptacle(conductors=())
    assert "no cables" in only(job_of(circuit(), empty), "box_contents_unknown", "look").says
    assert not told(job_of(circuit(), receptacle()), "box_contents_unknown")


def test_a_new_box_without_a_ground_is_asked_about_and_its_sum_says_so() -> None:
    job = job_of(circuit(), receptacle(conductors=("12-2",)))
    assert "no grounds" in only(job, "box_contents_unknown", "look").says
    assert any("no grounding conductor" in line for line in looks(job)["B1"].lines)
    assert not told(job_of(circuit(), receptacle(conductors=("12-2 G",))), "box_contents_unknown")
    assert not told(job_of(circuit(), receptacle(conductors=("12-2",), new=False)), "box_contents_unknown")


def test_cables_of_the_plan_may_be_named_in_a_box() -> None:
    """One cable of the plan by its tag, and one that is there already as its size."""
    feed, data = make(Cable, "K1", type="nm-12-2", end="B1"), make(Cable, "K2", type="cat6", end="B1")
    job = job_of(circuit(), receptacle(conductors=("K1", "14-2 G"), volume=10.0), feed)
    assert only(job, "box_overfull", "fix").numbers["needs"] == "15.25 in³"
    wrong = job_of(circuit(), receptacle(conductors=("k2",)), data)
    assert "K2 is not a power cable" in only(wrong, "box_text_unreadable", "look").says


def test_a_device_of_no_known_size_in_a_box_with_nothing_to_go_by() -> None:
    job = job_of(circuit(), receptacle(conductors=("ground 12",), devices=("receptacle",)))
    assert "size of the wire on receptacle" in only(job, "box_text_unreadable", "look").says


def test_more_devices_than_gangs() -> None:
    two = ("receptacle TR 12", "switch 12")
    assert only(job_of(circuit(), receptacle(devices=two)), "more_devices_than_gangs", "fix").numbers["gangs"] == "1"
    assert not told(job_of(circuit(), receptacle(devices=two, gangs=2)), "more_devices_than_gangs")


@rows(("burns", "setback"), [("no", "5/16"), ("yes", "1/16"), ("unknown", "5/16")])
def test_box_set_too_deep(burns: str, setback: str) -> None:
    wall = make(Wall, "W1", name="wall", burns=burns)
    job = job_of(circuit(), wall, receptacle(wall="W1", setback=setback))
    finding = only(job, "box_set_too_deep", "fix")
    assert "314.20" in finding.source
    assert ("flush" in finding.says) == (burns == "yes")
    metric = job_of(circuit(), wall, receptacle(wall="W1", setback=setback), region="metric")
    assert not told(metric, "box_set_too_deep")


@pytest.mark.parametrize(("burns", "setback"), [("no", "1/4"), ("yes", "0")])
def test_box_set_right(burns: str, setback: str) -> None:
    wall = make(Wall, "W1", name="wall", burns=burns)
    job = job_of(circuit(), wall, receptacle(wall="W1", setback=setback))
    assert not told(job, "box_set_too_deep")
    assert not told(job, "box_in_unknown_surface")


def test_a_set_back_box_in_a_surface_that_nobody_noted_is_to_be_looked_at() -> None:
    wall = make(Wall, "W1", name="wall")
    assert only(
        job_of(circuit(), wall, receptacle(wall="W1", setback="1/4")), "box_in_unknown_surface", "look"
    ).numbers == {"set back": '1/4"', "surface burns": "unknown"}


def junction(**values: Any) -> Box:
    """A junction box with one cable."""
    return make(Box, "B1", what="junction", circuit="C1", volume=18.0, conductors=("12-2 G",), **values)


def test_buried_junction() -> None:
    assert "314.29" in only(job_of(circuit(), junction()), "junction_buried", "stop").source


def test_an_answer_about_a_covered_box_counts_for_its_place_only() -> None:
    job = behind()
    finding = only(job, "box_behind_cabinet", "stop")
    answer = Answer(
        tag=finding.key, date=TODAY, by="Sam", office="building department", reference="R-112",
        says="the back is cut out", vouches=finding.numbers,
    )  # fmt: skip
    moved = msgspec.structs.replace(job.of(Box)["B1"], x=inches(21))
    there = Job({**job.tables, "answer": {answer.tag: answer}}, today=TODAY)
    assert told(there, "box_behind_cabinet")[0].answered
    assert not told(Job({**there.tables, "box": {"B1": moved}}, today=TODAY), "box_behind_cabinet")[0].answered


def test_a_junction_that_stays_in_reach() -> None:
    panel = make(Panel, "A1", name="panel", behind=("B1",))
    reached = make(Panel, "A1", name="panel")
    assert not told(job_of(circuit(), junction(), panel), "junction_buried")
    assert not told(job_of(circuit(), junction(reached="A1"), reached), "junction_buried")
    assert not told(job_of(circuit(), junction(plate=True)), "junction_buried")
    for device, buried in (
        ("luminaire 12", False),
        ("fused spur", False),
        ("wire nuts", True),
        ("led driver 12", True),
    ):
        assert bool(told(job_of(circuit(), junction(devices=(device,))), "junction_buried")) == buried


def behind(x: str = "20", **values: Any) -> Job:
    """A receptacle on a wall with a cabinet from 10 to 40 in across and from 0 to 30 in up."""
    cabinet = make(Opening, "N1", name="cabinet", use="equipment", wall="W1", x="10", y="0", width="30", height="30")
    box = receptacle(wall="W1", x=x, y="12", **values)
    return job_of(make(Wall, "W1", name="wall"), circuit(), cabinet, box)


def test_box_behind_a_cabinet() -> None:
    assert only(behind(), "box_behind_cabinet", "stop").tags == ("B1", "N1")


def test_box_beside_a_cabinet_or_reached_through_it() -> None:
    assert not told(behind("41"), "box_behind_cabinet")
    assert not told(behind(reached="N1"), "box_behind_cabinet")
    above = behind()
    assert not told(above.having(msgspec.structs.replace(above.of(Box)["B1"], y=at("31"))), "box_behind_cabinet")
    other = msgspec.structs.replace(above.of(Box)["B1"], wall="W2")
    assert not told(above.having(Wall(tag="W2", name="other")).having(other), "box_behind_cabinet")


def test_which_boxes_a_cabinet_buries() -> None:
    """The kinds of box that carry power, at every inner edge of what covers them, whatever else stands there."""
    # A junction has its own stop, a box for signals none; each other kind that carries power is covered.
    for what, said_of in (("receptacle", True), ("switch", True), ("junction", False), ("low-voltage", False)):
        job = behind()
        assert (
            bool(told(job.having(msgspec.structs.replace(job.of(Box)["B1"], what=what)), "box_behind_cabinet"))
            is said_of
        )
    # Behind a panel that is opened it is in reach.
    assert not told(behind().having(make(Panel, "A1", name="panel", behind=("B1",))), "box_behind_cabinet")
    # Its middle on an edge is not behind; a hair within is.
    for x, y, said_of in (
        ("10", "12", False), ("10 1/16", "12", True), ("40", "12", False), ("39 15/16", "12", True),
        ("20", "0", False), ("20", "1/16", True), ("20", "30", False), ("20", "29 15/16", True),
    ):  # fmt: skip
        job = behind(x)
        job = job.having(msgspec.structs.replace(job.of(Box)["B1"], y=at(y)))
        assert bool(told(job, "box_behind_cabinet")) is said_of, (x, y)
    # What covers a box is a cabinet and its like, with a place; a recess for a screen is open in front.
    job = behind()
    for use, said_of in (("equipment", True), ("other", True), ("screen", False)):
        cabinet = msgspec.structs.replace(job.of(Opening)["N1"], use=use)
        assert bool(told(job.having(cabinet), "box_behind_cabinet")) is said_of
    assert not told(job.having(msgspec.structs.replace(job.of(Opening)["N1"], x=None)), "box_behind_cabinet")


def low(**values: Any) -> Box:
    """A low-voltage box."""
    return make(Box, "B2", what="low-voltage", **values)


def test_power_in_a_low_voltage_box() -> None:
    feed = make(Cable, "K1", type="nm-12-2", start="B1", end="B2")
    assert "725.136" in only(job_of(circuit(), receptacle(), low(), feed), "power_in_low_voltage_box", "stop").source
    assert only(job_of(circuit(), low(circuit="C1")), "power_in_low_voltage_box", "stop").numbers == {"power": "C1"}


def test_a_signal_cable_does_not_excuse_a_circuit_in_a_low_voltage_box() -> None:
    signal = make(Cable, "K1", type="cat6", end="B2")
    assert only(job_of(circuit(), low(circuit="C1"), signal), "power_in_low_voltage_box", "stop")


def test_low_voltage_box_with_a_divider_or_with_signal_alone() -> None:
    feed = make(Cable, "K1", type="nm-12-2", start="B1", end="B2")
    signal = make(Cable, "K1", type="cat6", end="B2")
    assert not told(job_of(circuit(), receptacle(), low(divider=True), feed), "power_in_low_voltage_box")
    assert not told(job_of(circuit(), receptacle(), low(), signal), "power_in_low_voltage_box")


def test_power_box_without_a_circuit() -> None:
    job = job_of(receptacle("B1", circuit=""), receptacle("B2", circuit=""))
    assert only(job, "power_box_without_circuit", "look").tags == ("B1", "B2")
    assert not told(job_of(make(Circuit, "C1", name="x"), receptacle()), "power_box_without_circuit")


def test_half_of_a_single_place() -> None:
    assert only(job_of(circuit(), receptacle(switched="half", receptacles=1)), "half_of_one_place", "fix").numbers
    assert not told(job_of(circuit(), receptacle(switched="half")), "half_of_one_place")


def test_no_box_fill_where_the_code_is_another() -> None:
    job = job_of(circuit(conductor="2.5 mm2", gfci=True), receptacle(volume=1.0), region="metric")
    assert not told(job, "box_overfull")
    assert not told(job, "box_text_unreadable")
