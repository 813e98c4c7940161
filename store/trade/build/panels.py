"""Boards of cabinets and shelves laid on sheets that are sold: how many to buy, and what is sawn from each.

Whole nanometres. Pieces lie in rows across the sheet, the longest along the grain first; a piece is turned only where
it does not fit otherwise. A plan that can be sawn, not always the fewest sheets: common practice.
"""

from __future__ import annotations

from collections.abc import Iterable

import msgspec

from store.measure.length import INCH_NM, MM_NM

KERF_NM = INCH_NM // 8
SHEET_NM = (96 * INCH_NM, 48 * INCH_NM)
METRIC_SHEET_NM = (2440 * MM_NM, 1220 * MM_NM)
"""Sheets as they are sold, length and width: common practice."""
MOST = 400
"""More pieces than any job has: what follows is mistyped, and no plan is made."""

Piece = tuple[int, int]
"""Along the grain, and across."""


class Sheet(msgspec.Struct):
    """One sheet: what is sawn from it, row by row."""

    rows: list[list[Piece]]
    left_nm: int
    """Of its length, behind the last row."""


class Laid(msgspec.Struct, frozen=True):
    """Sheets to buy, and what comes from no sheet."""

    sheets: tuple[tuple[tuple[Piece, ...], ...], ...]
    too_large: tuple[Piece, ...]


def lay(pieces: Iterable[Piece], sheet: Piece = SHEET_NM, kerf_nm: int = KERF_NM) -> Laid:
    """Lay pieces on as few sheets as rows allow: the longest first, each in the first row with room for it.

    Raises ValueError for a size not above 0, a kerf below 0, or more than `MOST` pieces.
    """
    wanted = list(pieces)
    if len(wanted) > MOST or kerf_nm < 0 or any(min(one) <= 0 for one in (*wanted, sheet)):
        raise ValueError(f"at most {MOST} pieces, of sizes above 0")
    turned = [one if _fits(one, sheet) else (one[1], one[0]) for one in wanted]
    large = tuple(one for one in turned if not _fits(one, sheet))
    sheets: list[Sheet] = []
    room: dict[tuple[int, int], int] = {}  # of each row, what is left across it
    for one in sorted((one for one in turned if _fits(one, sheet)), reverse=True):
        _put(one, sheet, kerf_nm, sheets, room)
    return Laid(tuple(tuple(tuple(row) for row in each.rows) for each in sheets), large)


def _fits(one: Piece, sheet: Piece) -> bool:
    return one[0] <= sheet[0] and one[1] <= sheet[1]


def _put(one: Piece, sheet: Piece, kerf: int, sheets: list[Sheet], room: dict[tuple[int, int], int]) -> None:
    long, wide = one
    for at, each in enumerate(sheets):
        for number, row in enumerate(each.rows):
            if long <= row[0][0] and wide <= room[at, number]:
                row.append(one)
                room[at, number] -= wide + kerf
                return
        if long <= each.left_nm:
            each.rows.append([one])
            each.left_nm -= long + kerf
            room[at, len(each.rows) - 1] = sheet[1] - wide - kerf
            return
    sheets.append(Sheet([[one]], sheet[0] - long - kerf))
    room[len(sheets) - 1, 0] = sheet[1] - wide - kerf
