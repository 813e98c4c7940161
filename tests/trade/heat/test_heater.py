"""The heater: both readings of the code, and which of them is settled."""

from __future__ import annotations

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from store.trade.heat.heater import BTU_PER_H_PER_W, heater_figures, metric_heater
from store.trade.power import conductors
from store.trade.power.circuit_load import Circuit, Load, circuit_figures
from tests.rows import rows
from tests.units import FLOATS as UNITS


@rows(
    ("watts", "volts", "drawn", "at_125", "breaker_125", "breaker_100"),
    [
        (750, 120, 6.25, 7.8125, 15, 15),
        (1000, 120, 8.333, 10.417, 15, 15),
        (1400, 120, 11.667, 14.583, 15, 15),
        (1440, 120, 12.0, 15.0, 15, 15),
        (1500, 120, 12.5, 15.625, 20, 15),
        (1800, 120, 15.0, 18.75, 20, 15),
        (2000, 120, 16.667, 20.833, 25, 20),
        (1500, 240, 6.25, 7.8125, 15, 15),
        (2000, 240, 8.333, 10.417, 15, 15),
        (4800, 240, 20.0, 25.0, 25, 20),
    ],
)
def test_breakers_of_usual_heaters(
    watts: float, volts: float, drawn: float, at_125: float, breaker_125: int, breaker_100: int
) -> None:
    """Ohm's law, 125 % (NEC 424.4(B)) and the standard sizes (240.6(A)), worked by hand."""
    figures = heater_figures(watts, volts=volts)
    assert figures.amps == pytest.approx(drawn, abs=0.001)
    assert figures.amps_at_125 == pytest.approx(at_125, abs=0.001)
    assert figures.at_125.breaker_a == breaker_125
    assert figures.at_100.breaker_a == breaker_100
    assert figures.planned.poles == (1 if volts == 120 else 2)


@given(st.floats(300, 6000), st.sampled_from([120.0, 208.0, 240.0]), st.floats(0, 3))
def test_planned_circuit_passes_the_circuit_check(watts: float, volts: float, blower_a: float) -> None:
    """A fixed heater on the circuit that is planned for it breaks no rule of the circuit module."""
    assume((watts / volts + blower_a) * 1.25 <= 55)  # what 6 AWG carries; more is refused
    figures = heater_figures(watts, volts=volts, blower_a=blower_a)
    plan = figures.planned
    load = Load("heater", watts + blower_a * volts, fixed=True, plugged=False, heating=True)
    checked = circuit_figures(Circuit(volts, plan.breaker_a, plan.gauge, receptacles=0), [load], 2020)
    assert [note for note in checked.notes if note.level == "fail"] == []
    assert conductors.nm_ampacity_a(plan.gauge) * (1 + 2e-9) >= figures.amps_at_125


def test_1500_w_is_settled_at_20_a_and_asked_at_15_a() -> None:
    figures = heater_figures(1500, connection="plug", edition=2020)
    assert (figures.planned.breaker_a, figures.planned.gauge) == (20, 12)
    assert figures.receptacle is not None
    assert "single receptacle rated 20 A, 120 V" in figures.receptacle
    settled = " ".join(note.source for note in figures.settled)
    for section in ("424.4(B)", "210.20(A)", "110.3(B)", "210.23(A)(2)", "210.12(A)", "400.12"):
        assert section in settled
    asked = " ".join(note.text for note in figures.for_inspector)
    assert "15 A in 14 AWG" in asked
    assert all(note.level == "ask" for note in figures.for_inspector)


def test_article_and_cord_are_never_settled_here() -> None:
    plugged = heater_figures(700, connection="plug")
    asked = {note.source for note in plugged.for_inspector}
    assert "NEC 2020 Article 424 or NEC 2020 Article 422" in asked
    assert "NEC 2020 422.16(A)" in asked
    assert not any("210.23" in note.source for note in plugged.settled)


def test_maker_may_ask_for_more_and_is_asked_about_when_less() -> None:
    more = heater_figures(1500, maker_breaker_a=30)
    assert (more.planned.breaker_a, more.planned.gauge) == (30, 10)
    less = heater_figures(1500, maker_breaker_a=15)
    assert less.planned.breaker_a == 20
    assert any("the manual asks for 15 A" in note.text for note in less.for_inspector)


def test_240_v_needs_no_arc_fault_protection_and_two_poles() -> None:
    figures = heater_figures(2000, volts=240, edition=2023)
    assert figures.planned.poles == 2
    assert any("120 V circuits only" in note.text and "210.12(B)" in note.source for note in figures.settled)
    assert figures.receptacle is None


def test_receptacle_follows_its_breaker_upward() -> None:
    """25 A is a breaker size but no receptacle rating: the single receptacle is not less than the circuit."""
    figures = heater_figures(2000, connection="plug")
    assert figures.planned.breaker_a == 25
    assert figures.receptacle is not None
    assert "rated 30 A" in figures.receptacle


def test_heat_in_btu_per_hour() -> None:
    assert heater_figures(1500).btu_per_h == pytest.approx(5118, abs=0.5)
    watt = UNITS.Quantity(1.0, "watt")
    assert pytest.approx(watt.to("Btu/hour").magnitude, rel=1e-5) == BTU_PER_H_PER_W


@rows(("watts", "drawn"), [(1000, 4.348), (1500, 6.522), (1800, 7.826), (2000, 8.696), (3000, 13.043)])
def test_current_at_230_v(watts: float, drawn: float) -> None:
    figures = metric_heater(watts)
    assert figures.amps == pytest.approx(drawn, abs=0.0005)
    assert figures.plug_fuse_a == (13 if watts < 2990 else None)
    assert figures.device_a >= figures.amps


def test_what_cannot_be_is_refused() -> None:
    for watts, volts in ((0, 120), (-1500, 120), (1500, 0), (1500, 400), (20000, 240)):
        with pytest.raises(ValueError, match=r"\w"):
            heater_figures(watts, volts=volts)
