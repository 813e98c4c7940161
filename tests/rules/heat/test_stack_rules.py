"""Warm gear one on the other: the smallest job that is told, and its nearest that is not."""

from __future__ import annotations

from store.records.whole import Job
from tests.jobs.wall_jobs import ROOM, device, found, job_of, one, opening
from tests.rows import rows


def bay(first: float = 100, second: float = 20, width: float = 30) -> Job:
    """Two pieces 17 in wide in one opening."""
    return job_of(
        *ROOM, opening("N1", 10, 10, width, 20),
        device("E1", 17, 4, 12, watts=second), device("E2", 17, 6, 12, watts=first, what="receiver"),
    )  # fmt: skip


def test_the_hotter_one_goes_on_top() -> None:
    finding = one(bay(), "gear_stacked")
    assert finding.severity == "look"
    assert finding.tags == ("N1", "E2", "E1")
    assert 'E2 on top, 2" or more' in finding.remedy


@rows("job", [bay(width=34), bay(second=19), bay(first=19)])
def test_side_by_side_or_cool_it_is_no_stack(job: Job) -> None:
    assert found(job, "gear_stacked") == []
