"""Which electrical code a job is judged by."""

from __future__ import annotations

from store.records.whole import Job

METRIC_CODE = "BS 7671:2018"


def is_us(job: Job) -> bool:
    """True where the 120 V tables and the National Electrical Code are in force."""
    return job.settings.region == "us"


def edition(job: Job) -> int:
    """The edition of the National Electrical Code that the job is judged by."""
    return int(job.settings.edition)
