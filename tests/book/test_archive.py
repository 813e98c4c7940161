"""Years of use: older entries are packed, and everything is as if they were not."""

from __future__ import annotations

import base64
import json
import zlib
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st
from tinydb import TinyDB

from store.book.book import Book
from store.book.chain import archive
from store.book.changes import Put, add, drop
from store.book.errors import Conflict, Damaged
from store.records.people import Contact
from store.records.whole import Outside
from tests.book.build import check, contact, make, raw, reopen, rewrite


@pytest.fixture
def few(monkeypatch: pytest.MonkeyPatch) -> None:
    """Entries are packed after a handful."""
    monkeypatch.setattr(archive, "KEEP", 3)
    monkeypatch.setattr(archive, "BLOCK", 4)


def _much(path: Path, times: int = 23) -> Book:
    book = make(path, contact("T1"), check(tag="Q1"))
    for number in range(times):
        book.act("Note", [Put("contact", "T1", {"notes": f"note {number}"})])
    return book


@pytest.mark.usefixtures("few")
def test_old_entries_are_packed_and_come_out_as_they_went_in(tmp_path: Path) -> None:
    book = _much(tmp_path / "wall.json")
    tables = raw(book.path)
    assert len(tables["history"]) < 7
    assert len(tables["past"]) > 3
    entries = reopen(book.path).entries()
    assert [each.n for each in entries] == list(range(1, 25))
    assert [each.changes[0].after["notes"] for each in entries[1:] if each.changes[0].after] == [
        f"note {number}" for number in range(23)
    ]
    assert archive.broken_inside(tables) == ""
    later = reopen(book.path)
    later.audit(inside=True)
    assert later.job.outside == ()
    with TinyDB(book.path) as database:
        assert {"past", "past_says", "history"} <= database.tables()


@pytest.mark.usefixtures("few")
def test_what_was_taken_off_long_ago_is_still_told(tmp_path: Path) -> None:
    book = make(tmp_path / "wall.json", check(tag="Q1"), contact("T1"))
    book.act("Remove", [drop(book.job.get("Q1"))], "no longer needed")  # type: ignore[arg-type]
    for number in range(20):
        book.act("Note", [Put("contact", "T1", {"notes": f"{number}"})])
    later = reopen(book.path)
    assert [(each.tag, each.reason) for each in later.job.removed] == [("Q1", "no longer needed")]
    assert later.job.marks == book.job.marks
    later.act("Add", [add(check())])
    assert later.job.get("Q2") is not None  # no tag is given twice
    rewrite(book.path, lambda tables: tables["contact"]["1"].update(name="X"))
    assert list(reopen(book.path).job.outside) == [Outside("contact", "T1", "changed", ("name",))]


def _mistakes(text: str) -> list[str]:
    """A packed text with one letter changed, at its beginning, in the middle and at its end."""
    places = (0, len(text) // 2, len(text.rstrip("=")) - 1)
    return [text[:at] + ("A" if text[at] != "A" else "B") + text[at + 1 :] for at in places]


@pytest.mark.usefixtures("few")
def test_each_change_of_the_packed_history_breaks_a_seal(tmp_path: Path) -> None:
    path = _much(tmp_path / "wall.json").path
    whole = path.read_bytes()
    tables = raw(path)
    tried = 0
    for table in ("past", "past_says"):
        for key, doc in tables[table].items():
            for packed in _mistakes(doc["packed"]):
                altered = {**tables, table: {**tables[table], key: {**doc, "packed": packed}}}
                path.write_text(json.dumps(altered))
                try:
                    book = reopen(path)
                except Damaged:
                    tried += 1
                    continue
                book.audit()
                assert [each.kind for each in book.job.outside][-1:] == ["history"], (table, key)
                tried += 1
    for drop_at in list(tables["past"]):
        left = [doc for key, doc in tables["past"].items() if key != drop_at]
        path.write_text(json.dumps({**tables, "past": {str(n): doc for n, doc in enumerate(left, 1)}}))
        try:
            book = reopen(path)
        except Damaged:
            continue
        book.audit()
        assert book.job.outside, drop_at
    assert tried >= 15
    path.write_bytes(whole)
    assert reopen(path).job.outside == ()


@pytest.mark.usefixtures("few")
def test_a_summary_that_says_otherwise_is_found_by_going_inside(tmp_path: Path) -> None:
    """Someone who makes all digests again still has to make the summary and the entries agree."""
    book = _much(tmp_path / "wall.json")
    tables = raw(book.path)
    summary = json.loads(zlib.decompress(base64.b64decode(tables["past_says"]["1"]["packed"])))
    summary["words"]["contact"]["T1"]["name"] = "Eve"
    packed = base64.b64encode(zlib.compress(json.dumps(summary).encode())).decode()
    tables["past_says"]["1"]["packed"] = packed
    assert archive.broken_inside(tables) == "the packed history was altered outside of the program"


@pytest.mark.usefixtures("few")
def test_a_broken_chain_is_not_packed_away(tmp_path: Path) -> None:
    book = _much(tmp_path / "wall.json", 4)
    rewrite(book.path, lambda tables: tables["history"]["2"].update(who="Eve"))
    later = reopen(book.path)
    for number in range(12):
        later.act("Note", [Put("contact", "T1", {"notes": f"later {number}"})])
    assert "past" not in raw(book.path)
    later.audit()
    assert later.job.outside == (
        Outside("history", "change 2 of the history was altered outside of the program", "history"),
    )


@pytest.mark.parametrize(
    "by_hand",
    [
        lambda t: t.pop("past_says"),
        lambda t: t.pop("past"),
        lambda t: t["past"].pop("1"),
        lambda t: t["past"]["2"].update(first=1),
        lambda t: t["past"]["1"].update(last="x"),
        lambda t: t["past_says"]["1"].update(packed="%%%"),
        lambda t: t["past_says"]["1"].update(packed=base64.b64encode(zlib.compress(b"[1]")).decode()),
    ],
)
@pytest.mark.usefixtures("few")
def test_a_packed_history_that_does_not_hold_together_is_refused(tmp_path: Path, by_hand: Any) -> None:
    path = _much(tmp_path / "wall.json").path
    rewrite(path, by_hand)
    before = path.read_bytes()
    with pytest.raises(Damaged, match="history"):
        reopen(path)
    assert path.read_bytes() == before


ACTS = st.lists(st.sampled_from(["a", "b", "undo a", "undo b", "redo a", "redo b", "new a"]), max_size=40)


def _played(path: Path, acts: Sequence[str]) -> tuple[list[Any], Any]:
    """What two people see of a list of acts; and the file's records."""
    books = {"a": make(path, contact("T1"), who="a"), "b": reopen(path, who="b")}
    books["a"].session, books["b"].session = "first", "second"
    seen: list[Any] = []
    for number, act in enumerate(acts):
        what, _, who = act.rpartition(" ")
        if what == "new":
            books[who] = reopen(path, who=who)
            books[who].session = f"later {number}"
        elif what:
            try:
                entry = books[who].undo() if what == "undo" else books[who].redo()
                seen.append((entry.n, entry.what) if entry else None)
            except Conflict as error:
                seen.append(str(error))
        else:
            books[who].act(f"Note {number}", [Put("contact", "T1", {"notes": f"{who} {number}"})])
    last = reopen(path)
    last.audit(inside=True)
    assert last.job.outside == ()
    shape = [(each.n, each.what, each.act, each.of, msgspec.to_builtins(each.changes)) for each in last.entries()]
    return [*seen, shape, last.job.marks], last.job.of(Contact)


@given(acts=ACTS)
def test_undo_and_redo_do_the_same_with_a_packed_history(
    acts: list[str], tmp_path_factory: pytest.TempPathFactory
) -> None:
    whole = _played(tmp_path_factory.mktemp("whole") / "wall.json", acts)
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(archive, "KEEP", 2)
        patched.setattr(archive, "BLOCK", 3)
        assert _played(tmp_path_factory.mktemp("packed") / "wall.json", acts) == whole
