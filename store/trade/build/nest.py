"""Pieces of sheet out of whole sheets: what is left of one sheet serves for the next pieces.

Lengths in whole nanometres. Board is scored and snapped from edge to edge, so no saw cut is lost, and every cut runs
right across what is left (a guillotine cut). The largest piece comes first and goes into the smallest remainder that
holds it; the best of three orders is kept. A good answer, not proved to be the least.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import NamedTuple

Piece = tuple[int, int]
"""Along the sheet, and across it."""
ORDERS: tuple[Callable[[Piece], tuple[int, int]], ...] = (
    lambda piece: (-piece[1], -piece[0]),
    lambda piece: (-piece[0], -piece[1]),
    lambda piece: (-piece[0] * piece[1], -piece[1]),
)


def sheets_for(pieces: Iterable[Piece], wide_nm: int, lengths_nm: Sequence[int]) -> dict[int, int]:
    """How many sheets of each length give the pieces, the longest first.

    Raises ValueError for a piece that no sheet holds.
    """
    wanted = [piece for piece in pieces if min(piece) > 0]
    if any(across > wide_nm or along > max(lengths_nm, default=0) for along, across in wanted):
        raise ValueError("a piece is larger than a sheet")
    sold = sorted(lengths_nm)
    # A longer sheet than the first piece needs often serves for two: each shortest length is tried.
    tries = (
        _filled(sorted(wanted, key=order), wide_nm, sold, least)
        for order in ORDERS
        for least in (sold if wanted else [0])
    )
    used = min(tries, key=lambda each: (sum(each), max(each, default=0)))
    return {long: used.count(long) for long in sorted(set(used), reverse=True)}


class _Room(NamedTuple):
    """What is free of a sheet: along it, across it, which sheet, and how far along it begins."""

    along: int
    across: int
    sheet: int
    at: int


def _filled(pieces: Sequence[Piece], wide: int, lengths: Sequence[int], least: int) -> list[int]:
    """The lengths of the sheets that are begun for pieces in this order, begun no shorter than the least.

    What nothing came out of at the end of one is then cut back to the next shorter length that is sold.
    """
    free: list[_Room] = []
    ends: list[int] = []
    for along, across in pieces:
        fits = [each for each in free if each.along >= along and each.across >= across]
        if fits:
            room = min(fits, key=lambda each: each.along * each.across)
            free.remove(room)
        else:
            room = _Room(next(each for each in lengths if each >= max(along, least)), wide, len(ends), 0)
            ends.append(0)
        ends[room.sheet] = max(ends[room.sheet], room.at + along)
        free += _left(room, along, across)
    return [next(each for each in lengths if each >= end) for end in ends]


def _left(room: _Room, along: int, across: int) -> list[_Room]:
    """The two remainders of a corner piece, cut so that the larger of them is as large as can be."""
    end, side = room.along - along, room.across - across
    sheet, at = room.sheet, room.at
    one = [_Room(end, room.across, sheet, at + along), _Room(along, side, sheet, at)]
    other = [_Room(end, across, sheet, at + along), _Room(room.along, side, sheet, at)]
    best = max((one, other), key=lambda each: max(room.along * room.across for room in each))
    return [each for each in best if each.along > 0 and each.across > 0]
