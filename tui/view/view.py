"""What a view is: which rows it lists, how it draws them, and the few keys that are its own."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from typing import Any

import msgspec

from store.measure.length import Length
from store.measure.mass import Mass
from store.records.base import Record, search_text
from store.records.field import Field, fields_of
from store.records.whole import LETTERS
from tui.view.desk import Desk
from tui.view.state import State
from tui.widgets.record_table import Column, Line


class Key(msgspec.Struct, frozen=True):
    """A key of one view only."""

    key: str
    label: str
    run: Callable[[Desk, str], None]
    """Given the key of the row under the cursor."""
    alone: bool = False
    """True where it works without a row; it may then be given an empty key."""


class View:
    """A list of rows. A subclass says which, and what is special about it."""

    name: str = ""
    title: str = ""
    about: str = ""
    """What the view is for, shown by `?`."""
    first: str = ""
    """What to do first in it, shown by `?`."""
    kinds: tuple[type[Record], ...] = ()
    """What can be added here, the usual one first."""
    keys: tuple[Key, ...] = ()
    filters: tuple[str, ...] = ()
    """Names of subsets, chosen in turn with one key; the first is everything."""
    often: tuple[str, ...] = ()
    """Keys of every list that are pressed most on this one: at its foot they come first."""
    sheets: tuple[str, ...] = ()
    """Sheets that are of this list: first among those that can be printed."""
    built: str = "Built automatically. Nothing to add here."
    """What stands in place of rows of a list that follows from the records, where there are none."""
    follows: str = ""
    """Where the rows follow from the whole job, and so come after the first paint: what is shown until then."""

    @property
    def nothing(self) -> str:
        """What stands in place of rows while there are none: what the list is for, and the key that starts it."""
        cls = self.kinds[0]
        return f"No {cls.many} yet. {cls.about[0].upper()}{cls.about[1:]}. a = add"

    def columns(self, state: State) -> tuple[Column, ...]:
        """The columns."""
        raise NotImplementedError

    def rows(self, state: State, chosen: str) -> Sequence[Any]:
        """The rows in their own order; `chosen` is one of `filters`."""
        raise NotImplementedError

    def key(self, row: Any) -> str:
        """A row's key: its tag."""
        return str(row.tag)

    def line(self, state: State, row: Any) -> Line:
        """What a row shows."""
        raise NotImplementedError

    def subject(self, state: State, key: str) -> str:
        """The record that a row is about, which lights up on the drawing: the row's own, or the first that it names."""
        return key.partition("/")[0]

    def words(self, row: Any) -> str:
        """The words that a filter looks through."""
        return search_text(row)

    def order(self, state: State, row: Any, column: int) -> Any:
        """What a row is sorted by in a column; None comes last."""
        return self.line(state, row).cells[column].lower() or None

    def summary(self, state: State, rows: Sequence[Any]) -> str:
        """One line of totals under the table."""
        return f"{len(rows)} shown"

    def record(self, state: State, key: str) -> Record | None:
        """The record that `e` edits and `d` removes."""
        return state.job.get(key)

    def start_values(self, state: State, key: str | None, cls: type[Record]) -> dict[str, Any]:
        """What a new record starts with, from the row under the cursor."""
        return {}

    def page(self, state: State, key: str) -> tuple[str, str] | None:
        """Title and text of the page of a row that is no record, check or finding; None where it is one."""
        return None

    def opened(self, desk: Desk, key: str) -> None:
        """Enter on a row, or a second click: its page."""
        page = self.page(desk.state, key)
        if page is None:
            desk.show_page(key)
        else:
            desk.read(*page)


class KindView(View):
    """The plain view of one kind of record: a column for each field that asks for one."""

    shown: tuple[str, ...] = ()
    """Keys of the fields that get a column; empty: every field with a column width."""

    def __init__(self, cls: type[Record] | None = None) -> None:
        if cls is not None:
            self.kinds = (cls,)
            self.name = cls.kind
            self.title = cls.many.capitalize()
            self.about = f"{cls.many.capitalize()}: {cls.about}."
            self.first = f"a = add the first {cls.one}, A = several at once."

    @property
    def fields(self) -> tuple[Field, ...]:
        """The fields that have a column, in order."""
        known = {field.key: field for field in fields_of(self.kinds[0])}
        if self.shown:
            return tuple(known[key] for key in self.shown)
        return tuple(field for field in known.values() if field.says.col)

    def columns(self, state: State) -> tuple[Column, ...]:
        """The tag, and a column a field; the first text column takes the spare width."""
        fields = self.fields
        growing = next((field.key for field in fields if field.codec.name in ("text", "note")), None)
        return (
            Column("tag", 5),
            *(
                Column(each.title(state.job.manner), each.says.col or 10, each.codec.right, each.key == growing)
                for each in fields
            ),
        )

    def rows(self, state: State, chosen: str) -> Sequence[Any]:
        """Every record of the kind, in the order of their tags."""
        return list(state.job.of(self.kinds[0]).values())

    def line(self, state: State, row: Any) -> Line:
        """The tag and the fields, as this owner writes."""
        manner = state.job.manner
        cells = (row.tag, *(field.show(getattr(row, field.key), manner) for field in self.fields))
        return Line(cells, "muted" if getattr(row, "retired", None) else "")

    def order(self, state: State, row: Any, column: int) -> Any:
        """By value, not by text: 9 in before 10 in."""
        if column == 0:
            return tag_order(row.tag)
        fields = self.fields
        if column > len(fields):
            return super().order(state, row, column)
        return sortable(getattr(row, fields[column - 1].key), fields[column - 1])


def sortable(value: Any, field: Field) -> Any:
    """A value that sorts as people expect; None for nothing."""
    if isinstance(value, Length):
        return value.nm
    if isinstance(value, Mass):
        return value.ug
    if isinstance(value, date):
        return value.toordinal()
    if field.codec.name == "choice":
        return field.choices.index(value)
    if isinstance(value, str):
        return value.lower() or None
    return value or None if isinstance(value, tuple) else value


def tag_order(key: str) -> tuple[str, int, str]:
    """Tags, and the keys of checks that follow from them (K3/tested), in the order of their numbers."""
    tag, _, rest = key.partition("/")
    return (tag[:1], int(tag[1:]), rest) if tag[1:].isdecimal() else (tag, 0, rest)


def name_of(record: Record) -> str:
    """What a record is called, for lists of references."""
    for key in ("name", "what", "shows", "file"):
        value = getattr(record, key, "")
        if value:
            return str(value)
    return record.one


def values_of(record: Record) -> dict[str, Any]:
    """The values of a record's fields, by their keys."""
    return {field.key: getattr(record, field.key) for field in fields_of(type(record))}


def kind_of(tag: str) -> type[Record] | None:
    """The kind of a tag."""
    return LETTERS.get(tag[:1]) if tag[1:].isdigit() else None
