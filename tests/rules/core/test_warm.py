"""A program that runs for days tells the same as one that was just started, whatever was edited meanwhile."""

from __future__ import annotations

import pytest

from store.records.whole import Job
from store.rules.core.memo import cold
from tests.rules.core.edits import Edits, starter
from tests.rules.core.told import difference, every_query, told

SEEDS = range(2)
EDITS = 25


def astray(seed: int, edits: int, *, every: bool = False, start: str = "demo") -> str:
    """Where a warm program and a cold one part ways after random edits, in words; empty where they never do.

    One edit in five is stepped over unasked, as two edits in quick succession are. What cannot be worked out at all
    must fail alike; the next edit starts from the job before it.
    """
    job = starter(start)
    first = told(job, every=every)
    assert not [name for name, text in first.items() if text.startswith("raises")], "the job to start from is sound"
    some = Edits(seed, job)
    for number in range(edits):
        name, after = some.next(job)
        if number % 5 == 4:
            job = after
            continue
        warm, anew = told(after, every=every), told(cold(after), every=every)
        if differs := difference(warm, anew):
            return f"seed {seed}, edit {number} ({name}): {differs}"
        job = job if any(each.startswith("raises") for each in anew.values()) else after
    return ""


@pytest.mark.parametrize("seed", SEEDS)
def test_warm_tells_what_cold_tells(seed: int) -> None:
    assert astray(seed, EDITS, every=True) == ""


def test_every_query_is_looked_at() -> None:
    known = every_query()
    assert "store.rules.cable.routes.routes" in known
    assert "store.rules.core.checks.items" in known
    assert len(known) > 60


def test_the_edits_are_of_every_sort_and_reach_the_gate() -> None:
    job: Job = starter()
    some = Edits(0, job)
    seen: set[str] = set()
    stages: set[str] = set()
    for _ in range(120):
        name, job = some.next(job)
        seen.add(name)
        stages.update(each.stage for each in job.tables["passage"].values())  # type: ignore[attr-defined]
    assert len(seen) == len({way.__name__ for way in some._ways})
    assert "Drywall" in stages
