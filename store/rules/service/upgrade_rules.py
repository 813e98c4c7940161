"""Findings at the rough-in about what is wanted in years to come: cheap now, dear once the wall is closed."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.gate import Passage
from store.records.people import Wish
from store.records.whole import Job
from store.rules.core.findings import Finding, rule
from store.rules.core.wording import listed, plural
from store.rules.service.upgrades import ready_text, upgrades


def wall_is_open(job: Job) -> bool:
    """True from the passage to the rough-in until the passage to the drywall."""
    passed = {str(each.stage) for each in job.of(Passage).values()}
    return "Rough-in" in passed and "Drywall" not in passed


@rule
def upgrade_not_ready(job: Job) -> Iterable[Finding]:
    """Something wanted in some years for which the open wall lacks a raceway, a way to it, or power."""
    if not wall_is_open(job):
        return
    for one in upgrades(job):
        if not one.missing:
            continue
        wish = job.of(Wish)[one.wish]
        there = ready_text(job, one)
        yield Finding(
            "upgrade_not_ready",
            "look",
            (one.wish, *one.places),
            "Wall not ready for this wish",
            "Put in now what is missing, or drop the wish and enter why.",
            "common practice",
            {"missing": "; ".join(one.missing)},
            why=(
                f"“{wish.what}” is wanted in {plural(wish.years or 0, 'year')}. Missing while the wall is "
                f"open: {listed(one.missing)}."
            )
            + (f" Existing: {there}." if there else ""),
            about=(one.wish,),
        )
