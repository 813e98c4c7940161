"""Reading a spreadsheet into records: columns guessed, every cell checked, and all of it or nothing.

A row with a tag that exists changes that record, in the columns that are there; one without makes a new record.
An empty cell takes a field back to what it is when nobody filled it in.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

import msgspec

from store.book.changes import Put, add, edit
from store.book.ground import disk
from store.measure.errors import BadValue
from store.records.base import Record
from store.records.field import Field, Manner, Ref, fields_of
from store.records.whole import KINDS, LETTERS, Job, serial_of
from templates.spreadsheet.cells import NUMBERS, has_decimal_commas, is_day_first, read_cell
from templates.spreadsheet.columns import Column, columns_of
from templates.spreadsheet.text import read_csv

__all__ = ["BadRows", "Column", "Import", "columns_of", "read_import"]

MOST_ROWS = 20_000
MOST_COLUMNS = 200
MOST_TOLD = 40
"""Bad cells that are told one by one; of more, only their number."""


class BadRows(BadValue):
    """A spreadsheet with mistakes; its text names row, column and reason of each."""

    def __init__(self, text: str, columns: Sequence[Column] = ()) -> None:
        super().__init__(text)
        self.columns = tuple(columns)
        """How the columns were understood, as far as it came to that."""


class Import(msgspec.Struct, frozen=True):
    """What an import would do."""

    kind: str
    columns: tuple[Column, ...]
    changes: tuple[Put, ...]
    new: int
    changed: int
    same: int
    notes: tuple[str, ...] = ()
    """What was taken to be meant where a file leaves it open."""

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
    if len(rows[0][1]) > MOST_COLUMNS:
        raise BadRows(f"the first row has {len(rows[0][1]):,} columns; {MOST_COLUMNS} is the most that is read")
    return _Reader(job, cls, rows[0][1], rows[1:]).read()


class _Reader:
    """Turns rows into changes, gathering every mistake before it gives up."""

    def __init__(
        self, job: Job, cls: type[Record], names: Sequence[str], rows: Sequence[tuple[int, list[str]]]
    ) -> None:
        self._job, self._cls, self._rows = job, cls, rows
        cells = [row for _, row in rows]
        self._columns = columns_of(cls, names, cells, job.manner)
        self._fields = {field.key: field for field in fields_of(cls)}
        self._wrong: list[str] = []
        self._notes: dict[str, None] = {}
        self._tags: dict[str, int] = {}
        self._manners: dict[str, Manner] = {}
        numbers = [at for at, each in enumerate(self._columns) if self._codec(each.key) in NUMBERS]
        self._commas = has_decimal_commas(row[at] for row in cells for at in numbers if at < len(row))
        if self._commas:
            self._note("numbers: a comma stands before the fraction")
        self._look_at_dates(cells)
        self._alone = self._only_one()
        self._named: dict[tuple[str, ...], Mapping[str, tuple[str, ...]]] = {}

    def _codec(self, key: str) -> str:
        return self._fields[key].codec.name if key in self._fields else ""

    def _look_at_dates(self, cells: Sequence[Sequence[str]]) -> None:
        """Find out of each column of dates whether the day or the month stands first."""
        columns, manner = list(self._columns), self._job.manner
        for at, column in enumerate(columns):
            if self._codec(column.key) != "date":
                continue
            try:
                first = is_day_first((row[at] for row in cells if at < len(row)), manner)
            except BadValue as error:
                self._bad(1, column.heading.strip(), str(error))
                continue
            self._manners[column.key] = msgspec.structs.replace(manner, day_first=first)
            if first != manner.day_first:
                columns[at] = msgspec.structs.replace(column, how="the day first" if first else "the month first")
        self._columns = tuple(columns)

    def _only_one(self) -> dict[str, Ref]:
        """What a record must name and no column has, where the job has just one such thing: its only wall."""
        there = {column.key for column in self._columns}
        found: dict[str, Ref] = {}
        for key, field in self._fields.items():
            if field.required and key not in there and field.codec.name == "ref" and len(field.says.kinds) == 1:
                tags = list(self._job.tables.get(field.says.kinds[0], {}))
                if len(tags) == 1:
                    found[key] = Ref(tags[0])
        return found

    def read(self) -> Import:
        """Everything, or BadRows."""
        if not any(column.key not in ("", "tag") for column in self._columns):
            names = ", ".join(column.heading.strip() for column in self._columns)
            fields = ", ".join(field.says.title for field in self._fields.values())
            raise BadRows(f"row 1: no column is known ({names}). There are: tag, {fields}", self._columns)
        self._tags = {tag: number for number, row in self._rows if (tag := self._tag_cell(row))}
        changes: list[Put] = []
        same = 0
        for number, row in self._rows:
            change = self._change(number, row)
            if change is None:
                same += 1
            elif change is not _BAD:
                changes.append(change)
        if self._wrong:
            more = len(self._wrong) - MOST_TOLD
            tail = [f"... and {more} more"] if more > 0 else []
            raise BadRows("\n".join(["nothing was imported:", *self._wrong[:MOST_TOLD], *tail]), self._columns)
        # Those that keep a tag first, so that no row without one is given a tag that a later row asks for.
        changes.sort(key=lambda each: each.new and not each.tag)
        new = sum(each.new for each in changes)
        for key, ref in self._alone.items() if new else ():
            self._note(f"no column has the {self._fields[key].says.title}: {ref} is the only one")
        return Import(self._cls.kind, self._columns, tuple(changes), new, len(changes) - new, same, tuple(self._notes))

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
                if key in self._alone:
                    values.setdefault(key, self._alone[key])
                elif field.required and key not in values and not any(each.key == key for each in self._columns):
                    self._bad(number, field.says.title, f"{field.says.title} is needed, and no column has it")
        if len(self._wrong) > before:
            return _BAD
        if old is None:
            self._look_for_twin(tag, values)
            return add(self._cls(tag=tag, **values), keep_tag=bool(tag))
        new = msgspec.structs.replace(old, **values)
        return edit(old, new) if new != old else None

    def _look_for_twin(self, tag: str, values: Mapping[str, Any]) -> None:
        """A new record that is called like one there is may be that one, read in again without its tag."""
        called = " ".join(str(values.get("name") or "").lower().split())
        if called and not tag and (twins := self._names((self._cls.kind,)).get(called)):
            self._note(f"{values['name']!r} is there already as {', '.join(twins)}: to change it, give its tag")

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
            manner = self._manners.get(column.key, self._job.manner)
            try:
                if field.codec.name == "ref":
                    text = self._tag_named(field, column, text)
                value = read_cell(field, text, manner, unit=column.unit, commas=self._commas)
            except BadValue as error:
                self._bad(number, column.heading.strip() or column.title, str(error))
                continue
            plain = text.strip().lower()
            if field.codec.name == "choice" and value and not str(value).lower().startswith(plain):
                self._note(f"{column.heading.strip()}: {plain!r} is read as {value}")
            if not self._dangling(number, column, field, value):
                yield column.key, value

    def _tag_named(self, field: Field, column: Column, text: str) -> str:
        """The tag of what a cell names by its name in the book; the cell itself where no name is the same."""
        wanted = " ".join(text.lower().split())
        if not wanted or re.fullmatch(r"[a-z]\d+", wanted, re.ASCII):
            return text
        names = self._names(field.says.kinds or tuple(KINDS))
        found = names.get(wanted, ())
        if len(found) == 1:
            self._note(f"{column.heading.strip()}: {text.strip()!r} is {found[0]}")
            return found[0]
        if len(found) > 1:
            raise BadValue(f"{text.strip()[:40]!r} could be {' or '.join(found)}: write the tag")
        return text

    def _names(self, kinds: tuple[str, ...]) -> Mapping[str, tuple[str, ...]]:
        """The tags of what there is, by its name in small letters."""
        if kinds not in self._named:
            named: dict[str, tuple[str, ...]] = {}
            for kind in kinds:
                for tag, one in self._job.tables.get(kind, {}).items():
                    name = " ".join(str(getattr(one, "name", "") or getattr(one, "what", "")).lower().split())
                    named[name] = (*named.get(name, ()), tag)
            self._named[kinds] = named
        return self._named[kinds]

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

    def _note(self, words: str) -> None:
        if len(self._notes) < MOST_TOLD:
            self._notes.setdefault(words)

    def _bad(self, number: int, column: str, why: str) -> None:
        self._wrong.append(f"row {number}, column {column}: {why}")


_BAD = Put("", "", {})
"""In place of the change of a row with a mistake."""


MOST_CSV_BYTES = 50_000_000


def read_file(path: Path) -> bytes:
    """The bytes of a csv file. Raises BadValue where it cannot be read, or is no list by its size."""
    try:
        return disk.read_given(path, MOST_CSV_BYTES)
    except OSError as error:
        raise BadValue(f"{path}: cannot be read: {error.strerror}") from error
