"""The rows of a file that someone hands over: csv or xlsx, and which of them names the columns."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

import msgspec

from store.book.ground import disk
from store.measure.errors import BadValue
from templates.spreadsheet.habits import How
from templates.spreadsheet.text import is_western, read_csv
from templates.spreadsheet.workbook import is_workbook, read_workbook

MOST_ROWS = 20_000
MOST_COLUMNS = 200
MOST_BYTES = 50_000_000
TITLE_ROWS = 10
"""Rows among which the one with the names of the columns is looked for."""


class Rows(msgspec.Struct, frozen=True):
    """The rows of a list."""

    at: int
    """Number of the row that names the columns."""
    names: list[str]
    rows: list[tuple[int, list[str]]]
    """The rows below it, each with its number."""
    notes: tuple[str, ...]


def read_rows(raw: bytes, how: How, known: Callable[[str], bool]) -> Rows:
    """The rows of a file; `known` tells whether a cell is the name of a column. Raises BadValue."""
    notes: list[str] = []
    if is_workbook(raw):
        sheet = read_workbook(raw, how.sheet)
        rows = sheet.rows
        if sheet.others and not how.sheet:
            notes.append(f"sheet {sheet.name!r} is read; there are also: {', '.join(sheet.others)} (--sheet)")
    else:
        rows = read_csv(raw)
        if is_western(raw):
            notes.append("the file is not in UTF-8, and is read as Western (Windows): look at letters with accents")
    if not rows:
        raise BadValue("the file has no rows. Write the column names in the first one.")
    at = _heading_row(rows, known)
    skipped = [" ".join(cell.strip() for cell in cells if cell.strip()) for _, cells in rows[:at]]
    if skipped:
        notes.append(f"left out above the names of the columns: {'; '.join(each[:60] for each in skipped)}")
    number, names = rows[at]
    if len(rows) - at > MOST_ROWS:
        raise BadValue(f"the file has {len(rows):,} rows. Split it: {MOST_ROWS:,} is the most at once.")
    while names and not names[-1].strip():
        names = names[:-1]
    if len(names) > MOST_COLUMNS:
        raise BadValue(f"the first row has {len(names):,} columns. Leave {MOST_COLUMNS} or fewer.")
    return Rows(number, names, rows[at + 1 :], tuple(notes))


def _heading_row(rows: Sequence[tuple[int, list[str]]], known: Callable[[str], bool]) -> int:
    """Which row names the columns: the first, unless one of those below knows twice as many of them."""
    counts = [sum(known(cell) for cell in cells[:MOST_COLUMNS] if cell.strip()) for _, cells in rows[:TITLE_ROWS]]
    best = max(range(len(counts)), key=lambda at: (counts[at], -at))
    filled = sum(bool(cell.strip()) for cell in rows[best][1])
    return best if counts[best] > max(1, 2 * counts[0]) and 2 * counts[best] >= filled else 0


def read_file(path: Path) -> bytes:
    """The bytes of a list. Raises BadValue where it cannot be read, or is no list by its size."""
    try:
        return disk.read_given(path, MOST_BYTES)
    except OSError as error:
        raise BadValue(f"{path}: cannot be read: {error.strerror}") from error
