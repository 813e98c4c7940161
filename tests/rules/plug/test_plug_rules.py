"""Findings about plugs: each with the smallest job that raises it, and the nearest that does not."""

from __future__ import annotations

from typing import Any

import pytest

from store.records.equipment import Equipment
from store.records.wiring import Box
from store.rules.power.plan import power
from tests.jobs.power_case import TODAY, circuit, job_of, make, only, receptacle, told


def thing(tag: str = "E1", **values: Any) -> Equipment:
    """Something with a cord."""
    given: dict[str, Any] = {"name": "thing", "power": "cord", "plug": "B1", "watts": 20.0}
    return make(Equipment, tag, **{**given, **values})


def strip(tag: str = "E9", **values: Any) -> Equipment:
    """A power strip of six places in B1."""
    given: dict[str, Any] = {
        "name": "strip", "what": "strip", "power": "cord", "plug": "B1", "places": 6, "rating": 1800.0,
    }  # fmt: skip
    return make(Equipment, tag, **{**given, **values})


@pytest.mark.parametrize("power_by", ["cord", "wall-wart", "hard-wired"])
def test_no_place_to_plug(power_by: str) -> None:
    job = job_of(circuit(), receptacle(), thing(plug="", power=power_by))
    assert only(job, "no_place_to_plug", "fix").tags == ("E1",)
    assert not told(job_of(circuit(), receptacle(), thing(power=power_by)), "no_place_to_plug")
    assert not told(job_of(thing(plug="", power=power_by, retired=TODAY)), "no_place_to_plug")


def test_what_needs_no_power_is_left_alone() -> None:
    job = job_of(make(Equipment, "E1", name="bracket", what="mount"), thing("E2", power="none", plug=""))
    assert not told(job, "no_place_to_plug")
    assert not told(job, "power_unknown")


def test_power_not_noted() -> None:
    job = job_of(make(Equipment, "E1", name="screen", what="screen"), make(Equipment, "E2", name="x", what="router"))
    assert only(job, "power_unknown", "look").tags == ("E1", "E2")
    assert not told(job_of(thing(what="screen", plug="", power="none")), "power_unknown")


def test_plug_in_a_box_without_a_receptacle() -> None:
    for kind in ("junction", "low-voltage", "switch", "pass-through"):
        job = job_of(circuit(), make(Box, "B1", what=kind, circuit="C1", plate=True), thing())
        assert only(job, "wrong_kind_of_place", "fix").tags == ("E1", "B1")
    assert not told(job_of(circuit(), receptacle(), thing()), "wrong_kind_of_place")


def test_hard_wired_goes_to_a_box_for_mains() -> None:
    junction = make(Box, "B1", what="junction", circuit="C1", plate=True)
    low = make(Box, "B1", what="low-voltage")
    assert not told(job_of(circuit(), junction, thing(power="hard-wired")), "wrong_kind_of_place")
    assert only(job_of(low, thing(power="hard-wired")), "wrong_kind_of_place", "fix")
    on_strip = job_of(circuit(), receptacle(), strip(), thing(power="hard-wired", plug="E9"))
    assert only(on_strip, "wrong_kind_of_place", "fix").tags == ("E1", "E9")


def test_plug_in_something_that_is_no_strip() -> None:
    amplifier = thing("E2", what="receiver")
    job = job_of(circuit(), receptacle(), amplifier, thing(plug="E2"))
    assert "no power strip" in only(job, "wrong_kind_of_place", "fix").says
    with_outlet = thing("E2", what="receiver", places=1)
    assert not told(job_of(circuit(), receptacle(), with_outlet, thing(plug="E2")), "wrong_kind_of_place")


def test_plug_in_a_strip_that_left_the_wall() -> None:
    job = job_of(circuit(), receptacle(), strip(retired=TODAY), thing(plug="E9"))
    assert "retired" in only(job, "wrong_kind_of_place", "fix").says


def test_a_ring_of_strips_is_told_and_ends() -> None:
    job = job_of(circuit(), receptacle(), strip("E8", plug="E9"), strip("E9", plug="E8"), thing(plug="E8"))
    assert {each.tags[0] for each in told(job, "wrong_kind_of_place")} == {"E1", "E8", "E9"}
    assert power(job).circuits["C1"].watts == 0


def test_too_few_places_at_a_receptacle() -> None:
    things = [thing(f"E{n}") for n in (1, 2, 3)]
    finding = only(job_of(circuit(), receptacle(), *things), "too_few_places", "fix")
    assert finding.numbers == {"places": "2", "needed": "3"}
    assert "wall-wart" not in finding.says
    assert not told(job_of(circuit(), receptacle(), *things[:2]), "too_few_places")


def test_a_wall_wart_takes_two() -> None:
    job = job_of(circuit(), receptacle(), thing(power="wall-wart"), thing("E2"))
    assert only(job, "too_few_places", "fix").numbers == {"places": "2", "needed": "3"}
    assert not told(job_of(circuit(), receptacle(), thing(power="wall-wart")), "too_few_places")


def test_a_strip_whose_places_nobody_counted() -> None:
    """That is not the same as a strip without any; a driver may feed lights from two wires and have no places."""
    job = job_of(circuit(), receptacle(), strip(places=0), thing(plug="E9"))
    assert only(job, "strip_places_unknown", "look").numbers == {"places": "not entered", "in it": "E1"}
    assert not told(job, "too_few_places")
    assert not told(job_of(circuit(), receptacle(), strip(places=0)), "strip_places_unknown")
    assert not told(job_of(circuit(), receptacle(), strip(), thing(plug="E9")), "strip_places_unknown")
    driver = job_of(circuit(), receptacle(), strip(what="driver", places=0), thing(plug="E9", what="light"))
    assert not told(driver, "strip_places_unknown") + told(driver, "too_few_places")


def test_too_few_places_on_a_strip_and_a_driver() -> None:
    lamps = thing("E1", what="light", power="wall-wart", plug="E9", count=4)
    job = job_of(circuit(), receptacle(), strip(), lamps)
    assert only(job, "too_few_places", "fix").numbers == {"places": "6", "needed": "8"}
    driver = strip(what="driver", places=4)
    assert not told(job_of(circuit(), receptacle(), driver, lamps), "too_few_places")


def test_strip_on_a_strip() -> None:
    job = job_of(circuit(), receptacle(), strip("E8", plug="E9"), strip())
    finding = only(job, "strip_on_strip", "stop")
    assert finding.tags == ("E8", "E9")
    assert "UL 1363" in finding.source
    assert not told(job_of(circuit(), receptacle(), strip("E8"), strip()), "strip_on_strip")


def test_strip_over_its_rating() -> None:
    loaded = [strip(rating=100.0), thing(plug="E9", watts=60.0), thing("E2", plug="E9", watts=41.0)]
    assert only(job_of(circuit(), receptacle(), *loaded), "strip_over_rating", "fix").numbers == {
        "rated": "100 W",
        "on it": "101 W",
    }
    loaded[2] = thing("E2", plug="E9", watts=40.0)
    assert not told(job_of(circuit(), receptacle(), *loaded), "strip_over_rating")
