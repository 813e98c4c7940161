"""What a view is: which rows it lists, how it draws them, and the few keys that are its own."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from datetime import date
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any, Protocol

import msgspec

from store.book.changes import Change
from store.measure.errors import StudbookError
from store.measure.length import Length
from store.measure.mass import Mass
from store.records.access import Photo
from store.records.base import Record, search_text
from store.records.field import Field, fields_of
from store.records.gate import Closing
from store.records.whole import LETTERS, Job
from store.rules.core.checks import Item
from store.rules.core.findings import Finding, findings
from store.rules.gate.gate import Standing, standing
from tui.widgets.record_table import Column, Line

if TYPE_CHECKING:
    from store.records.people import Trade
    from store.rules.handoff.packet import Packet


class State:
    """The job and what follows from it, worked out once for every change, when it is first asked for."""

    def __init__(self, job: Job, folder: Path | None = None, history: Callable[[], Sequence[Any]] = tuple) -> None:
        self.job = job
        self._history = history
        """Reads the history, when a packet is compared with it."""
        self._packets: dict[Trade, Packet] = {}
        self._folder = folder
        """Where the job file lies: pictures are looked for from there."""

    @property
    def folder(self) -> Path | None:
        """Where the job file lies; None before the whole of it is read."""
        return self._folder

    @cached_property
    def found(self) -> list[Finding]:
        """Every finding, the gravest first; last the pictures whose files are gone."""
        if self._folder is None or not (self.job.tables.get(Photo.kind) or self.job.tables.get(Closing.kind)):
            return findings(self.job)
        from store.book.pictures import missing_pictures  # only a job with pictures looks at the disk

        return [*findings(self.job), *missing_pictures(self.job, self._folder)]

    @cached_property
    def standing(self) -> Standing:
        """Where the job is and what holds it."""
        return standing(self.job, self.found)

    @property
    def upkeep(self) -> str:
        """What there is to look after once the job is in use, in one line; before that nothing."""
        if self.standing.next is not None:
            return ""
        from store.rules.service.upkeep_rules import upkeep_line  # only a wall that is in use has any

        return upkeep_line(self.found)

    @cached_property
    def _items(self) -> dict[str, Item]:
        return {each.key: each for each in self.standing.items}

    @cached_property
    def _about(self) -> dict[str, list[Finding]]:
        found: dict[str, list[Finding]] = {}
        for each in self.found:
            for tag in each.tags:
                found.setdefault(tag, []).append(each)
        return found

    @cached_property
    def entries(self) -> list[Mapping[str, Any]]:
        """The history as plain data, oldest first; nothing where it cannot be read, which is told elsewhere."""
        try:
            return [msgspec.to_builtins(each) for each in self._history()]
        except StudbookError:
            return []

    def packet(self, trade: Trade) -> Packet:
        """The packet of a trade, with what changed since it was given."""
        from store.rules.handoff.packet import packet  # only the lists of packets and people need it

        if trade not in self._packets:
            self._packets[trade] = packet(self.job, trade, self.entries, found=self.found)
        return self._packets[trade]

    def item(self, key: str) -> Item | None:
        """The check of a key."""
        return self._items.get(key)

    def finding(self, key: str) -> Finding | None:
        """The finding of a key."""
        return next((each for each in self.found if each.key == key), None)

    def about(self, tag: str) -> list[Finding]:
        """The findings that name a tag."""
        return self._about.get(tag, [])

    def wrong(self, tag: str) -> bool:
        """True when something that is to be mended, and nobody answered, names a tag."""
        return any(each.severity != "look" and not each.answered for each in self.about(tag))


Changes = Sequence[Change] | Callable[[Job], Sequence[Change]]
"""What an action does, or how to work it out on the newest job."""
SAME_LINE = ""
"""In place of a key: the cursor stays on its line, where the next of a list comes up."""


class Desk(Protocol):
    """What a view's own keys may ask of the screen they are pressed on."""

    @property
    def state(self) -> State:
        """The job as it is."""

    def act(self, what: str, changes: Changes, why: str = "", *, at: str | None = None) -> bool:
        """Do an action; False when it was refused (and said so). The cursor goes to `at`, or stays on its record."""

    def say(self, words: str, *, bad: bool = False) -> None:
        """Tell the person something, below the table."""

    def ask(self, question: str, then: Callable[[str], None], *, start: str = "", about: str = "") -> None:
        """Ask for a line of text; `then` gets it when it is not empty."""

    def fill_in(self, cls: type[Record], values: Mapping[str, Any]) -> None:
        """Open an empty form with some values."""

    def fill_out(
        self,
        title: str,
        cls: type[Record],
        values: Mapping[str, Any],
        save: Callable[[dict[str, Any]], str],
        then: Callable[[], None] = lambda: None,
    ) -> None:
        """Open a form with some values; `save` gets them, and gives back what is wrong or nothing; `then` follows when
        it was saved and the form is gone."""

    def pick(self, question: str, choices: Sequence[tuple[str, str]], then: Callable[[str], None]) -> None:
        """Ask for one of a list of keys and labels; `then` gets the key."""

    def done(self, words: str) -> None:
        """Tell that something was done, and the gravest thing that it broke."""

    @property
    def folder(self) -> Path:
        """Where the job file lies; paths of pictures count from there."""

    def show_page(self, key: str) -> None:
        """Open the page of a row."""

    def read(self, title: str, text: str) -> None:
        """Open a page to read."""

    def go_to(self, tag: str) -> None:
        """Show a record in its own view."""

    def who(self) -> str:
        """Who is at the keyboard."""

    def print(self, name: str = "") -> None:
        """Print a sheet: the one of that name, or one that is asked for."""


class Key(msgspec.Struct, frozen=True):
    """A key of one view only."""

    key: str
    label: str
    run: Callable[[Desk, str], None]
    """Given the key of the row under the cursor."""


class View:
    """A list of rows. A subclass says which, and what is special about it."""

    name: str = ""
    title: str = ""
    about: str = ""
    """What the view is for, shown by `?`."""
    kinds: tuple[type[Record], ...] = ()
    """What can be added here, the usual one first."""
    keys: tuple[Key, ...] = ()
    filters: tuple[str, ...] = ()
    """Names of subsets, chosen in turn with one key; the first is everything."""

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
            *(Column(each.says.title, each.says.col or 10, each.codec.right, each.key == growing) for each in fields),
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


def kind_of(tag: str) -> type[Record] | None:
    """The kind of a tag."""
    return LETTERS.get(tag[:1]) if tag[1:].isdigit() else None
