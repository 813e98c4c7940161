"""Findings about the heater: each with the smallest job that raises it, and the nearest that does not."""

from __future__ import annotations

from typing import Any

from store.records.equipment import Equipment
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.handoff.electrician import questions
from store.rules.heat.heater import heaters
from tests.jobs.power_case import circuit, job_of, make, only, receptacle, told
from tests.rows import rows
from tests.rules.plug.test_plug_rules import strip, thing


def heater(tag: str = "E1", **values: Any) -> Equipment:
    """A 1500 W fireplace wired in junction box B1."""
    given: dict[str, Any] = {
        "name": "fireplace", "what": "fireplace", "heats": True, "power": "hard-wired", "plug": "B1",
        "watts": 1500.0, "mounting": "made to be recessed",
    }  # fmt: skip
    return make(Equipment, tag, **{**given, **values})


def case(*records: Any, box: dict[str, Any] | None = None, **values: Any) -> Job:
    """A circuit, a junction box on it, and these records."""
    given: dict[str, Any] = {"what": "junction", "circuit": "C1", "plate": True}
    return job_of(circuit(**values), make(Box, "B1", **{**given, **(box or {})}), *records)


@rows("values", [{}, {"what": "heater"}, {"what": "other", "heats": True}])
def test_heater_on_a_strip(values: dict[str, Any]) -> None:
    on_strip = heater(power="cord", plug="E9", **values)
    finding = only(job_of(circuit(), receptacle(), strip(), on_strip), "heater_on_strip", "stop")
    assert "110.3(B)" in finding.source
    assert "manufacturer" in finding.remedy
    in_wall = heater(power="cord", **values)
    assert not told(job_of(circuit(), receptacle(), strip(), in_wall), "heater_on_strip")


def test_heater_on_a_shared_circuit() -> None:
    other = receptacle("B2")
    job = case(heater(), other, thing("E2", plug="B2"))
    assert only(job, "heater_shares_circuit", "fix").numbers["with"] == "E2"
    assert not told(case(heater(), receptacle("B2", circuit="C2"), circuit("C2"), thing("E2", plug="B2")),
                    "heater_shares_circuit")  # fmt: skip
    assert only(case(heater(), load=60.0), "heater_shares_circuit", "fix")
    assert only(case(heater(), lighting=True), "heater_shares_circuit", "fix")
    assert not told(case(heater()), "heater_shares_circuit")


def test_an_empty_strip_on_the_heaters_circuit_shares_it() -> None:
    """Nothing hangs on it yet; whatever will is on the circuit of the heater."""
    job = case(heater(), receptacle("B2"), strip("E9", plug="B2"))
    assert only(job, "heater_shares_circuit", "fix").numbers["with"] == "E9"
    assert not told(job, "heater_open_place")
    used = case(heater(), receptacle("B2"), strip("E9", plug="B2"), thing("E2", plug="E9"))
    assert only(used, "heater_shares_circuit", "fix").numbers["with"] == "E2"


def test_a_heater_beyond_the_tables() -> None:
    """20 kW at 120 V is 166.7 A; the 55 A of 6 AWG carries 44 A at 125 %, 5280 W."""
    finding = only(case(heater(watts=20000.0)), "heater_beyond_tables", "look")
    assert "166.7 A" in finding.says
    assert "No watts entered" not in " ".join(questions(case(heater(watts=20000.0, name="stove"))))
    assert not told(case(heater(watts=5280.0)), "heater_beyond_tables")
    assert told(case(heater(watts=5290.0)), "heater_beyond_tables")
    assert not told(case(heater(watts=None)), "heater_beyond_tables"), "unknown watts are told as such"
    assert any("No watts entered yet" in each for each in questions(case(heater(watts=None, heats=False))))


def test_open_place_beside_a_heater() -> None:
    duplex = {"what": "receptacle", "receptacles": 2}
    assert only(case(heater(power="cord"), box=duplex), "heater_open_place", "look").numbers == {"open places": "1"}
    single = {"what": "receptacle", "receptacles": 1}
    assert not told(case(heater(power="cord"), box=single), "heater_open_place")
    assert not told(case(heater(power="cord"), box=duplex, load=60.0), "heater_open_place")
    assert not told(case(heater()), "heater_open_place")


def test_circuit_too_small_for_what_is_fixed() -> None:
    """1500 W at 120 V is 12.5 A, 15.6 A at 125 %: 20 A in 12 AWG."""
    finding = only(case(heater(), breaker=15.0, conductor="14"), "heater_circuit_too_small", "fix")
    assert finding.numbers["planned"] == "20 A in 12 AWG copper"
    assert "424.4(B)" in finding.source
    assert not told(case(heater()), "heater_circuit_too_small")
    assert only(case(heater(), conductor="14"), "heater_circuit_too_small", "fix").numbers["wire"] == "14 AWG"


def test_circuit_too_small_only_where_125_percent_applies() -> None:
    """Plugged in, alone and not run for three hours: makers and inspectors differ, so a person is asked."""
    single = {"what": "receptacle", "receptacles": 1}
    plugged = heater(power="cord", hours=1.0, mounting="shelf")
    assert only(case(plugged, box=single, breaker=15.0, conductor="14"), "heater_circuit_too_small", "look")
    long = heater(power="cord", hours=3.0, mounting="shelf")
    assert only(case(long, box=single, breaker=15.0, conductor="14"), "heater_circuit_too_small", "fix")


def test_limit_case_of_125_percent() -> None:
    """1440 W is 12 A and exactly 15 A at 125 %."""
    assert not told(case(heater(watts=1440.0), breaker=15.0, conductor="14"), "heater_circuit_too_small")
    assert told(case(heater(watts=1441.0), breaker=15.0, conductor="14"), "heater_circuit_too_small")


def test_watts_not_noted() -> None:
    assert only(case(heater(watts=None)), "heater_watts_unknown", "look").tags == ("E1",)
    assert not told(case(heater()), "heater_watts_unknown")


def test_what_is_settled_and_what_is_asked() -> None:
    finding = only(case(heater()), "heater_to_ask", "look")
    assert "disconnect" in finding.says
    assert "plugged in" not in finding.says
    look = heaters(case(heater()))["E1"]
    assert look.amps == 12.5
    assert look.amps_at_125 == 15.625
    assert any("own circuit" in text for text in look.settled)
    assert not told(case(thing("E2", plug="B1")), "heater_to_ask")


def test_metric_heater_on_a_plug() -> None:
    """3 kW at 230 V is 13.04 A; a fused plug carries 13 A (BS 1362)."""
    metric: dict[str, Any] = {"volts": 230.0, "conductor": "2.5 mm2", "gfci": True}
    large = job_of(circuit(**metric), receptacle(), heater(power="cord", watts=3000.0), region="metric")
    assert "BS 1362" in only(large, "metric_heater_too_large", "fix").source
    small = job_of(circuit(**metric), receptacle(), heater(power="cord", watts=2990.0), region="metric")
    assert not told(small, "metric_heater_too_large")
    wired = job_of(circuit(**metric), receptacle(), heater(watts=3000.0), region="metric")
    assert not told(wired, "metric_heater_too_large")


def test_a_wired_metric_heater_is_not_asked_about_a_plug() -> None:
    feed = circuit(volts=230.0, conductor="2.5 mm2")
    wired, corded = (
        heaters(job_of(feed, receptacle(), heater(power=power), region="metric"))["E1"].to_ask
        for power in ("hard-wired", "cord")
    )
    assert ["plug" in each for each in wired] == [False]
    assert ["plug" in each for each in corded] == [True, False]


def test_the_smaller_circuit_is_asked_about_only_where_the_larger_one_is_not_planned() -> None:
    alone = receptacle(receptacles=1, devices=("single receptacle TR 20 A 12",))
    plugged = heater(power="cord")
    larger = only(job_of(circuit(), alone, plugged), "heater_to_ask", "look")
    assert "15 A in 14 AWG" not in larger.why
    smaller = only(job_of(circuit(breaker=15.0, conductor="14"), alone, plugged), "heater_to_ask", "look")
    assert "15 A in 14 AWG" in smaller.why
