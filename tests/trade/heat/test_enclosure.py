"""Cabinet air: conversions against pint, the balance against its own two halves, and refusals."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.measure.length import INCH_NM
from store.trade.heat import enclosure
from tests.rows import rows
from tests.units import FLOATS as UNITS

WATTS = st.floats(1, 2_000)
RISES = st.floats(0.5, 60)


def test_the_factors_between_units_agree_with_pint() -> None:
    assert pytest.approx((1 * UNITS.watt).to("Btu_it/hour").magnitude, rel=1e-6) == enclosure.BTUH_PER_WATT
    assert pytest.approx((1 * UNITS.foot**3 / UNITS.minute).to("m^3/hour").magnitude, rel=1e-6) == enclosure.M3H_PER_CFM


@given(WATTS, RISES)
def test_the_air_needed_carries_the_heat(watts: float, rise: float) -> None:
    flow = enclosure.airflow_needed(watts, rise)
    assert enclosure.heat_carried(flow.cfm, rise) == pytest.approx(watts)
    assert enclosure.rise_with_fan(watts, flow.cfm) == pytest.approx(rise)


@given(st.floats(1, 300), st.floats(4, 200), st.floats(4, 200), st.integers(6, 100), st.floats(15, 35))
def test_a_cabinet_at_balance_sheds_what_it_takes_in(
    watts: float, low: float, high: float, height: int, room: float
) -> None:
    found = enclosure.stack_balance(watts, low, high, height * INCH_NM, room)
    assert found is not None or watts > enclosure.heat_carried(
        enclosure.stack_flow(low, high, height * INCH_NM, room + enclosure.HOTTEST_RISE_C, room).cfm,
        enclosure.HOTTEST_RISE_C,
    )
    if found is not None:
        assert enclosure.heat_carried(found.airflow.cfm, found.rise_c) == pytest.approx(watts, rel=1e-6)
        assert found.cabinet_c == room + found.rise_c


def test_larger_openings_and_a_taller_stack_run_cooler() -> None:
    def rise(area: float, height: int) -> float:
        found = enclosure.stack_balance(100, area, area, height * INCH_NM, 22)
        assert found is not None
        return found.rise_c

    assert rise(20, 24) > rise(40, 24) > rise(40, 48)


def test_a_shut_cabinet_with_a_heat_in_it_has_no_answer_and_one_without_is_at_room_heat() -> None:
    assert enclosure.stack_balance(50, 0, 40, 24 * INCH_NM, 22) is None
    assert enclosure.stack_balance(50, 40, 40, 0, 22) is None
    cold = enclosure.stack_balance(0, 40, 40, 24 * INCH_NM, 22)
    assert cold is not None
    assert (cold.rise_c, cold.cabinet_c, cold.airflow.cfm) == (0, 22, 0)


def test_nothing_rises_where_it_is_cooler_inside() -> None:
    assert enclosure.stack_flow(40, 40, 24 * INCH_NM, 18, 22).cfm == 0


@given(st.floats(0.1, 500), st.floats(0.1, 500))
def test_two_openings_in_a_row_pass_less_than_the_smaller(first: float, second: float) -> None:
    area = enclosure.series_area(first, second)
    assert min(first, second) / 2**0.5 - 1e-9 <= area < min(first, second)
    assert area == pytest.approx(enclosure.series_area(second, first))


@rows(
    "refused",
    [
        lambda: enclosure.airflow_needed(10, 0),
        lambda: enclosure.airflow_needed(-1, 10),
        lambda: enclosure.rise_with_fan(10, 0),
        lambda: enclosure.series_area(-1, 1),
        lambda: enclosure.stack_flow(1, 1, -1, 30, 20),
        lambda: enclosure.stack_flow(1, 1, 1, 30, -300),
        lambda: enclosure.stack_balance(-1, 1, 1, 1, 20),
    ],
)
def test_air_that_cannot_be_is_refused(refused: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match=r"above|at least"):
        refused()
