"""Category cable: what a run can carry."""

from __future__ import annotations

import pytest

from store.trade.cable.category import CHANNEL_LIMIT_NM, ten_gigabit_limit_nm


def test_ten_gigabit_by_category() -> None:
    assert ten_gigabit_limit_nm("5e") is None
    assert ten_gigabit_limit_nm("6A") == CHANNEL_LIMIT_NM
    alone, bundled = ten_gigabit_limit_nm("6"), ten_gigabit_limit_nm("6", bundled=True)
    assert alone is not None
    assert bundled is not None
    assert bundled < alone < CHANNEL_LIMIT_NM
    with pytest.raises(KeyError):
        ten_gigabit_limit_nm("9")
