"""One state of the file, read and looked through: its records, what its history says of them, and the job of both."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path

import msgspec

from store.book import migrate
from store.book.chain import archive, history
from store.book.chain.folded import patched
from store.book.chain.past import Past
from store.book.changes import Doc, Step
from store.book.decoding import Tables
from store.book.errors import Damaged
from store.book.outside.edits import outside_of
from store.book.places import Places
from store.book.tables import read_table
from store.records.base import Record, from_doc
from store.records.whole import KINDS, Job, Outside

GATE_KINDS = ("closing", "answer", "passage")
"""What the gate stands on."""
DOUBTED = "depends on a damaged part of the history"
NO_JOB = "it has no job record (table job, tag job)"


class Taken:
    """What was read; changed only by `settle`, when an action of this book got to the disk."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.tables: Tables = {}
        """The tables that the job was made of. Nothing else looks into the file, or what was refused could slip in."""
        self.job = Job({})
        self.docs: dict[str, dict[str, Doc]] = {}
        self.places = {kind: Places(kind) for kind in KINDS}
        self.words: dict[tuple[str, str], Doc | None] = {}
        """What the history says last of each record."""
        self.serials: dict[str, int] = {}
        self.last = (0, "")
        """Number and seal of the last entry of the history."""
        self.past = Past(path)

    @property
    def born(self) -> str:
        """What tells this job from every other: the seal of its first entry; empty where that is not there."""
        meta = self.tables.get("_meta", {}).get("1", {})
        first = self.tables.get("history", {}).get("1", {})
        return str(meta.get("born") or first.get("seal", ""))

    def settle(
        self, steps: Sequence[Step], after: Job, tables: Tables, serials: Mapping[str, int], *, listed: bool = False
    ) -> None:
        """Take over the state after an action without reading the file again; `listed`: it took rough-in items off the
        list, or brought some back."""
        self.tables = self.past.tables = tables
        self.serials = dict(serials)
        for step in steps:
            key = step.kind, step.tag
            self.words[key] = patched(self.words.get(key), step.before, step.after)
            table = self.docs.setdefault(step.kind, {})
            if step.after is None:
                table.pop(step.tag, None)
            else:
                table[step.tag] = step.after
        removed = after.removed
        if listed or any(step.kind == "check" for step in steps):
            removed = history.removed(self.past.says())
        self.job = msgspec.structs.replace(after, removed=removed)

    def job_after(self, steps: Sequence[Step], n: int, today: date) -> Job:
        """The job as it will be after these steps."""
        tables = {kind: dict(self.job.tables.get(kind, {})) for kind in {step.kind for step in steps}}
        marks = dict(self.job.marks)
        touched = {(step.kind, step.tag) for step in steps}
        for step in steps:
            if self.words.get((step.kind, step.tag)) != step.after:
                marks[step.tag] = n
            if step.after is None:
                tables[step.kind].pop(step.tag, None)
            else:
                self._put_in(tables[step.kind], from_doc(step.after, KINDS[step.kind]))
        outside = [each for each in self.job.outside if (each.kind, each.tag) not in touched]
        for step in steps:
            word = patched(self.words.get((step.kind, step.tag)), step.before, step.after)
            if word != step.after:
                outside.append(outside_of(step.kind, step.tag, word, step.after))
        return Job({**self.job.tables, **tables}, marks, tuple(outside), self.job.removed, today)

    def _put_in(self, table: dict[str, Record], record: Record) -> None:
        """Put a record in a table; one that comes back stands where it stood."""
        place = self.places[record.kind].of
        moves = record.tag not in table and table and place(record.tag) < place(next(reversed(table)))
        table[record.tag] = record
        if moves:
            ordered = sorted(table.items(), key=lambda item: place(item[0]))
            table.clear()
            table.update(ordered)


def take(path: Path, tables: Tables, before: Taken, today: date) -> Taken:
    """Read the tables; what did not change since `before` is taken over from it. Raises Damaged."""
    migrate.must_be_current(path, tables)
    if wrong := archive.wrong_in(tables):
        raise Damaged(path, f"its history is damaged: {wrong}")
    read = {
        kind: read_table(path, kind, tables.get(kind, {}), before.docs.get(kind, {}), before.job.tables.get(kind, {}))
        for kind in KINDS
    }
    if "job" not in read["job"].records:
        raise Damaged(path, NO_JOB)
    new = Taken(path)
    new.tables = new.past.tables = tables
    new.docs = {kind: table.docs for kind, table in read.items()}
    told = new.past.says()
    new.words = told.words
    new.places = {kind: Places(kind, table.numbers) for kind, table in read.items()}
    meta = migrate.meta_of(tables)
    new.serials = history.serials_of(new.words, meta.get("next", {}))
    new.last = history.last_of(new.past.docs(), meta.get("last", 0))
    records = {kind: table.records for kind, table in read.items()}
    # What is doubted is so whatever else was done to it, and what is not there any more is no matter.
    doubted = [(kind, key) for kind, key in told.doubted if key in new.docs.get(kind, {})]
    edited = [each for each in history.outside(new.words, new.docs) if (each.kind, each.tag) not in doubted]
    outside = (*edited, *(Outside(kind, key, DOUBTED) for kind, key in doubted))
    new.job = Job(records, told.marks, outside, history.removed(told), today)
    return new
