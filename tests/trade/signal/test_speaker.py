"""Speaker cable: the 5 % rule from first principles."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.measure.length import FOOT_NM
from store.trade.signal.speaker import (
    GAUGES_AWG,
    longest_run_nm,
    loop_ohm,
    loss_percent,
    metric_longest_run_nm,
    metric_loop_ohm,
    metric_loss_percent,
    thinnest_gauge,
    thinnest_mm2,
)
from tests.rows import rows
from tests.units import FLOATS as UNITS


@rows("awg", [22, 20, 18, 16, 14, 12, 10])
def test_loop_resistance_against_resistivity_length_and_area(awg: int) -> None:
    """ASTM B258 diameter, IEC 60028 copper: R = rho·2L/A with units carried through."""
    diameter = 0.005 * 92 ** ((36 - awg) / 39) * UNITS.inch
    area = 3.141592653589793 * diameter**2 / 4
    resistance = 0.017241 * UNITS.ohm * UNITS.mm**2 / UNITS.m * (2 * 50 * UNITS.foot) / area
    assert loop_ohm(50 * FOOT_NM, awg) == pytest.approx(resistance.to("ohm").magnitude, rel=1e-6)


@given(st.sampled_from([22, 20, *GAUGES_AWG]), st.floats(2, 32), st.floats(0.5, 20))
def test_the_longest_run_is_just_within_the_share(awg: int, impedance: float, share: float) -> None:
    longest = longest_run_nm(awg, impedance, share)
    assert loss_percent(longest, awg, impedance) <= share * (1 + 1e-9)
    assert loss_percent(longest + FOOT_NM // 1000, awg, impedance) > share


@given(st.integers(0, 400 * FOOT_NM), st.floats(2, 16))
def test_the_gauge_chosen_is_the_thinnest_that_does(length: int, impedance: float) -> None:
    chosen = thinnest_gauge(length, impedance)
    does = [awg for awg in GAUGES_AWG if loss_percent(length, awg, impedance) <= 5]
    if chosen is None:
        assert all(loss_percent(length, awg, impedance) > 5 * (1 - 1e-9) for awg in GAUGES_AWG)
    else:
        assert chosen == max(does, default=chosen)


@rows("impedance", [0.0, -8.0, float("nan")])
def test_an_impossible_impedance_is_refused(impedance: float) -> None:
    with pytest.raises(ValueError, match="impedance"):
        longest_run_nm(14, impedance)


def test_a_negative_run_is_refused() -> None:
    with pytest.raises(ValueError, match="length"):
        loop_ohm(-1, 14)


def test_a_metric_size_loses_what_iec_60228_gives_its_copper() -> None:
    """Class 5 at 20 °C, 2.5 mm²: 7.98 ohm per km, so 10 m out and back are 0.1596 ohm, 1.995 % of 8 ohm."""
    assert metric_loop_ohm(10 * 10**9, 2.5) == pytest.approx(0.1596)
    assert metric_loss_percent(10 * 10**9, 2.5, 8) == pytest.approx(1.995)
    longest = metric_longest_run_nm(2.5, 8)
    assert longest / 10**9 == pytest.approx(25.063, abs=0.001)
    assert (thinnest_mm2(longest, 8), thinnest_mm2(longest + 10**6, 8), thinnest_mm2(10**12, 8)) == (2.5, 4.0, None)
