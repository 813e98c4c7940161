"""A file that is gone or damaged: its copies by what is in them, and one of them brought back."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from store.book.book import Book
from store.book.changes import Put, add
from store.book.copies import copies_of, seen_of
from store.book.errors import Busy, Damaged, NoFile, Replaced
from store.book.putback import put_back
from store.book.restore import newest_good, restore
from store.records.people import Contact
from store.records.wall import Wall
from store.records.whole import Outside
from tests.book.build import contact, make, names_in, raw, reading, reopen, rewrite, wall


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """A job of four actions with two copies, of three and of one."""
    path = tmp_path / "wall.json"
    book = make(path, contact("T1"))
    for name in "ABC":
        book.act("Add a wall", [add(wall(name=name))])
    book.close()
    return path


def test_copies_are_told_apart_by_their_history_and_not_by_their_time(job: Path) -> None:
    newest, oldest = copies_of(job)
    os.utime(newest, (1, 1))
    assert copies_of(job) == [newest, oldest]
    assert [each.actions for each in seen_of(job)] == [3, 1]
    assert "3 actions, the last " in seen_of(job)[0].says
    assert seen_of(job)[0].says.endswith(" by Ann")


def test_a_missing_file_names_its_newest_copy_and_is_not_begun_anew(job: Path) -> None:
    job.unlink()
    with pytest.raises(NoFile, match=r"\.wall\.json\.copy0: 3 actions.*--restore \.wall\.json\.copy0") as refused:
        reopen(job)
    assert refused.value.exit_status == 2
    before = names_in(job.parent)
    with pytest.raises(Busy, match="copies of a job with that name are beside it"):
        make(job)
    assert names_in(job.parent) == before


def test_a_copy_is_brought_back_in_place_and_nothing_is_lost(job: Path) -> None:
    job.unlink()
    done = restore(job, "copy0")
    assert done.kept is None
    assert len(reopen(job).job.of(Wall)) == 2
    whole = job.read_bytes()
    job.write_bytes(whole[:100])
    done = restore(job, ".wall.json.copy1")
    assert done.kept is not None
    assert done.kept.read_bytes() == whole[:100]
    assert reopen(job).job.of(Wall) == {}
    job.write_bytes(b"")
    assert restore(job, str(job.with_name(".wall.json.copy0"))).kept == job.with_name("wall.json.before-restore-2")


def test_nothing_is_overwritten_unasked(job: Path, tmp_path: Path) -> None:
    before = job.read_bytes()
    with pytest.raises(Busy, match="it opens, and has 4 actions; the copy has 3"):
        restore(job, "copy0")
    assert job.read_bytes() == before
    other = tmp_path / "other.json"
    restore(job, "copy1", other)
    assert reopen(other).job.of(Wall) == {}
    with pytest.raises(Busy, match="this file exists"):
        restore(job, "copy0", other)
    done = restore(job, "copy0", force=True)
    assert done.kept is not None
    assert done.kept.read_bytes() == before


def test_a_copy_that_does_not_open_or_is_a_link_is_not_brought_back(job: Path, tmp_path: Path) -> None:
    newest, oldest = copies_of(job)
    newest.write_bytes(b"{}")
    with pytest.raises(Damaged):
        restore(job, newest.name, force=True)
    assert newest_good(job) == oldest
    trap = tmp_path / "trap.json"
    make(trap).close()
    oldest.unlink()
    oldest.symlink_to(trap)
    assert newest_good(job) is None
    with pytest.raises(NoFile):
        restore(job, oldest.name, force=True)


def test_a_program_that_holds_the_job_writes_it_again(job: Path) -> None:
    book = reopen(job)
    before = raw(job)
    job.unlink()
    with pytest.raises(NoFile):
        book.refresh()
    with pytest.raises(NoFile):
        book.act("Add a wall", [add(wall())])
    assert len(book.job.of(Wall)) == 3
    book.write_again()
    assert raw(job) == before
    book.act("Add a wall", [add(wall())])
    assert len(reopen(job).job.of(Wall)) == 4
    with pytest.raises(Busy, match="the file exists again"):
        book.write_again()


def test_another_job_in_its_place_is_told_and_left_alone(job: Path, tmp_path: Path) -> None:
    book = reopen(job)
    other = tmp_path / "other.json"
    make(other).close()
    other.replace(job)
    before = job.read_bytes()
    for _ in range(2):
        with pytest.raises(Replaced, match="another job was put in its place"):
            book.refresh()
    with pytest.raises(Replaced):
        book.act("Add a wall", [add(wall())])
    assert len(book.job.of(Wall)) == 3
    assert job.read_bytes() == before


# --- what was changed outside ---


def _no_history(tables: Any) -> None:
    del tables["history"]


def _empty_history(tables: Any) -> None:
    tables["history"] = {}


def _no_counter(tables: Any) -> None:
    tables["history"] = {}
    tables["_meta"]["1"]["last"] = 0


def _altered(tables: Any) -> None:
    tables["history"]["2"]["who"] = "Eve"


@pytest.mark.parametrize("by_hand", [_no_history, _empty_history, _no_counter, _altered])
def test_without_its_history_nothing_is_put_back(job: Path, by_hand: Callable[[Any], None]) -> None:
    rewrite(job, by_hand)
    before = job.read_bytes()
    book = reopen(job)
    with pytest.raises(Damaged, match=r"can't restore .*--restore \.wall\.json\.copy0") as refused:
        put_back(book)
    assert refused.value.exit_status == 4
    assert job.read_bytes() == before


def test_all_of_it_is_put_back_as_one_action_or_nothing(job: Path) -> None:
    whole = raw(job)

    def by_hand(tables: Any) -> None:
        tables["contact"]["1"]["name"] = "Eve"
        del tables["wall"]["1"]
        tables["wall"]["9"] = {"tag": "W9", "name": "added"}

    rewrite(job, by_hand)
    assert put_back(reopen(job)) == [
        "Restored wall W9, which was added",
        "Restored contact T1, which was changed",
        "Restored wall W1, which was deleted",
    ]
    book = reopen(job)
    book.audit()
    assert book.job.outside == ()
    assert book.actions == 5
    assert {key: raw(job)[key] for key in ("wall", "contact")} == {key: whole[key] for key in ("wall", "contact")}
    assert put_back(book) == []


def test_what_would_name_nothing_then_is_not_put_back(job: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    book = reopen(job)
    book.act("Read it", [add(reading("W1"))])
    rewrite(job, lambda tables: tables["contact"]["1"].update(name="Eve"))
    before = job.read_bytes()
    real = Book.mend_all

    def badly(self: Book, outside: Any, why: str = "") -> None:
        real(self, outside, why)
        rewrite(self.path, lambda tables: tables["wall"].pop("1"))

    monkeypatch.setattr(Book, "mend_all", badly)
    with pytest.raises(Damaged, match="worse"):
        put_back(reopen(job))
    assert job.read_bytes() == before


def test_the_old_form_is_kept_once_however_often_the_migration_fails(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "wall.json"
    path.write_bytes((Path(__file__).parent / "fixtures" / "form1.json").read_bytes())
    real = os.fsync

    def no(fd: int) -> None:
        raise OSError(28, "No space left on device")

    for _ in range(3):
        with monkeypatch.context() as patched:
            patched.setattr(os, "fsync", no)
            with pytest.raises(Busy, match="No space left"):
                reopen(path)
    assert real is os.fsync
    reopen(path).close()
    assert [each for each in names_in(tmp_path) if ".form" in each] == ["wall.json.form1"]


def test_what_a_hand_changed_stays_told_when_the_program_changes_another_field(job: Path) -> None:
    """The program's word is of the field that it changed; putting back keeps that, and nothing else."""
    rewrite(job, lambda tables: tables["contact"]["1"].update(notes="by hand"))
    book = reopen(job)
    book.act("Note", [Put("contact", "T1", {"name": "B"})])
    book = reopen(job)
    assert book.job.outside == (Outside("contact", "T1", "changed", ("notes",)),)
    put_back(book)
    found = reopen(job)
    assert (found.job.outside, found.job.of(Contact)["T1"].name, found.job.of(Contact)["T1"].notes) == ((), "B", "")
