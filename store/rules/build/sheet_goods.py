"""Sheets of plywood, MDF and the like for the boards of cabinets and the shelves in openings."""

from __future__ import annotations

from collections.abc import Iterator

import msgspec

from store.measure.length import INCH_NM
from store.records.inside import ShelfBoard
from store.records.wall import Opening
from store.records.whole import Job
from store.rules.build.cabinets import Cabinet, cabinets
from store.rules.core.memo import once
from store.rules.wall.inside import insides, shelf_depth_nm
from store.trade.build.panels import METRIC_SHEET_NM, MOST, SHEET_NM, Laid, Piece, lay

BACK_SHARE = 3
"""A back, and the bottom of a drawer, is a third as thick as the sides: our own assumption."""
BOARDS_PART = "boards"
"""Boards, as they stand among the parts on hand of an opening."""
PLAIN = "cabinet board"
"""Where no material was entered."""


class Goods(msgspec.Struct, frozen=True):
    """One material in one thickness."""

    material: str
    thick_nm: int
    laid: Laid
    openings: tuple[str, ...]


@once
def goods(job: Job) -> tuple[Goods, ...]:
    """What is still to buy for every cabinet and shelf whose sizes are known, by material and thickness."""
    found: dict[tuple[str, int], dict[str, list[Piece]]] = {}
    for tag, opening in job.of(Opening).items():
        for material, thick, piece in _pieces(job, opening) if BOARDS_PART not in opening.parts else ():
            if thick > 0 and min(piece) > 0:
                found.setdefault((material, thick), {}).setdefault(tag, []).append(piece)
    sheet = METRIC_SHEET_NM if job.settings.metric else SHEET_NM
    made = []
    for (material, thick), by_tag in found.items():
        pieces = [each for group in by_tag.values() for each in group]
        if len(pieces) <= MOST:
            made.append(Goods(material, thick, lay(pieces, sheet), tuple(by_tag)))
    return tuple(made)


def _pieces(job: Job, opening: Opening) -> Iterator[tuple[str, int, Piece]]:
    one = cabinets(job).get(opening.tag)
    material = opening.material.strip() or PLAIN
    if one is not None and opening.thickness is not None:
        yield from ((material, *each) for each in _of_cabinet(one, opening.thickness.nm))
    there = insides(job).get(opening.tag)
    for laid in there.boards if there is not None else ():
        board = job.of(ShelfBoard)[laid.tag]
        across, up = laid.right_nm - laid.left_nm, laid.top_nm - laid.bottom_nm
        long, thick = (up, across) if laid.divider else (across, up)
        deep = shelf_depth_nm(board, opening)
        if deep is not None:
            yield board.material.strip() or material, thick, (long, deep)


def _of_cabinet(one: Cabinet, thick: int) -> Iterator[tuple[int, Piece]]:
    """Thickness and size of each board, door and drawer board."""
    for name, long, wide, count in one.boards:
        yield from [(thick // BACK_SHARE if name == "back" else thick, (long, wide))] * count
    if one.door is not None and one.opening.door in ("solid", "mesh"):
        yield from [(thick, (one.door.height_nm, one.door.width_nm))] * one.leaves
    if one.drawer_nm is not None and one.slide_nm is not None and one.opening.height is not None:
        high = one.opening.height.nm - INCH_NM
        yield from [(thick, (one.slide_nm, high))] * 2
        yield from [(thick, (one.drawer_nm, high))] * 2
        yield thick // BACK_SHARE, (one.drawer_nm, one.slide_nm)
