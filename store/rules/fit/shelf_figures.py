"""Figures of shelves."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.length import Length
from store.records.whole import Job
from store.rules.core.figures import Figure, figures_of
from store.rules.fit.shelf_words import shelf_lines
from store.rules.fit.shelves import floating, inner_shelves, shelves
from store.rules.wall.inside import insides
from store.rules.wall.places import board_rect


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


@figures_of("shelf")
def of_inner_shelves(job: Job) -> Iterable[Figure]:
    """Of each shelf inside an opening: length, clear height over it, where its top is; and how far it sags."""
    metric = job.settings.metric
    for there in insides(job).values():
        for laid in there.boards:
            high = board_rect(job, laid.tag)
            if laid.divider:
                yield laid.tag, "board_length", Length(laid.top_nm - laid.bottom_nm, metric)
                continue
            yield laid.tag, "board_length", Length(laid.right_nm - laid.left_nm, metric)
            over = [each.top_nm - each.bottom_nm for each in there.spaces if each.floor == laid.tag]
            if over:
                yield laid.tag, "clear_over", Length(min(over), metric)
            if high is not None:
                yield laid.tag, "top_off_floor", Length(high.top, metric)
    for tag, one in inner_shelves(job).items():
        yield tag, "sag", Length(one.sag_nm, metric)
        yield tag, "limit", Length(one.limit_nm, metric)
        yield tag, "longest_with_books", Length(one.longest_nm, metric)
        yield tag, "sag_lines", list(shelf_lines(job, one))


@figures_of("equipment")
def of_floating(job: Job) -> Iterable[Figure]:
    """Sag of a floating shelf between its brackets, its limit, and how it is summed."""
    metric = job.settings.metric
    for tag, one in floating(job).items():
        yield tag, "sag", Length(one.sag_nm, metric)
        yield tag, "limit", Length(one.limit_nm, metric)
        yield tag, "longest_with_books", Length(one.longest_nm, metric)
        yield tag, "sag_lines", list(shelf_lines(job, one))
