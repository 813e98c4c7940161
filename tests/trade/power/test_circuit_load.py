"""Branch circuits: the design current, the half and four-fifths rules, and the room left."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.trade.power.circuit_load import (
    Circuit,
    CircuitFigures,
    Load,
    amps,
    circuit_figures,
    is_continuous,
    is_individual,
    is_shared,
)
from store.trade.power.circuit_metric import CABLE_SOURCE, LOAD_SOURCE, circuit_notes, plug_fuse_a, standard_device_a
from store.trade.power.conductors import flat_cable_capacity_a
from store.trade.power.tables_metric import Method
from tests.rows import rows

FIREPLACE = Load("fireplace", 1500, fixed=True, plugged=False, heating=True)
SCREEN = Load("screen", 180)


def sources(figures: CircuitFigures, level: str = "fail") -> set[str]:
    return {note.source.removeprefix("NEC 2020 ") for note in figures.notes if note.level == level}


loads = st.lists(
    st.builds(
        Load,
        name=st.uuids().map(str),
        watts=st.floats(0, 2400),
        continuous=st.booleans(),
        fixed=st.booleans(),
        plugged=st.booleans(),
        heating=st.booleans(),
        lighting=st.booleans(),
    ),
    max_size=6,
)
circuits = st.builds(
    Circuit,
    volts=st.sampled_from([120.0, 240.0]),
    breaker_a=st.sampled_from([15, 20, 30]),
    gauge=st.sampled_from([14, 12, 10]),
    receptacles=st.integers(0, 8),
    receptacle_a=st.sampled_from([15, 20, 30]),
    lighting=st.booleans(),
    other_a=st.floats(0, 10),
    other_continuous=st.booleans(),
)


@given(circuits, loads)
def test_what_fits_in_the_room_left_fits(circuit: Circuit, on_it: list[Load]) -> None:
    """A further continuous load of exactly the room left takes the design current to the rating, no further."""
    before = circuit_figures(circuit, on_it, 2020)
    if before.room_a <= 0:
        return
    extra = Load("one more", before.room_continuous_a * circuit.volts, continuous=True)
    after = circuit_figures(circuit, [*on_it, extra], 2020)
    assert after.design_a == pytest.approx(before.rating_a)
    assert after.room_a == pytest.approx(0, abs=1e-9)
    assert "210.20(A)" not in sources(after)


@given(circuits, loads)
def test_design_lies_between_all_and_all_at_125(circuit: Circuit, on_it: list[Load]) -> None:
    figures = circuit_figures(circuit, on_it, 2020)
    assert figures.connected_a * (1 - 1e-9) <= figures.design_a <= 1.25 * figures.connected_a * (1 + 1e-9)
    assert figures.connected_w == pytest.approx(figures.connected_a * circuit.volts)
    assert figures.room_w == pytest.approx(figures.room_a * circuit.volts)


@given(circuits, loads)
def test_the_breaker_rule_is_the_rating_rule_seen_from_the_other_side(circuit: Circuit, on_it: list[Load]) -> None:
    """With every load continuous, 125 % of the load within the breaker is the load within 80 % of the breaker."""
    every = [Load(load.name, load.watts, continuous=True) for load in on_it]
    plain = Circuit(circuit.volts, circuit.breaker_a, 10, other_a=circuit.other_a, other_continuous=True)
    figures = circuit_figures(plain, every, 2020)
    assert ("210.20(A)" in sources(figures)) == (figures.connected_a > 0.8 * circuit.breaker_a * (1 + 1e-9))


def test_fireplace_on_a_shared_circuit_fails_by_half() -> None:
    """1500 W fastened in place is 12.5 A, and half of 20 A is 10 A (NEC 210.23)."""
    figures = circuit_figures(Circuit(120, 20, 12, receptacles=4), [FIREPLACE, SCREEN], 2020)
    assert figures.fixed_a == 12.5
    assert figures.fixed_limit_a == 10
    assert sources(figures) == {"210.23(A)(2)"}
    figures = circuit_figures(Circuit(120, 20, 12, receptacles=4), [FIREPLACE, SCREEN], 2023)
    assert "NEC 2023 210.23(B)(2)" in {note.source for note in figures.notes}


def test_fireplace_alone_on_20_a_is_well() -> None:
    figures = circuit_figures(Circuit(120, 20, 12, receptacles=0), [FIREPLACE], 2020)
    assert is_individual(Circuit(120, 20, 12, receptacles=0), [FIREPLACE])
    assert figures.design_a == 15.625
    assert figures.fixed_limit_a is None
    assert figures.notes == ()


def test_fireplace_alone_on_15_a_fails_when_fixed_and_warns_when_not() -> None:
    """15.6 A is more than 15 A; a movable heater is below it until it counts as fixed or continuous."""
    wired = circuit_figures(Circuit(120, 15, 14, receptacles=0), [FIREPLACE], 2020)
    assert sources(wired) == {"210.20(A)", "210.19(A)(1)"}
    movable = Load("heater", 1500, heating=True)
    plugged = circuit_figures(Circuit(120, 15, 14, receptacles=1), [movable], 2020)
    assert sources(plugged) == set()
    assert sources(plugged, "warn") == {"424.4(B)"}


def test_fastened_fireplace_beside_one_open_place_is_warned_about() -> None:
    plugged = Load("fireplace", 1500, fixed=True, heating=True)
    duplex_20 = Circuit(120, 20, 12, receptacles=2, receptacle_a=20)
    figures = circuit_figures(duplex_20, [plugged], 2020)
    assert not is_shared(duplex_20, [plugged])
    assert sources(figures) == set()
    assert sources(figures, "warn") == {"210.23(A)(2)"}


def test_plug_in_heater_is_too_much_for_a_15_a_receptacle_even_on_20_a() -> None:
    """Table 210.21(B)(2): 12 A from a 15 A receptacle of a circuit with two or more; 12.5 A is over it."""
    heater = Load("heater", 1500, heating=True)
    assert "Table 210.21(B)(2)" in sources(circuit_figures(Circuit(120, 20, 12, receptacles=4), [heater], 2020))
    on_15 = circuit_figures(Circuit(120, 15, 14, receptacles=4), [heater], 2020)
    assert {"Table 210.21(B)(2)", "210.23(A)(1)"} <= sources(on_15)
    on_20 = circuit_figures(Circuit(120, 20, 12, receptacles=4, receptacle_a=20), [heater], 2020)
    assert sources(on_20) == set()


def test_largest_plug_in_load_by_receptacle_rating() -> None:
    """Table 210.21(B)(2): 16 A from a 20 A receptacle and 24 A from a 30 A one."""
    for breaker, gauge, most in ((20, 12, 16), (30, 10, 24)):
        circuit = Circuit(120, breaker, gauge, receptacles=2, receptacle_a=breaker)
        within = circuit_figures(circuit, [Load("saw", most * 120)], 2020)
        over = circuit_figures(circuit, [Load("saw", (most + 0.1) * 120)], 2020)
        assert "Table 210.21(B)(2)" not in sources(within)
        assert "Table 210.21(B)(2)" in sources(over)


def test_two_open_places_share_a_circuit_and_one_does_not() -> None:
    for places, shared in ((0, False), (1, False), (2, True), (3, True)):
        assert is_shared(Circuit(120, 20, 12, receptacles=places), [FIREPLACE]) == shared


def test_fixed_lights_are_outside_the_half_and_fixed_plugs_outside_the_four_fifths() -> None:
    """NEC 210.23: the half excepts luminaires; the 80 % is for what is not fastened in place."""
    lights = Load("shelf lights", 1300, fixed=True, plugged=False, lighting=True)
    figures = circuit_figures(Circuit(120, 20, 12), [lights], 2020)
    assert figures.fixed_a == 0
    assert sources(figures) == set()
    fastened = Load("vacuum", 16.5 * 120, fixed=True)
    assert "210.23(A)(1)" not in sources(circuit_figures(Circuit(120, 20, 12), [fastened], 2020))


@rows(
    ("circuit", "expected"),
    [
        (Circuit(120, 20, 14), {"240.4(D)"}),
        (Circuit(120, 20, 12), set()),
        (Circuit(120, 30, 12, receptacle_a=30), {"240.4(D)"}),
        (Circuit(120, 20, 12, bundled=10), {"240.4(D)"}),
        (Circuit(120, 15, 14, receptacle_a=20), {"Table 210.21(B)(3)"}),
        (Circuit(120, 20, 12, receptacle_a=20), set()),
    ],
)
def test_breaker_against_conductor_and_receptacle(circuit: Circuit, expected: set[str]) -> None:
    assert sources(circuit_figures(circuit, [SCREEN], 2020)) == expected


def test_single_receptacle_alone_is_rated_as_its_circuit() -> None:
    alone = circuit_figures(Circuit(120, 20, 12, receptacles=1, receptacle_a=15), [SCREEN], 2020)
    assert sources(alone) == {"210.21(B)(1)"}
    assert sources(circuit_figures(Circuit(120, 15, 14, receptacles=1), [SCREEN], 2020)) == set()


def test_load_already_there_counts_and_shares() -> None:
    figures = circuit_figures(Circuit(120, 20, 12, other_a=6, other_continuous=True), [SCREEN], 2020)
    assert figures.continuous_a == 6
    assert figures.design_a == pytest.approx(1.5 + 7.5)
    assert figures.fixed_limit_a == 10


def test_three_hours_make_a_load_continuous() -> None:
    """NEC Article 100: maximum current expected for three hours or more."""
    assert is_continuous(3)
    assert not is_continuous(2.9)


def test_power_factor_raises_the_current() -> None:
    assert amps(600, 120) == 5
    assert amps(600, 120, 0.5) == 10


def test_what_cannot_be_is_refused() -> None:
    two_alike = [Load("a", 1), Load("a", 2)]
    for circuit, on_it in (
        (Circuit(0, 20, 12), [SCREEN]),
        (Circuit(120, 20, 12, other_a=-1), [SCREEN]),
        (Circuit(120, 20, 12), [Load("x", -5)]),
        (Circuit(120, 20, 18), [SCREEN]),
        (Circuit(120, 20, 12, receptacles=-1), [SCREEN]),
        (Circuit(120, 20, 12), two_alike),
    ):
        with pytest.raises(ValueError, match=r"\w"):
            circuit_figures(circuit, on_it, 2020)
    with pytest.raises(ValueError, match="power factor"):
        amps(100, 120, 1.1)


def test_metric_circuit_keeps_load_device_and_cable_in_order() -> None:
    """BS 7671 433.1: the load within the device and the device within the cable (Table 4D5)."""

    def notes(watts: float, method: Method, buried_mm: float = 0.0) -> list[str]:
        carries = flat_cable_capacity_a(2.5, method, buried_mm)
        return [note.source for note in circuit_notes(watts / 230, 16, carries, 2.5, method)]

    assert notes(3000, "102") == []
    assert notes(3680, "102") == []
    assert notes(3000, "103") == [CABLE_SOURCE]
    assert notes(3681, "102") == [LOAD_SOURCE]
    assert notes(4000, "C", buried_mm=500) == [LOAD_SOURCE, CABLE_SOURCE]
    assert [note.source for note in circuit_notes(20, 16, None, 0, "102")] == [LOAD_SOURCE]
    with pytest.raises(ValueError, match="device"):
        circuit_notes(1, 0, 21, 2.5, "102")


@rows(
    ("watts", "fuse", "device"),
    [(500, 3, 6), (690, 3, 6), (700, 13, 6), (2000, 13, 10), (2990, 13, 16), (3000, None, 16)],
)
def test_metric_fuse_and_device_are_the_smallest_that_reach(watts: float, fuse: int | None, device: int) -> None:
    """BS 1362 plug fuses 3 and 13 A; stock devices 6, 10, 16 A and on (from memory). 3 A × 230 V = 690 W."""
    assert plug_fuse_a(watts) == fuse
    assert standard_device_a(watts / 230) == device
