"""Figures of the wall as measured."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.whole import Job
from store.rules.figures import Figure, figures_of
from store.rules.survey import sizes


@figures_of
def measured(job: Job) -> Iterable[Figure]:
    """The least reading of each size, which governs, and the spread of its readings."""
    for (wall, what), size in sizes(job).items():
        if what != "diagonal":
            yield wall, f"{what}_to_build", size.least
            yield wall, f"{what}_spread", size.spread
