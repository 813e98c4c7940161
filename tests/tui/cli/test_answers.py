"""Answers kept between runs: as true as those worked out anew, and never in the way."""

from __future__ import annotations

import argparse
import json
import os
import shutil
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest

from templates.sheets.catalogue import SHEETS, maker_of
from tests.tui.seat import job_file
from tui.cli import answers, commands, sheets
from tui.cli.main import main


@pytest.fixture
def worked_out(monkeypatch: pytest.MonkeyPatch) -> list[Path]:
    """The jobs whose status was really worked out, a path each time."""
    asked: list[Path] = []
    real = commands.status_text

    def counted(path: Path, *, as_json: bool, whole: bool = False) -> str:
        asked.append(path)
        return real(path, as_json=as_json, whole=whole)

    monkeypatch.setattr(commands, "status_text", counted)
    return asked


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """A small job."""
    return job_file(tmp_path)


def status(job: Path, capsys: pytest.CaptureFixture[str], *more: str) -> str:
    capsys.readouterr()
    assert main(["status", str(job), *more]) == 0
    return capsys.readouterr().out


def kept_answers() -> list[Path]:
    return sorted(Path(os.environ["XDG_CACHE_HOME"], "studbook", "answers").iterdir())


def test_the_same_question_is_worked_out_once(
    job: Path, worked_out: list[Path], capsys: pytest.CaptureFixture[str]
) -> None:
    first = status(job, capsys)
    assert status(job, capsys) == first
    assert len(worked_out) == 1
    assert json.loads(status(job, capsys, "--json"))["stage"] in first
    assert len(worked_out) == 2


def test_a_change_of_the_file_the_day_or_the_program_is_worked_out_anew(
    job: Path, worked_out: list[Path], capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    status(job, capsys)
    # One blank more: the same records, other bytes, and size and time put back as they were would not help.
    job.write_text(job.read_text().replace(":", ": ", 1))
    status(job, capsys)
    assert len(worked_out) == 2

    tomorrow = str(date.today() + timedelta(days=1))
    monkeypatch.setattr(answers, "_today", lambda: tomorrow)
    status(job, capsys)
    assert len(worked_out) == 3
    monkeypatch.setattr(answers, "_program", lambda: iter(["another program"]))
    status(job, capsys)
    assert len(worked_out) == 4
    status(job, capsys)
    assert len(worked_out) == 4


def test_a_stage_written_in_by_hand_with_the_old_time_put_back_is_told_at_once(
    job: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    before, was = status(job, capsys), job.stat()
    data = json.loads(job.read_text())
    table = next(table for table in data.values() if any("name" in row for row in table.values()))
    row = next(row for row in table.values() if "name" in row)
    row["name"] = "".join(reversed(row["name"]))
    job.write_text(json.dumps(data, separators=(",", ":")))
    os.utime(job, ns=(was.st_atime_ns, was.st_mtime_ns))
    after = status(job, capsys)
    assert after != before
    assert "outside of Studbook" in after


@pytest.mark.parametrize("harm", ["cut", "forged", "folder"])
def test_a_spoilt_answer_is_not_believed(
    job: Path, worked_out: list[Path], capsys: pytest.CaptureFixture[str], harm: str
) -> None:
    first = status(job, capsys)
    (kept,) = kept_answers()
    if harm == "cut":
        kept.write_bytes(kept.read_bytes()[:-9])
    elif harm == "forged":
        kept.write_bytes(kept.read_bytes().replace(b"open", b"shut"))
    else:
        kept.unlink()
        kept.mkdir()
    assert status(job, capsys) == first
    assert len(worked_out) == 2


def test_where_nothing_can_be_kept_it_is_worked_out_each_time(
    job: Path,
    worked_out: list[Path],
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
) -> None:
    in_the_way = tmp_path / "file"
    in_the_way.write_text("")
    monkeypatch.setenv("XDG_CACHE_HOME", str(in_the_way))
    assert status(job, capsys) == status(job, capsys)
    assert len(worked_out) == 2


def test_few_are_kept_and_only_for_their_owner(
    job: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(answers, "MOST", 3)
    for number in range(5):
        answers.keep(f"{number:048}", "x")
    status(job, capsys)
    assert len(kept_answers()) == 3
    assert {each.stat().st_mode & 0o777 for each in kept_answers()} == {0o600}


def test_a_link_that_points_to_a_twin_now_names_the_twin(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    twin, link = job.with_name("twin.json"), job.with_name("link.json")
    shutil.copy(job, twin)
    for file in (job, twin, job):
        link.unlink(missing_ok=True)
        link.symlink_to(file)
        assert json.loads(status(link, capsys, "--json"))["file"] == str(file)


@pytest.mark.parametrize("whose", ["a link", "open to all", "another's"])
def test_a_folder_that_others_could_write_to_is_neither_read_nor_written(
    job: Path,
    worked_out: list[Path],
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
    whose: str,
) -> None:
    first = status(job, capsys)
    folder = Path(os.environ["XDG_CACHE_HOME"], "studbook", "answers")
    if whose == "a link":
        folder.rename(tmp_path / "elsewhere")
        folder.symlink_to(tmp_path / "elsewhere")
    elif whose == "open to all":
        folder.chmod(0o777)
    else:
        monkeypatch.setattr(os, "geteuid", lambda: folder.stat().st_uid + 1)
    was = [each.stat().st_mtime_ns for each in kept_answers()]
    for more in ((), ("--json",)):
        assert first.splitlines()[0].split(":")[0] in status(job, capsys, *more)
    assert len(worked_out) == 3
    assert [each.stat().st_mtime_ns for each in kept_answers()] == was


def test_what_is_no_answer_is_never_taken_away(
    job: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    status(job, capsys)
    mine = kept_answers()[0].with_name("letter.txt")
    mine.write_text("mine")
    os.utime(mine, (0, 0))
    monkeypatch.setattr(answers, "MOST", 1)
    status(job, capsys, "--json")
    assert mine.read_text() == "mine"
    assert len(kept_answers()) == 2


def test_where_nobody_is_at_home_it_is_worked_out_and_nothing_is_left_behind(
    job: Path, worked_out: list[Path], capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(job.parent)
    before = sorted(job.parent.rglob("*"))
    for cache in ("", "not/full"):
        monkeypatch.setenv("XDG_CACHE_HOME", cache)
        monkeypatch.setenv("HOME", "~")
        monkeypatch.setattr(os.path, "expanduser", str)
        status(job, capsys)
        status(job, capsys)
    assert len(worked_out) == 4
    assert sorted(job.parent.rglob("*")) == before


def test_a_named_pipe_is_not_waited_for(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    os.mkfifo(tmp_path / "pipe.json")
    for words in (["status"], ["figures"], ["print", "checklist"]):
        assert main([*words, str(tmp_path / "pipe.json")]) == 4
    assert "it is not a file" in capsys.readouterr().err


def test_a_folder_that_was_taken_away_under_one(
    job: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    gone = tmp_path / "gone"
    gone.mkdir()
    monkeypatch.chdir(gone)
    gone.rmdir()
    assert "at Rough-in" in status(job, capsys)
    assert main(["status", "job.json"]) == 2
    assert main(["new", "job.json"]) == 2
    assert "the current folder no longer exists" in capsys.readouterr().err
    monkeypatch.chdir(tmp_path)


def test_a_name_with_bytes_that_are_no_text(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    odd = Path(os.fsdecode(bytes(job.parent) + b"/w\xff\x1b[31m.json"))
    shutil.copy(job, odd)
    for _ in range(2):
        assert json.loads(status(odd, capsys, "--json"))["file"].endswith("/w\ufffd\x1b[31m.json")
    assert main(["new", str(odd.with_name(f"{odd.stem}-2.json"))]) == 0
    assert "\x1b" not in capsys.readouterr().out


def test_errors_are_never_kept(job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job.write_text("{")
    for _ in range(2):
        assert main(["status", str(job)]) == 4
    assert main(["status", str(job.with_name("none.json"))]) != 0
    assert not Path(os.environ["XDG_CACHE_HOME"], "studbook", "answers").exists()


@pytest.fixture
def made(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The sheets that were really made."""
    names: list[str] = []
    real = sheets.make_sheets

    def counted(options: argparse.Namespace, who: str) -> Any:
        names.append(options.sheet)
        return real(options, who)

    monkeypatch.setattr(sheets, "make_sheets", counted)
    return names


def test_a_sheet_is_made_once_and_written_as_often_as_asked(
    job: Path, made: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    for name in ("a.html", "b.html"):
        assert main(["print", "checklist", str(job), "--to", str(tmp_path / name)]) == 0
    assert (tmp_path / "a.html").read_text() == (tmp_path / "b.html").read_text()
    assert main(["print", "checklist", str(job), "--to", "-", "--format", "md"]) == 0
    assert "<" not in capsys.readouterr().out.splitlines()[-1][:1]
    assert made == ["checklist"] * 2


def test_packets_go_to_a_folder_that_was_taken_away_again(job: Path, made: list[str], tmp_path: Path) -> None:
    folder = tmp_path / "packets"
    for _ in range(3):
        assert main(["print", "packets", str(job), "--to", str(folder)]) == 0
        assert len(list(folder.iterdir())) > 2
        shutil.rmtree(folder)
    assert made == ["packets"]


def test_a_name_that_ends_as_a_folder_does_is_one(job: Path, tmp_path: Path) -> None:
    for name in ("checklist", "contacts", "calendar"):
        assert main(["print", name, str(job), "--to", f"{tmp_path}/new/sheets/"]) == 0
    names = sorted(each.name for each in (tmp_path / "new" / "sheets").iterdir())
    assert names == ["job-calendar.ics", "job-checklist.html", "job-contacts.html"]


def test_a_draft_stays_a_draft_when_it_was_made_before(
    job: Path, made: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    words = ["print", "packet-drywall", str(job), "--to", str(tmp_path / "p.html")]
    assert main(words) == 0
    assert main([*words, "--final"]) == 3
    assert "still a draft" in capsys.readouterr().err
    assert made == ["packet-drywall"]
    assert main([*words, "--give"]) == 3
    assert made == ["packet-drywall"] * 2


def test_what_looks_at_other_files_is_made_each_time(job: Path, made: list[str], tmp_path: Path) -> None:
    for _ in range(2):
        assert main(["print", "owners-book", str(job), "--to", str(tmp_path / "book.html")]) == 0
    assert made == ["owners-book"] * 2


def test_every_sheet_that_looks_at_other_files_says_so() -> None:
    """A maker that is given the folder of the job may look at any file: its sheet must not be kept."""
    for name, sheet in SHEETS.items():
        looks = any("folder" in maker_of(name, form).__code__.co_names for form in sheet.makers)
        assert looks == sheet.pictures, name
