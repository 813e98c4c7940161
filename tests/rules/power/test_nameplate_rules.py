"""What the nameplate asks for, and wire that is not copper: both sides of each rule."""

from __future__ import annotations

import pytest

from store.records.wiring import Cable
from store.rules.power.load import states
from store.trade.power.metals import aluminum_max_breaker_a, metal_of
from tests.jobs.power_case import circuit, job_of, make, only, told
from tests.jobs.power_pairs import box, changed, heater, on_c1, thing
from tests.rows import rows


def test_equipment_of_another_voltage() -> None:
    fire = on_c1(heater(watts=2000.0, plate_volts=240.0))
    assert only(fire, "wrong_volts", "fix").tags == ("E1", "B1", "C1")
    assert not told(changed(fire, "E1", plate_volts=120.0), "wrong_volts")
    assert not told(changed(fire, "C1", volts=208.0), "wrong_volts")
    assert only(changed(on_c1(heater(plate_volts=120.0)), "C1", volts=240.0), "wrong_volts", "stop")


def test_a_name_that_says_another_voltage_is_asked_about() -> None:
    asked = on_c1(heater(name="fireplace 240 V"))
    assert only(asked, "wrong_volts", "look")
    assert not told(changed(asked, "E1", volts=120.0), "wrong_volts")
    assert not told(on_c1(heater(name="fireplace 120/240 V"), heater("E2", name="fireplace 120 V")), "wrong_volts")


def test_the_manual_names_its_breaker() -> None:
    fire = on_c1(heater(breaker=15.0))
    assert only(fire, "not_the_makers_breaker", "fix").tags == ("E1", "C1")
    assert not told(changed(fire, "E1", breaker=20.0), "not_the_makers_breaker")
    assert not told(changed(fire, "C1", breaker=None), "not_the_makers_breaker")


@rows(
    ("text", "most"),
    # NFPA 70 240.4(D): 12 AWG aluminum or copper-clad 15 A, 10 AWG 25 A; 310.3(A): no 14 AWG (secondary copies).
    [("12 aluminum", 15), ("10 AWG Al", 25), ("12 CCA", 15), ("14 copper-clad", 0)],
)
def test_wire_that_is_not_copper_has_a_smaller_breaker(text: str, most: float) -> None:
    assert aluminum_max_breaker_a(int(text.split()[0])) == most
    assert metal_of(text) != "copper"
    wired = job_of(circuit(conductor=text, breaker=30.0), box(circuit="C1"))
    assert only(wired, "breaker_over_wire", "stop").numbers["most"] == f"{most:g} A"
    assert only(wired, "wire_not_copper", "look")
    assert states(wired)["C1"].limit_a == most
    if most:
        assert not told(changed(wired, "C1", breaker=float(most)), "breaker_over_wire")


def test_copper_joined_to_aluminum() -> None:
    tapped = job_of(
        circuit(conductor="10 aluminum"), box(circuit="C1", new=False), box("B2", circuit="C1"),
        make(Cable, "K1", type="nm-12-2", start="B1", end="B2"),
    )  # fmt: skip
    assert "110.14(B)" in only(tapped, "copper_on_aluminum", "fix").source
    assert not told(changed(tapped, "C1", conductor="12 copper"), "copper_on_aluminum")
    assert not told(changed(tapped, "K1", type="10-2 aluminum"), "copper_on_aluminum")


def test_a_strip_s_own_rating_is_no_load_and_like_things_have_a_plug_each() -> None:
    strip = thing("E1", what="strip", watts=1875.0, places=6)
    plugged = on_c1(strip, thing("E2", plug="E1", watts=300.0))
    assert states(plugged)["C1"].connected_a == pytest.approx(2.5)
    # NEC 210.23: 80 % of 15 A is 12 A for one plugged-in thing; two of 900 W are 7.5 A each.
    two = on_c1(thing(watts=900.0, count=2), breaker=15.0, conductor="14")
    assert not told(two, "plug_in_over_80")
    assert told(changed(two, "E1", watts=1500.0), "plug_in_over_80")


def test_a_plug_on_a_240_v_circuit_is_asked_about() -> None:
    high = job_of(circuit(volts=240.0), box(circuit="C1"), thing())
    assert only(high, "wrong_volts", "look").numbers["made for"] == "not entered"
    assert not told(changed(high, "E1", plate_volts=240.0), "wrong_volts")
    assert not told(changed(high, "C1", volts=120.0), "wrong_volts")


def test_aluminum_in_a_metric_job() -> None:
    # BS 7671 Table 52.3: 16 mm² is the least of aluminum for fixed wiring.
    thin = job_of(circuit(conductor="2.5 mm2 aluminium", volts=230.0, gfci=True), box(circuit="C1"), region="metric")
    assert only(thin, "wire_not_copper", "stop").do.startswith("Use copper of the size for this circuit.")
    thick = only(changed(thin, "C1", conductor="16 mm2 aluminium"), "wire_not_copper", "look")
    assert thick.do.startswith("Have an electrician choose MCB and joints")
    assert not told(changed(thin, "C1", conductor="2.5 mm2"), "wire_not_copper")
