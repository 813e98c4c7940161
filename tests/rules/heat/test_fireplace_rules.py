"""Fireplaces: nothing is recessed that was not made for it, heat has a way out, and no clearance is made up."""

from __future__ import annotations

from typing import Any

import pytest

from store.records.equipment import Equipment
from store.records.wall import Opening
from store.records.whole import Job
from store.rules.core import cautions
from store.rules.heat import heater
from tests.jobs.wall_jobs import ROOM, device, found, job_of, made, one, opening, wall
from tests.rows import rows


def fire(**values: Any) -> Equipment:
    given = {"what": "fireplace", "mounting": "made to be recessed", "heat_side": "front", **values}
    return device("E1", 50, 18, 6, **given)


def burning(*others: Opening, door: Any = "none", depth: Any = 8, **values: Any) -> Job:
    return job_of(
        *ROOM, opening("N1", 40, 10, 52, 20, use="fireplace", door=door, depth=depth), fire(**values), *others
    )


@rows("mounting", ["surface only", "wall bracket", "shelf"])
def test_a_heater_not_made_for_a_recess_in_a_recess_is_a_stop(mounting: str) -> None:
    finding = one(burning(mounting=mounting), "surface_unit_recessed")
    assert (finding.severity, finding.tags) == ("stop", ("E1", "N1"))
    assert "Never change" in finding.remedy


def test_the_nearest_that_is_no_stop() -> None:
    assert not found(burning(), "surface_unit_recessed")
    flat = burning(mounting="surface only", depth=None)
    assert not found(flat, "surface_unit_recessed")
    assert "how deep N1 is" in one(flat, "heater_not_known").says
    screen = job_of(
        *ROOM, opening("N1", 40, 10, 52, 20), device("E1", 50, 18, 6, what="screen", mounting="surface only")
    )
    assert not found(screen, "surface_unit_recessed")


@pytest.mark.parametrize("door", ["solid", "glass"])
def test_heat_behind_a_closed_door_is_a_stop(door: str) -> None:
    finding = one(burning(door=door), "heat_outlet_closed")
    assert finding.severity == "stop"
    assert not found(burning(), "heat_outlet_closed")
    assert not found(burning(door="mesh"), "heat_outlet_closed")


def test_heat_upwards_against_an_opening_above() -> None:
    above = opening("N2", 40, 36, 60, 36, use="screen")
    # From the top of the unit, centred in 20 in, to the screen: 1 in of recess and 6 in of wall.
    finding = one(burning(above, heat_side="top", clear_top=7.125), "heat_outlet_closed")
    assert (finding.severity, finding.tags, finding.numbers["gap"]) == ("stop", ("E1", "N2"), '7"')
    assert not found(burning(above, heat_side="top", clear_top=7), "heat_outlet_closed")
    assert found(burning(above, heat_side="top", clear_top=None), "heat_outlet_closed")
    assert not found(burning(above, heat_side="front", clear_top=None), "heat_outlet_closed")
    beside = opening("N2", 92, 36, 40, 36, use="screen")
    assert not found(burning(beside, heat_side="top", clear_top=None), "heat_outlet_closed")


def test_heat_sideways_against_a_closed_cabinet() -> None:
    def cabinet(door: Any) -> Opening:
        return opening("N2", 100, 10, 20, 20, door=door)

    assert found(burning(cabinet("solid"), heat_side="sides", clear_right=None), "heat_outlet_closed")
    neither = {"heat_side": "sides", "clear_left": None, "clear_right": None}
    assert not found(burning(cabinet("none"), **neither), "heat_outlet_closed")
    cleared = {"heat_side": "sides", "clear_left": None, "clear_right": 9}
    assert not found(burning(cabinet("solid"), **cleared), "heat_outlet_closed")


def test_heat_against_the_recess_that_it_is_in() -> None:
    """18 in of heater centered in a recess 20 in high: 1 in above it. A 0 that was typed is no clearance there."""
    told = one(burning(heat_side="top", clear_top=0), "heat_outlet_closed")
    assert (told.severity, told.tags, told.numbers["room"]) == ("stop", ("E1", "N1"), '1"')
    assert "head of N1" in told.head
    assert not found(burning(heat_side="front", clear_top=0), "heat_outlet_closed")
    assert not found(burning(heat_side="top", clear_top=1), "heat_outlet_closed"), "its manual asks for that much"
    assert found(burning(heat_side="sides"), "heat_outlet_closed"), "1 in at each side"
    roomy = job_of(*ROOM, opening("N1", 40, 10, 52, 42, use="fireplace", depth=8), fire(heat_side="top"))
    assert not found(roomy, "heat_outlet_closed"), "12 in above it"
    lower = job_of(*ROOM, opening("N1", 40, 10, 52, 41, use="fireplace", depth=8), fire(heat_side="top"))
    assert found(lower, "heat_outlet_closed")


def test_a_clearance_that_is_empty_is_not_known_and_nothing_stands_in() -> None:
    job = burning(clear_top=None, clear_left=None)
    finding = one(job, "heater_clearance_not_known")
    assert (finding.severity, finding.numbers) == ("look", {"missing": "left, above"})
    assert not found(burning(), "heater_clearance_not_known")
    assert not found(job, "fit_not_known")
    loose = job_of(*ROOM, made(Equipment, "E1", name="heater", what="heater"))
    assert len(found(loose, "heater_clearance_not_known")) == 1


def test_what_is_not_noted_of_a_heater_is_asked_for() -> None:
    finding = one(burning(mounting="unknown", heat_side="unknown"), "heater_not_known")
    assert finding.numbers["missing"] == "how it may be mounted, where its warm air comes out"
    assert not found(burning(), "heater_not_known")


@pytest.mark.parametrize("burns", ["yes", "unknown"])
def test_a_surface_that_burns_is_to_be_looked_at(burns: Any) -> None:
    job = job_of(wall(burns=burns), *ROOM[1:], opening("N1", 40, 10, 52, 20), fire())
    assert one(job, "surface_may_burn").severity == "look"
    assert not found(burning(), "surface_may_burn")


def test_no_word_advises_to_change_the_appliance() -> None:
    job = burning(door="glass", mounting="surface only", heat_side="unknown", clear_top=None)
    words = " ".join(each.remedy.lower() for each in found(job, "surface_unit_recessed"))
    assert "never" in words
    assert "Never cut, cover, seal, rewire or change" in cautions.FIREPLACE
    assert heater.MANUAL.startswith("Manufacturer's manual")
