"""Reading a spreadsheet into records: columns guessed, every cell checked, and all of it or nothing.

A row with a tag that exists changes that record, in the columns that are there; one without makes a new record.
An empty cell takes a field back to what it is when nobody filled it in.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

import msgspec

from store.book.changes import Put, add, edit
from store.measure.counts import a_one, plural
from store.measure.errors import BadValue, quoted
from store.records.base import Record
from store.records.field import NUMERIC, Field, Manner, Ref
from store.records.whole import KINDS, LETTERS, Job, serial_of
from templates.spreadsheet.cells import read_cell
from templates.spreadsheet.columns import Column, columns_of, is_heading
from templates.spreadsheet.damage import is_damaged_copy
from templates.spreadsheet.fields import GATE_KINDS, columns_for
from templates.spreadsheet.habits import Asked, Cell, How, day_first, decimal_of
from templates.spreadsheet.preview import RowRead, is_as_written, preview, saved_text
from templates.spreadsheet.rows import Rows, read_rows
from templates.spreadsheet.twins import There
from templates.spreadsheet.workbook import Number

__all__ = ["Asked", "BadRows", "Column", "How", "Import", "columns_of", "read_import"]

MOST_TOLD = 40
"""Bad cells that are shown one by one; of more, only their number."""
MOST_SHOWN = 400
"""Rows of the preview; of more, only their number."""
TOTALS = frozenset({"total", "totals", "sum", "subtotal", "sub-total", "grand total"})


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
    rows: tuple[RowRead, ...] = ()
    """The rows in which something was read otherwise than it is written, or which change a record."""

    def says(self) -> str:
        """The sum in words."""
        one = KINDS[self.kind].many
        return f"{one}: {self.new} new, {self.changed} changed, {self.same} the same as before"

    def preview(self) -> list[str]:
        """The lines of what was changed in reading, and of what will be."""
        return preview(self.rows, MOST_SHOWN)


def read_import(
    job: Job, cls: type[Record], raw: bytes, how: How | None = None, coming: Mapping[str, str] | None = None
) -> Import:
    """What the bytes of a csv or xlsx file would change.

    `how` is what the person said of the file; `coming` the kind of each tag that other files bring in the same action.
    Raises BadRows with every bad cell, Asked where something reads two ways, or BadValue.
    """
    said = how or How()
    try:
        rows = read_rows(raw, said, lambda cell: is_heading(cls, cell, said.columns))
        return _Reader(job, cls, rows, said, coming or {}).read()
    except (Asked, BadRows):
        raise
    except BadValue as error:
        raise BadRows(str(error)) from error


class _Reader:
    """Turns rows into changes, gathering every mistake before it gives up."""

    def __init__(self, job: Job, cls: type[Record], found: Rows, how: How, coming: Mapping[str, str]) -> None:
        self._job, self._cls, self._rows, self._how, self._coming = job, cls, found.rows, how, coming
        self._at = found.at
        cells = [row for _, row in found.rows]
        self._manner = msgspec.structs.replace(job.manner, comma=False)
        self._columns = columns_of(cls, found.names, cells, self._manner, how.columns)
        self._fields = {field.key: field for field in columns_for(cls)}
        self._wrong: list[str] = []
        self._notes: dict[str, None] = dict.fromkeys(found.notes)
        self._read: list[RowRead] = []
        self._tags: dict[str, int] = {}
        self._there = There({}, (), ())
        self._twins: list[str] = []
        self._manners: dict[str, Manner] = {}
        self._commas = False
        self._alone = self._only_one()
        self._named: dict[tuple[str, ...], Mapping[str, tuple[str, ...]]] = {}

    def _codec(self, key: str) -> str:
        return self._fields[key].codec.name if key in self._fields else ""

    def _cells_of(self, at: int) -> list[Cell]:
        heading = self._columns[at].heading.strip()
        return [Cell(number, heading, row[at]) for number, row in self._rows if at < len(row) and row[at].strip()]

    def _look_at_headings(self) -> None:
        """Refuse a column of numbers that are of something else."""
        for column in self._columns:
            if column.wrong:
                self._bad(self._at, column.heading.strip(), column.wrong)

    def _look_at_numbers(self) -> None:
        """Find out what stands before the fractions of this file."""
        numbers = [at for at, each in enumerate(self._columns) if self._codec(each.key) in NUMERIC]
        cells = [cell for at in numbers for cell in self._cells_of(at) if not isinstance(cell.text, Number)]
        own = self._job.manner.comma
        self._commas = decimal_of(cells, own, self._how.decimal) == "comma"
        if self._commas and cells:
            self._note("numbers: a comma before the fraction")
        elif own and cells:
            self._note("numbers: a point before the fraction")

    def _look_at_dates(self) -> None:
        """Find out of each column of dates whether the day or the month stands first."""
        columns = list(self._columns)
        for at, column in enumerate(columns):
            if self._codec(column.key) != "date":
                continue
            try:
                first = day_first(self._cells_of(at), self._how.dates)
            except Asked:
                raise
            except BadValue as error:
                self._bad(self._at, column.heading.strip(), str(error))
                continue
            if first is not None:
                self._manners[column.key] = msgspec.structs.replace(self._manner, day_first=first)
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
            raise BadRows(
                f"no column name is known, row {self._at}. It has: {names}. There are: tag, {fields}.", self._columns
            )
        self._look_at_headings()
        self._look_at_numbers()
        self._look_at_dates()
        self._tags = {tag: number for number, row in self._rows if (tag := self._tag_cell(row))}
        keys = [column.key for column in self._columns if column.key not in ("", "tag")]
        if not self._how.again and self._cls.kind not in GATE_KINDS:
            self._there = There(self._job.of(self._cls), keys, self._tags)
        changes: list[Put] = []
        same = 0
        for number, row in self._rows:
            change = self._change(number, row)
            if change is None:
                same += 1
            elif change not in (_BAD, _LEFT):
                changes.append(change)
        if self._wrong:
            more = len(self._wrong) - MOST_TOLD
            tail = [f"... and {more} more"] if more > 0 else []
            raise BadRows(
                "\n".join(
                    [f"nothing was imported, {plural(len(self._wrong), 'mistake')}:", *self._wrong[:MOST_TOLD], *tail]
                ),
                self._columns,
            )
        # Those that keep a tag first, so that no row without one is given a tag that a later row asks for.
        changes.sort(key=lambda each: each.new and not each.tag)
        new = sum(each.new for each in changes)
        for key, ref in self._alone.items() if new else ():
            self._note(f"no column for {self._fields[key].says.title}: {ref} is used, the only one there is")
        self._tell_twins()
        notes = tuple(self._notes)
        return Import(
            self._cls.kind, self._columns, tuple(changes), new, len(changes) - new, same, notes, tuple(self._read)
        )

    def _tell_twins(self) -> None:
        """Rows that are there already, whatever their number."""
        if self._twins:
            more = f", and {len(self._twins) - 8} more" if len(self._twins) > 8 else ""
            what = "; ".join(self._twins[:8])
            self._notes[f"there already with the same values, and not added once more: {what}{more}"] = None

    def _tag_cell(self, row: Sequence[str]) -> str:
        at = next((at for at, column in enumerate(self._columns) if column.key == "tag"), None)
        text = row[at].strip() if at is not None and at < len(row) else ""
        if not self._cls.letter:
            return text
        text = text.upper()
        return f"{text[0]}{int(text[1:])}" if text[1:].isdecimal() and text.isascii() and len(text) <= 10 else text

    def _change(self, number: int, row: Sequence[str]) -> Put | None:
        if self._is_sum(row):
            self._note(f"row {number} is left out: it is a row of totals")
            return _LEFT
        before = len(self._wrong)
        tag = self._tag_cell(row)
        old = self._job.of(self._cls).get(tag)
        self._check_tag(number, tag, old)
        if any(cell.strip() for cell in row[len(self._columns) :]):
            self._bad(number, str(len(self._columns) + 1), "there are more cells than the first row has names")
        cells: list[tuple[str, str, str]] = []
        values: dict[str, Any] = dict(self._values(number, row, old, cells))
        if old is None:
            self._fill_in(number, values)
        if len(self._wrong) > before:
            return _BAD
        if old is None:
            return self._new(number, tag, values, cells)
        new = msgspec.structs.replace(old, **values)
        if new == old:
            return None
        self._tell(number, f"{tag} {_name_of(old)}", cells, self._edits(old, new))
        return edit(old, new)

    def _fill_in(self, number: int, values: dict[str, Any]) -> None:
        """What a new record needs and no column has."""
        for key, field in self._fields.items():
            if key in self._alone:
                values.setdefault(key, self._alone[key])
            elif field.required and key not in values and not any(each.key == key for each in self._columns):
                self._bad(number, field.says.title, f"{field.says.title} is needed, and no column has it")

    def _new(self, number: int, tag: str, values: dict[str, Any], cells: list[tuple[str, str, str]]) -> Put | None:
        """A new record, unless it is there already, word for word."""
        if not tag and (twin := self._there.take(values)):
            self._twins.append(f"row {number} is {twin}")
            return None
        self._look_for_twin(tag, values)
        record = self._cls(tag=tag, **values)
        self._tell(number, f"new {self._cls.one} {_name_of(record)}", cells, ())
        return add(record, keep_tag=bool(tag))

    def _is_sum(self, row: Sequence[str]) -> bool:
        """True for a row that adds up those above it: it begins with the word, and has little else."""
        filled = [cell.strip() for cell in row if cell.strip()]
        words = filled[0].rstrip(":").casefold() if filled else ""
        return words in TOTALS and 2 * len(filled) <= len(self._columns) + 1 and not self._tag_cell(row)

    def _edits(self, old: Record, new: Record) -> tuple[tuple[str, str, str], ...]:
        """What becomes of the fields of a record that is there."""
        return tuple(
            (
                field.says.title,
                saved_text(field, getattr(old, key), self._job.manner),
                saved_text(field, getattr(new, key), self._job.manner),
            )
            for key, field in self._fields.items()
            if getattr(old, key) != getattr(new, key)
        )

    def _tell(
        self, number: int, about: str, cells: Sequence[tuple[str, str, str]], edits: Sequence[tuple[str, str, str]]
    ) -> None:
        if cells or edits:
            self._read.append(RowRead(number, about.strip(), tuple(cells), tuple(edits)))

    def _look_for_twin(self, tag: str, values: Mapping[str, Any]) -> None:
        """A new record that is called like one there is may be that one, read in again without its tag."""
        called = " ".join(str(values.get("name") or "").lower().split())
        if called and not tag and (twins := self._names((self._cls.kind,)).get(called)):
            self._note(f"{values['name']!r} is on the list as {', '.join(twins)}: to change it, enter its tag")

    def _check_tag(self, number: int, tag: str, old: Record | None) -> None:
        letter = self._cls.letter
        if not tag:
            if not letter:
                self._bad(number, "tag", f"the key of each {self._cls.one} is needed")
            return
        if letter and not 0 < serial_of(self._cls.kind, tag) < 10**7:
            self._bad(number, "tag", f"{tag[:20]!r} is not a tag of {self._cls.many}: they are like {letter}1")
        elif self._tags.get(tag) != number:
            self._bad(number, "tag", f"{tag} is repeated in row {self._tags[tag]}")
        elif old is None and tag in self._job.marks:
            self._bad(number, "tag", f"{tag} was used before, and a tag is never used twice: leave the cell blank")

    def _values(
        self, number: int, row: Sequence[str], old: Record | None, cells: list[tuple[str, str, str]]
    ) -> Iterator[tuple[str, object]]:
        for at, column in enumerate(self._columns):
            if column.key in ("", "tag") or column.wrong:
                continue
            field = self._fields[column.key]
            text = row[at] if at < len(row) else ""
            had = getattr(old, column.key, None)
            if field.codec.name == "text" and had and is_damaged_copy(text, str(had)):
                self._note(
                    f"row {number}, {column.heading.strip()}: {text.strip()!r} is a spreadsheet's copy of {had!r}"
                )
                continue
            try:
                value = self._value(field, column, text)
            except BadValue as error:
                self._bad(number, column.heading.strip() or column.title, str(error))
                continue
            plain = text.strip().lower()
            if field.codec.name == "choice" and value and not str(value).lower().startswith(plain):
                self._note(f"{column.heading.strip()}: {plain!r} is read as {value}")
            if not self._dangling(number, column, field, value):
                if not is_as_written(field, text, value, self._job.manner, column.unit):
                    cells.append((field.says.title, text, saved_text(field, value, self._job.manner)))
                yield column.key, value

    def _value(self, field: Field, column: Column, text: str) -> object:
        """The value of a cell. Raises BadValue."""
        if field.codec.name == "ref":
            text = self._tag_named(field, column, text)
        manner = self._manners.get(column.key, self._manner)
        return read_cell(field, text, manner, unit=column.unit, commas=self._commas)

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
            raise BadValue(f"{quoted(text)} could be {' or '.join(found[:4])}. Write the tag.")
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
            there = self._job.get(tag) is not None or (kind is self._cls and tag in self._tags) or tag in self._coming
            if kind is None or not there:
                self._bad(number, column.heading.strip(), f"no {tag} in this job")
                bad = True
            elif field.says.kinds and kind.kind not in field.says.kinds:
                wanted = " or ".join(KINDS[each].one for each in field.says.kinds)
                self._bad(number, column.heading.strip(), f"{tag} is not {a_one(wanted)}")
                bad = True
        return bad

    def _note(self, words: str) -> None:
        if len(self._notes) < MOST_TOLD:
            self._notes.setdefault(words)

    def _bad(self, number: int, column: str, why: str) -> None:
        self._wrong.append(f"row {number}, column {column}: {why}")


def _name_of(record: Record) -> str:
    return str(getattr(record, "name", "") or getattr(record, "what", ""))[:40]


_LEFT = Put("", "left out", {})
"""In place of the change of a row that is no record."""
_BAD = Put("", "bad", {})
"""In place of the change of a row with a mistake."""
