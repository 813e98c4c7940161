"""The boards that things stand on: how far they sag under what is noted to stand there, and under books."""

from __future__ import annotations

from typing import get_args

import msgspec

from store.measure.mass import Mass
from store.records.inside import ShelfBoard
from store.records.wall import Opening
from store.records.whole import Job
from store.rules.core.keyed import of_each
from store.rules.wall.inside import insides, shelf_depth_nm
from store.rules.wall.layout import in_opening
from store.rules.wall.pieces import hangs, inside_of
from store.trade.build.section import Strip
from store.trade.build.shelving import (
    HIDDEN_RATIO,
    SEEN_RATIO,
    STRIP_THICK_NM,
    Board,
    Place,
    Supported,
    Would,
    longest_nm,
    sag_of,
    would_do,
)
from store.trade.fit.shelf import BOOKS_LBF_PER_FT, MATERIALS, even_load_lbf, material_named

SHELVES = ("shelf", "equipment", "other")
"""Uses of an opening in which things stand on its bottom board."""
HIDING = ("solid", "mesh")
"""Doors behind which a little more sag is not seen."""
MOST_SUPPORTS = 20
"""More supports than any shelf has: a number beyond it is mistyped."""


class Shelf(msgspec.Struct, frozen=True):
    """The bottom board of an opening, as thick as the sides. Lengths in nanometres."""

    board: Board
    is_shelf: bool
    """Made for books; else a bay in which equipment stands."""
    load_lbf: float
    """What is noted to stand on it; 0 with nothing noted."""
    standing: tuple[str, ...]
    place: Place
    sag_nm: int
    """Under that load, or under books where none is noted."""
    limit_nm: int
    ratio: int
    """The limit is the span over this."""
    books_nm: int
    """Its sag under books along all of it."""
    books_lbf: float
    longest_nm: int
    """The longest span that carries books within that limit."""

    @property
    def for_books(self) -> bool:
        """True where no load is noted, so that it is judged for books."""
        return self.load_lbf <= 0

    @property
    def judged_lbf(self) -> float:
        """The load that it is judged for."""
        return self.books_lbf if self.for_books else self.load_lbf


@of_each(ShelfBoard)
def inner_shelves(job: Job, board: ShelfBoard) -> Shelf | None:
    """Every shelf inside an opening whose make and size are known, under what stands on it."""
    opening = job.of(Opening).get(board.opening)
    there = insides(job).get(board.opening) if opening is not None and board.what != "divider" else None
    laid = there.board(board.tag) if there is not None else None
    if opening is None or laid is None:
        return None
    name, deep = material_named(board.material or opening.material), shelf_depth_nm(board, opening)
    span, thick = laid.right_nm - laid.left_nm, laid.top_nm - laid.bottom_nm
    if not name or deep is None or min(span, deep, thick) <= 0:
        return None
    high = (board.strip.nm,) if board.strip is not None and board.strip.nm > thick else ()
    strips = tuple(Strip(STRIP_THICK_NM, each) for each in high)
    middle = min(MOST_SUPPORTS, max(0, board.middle))
    made = Board(name, span, deep, thick, board.held, middle, strips)
    return _judged(job, opening, made, board.tag, board.load, "spread")


@of_each(Opening)
def shelves(job: Job, opening: Opening) -> Shelf | None:
    """Every shelf whose make and size are noted, by the tag of its opening. Lasting load, softest of the material."""
    board = _board(opening) if opening.use in SHELVES else None
    return None if board is None else _shelf(job, opening, board)


def what_would_do(one: Shelf) -> tuple[Would, ...]:
    """Each thing that would keep the sag of a shelf within its limit."""
    return tuple(would_do(one.board, one.judged_lbf, one.place, one.ratio, by_foot=one.for_books))


def _board(opening: Opening) -> Board | None:
    name = material_named(opening.material)
    inside = inside_of(opening)
    span, deep, thick = inside.width_nm, inside.depth_nm, opening.thickness
    if not name or thick is None or not span or not deep or min(span, deep, thick.nm) <= 0:
        return None
    held: Supported = opening.held if opening.held in get_args(Supported) else "pins"
    return Board(
        name, span, deep, thick.nm, held, min(MOST_SUPPORTS, max(0, opening.middle)), _strips(opening, name, thick.nm)
    )


def _strips(opening: Opening, board: str, thick_nm: int) -> tuple[Strip, ...]:
    made = MATERIALS[material_named(opening.strip_material) or board].low_psi / MATERIALS[board].low_psi
    wide = STRIP_THICK_NM if opening.strip_thick is None else opening.strip_thick.nm
    if wide <= 0:
        return ()
    # A strip no higher than the board lies against its edge and adds nothing to count on.
    high = [each.nm for each in (opening.strip, opening.rail) if each is not None and each.nm > thick_nm]
    return tuple(Strip(wide, each, made) for each in high)


def _shelf(job: Job, opening: Opening, board: Board) -> Shelf:
    return _judged(job, opening, board, "", opening.load, opening.load_place)


def _standing(job: Job, opening: Opening, floor: str) -> dict[str, float]:
    """What a board carries, pounds by tag: on a shelf what is said to stand there, on the bottom all the rest."""
    there = insides(job).get(opening.tag)
    found = {}
    for one in in_opening(job).get(opening.tag, ()):
        stand = there.stands.get(one.tag) if there is not None else None
        if one.weight is not None and not hangs(one) and (stand.floor if stand is not None else "") == floor:
            found[one.tag] = one.weight.pounds * one.count
    return found


def _judged(job: Job, opening: Opening, board: Board, floor: str, said: Mass | None, where: Place) -> Shelf:
    here = _standing(job, opening, floor)
    placed = sum(here.values())
    typed = max(0.0, said.pounds) if said is not None else 0.0
    # What is known to stand there is there, whatever was typed; more may be meant to come.
    load, place = max(typed, placed), where
    if typed <= placed:
        place = "spread"
    books = even_load_lbf(board.span_nm, BOOKS_LBF_PER_FT)
    ratio = HIDDEN_RATIO if opening.door in HIDING else SEEN_RATIO
    under_books = sag_of(board, books)
    return Shelf(
        board,
        opening.use == "shelf",
        load,
        tuple(here),
        place if load > 0 else "spread",
        sag_of(board, load, place) if load > 0 else under_books,
        board.span_nm // ratio,
        ratio,
        under_books,
        books,
        longest_nm(board, books, ratio, by_foot=True) or 0,
    )
