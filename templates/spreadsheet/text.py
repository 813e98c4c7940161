"""csv as RFC 4180 has it, with nothing in it that a spreadsheet would obey.

A cell that a spreadsheet would take for a formula gets an apostrophe in front, and reading takes it back; so does one
that would be taken for such a cell when it is read again. No other cell gets one.
"""

from __future__ import annotations

import csv
import io
import re
from collections import Counter
from collections.abc import Iterable, Sequence
from itertools import islice
from unicodedata import category, normalize

from store.measure.errors import BadValue
from store.measure.money import Money, exact_money
from store.measure.text import capital, clean

OBEYED = "=+-@"
"""First signs that make a spreadsheet take a cell for a formula; their wide and small forms do so, too."""
QUOTE = "'"
NUMBER = re.compile(r"-\d+(?:[.,]\d+)?", re.ASCII)
"""A negative number is no formula, and must stay a number that adds up."""
DELIMITERS = ",;\t"
WESTERN = "cp1252"
"""The usual encoding of spreadsheets in the west, where a file is not in UTF-8."""
SAMPLE_LINES = 20
"""Rows that are looked at to find out what stands between the cells."""
_UNSEEN = ("Cc", "Cf", "Zs", "Zl", "Zp", "Mn", "Me")
"""Categories of signs that nobody sees before a word: blanks, joiners, marks of direction, variants, accents."""


def guarded(text: str) -> str:
    """A cell that no spreadsheet obeys."""
    return QUOTE + text if _is_obeyed(text) and not NUMBER.fullmatch(text) else text


def unguarded(text: str) -> str:
    """The cell as it was before `guarded`; an apostrophe that was typed stays."""
    return text[1:] if text[:1] == QUOTE and guarded(text[1:]) != text[1:] else text


def _is_obeyed(text: str) -> bool:
    """True for what begins like a formula, at once or after signs that are not seen; or like a guard before one."""
    for each in text:
        if each in OBEYED or normalize("NFKC", each)[:1] in tuple(OBEYED):
            return True
        if each != QUOTE and category(each) not in _UNSEEN:
            return False
    return False


def plain_money(amount: int, currency: str = "", comma: bool = False) -> str:
    """An amount as a spreadsheet adds it up: a point (or a comma), all of its decimals, nothing else."""
    text = exact_money(Money(amount), currency).replace(",", "")
    return text.replace(".", ",") if comma else text


def csv_text(rows: Iterable[Sequence[str]], comma: bool = False) -> str:
    """Rows as csv: CR LF at the end of each, quotes where they are needed, every cell guarded.

    Commas stand between the cells; semicolons where a `comma` stands before the fractions.
    """
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n", delimiter=";" if comma else ",")
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
    delimiter = told[1] if told else _delimiter(text)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    rows: list[tuple[int, list[str]]] = []
    number = 0
    try:
        for number, row in enumerate(reader, 1):
            if any(cell.strip() for cell in row) and not (told and not rows and "".join(row)[:4].lower() == "sep="):
                rows.append((number, [unguarded(cell) for cell in row]))
    except csv.Error as error:
        raise BadValue(
            f"row {number + 1} can't be read as csv. {capital(str(error))}. Fix the row, or save the list as csv again."
        ) from error
    return rows


def is_western(raw: bytes) -> bool:
    """True for bytes that are read as `WESTERN` without better: other letters come out wrong."""
    try:
        raw.decode("utf-8")
    except UnicodeDecodeError:
        return not raw.startswith((b"\xff\xfe", b"\xfe\xff"))
    return False


def _decoded(raw: bytes) -> str:
    encodings: tuple[str, ...] = ("utf-8-sig", WESTERN)
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")):
        encodings = ("utf-16",)
    elif raw[1:8:2] == b"\0\0\0\0" or raw[0:8:2] == b"\0\0\0\0":
        encodings = ("utf-16-le" if raw[1] == 0 else "utf-16-be",)
    for encoding in encodings:
        try:
            return raw.decode(encoding).replace("\x00", "\ufffd")
        except UnicodeDecodeError:
            continue
    raise BadValue("the file is not text. Save it as csv in UTF-8.")


def _delimiter(text: str) -> str:
    """What stands between the cells: what cuts the first row, where it cuts most others into as many cells.

    Where it does not, the first row is a title: then it is what cuts most rows into as many cells, at least two.
    """
    counts = {sign: _counts(text, sign) for sign in DELIMITERS}
    first = max(DELIMITERS, key=lambda sign: counts[sign][0])
    here = counts[first]
    if here[0] > 1 and 2 * sum(each == here[0] for each in here[1:]) >= len(here) - 1:
        return first

    def even(sign: str) -> tuple[int, bool, int]:
        found = Counter(each for each in counts[sign] if each > 1)
        rows, cells = max(((rows, cells) for cells, rows in found.items()), default=(0, 0))
        return rows, sign == first, cells

    return max(DELIMITERS, key=even)


def _counts(text: str, sign: str) -> list[int]:
    """Into how many cells a sign cuts each of the first rows that have anything in them."""
    found: list[int] = []
    try:
        for row in islice(csv.reader(io.StringIO(text, newline=""), delimiter=sign), SAMPLE_LINES):
            if row:
                found.append(len(row))
    except csv.Error:
        pass  # the rows before it tell as much
    return found or [0]
