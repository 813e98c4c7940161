"""How a file writes its numbers and its dates: by what is in it, else as the job's owner writes; else it is asked.

A number or a date that reads two ways is never taken for one of them in silence.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from typing import Literal

import msgspec

from store.measure.errors import BadValue, quoted

Decimal = Literal["", "point", "comma"]
Order = Literal["", "day", "month"]

_COMMA = re.compile(r"(?<!\d)\d+,\d{1,2}(?!\d)|\d,\d{4,}|\d\.\d{3},\d|(?<![\d.,])0,\d", re.ASCII)
_POINT = re.compile(r"(?<!\d)\d+\.\d{1,2}(?!\d)|\d\.\d{4,}|\d,\d{3}\.\d|(?<![\d.,])0?\.\d", re.ASCII)
_GROUPS = re.compile(r"(?<![\d.,])\d{1,3}(?:([.,])\d{3})(?:\1\d{3})+(?![\d.,])", re.ASCII)
_EITHER = re.compile(r"(?<![\d.,])[1-9]\d{0,2}[.,]\d{3}(?![\d.,])", re.ASCII)
_DATE = re.compile(r"(\d{1,2})([/.-])(\d{1,2})(?:\2(?:\d{2}|\d{4}))?")


class Asked(BadValue):
    """Something in a file reads two ways; the text says what, and how to say which is meant."""

    def __init__(self, text: str, question: str, choices: Sequence[tuple[str, str]]) -> None:
        super().__init__(text)
        self.question = question
        """The name of the answer in `How`: `decimal`, `dates` or `sheet`."""
        self.choices = tuple(choices)
        """Each answer, and its words."""


class How(msgspec.Struct, frozen=True):
    """What the person said of a file."""

    columns: dict[str, str] = {}
    """The field that a heading means, by the heading; an empty one leaves the column out."""
    decimal: Decimal = ""
    dates: Order = ""
    sheet: str = ""
    again: bool = False
    """True where rows are to be added although the same are there already."""


class Cell(msgspec.Struct, frozen=True):
    """A cell with its place."""

    row: int
    heading: str
    text: str


def decimal_of(cells: Iterable[Cell], comma_job: bool, said: Decimal) -> Decimal:
    """The sign before the fractions of a file's numbers. Raises Asked where one number could be read with either.

    What cannot be read otherwise (`57,5`, `1.234,50`, `12.75`) tells of the others. Where nothing does, the owner of
    the job writes as in the job.
    """
    if said:
        return said
    own: Decimal = "comma" if comma_job else "point"
    comma = point = False
    open_: Cell | None = None
    for cell in cells:
        comma |= bool(_COMMA.search(cell.text))
        point |= bool(_POINT.search(cell.text))
        if groups := _GROUPS.search(cell.text):
            comma, point = comma or groups[1] == ".", point or groups[1] == ","
        elif open_ is None and _EITHER.search(cell.text):
            open_ = cell
    found: Decimal = own if comma == point else "comma" if comma else "point"
    if open_ is not None and ((comma and point) or found != own):
        raise Asked(
            f"{quoted(open_.text)} could be thousands or a decimal. Row {open_.row}, column {open_.heading}: is a "
            "point or a comma before the decimals in this file? Use --decimal point or --decimal comma.",
            "decimal",
            (("point", "a point before the fraction: 1,234.50"), ("comma", "a comma does: 1.234,50")),
        )
    return found


def with_comma(text: str, usual: bool) -> bool:
    """Whether a comma stands before the fractions of one cell: by itself where it can be read one way only."""
    comma, point = bool(_COMMA.search(text)), bool(_POINT.search(text))
    return usual if comma == point else comma


def day_first(cells: Sequence[Cell], said: Order) -> bool | None:
    """Whether dates like `13/11/2026` in a column have the day first; None where there are none.

    Raises Asked where every one could be either, and BadValue where some can only be one and some only the other.
    """
    first = second = False
    open_: Cell | None = None
    for cell in cells:
        if found := _DATE.fullmatch(cell.text.strip()):
            first |= int(found[1]) > 12
            second |= int(found[3]) > 12
            if int(found[1]) <= 12 and int(found[3]) <= 12 and found[1].lstrip("0") != found[3].lstrip("0"):
                open_ = open_ or cell
    if first and second:
        raise BadValue("some dates here have the day first and some the month. Write them all like 2026-12-04.")
    if first or second:
        return first
    if open_ is None:
        return None
    if said:
        return said == "day"
    raise Asked(
        f"{quoted(open_.text)} can be two dates. Row {open_.row}, column {open_.heading}: does the day or the month "
        "first in this file? Use --dates day or --dates month.",
        "dates",
        (("day", f"the day first: {_both(open_.text)[0]}"), ("month", f"the month first: {_both(open_.text)[1]}")),
    )


_MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
           "November", "December")  # fmt: skip


def _both(text: str) -> tuple[str, str]:
    """A date read both ways, in words."""
    one, two = (int(each) for each in re.split(r"[/.-]", text.strip())[:2])
    return f"{text.strip()} is {one} {_MONTHS[two - 1]}", f"{text.strip()} is {two} {_MONTHS[one - 1]}"
