"""What was done to the file behind the program's back is seen, told and can be put back."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from store.book.changes import Put, add, drop
from store.book.errors import Conflict
from store.measure.errors import BadValue
from store.records.gate import Check
from store.records.people import Contact
from store.records.whole import Outside
from tests.book.build import check, contact, make, raw, reopen, rewrite, wall
from tests.book.test_conflicts import changed


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """A job with a wall, two contacts, one of them gone again, and an item."""
    path = tmp_path / "wall.json"
    book = make(path, wall("W1"), contact("T1"), check(tag="Q1"))
    book.act("Add", [add(contact(name="B"))])
    book.act("Remove", [drop(book.job.of(Contact)["T2"])])
    book.close()
    return path


HAND: list[tuple[str, Callable[[Any], object], Outside]] = [
    ("changed", lambda t: t["contact"]["1"].update(name="X"), Outside("contact", "T1", "changed", ("name",))),
    ("a field more", lambda t: t["contact"]["1"].update(notes="X"), Outside("contact", "T1", "changed", ("notes",))),
    ("a field less", lambda t: t["check"]["1"].update(trade="owner"), Outside("check", "Q1", "changed", ("trade",))),
    ("an unknown field", lambda t: t["contact"]["1"].update(x=1), Outside("contact", "T1", "changed", ("x",))),
    (
        "added",
        lambda t: t["check"].update({"2": {"tag": "Q2", "what": "new"}}),
        Outside("check", "Q2", "added"),
    ),
    (
        "one that was removed is there again",
        lambda t: t["contact"].update({"2": {"tag": "T2", "name": "B", "trade": "electrician"}}),
        Outside("contact", "T2", "added"),
    ),
    ("vanished", lambda t: t["check"].pop("1"), Outside("check", "Q1", "vanished")),
    ("a table vanished", lambda t: t.pop("contact"), Outside("contact", "T1", "vanished")),
    ("the job itself", lambda t: t["job"]["1"].update(permit="needed"), Outside("job", "job", "changed", ("permit",))),
]


@pytest.mark.parametrize(("by_hand", "wanted"), [each[1:] for each in HAND], ids=[each[0] for each in HAND])
def test_an_edit_by_hand_is_seen_and_put_back(job: Path, by_hand: Callable[[Any], object], wanted: Outside) -> None:
    before = raw(job)
    rewrite(job, by_hand)
    book = reopen(job)
    assert list(book.job.outside) == [wanted]
    book.mend(wanted)
    assert book.job.outside == ()
    later = reopen(job)
    later.audit()
    assert later.job.outside == ()
    for kind in ("job", "wall", "contact", "check"):
        assert raw(job).get(kind, {}) == before[kind]
    entry = later.entries()[-1]
    assert entry.what == f"Restore {wanted.tag}, which was {wanted.done} outside of Studbook"
    assert entry.why == "restored from the history"


def test_an_open_book_sees_it_on_looking_again(job: Path) -> None:
    book = reopen(job)
    assert book.refresh() is False
    rewrite(job, lambda tables: tables["contact"]["1"].update(name="X"))
    assert book.refresh() is True
    assert list(book.job.outside) == [Outside("contact", "T1", "changed", ("name",))]
    assert book.job.of(Contact)["T1"].name == "X"
    rewrite(job, lambda tables: tables["contact"]["1"].update(name="A. Sparks"))
    assert book.refresh() is True
    assert book.job.outside == ()


def test_several_are_told_one_by_one(job: Path) -> None:
    def by_hand(tables: Any) -> None:
        tables["check"]["1"]["what"] = "X"
        tables["contact"].pop("1")
        tables["contact"]["9"] = {"tag": "T9", "name": "Y", "trade": "owner"}

    rewrite(job, by_hand)
    book = reopen(job)
    assert set(book.job.outside) == {
        Outside("check", "Q1", "changed", ("what",)),
        Outside("contact", "T9", "added"),
        Outside("contact", "T1", "vanished"),
    }
    for each in book.job.outside:
        book.mend(each)
    assert book.job.outside == ()


def test_a_tag_that_only_a_hand_gave_is_not_given_again(job: Path) -> None:
    rewrite(job, lambda tables: tables["contact"].update({"4": {"tag": "T4", "name": "Y", "trade": "owner"}}))
    book = reopen(job)
    book.act("Add", [add(contact()), add(contact())])
    assert list(book.job.of(Contact)) == ["T1", "T3", "T4", "T5"]
    book.mend(Outside("contact", "T4", "added"))
    book.act("Add", [add(contact())])
    assert list(book.job.of(Contact)) == ["T1", "T3", "T5", "T6"]
    # Written in once more, and put back in the same breath, while the counters are below it.
    rewrite(job, lambda tables: tables["contact"].update({"7": {"tag": "T7", "name": "Y", "trade": "owner"}}))
    book.refresh()
    book.mend(Outside("contact", "T7", "added"))
    book.act("Add", [add(contact())])
    assert list(book.job.of(Contact)) == ["T1", "T3", "T5", "T6", "T8"]


def test_an_action_on_another_field_leaves_it_told(job: Path) -> None:
    rewrite(job, lambda tables: tables["contact"]["1"].update(name="X"))
    book = reopen(job)
    book.act("Edit", [changed(book.job.of(Contact)["T1"], phone="555-0101")])
    told = (Outside("contact", "T1", "changed", ("name",)),)
    assert book.job.outside == reopen(job).job.outside == told
    step = book.entries()[-1].changes[0]
    assert step.before is not None
    assert step.before["name"] == "X"
    book.undo()
    assert book.job.of(Contact)["T1"].name == "X"
    assert book.job.outside == reopen(job).job.outside == told


def test_undo_does_not_run_over_an_edit_by_hand(job: Path) -> None:
    book = reopen(job)
    book.act("Edit", [changed(book.job.of(Contact)["T1"], phone="555-0101")])
    rewrite(job, lambda tables: tables["contact"]["1"].update(phone="555-0102"))
    with pytest.raises(Conflict, match="T1 was changed since"):
        book.undo()
    assert raw(job)["contact"]["1"]["phone"] == "555-0102"


def test_what_was_put_back_is_not_brought_back_by_undo(job: Path) -> None:
    rewrite(job, lambda tables: tables["check"].update({"2": {"tag": "Q2", "what": "new"}}))
    book = reopen(job)
    book.mend(Outside("check", "Q2", "added"))
    assert list(book.job.of(Check)) == ["Q1"]
    assert [each.tag for each in book.job.removed] == ["Q2"]
    undone = book.undo()
    assert undone is None or "Restore" not in undone.what
    assert list(book.job.of(Check)) == ["Q1"]
    assert book.job.outside == ()


def test_a_broken_history_cannot_be_put_back(job: Path) -> None:
    rewrite(job, lambda tables: tables["history"].pop("2"))
    book = reopen(job)
    book.audit()
    broken = next(each for each in book.job.outside if each.kind == "history")
    assert broken == Outside("history", "change 2 is missing from the history", "history")
    with pytest.raises(BadValue, match="studbook verify"):
        book.mend(broken)
    book.audit()  # asking twice tells it once
    assert [each.kind for each in book.job.outside].count("history") == 1


def test_without_its_history_everything_is_from_outside(job: Path) -> None:
    rewrite(job, lambda tables: tables.pop("history"))
    book = reopen(job)
    assert {each.what for each in book.job.outside} == {"added"}
    assert len(book.job.outside) == 4
    book.audit()
    assert book.job.outside[-1].tag == "the history ends at change 0, but 3 were made"
    book.act("Add", [add(contact())])
    assert [each.n for each in book.entries()] == [4]


def test_a_put_of_the_very_document_that_a_hand_wrote_is_recorded(job: Path) -> None:
    rewrite(job, lambda tables: tables["contact"]["1"].update(name="X"))
    book = reopen(job)
    book.act("Edit", [Put("contact", "T1", {"name": "X"})])
    # Nothing changed, so there is no action: it stays told as done outside.
    assert book.job.outside == (Outside("contact", "T1", "changed", ("name",)),)
