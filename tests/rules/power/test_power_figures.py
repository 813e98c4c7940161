"""Figures of power by name, and what is left out where it cannot be told."""

from __future__ import annotations

from typing import Any

from store.records.wiring import Box
from store.rules.core.figures import figures
from store.rules.plug.proposal import plan_plugs
from tests.jobs.power_case import circuit, job_of, make, receptacle
from tests.rules.heat.test_heater_rules import case, heater
from tests.rules.plug.test_plug_rules import strip, thing


def test_a_box_shows_its_sum_line_by_line() -> None:
    box = receptacle(conductors=("12-2 G", "12-2 G"), clamps=True, ring=3.0)
    found = figures(job_of(circuit(), box))["B1"]
    assert found["fill_in3"] == 18.0
    assert found["volume_in3"] == 25.5
    assert found["fill_lines"] == [
        "conductors ended or spliced here, 12 AWG: 4 × 2.25 = 9.00 in³",
        "all clamps inside, 12 AWG: 1 × 2.25 = 2.25 in³",
        "receptacle TR, 12 AWG: 2 × 2.25 = 4.50 in³",
        "2 grounding conductors, 12 AWG: 1 × 2.25 = 2.25 in³",
        "together 18.00 in³; the box has 25.50 in³",
    ]


def test_a_divider_takes_its_room() -> None:
    """314.16(A), from memory: 0.5 in³ for metal, 1.0 in³ for plastic, where none is marked."""
    assert figures(job_of(circuit(), receptacle(divider=True, metal=True)))["B1"]["volume_in3"] == 22.0
    assert figures(job_of(circuit(), receptacle(divider=True)))["B1"]["volume_in3"] == 21.5
    square = receptacle(divider=True, volume=None, size="4 x 1-1/2 square")
    assert figures(job_of(circuit(), square))["B1"]["volume_in3"] == 20.5


def test_the_next_box_suits_the_kind() -> None:
    wires: dict[str, Any] = {"conductors": ("12-2 G", "12-2 G"), "devices": ()}
    junction = make(Box, "B1", what="junction", plate=True, **wires)
    assert "round" in figures(job_of(junction))["B1"]["next_box"]
    two = receptacle(gangs=2, devices=("receptacle 12", "receptacle 12"))
    assert "square" in figures(job_of(circuit(), two))["B1"]["next_box"]
    crowd = receptacle(conductors=("20 x 12-2 G",))
    assert figures(job_of(circuit(), crowd))["B1"]["next_box"].startswith("none of the table")


def test_no_sum_from_a_text_that_cannot_be_read() -> None:
    found = figures(job_of(circuit(), receptacle(devices=("12",))))["B1"]
    assert "fill_in3" not in found
    assert found["volume_in3"] == 22.5


def test_nearest_power_that_was_there_before() -> None:
    old = receptacle("B1", new=False, wall="W1", x="10", y="16")
    other_wall = receptacle("B3", new=False, wall="W2", x="40", y="16")
    new = receptacle("B2", wall="W1", x="50", y="46")
    found = figures(job_of(circuit(), old, other_wall, new))["B2"]
    assert found["nearest_power"] == "B1"
    assert found["nearest_power_distance"].inches == 50
    assert "nearest_power" not in figures(job_of(circuit(), old))["B1"]


def test_places_and_what_took_them() -> None:
    job = job_of(circuit(), receptacle(), strip(), thing(plug="E9", power="wall-wart"), thing("E2", plug="E9"))
    found = figures(job)
    assert (found["B1"]["places"], found["B1"]["places_taken"]) == (2, 1)
    assert found["E9"]["places_taken"] == 3
    assert found["E9"]["connected_w"] == 40


def test_what_is_wired_in_a_box_takes_no_place() -> None:
    job = job_of(circuit(), receptacle(), thing("E1", power="hard-wired"), thing("E2"))
    assert figures(job)["B1"]["places_taken"] == 1
    assert plan_plugs(job_of(circuit(), receptacle(), thing("E1", power="hard-wired"), thing("E2"),
                             thing("E3", plug=""))).placed == [("E3", "B1", "either")]  # fmt: skip


def test_a_circuit_with_nothing_known_shows_what_is_known() -> None:
    found = figures(job_of(circuit(breaker=None, conductor="", volts=None)))["C1"]
    assert found["connected_w"] == 0
    assert "limit_a" not in found
    assert "drop_v" not in found


def test_figures_of_a_heater() -> None:
    """1500 W: 12.5 A, 15.625 A at 125 %, 5118 BTU/h, 20 A in 12 AWG."""
    found = figures(case(heater()))["E1"]
    assert found["amps"] == 12.5
    assert found["amps_at_125"] == 15.625
    assert round(found["btu_per_h"]) == 5118
    assert found["planned_breaker_a"] == 20
    assert found["planned_wire"] == "12 AWG copper"
    assert found["settled"]
    assert found["to_ask"]


def test_what_is_missing_for_the_fill_is_named() -> None:
    bare = figures(job_of(circuit(), receptacle(devices=(), conductors=(), volume=None)))["B1"]
    assert [each.split(",")[0] for each in bare["missing"]] == ["cables in it", "devices", "volume"]
    unread = figures(job_of(circuit(), receptacle(conductors=("fat",))))["B1"]
    assert len(unread["missing"]) == 1
    assert '"fat" is not a cable' in unread["missing"][0]
    assert "missing" not in figures(job_of(circuit(), receptacle()))["B1"]


def test_both_halves_are_told_apart() -> None:
    job = job_of(
        circuit(), receptacle(switched="half"), thing("E1", half="switched"), thing("E2", half="always on"), thing("E3")
    )
    found = figures(job)["B1"]
    assert (found["switched_half"], found["always_on_half"], found["either_half"]) == (
        ["E1 thing"], ["E2 thing"], ["E3 thing"],
    )  # fmt: skip
    assert "switched_half" not in figures(job_of(circuit(), receptacle()))["B1"]


def test_what_is_on_a_circuit_is_listed_with_its_box() -> None:
    job = job_of(circuit(load=60.0), receptacle(), thing("E1", watts=90.0, hours=3.0), thing("E2", watts=None))
    assert figures(job)["C1"]["loads"] == [
        "existing load: 60 W", "E1 thing: 90 W at B1, counted at 125%", "E2 thing: no watts entered",
    ]  # fmt: skip
