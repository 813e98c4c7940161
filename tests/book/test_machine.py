"""Random actions, undo, redo, second copies and reopening, against a plain dictionary of what must be there."""

from __future__ import annotations

import shutil
import tempfile
from pathlib import Path
from typing import Any

import msgspec
from hypothesis import settings as run_settings
from hypothesis import strategies as st
from hypothesis.stateful import (
    Bundle,
    RuleBasedStateMachine,
    consumes,
    initialize,
    invariant,
    multiple,
    precondition,
    rule,
)

from store.book.book import Book
from store.book.changes import add, drop, edit
from store.book.errors import Conflict
from store.measure.length import Length
from store.records.base import to_doc
from store.records.people import Contact
from store.records.wall import Reading, Wall
from tests.book.build import contact, litter, make, raw, reading, reopen, wall

Model = dict[str, dict[str, Any]]
NAMES = st.sampled_from(["A", "B", "C", "½ \U0001f4fa"])


class Machine(RuleBasedStateMachine):
    """One file, one copy of the program that may be closed at any time, and now and then a second one."""

    tags = Bundle("tags")

    @initialize()
    def begin(self) -> None:
        self.folder = Path(tempfile.mkdtemp(prefix="book"))
        self.path = self.folder / "wall.json"
        self.book = make(self.path, wall("W1"))
        self.model: Model = {tag: to_doc(each) for tag, each in self.all().items()}
        self.given = {"W1"}
        self.done: list[tuple[Model, Model]] = []
        self.undone: list[tuple[Model, Model]] = []
        self.actions = 1

    def all(self, book: Book | None = None) -> dict[str, Any]:
        return {each.tag: each for each in (book or self.book).job.each()}

    def did(self, model: Model) -> None:
        if model != self.model:
            self.done.append((self.model, model))
            self.undone, self.model, self.actions = [], model, self.actions + 1

    @rule(target=tags, name=NAMES, on_wall=st.booleans())
    def make_one(self, name: str, on_wall: bool) -> Any:
        record = reading(inches=len(name)) if on_wall and "W1" in self.model else contact(name=name)
        before = set(self.model)
        self.book.act("Add", [add(record)])
        tag = next(tag for tag in self.all() if tag not in before)
        assert tag not in self.given
        self.given.add(tag)
        self.did({**self.model, tag: {**to_doc(record), "tag": tag}})
        return tag

    @rule(target=tags, name=NAMES)
    def make_two_at_once(self, name: str) -> Any:
        before = set(self.model)
        self.book.act("Add two", [add(contact(name=name)), add(contact(name=name + "2"))])
        new = [tag for tag in self.all() if tag not in before]
        assert len(new) == 2
        assert not self.given & set(new)
        self.given |= set(new)
        model = dict(self.model)
        for tag, suffix in zip(sorted(new, key=lambda each: int(each[1:])), ("", "2"), strict=True):
            model[tag] = {"tag": tag, "name": name + suffix, "trade": "electrician"}
        self.did(model)
        return multiple(*new)

    @rule(tag=tags, name=NAMES)
    def edit_one(self, tag: str, name: str) -> None:
        one = self.all().get(tag)
        if isinstance(one, Contact):
            self.book.act("Edit", [edit(one, msgspec.structs.replace(one, name=name))])
            self.did({**self.model, tag: {**self.model[tag], "name": name}})
        elif isinstance(one, Reading):
            value = Length(len(name) * 254_000_000)
            self.book.act("Edit", [edit(one, msgspec.structs.replace(one, value=value))])
            self.did({**self.model, tag: {**self.model[tag], "value": f"{len(name) * 10} in"}})

    @rule(tag=consumes(tags))
    def remove_one(self, tag: str) -> None:
        one = self.all().get(tag)
        if one is not None:
            self.book.act("Remove", [drop(one)])
            self.did({key: doc for key, doc in self.model.items() if key != tag})

    @rule(name=NAMES)
    def edit_the_wall_and_all_contacts(self, name: str) -> None:
        old = [each for each in self.all().values() if isinstance(each, Contact | Wall)]
        self.book.act("Edit all", [edit(each, msgspec.structs.replace(each, name=name)) for each in old])
        tags = {each.tag for each in old}
        self.did({tag: {**doc, "name": name} if tag in tags else doc for tag, doc in self.model.items()})

    @precondition(lambda self: self.done)
    @rule()
    def undo(self) -> None:
        assert self.book.undo() is not None
        before, after = self.done.pop()
        assert self.model == after
        self.undone.append((before, after))
        self.model, self.actions = before, self.actions + 1

    @precondition(lambda self: not self.done)
    @rule()
    def undo_nothing(self) -> None:
        assert self.book.undo() is None

    @precondition(lambda self: self.undone)
    @rule()
    def redo(self) -> None:
        assert self.book.redo() is not None
        before, after = self.undone.pop()
        assert self.model == before
        self.done.append((before, after))
        self.model, self.actions = after, self.actions + 1

    @precondition(lambda self: not self.undone)
    @rule()
    def redo_nothing(self) -> None:
        assert self.book.redo() is None

    @rule(tag=tags)
    def a_stale_form_is_refused(self, tag: str) -> None:
        one = self.all().get(tag)
        if not isinstance(one, Contact):
            return
        stale = msgspec.structs.replace(one, name=one.name + "?")
        before = self.path.read_bytes()
        try:
            self.book.act("Edit", [edit(stale, msgspec.structs.replace(stale, name="other"))])
        except Conflict:
            assert self.path.read_bytes() == before
        else:
            raise AssertionError("a stale value was written over")

    @rule(glance=st.booleans())
    def close_and_open_again(self, glance: bool) -> None:
        self.book.close()
        # The session is that of the same person going on, so that undo means the same to the model.
        session = self.book.session
        self.book = (
            Book.open(self.path, "Ann", lambda: self.book.job.today, glance=glance) if glance else reopen(self.path)
        )
        self.book.settle()
        self.book.session = session

    @rule(name=NAMES)
    def somebody_else_looks_and_saves_nothing(self, name: str) -> None:
        other = reopen(self.path, "Ben")
        assert other.refresh() is False
        other.act("Nothing", lambda job: [])
        other.close()

    @invariant()
    def holds(self) -> None:
        if not hasattr(self, "book"):
            return
        assert {tag: to_doc(each) for tag, each in self.all().items()} == self.model
        tables = raw(self.path)
        kept = [table.values() for kind, table in tables.items() if kind not in ("_meta", "history")]
        docs = {doc["tag"]: doc for table in kept for doc in table}
        assert docs == self.model
        assert len(tables["history"]) == tables["_meta"]["1"]["last"] == self.actions
        assert litter(self.path) == []

    def teardown(self) -> None:
        if hasattr(self, "book"):
            last = reopen(self.path)
            last.audit()
            assert last.job.outside == ()
            assert last.job.tables == self.book.job.tables
            assert [list(table) for table in last.job.tables.values()] == [
                list(table) for table in self.book.job.tables.values()
            ]
            assert last.job.marks == self.book.job.marks
            shutil.rmtree(self.folder)


TestMachine = Machine.TestCase
TestMachine.settings = run_settings(max_examples=25, stateful_step_count=25, deadline=None)
