"""Electrical figures against worked examples in print; the source stands beside each.

"Secondary copy" means the figure was read in a lesson or summary that quotes the source, not in the code
book.
"""

from __future__ import annotations

import pytest

from store.trade.cable import raceway_fill
from store.trade.heat.heater import heater_figures
from store.trade.measured.citations import NEC_EDITIONS
from store.trade.power import conductors, voltage_drop
from store.trade.power.box_fill import BoxContents, Cable, Device, box_fill, ground_allowances, standard_boxes_for
from store.trade.power.circuit_load import Circuit, Load, amps, circuit_figures, design_current_a
from store.trade.power.tables_metric import Method
from tests.rows import rows

# --- Voltage drop
# -----------------------------------------------------------------------------------------------


def test_16_awg_stranded_100_ft_4_a() -> None:
    """NEC Chapter 9, Table 8 (4.99 ohm/kft), worked for signalling circuits: 4.0 V, "16.7 %" of 24 V.

    The printed example rounds to 4.0 V before it divides.
    """
    lost = voltage_drop.two_wire_drop_v(4, 100, conductors.ohm_per_kft(16, stranded=True))
    assert lost == pytest.approx(4.0, abs=0.05)
    assert lost / 24 * 100 == pytest.approx(16.7, abs=0.1)


def test_10_awg_at_its_cool_resistance() -> None:
    """Trade lesson on two-wire drop: 1.02 ohm/kft, 100 ft, 10 A: a loop of 0.204 ohm and 2.04 V."""
    assert voltage_drop.two_wire_drop_v(1, 100, 1.02) == pytest.approx(0.204)
    assert voltage_drop.two_wire_drop_v(10, 100, 1.02) == pytest.approx(2.04)


def test_resistance_of_a_long_18_awg_run() -> None:
    """A printed wire table for 25 °C: 6.505 ohm/kft, 400 ft one way of one conductor: 2.602 ohm."""
    assert voltage_drop.two_wire_drop_v(1, 400, 6.505) / 2 == pytest.approx(2.602)


def test_25_c_wire_table_is_the_geometry_at_25_c() -> None:
    """The same table's 6.505 ohm/kft follows from ASTM B258 and IEC 60028 at 25 °C."""
    assert conductors.annealed_ohm_per_kft(18, 25) == pytest.approx(6.505, rel=0.002)


def test_5_percent_and_3_percent_at_230_v() -> None:
    """BS 7671 Appendix 4 (secondary copy): 6.9 V for lighting and 11.5 V for other uses."""
    for lighting, most_v in ((True, 6.9), (False, 11.5)):
        limit_v = voltage_drop.metric_limit_percent(30, lighting=lighting) / 100 * 230
        assert limit_v == pytest.approx(most_v)


# --- Conductors
# -------------------------------------------------------------------------------------------------


def test_10_awg_in_metric() -> None:
    """ASTM B258, printed example: 10 AWG is 2.588 mm and 5.261 mm²."""
    assert conductors.awg_diameter_in(10) * 25.4 == pytest.approx(2.588, abs=0.0005)
    assert conductors.awg_area_mm2(10) == pytest.approx(5.261, abs=0.0005)


# BS 7671 Table 4D5 (secondary copies): the capacities that could be read in print.
@rows(
    ("mm2", "method", "capacity"),
    [(1.5, "C", 20), (1.5, "A", 14.5), (2.5, "C", 27), (2.5, "A", 20), (2.5, "102", 21), (2.5, "103", 13.5)],
)
def test_flat_cable_capacities(mm2: float, method: Method, capacity: float) -> None:
    assert conductors.flat_cable_capacity_a(mm2, method) == capacity


# --- Loads
# ------------------------------------------------------------------------------------------------------


def test_fixed_heater_of_40_a_with_blower() -> None:
    """NEC 424.3(B), printed exam example: 9,600 W at 240 V is 40 A, plus a 3 A blower, at 125 % 53.75 A.

    The answer is 6 AWG (55 A at 60 °C) and the next standard size, 60 A (240.4(B)).
    """
    figures = heater_figures(9600, volts=240, blower_a=3, edition=2017)
    assert figures.amps == pytest.approx(43)
    assert figures.amps_at_125 == pytest.approx(53.75)
    assert (figures.planned.gauge, figures.planned.breaker_a) == (6, 60)


def test_fixed_heating_of_12_a() -> None:
    """NEC 424.3(B), printed exam example, its first step only: 12 A × 1.25 = 15 A."""
    assert design_current_a(0, 12) == 15.0


def test_fireplace_and_lamps_on_20_a() -> None:
    """Trade forum arithmetic: 2,000 W at 120 V is 16.7 A, 83 % of 20 A."""
    drawn = amps(2000, 120)
    assert drawn == pytest.approx(16.7, abs=0.05)
    assert drawn / 20 * 100 == pytest.approx(83, abs=0.5)


@rows("edition", NEC_EDITIONS)
def test_central_vacuum_needs_its_own_circuit(edition: int) -> None:
    """Trade magazine's code questions on NEC 210.23: a fixed 13 A vacuum on a 20 A circuit with receptacles fails."""
    vacuum = Load("vacuum", 13 * 120, fixed=True)
    shared = circuit_figures(Circuit(120, 20, 12, receptacles=6, receptacle_a=20), [vacuum], edition)
    failed = [note for note in shared.notes if note.level == "fail"]
    assert len(failed) == 1
    assert "210.23" in failed[0].source
    alone = circuit_figures(Circuit(120, 15, 14, receptacles=1), [vacuum], edition)
    assert [note for note in alone.notes if note.level == "fail"] == []


def test_15_a_receptacle_gives_12_a() -> None:
    """NEC Table 210.21(B)(2) (secondary copies): a 15 A receptacle of a 15 or 20 A circuit gives 12 A at most."""
    for breaker, gauge in ((15, 14), (20, 12)):
        circuit = Circuit(120, breaker, gauge, receptacles=4)
        at_limit = circuit_figures(circuit, [Load("a", 12 * 120)], 2020)
        assert not at_limit.notes
        over = circuit_figures(circuit, [Load("a", 12.1 * 120)], 2020)
        assert "NEC 2020 Table 210.21(B)(2)" in {note.source for note in over.notes}


# --- Box fill
# ---------------------------------------------------------------------------------------------------

TWO_12_2 = (Cable(12, 2), Cable(12, 2))
SIX_12 = (Cable(12, 6, ground=False),)


@rows("edition", NEC_EDITIONS)
def test_two_cables_clamps_and_a_receptacle(edition: int) -> None:
    """NEC 314.16(B), printed lesson: 4 + 1 + 2 + 1 = 8 allowances of 2.25 in³ = 18.0 in³."""
    fill = box_fill(BoxContents(TWO_12_2, (Device("receptacle", 12),), internal_clamps=True), edition)
    assert sum(line.count for line in fill.lines) == 8
    assert fill.total_in3 == 18.0


@rows("edition", NEC_EDITIONS)
def test_six_conductors_without_grounds(edition: int) -> None:
    """NEC 314.16(B), printed exam lesson: 13.50 + 4.50 + 2.25 = 20.25 in³."""
    fill = box_fill(BoxContents(SIX_12, (Device("receptacle", 12),), internal_clamps=True), edition)
    assert sorted(line.subtotal_in3 for line in fill.lines) == [2.25, 4.50, 13.50]
    assert fill.total_in3 == 20.25


@rows("edition", NEC_EDITIONS)
def test_six_14_awg_and_a_switch(edition: int) -> None:
    """Printed homeowner's example: 12 + 4 + 2 = 18 in³, which a 22 in³ box holds."""
    fill = box_fill(BoxContents((Cable(14, 2),) * 3, (Device("switch", 14),)), edition)
    assert sorted(line.subtotal_in3 for line in fill.lines) == [2, 4, 12]
    assert fill.total_in3 == 18 <= 22


def test_ten_grounds_by_the_2020_rule() -> None:
    """Trade article on the 2020 change of 314.16(B)(5): five 14 and five 12 AWG grounds, 2.5 × 2.25 = 5.6 in³."""
    grounds = BoxContents(extra_grounds=(14,) * 5 + (12,) * 5)
    assert ground_allowances(10, 2020) == 2.5
    assert box_fill(grounds, 2020).total_in3 == pytest.approx(5.6, abs=0.05)
    assert box_fill(grounds, 2017).total_in3 == 2.25


def test_nine_12_awg_take_the_deep_square() -> None:
    """NEC Table 314.16(A), printed exam problem: nine 12 AWG need the 4 × 1-1/2 square (21.0 / 2.25 = 9.33)."""
    total = box_fill(BoxContents((Cable(12, 9, ground=False),)), 2020).total_in3
    assert standard_boxes_for(total, ["square"])[0].size == "4 × 1-1/2 square"


# --- Raceways
# ---------------------------------------------------------------------------------------------------


def test_three_quarter_emt_at_40_percent() -> None:
    """NEC Chapter 9, Tables 1 and 4, printed example: 0.533 × 0.40 = 0.213 in²."""
    size = raceway_fill.raceway("EMT", "3/4")
    assert raceway_fill.fill(size.inside_in, [raceway_fill.Item(0.01, 3)]).allowed_in2 == pytest.approx(
        0.213, abs=0.001
    )


@pytest.mark.parametrize(
    ("area", "count", "used", "trade_size"), [(0.0133, 4, 0.0532, "1/2"), (0.0507, 3, 0.1521, "3/4")]
)
def test_thhn_in_emt(area: float, count: int, used: float, trade_size: str) -> None:
    """NEC Chapter 9, Table 5, printed examples: 4 × 0.0133 in 1/2 EMT (0.122), 3 × 0.0507 in 3/4 EMT (0.213)."""
    items = [raceway_fill.Item(area, count)]
    smallest = raceway_fill.smallest_raceway("EMT", items)
    assert smallest is not None
    assert smallest.trade_size == trade_size
    assert raceway_fill.fill(smallest.inside_in, items).used_in2 == pytest.approx(used)
