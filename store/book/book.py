"""The book: one open job file. Everything that changes a job goes through `act`."""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping, Sequence
from datetime import UTC, date, datetime
from functools import partial
from pathlib import Path
from typing import Any

import msgspec

from store.book import migrate
from store.book.chain import archive, history
from store.book.chain.folded import Folded, fold
from store.book.chain.seals import seal_of
from store.book.changes import Change, Doc, Ledger, Put, Restore, Step
from store.book.copies import link
from store.book.decoding import Tables, decode_table, without_collecting
from store.book.errors import Busy, Conflict, Damaged, Replaced
from store.book.file import DurableFile
from store.book.framing_date import dated
from store.book.glance import GlancedTable
from store.book.outside.edits import as_said, refuse_laundering
from store.book.tables import read_table
from store.book.taken import DOUBTED, NO_JOB, Taken, take
from store.book.writing import Noted, saving, with_entry, write
from store.measure.errors import BadValue
from store.measure.text import clean
from store.records.base import Record, unknown_keys
from store.records.gate import Passage
from store.records.whole import KINDS, Job, Outside

Changes = Sequence[Change] | Callable[[Job], Sequence[Change]]
NO_TABLE = msgspec.Raw(b"{}")


class Book:
    """One job file: the job as it is, the actions on it, its history."""

    def __init__(self, file: DurableFile, who: str, today: Callable[[], date]) -> None:
        self._file = file
        self._today = today
        self._who = file.who = who
        self.session = os.urandom(4).hex()
        self.job = Job({})
        """The job as of the last read."""
        self._taken = Taken(file.path)
        """What was read last of all."""
        self._since = 0
        """Number of the first entry that was made here."""
        self._seal_checked = self._packed_checked = False
        self._glanced = False

    # --- opening ---

    @classmethod
    def open(cls, path: Path, who: str, today: Callable[[], date] = date.today, *, glance: bool = False) -> Book:
        """Open a job file. Raises NoFile, Damaged or Busy.

        With `glance` the records of each kind are read when they are first asked for, and nothing is known yet of
        the history: enough for a first paint, after which `settle` does the rest, and raises what is wrong.
        """
        book = cls(DurableFile(path), who, today)
        try:
            tables = book._file.glance()
            # Another program's file is shown by its first table, before anything else of it is looked at.
            meta = decode_table(book.path, tables.get("_meta", NO_TABLE))
            if migrate.version_of(book.path, {"_meta": meta}) < migrate.FORMAT:
                book._migrate()
            elif glance:
                book._glance(tables)
                return book
            book._take(book._file.read())
        except BaseException:
            book.close()
            raise
        return book

    @classmethod
    def create(
        cls, path: Path, records: Sequence[Put], who: str, what: str, today: Callable[[], date] = date.today
    ) -> Book:
        """Make a new job file from changes that add its records, in one action."""
        book = cls(DurableFile(path), who, today)
        book._file.create(book._work_out(records, what))
        book._take(book._file.read())
        return book

    @property
    def path(self) -> Path:
        """The file."""
        return self._file.path

    @property
    def who(self) -> str:
        """Who acts; written into the history, and told to whoever waits for a save."""
        return self._who

    @who.setter
    def who(self, name: str) -> None:
        self._who = self._file.who = name

    def wait_at_most(self, patience_s: float) -> None:
        """How long to wait for someone else's save, seconds."""
        self._file.patience_s = patience_s

    @classmethod
    def peek(cls, path: Path) -> Book:
        """Read a file as a job without ever writing to it, also one of an older form. Raises as `open`."""
        book = cls(DurableFile(path), "", date.today)
        try:
            tables = book._file.read()
            version = migrate.version_of(book.path, tables)
            book._take(tables if version == migrate.FORMAT else migrate.migrated(book.path, tables, version))
        except BaseException:
            book.close()
            raise
        return book

    def write_again(self) -> None:
        """Write the job once more where its file is gone, as it was read last. Raises Busy where there is one."""
        self.settle()
        self._file.write_again()

    def refresh(self) -> bool:
        """Read the file again if someone wrote it or the day changed, and look at the pictures; True for news."""
        self.settle()
        if self._file.changed() or self.job.today != self._today():
            self._take(self._file.read())
            return True
        return self._look_at_pictures()

    def _look_at_pictures(self) -> bool:
        """Note in `job.outside` which pictures that closings rest on are gone or changed; True when that is news."""
        from store.book.judging import PICTURE, lost_pictures

        others = (each for each in self.job.outside if each.kind != PICTURE)
        outside = (*others, *lost_pictures(self.job, self.path.parent))
        if outside == self.job.outside:
            return False
        self.job = self._taken.job = msgspec.structs.replace(self.job, outside=outside)
        return True

    def settle(self) -> None:
        """After a glance: read everything. Raises as `open`."""
        if self._glanced:
            self._take(self._file.read())

    def _migrate(self) -> None:
        """Bring an older file to today's form, in one action, keeping the old file beside it."""
        with self._file.locked():
            old = self._file.read()
            version = migrate.version_of(self.path, old)
            if version == migrate.FORMAT:
                return  # another copy of the program did it meanwhile
            tables = migrate.migrated(self.path, old, version)
            entries = history.docs_of(self.path, old)
            self._taken.last = history.last_of(entries, migrate.meta_of(old).get("last", 0))
            steps = migrate.brought_over(version, old, tables, fold(entries, Folded()).words)
            if steps:
                tables = with_entry(
                    tables, self._entry(steps, f"Convert the file from format {version}", "", "form", 0)
                )
            self._take(tables)  # what does not hold together is refused before anything is written
            try:
                kept, there = migrate.kept_name(self.path, version)
                if not there:
                    link(self.path, str(kept))
            except OSError as error:
                raise Busy(f"{self.path}: can't keep a copy of the old format: {error.strerror}") from error
            self._file.commit(tables)

    # --- reading ---

    def _glance(self, tables: Mapping[str, msgspec.Raw]) -> None:
        """Make the job of tables that are decoded when they are asked for."""
        records = {kind: GlancedTable(partial(self._records_of, kind, tables.get(kind, NO_TABLE))) for kind in KINDS}
        if "job" not in records["job"]:
            raise Damaged(self.path, NO_JOB)
        self._glanced = True
        self.job = Job(records, today=self._today())

    def _records_of(self, kind: str, table: msgspec.Raw) -> dict[str, Record]:
        return read_table(self.path, kind, decode_table(self.path, table), {}, {}).records

    def _take(self, tables: Tables) -> None:
        """Make the job of the tables."""
        from store.book.judging import CLOSED

        try:
            with without_collecting():
                self._take_up(take(self.path, tables, self._taken, self._today()))
        except BaseException:
            # The job stays the one before; without this the next action would write over what was refused here.
            self._file.distrust()
            raise
        self._seal_checked = self._packed_checked = self._glanced = False
        self.job = self._taken.job
        self._look_at_pictures()
        if any(each.stage == CLOSED for each in self.job.of(Passage).values()):
            self.audit()  # a closed wall stands on the whole history

    def _take_up(self, new: Taken) -> None:
        if self._taken.born and new.born and new.born != self._taken.born:
            raise Replaced(
                f"{self.path}: another job was put in its place: {clean(new.job.settings.name)}. "
                "What is open here is unchanged. Quit, then open the file again."
            )
        self._taken = new

    def entries(self) -> list[history.Entry]:
        """The history, oldest first."""
        return self._taken.past.entries()

    def last_entry(self) -> history.Entry | None:
        """The newest entry of the history."""
        return self._taken.past.last()

    @property
    def actions(self) -> int:
        """How many actions were made, as the file counts them."""
        return self._taken.last[0]

    def history_of(self, tag: str) -> list[history.Entry]:
        """The entries that touched a tag, newest first."""
        return [each for each in reversed(self.entries()) if any(step.tag == tag for step in each.changes)]

    def audit(self, *, inside: bool = False) -> None:
        """Check the seals of the history, once a version; what is broken joins `job.outside`.

        What is packed is looked at as it lies there, every byte of it; with `inside` also unpacked, entry by entry.
        """
        self.settle()
        tables, broken = self._taken.tables, ""
        if not self._seal_checked:
            last = migrate.meta_of(tables).get("last", 0)
            broken = history.broken_seal(self._taken.past.docs(), last, tables)
            self._seal_checked = True
        if inside and not broken and not self._packed_checked:
            # What was accepted is sealed as it lies there, byte by byte.
            accepted = history.accepted_at(self._taken.past.docs()) >= 0
            broken = "" if accepted else archive.broken_inside(tables)
            self._packed_checked = True
        if broken:
            outside = (*self.job.outside, Outside("history", broken, "history"))
            self.job = self._taken.job = msgspec.structs.replace(self.job, outside=outside)

    def unknown(self) -> list[tuple[str, str]]:
        """Keys in the file that this program does not know: (tag, key)."""
        self.settle()
        return [
            (tag, key)
            for kind, table in self._taken.docs.items()
            for tag, doc in table.items()
            for key in unknown_keys(doc, KINDS[kind])
        ]

    # --- acting ---

    def act(self, what: str, changes: Changes, why: str = "") -> Job:
        """Do one action: all of its changes on the newest state, in one durable write, or nothing.

        `changes` may be a function of the newest job, for what must be decided under the lock.
        Raises Conflict, BadValue, Held, Busy; then nothing was written.
        """
        return self._act(what, changes, why, "do", 0)

    def undo(self, why: str = "") -> history.Entry | None:
        """Take back the last action; None when there is none. Raises as `act`."""
        self.refresh()
        entry = self._taken.past.entry(self._back("undo"))
        if entry is not None:
            self._act(f"Undo: {entry.what}", history.inverse(entry), why, "undo", entry.n)
        return entry

    def redo(self, why: str = "") -> history.Entry | None:
        """Bring back what undo took back, for its own reason or another; None when there is nothing. As `act`."""
        self.refresh()
        entry = self._taken.past.entry(self._back("redo"))
        if entry is not None:
            self._act(f"Redo: {entry.what}", history.again(entry), why or entry.why, "redo", entry.n)
        return entry

    def _back(self, act: str) -> int:
        return self._taken.past.back(act, self.session, self._since)

    def mend(self, outside: Outside, why: str = "") -> None:
        """Put a record that was changed outside back to the history's word. It is not undone: that would launder it."""
        self.mend_all([outside], why)

    def mend_all(self, outside: Sequence[Outside], why: str = "") -> None:
        """The same with several, as one action: all of them or none."""
        self.settle()
        for each in outside:
            if each.kind not in KINDS:
                raise BadValue(f"can't restore {each.tag}. Run `studbook verify` to see what can be done.")
        changes = []
        for each in outside:
            said = None if each.what == DOUBTED else self.told(each.kind, each.tag)
            changes.append(Restore(each.kind, each.tag, said, self._taken.docs[each.kind].get(each.tag)))
        what = (
            f"{outside[0].tag}, which {outside[0].became}" if len(outside) == 1 else f"{len(outside)} records changed"
        )
        why = why or "restored from the history"
        self._act(f"Restore {what} outside of Studbook", changes, why, "mend", 0)

    def told(self, kind: str, tag: str) -> Doc | None:
        """What the history says last of a record; None where it says that it is gone, or nothing."""
        return self._taken.words.get((kind, tag))

    def note(self, work_out: Callable[[Taken, Job], Noted]) -> None:
        """Write an entry of the history that changes no record: see `confirming` and `accepting`.

        What it says is calculated on the newest state, inside the lock.
        """
        with self._file.locked():
            self.refresh()
            noted = work_out(self._taken, self.job)
            if noted.follows:
                self._taken.last = (self._taken.last[0], noted.follows)
            entry = self._entry(noted.steps, noted.what, noted.why, noted.act, 0, noted.past, **noted.more)
            with saving(self._file) as database:
                write(database, self._taken, [], entry, self._taken.serials, {})
            self._take(self._file.read())

    def _act(self, what: str, changes: Changes, why: str, act: str, of: int) -> Job:
        from store.book.judging import Listed, guard, with_pictures

        with self._file.locked():
            self.refresh()
            if act in ("undo", "redo") and not self._still(act, of):
                raise Conflict("someone else undid or redid it meanwhile. Nothing was changed. Look again first.")
            wanted = changes(self.job) if callable(changes) else changes
            if act == "mend" or any(each.kind == "passage" for each in wanted):
                self.audit(inside=True)
            ledger = Ledger(self._taken.docs, self._taken.serials, self._taken.words)
            steps = ledger.apply(wanted)
            if not steps:
                return self.job
            if act == "do":
                steps = dated(with_pictures(steps, self.path.parent), self.job, self._taken.docs)
            after = self._taken.job_after(steps, self._taken.last[0] + 1, self._today())
            listed = Listed()
            if act != "mend":
                refuse_laundering(self._taken.words, steps)
                said = as_said(self.job, self._taken.words, steps)
                listed = guard(self.job, after, steps, why, back=act != "do", said=said)
            off = [(each.key, each.what) for each in listed.off]
            packed = self._taken.past.newly_packed()
            past = archive.digest_of({**self._taken.tables, **packed}) if packed else ""
            entry = self._entry(steps, what, why, act, of, past, off=off, on=sorted(listed.on))
            with saving(self._file) as database:
                write(database, self._taken, steps, entry, ledger.serials, packed)
            try:
                self._since = self._since or entry.n
                self._taken.last = (entry.n, entry.seal)
                self._taken.settle(steps, after, self._file.saved(), ledger.serials, listed=listed != Listed())
                self.job = self._taken.job
            except BaseException:
                self._file.distrust()
                raise
        if any(step.kind == "closing" for step in steps):
            self._look_at_pictures()
        return self.job

    def _still(self, act: str, of: int) -> bool:
        return self._back(act) == of

    def _entry(
        self, steps: list[Step], what: str, why: str, act: str, of: int, past: str = "", **listed: Any
    ) -> history.Entry:
        """The sealed history entry of an action."""
        last, seal = self._taken.last
        at = datetime.now(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
        who, what, why = clean(self.who), clean(what), clean(why, lines=True)
        entry = history.Entry(last + 1, at, who, what, steps, self.session, why, act, of, past, **listed)
        return msgspec.structs.replace(entry, seal=seal_of(seal, msgspec.to_builtins(entry)))

    def _work_out(self, records: Sequence[Put], what: str) -> Tables:
        """The tables of a new file."""
        from store.book.judging import guard, guard_claims, with_pictures

        ledger = Ledger({}, {})
        steps = with_pictures(ledger.apply(records), self.path.parent)
        after = self._taken.job_after(steps, 1, self._today())
        if "job" not in after.tables.get("job", {}):
            raise BadValue("no job settings in the file (kind job). Add them. No file was made.")
        guard(Job({}, today=self._today()), after, [step for step in steps if step.kind != "passage"])
        guard_claims(after)
        made: Tables = {"_meta": {"1": {"studbook": migrate.FORMAT, "next": ledger.serials, "last": 0}}}
        for step in steps:
            made.setdefault(step.kind, {})[str(self._taken.places[step.kind].of(step.tag))] = step.after
        return with_entry(made, self._entry(steps, what, "", "do", 0))

    def close(self) -> None:
        """Let go of the file."""
        self._file.close()
