"""Figures of shelves."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.length import Length
from store.records.whole import Job
from store.rules.core.figures import Figure, figures_of
from store.rules.fit.shelf_words import shelf_lines
from store.rules.fit.shelves import shelves


@figures_of("opening")
def of_shelves(job: Job) -> Iterable[Figure]:
    """Sag of the bottom board under what stands there (books, where nothing is noted), its limit, and how it is summed.

    `sag_seen` is the limit under its older name.
    """
    metric = job.settings.metric
    for tag, one in shelves(job).items():
        yield tag, "sag", Length(one.sag_nm, metric)
        yield tag, "limit", Length(one.limit_nm, metric)
        yield tag, "sag_seen", Length(one.limit_nm, metric)
        yield tag, "sag_with_books", Length(one.books_nm, metric)
        yield tag, "longest_with_books", Length(one.longest_nm, metric)
        yield tag, "sag_lines", list(shelf_lines(job, one))
