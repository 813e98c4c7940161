"""A whole job out as a folder of lists and into an empty job: records equal, the gate as strict as ever."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path

import pytest
from msgspec.structs import replace

from store.book.book import Book
from store.book.changes import add, edit
from store.measure.length import Length
from store.measure.money import Money
from store.records.equipment import Equipment
from store.records.field import Ref
from store.records.gate import Closing, Passage
from store.records.wall import Wall
from store.records.whole import KINDS
from store.rules.gate.gate import standing
from store.rules.gate.guard import Held
from templates.spreadsheet.reading import BadRows
from templates.spreadsheet.whole import export_whole, files_of, read_whole
from tests.jobs.begun import begun
from tui.cli.main import main

TODAY = date(2026, 10, 14)


def a_job(path: Path, starter: str = "demo") -> Book:
    """A new job of a shipped starter."""
    return begun(path, starter, TODAY)


def through(book: Book, path: Path) -> Book:
    """The job that comes of the lists of another, read into an empty one."""
    lists = {name.removesuffix(".csv"): text.encode() for name, text in export_whole(book.job).items()}
    new = a_job(path, "empty")
    new.act("Import", lambda job: read_whole(job, lists).changes)
    again = read_whole(new.job, lists)
    assert (again.changes, again.says().split(" the same")[0]) == (
        (), f"the whole job: 0 new, 0 changed, {sum(map(len, new.job.tables.values()))}",
    )  # fmt: skip
    return new


def same(one: Book, other: Book) -> bool:
    return all(dict(one.job.tables[kind]) == dict(other.job.tables[kind]) for kind in KINDS)


@pytest.mark.parametrize("starter", ["demo", "media-wall", "media-wall-metric", "empty"])
def test_a_job_goes_out_and_into_an_empty_one_the_same(starter: str, tmp_path: Path) -> None:
    book = a_job(tmp_path / "a.json", starter)
    new = through(book, tmp_path / "b.json")
    assert same(book, new)
    assert standing(new.job).stage == standing(book.job).stage
    assert not new.job.outside


def test_a_job_in_another_currency_with_commas_and_circles_goes_the_same(tmp_path: Path) -> None:
    book = a_job(tmp_path / "a.json", "empty")
    settings = replace(book.job.settings, currency="KWD", decimal="comma", units="millimetres", region="metric")
    book.act("Set", [edit(book.job.settings, settings)])
    walls = [
        Wall(tag="W1", name="=left; right", meets_right=Ref("W2"), scribe=Length(917_125_000, True)),
        Wall(tag="W2", name='a "b", ＝c', meets_left=Ref("W1"), notes="-d\n'=e\n1.234"),  # type: ignore[arg-type]
    ]
    gear = [
        Equipment(tag="E1", name="Fan", watts=12.345, price=Money(1_234), replaced_by=Ref("E2")),
        Equipment(tag="E2", name="Fan", plug=Ref("E1"), serial="00417", ports=("hdmi", "1.234")),
    ]
    book.act("Circle", [add(each, keep_tag=True) for each in (*walls, *gear)])
    assert same(book, through(book, tmp_path / "b.json"))


def test_passages_that_were_not_earned_do_not_come_in(tmp_path: Path) -> None:
    book = a_job(tmp_path / "a.json")
    lists = {name.removesuffix(".csv"): text.encode() for name, text in export_whole(book.job).items()}
    stage = b'P9,Drywall,2026-10-14,Eve,,"[]"\r\n'
    new = a_job(tmp_path / "b.json", "empty")
    before = new.path.read_bytes()
    with pytest.raises(Held, match="Drywall is recorded, not earned"):
        new.act("Import", read_whole(new.job, {**lists, "passage": lists["passage"] + stage}).changes)
    assert new.path.read_bytes() == before
    # Into a job that has records, no two stages come at once, whoever brings them.
    filled = a_job(tmp_path / "c.json", "media-wall")
    with pytest.raises(Held, match="only one stage at a time"):
        filled.act("Import", read_whole(filled.job, {"passage": lists["passage"]}).changes)


def test_closings_without_proof_or_check_do_not_come_in(tmp_path: Path) -> None:
    book = a_job(tmp_path / "a.json")
    lists = {name.removesuffix(".csv"): text.encode() for name, text in export_whole(book.job).items()}
    stray = lists["closing"] + b"K99/tested,closed,2026-10-14,Eve,seen,,{},\r\n"
    found = read_whole(a_job(tmp_path / "b.json", "empty").job, {**lists, "closing": stray})
    assert found.notes == ("left out, as these items are not on the list any more: K99/tested",)
    assert "K99/tested" not in {each.tag for each in found.changes}


def test_every_mistake_is_told_with_its_file_and_nothing_is_done(tmp_path: Path) -> None:
    book = a_job(tmp_path / "a.json", "empty")
    lists = {"wall": b"tag,name,left end meets\nW1,Left,W7\n", "equipment": b"name,watts,opening\nFan,hot,N1\n"}
    with pytest.raises(BadRows) as refused:
        read_whole(book.job, lists)
    assert str(refused.value).split("\n") == [
        "nothing was imported, 3 mistakes:",
        "wall.csv: row 2, column left end meets: no W7 in this job",
        'equipment.csv: row 2, column watts: "hot" is not a number. Write 12.5 W.',
        "equipment.csv: row 2, column opening: no N1 in this job",
    ]


# --- the command line ---


def run(*words: object) -> int:
    return main([str(each) for each in words])


def test_the_folder_of_a_job_from_the_command_line(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    book = a_job(tmp_path / "a.json")
    folder = tmp_path / "lists"
    assert run("export", "all", book.path, folder) == 0
    assert f"the whole job: {sum(map(len, book.job.tables.values()))} records" in capsys.readouterr().out
    assert sorted(each.stem for each in folder.iterdir()) == sorted(KINDS)
    assert all(each.read_bytes().startswith(b"\xef\xbb\xbftag,") for each in folder.iterdir())
    a_job(tmp_path / "b.json", "empty").close()
    (folder / "other.csv").write_text("name\n")
    for _ in range(2):
        assert run("import", "--dry-run", "all", tmp_path / "b.json", folder) == 0
    out = capsys.readouterr().out
    assert "other.csv is left out: its name is not that of a list" in out
    assert out.count("Nothing was done (dry run)") == 2
    assert run("import", "all", tmp_path / "b.json", "--json", folder) == 0
    said = json.loads(capsys.readouterr().out)
    assert (said["schema"], said["done"]) == (1, True)
    assert same(book, Book.open(tmp_path / "b.json", "Robin", lambda: TODAY))
    assert run("import", "all", tmp_path / "b.json", folder) == 0
    assert "Nothing is new." in capsys.readouterr().out
    assert run("export", "all", book.path, folder) == 0


@pytest.mark.parametrize(
    "words", [("export", "all", "JOB"), ("import", "all", "JOB", "gone"), ("import", "all", "JOB", ".")]
)
def test_what_is_no_folder_of_lists_is_refused(words: tuple[str, ...], tmp_path: Path) -> None:
    path = a_job(tmp_path / "a.json", "empty").path
    assert run(*(path if word == "JOB" else tmp_path / word if word in ("gone", ".") else word for word in words)) == 6


def test_two_lists_of_one_kind_are_refused(tmp_path: Path) -> None:
    for name in ("equipment.csv", "Equipment.tsv"):
        (tmp_path / name).write_text("name\nFan\n")
    with pytest.raises(ValueError, match="a second list of equipment"):
        files_of(tmp_path)


def test_a_whole_import_is_one_action_that_undo_takes_back(tmp_path: Path) -> None:
    book = a_job(tmp_path / "a.json")
    new = through(book, tmp_path / "b.json")
    new.undo("read by mistake")
    assert (new.job.of(Passage), new.job.of(Closing), new.job.of(Equipment)) == ({}, {}, {})
