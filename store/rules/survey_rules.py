"""Findings about the wall as measured."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.length import show_length
from store.records.whole import Job
from store.rules.findings import Finding, rule
from store.rules.survey import sizes


@rule
def spread_beyond_tolerance(job: Job) -> Iterable[Finding]:
    """Readings of one thing that differ by more than the job's tolerance."""
    settings = job.settings
    for (wall, what), size in sizes(job).items():
        if what == "diagonal" or size.spread <= settings.tolerance:
            continue
        spread, least = (show_length(each, settings.metric) for each in (size.spread, size.least))
        yield Finding(
            "spread_beyond_tolerance",
            "look",
            (wall, *size.tags),
            f"The {what} readings of {wall} differ by {spread}; the least, {least} ({size.least_tag}), governs.",
            f"Read the {what} once more at each place. If it is so, build to {least} and scribe the rest.",
            "common practice",
            {"what": what, "spread": spread, "least": least},
        )
