"""A file that is not a whole job of today is refused with its path and the place, and not one byte of it is touched."""

from __future__ import annotations

import json
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from store.book.book import Book
from store.book.changes import add
from store.book.errors import Busy, Damaged, NoFile
from store.book.migrate import FORMAT
from store.measure.errors import BadValue, StudbookError
from store.records.wall import Wall
from tests.book.build import TODAY, check, make, names_in, raw, reopen, rewrite, settings, today, wall


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """A job file with a wall and a rough-in item."""
    path = tmp_path / "wall.json"
    make(path, wall("W1"), check(tag="Q1")).close()
    return path


def refused(path: Path, error: type[StudbookError] = Damaged) -> str:
    """What is said on opening; nothing in the folder may change by it."""
    before = {each: (path.parent / each).read_bytes() for each in names_in(path.parent)}
    with pytest.raises(error) as caught:
        Book.open(path, "Ann", today)
    assert {each: (path.parent / each).read_bytes() for each in names_in(path.parent)} == before
    assert str(path) in str(caught.value)
    return str(caught.value)


def test_an_empty_file_is_not_a_new_job(job: Path) -> None:
    job.write_bytes(b"")
    assert "the file is empty (0 bytes)" in refused(job)


def test_a_file_of_spaces(job: Path) -> None:
    job.write_bytes(b"  \n")
    assert "not begin with {" in refused(job)


@pytest.mark.parametrize("part", [0.01, 0.3, 0.6, 0.9, 0.999])
def test_a_truncated_file_is_refused_with_the_place(job: Path, part: float) -> None:
    whole = job.read_bytes()
    job.write_bytes(whole[: int(len(whole) * part) or 1])
    said = refused(job)
    assert "can't read it (" in said
    assert "studbook verify" in said


def test_the_tail_of_an_older_longer_file_behind_it(job: Path) -> None:
    whole = job.read_bytes()
    job.write_bytes(whole + whole[-20:])
    assert "byte" in refused(job)


@pytest.mark.parametrize(
    "content",
    [
        b"\x89PNG\r\n\x1a\n", b"[1, 2]", b"name = 'x'", b'"text"', b"null", b"\xff\xfe{\x00", b"\xef\xbb\xbf{}",
        b"PK\x03\x04", b"<html>",
    ],
)  # fmt: skip
def test_a_foreign_file_is_refused(job: Path, content: bytes) -> None:
    job.write_bytes(content)
    assert "not a Studbook job" in refused(job)


@pytest.mark.parametrize(
    "content",
    [
        {}, {"_default": {"1": {"name": "a table of another program"}}}, {"_meta": {}}, {"_meta": {"1": {}}},
        {"_meta": {"1": {"studbook": "1"}}}, {"_meta": {"1": {"studbook": True}}}, {"_meta": {"1": {"studbook": 1.0}}},
        {"_meta": {"1": {"studbook": None}}},
    ],
)  # fmt: skip
def test_json_of_another_program_is_refused(job: Path, content: object) -> None:
    job.write_text(json.dumps(content))
    assert "not a Studbook job (its _meta table has no format)" in refused(job)


@pytest.mark.parametrize("content", ['{"a": 1}', '{"a": {"1": 2}}', '{"a": []}', '{"a": {"1": []}}'])
def test_json_of_another_shape_is_refused(job: Path, content: str) -> None:
    job.write_text(content)
    assert "not a Studbook job" in refused(job)
    # Also behind a beginning that is right.
    job.write_text(f'{{"_meta": {{"1": {{"studbook": {FORMAT}}}}}}}, ' + content[1:])
    assert "can't read it (" in refused(job)


@pytest.mark.parametrize("content", ['{"a": {1: {}}}', '{"_meta": {"1": {"studbook": 1}}, "a"', '{"_meta": 1', "{"])
def test_what_is_no_json_is_refused_with_the_place(job: Path, content: str) -> None:
    job.write_text(content)
    assert "can't read it (" in refused(job)


def test_bytes_that_are_no_text_are_refused(job: Path) -> None:
    job.write_bytes(job.read_bytes().replace(b"North wall", b"N\xff\xferth wall"))
    assert "can't read it (" in refused(job)


def test_deep_nesting_is_refused(job: Path) -> None:
    job.write_text('{"a": {"1": {"x": ' + "[" * 100_000 + "]" * 100_000 + "}}}")
    assert "can't read it (" in refused(job)


def test_a_file_of_a_newer_version_is_refused(job: Path) -> None:
    rewrite(job, lambda tables: tables["_meta"]["1"].update(studbook=FORMAT + 1, last="whatever it means there"))
    said = refused(job)
    assert f"written by a newer version of Studbook (format {FORMAT + 1}; this one reads up to {FORMAT})" in said
    assert "Install the newer version" in said


def test_a_file_of_no_known_older_version_is_refused(job: Path) -> None:
    rewrite(job, lambda tables: tables["_meta"]["1"].update(studbook=-1))
    assert "older format (-1)" in refused(job)


BAD_RECORDS: list[tuple[str, Callable[[Any], object], str]] = [
    ("wrong type", lambda t: t["wall"]["1"].update(name=5), "table wall, entry 1: wall W1: "),
    ("no name", lambda t: t["wall"]["1"].pop("name"), "table wall, entry 1: wall W1: "),
    ("bad length", lambda t: t["wall"]["1"].update(spacing="16"), 'table wall, entry 1: wall W1: "16"'),
    ("bad choice", lambda t: t["wall"]["1"].update(bearing="perhaps"), "$.bearing"),
    ("no tag", lambda t: t["wall"]["1"].pop("tag"), "table wall, entry 1: its tag None is missing"),
    ("tag no text", lambda t: t["wall"]["1"].update(tag=1), "table wall, entry 1: its tag 1 is missing"),
    ("tag empty", lambda t: t["wall"]["1"].update(tag=""), "table wall, entry 1: its tag '' is missing"),
    ("tag of another kind", lambda t: t["wall"]["1"].update(tag="K1"), "table wall, entry 1: its key or its tag 'K1'"),
    ("tag with a nought", lambda t: t["wall"]["1"].update(tag="W01"), "table wall, entry 1: its key or its tag 'W01'"),
    ("tag not ascii", lambda t: t["wall"]["1"].update(tag="W²"), "table wall, entry 1: its key or its tag 'W²'"),
    ("tag twice", lambda t: t["wall"].update({"9": t["wall"]["1"]}), "table wall, entry 9: its tag 'W1' is missing or"),
    ("key no number", lambda t: t["wall"].update(x=t["wall"].pop("1")), "table wall has an entry whose key is no"),
    ("key with a nought", lambda t: t["wall"].update({"01": t["wall"].pop("1")}), "table wall, entry 01: its key or"),
    ("no job", lambda t: t["job"].clear(), "no job record (table job, tag job)"),
    ("job of another tag", lambda t: t["job"]["1"].update(tag="jab"), "no job record (table job, tag job)"),
    ("no job table", lambda t: t.pop("job"), "no job record (table job, tag job)"),
    ("last no number", lambda t: t["_meta"]["1"].update(last="1"), "table _meta, entry 1, last"),
    ("last negative", lambda t: t["_meta"]["1"].update(last=-1), "table _meta, entry 1, last"),
    ("next no table", lambda t: t["_meta"]["1"].update(next=[]), "table _meta, entry 1, next"),
    ("next no number", lambda t: t["_meta"]["1"].update(next={"wall": "x"}), "table _meta, entry 1, next"),
    ("history key", lambda t: t["history"].update(x=t["history"].pop("1")), "table history has an entry whose key"),
    ("history number", lambda t: t["history"]["1"].update(n=7), "table history, entry 1: it is not a history entry"),
    (
        "history no changes",
        lambda t: t["history"]["1"].pop("changes"),
        "table history, entry 1: it is not a history entry",
    ),
    (
        "history changes",
        lambda t: t["history"]["1"].update(changes=[1]),
        "table history, entry 1: it is not a history entry",
    ),
    ("history kind", lambda t: t["history"]["1"]["changes"][0].update(kind="x"), "table history, entry 1: it is no"),
    ("history kind list", lambda t: t["history"]["1"]["changes"][0].update(kind=[]), "table history, entry 1: it is"),
    ("history after", lambda t: t["history"]["1"]["changes"][0].update(after="x"), "table history, entry 1: it is no"),
    ("history no before", lambda t: t["history"]["1"]["changes"][0].pop("before"), "table history, entry 1: it is no"),
    ("history who", lambda t: t["history"]["1"].update(who=None), "table history, entry 1: it is not a history entry"),
    ("history seal", lambda t: t["history"]["1"].pop("seal"), "table history, entry 1: it is not a history entry"),
]


@pytest.mark.parametrize(("change", "says"), [each[1:] for each in BAD_RECORDS], ids=[each[0] for each in BAD_RECORDS])
def test_a_file_that_does_not_hold_together_is_refused_with_the_place(
    job: Path, change: Callable[[Any], object], says: str
) -> None:
    rewrite(job, change)
    assert says in refused(job)


@pytest.mark.parametrize(("change", "says"), [each[1:] for each in BAD_RECORDS], ids=[each[0] for each in BAD_RECORDS])
def test_a_file_that_breaks_while_it_is_open_is_never_written_over(
    job: Path, change: Callable[[Any], object], says: str
) -> None:
    book = reopen(job)
    good = job.read_bytes()
    rewrite(job, change)
    broken = job.read_bytes()
    # Refused once is refused until it is mended: on looking again and on every action.
    for again in (book.refresh, lambda: book.act("Add", [add(wall())]), book.refresh, book.undo):
        with pytest.raises(Damaged) as caught:
            again()
        assert says in str(caught.value)
        assert job.read_bytes() == broken
    assert list(book.job.of(Wall)) == ["W1"]
    job.write_bytes(good)
    book.act("Add a wall", [add(wall(name="South wall"))])
    assert list(reopen(job).job.of(Wall)) == ["W1", "W2"]


@pytest.mark.parametrize(("change", "says"), [each[1:] for each in BAD_RECORDS], ids=[each[0] for each in BAD_RECORDS])
def test_a_first_look_refuses_it_at_the_latest_when_it_settles(
    job: Path, change: Callable[[Any], object], says: str
) -> None:
    rewrite(job, change)
    broken = job.read_bytes()
    with pytest.raises(Damaged) as caught:
        Book.open(job, "Ann", today, glance=True).settle()
    assert says in str(caught.value)
    assert job.read_bytes() == broken


def test_nothing_is_written_after_a_first_look_at_a_broken_file(job: Path) -> None:
    rewrite(job, lambda tables: tables["wall"]["1"].update(spacing="16"))
    broken = job.read_bytes()
    book = Book.open(job, "Ann", today, glance=True)
    for _ in range(2):
        with pytest.raises(Damaged, match="table wall, entry 1"):
            book.act("Add", [add(wall())])
        assert job.read_bytes() == broken


@pytest.mark.parametrize("content", [b"", b"{", b"[]", b'{"_meta": {"1": {"studbook": 99}}}', b'{"x": {}}'])
def test_a_file_that_is_replaced_by_something_else_while_open_is_never_written_over(job: Path, content: bytes) -> None:
    book = reopen(job)
    job.write_bytes(content)
    for _ in range(2):
        with pytest.raises(Damaged):
            book.act("Add a wall", [add(wall())])
        assert job.read_bytes() == content


def test_an_older_form_that_comes_back_while_open_is_not_written_over(job: Path) -> None:
    book = reopen(job)
    rewrite(job, lambda tables: (tables["_meta"]["1"].update(studbook=0), tables.pop("history")))
    before = job.read_bytes()
    with pytest.raises(Damaged, match=r"its format is older now \(0\)\. Nothing was changed"):
        book.act("Add a wall", [add(wall())])
    assert job.read_bytes() == before


def test_a_file_that_goes_away_while_open_is_not_made_again(job: Path) -> None:
    book = reopen(job)
    job.unlink()
    with pytest.raises(NoFile, match="studbook new"):
        book.act("Add a wall", [add(wall())])
    assert not job.exists()


def test_no_file(tmp_path: Path) -> None:
    path = tmp_path / "none.json"
    assert ": no such file. Make one: `studbook new " in refused(path, NoFile)
    assert names_in(tmp_path) == []


def test_a_folder_and_a_pipe_are_no_files(tmp_path: Path) -> None:
    with pytest.raises(Damaged, match="it is not a file"):
        Book.open(tmp_path, "Ann")
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    with pytest.raises(Damaged, match="it is not a file"):
        Book.open(pipe, "Ann")


def test_a_symlink_that_leads_in_a_circle(tmp_path: Path) -> None:
    one = tmp_path / "one.json"
    one.symlink_to(tmp_path / "two.json")
    (tmp_path / "two.json").symlink_to(one)
    with pytest.raises((Busy, NoFile)):
        Book.open(one, "Ann")


def test_unknown_fields_are_kept_and_told(job: Path) -> None:
    rewrite(job, lambda tables: tables["wall"]["1"].update(colour="red"))
    book = reopen(job)
    assert book.unknown() == [("W1", "colour")]
    assert Book.open(job, "Ann", today, glance=True).unknown() == [("W1", "colour")]
    book.act("Add a wall", [add(wall())])
    assert raw(job)["wall"]["1"]["colour"] == "red"


def test_a_job_needs_its_own_record(tmp_path: Path) -> None:
    path = tmp_path / "new.json"
    with pytest.raises(BadValue, match="No file was made"):
        Book.create(path, [add(wall("W1"), keep_tag=True)], "Ann", "Begin", today)
    with pytest.raises(BadValue, match="wrong tag for job"):
        Book.create(path, [add(settings(tag="other"), keep_tag=True)], "Ann", "Begin", today)
    assert names_in(tmp_path) == []
    assert today() == TODAY
