"""What the reading of a file made of its cells, row by row, for the person to see before anything is saved."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from datetime import date
from decimal import Decimal
from typing import Any

import msgspec

from store.measure.dates import echo_date
from store.measure.length import Length, to_file
from store.measure.money import show_money
from store.records.field import Field, Manner
from store.records.metric_units import unit_in

LONGEST = 60


class RowRead(msgspec.Struct, frozen=True):
    """A row in which something was read otherwise than it is written, or which changes a record."""

    number: int
    about: str
    """Tag and name of the record."""
    cells: tuple[tuple[str, str, str], ...] = ()
    """Title of the field, what is written, what will be saved."""
    edits: tuple[tuple[str, str, str], ...] = ()
    """Title of the field, what the record has now, what it will have."""

    def says(self) -> Iterator[str]:
        """Its lines."""
        yield f"row {self.number}, {self.about}:"
        for title, written, saved in self.cells:
            yield f"  {title}: {_short(written)} is read as {_short(saved)}"
        for title, before, after in self.edits:
            yield f"  {title}: {_short(before) or '(empty)'} becomes {_short(after) or '(empty)'}"


def saved_text(field: Field, value: Any, manner: Manner) -> str:
    """A value as it will be saved, with its unit or currency, to be read by a person."""
    if value is None or value == "":
        return ""
    if isinstance(value, date):
        return f"{value.isoformat()} ({echo_date(value, manner.day_first)})"
    if field.codec.name == "money":
        return show_money(value, manner.currency)
    if unit_in(field.says.unit, manner.metric) != field.says.unit:
        return field.show(value, manner)
    text = field.edit(value, manner)
    return f"{text} {field.says.unit}" if field.says.unit and field.codec.name == "number" else text


def is_as_written(field: Field, written: str, value: Any, manner: Manner, unit: str = "") -> bool:
    """True where a cell says what will be saved, in the words in which the program says it itself.

    `unit` is that of the column's bare numbers.
    """
    plain = _plain(written)
    if not plain:
        return bool(value in (None, "", (), field.default))
    if re.fullmatch(r"\d+(?:\.(?:\d{1,2}|\d{4,}))?", plain, re.ASCII):
        if field.codec.name in ("money", "number", "count") and unit in ("", field.says.unit):
            kept = msgspec.structs.replace(manner, comma=False, metric=False)
            return Decimal(plain) == Decimal(field.edit(value, kept).replace(",", ""))
        plain = f"{plain} {unit or ('mm' if manner.metric else 'in')}"
    words = [field.edit(value, manner), field.show(value, manner), saved_text(field, value, manner)]
    if isinstance(value, Length):
        words.append(to_file(value))
    if isinstance(value, date):
        words.append(value.isoformat())
    return any(plain == _plain(each) for each in words)


def preview(rows: Iterable[RowRead], most: int) -> list[str]:
    """The lines of all rows, and of how many there are more."""
    listed = list(rows)
    lines = [line for row in listed[:most] for line in row.says()]
    return [*lines, f"... and {len(listed) - most:,} more rows"] if len(listed) > most else lines


def _plain(text: str) -> str:
    return " ".join(text.casefold().split())


def _short(text: str) -> str:
    text = " ".join(text.split())
    return text if len(text) <= LONGEST else f"{text[: LONGEST - 3]}..."
