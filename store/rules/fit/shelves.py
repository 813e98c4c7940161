"""The boards that things stand on: how far they sag under what is noted to stand there, and under books."""

from __future__ import annotations

from collections.abc import Mapping
from typing import get_args

import msgspec

from store.measure.mass import Mass
from store.records.equipment import Equipment
from store.records.inside import ShelfBoard
from store.records.wall import Opening
from store.records.whole import Job
from store.rules.core.keyed import of_each
from store.rules.wall.contents import stood_on
from store.rules.wall.inside import insides, shelf_depth_nm
from store.rules.wall.layout import in_opening
from store.rules.wall.pieces import hangs, inside_of
from store.trade.build.section import Strip
from store.trade.build.shelving import (
    HIDDEN_RATIO,
    SEEN_RATIO,
    STRIP_THICK_NM,
    Board,
    Patch,
    Place,
    Supported,
    Would,
    longest_nm,
    sag_of,
    would_do,
)
from store.trade.fit.shelf import BOOKS_LBF_PER_FT, MATERIALS, even_load_lbf, material_named

ONE_PIECE = ("floating shelf", "mantel")
"""Kinds of equipment that are one board on brackets."""
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
    patches: tuple[Patch, ...]
    """Of the load, what stands at a known place."""
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
    return tuple(would_do(one.board, one.judged_lbf, one.place, one.ratio, by_foot=one.for_books, patches=one.patches))


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


def _patches(job: Job, opening: Opening, floor: str, board: Board, here: Mapping[str, float]) -> tuple[Patch, ...]:
    """Where each thing presses on a board: of a stack what stands at the bottom of it."""
    there = insides(job).get(opening.tag)
    found = []
    laid = there.board(floor) if there is not None and floor else None
    start = laid.left_nm if laid is not None else 0
    for tag, pounds in here.items():
        stand = there.stands.get(tag) if there is not None else None
        if stand is None or stand.width_nm <= 0:
            continue
        low, high = ((edge - start) / board.span_nm for edge in (stand.left_nm, stand.right_nm))
        if high > 0 and low < 1:
            found.append(Patch(pounds, max(0.0, low), min(1.0, high)))
    return tuple(found)


def _judged(job: Job, opening: Opening, board: Board, floor: str, said: Mass | None, where: Place) -> Shelf:
    here = _standing(job, opening, floor)
    placed = sum(here.values())
    typed = max(0.0, said.pounds) if said is not None else 0.0
    # What is known to stand there is there, whatever was typed; more may be meant to come.
    place: Place = "spread" if typed <= placed else where
    patches = () if place == "middle" else _patches(job, opening, floor, board, here)
    ratio = HIDDEN_RATIO if opening.door in HIDING else SEEN_RATIO
    return judged(board, max(typed, placed), tuple(here), place, patches, ratio, is_shelf=opening.use == "shelf")


def judged(
    board: Board, load: float, standing: tuple[str, ...], place: Place, patches: tuple[Patch, ...], ratio: int,
    *, is_shelf: bool,
) -> Shelf:  # fmt: skip
    """A board under a load, pounds-force, or under books where there is none."""
    books = even_load_lbf(board.span_nm, BOOKS_LBF_PER_FT)
    under_books = sag_of(board, books)
    return Shelf(
        board,
        is_shelf,
        load,
        standing,
        place if load > 0 else "spread",
        patches if load > 0 else (),
        sag_of(board, load, place, patches) if load > 0 else under_books,
        board.span_nm // ratio,
        ratio,
        under_books,
        books,
        longest_nm(board, books, ratio, by_foot=True) or 0,
    )


@of_each(Equipment)
def floating(job: Job, one: Equipment) -> Shelf | None:
    """Every floating shelf and mantel of one piece whose make and size are known, between its brackets.

    On a shelf stand what is said to stand there, or the load that was entered, or books; a mantel is judged for what
    is entered.
    """
    if one.what not in ONE_PIECE or one.retired is not None:
        return None
    name, size = material_named(one.material), (one.width, one.depth, one.height)
    span, deep, thick = (each.nm if each is not None else 0 for each in size)
    if not name or min(span, deep, thick) <= 0:
        return None
    board = Board(name, span, deep, thick, "brackets", min(MOST_SUPPORTS, max(0, one.brackets)))
    here = stood_on(job, one.tag)
    load = max(sum(here.values()), max(0.0, one.load.pounds) if one.load is not None else 0.0)
    return judged(board, load, tuple(here), "spread", (), SEEN_RATIO, is_shelf=one.what == "floating shelf")
