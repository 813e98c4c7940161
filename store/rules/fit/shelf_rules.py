"""Findings about shelves that bend under what stands on them."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.equipment import Equipment
from store.records.inside import ShelfBoard
from store.records.wall import Opening
from store.records.whole import Job
from store.rules.core.amounts import fine, heavy
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import listed, said
from store.rules.fit.shelf_words import way_text
from store.rules.fit.shelves import Shelf, floating, inner_shelves, shelves, what_would_do
from store.trade.build.shelving import SEEN_RATIO
from store.trade.fit.shelf import material_named

SOURCE = "beam formulas: Roark; lasting load: NDS 3.5.2, from memory"


@rule
@from_each(Opening)
def shelf_sags(job: Job, opening: Opening) -> Iterable[Finding]:
    """A shelf that shows its load: it sags more than its limit under what is noted to stand on it.

    A shelf with nothing noted is judged for books; a bay for equipment is not.
    """
    yield from _sags(job, opening.tag, shelves(job).get(opening.tag))


@rule
@from_each(ShelfBoard)
def inner_shelf_sags(job: Job, board: ShelfBoard) -> Iterable[Finding]:
    """The same of a shelf inside an opening, under what stands on it."""
    yield from _sags(job, board.tag, inner_shelves(job).get(board.tag))


@rule
@from_each(Equipment)
def floating_shelf_sags(job: Job, one: Equipment) -> Iterable[Finding]:
    """The same of a floating shelf on its brackets, and of a mantel under the load that was entered."""
    yield from _sags(job, one.tag, floating(job).get(one.tag))


def _sags(job: Job, tag: str, one: Shelf | None) -> Iterable[Finding]:
    if one is None:
        return
    if one.sag_nm <= one.limit_nm or (one.for_books and not one.is_shelf):
        return
    load, sag, limit = heavy(job, one.judged_lbf), fine(job, one.sag_nm), fine(job, one.limit_nm)
    under = f"{load} of books" if one.for_books else load
    where = "in the middle" if one.place == "middle" else "where it stands" if one.patches else "spread along it"
    on = f" ({listed(one.standing)})" if one.standing else ""
    seen = "you can see more than that" if one.ratio == SEEN_RATIO else "the limit behind a door"
    yield Finding(
        "shelf_sags",
        "look",
        (tag, *one.standing),
        f"Shelf sags {sag}, limit {limit}",
        f"{_ways(job, one)} {_carries(one)} must carry the weight too.",
        f"{one.board.made_of.source}; {SOURCE}; span / 600 is common practice, span / 360 IBC and IRC",
        {"load": load, "sag": sag, "limit": limit},
        why=f"{one.board.material} over {said(job, one.board.span_nm)}, under {under}{on} {where}, after years; "
        f"span / {one.ratio}: {seen}.",
    )


@rule
@from_each(Opening)
def shelf_material_unknown(job: Job, opening: Opening) -> Iterable[Finding]:
    """A shelf of a material that is not in the table, so that nobody knows how much it bends."""
    typed = opening.material.strip()
    if opening.use != "shelf" or not typed or material_named(typed):
        return
    yield Finding(
        "shelf_material_unknown",
        "look",
        (opening.tag,),
        "Shelf material not in the table",
        "Enter what it is made of: plywood, MDF, particleboard, or the wood by its name.",
        "Common practice",
        {"material": typed},
        why=f"How far {typed} bends is not known here, so its sag is not checked.",
    )


def _ways(job: Job, one: Shelf) -> str:
    ways = [way_text(job, each) for each in what_would_do(one)]
    return f"Any one of: {'; '.join(ways)}." if ways else "Split the load, or carry the board from below."


def _carries(one: Shelf) -> str:
    return "The brackets and their screws" if one.board.held == "brackets" else "The pins and the cabinet sides"
