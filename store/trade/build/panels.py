"""Boards of cabinets and shelves laid on sheets that are sold: how many to buy, and what is sawn from each.

Whole nanometres. Pieces lie in rows across the sheet, the longest along the grain first; a piece is turned only where
it does not fit otherwise. A plan that can be sawn, not always the fewest sheets: common practice.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

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


class Strip(msgspec.Struct):
    """Pieces end to end along a row: what is left of its length, and how wide it is."""

    pieces: list[Piece]
    left_nm: int
    wide_nm: int


class Row(msgspec.Struct):
    """A length cut off the sheet, ripped into strips."""

    long_nm: int
    strips: list[Strip]
    left_nm: int
    """Of its width."""


class Laid(msgspec.Struct, frozen=True):
    """Sheets to buy, and what comes from no sheet."""

    sheets: tuple[tuple[tuple[tuple[Piece, ...], ...], ...], ...]
    """Of each sheet the rows, of each row the strips, of each strip the pieces."""
    too_large: tuple[Piece, ...]

    def by_sheet(self) -> Iterator[list[Piece]]:
        """The pieces of each sheet, in the order in which they are sawn."""
        for rows in self.sheets:
            yield [piece for row in rows for strip in row for piece in strip]


def lay(pieces: Iterable[Piece], sheet: Piece = SHEET_NM, kerf_nm: int = KERF_NM) -> Laid:
    """Lay pieces on as few sheets as rows allow: the longest first, each in the first row with room for it.

    Raises ValueError for a size not above 0, a kerf below 0, or more than `MOST` pieces.
    """
    wanted = list(pieces)
    if len(wanted) > MOST or kerf_nm < 0 or any(min(one) <= 0 for one in (*wanted, sheet)):
        raise ValueError(f"at most {MOST} pieces, of sizes above 0")
    turned = [one if _fits(one, sheet) else (one[1], one[0]) for one in wanted]
    large = tuple(one for one in turned if not _fits(one, sheet))
    sheets: list[list[Row]] = []
    for one in sorted((one for one in turned if _fits(one, sheet)), reverse=True):
        if not any(_put(one, rows, sheet, kerf_nm) for rows in sheets):
            sheets.append([])
            _put(one, sheets[-1], sheet, kerf_nm)
    return Laid(
        tuple(tuple(tuple(tuple(strip.pieces) for strip in row.strips) for row in rows) for rows in sheets), large
    )


def _fits(one: Piece, sheet: Piece) -> bool:
    return one[0] <= sheet[0] and one[1] <= sheet[1]


def _put(one: Piece, rows: list[Row], sheet: Piece, kerf: int) -> bool:
    """Put a piece at the end of a strip, into a new strip of a row, or into a new row; False where it has no room."""
    long, wide = one
    for row in rows:
        for strip in row.strips:
            if wide <= strip.wide_nm and long <= strip.left_nm:
                strip.pieces.append(one)
                strip.left_nm -= long + kerf
                return True
        if long <= row.long_nm and wide <= row.left_nm:
            row.strips.append(Strip([one], row.long_nm - long - kerf, wide))
            row.left_nm -= wide + kerf
            return True
    if long > sheet[0] - sum(row.long_nm + kerf for row in rows):
        return False
    rows.append(Row(long, [Strip([one], -kerf, wide)], sheet[1] - wide - kerf))
    return True
