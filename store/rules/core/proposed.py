"""What of a first plan is still as it was proposed: nobody changed it, agreed to it, or measured in its place."""

from __future__ import annotations

from store.records.wall import Reading
from store.records.whole import Job
from store.rules.core.memo import once


@once
def proposals(job: Job) -> tuple[str, ...]:
    """The tags of what is still a proposal. The first action of the job made it; a later one that changed it is by
    somebody who looked at it. A rough size that was measured since is none any more.
    """
    measured = rough_sizes(job)
    return tuple(tag for tag in _untouched(job) if tag not in measured)


@once
def rough_sizes(job: Job) -> frozenset[str]:
    """The tags of proposed readings beside which somebody took one of the same size of the wall: they count no more."""
    rough = {tag for tag in _untouched(job) if isinstance(job.get(tag), Reading)}
    if not rough:
        return frozenset()
    readings = job.of(Reading)
    taken = {(each.wall, each.what) for each in readings.values() if each.tag not in rough}
    return frozenset(tag for tag in rough if (readings[tag].wall, readings[tag].what) in taken)


def _untouched(job: Job) -> tuple[str, ...]:
    proposed = job.settings.proposed
    if not proposed:
        return ()
    marks = job.marks
    return tuple(tag for tag in proposed if job.get(tag) is not None and marks.get(tag, 1) <= 1)
