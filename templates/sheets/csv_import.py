"""Reading a spreadsheet into records: columns guessed, every cell checked, and all of it or nothing.

A row with a tag that exists changes that record, in the columns that are there; one without makes a new record.
An empty cell takes a field back to what it is when nobody filled it in.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

import msgspec

from store.book.changes import Put, add, edit
from store.measure.errors import BadValue
from store.records.base import Record
from store.records.field import Field, fields_of
from store.records.whole import KINDS, LETTERS, Job, serial_of
from templates.sheets.csv_text import read_csv

MOST_ROWS = 20_000
MOST_TOLD = 40
"""Bad cells that are told one by one; of more, only their number."""
CLOSE = 0.82
"""How like the name of a field the name of a column must be (0 to 1)."""
UNITS = {"mm": "mm", "cm": "cm", "m": "m", "in": "in", "inch": "in", "inches": "in", "ft": "ft", "feet": "ft",
         "kg": "kg", "lb": "lb", "lbs": "lb"}  # fmt: skip
OTHER_NAMES = {
    "w": "width", "h": "height", "d": "depth", "qty": "count", "quantity": "count", "cost": "price",
    "vendor": "supplier", "shop": "supplier", "status": "state", "comment": "notes", "comments": "notes",
    "remark": "notes",
    "remarks": "notes", "note": "notes", "telephone": "phone", "tel": "phone", "email": "mail",
    "emailaddress": "mail",
    "power": "watts", "wattage": "watts", "description": "what", "task": "what", "id": "tag", "license": "licence",
    "licensenumber": "licence", "measurement": "value", "type": "what", "length": "value",
}  # fmt: skip
"""What people call a field in their spreadsheets, where that is not its own name; used only where it fits."""


class BadRows(BadValue):
    """A spreadsheet with mistakes; its text names row, column and reason of each."""


class Column(msgspec.Struct, frozen=True):
    """How a column was understood."""

    heading: str
    key: str
    """The field; `tag`, or empty when the column is left out."""
    title: str
    unit: str = ""
    """Unit of bare numbers, from the heading."""

    def says(self) -> str:
        """`Width (mm) -> width, bare numbers in mm`, for the person to check."""
        heading = self.heading.strip() or "(no name)"
        if not self.key:
            return f"{heading} -> left out: no such field"
        return f"{heading} -> {self.title}" + (f", bare numbers in {self.unit}" if self.unit else "")


class Import(msgspec.Struct, frozen=True):
    """What an import would do."""

    kind: str
    columns: tuple[Column, ...]
    changes: tuple[Put, ...]
    new: int
    changed: int
    same: int

    def says(self) -> str:
        """The sum in words."""
        one = KINDS[self.kind].many
        return f"{one}: {self.new} new, {self.changed} changed, {self.same} the same as before"


def read_import(job: Job, cls: type[Record], raw: bytes) -> Import:
    """What the bytes of a csv file would change. Raises BadRows with every bad cell, or BadValue."""
    rows = read_csv(raw)
    if not rows:
        raise BadRows("the file has no rows: the first one must name the columns")
    if len(rows) > MOST_ROWS:
        raise BadRows(f"the file has {len(rows):,} rows; {MOST_ROWS:,} is the most that is read at once")
    return _Reader(job, cls, rows[0][1]).read(rows[1:])


def columns_of(cls: type[Record], names: Sequence[str]) -> tuple[Column, ...]:
    """How the headings of a file are understood; each field at most once, the surest first."""
    fields = {field.key: field for field in fields_of(cls)}
    known: dict[str, str] = {"tag": "tag"}
    for field in fields.values():
        known.setdefault(_plain(field.says.title), field.key)
    known.update({_plain(key): key for key in fields})
    found: dict[int, str] = {}
    for guess in (_by_name, _by_other_name, _by_likeness):
        for at, name in enumerate(names):
            key = guess(_plain(_bare(name)), known)
            if at not in found and key in (*fields, "tag") and key not in found.values():
                found[at] = key
    return tuple(_column(name, found.get(at, ""), fields) for at, name in enumerate(names))


def _column(name: str, key: str, fields: Mapping[str, Field]) -> Column:
    if not key or key == "tag":
        return Column(name, key, key)
    unit = UNITS.get(_unit_of(name), "") if fields[key].codec.name in ("length", "mass") else ""
    return Column(name, key, fields[key].says.title, unit)


def _by_name(plain: str, known: Mapping[str, str]) -> str:
    return known.get(plain, "")


def _by_other_name(plain: str, known: Mapping[str, str]) -> str:
    return OTHER_NAMES.get(plain, "")


def _by_likeness(plain: str, known: Mapping[str, str]) -> str:
    near = difflib.get_close_matches(plain, list(known), 1, CLOSE) if len(plain) > 3 else []
    return known[near[0]] if near else ""


def _plain(name: str) -> str:
    return re.sub(r"[\W_]+", "", name.lower())


def _bare(name: str) -> str:
    """The name without its unit: `Width (mm)`, `Width [mm]`, `Width, mm`."""
    return re.sub(r"\s*[(\[,].*$", "", name) or name


def _unit_of(name: str) -> str:
    found = re.search(r"[(\[,]\s*([A-Za-z]+)\s*[)\]]?\s*$", name)
    return found[1].lower() if found else ""


class _Reader:
    """Turns rows into changes, gathering every mistake before it gives up."""

    def __init__(self, job: Job, cls: type[Record], names: Sequence[str]) -> None:
        self._job, self._cls = job, cls
        self._columns = columns_of(cls, names)
        self._fields = {field.key: field for field in fields_of(cls)}
        self._wrong: list[str] = []
        self._tags: dict[str, int] = {}

    def read(self, rows: Sequence[tuple[int, list[str]]]) -> Import:
        if not any(column.key not in ("", "tag") for column in self._columns):
            names = ", ".join(column.heading.strip() for column in self._columns)
            fields = ", ".join(field.says.title for field in self._fields.values())
            raise BadRows(f"row 1: no column is known ({names}). There are: tag, {fields}")
        self._tags = {tag: number for number, row in rows if (tag := self._tag_cell(row))}
        changes: list[Put] = []
        same = 0
        for number, row in rows:
            change = self._change(number, row)
            if change is None:
                same += 1
            elif change is not _BAD:
                changes.append(change)
        if self._wrong:
            more = len(self._wrong) - MOST_TOLD
            tail = [f"... and {more} more"] if more > 0 else []
            raise BadRows("\n".join(["nothing was imported:", *self._wrong[:MOST_TOLD], *tail]))
        # Those that keep a tag first, so that no row without one is given a tag that a later row asks for.
        changes.sort(key=lambda each: each.new and not each.tag)
        new = sum(each.new for each in changes)
        return Import(self._cls.kind, self._columns, tuple(changes), new, len(changes) - new, same)

    def _tag_cell(self, row: Sequence[str]) -> str:
        at = next((at for at, column in enumerate(self._columns) if column.key == "tag"), None)
        text = row[at].strip().upper() if at is not None and at < len(row) else ""
        return f"{text[0]}{int(text[1:])}" if text[1:].isdecimal() and text.isascii() and len(text) <= 10 else text

    def _change(self, number: int, row: Sequence[str]) -> Put | None:
        before = len(self._wrong)
        tag = self._tag_cell(row)
        old = self._job.of(self._cls).get(tag)
        self._check_tag(number, tag, old)
        if any(cell.strip() for cell in row[len(self._columns) :]):
            self._bad(number, str(len(self._columns) + 1), "there are more cells than the first row has names")
        values: dict[str, Any] = dict(self._values(number, row))
        if old is None:
            for key, field in self._fields.items():
                if field.required and key not in values and not any(each.key == key for each in self._columns):
                    self._bad(number, field.says.title, f"{field.says.title} is needed, and no column has it")
        if len(self._wrong) > before:
            return _BAD
        if old is None:
            return add(self._cls(tag=tag, **values), keep_tag=bool(tag))
        new = msgspec.structs.replace(old, **values)
        return edit(old, new) if new != old else None

    def _check_tag(self, number: int, tag: str, old: Record | None) -> None:
        if not tag:
            return
        letter = self._cls.letter
        if not 0 < serial_of(self._cls.kind, tag) < 10**7:
            self._bad(number, "tag", f"{tag[:20]!r} is no tag of {self._cls.many}: they are like {letter}1")
        elif self._tags.get(tag) != number:
            self._bad(number, "tag", f"{tag} is there again in row {self._tags[tag]}")
        elif old is None and tag in self._job.marks:
            self._bad(number, "tag", f"{tag} was given before, and no tag is given twice: leave the cell empty")

    def _values(self, number: int, row: Sequence[str]) -> Iterator[tuple[str, object]]:
        for at, column in enumerate(self._columns):
            if column.key in ("", "tag"):
                continue
            field = self._fields[column.key]
            text = row[at] if at < len(row) else ""
            try:
                value = field.read(_with_unit(text, column.unit), self._job.manner)
            except BadValue as error:
                self._bad(number, column.heading.strip() or column.title, str(error))
                continue
            if not self._dangling(number, column, field, value):
                yield column.key, value

    def _dangling(self, number: int, column: Column, field: Field, value: object) -> bool:
        """True for a reference to nothing, or to a wrong kind; another row of the file may give the tag."""
        if field.codec.name not in ("ref", "refs") or not value:
            return False
        bad = False
        for tag in (value,) if isinstance(value, str) else tuple(value):  # type: ignore[arg-type]
            kind = LETTERS.get(tag[0])
            there = self._job.get(tag) is not None or (kind is self._cls and tag in self._tags)
            if kind is None or not there:
                self._bad(number, column.heading.strip(), f"names {tag}, and there is no {tag}")
                bad = True
            elif field.says.kinds and kind.kind not in field.says.kinds:
                wanted = " or ".join(KINDS[each].one for each in field.says.kinds)
                self._bad(number, column.heading.strip(), f"names {tag}, which is not a {wanted}")
                bad = True
        return bad

    def _bad(self, number: int, column: str, why: str) -> None:
        self._wrong.append(f"row {number}, column {column}: {why}")


_BAD = Put("", "", {})
"""In place of the change of a row with a mistake."""


def _with_unit(text: str, unit: str) -> str:
    """A bare number takes the unit of its column's heading."""
    return f"{text.strip()} {unit}" if unit and re.fullmatch(r"\s*\d+(?:[.]\d+)?\s*", text) else text
