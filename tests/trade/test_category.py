"""Category cable: link, cords and channel."""

from __future__ import annotations

import pytest

from store.trade.cable_length import METRE_NM
from store.trade.category import CHANNEL_LIMIT_NM, check_lengths, ten_gigabit_limit_nm


def test_a_link_at_its_limit_passes_and_a_nm_more_does_not() -> None:
    assert check_lengths(90 * METRE_NM, 10 * METRE_NM).ok
    over = check_lengths(90 * METRE_NM + 1, 10 * METRE_NM)
    assert (over.link_over_nm, over.cords_over_nm, over.channel_over_nm) == (1, 0, 1)


def test_long_cords_on_a_short_link_are_still_too_long() -> None:
    limits = check_lengths(20 * METRE_NM, 12 * METRE_NM)
    assert not limits.ok
    assert (limits.link_over_nm, limits.cords_over_nm, limits.channel_over_nm) == (0, 2 * METRE_NM, 0)


def test_a_negative_length_is_refused() -> None:
    with pytest.raises(ValueError, match="negative"):
        check_lengths(-1)


def test_ten_gigabit_by_category() -> None:
    assert ten_gigabit_limit_nm("5e") is None
    assert ten_gigabit_limit_nm("6A") == CHANNEL_LIMIT_NM
    alone, bundled = ten_gigabit_limit_nm("6"), ten_gigabit_limit_nm("6", bundled=True)
    assert alone is not None
    assert bundled is not None
    assert bundled < alone < CHANNEL_LIMIT_NM
    with pytest.raises(KeyError):
        ten_gigabit_limit_nm("9")
