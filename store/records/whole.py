"""Job: the whole of a job in memory, and the list of all kinds of record."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from typing import TypeVar, cast

import msgspec

from store.records.access import Panel, Photo, Visit
from store.records.base import Record
from store.records.build import Fixing
from store.records.equipment import Equipment
from store.records.field import Manner, fields_of
from store.records.gate import Answer, Check, Closing, Passage
from store.records.inside import ShelfBoard
from store.records.job import Settings
from store.records.people import Amount, Contact, Handoff, Step, Wish
from store.records.room import Furniture
from store.records.wall import BuildOut, Obstacle, Opening, Reading, Wall, Zone
from store.records.wiring import Box, Cable, Circuit, Raceway

R = TypeVar("R", bound=Record)

KINDS: dict[str, type[Record]] = {
    cls.kind: cls
    for cls in (
        Settings, Wall, Reading, Obstacle, Opening, Equipment, Box, Circuit, Cable, Raceway, Panel, Visit,
        Photo, Check, Closing, Answer, Contact, Step, Amount, Handoff, Wish, Passage, Fixing, BuildOut, Zone,
        ShelfBoard, Furniture,
    )
}  # fmt: skip
"""Every kind of record by the name of its table."""

LETTERS: dict[str, type[Record]] = {cls.letter: cls for cls in KINDS.values() if cls.letter}
"""Every kind that has tags, by its letter."""


_LETTER_OF = {kind: cls.letter for kind, cls in KINDS.items()}


def serial_of(kind: str, tag: str) -> int:
    """The number in a tag: 3 for `K3` of a cable; 0 when it is not a tag of that kind."""
    letter, number = _LETTER_OF[kind], tag[1:]
    good = letter and tag[:1] == letter and number.isascii() and number.isdigit()
    return int(number) if good and number[0] != "0" and len(number) <= 9 else 0


class Outside(msgspec.Struct, frozen=True):
    """Something in the file that no action of the program put there, or took away."""

    kind: str
    tag: str
    what: str
    """`added`, `changed` or `vanished`; or `history` when the history itself does not hold together; of a picture that
    closings rest on `can't be found` or `was changed`."""
    fields: tuple[str, ...] = ()
    """Of a changed record the fields that are not as the program wrote them."""

    @property
    def done(self) -> str:
        """What was done to it, in words: `added`, `changed`, `deleted`."""
        return "deleted" if self.what == "vanished" else self.what

    @property
    def became(self) -> str:
        """What became of it, in words: `was deleted`; or that it rests on what nobody vouches for."""
        return f"was {self.done}" if self.what in ("added", "changed", "vanished") else self.what


class Removed(msgspec.Struct, frozen=True):
    """A rough-in item, or an item of the plan, that was taken off the list; its tag is its key."""

    tag: str
    what: str
    by: str
    at: str
    reason: str


class Job(msgspec.Struct, frozen=True):
    """A whole job. Never changed: an action makes a new one."""

    tables: Mapping[str, Mapping[str, Record]]
    """Records by kind and tag, in the order they were made."""
    marks: Mapping[str, int] = {}
    """Number of the last change of each tag, as the history has it; also of tags that are gone."""
    outside: tuple[Outside, ...] = ()
    removed: tuple[Removed, ...] = ()
    today: date = date.min

    @property
    def settings(self) -> Settings:
        """What holds for the whole job."""
        return cast(Settings, self.tables["job"]["job"])

    @property
    def manner(self) -> Manner:
        """How this job's owner writes lengths, dates and money."""
        one = self.settings
        return Manner(self.today, one.metric, one.region != "us", one.currency, one.decimal == "comma")

    def of(self, cls: type[R]) -> Mapping[str, R]:
        """The records of a kind, by tag."""
        return cast("Mapping[str, R]", self.tables.get(cls.kind, {}))

    def get(self, tag: str) -> Record | None:
        """The record of a tag such as `K3`, or None."""
        cls = LETTERS.get(tag[:1])
        return self.tables.get(cls.kind, {}).get(tag) if cls else None

    def having(self, record: Record) -> Job:
        """The job with one record put in place of the one of its tag: for a look at what would follow."""
        table = {**self.tables.get(record.kind, {}), record.tag: record}
        return msgspec.structs.replace(self, tables={**self.tables, record.kind: table})

    def each(self) -> Iterator[Record]:
        """Every record of the job."""
        for table in self.tables.values():
            yield from table.values()


def references(record: Record) -> Iterator[tuple[str, str, tuple[str, ...]]]:
    """Each reference of a record: key of the field, the tag named, the kinds it may name (empty: any)."""
    for field in fields_of(type(record)):
        if field.codec.name not in ("ref", "refs"):
            continue
        value = getattr(record, field.key)
        for tag in (value,) if isinstance(value, str) else value:
            if tag:
                yield field.key, tag, field.says.kinds
