"""Fans on their makers' curves, against a numerical root (scipy) and by hand."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from store.trade.heat.fan_curve import as_curve, flow_sold, on_curve, pipe_area
from store.trade.heat.fans import working_point
from tests.rows import rows

FLOWS = st.lists(st.integers(1, 200), min_size=2, max_size=6, unique=True)
PRESSURES = st.lists(st.integers(0, 500), min_size=6, max_size=6, unique=True)


@given(FLOWS, PRESSURES, st.floats(1e-7, 1e-1))
def test_it_works_where_the_falling_curve_meets_the_openings(flows: Any, pressures: Any, resists: float) -> None:
    across = [0, *sorted(flows)]
    up = sorted((each / 1000 for each in pressures[: len(across)]), reverse=True)
    across = across[: len(up)]
    found = on_curve(as_curve(list(zip(across, up, strict=True))), resists)

    def over(flow: float) -> float:
        return float(np.interp(flow, across, up)) - resists * flow**2

    if over(across[-1]) > 0:
        assert found.cfm == across[-1]
    else:
        assert found.cfm == pytest.approx(brentq(over, 0, across[-1], xtol=1e-12), rel=1e-6, abs=1e-6)


def test_a_curve_of_two_points_is_the_straight_line() -> None:
    line = as_curve([(50, 0), (0, 0.1)])
    assert on_curve(line, 1.1222e-4).cfm == pytest.approx(working_point(50, 0.1, 1.1222e-4).cfm)
    assert on_curve(line, 0) == (50, 0)


def test_outside_its_points_and_in_a_dip_it_moves_no_more_than_is_printed() -> None:
    # Level below the first point: 0.1 = 0.001 q², 10 cfm. Past the last one: 40 cfm.
    late = as_curve([(20, 0.1), (40, 0.05)])
    assert on_curve(late, 0.001).cfm == pytest.approx(10)
    assert on_curve(late, 1e-6).cfm == 40
    # A dip of 0.02 at 20 cfm between 0.1 and 0.08: 1.2e-4 q² meets it before the dip, at 17.3 cfm, not after.
    dip = as_curve([(0, 0.1), (20, 0.02), (30, 0.08), (50, 0)])
    assert on_curve(dip, 1.2e-4).cfm == pytest.approx(brentq(lambda q: 0.1 - 0.004 * q - 1.2e-4 * q * q, 0, 20))


@given(st.floats(5, 60), st.floats(1e-6, 1e-3))
def test_the_fan_that_is_named_does(cfm: float, resists: float) -> None:
    curve = ((0.0, 0.2), (30.0, 0.12), (60.0, 0.0))
    sold = flow_sold(curve, cfm, resists)
    if sold is None:
        assert resists * cfm**2 > 0.2 * 0.999
    else:
        wider = tuple((flow * sold / 60, pressure) for flow, pressure in curve)
        assert on_curve(wider, resists).cfm == pytest.approx(cfm, rel=1e-6)


@rows("points", [[(1, 1)], [(0, 1), (-1, 0)], [(0, 1), (5, -1)], [(5, 1), (5, 0)], [(0, 1), (5, 1)], [(0, 0), (5, 0)]])
def test_points_that_make_no_curve_are_refused(points: Any) -> None:
    with pytest.raises(ValueError, match=r"curve|flow|pressure"):
        as_curve(points)


def test_a_pipe_resists_as_its_ends_and_its_length() -> None:
    # 2 in bore, 120 in long: 1 / 0.36 and 0.03 x 60 velocity heads, 4.578 in all; an opening alone has 2.778.
    area = math.pi
    assert pipe_area(area, 2, 0) == area
    assert pipe_area(area, 2, 120) == pytest.approx(area * math.sqrt(2.7778 / 4.5778), rel=1e-4)
    for refused in (
        lambda: pipe_area(0, 2, 1),
        lambda: pipe_area(1, 1, -1),
        lambda: on_curve(((0, 1), (1, 0)), -1),
        lambda: flow_sold(((0, 1), (1, 0)), 0, 1),
    ):
        with pytest.raises(ValueError, match=r"above 0|at least 0"):
            refused()
