"""Voltage drop: the closed formulas against a resistive network solved node by node."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.sparse import csr_matrix
from scipy.sparse.linalg import spsolve

from store.trade.power import tables_metric, tables_us, voltage_drop
from store.trade.power.conductors import ohm_per_kft, ohm_per_km
from store.trade.power.voltage_drop import ORIGIN, Stretch, chain, drops_v
from tests.rows import rows

SUPPLY_V = 120.0


def nodal_drops_v(stretches: list[Stretch]) -> list[float]:
    """Solve the two-wire circuit as a network: live and return conductors are separate nodes, loads are sources.

    The panel's return is the reference and its live node is held at the supply by substitution.
    """
    count = len(stretches)
    rows: list[int] = []
    columns: list[int] = []
    values: list[float] = []
    injected = np.zeros(2 * count)

    def stamp(node: int, feeder: int | None, siemens: float, held_v: float) -> None:
        rows.append(node)
        columns.append(node)
        values.append(siemens)
        if feeder is None:
            injected[node] += siemens * held_v
            return
        rows.extend([feeder, node, feeder])
        columns.extend([feeder, feeder, node])
        values.extend([siemens, -siemens, -siemens])

    for at, each in enumerate(stretches):
        siemens = 1 / (each.length * each.ohms_per_length)
        feeder = None if each.after == ORIGIN else each.after
        stamp(at, feeder, siemens, SUPPLY_V)
        stamp(count + at, None if feeder is None else count + feeder, siemens, 0.0)
        injected[at] -= each.amps
        injected[count + at] += each.amps
    conductance = csr_matrix((values, (rows, columns)), shape=(2 * count, 2 * count))
    node_v = np.atleast_1d(spsolve(conductance.tocsc(), injected))
    return [float(SUPPLY_V - (node_v[at] - node_v[count + at])) for at in range(count)]


@st.composite
def trees(draw: st.DrawFn) -> list[Stretch]:
    size = draw(st.integers(1, 12))
    return [
        Stretch(
            length=draw(st.floats(0.5, 120)),
            ohms_per_length=draw(st.sampled_from(sorted(tables_us.SOLID_OHM_PER_KFT.values()))) / 1000,
            amps=draw(st.floats(0, 16)),
            after=draw(st.integers(ORIGIN, at - 1)),
        )
        for at in range(size)
    ]


@given(trees())
def test_any_branching_run_matches_the_network(stretches: list[Stretch]) -> None:
    assert drops_v(stretches) == pytest.approx(nodal_drops_v(stretches), rel=1e-7, abs=1e-7)


@given(st.floats(0.1, 40), st.floats(0.5, 300), st.sampled_from(sorted(tables_us.SOLID_OHM_PER_KFT)))
def test_single_load_matches_the_network(amps: float, feet: float, gauge: int) -> None:
    closed = voltage_drop.two_wire_drop_v(amps, feet, ohm_per_kft(gauge))
    solved = nodal_drops_v([Stretch(feet, ohm_per_kft(gauge) / 1000, amps)])
    assert closed == pytest.approx(solved[0], rel=1e-7)


def test_loads_along_a_run_lose_less_than_all_at_the_end() -> None:
    """Two 6 A loads at 30 and 50 ft lose less at the end than 12 A at 50 ft, and more than 6 A there."""
    per_ft = ohm_per_kft(12) / 1000
    at_30, at_50 = drops_v(chain([(30, 6), (20, 6)], per_ft))
    assert at_30 == pytest.approx(2 * 30 * per_ft * 12)
    assert at_50 == pytest.approx(at_30 + 2 * 20 * per_ft * 6)
    assert drops_v(chain([(50, 6)], per_ft))[0] < at_50 < drops_v(chain([(50, 12)], per_ft))[0]


def test_a_stretch_fed_from_itself_or_from_later_is_refused() -> None:
    for after in (0, 1, -2):
        with pytest.raises(ValueError, match="stretch 0 must be fed"):
            drops_v([Stretch(10, 0.002, 5, after), Stretch(10, 0.002, 5, 0)])


def test_nothing_along_the_run_is_nothing_lost() -> None:
    assert drops_v([]) == ()


@rows("mm2", tables_metric.MV_PER_A_M)
def test_tabulated_mv_per_a_m_is_the_loop_of_the_iec_resistance(mm2: float) -> None:
    """BS 7671 Table 4D5 at 70 °C is twice the IEC 60228 limit brought to 70 °C, within its rounding of 2 %."""
    assert tables_metric.MV_PER_A_M[mm2] == pytest.approx(2 * ohm_per_km(mm2), rel=0.022)


@rows(
    ("metres", "lighting", "percent"),
    [(20, True, 3.0), (20, False, 5.0), (100, False, 5.0), (150, False, 5.25), (200, True, 3.5), (900, True, 3.5)],
)
def test_metric_limit_grows_a_little_with_length(metres: float, lighting: bool, percent: float) -> None:
    assert voltage_drop.metric_limit_percent(metres, lighting=lighting) == pytest.approx(percent)


def test_us_advice_speaks_from_three_percent_and_warns_from_five() -> None:
    assert voltage_drop.us_advice(3.6, 120, 2020) is None
    mild = voltage_drop.us_advice(4.8, 120, 2020)
    assert mild is not None
    assert (mild.level, mild.source) == ("note", "NEC 2020 210.19(A), informational note")
    assert "4.0%" in mild.text
    strong = voltage_drop.us_advice(7.675, 120, 2023)
    assert strong is not None
    assert strong.level == "warn"
    assert "6.4%" in strong.text


def test_metric_advice_is_stricter_for_light() -> None:
    """6.9 V is the limit for lighting at 230 V and 11.5 V for the rest."""
    assert voltage_drop.metric_advice(6.9, 20, lighting=True) is None
    assert voltage_drop.metric_advice(7.0, 20, lighting=True) is not None
    assert voltage_drop.metric_advice(11.5, 20, lighting=False) is None
    over = voltage_drop.metric_advice(11.6, 20, lighting=False)
    assert over is not None
    assert "other uses" in over.text


def test_what_cannot_be_is_refused() -> None:
    calls: list[Callable[[], float]] = [
        lambda: voltage_drop.two_wire_drop_v(-1, 10, 2),
        lambda: voltage_drop.two_wire_drop_v(1, float("nan"), 2),
    ]
    for call in calls:
        with pytest.raises(ValueError, match=r"\w"):
            call()
