"""Packing: never a piece lost, never a bin overfull, and no is only said when it is so."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.trade.cable.packing import MOST_BITS, Budget, fullest, pack

few = st.lists(st.integers(1, 12), min_size=1, max_size=6).map(lambda sizes: sorted(sizes, reverse=True))
bins = st.lists(st.integers(1, 25), min_size=1, max_size=3)


def brute_force(sizes: list[int], rooms: list[int]) -> bool:
    """Try every way to hand the pieces out."""
    for way in product(range(len(rooms)), repeat=len(sizes)):
        if all(sum(s for s, b in zip(sizes, way, strict=True) if b == at) <= room for at, room in enumerate(rooms)):
            return True
    return False


@given(few, bins)
def test_the_answer_is_the_same_as_trying_everything(sizes: list[int], rooms: list[int]) -> None:
    packed = pack(sizes, rooms, Budget(10**6))
    assert (packed is not None) == brute_force(sizes, rooms)
    if packed is not None:
        assert sorted(at for one in packed for at in one) == list(range(len(sizes)))
        assert all(sum(sizes[at] for at in one) <= room for one, room in zip(packed, rooms, strict=True))


@given(few, st.integers(1, 40))
def test_fullest_is_the_best_subset(sizes: list[int], room: int) -> None:
    sums = {sum(s for s, keep in zip(sizes, way, strict=True) if keep) for way in product((0, 1), repeat=len(sizes))}
    assert fullest(sizes, room) == max(one for one in sums if one <= room)


def test_a_bin_too_long_to_work_out_is_taken_as_full() -> None:
    assert fullest([MOST_BITS, MOST_BITS], MOST_BITS + 1) == MOST_BITS + 1


def test_a_tight_packing_in_huge_units_is_still_found() -> None:
    """Best-fit fails on these (44+8+8, 24+24+6+6, 22+21+17); the bins are beyond the exact fillings."""
    unit = 10**9 + 7
    sizes = [one * unit for one in (44, 24, 24, 22, 21, 17, 8, 8, 6, 6)]
    packed = pack(sizes, [60 * unit] * 3, Budget(10**6))
    assert packed is not None
    assert [sum(sizes[at] for at in one) for one in packed] == [60 * unit] * 3


def test_a_search_cut_short_says_so() -> None:
    budget = Budget(1)
    assert pack([7, 7, 5, 4, 4], [10, 11, 8], budget) is None
    assert budget.spent
    assert pack([7, 7, 5, 4, 4], [10, 11, 8], Budget(100)) == [[2, 4], [1, 3], [0]]


def test_long_bins_are_filled_after_the_short_ones_without_a_search() -> None:
    lengths = [100, 99, 99, 91, 90, 89, 86, 86, 86, 84, 75, 70, 69, 66, 62, 62, 55, 52, 45, 43, 40, 39, 37]
    lengths += [29, 29, 29, 29, 18, 18, 15]
    rooms, budget = [50, 50, 100, 100, 250, 250, 1000], Budget(0)
    packed = pack(lengths, rooms, budget)
    assert packed is not None
    assert not budget.spent
    assert sorted(at for one in packed for at in one) == list(range(len(lengths)))
    assert all(sum(lengths[at] for at in one) <= room for one, room in zip(packed, rooms, strict=True))


def test_part_of_a_budget_comes_back() -> None:
    budget = Budget(10)
    part = budget.part(4)
    assert (budget.left, part.left) == (6, 4)
    part.take()
    budget.merge(part)
    assert budget.left == 9
    assert budget.part(99).left == 9


@pytest.mark.parametrize("sizes", [[5], [3, 3]])
def test_too_much_for_the_room_is_refused_at_once(sizes: list[int]) -> None:
    assert pack(sizes, [4], Budget(0)) is None
