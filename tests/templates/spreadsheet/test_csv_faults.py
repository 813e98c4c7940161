"""A hundred damaged lists of each run; `tests.faults` tries ten thousand."""

from __future__ import annotations

from tests.faults.csv_faults import csv_mutations, demo, lists_of, try_all


def test_damaged_lists_are_read_or_refused_in_words() -> None:
    told = try_all(demo(), 100, 1)
    assert sum(told.values()) == 100
    assert told["refused"] > 10
    assert told["read"] > 10


def test_the_same_seed_gives_the_same_faults() -> None:
    lists = lists_of(demo())
    assert list(csv_mutations(20, 7, lists)) == list(csv_mutations(20, 7, lists))
