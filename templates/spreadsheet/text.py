"""csv as RFC 4180 has it, with nothing in it that a spreadsheet would obey.

A cell that begins like a formula gets an apostrophe in front, and reading takes it back; so does a cell that would
be taken for such a one, or that a spreadsheet would turn into a date or another number.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Sequence

from store.measure.errors import BadValue
from store.measure.money import show_money
from store.measure.text import clean

OBEYED = "=+-@\t\r\n"
"""First signs that make a spreadsheet take a cell for a formula, or that it drops."""
QUOTE = "'"
NUMBER = re.compile(r"-\d+(?:\.\d+)?", re.ASCII)
"""A negative number is no formula, and must stay a number that adds up."""
TURNED = re.compile(
    r"\d{1,2}[:/-]\d{1,2}(?:[:/-]\d{1,4})?|0\d+|\d{16,}|\d+(?:\.\d+)?e[+-]?\d+", re.ASCII | re.IGNORECASE
)
"""What a spreadsheet would turn into a time, a date or another number: 16:9, a tube of 3/4, a breaker 2-4, a serial
number 00417 or 12E3."""
DELIMITERS = ",;\t"


def guarded(text: str) -> str:
    """A cell that no spreadsheet obeys, or takes for a day or a number that it is not."""
    return QUOTE + text if _is_changed(text) and not NUMBER.fullmatch(text) else text


def unguarded(text: str) -> str:
    """The cell as it was before `guarded`; one that begins with an apostrophe of its own keeps it."""
    return text[1:] if text[:1] == QUOTE and _is_changed(text[1:]) else text


def _is_changed(text: str) -> bool:
    """True for what a spreadsheet obeys or turns into something else.

    It begins like a formula or a guard, at once or after blanks that a spreadsheet may drop; or it looks like a day.
    """
    if TURNED.fullmatch(text.strip()):
        return True
    return any(each[:1] and each[0] in OBEYED + QUOTE for each in (text, text.lstrip()))


def plain_money(amount: int) -> str:
    """An amount as a spreadsheet adds it up: a point, two decimals, nothing else."""
    return show_money(amount).replace(",", "")


def csv_text(rows: Iterable[Sequence[str]]) -> str:
    """Rows as csv: CR LF at the end of each, quotes where they are needed, every cell guarded."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    for row in rows:
        writer.writerow([guarded(clean(cell, lines=True)) for cell in row])
    return out.getvalue()


def read_csv(raw: bytes) -> list[tuple[int, list[str]]]:
    """The rows of a csv file that have something in them, each with its number (from 1), guards taken off.

    Takes commas, semicolons or tabs; UTF-8 with or without its mark, UTF-16 with its mark, or else the usual
    encoding of spreadsheets in the west. A first line like `sep=;` names the delimiter and is no row. Raises
    BadValue naming the row.
    """
    text = _decoded(raw)
    first = re.split(r"[\r\n]", text.lstrip("\r\n"), maxsplit=1)[0]
    told = re.fullmatch(r"sep=([,;\t|:])", first.strip("\r\n "), re.IGNORECASE)
    delimiter = told[1] if told else max(DELIMITERS, key=lambda sign: _outside_quotes(first, sign))
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    rows: list[tuple[int, list[str]]] = []
    number = 0
    try:
        for number, row in enumerate(reader, 1):
            if any(cell.strip() for cell in row) and not (told and not rows and "".join(row)[:4].lower() == "sep="):
                rows.append((number, [unguarded(cell) for cell in row]))
    except csv.Error as error:
        raise BadValue(f"row {number + 1}: not csv: {error}") from error
    return rows


def _decoded(raw: bytes) -> str:
    encodings = ("utf-16",) if raw.startswith((b"\xff\xfe", b"\xfe\xff")) else ("utf-8-sig", "cp1252")
    for encoding in encodings:
        try:
            return raw.decode(encoding).replace("\x00", "\ufffd")
        except UnicodeDecodeError:
            continue
    raise BadValue("the file is not text: save it as csv in UTF-8")


def _outside_quotes(line: str, sign: str) -> int:
    return sum(part.count(sign) for part in line.split('"')[::2])
