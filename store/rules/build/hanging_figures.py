"""Figures of fixings: what the hardest-loaded screw must take and what it holds, and the sum."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.whole import Job
from store.rules.build.backing import backing
from store.rules.build.hanging import hanging
from store.rules.build.hanging_words import blocking_lines, hold_lines
from store.rules.core.amounts import newtons
from store.rules.core.figures import Figure, figures_of


@figures_of("fixing")
def of_fixings(job: Job) -> Iterable[Figure]:
    """Newtons on the screw that is loaded hardest, what it holds that way, how many times, and how it is summed."""
    for tag, one in hanging(job).items():
        if one.load is not None:
            yield tag, "needed_n", round(newtons(one.load.both_lbf), 2)
        if one.allowed_lbf is not None:
            yield tag, "allowed_n", round(newtons(one.allowed_lbf), 2)
        if one.margin is not None:
            yield tag, "margin", round(one.margin, 2)
        if (count := one.needed_for(1.0)) is not None:
            yield tag, "screws_needed", count
        yield tag, "hold_lines", list(hold_lines(job, one))
        if (wood := backing(job).get(tag)) is not None:
            yield tag, "blocking", blocking_lines(job, wood)
