"""HDMI: grade for a rate, advice by length."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.trade.cable.length import METRE_NM
from store.trade.signal.hdmi import GRADES, PASSIVE_NM, Advice, advise, grade_rate
from tests.rows import rows


@rows(
    ("gbit_s", "grade"),
    [
        (4.455, "High Speed"),
        (10.2, "High Speed"),
        (10.21, "Premium High Speed"),
        (40.1, "Ultra High Speed"),
        (96, "Ultra96"),
    ],
)
def test_the_lowest_grade_that_carries_a_rate(gbit_s: float, grade: str) -> None:
    assert advise(METRE_NM, gbit_s).grade == grade


@rows("gbit_s", [0, -1, 96.1])
def test_a_rate_that_no_grade_carries_is_refused(gbit_s: float) -> None:
    with pytest.raises(ValueError, match="certified"):
        grade_rate(gbit_s)


def test_advice_changes_at_the_two_lengths() -> None:
    assert [advise(metres * METRE_NM, 48).advice for metres in (3, 4, 5, 6)] == [
        Advice.PASSIVE,
        Advice.TRY,
        Advice.TRY,
        Advice.ACTIVE,
    ]
    assert advise(2 * METRE_NM, 90).advice is Advice.ASK


def test_only_beyond_copper_has_the_cable_a_source_end() -> None:
    assert advise(20 * METRE_NM, 18).directional
    assert not advise(5 * METRE_NM, 18).directional


@given(st.integers(0, 30 * METRE_NM), st.floats(0.1, 48), st.floats(0.1, 48))
def test_a_faster_picture_never_gets_easier_advice(length: int, one: float, two: float) -> None:
    order = [Advice.PASSIVE, Advice.TRY, Advice.ACTIVE]
    slow, fast = sorted((one, two))
    assert order.index(advise(length, slow).advice) <= order.index(advise(length, fast).advice)


def test_every_advised_rate_is_a_grade() -> None:
    assert set(PASSIVE_NM) <= {rate for rate, _name in GRADES}


def test_advice_says_that_it_is_only_practice() -> None:
    assert "common practice" in advise(METRE_NM, 18).source
