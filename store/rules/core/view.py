"""A job that notes what is read of it: what a query is given in place of the job itself.

It answers as a `Job` does. What is read goes to the query that is running, in the smallest part that was asked for:
one record of a table (also that it is not there), the tags of a table in their order, or a whole table. Nobody lists
what an answer was made from.
"""

from __future__ import annotations

from collections.abc import ItemsView, Iterator, KeysView, Mapping, ValuesView
from datetime import date
from itertools import compress
from operator import is_not
from threading import local
from typing import Any, TypeVar, cast

from store.records.base import Record
from store.records.field import Manner
from store.records.job import Settings
from store.records.whole import KINDS, LETTERS, Job, Outside, Removed
from store.rules.core.settings_read import SettingsRead, fields_touched

R = TypeVar("R", bound=Record)
S = TypeVar("S", bound=Record)
K = TypeVar("K")
T = TypeVar("T")

EVERYTHING = "*"
"""In place of a table: all of the job was read."""
MOST_READ = 1_000
"""A query that reads more records than this one by one is taken to read their whole tables: its trace stays short."""
NO_RECORDS: Mapping[str, Record] = {}

Part = str | tuple[str, str | None]
"""What can be read of a job: a whole table or one of its other parts by name, a record by table and tag, or, with None
for the tag, the tags of a table in their order; of the settings also a field."""


class Reads:
    """What a running query has read so far."""

    __slots__ = ("asked", "parts")

    def __init__(self) -> None:
        self.parts: set[Part] = set()
        self.asked: dict[Any, object] = {}
        """The answers of other queries, in the order in which they were asked for; of some only what is under a key."""

    def note(self, kind: str, tag: str | None) -> None:
        """A record was read, or the tags of a table."""
        parts = self.parts
        if kind in parts:
            return
        parts.add((kind, tag))
        if len(parts) > MOST_READ:
            self.parts = {each if isinstance(each, str) else each[0] for each in parts}

    def take(self, other: Reads) -> None:
        """What a query has read that came to nothing: whoever asked it stands on that."""
        self.parts |= other.parts
        self.asked |= other.asked


class Running(local):
    """The query that is running in this thread, if any."""

    reads: Reads | None = None


RUNNING = Running()


def note(kind: str, tag: str) -> None:
    """A record was read, or a field of the settings."""
    if RUNNING.reads is not None:
        RUNNING.reads.note(kind, tag)


def note_whole(*parts: str) -> None:
    """Whole tables were read, or other parts of a job."""
    if RUNNING.reads is not None:
        RUNNING.reads.parts.update(parts)


class Table(Mapping[str, R]):
    """The records of one kind, by tag, as a view gives them."""

    __slots__ = ("_kind", "_records", "_view")

    def __init__(self, view: View, kind: str, records: Mapping[str, R]) -> None:
        self._view = view
        self._kind = kind
        self._records = records

    def get(self, tag: str, default: Any = None) -> Any:
        """The record of a tag; noted alone."""
        found = self._records.get(tag)
        if RUNNING.reads is not None:
            RUNNING.reads.note(self._kind, tag)
        return default if found is None else found

    def __getitem__(self, tag: str) -> R:
        found = self.get(tag)
        if found is None:
            raise KeyError(tag)
        return cast(R, found)

    def __contains__(self, tag: object) -> bool:
        return self.get(cast(str, tag)) is not None

    def __iter__(self) -> Iterator[str]:
        return iter(self._tags())

    def __len__(self) -> int:
        return len(self._tags())

    def keys(self) -> KeysView[str]:
        """The tags; what the records say is not read."""
        self._tags()
        return self._records.keys()

    def values(self) -> ValuesView[R]:
        """The records; the whole table is read."""
        note_whole(self._kind)
        return self._records.values()

    def items(self) -> ItemsView[str, R]:
        """Tags with records; the whole table is read."""
        note_whole(self._kind)
        return self._records.items()

    def _tags(self) -> tuple[str, ...]:
        tags = self._view.tags(self._kind)
        if RUNNING.reads is not None:
            RUNNING.reads.note(self._kind, None)
        return tags


class Tables(Mapping[str, Table[Record]]):
    """The tables of a view by kind; one that the job has not is empty."""

    __slots__ = ("_view",)

    def __init__(self, view: View) -> None:
        self._view = view

    def __getitem__(self, kind: str) -> Table[Record]:
        return self._view.table(kind)

    def __iter__(self) -> Iterator[str]:
        note_whole(EVERYTHING)  # which tables there are is nowhere noted by itself
        return iter(self._view.job.tables)

    def __len__(self) -> int:
        note_whole(EVERYTHING)
        return len(self._view.job.tables)


class View:
    """One job as queries read it. It belongs to an engine, which keeps the answers.

    It has all that a `Job` has, and is given where a `Job` is asked for.
    """

    __slots__ = ("_settings", "_tables", "engine", "job", "number")

    def __init__(self, engine: Any, job: Job, number: int) -> None:
        self.engine = engine
        """What keeps the answers and makes the views: `memo.Engine`, which takes views from here."""
        self.job = job
        self.number = number
        self._tables: dict[str, Table[Any]] = {}
        self._settings: SettingsRead | None = None

    # --- as a Job ---

    @property
    def tables(self) -> Tables:
        """The tables by kind."""
        return Tables(self)

    @property
    def marks(self) -> Mapping[str, int]:
        """Number of the last change of each tag; read whole."""
        note_whole("marks")
        return self.job.marks

    @property
    def outside(self) -> tuple[Outside, ...]:
        """What no action of the program did."""
        note_whole("outside")
        return self.job.outside

    @property
    def removed(self) -> tuple[Removed, ...]:
        """What was taken off the list."""
        note_whole("removed")
        return self.job.removed

    @property
    def today(self) -> date:
        """The day."""
        note_whole("today")
        return self.job.today

    @property
    def settings(self) -> Settings:
        """What holds for the whole job; what is read of it is noted field by field."""
        if self._settings is None:
            one = self.records(Settings.kind).get(Settings.kind)
            if one is None:
                note_whole(Settings.kind)
                return self.job.settings
            self._settings = SettingsRead(cast(Settings, one), note)
        return cast(Settings, self._settings)

    @property
    def manner(self) -> Manner:
        """How this job's owner writes."""
        return cast(Manner, Job.manner.fget(self))  # type: ignore[attr-defined]

    def of(self, cls: type[R]) -> Table[R]:
        """The records of a kind, by tag."""
        return self.table(cls.kind)

    def get(self, tag: str) -> Record | None:
        """The record of a tag such as `K3`, or None."""
        cls = LETTERS.get(tag[:1])
        return self.table(cls.kind).get(tag) if cls else None

    def having(self, record: Record) -> Job:
        """The job with one record put in place, as a plain job: everything was read for it."""
        note_whole(EVERYTHING)
        return self.job.having(record)

    def each(self) -> Iterator[Record]:
        """Every record of the job."""
        note_whole(EVERYTHING)
        return self.job.each()

    # --- for queries ---

    def table(self, kind: str) -> Table[Any]:
        """The table of a kind."""
        found = self._tables.get(kind)
        if found is None:
            found = self._tables[kind] = Table(self, kind, self.records(kind))
        return found

    def records(self, kind: str) -> Mapping[str, Record]:
        """The bare records of a kind; nothing is noted."""
        return self.job.tables.get(kind, NO_RECORDS)

    def tags(self, kind: str) -> tuple[str, ...]:
        """The tags of a kind in their order: the same object as before as long as they are the same."""
        kept, records = self.engine.tags.get(kind, (None, ())), self.records(kind)
        if kept[0] is not records:
            tags = tuple(records)
            kept = self.engine.tags[kind] = (records, kept[1] if kept[1] == tags else tags)
        return cast("tuple[str, ...]", kept[1])


def touched(before: View, after: View) -> Iterator[Part]:
    """What is another in a view: tables, records that are others, came or went, the tags of a table, other parts."""
    one, other = before.job, after.job
    if one.tables is not other.tables:
        yield EVERYTHING
    for kind in KINDS:
        if one.tables.get(kind) is not other.tables.get(kind):
            was, now = before.records(kind), after.records(kind)
            yield kind
            if before.tags(kind) is after.tags(kind):
                yield from [(kind, tag) for tag in compress(now, map(is_not, was.values(), now.values()))]
            else:
                yield from [(kind, tag) for tag, record in now.items() if was.get(tag) is not record]
                yield from [(kind, tag) for tag in was if tag not in now]
                yield (kind, None)
            if kind == Settings.kind:
                yield from fields_touched(*(cast("Settings | None", each.get(kind)) for each in (was, now)))
    for part in ("marks", "outside", "removed"):
        if getattr(one, part) is not getattr(other, part):
            yield part
            yield EVERYTHING
    if one.today != other.today:
        yield "today"
        yield EVERYTHING


class Looked(Mapping[K, T]):
    """The dictionary that a query gives, as another query has it: looked at key by key, or as a whole.

    Whoever looks stands on what is looked at alone, also where nothing is there.
    """

    __slots__ = ("_by", "_job")

    def __init__(self, by: Any, job: View) -> None:
        self._by = by
        self._job = job

    def get(self, key: Any, default: Any = None) -> Any:
        """What is under a key."""
        found = self._by.one(self._job, key)
        return default if found is None else found

    def __getitem__(self, key: K) -> T:
        found: T | None = self._by.one(self._job, key)
        if found is None:
            raise KeyError(key)
        return found

    def __contains__(self, key: object) -> bool:
        return self.get(key) is not None

    def __iter__(self) -> Iterator[K]:
        return iter(self.whole())

    def __len__(self) -> int:
        return len(self.whole())

    def keys(self) -> KeysView[K]:
        """The keys."""
        return self.whole().keys()

    def values(self) -> ValuesView[T]:
        """What is under them."""
        return self.whole().values()

    def items(self) -> ItemsView[K, T]:
        """Both."""
        return self.whole().items()

    def whole(self) -> Mapping[K, T]:
        """The dictionary itself."""
        every: Mapping[K, T] = self._by.whole(self._job)
        return every
