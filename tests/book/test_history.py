"""Every action is in the history, and can be taken back and brought back."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import msgspec
import pytest

from store.book.chain.history import Back, Entry, broken_seal, undoable
from store.book.changes import add, drop
from store.book.errors import Conflict
from store.records.people import Contact
from store.records.wall import Reading, Wall
from store.rules.gate.guard import Held, NeedsReason
from tests.book.build import check, contact, make, raw, reading, reopen, rewrite, wall
from tests.book.test_conflicts import changed


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """A job with a wall."""
    path = tmp_path / "wall.json"
    make(path, wall("W1")).close()
    return path


def names(path: Path) -> dict[str, str]:
    """Contacts by tag."""
    return {tag: each.name for tag, each in reopen(path).job.of(Contact).items()}


def test_an_entry_holds_who_when_what_why_before_and_after(job: Path) -> None:
    book = reopen(job, "Ben")
    book.act("Add a contact", [add(contact(name="A"))], "needed")
    old = book.job.of(Contact)["T1"]
    book.act("Edit T1", [changed(old, name="B", phone="555-0101")])
    book.act("Remove T1", [drop(book.job.of(Contact)["T1"])], "moved away")
    made, added, edited, removed = reopen(job).entries()
    first, second = (
        {"tag": "T1", "name": "A", "trade": "electrician"},
        {"tag": "T1", "name": "B", "trade": "electrician"},
    )
    second["phone"] = "555-0101"
    assert [(each.n, each.who, each.what, each.why, each.act) for each in (made, added, edited, removed)] == [
        (1, "Ann", "Begin", "", "do"),
        (2, "Ben", "Add a contact", "needed", "do"),
        (3, "Ben", "Edit T1", "", "do"),
        (4, "Ben", "Remove T1", "moved away", "do"),
    ]
    assert [(each.kind, each.tag, each.before) for each in made.changes] == [("job", "job", None), ("wall", "W1", None)]
    assert [(each.changes[0].before, each.changes[0].after) for each in (added, edited, removed)] == [
        (None, first),
        (first, second),
        (second, None),
    ]
    for each in (made, added, edited, removed):
        assert re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ", each.at)
        assert len(each.changes) == (2 if each is made else 1)
    assert [each.n for each in reopen(job).history_of("T1")] == [4, 3, 2]


def test_the_whole_history_replayed_gives_the_job(job: Path) -> None:
    book = reopen(job)
    for count in range(5):
        book.act("Add", [add(contact(name=str(count))), add(reading(inches=100 + count))])
    book.act("Edit", [changed(book.job.of(Contact)["T2"], mail="a@example.com")])
    book.act("Remove", [drop(book.job.of(Reading)["D3"])])
    book.undo()
    book.undo()
    book.redo()
    replayed: dict[tuple[str, str], object] = {}
    for entry in reopen(job).entries():
        for step in entry.changes:
            assert replayed.get((step.kind, step.tag)) == step.before
            replayed[step.kind, step.tag] = step.after
    kept = {key: doc for key, doc in replayed.items() if doc is not None}
    tables = raw(job)
    assert kept == {
        (kind, doc["tag"]): doc
        for kind, table in tables.items()
        if kind not in ("_meta", "history")
        for doc in table.values()
    }


def test_undo_and_redo_walk_the_stack_down_and_up(job: Path) -> None:
    book = reopen(job)
    states = [names(job)]
    for name in "ABC":
        book.act(f"Add {name}", [add(contact(name=name))])
        states.append(names(job))
    for count in (2, 1, 0):
        entry = book.undo()
        assert entry is not None
        assert entry.what == f"Add {'ABC'[count]}"
        assert names(job) == states[count]
    assert book.undo() is None  # the making of the job stays
    for count in (1, 2, 3):
        assert book.redo() is not None
        assert names(job) == states[count]
    assert book.redo() is None
    assert [each.what for each in book.entries()][4:6] == ["Undo: Add C", "Undo: Add B"]
    assert [(each.act, each.of) for each in book.entries()][-3:] == [("redo", 2), ("redo", 3), ("redo", 4)]


def test_a_new_action_ends_what_could_be_brought_back(job: Path) -> None:
    book = reopen(job)
    for name in "AB":
        book.act(f"Add {name}", [add(contact(name=name))])
    book.undo()
    book.act("Add C", [add(contact(name="C"))])
    assert book.redo() is None
    assert book.undo() is not None
    assert names(job) == {"T1": "A"}
    # Also when the program was closed between.
    book.act("Add D", [add(contact(name="D"))])
    later = reopen(job)
    assert later.undo() is not None
    again = reopen(job)
    again.act("Add E", [add(contact(name="E"))])
    assert again.redo() is None


def test_undo_and_redo_go_on_after_reopening(job: Path) -> None:
    book = reopen(job)
    for name in "AB":
        book.act(f"Add {name}", [add(contact(name=name))])
    book.close()
    later = reopen(job)
    assert later.undo() is not None
    assert later.undo() is not None
    assert names(job) == {}
    last = reopen(job)
    assert last.redo() is not None
    assert last.redo() is not None
    assert last.redo() is None
    assert names(job) == {"T1": "A", "T2": "B"}


def test_undone_redone_and_undone_again(job: Path) -> None:
    book = reopen(job)
    book.act("Add A", [add(contact(name="A"))])
    for _ in range(3):
        assert book.undo() is not None
        assert names(job) == {}
        assert book.redo() is not None
        assert names(job) == {"T1": "A"}


def test_two_sessions_take_back_their_own_first(job: Path) -> None:
    ann, ben = reopen(job, "Ann"), reopen(job, "Ben")
    ann.act("Add A", [add(contact(name="A"))])
    ben.act("Add B", [add(contact(name="B"))])
    entry = ann.undo()
    assert entry is not None
    assert entry.what == "Add A"
    assert names(job) == {"T2": "B"}
    # A new action of the one does not end what the other may bring back.
    ben.act("Add C", [add(contact(name="C"))])
    assert ben.redo() is None
    assert ann.redo() is not None
    assert names(job) == {"T1": "A", "T2": "B", "T3": "C"}
    for wanted in ("Add C", "Add B", "Add A"):
        entry = ben.undo()
        assert entry is not None
        assert entry.what == wanted
    assert ben.undo() is None
    assert names(job) == {}


def test_what_was_built_upon_is_not_taken_back_from_under_it(job: Path) -> None:
    ann, ben = reopen(job, "Ann"), reopen(job, "Ben")
    ann.act("Add A", [add(contact(name="A"))])
    ben.refresh()
    ben.act("Edit", [changed(ben.job.of(Contact)["T1"], phone="555-0101")])
    before = job.read_bytes()
    with pytest.raises(Conflict, match=r"T1 was changed since\. Undo that later change first"):
        ann.undo()
    assert job.read_bytes() == before
    ben.undo()
    assert ann.undo() is not None
    assert names(job) == {}


def test_undo_passes_the_guard_like_any_action(job: Path) -> None:
    book = reopen(job)
    book.act("Add Q1", [add(check())])
    with pytest.raises(NeedsReason, match="Write down why"):
        book.undo()
    assert "Q1" in reopen(job).job.tables["check"]
    assert book.undo("written by mistake") is not None
    assert book.entries()[-1].why == "written by mistake"
    assert issubclass(NeedsReason, Held)


def test_an_undo_that_somebody_else_was_quicker_with(job: Path) -> None:
    ann, ben = reopen(job, "Ann"), reopen(job, "Ben")
    ann.act("Add A", [add(contact(name="A"))])
    ben.refresh()
    undo = ben._back("undo")
    assert undo
    ann.undo()
    with pytest.raises(Conflict, match="someone else undid"):
        ben._act("Undo", [], "", "undo", undo)


def test_the_seals_hold_from_the_first_entry_to_the_last(job: Path) -> None:
    book = reopen(job)
    for name in "ABCD":
        book.act("Add", [add(contact(name=name, phone='½ \U0001f4fa \\ " \u2028'))])
    book.act("Add", [add(reading()), changed(book.job.of(Wall)["W1"], name="x")])
    for each in (book, reopen(job)):
        each.audit()
        assert each.job.outside == ()
    docs = list(raw(job)["history"].values())
    assert broken_seal(docs, 6) == ""
    assert len({each["seal"] for each in docs}) == 6


def test_each_alteration_of_the_history_breaks_a_seal(job: Path) -> None:
    book = reopen(job)
    for name in "ABCD":
        book.act("Add", [add(contact(name=name))])
    docs = list(raw(job)["history"].values())
    for at in range(5):
        assert f"change {at + 1} " in broken_seal([*docs[:at], *docs[at + 1 :]], 5) or at == 4
        for key, value in (("who", "Eve"), ("why", "x"), ("at", "2020-01-01T00:00:00Z"), ("seal", "0" * 24)):
            altered = [*docs[:at], {**docs[at], key: value}, *docs[at + 1 :]]
            assert broken_seal(altered, 5) == f"change {at + 1} of the history was altered outside of the program"
    assert broken_seal(docs[:4], 5) == "the history ends at change 4, but 5 were made"
    assert broken_seal(docs, 4) == "the history ends at change 5, but 4 were made"
    assert broken_seal([], 0) == ""


def test_after_a_tampered_counter_no_entry_is_overwritten(job: Path) -> None:
    book = reopen(job)
    for name in "ABC":
        book.act("Add", [add(contact(name=name))])
    rewrite(job, lambda tables: tables["_meta"]["1"].update(last=1))
    later = reopen(job)
    later.act("Add", [add(contact(name="D"))])
    assert [each.n for each in later.entries()] == [1, 2, 3, 4, 5]
    later.audit()
    assert later.job.outside == ()  # counted rightly again


def test_undo_of_an_entry_that_was_cut_out_is_left_out() -> None:
    def entry(n: int, act: str = "do", of: int = 0) -> dict[str, Any]:
        built: dict[str, Any] = msgspec.to_builtins(Entry(n, "", "", "", [], "s", "", act, of))
        return built

    assert undoable([entry(1), entry(3, "undo", 2), entry(4, "redo", 2)], "s") == Back(0, 0)
    assert undoable([], "s") == Back(0, 0)
