"""print, export and import from the command line: what they write, what they refuse, and with which exit status."""

from __future__ import annotations

import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest

from store.book.book import Book
from store.records.equipment import Equipment
from store.records.people import Handoff
from tests.jobs.begun import begun
from tui.cli.main import main

CSV = "name,width,lead days\nReceiver,17 in,10\nPlayer,14 in,\n"


@pytest.fixture
def job(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A fresh demo in the folder one stands in."""
    monkeypatch.chdir(tmp_path)
    path = tmp_path / "wall.json"
    begun(path, "demo", date.today()).close()
    return path


def run(*arguments: object) -> int:
    return main([str(each) for each in arguments])


def test_a_sheet_goes_here_under_a_clear_name_and_its_place_is_told(
    job: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run("print", "schedule", job) == 0
    assert capsys.readouterr().out == "schedule: wall-schedule.html\n"
    assert "Schedule" in Path("wall-schedule.html").read_text()
    assert run("print", "drawing-electrician", job, "--to", "one.svg", "--wall", "W1") == 0
    assert capsys.readouterr().out == "drawing-electrician: one.svg (sheet 1 of 2: html and pdf have all)\n"
    assert run("print", "money", job, "--to", "out.csv") == 0
    assert Path("out.csv").read_bytes().startswith(b"\xef\xbb\xbftag,name,")


def test_every_packet_goes_into_a_folder(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run("print", "packets", job, "--to", "out") == 0
    assert "packet-drywall: out/wall-packet-drywall.html (draft)" in capsys.readouterr().out
    assert len(list(Path("out").iterdir())) >= 6


@pytest.mark.parametrize(
    ("arguments", "status", "words"),
    [
        (("print", "nothing"), 2, "there is no sheet"),
        (("print", "money", "--format", "svg"), 2, "can't be written as svg"),
        (("print", "money", "--to", "a.doc"), 2, "no sheet comes as .doc"),
        (("print", "packets", "--to", "a.html"), 2, "Give a folder"),
        (("print", "packet-drywall", "--final"), 3, "still a draft"),
        (("print", "packet-drywall", "--give", "--to", "-"), 3, "not entered as sent"),
        (("print", "money", "--give", "--to", "-"), 2, "--give means nothing for money: it is no packet"),
        (("print", "money", "--to", "mine.html"), 5, "a file is there that Studbook did not write"),
        (("print", "drawing", "--wall", "W9"), 6, "W9"),
        (("export", "nothing"), 6, "is not a list"),
        (("export", "passage"), 6, "is not a list"),
    ],
)
def test_what_cannot_be_is_refused_with_its_status(
    arguments: tuple[str, ...], status: int, words: str, job: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    Path("mine.html").write_text("mine")
    command, what, *rest = arguments
    assert run(command, what, job, *rest) == status
    assert words in capsys.readouterr().err
    assert Path("mine.html").read_text() == "mine"
    assert sorted(each.name for each in Path.cwd().iterdir() if not each.name.startswith(".")) == [
        "mine.html",
        "wall.json",
    ]


def test_a_packet_is_noted_as_given_at_the_point_it_was_printed(job: Path) -> None:
    before = len(Book.open(job, "").entries())
    assert run("print", "packet-electrician", job, "--give") == 0
    given = list(Book.open(job, "").job.of(Handoff).values())[-1]
    assert (given.trade, given.contact, given.given, given.point) == ("electrician", "T1", date.today(), before)


def test_export_goes_to_standard_output_or_a_file_and_comes_back(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run("export", "equipment", job) == 0
    out = capsys.readouterr().out
    assert run("export", "equipment", job, "e.csv") == 0
    assert Path("e.csv").read_bytes().decode() == "\ufeff" + out
    # The same list may be written over, with the mark of its encoding or without.
    assert run("export", "equipment", "--bom", "no", job, "e.csv") == 0
    assert Path("e.csv").read_bytes().decode() == out
    assert run("export", "--bom=yes", "equipment", job, "-") == 0
    assert capsys.readouterr().out.endswith("\ufeff" + out)
    before = job.read_bytes()
    assert run("import", "equipment", job, "e.csv") == 0
    assert job.read_bytes() == before


def test_import_is_one_action_and_a_dry_run_is_none(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    Path("new.csv").write_text(CSV)
    before = job.read_bytes()
    assert run("import", "equipment", job, "new.csv", "--dry-run") == 0
    out = capsys.readouterr().out
    assert "width -> width" in out
    assert "2 new, 0 changed" in out
    assert "dry run" in out
    assert job.read_bytes() == before
    count = len(Book.open(job, "").entries())
    assert run("import", "equipment", job, "new.csv") == 0
    book = Book.open(job, "")
    assert [each.name for each in list(book.job.of(Equipment).values())[-2:]] == ["Receiver", "Player"]
    assert len(book.entries()) == count + 1
    book.undo()
    assert "Player" not in [each.name for each in book.job.of(Equipment).values()]


def test_a_bad_row_is_named_and_nothing_is_imported(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    Path("bad.csv").write_text(CSV + "Console,wide,\n")
    before = job.read_bytes()
    assert run("import", "equipment", job, "bad.csv") == 6
    assert "row 4, column width" in capsys.readouterr().err
    assert job.read_bytes() == before
    assert run("import", "equipment", job, "none.csv") == 6


def test_an_import_cannot_get_past_the_gate(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    Path("p.csv").write_text("stage,date,by\nDrywall,today,Robin\n")
    assert run("import", "passage", job, "p.csv") == 6


@pytest.mark.parametrize(
    "arguments", [("print", "schedule", "--to", "-"), ("export", "cable"), ("print", "calendar", "--to", "-")]
)
def test_the_screen_is_not_imported(arguments: tuple[str, ...], job: Path) -> None:
    command, what, *rest = arguments
    code = (
        "import sys; from tui.cli.main import main; "
        f"status = main([{command!r}, {what!r}, {str(job)!r}, *{rest!r}]); "
        "bad = [name for name in ('textual', 'rich', 'tinydb') if name in sys.modules]; "
        "sys.exit(status or (f'{bad} imported' if bad else 0))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    assert done.stdout
