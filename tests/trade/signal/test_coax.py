"""Coax: loss between the rows of the table, and through splitters."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.measure.length import FOOT_NM
from store.trade.signal.coax import (
    LOSS_DB_PER_100_FT,
    LOSS_SOURCE,
    SPLITTER_DB,
    loss_db_per_100_ft,
    run_loss_db,
    splitter_db,
)
from tests.rows import rows


@given(st.sampled_from(sorted(LOSS_DB_PER_100_FT)), st.floats(58, 1000), st.floats(58, 1000))
def test_loss_rises_with_frequency(kind: str, one: float, two: float) -> None:
    low, high = sorted((one, two))
    assert loss_db_per_100_ft(low, kind) <= loss_db_per_100_ft(high, kind) + 1e-12


def test_between_two_rows_it_is_straight_in_the_root_of_frequency() -> None:
    """From 64 % of the way in the root: 950 MHz 6.4 dB and 2150 MHz 9.7 dB."""
    root = 950**0.5 + 0.64 * (2150**0.5 - 950**0.5)
    assert loss_db_per_100_ft(root**2) == pytest.approx(6.4 + 0.64 * 3.3)


@given(st.floats(58, 1000))
def test_thicker_coax_loses_less(mhz: float) -> None:
    assert loss_db_per_100_ft(mhz, "rg11") < loss_db_per_100_ft(mhz, "rg6") < loss_db_per_100_ft(mhz, "rg59")


@rows("kind", sorted(LOSS_DB_PER_100_FT))
def test_the_table_rises_nearly_with_the_root_of_frequency(kind: str) -> None:
    (low_mhz, low_db), *_others, (high_mhz, high_db) = LOSS_DB_PER_100_FT[kind]
    assert high_db / low_db == pytest.approx((high_mhz / low_mhz) ** 0.5, rel=0.15)
    assert LOSS_SOURCE[kind]


@pytest.mark.parametrize("mhz", [5, 2151])
def test_outside_the_table_nothing_is_claimed(mhz: float) -> None:
    with pytest.raises(ValueError, match="57 to 2150 MHz"):
        loss_db_per_100_ft(mhz)


def test_an_unknown_kind_is_an_error() -> None:
    with pytest.raises(KeyError):
        loss_db_per_100_ft(100, "rg7")


def test_odd_splitters_count_as_the_next_usual_size() -> None:
    assert splitter_db(1) == 0
    assert splitter_db(6) == SPLITTER_DB[8]
    for bad in (0, 9):
        with pytest.raises(ValueError, match="splitter"):
            splitter_db(bad)


@given(st.integers(0, 300 * FOOT_NM), st.integers(0, 300 * FOOT_NM))
def test_losses_in_line_add_up(one: int, two: int) -> None:
    whole = run_loss_db(one + two, 700, splitters=[2, 4])
    assert whole == pytest.approx(run_loss_db(one, 700, splitters=[2]) + run_loss_db(two, 700, splitters=[4]))


def test_a_negative_run_is_refused() -> None:
    with pytest.raises(ValueError, match="shorter"):
        run_loss_db(-1, 700)
