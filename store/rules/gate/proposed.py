"""What of a first plan is still as it was proposed: nobody changed it, and nobody agreed to it."""

from __future__ import annotations

from store.records.whole import Job
from store.rules.core.memo import once


@once
def proposals(job: Job) -> tuple[str, ...]:
    """The tags of what is still a proposal. The first action of the job made it; a later one that changed it is by
    somebody who looked at it."""
    return tuple(tag for tag in job.settings.proposed if job.get(tag) is not None and job.marks.get(tag, 1) <= 1)
