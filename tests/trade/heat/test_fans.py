"""Fans at their working point, by a numerical root and by the laws of fans."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from store.trade.heat import enclosure as heat
from store.trade.heat import fans
from tests.rows import rows

FLOW, PRESSURE, RESISTS = st.floats(5, 300), st.floats(0.01, 1), st.floats(1e-7, 1e-2)


@given(FLOW, PRESSURE, RESISTS)
def test_the_working_point_is_where_both_curves_meet(free: float, shut: float, resists: float) -> None:
    found = fans.working_point(free, shut, resists)
    root = brentq(lambda q: shut * (1 - q / free) - resists * q**2, 0, free)
    assert found.cfm == pytest.approx(root, rel=1e-6)
    assert found.inh2o == pytest.approx(shut * (1 - found.cfm / free), rel=1e-6, abs=1e-9)


@given(FLOW, PRESSURE, RESISTS)
def test_the_fan_that_would_do_moves_what_is_wanted(cfm: float, shut: float, resists: float) -> None:
    free = fans.free_flow_wanted(cfm, shut, resists)
    if free is None:
        assert resists * cfm**2 >= shut
    else:
        assert fans.working_point(free, shut, resists).cfm == pytest.approx(cfm, rel=1e-6)


@given(st.floats(1, 200), st.floats(1, 200))
def test_two_openings_in_a_row_resist_as_their_area_in_series(first: float, second: float) -> None:
    one = fans.resistance([first, second])
    assert one == pytest.approx(fans.resistance([heat.series_area(first, second)]))


def test_nothing_goes_through_a_shut_opening_and_all_through_none() -> None:
    assert fans.resistance([10, 0]) is None
    assert fans.resistance([]) == 0
    assert fans.working_point(50, 0.1, 0) == (50, 0)


@rows(
    "refused",
    [
        lambda: fans.resistance([-1]),
        lambda: fans.working_point(0, 1, 1),
        lambda: fans.free_flow_wanted(1, 0, 1),
        lambda: fans.noise_at(30, 0),
        lambda: fans.mesh_share(2, 1),
        lambda: fans.holes_share(-1, 1),
    ],
)
def test_fans_that_cannot_be_are_refused(refused: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match=r"at least 0|above 0|no wider"):
        refused()
