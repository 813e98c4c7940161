"""Findings about circuits: each with the smallest job that raises it, and the nearest that does not."""

from __future__ import annotations

from typing import Any

import pytest

from store.records.base import Record
from store.records.equipment import Equipment
from store.records.whole import Job
from store.records.wiring import Box, Cable
from tests.jobs.power_case import circuit, job_of, make, only, receptacle, told
from tests.rows import rows


def corded(tag: str = "E1", **values: Any) -> Equipment:
    """Something on a shelf with a cord, plugged into B1."""
    given = {"name": "amplifier", "what": "receiver", "power": "cord", "plug": "B1", "hours": 1.0}
    return make(Equipment, tag, **{**given, **values})


def wired(tag: str = "E1", **values: Any) -> Equipment:
    """Something fastened in place and wired in B1."""
    return corded(tag, **{"power": "hard-wired", "mounting": "made to be recessed", **values})


def on(*records: Record, **values: Any) -> Job:
    """These records with the circuit that these values make."""
    return job_of(circuit(**values), *records)


@rows(("device", "told_of"), [("receptacle TR 14", True), ("receptacle TR 12", False), ("luminaire 14", False)])
def test_the_wire_at_a_device_counts_and_a_tap_to_a_luminaire_does_not(device: str, told_of: bool) -> None:
    """NFPA 70 240.4(D); 210.19(A)(4) Exception 1 for taps."""
    assert bool(told(on(receptacle(devices=(device,))), "thin_wire_on_breaker")) == told_of


def test_breaker_over_wire() -> None:
    finding = only(on(receptacle(), breaker=20.0, conductor="14"), "breaker_over_wire", "stop")
    assert "240.4(D)" in finding.source
    assert finding.numbers["wire"] == "14 AWG"
    assert not told(on(receptacle(), breaker=15.0, conductor="14"), "breaker_over_wire")
    assert not told(on(receptacle(), breaker=20.0, conductor="12"), "breaker_over_wire")


@rows("breaker", [20.5, 25.0, 100.0, 125.0, 200.0])
def test_no_breaker_is_too_large_to_be_told(breaker: float) -> None:
    """Beyond the sizes of the table, and between them, a breaker on 12 AWG is as wrong as any."""
    assert f"{breaker:g} A" in only(on(receptacle(), breaker=breaker), "breaker_over_wire", "stop").says


@rows("conductor", ["16", "18 AWG", "20"])
def test_a_wire_thinner_than_any_of_a_house_is_told(conductor: str) -> None:
    """14 AWG is the thinnest of a branch circuit; a thinner one has no ampacity in the table, and is worse."""
    finding = only(on(receptacle(conductors=()), breaker=15.0, conductor=conductor), "breaker_over_wire", "stop")
    assert "thinner than 14 AWG" in finding.says
    assert not told(on(receptacle(conductors=()), breaker=15.0, conductor="14"), "breaker_over_wire")


@rows("conductor", ["", "4", "2.5 mm2", "bananas"])
def test_what_the_breaker_alone_decides_is_told_where_the_wire_is_not_known(conductor: str) -> None:
    """Two of 1500 W on 20 A: 25 A, and 12.5 A from a 15 A receptacle."""
    two = [corded(watts=1500.0), corded("E2", watts=1500.0)]
    job = on(receptacle(conductors=()), *two, conductor=conductor)
    assert only(job, "circuit_overloaded", "fix").numbers["carries"] == "25 A"
    assert only(job, "receptacle_overloaded", "fix")
    assert only(job, "circuit_not_known", "look")
    assert not told(job, "breaker_over_wire") + told(job, "wire_overloaded")
    small = [corded(watts=1200.0), corded("E2", watts=1200.0)]
    assert not told(on(receptacle(conductors=()), *small, conductor=conductor), "circuit_overloaded")


def test_what_is_just_over_a_limit_is_not_shown_as_the_limit() -> None:
    """1441 W at 120 V is 12.008 A, and two of 960.5 W for hours are 20.01 A at 125 %."""
    just = on(receptacle(), corded(watts=1441.0), breaker=15.0, conductor="14")
    for rule in ("receptacle_overloaded", "plug_in_over_80"):
        assert "draws 12.01 A" in only(just, rule, "fix").says
    assert "it needs 15.01 A" in only(
        on(receptacle(), corded(watts=1441.0, hours=None), breaker=15.0, conductor="14"), "hours_matter", "look"
    ).says  # fmt: skip
    hours = on(receptacle(), corded(watts=960.5, hours=3.0), corded("E2", watts=960.5, hours=3.0))
    assert "20.01 A" in only(hours, "circuit_overloaded", "fix").says
    drop = on(receptacle(), wired(watts=1500.0), length="75'")
    assert "(3.02%)" in only(drop, "voltage_drop", "look").says


def test_circuit_overloaded_by_what_runs_for_hours() -> None:
    """13 A for three hours is 16.25 A at 125 %: too much for 15 A, and exactly 12 A is not."""
    things = [wired(watts=1560.0, hours=3.0)]
    finding = only(on(receptacle(), *things, breaker=15.0, conductor="14"), "circuit_overloaded", "fix")
    assert finding.numbers["with 125 %"] == "16.25 A"
    assert "E1" in finding.numbers["on it"]
    fits = [wired(watts=1440.0, hours=3.0)]
    assert not told(on(receptacle(), *fits, breaker=15.0, conductor="14"), "circuit_overloaded")


def test_wire_overloaded_behind_a_larger_breaker() -> None:
    """18 A is within a 20 A breaker and beyond 14 AWG."""
    job = on(receptacle(), breaker=20.0, conductor="14", load=2160.0)
    assert "210.19" in only(job, "wire_overloaded", "fix").source
    assert not told(on(receptacle(), breaker=20.0, conductor="14", load=1800.0), "wire_overloaded")


def test_an_overload_of_breaker_and_wire_alike_is_told_once() -> None:
    """25 A on a 20 A breaker in 12 AWG: the breaker's finding says it; the wire carries all of its rating."""
    job = on(receptacle(), load=3000.0)
    assert only(job, "circuit_overloaded", "fix")
    assert not told(job, "wire_overloaded")


def test_fastened_in_place_over_half_of_a_shared_circuit() -> None:
    """The printed example: 13 A fastened in place on a 20 A circuit with several receptacles."""
    shared = [wired(watts=1560.0), corded("E2", watts=60.0)]
    finding = only(on(receptacle(), *shared), "fixed_over_half", "fix")
    assert "210.23(A)(2)" in finding.source
    within = [wired(watts=1200.0), corded("E2", watts=60.0)]
    assert not told(on(receptacle(), *within), "fixed_over_half")


def test_the_section_follows_the_edition() -> None:
    shared = [receptacle(), circuit(), wired(watts=1560.0), corded("E2", watts=60.0)]
    assert "210.23(B)(2)" in only(job_of(*shared, edition="2023"), "fixed_over_half", "fix").source


def test_one_plug_beyond_its_receptacle() -> None:
    """A 15 A receptacle of two or more gives 12 A; one that is marked 20 A gives 16 A."""
    assert "210.21(B)(2)" in only(on(receptacle(), corded(watts=1560.0)), "receptacle_overloaded", "fix").source
    assert not told(on(receptacle(), corded(watts=1440.0)), "receptacle_overloaded")
    rated = receptacle(devices=("receptacle TR 20 A 12",))
    assert not told(on(rated, corded(watts=1560.0)), "receptacle_overloaded")


def test_one_plug_over_80_percent() -> None:
    job = on(receptacle(), corded(watts=1500.0), breaker=15.0, conductor="14")
    assert "80%" in only(job, "plug_in_over_80", "fix").says
    assert not told(on(receptacle(), corded(watts=1440.0), breaker=15.0, conductor="14"), "plug_in_over_80")


def test_single_receptacle_below_its_circuit() -> None:
    alone = receptacle(receptacles=1, devices=("single receptacle TR 15 A 12",))
    assert "210.21(B)(1)" in only(on(alone, corded(watts=900.0)), "receptacle_rating", "fix").source
    assert told(on(alone), "receptacle_rating"), "also before anything is plugged in"
    assert not told(on(receptacle(receptacles=2, devices=("receptacle TR 15 A 12",))), "receptacle_rating")
    right = receptacle(receptacles=1, devices=("single receptacle TR 20 A 12",))
    assert not told(on(right, corded(watts=900.0)), "receptacle_rating")
    unmarked = receptacle(receptacles=1, devices=("single receptacle TR 12",))
    assert not told(on(unmarked, corded(watts=900.0)), "receptacle_rating")


def test_thin_wire_in_the_plan_and_in_a_box() -> None:
    thin = make(Cable, "K1", type="nm-14-2", end="B1")
    job = on(receptacle(), thin)
    assert only(job, "thin_wire_on_breaker", "stop").tags == ("C1", "K1")
    boxed = on(receptacle(conductors=("14-2 G",)))
    assert only(boxed, "thin_wire_on_breaker", "stop").tags == ("C1", "B1")
    assert not told(on(receptacle(), make(Cable, "K1", type="nm-12-2", end="B1")), "thin_wire_on_breaker")
    assert not told(on(receptacle(conductors=("14-2 G",)), breaker=15.0), "thin_wire_on_breaker")


def test_thin_metric_cable_on_its_breaker() -> None:
    """BS 7671 Table 4D5, method 102: 1.5 mm² carries 16 A and 2.5 mm² 21 A."""

    def branch(kind: str, **values: Any) -> Job:
        first, second = (receptacle(tag, conductors=(), devices=()) for tag in ("B1", "B2"))
        feed = circuit(volts=230.0, conductor="2.5 mm2", gfci=True, **values)
        return job_of(feed, first, second, make(Cable, "K1", type=kind, start="B1", end="B2"), region="metric")

    finding = only(branch("1.5 mm2 twin and earth"), "thin_wire_on_breaker", "stop")
    assert finding.tags == ("C1", "K1")
    assert finding.numbers == {"wire": "1.5 mm²", "breaker": "20 A", "most": "16 A"}
    assert "Table 4D5" in finding.source
    assert not told(branch("2.5 mm2 twin and earth"), "thin_wire_on_breaker")
    assert not told(branch("1.5 mm2 twin and earth", breaker=16.0), "thin_wire_on_breaker")
    assert told(branch("1.5 mm2 twin and earth", breaker=16.0, lies="103"), "thin_wire_on_breaker")


def test_a_thin_cable_of_another_circuit_is_not_blamed_on_this_one() -> None:
    other = make(Box, "B2", what="junction", circuit="C2", plate=True)
    between = make(Cable, "K1", type="nm-14-2", start="B1", end="B2")
    second = circuit("C2", breaker=15.0, conductor="14")
    assert not told(on(receptacle(), other, between, second), "thin_wire_on_breaker")


def test_voltage_drop_is_advice() -> None:
    """1500 W over 12 AWG: 3 % at 74.6 ft."""
    job = on(receptacle(), wired(watts=1500.0), length="75'")
    finding = only(job, "voltage_drop", "look")
    assert finding.numbers["lost"] == "3.62 V"
    assert "solid" in finding.numbers["wire"]
    assert "Table 8" in finding.source
    assert not told(on(receptacle(), wired(watts=1500.0), length="74'"), "voltage_drop")


def test_breaker_or_wire_not_noted() -> None:
    assert "breaker" in only(on(receptacle(), breaker=None), "circuit_not_known", "look").says
    assert "wire size" in only(on(receptacle(), conductor=""), "circuit_not_known", "look").says
    assert "AWG" in only(on(receptacle(), conductor="2.5 mm2"), "circuit_not_known", "look").says
    assert not told(on(receptacle()), "circuit_not_known")
    assert not told(on(breaker=None), "circuit_not_known")


def test_watts_not_noted() -> None:
    assert only(on(receptacle(), corded()), "watts_not_known", "look").tags == ("C1", "E1")
    assert not told(on(receptacle(), corded(watts=20.0)), "watts_not_known")


def test_hours_that_would_make_the_difference() -> None:
    job = on(receptacle(), corded(watts=1400.0, hours=None), breaker=15.0, conductor="14", load=200.0)
    finding = only(job, "hours_matter", "look")
    assert finding.numbers == {"limit": "15 A", "would need": "16.25 A"}
    assert not told(on(receptacle(), corded(watts=1400.0, hours=None), breaker=20.0, load=200.0), "hours_matter")


def test_something_else_on_a_circuit_kept_for_one() -> None:
    both = [receptacle(), corded(watts=100.0), corded("E2", watts=100.0)]
    assert only(on(*both, only_for="E1"), "not_the_only_one", "fix").tags == ("C1", "E2")
    assert not told(on(*both[:2], only_for="E1"), "not_the_only_one")


@pytest.mark.parametrize(
    ("breaker", "rule", "severity"), [(10.0, "circuit_overloaded", "fix"), (25.0, "breaker_over_wire", "stop")]
)
def test_metric_circuit(breaker: float, rule: str, severity: Any) -> None:
    """2.5 mm² in a stud wall carries 21 A (BS 7671 Table 4D5, method 102); 2.5 kW at 230 V is 10.9 A."""
    job = job_of(
        circuit(volts=230.0, breaker=breaker, conductor="2.5 mm2", gfci=True),
        receptacle(),
        wired(watts=2500.0),
        region="metric",
    )
    found = only(job, rule, severity)
    assert "BS 7671" in found.source
    assert found.head == ("Breaker too large for the wire" if severity == "stop" else "Circuit overloaded")
    assert "E1 " in found.numbers["on it"] + " "


def test_metric_circuit_that_is_right() -> None:
    job = job_of(
        circuit(volts=230.0, breaker=20.0, conductor="2.5 mm2", gfci=True),
        receptacle(),
        wired(watts=2500.0, hours=9.0),
        region="metric",
    )
    assert not told(job, "circuit_overloaded")
    assert not told(job, "breaker_over_wire")


def test_metric_drop() -> None:
    """18 mV/A/m: 10 A over 64 m is 11.52 V, just over 5 % of 230 V; over 63 m it is not."""
    for metres, many in (("64 m", 1), ("63 m", 0)):
        job = job_of(
            circuit(volts=230.0, conductor="2.5 mm2", gfci=True, length=metres), receptacle(), wired(watts=2300.0),
            region="metric",
        )  # fmt: skip
        assert len(told(job, "voltage_drop")) == many


def test_a_conductor_of_no_table_breaks_nothing() -> None:
    for text in ("16", "99", "rope", "0.5 mm2", "6", "250 kcmil"):
        job = on(receptacle(), corded(watts=100.0), conductor=text, length="50'")
        assert isinstance(told(job, "circuit_not_known"), list)
