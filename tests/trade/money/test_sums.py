"""Money: whole cents, nothing lost and nothing invented."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.trade.money.sums import Line, expected, held_back, share_of, split, totals, with_holdback
from tests.rows import rows

amounts = st.integers(-(10**9), 10**9)
percents = st.decimals(0, 100, places=2)
lines = st.builds(
    Line,
    planned=st.integers(0, 10**7),
    quoted=st.none() | st.integers(0, 10**7),
    committed=st.none() | st.integers(0, 10**7),
    paid=st.integers(0, 10**7),
    closed=st.booleans(),
    holdback_percent=st.integers(0, 20),
)


@given(amounts, percents)
def test_a_share_is_rounded_as_on_paper(amount: int, percent: Decimal) -> None:
    expected_cents = (Decimal(amount) * percent / 100).quantize(Decimal(1), ROUND_HALF_UP)
    assert share_of(amount, percent) == int(expected_cents)


@rows(("amount", "percent", "share"), [(50, 1, 1), (-50, 1, -1), (49, 1, 0), (50, -1, -1), (-50, -1, 1)])
def test_halves_go_away_from_zero(amount: int, percent: int, share: int) -> None:
    assert share_of(amount, percent) == share


@given(amounts, st.lists(percents, min_size=1, max_size=8).filter(any))
def test_a_split_adds_up_and_each_part_is_within_a_cent(amount: int, weights: list[Decimal]) -> None:
    parts = split(amount, weights)
    whole = sum(Fraction(one) for one in weights)
    assert sum(parts) == amount
    for part, weight in zip(parts, weights, strict=True):
        assert abs(part - amount * Fraction(weight) / whole) < 1


def test_a_third_each_gives_the_spare_cent_to_the_first() -> None:
    assert split(100, [1, 1, 1]) == (34, 33, 33)
    assert split(-100, [1, 1, 1]) == (-34, -33, -33)
    assert split(1001, [50, 30, 20]) == (501, 300, 200)


@rows("weights", [[], [0, 0], [5, -1]])
def test_weights_that_share_nothing_out_are_refused(weights: list[int]) -> None:
    with pytest.raises(ValueError, match="weights"):
        split(100, weights)


@given(amounts, percents)
def test_paid_now_and_held_back_make_the_payment(payment: int, percent: Decimal) -> None:
    now, kept = with_holdback(payment, percent)
    assert now + kept == payment
    assert abs(kept) <= abs(payment)


@pytest.mark.parametrize("percent", [-1, 101])
def test_a_holdback_is_a_share(percent: int) -> None:
    with pytest.raises(ValueError, match="between 0 and 100"):
        with_holdback(100, percent)


def test_the_best_figure_known_is_the_one_expected() -> None:
    assert expected(Line(planned=100)) == 100
    assert expected(Line(planned=100, quoted=120)) == 120
    assert expected(Line(planned=100, quoted=120, committed=110)) == 110
    assert expected(Line(planned=100, quoted=120, committed=110, paid=115)) == 115
    assert expected(Line(planned=100, committed=110, paid=90, closed=True)) == 90
    assert expected(Line(planned=100, quoted=0)) == 0


def test_what_is_held_back_is_part_of_what_is_still_to_pay() -> None:
    line = Line(committed=1000, paid=500, holdback_percent=10)
    assert held_back(line) == 100
    assert held_back(Line(committed=1000, paid=950, holdback_percent=10)) == 50
    assert held_back(Line(committed=1000, paid=1200, holdback_percent=10)) == 0
    assert held_back(Line(planned=1000, holdback_percent=10)) == 0
    assert held_back(Line(committed=1000, paid=900, closed=True, holdback_percent=10)) == 0


def test_a_job_added_up() -> None:
    rows = [
        Line(planned=80_000, quoted=95_000, committed=95_000, paid=40_000, holdback_percent=10),
        Line(planned=120_000, quoted=110_000),
        Line(planned=30_000),
        Line(planned=20_000, committed=18_000, paid=18_500, closed=True),
    ]
    sums = totals(rows, 10)
    assert (sums.planned, sums.quoted, sums.committed, sums.paid) == (250_000, 205_000, 113_000, 58_500)
    assert sums.forecast == 95_000 + 110_000 + 30_000 + 18_500
    assert sums.still_to_pay == 55_000 + 110_000 + 30_000
    assert (sums.held_back, sums.overpaid) == (9_500, 500)
    assert (sums.contingency, sums.contingency_left) == (25_000, 25_000 - 3_500)


def test_a_saving_does_not_make_the_contingency_grow() -> None:
    assert totals([Line(planned=1000, quoted=800)], 10).contingency_left == 100


@given(st.lists(lines, max_size=8), st.integers(0, 30))
def test_paid_and_still_to_pay_make_the_forecast(rows: list[Line], contingency: int) -> None:
    sums = totals(rows, contingency)
    assert sums.paid + sums.still_to_pay == sums.forecast
    assert 0 <= sums.held_back <= sums.still_to_pay
    assert sums.contingency_left == sums.contingency - max(0, sums.forecast - sums.planned)


def test_a_negative_contingency_is_refused() -> None:
    with pytest.raises(ValueError, match="contingency"):
        totals([], -1)
