"""Figures of shelves."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.length import Length
from store.records.whole import Job
from store.rules.core.amounts import fine, heavy
from store.rules.core.figures import Figure, figures_of
from store.rules.core.wording import said
from store.rules.fit.shelf_words import way_text
from store.rules.fit.shelves import Shelf, shelves, what_would_do


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
        yield tag, "sag_lines", list(_sum(job, one))


def _sum(job: Job, one: Shelf) -> Iterable[str]:
    """The sum as a person can follow it."""
    board = one.board
    under = "books at 20 lb a foot" if one.for_books else "what stands there"
    size = f"{said(job, board.span_nm)} long, {said(job, board.depth_nm)} deep, {said(job, board.thick_nm)} thick"
    yield f"{board.material}, {size}, held by {board.held}"
    for strip in board.strips:
        yield f"with a strip {said(job, strip.thick_nm)} x {said(job, strip.high_nm)}"
    if board.middle:
        yield f"{board.middle} between the ends" if board.held != "brackets" else f"{board.middle} brackets"
    yield f"load {heavy(job, one.judged_lbf)}, {under}; stiffness {board.made_of.low_psi / 1e6:g} million psi"
    yield f"lasting load x {board.made_of.creep:g}: sags {fine(job, one.sag_nm)}"
    yield f"limit {said(job, board.span_nm)} / {one.ratio} = {fine(job, one.limit_nm)}"
    if one.sag_nm > one.limit_nm:
        yield from (f"would do: {way_text(job, each)}" for each in what_would_do(one))
