"""What an inspector looks for: each finding with the smallest job that raises it, and the nearest that does not."""

from __future__ import annotations

from typing import Any

from store.records.wiring import Cable
from tests.jobs.power_case import circuit, job_of, make, only, receptacle, told
from tests.jobs.power_pairs import changed, opening
from tests.rules.plug.test_plug_rules import thing


def test_arc_fault_protection() -> None:
    job = job_of(circuit(afci=False), receptacle())
    assert "210.12(A)" in only(job, "arc_fault_missing", "fix").source
    assert (
        "210.12(B)"
        in only(job_of(circuit(afci=False), receptacle(), edition="2023"), "arc_fault_missing", "fix").source
    )
    assert not told(job_of(circuit(afci=True), receptacle()), "arc_fault_missing")
    assert not told(job_of(circuit(afci=False), receptacle(new=False)), "arc_fault_missing")
    assert not told(job_of(circuit(afci=False), receptacle(what="low-voltage")), "arc_fault_missing")
    assert not told(job_of(circuit(afci=False, volts=240.0), receptacle()), "arc_fault_missing")
    assert not told(job_of(circuit(afci=False, breaker=30.0, conductor="10"), receptacle()), "arc_fault_missing")


def test_residual_current_protection() -> None:
    values: dict[str, Any] = {"volts": 230.0, "conductor": "2.5 mm2", "afci": False}
    job = job_of(circuit(**values), receptacle(), region="metric")
    assert "BS 7671" in only(job, "residual_current_missing", "fix").source
    assert not told(job_of(circuit(**values, gfci=True), receptacle(), region="metric"), "residual_current_missing")
    assert not told(job_of(circuit(**values), receptacle(new=False), region="metric"), "residual_current_missing")


def test_tamper_resistant_receptacles() -> None:
    plain: dict[str, Any] = {"devices": ("receptacle 12",)}
    job = job_of(circuit(), receptacle("B1", **plain), receptacle("B2", **plain), receptacle("B3"))
    assert only(job, "tamper_resistant", "look").tags == ("B1", "B2")
    assert not told(job_of(circuit(), receptacle()), "tamper_resistant")
    assert not told(job_of(circuit(), receptacle(new=False, **plain)), "tamper_resistant")
    # NEC 406.12: one more than 5-1/2 ft above the floor is exempt.
    assert told(job_of(circuit(), receptacle(y="66", **plain)), "tamper_resistant")
    assert not told(job_of(circuit(), receptacle(y="66 1/16", **plain)), "tamper_resistant")


def test_tap_from_an_existing_box() -> None:
    old, new = receptacle("B1", new=False, volume=None), receptacle("B2")
    tap = make(Cable, "K1", type="nm-12-2", start="B1", end="B2")
    finding = only(job_of(circuit(), old, new, tap), "tap_from_existing", "look")
    assert "load already" in finding.numbers["not noted"]
    assert "volume" in finding.numbers["not noted"]
    used = job_of(circuit(), receptacle("B1", new=False), new, tap, thing())
    assert only(used, "tap_from_existing", "look").numbers == {"not noted": "the load already on the circuit"}
    known = job_of(circuit(load=300.0), receptacle("B1", new=False), new, tap)
    assert not told(known, "tap_from_existing")
    assert not told(job_of(circuit(), receptacle("B1"), new, tap), "tap_from_existing")


def test_a_test_button_is_in_reach() -> None:
    recess = opening("N1", "screen", wall="W1", x="10", y="10", width="40", height="30")
    behind = job_of(circuit(), recess, receptacle(devices=("GFCI receptacle TR 12",), reached="N1"))
    assert only(behind, "protection_out_of_reach", "fix").tags == ("B1", "N1")
    assert not told(changed(behind, "B1", devices=("receptacle TR 12",)), "protection_out_of_reach")
    assert not told(changed(behind, "N1", use="equipment"), "protection_out_of_reach")
