"""A file of an older form is brought to today's, in one step, with the old file kept beside it."""

from __future__ import annotations

import errno
import os
import shutil
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from store.book.book import Book
from store.book.chain import archive
from store.book.changes import add, drop
from store.book.errors import Busy, Damaged
from store.book.file import DurableFile
from store.book.ground import disk
from store.book.migrate import FORMAT, STEPS, migrated
from store.measure.length import FOOT_NM, INCH_NM, Length
from store.records.gate import Closing
from store.records.people import Contact
from store.records.wall import Reading, Wall
from store.records.wiring import Cable
from store.rules.cable.routes import routes
from store.rules.core.checks import items
from tests.book.build import contact, names_in, raw, reading, reopen, rewrite, today
from tests.book.test_conflicts import changed

FIXTURE = Path(__file__).parent / "fixtures" / "form0.json"
FIXTURE_1 = FIXTURE.with_name("form1.json")


@pytest.fixture
def old(tmp_path: Path) -> Path:
    """A job file as the first form wrote it."""
    path = tmp_path / "wall.json"
    shutil.copy(FIXTURE, path)
    path.chmod(0o640)
    return path


def test_there_is_a_step_from_every_form() -> None:
    assert sorted(STEPS) == list(range(FORMAT))


def test_everything_is_brought_over(old: Path) -> None:
    job = reopen(old).job
    assert job.settings.units == "millimetres"
    assert job.settings.finish == Length(12_500_000)
    assert list(job.of(Wall)) == ["W1", "W2"]
    found = job.of(Reading)
    assert [(each.tag, each.wall, each.what, each.where, each.by) for each in found.values()] == [
        ("D1", "W1", "width", "at the floor", "Ann"),
        ("D2", "W1", "width", "at 1200 mm", "Ann"),
        ("D3", "W1", "height", "", ""),
    ]
    assert found["D1"].date == date(2026, 10, 3)
    assert found["D3"].value.nm == 96 * INCH_NM + INCH_NM // 8
    assert list(job.of(Contact)) == ["T1", "T4"]
    assert job.outside == ()


def test_the_old_file_is_kept_byte_for_byte(old: Path) -> None:
    reopen(old).close()
    kept = old.with_name("wall.json.form0")
    assert kept.read_bytes() == FIXTURE.read_bytes()
    assert kept.stat().st_mode & 0o777 == old.stat().st_mode & 0o777 == 0o640
    assert raw(old)["_meta"]["1"]["studbook"] == FORMAT
    # Opened once more it is not brought over again, and what is kept is never written over.
    entries = reopen(old).entries()
    assert [(each.n, each.what) for each in entries] == [(1, "Convert the file from format 0")]
    assert kept.read_bytes() == FIXTURE.read_bytes()
    shutil.copy(FIXTURE, old)
    rewrite(old, lambda tables: tables["job"]["1"].update(name="Another"))
    reopen(old).close()
    assert kept.read_bytes() == FIXTURE.read_bytes()
    assert raw(old.with_name("wall.json.form0-2"))["job"]["1"]["name"] == "Another"


def test_the_job_goes_on_from_there(old: Path) -> None:
    book = reopen(old)
    book.audit()
    assert book.job.outside == ()
    assert book.undo() is None
    book.act("Add", [add(contact()), add(reading())])
    assert "T5" in book.job.of(Contact)
    assert "D4" in book.job.of(Reading)
    assert book.unknown() == [("T1", "shoe size")]
    # What the old form wrote in other words is no conflict.
    book.act("Edit", [changed(book.job.of(Wall)["W1"], spacing=Length(24 * INCH_NM), bearing="no")])
    book.act("Remove", [drop(book.job.of(Contact)["T1"])])
    later = reopen(old)
    later.audit()
    assert later.job.outside == ()
    assert later.undo() is not None
    assert raw(old)["contact"]["1"]["shoe size"] == "44"


def test_a_counter_that_the_old_file_lacks_is_worked_out(old: Path) -> None:
    rewrite(old, lambda tables: tables["_meta"]["1"].pop("next"))
    book = reopen(old)
    book.act("Add", [add(contact())])
    assert list(book.job.of(Contact)) == ["T1", "T4", "T5"]


BROKEN: list[tuple[str, Callable[[Any], object], str]] = [
    ("readings no list", lambda t: t["wall"]["1"].update(readings=5), "is in an older format (0) and is damaged"),
    ("reading no table", lambda t: t["wall"]["1"].update(readings=["x"]), "is in an older format (0) and is damaged"),
    ("wall without tag", lambda t: t["wall"]["1"].pop("tag"), "is in an older format (0) and is damaged"),
    ("units no text", lambda t: t["job"]["1"].update(units=["metric"]), "is in an older format (0) and is damaged"),
    ("bad reading", lambda t: t["wall"]["1"]["readings"][0].update(value="wide"), "table reading, entry 1: reading D1"),
    ("bad record", lambda t: t["contact"]["1"].pop("trade"), "table contact, entry 1: contact T1"),
    ("tag twice", lambda t: t["contact"]["4"].update(tag="T1"), "table contact, entry 4"),
    ("no job", lambda t: t.pop("job"), "no job record"),
    ("a history", lambda t: t.update(history={"1": {}}), "form 0 had no history"),
]


@pytest.mark.parametrize(("change", "says"), [each[1:] for each in BROKEN], ids=[each[0] for each in BROKEN])
def test_an_old_file_that_does_not_hold_together_is_left_as_it_is(
    old: Path, change: Callable[[Any], object], says: str
) -> None:
    rewrite(old, change)
    before = old.read_bytes()
    with pytest.raises(Damaged) as caught:
        Book.open(old, "Ann", today)
    assert says in str(caught.value)
    assert str(old) in str(caught.value)
    assert old.read_bytes() == before
    assert [each for each in names_in(old.parent) if not each.endswith(".lock")] == ["wall.json"]


def test_where_no_copy_can_be_kept_nothing_is_brought_over(old: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def no(*given: object, **more: object) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, "link", no)
    monkeypatch.setattr(disk, "open_new", no)
    with pytest.raises(Busy, match="can't keep a copy of the old format: No space left on device"):
        Book.open(old, "Ann", today)
    assert old.read_bytes() == FIXTURE.read_bytes()


def test_another_copy_that_brought_it_over_meanwhile_is_noticed(old: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    real = DurableFile.locked
    first = [True]

    def locked(self: DurableFile, patience_s: float = 5.0) -> Any:
        if first.pop() if first else False:
            other = reopen(old, "Ben")
            other.act("Add", [add(contact(name="by Ben"))])
            other.close()
        return real(self, patience_s)

    monkeypatch.setattr(DurableFile, "locked", locked)
    book = reopen(old)
    assert book.job.of(Contact)["T5"].name == "by Ben"
    assert [each.who for each in book.entries()] == ["Ben", "Ben"]
    assert old.with_name("wall.json.form0").read_bytes() == FIXTURE.read_bytes()


def test_steps_are_pure(old: Path) -> None:
    tables = raw(old)
    before = raw(old)
    migrated(old, tables, 0)
    assert tables == before


def test_a_read_only_folder_refuses_an_old_file_and_says_so(old: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    real = os.open

    def no(path: Any, flags: int, *more: Any, **named: Any) -> int:
        if flags & os.O_CREAT:
            raise OSError(errno.EROFS, "Read-only file system")
        return real(path, flags, *more, **named)

    monkeypatch.setattr(os, "open", no)
    with pytest.raises(Busy, match="Read-only file system"):
        Book.open(old, "Ann", today)
    assert old.read_bytes() == FIXTURE.read_bytes()


# --- form 1: each cable noted which corner it goes around ---


@pytest.fixture
def cornered(tmp_path: Path) -> Path:
    """A job file as the second form wrote it, with cables from wall to wall and a check that is closed."""
    path = tmp_path / "wall.json"
    shutil.copy(FIXTURE_1, path)
    return path


def test_walls_note_the_corners_that_cables_noted(cornered: Path) -> None:
    book = reopen(cornered)
    walls = book.job.of(Wall)
    # K1 has the right end of W1 meet W2, K2 and K6 the like from the other side.
    assert [(each.meets_left, each.meets_right) for each in walls.values()] == [("", "W2"), ("", ""), ("", "W1")]
    assert all("corner" not in doc for doc in raw(cornered)["cable"].values())
    assert book.unknown() == []
    # 10 ft to the corner and 4 ft beyond it, as it was before; the nearer way would be 8 ft.
    assert routes(book.job)["K1"].path == 14 * FOOT_NM
    # What no wall can note is kept in words: K3 goes around the other corner of the same two walls, K4 has one end.
    told = "Goes round the corner at the left end of its first wall."
    notes = {tag: each.notes for tag, each in book.job.of(Cable).items()}
    assert notes == {"K1": "", "K2": "the front left one", "K3": told, "K4": told, "K5": "", "K6": ""}


def test_what_a_history_vouches_for_goes_on_to_count(cornered: Path) -> None:
    book = reopen(cornered)
    book.audit()
    assert book.job.outside == ()
    assert book.job.of(Closing)["K1/labelled"].by == "Ann"
    assert not next(each for each in items(book.job) if each.key == "K1/labelled").open
    entry = book.entries()[-1]
    assert (len(book.entries()), entry.n, entry.what) == (4, 4, "Convert the file from format 1")
    assert sorted(each.tag for each in entry.changes) == ["K1", "K2", "K3", "K4", "K6", "W1", "W3"]
    # What undo takes back is the last thing that a person did.
    undone = book.undo()
    assert undone is not None
    assert undone.what == "Close K1/labelled"
    again = reopen(cornered)
    again.audit()
    assert (again.job.outside, len(again.entries())) == ((), 5)
    assert cornered.with_name("wall.json.form1").read_bytes() == FIXTURE_1.read_bytes()


def test_a_file_without_corners_is_brought_over_without_a_word(cornered: Path) -> None:
    book = reopen(cornered)
    before = len(book.entries())
    rewrite(cornered, lambda tables: tables["_meta"]["1"].update(studbook=1))
    again = reopen(cornered)
    again.audit()
    assert (again.job.outside, len(again.entries())) == ((), before)
    assert raw(cornered)["_meta"]["1"]["studbook"] == FORMAT


def test_what_was_written_by_hand_is_not_believed_for_being_of_an_older_form(cornered: Path) -> None:
    def forge(tables: Any) -> None:
        tables["cable"]["1"]["spare"] = True
        tables["box"]["1"]["x"] = "30 in"
        tables["closing"]["99"] = {**next(iter(tables["closing"].values())), "tag": "K2/labelled"}

    rewrite(cornered, forge)
    book = reopen(cornered)
    assert sorted((each.tag, each.what) for each in book.job.outside) == [
        ("B1", "changed"), ("K1", "changed"), ("K2/labelled", "added"),
    ]  # fmt: skip
    # Without its history nothing is vouched for.
    shutil.copy(FIXTURE_1, cornered)
    rewrite(cornered, lambda tables: tables.pop("history"))
    assert len(reopen(cornered).job.outside) >= len(raw(FIXTURE_1)["cable"])


def test_a_history_of_single_entries_is_gone_on_with(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Form 2 kept every entry by itself: they stay so until there are many, and nothing else of the file changes."""
    path = tmp_path / "wall.json"
    shutil.copy(FIXTURE.with_name("form2.json"), path)
    before = raw(path)
    book = reopen(path)
    book.audit(inside=True)
    assert book.job.outside == ()
    assert path.with_name("wall.json.form2").read_bytes() == FIXTURE.with_name("form2.json").read_bytes()
    assert {name: table for name, table in raw(path).items() if name != "_meta"} == {
        name: table for name, table in before.items() if name != "_meta"
    }
    monkeypatch.setattr(archive, "KEEP", 2)
    assert book.undo() is not None
    assert [each.n for each in reopen(path).entries()] == list(range(1, 8))
    assert "past" in raw(path)
    again = reopen(path)
    again.audit(inside=True)
    assert again.job.outside == ()
