"""Figures of what can be drawn in later."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.whole import Job
from store.rules.core.figures import Figure, figures_of
from store.rules.service.upgrades import upgrades


@figures_of("wish")
def of_upgrades(job: Job) -> Iterable[Figure]:
    """How far the wall is ready for what is wanted in some years."""
    for one in upgrades(job):
        yield one.wish, "raceways_with_room", [tag for tag, _, _ in one.room]
        yield one.wish, "drawn_in_through", list(one.ways)
        yield one.wish, "free_places_at", [tag for tag, _ in one.power]
        yield one.wish, "missing", list(one.missing)
