"""The command line: every subcommand, its exit status, and what it imports."""

from __future__ import annotations

import errno
import json
import os
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest

from store.book.book import Book
from store.book.changes import add
from store.records.gate import Check
from store.rules.core.checks import close, rough_in
from tests.tui.seat import job_file, small_job, stored, tables
from tui.cli.main import main

ROOT = Path(__file__).resolve().parents[3]


def run(*arguments: str | Path, cwd: Path | None = None) -> subprocess.CompletedProcess[str]:
    """The program in a process of its own, without a terminal."""
    return subprocess.run(
        [sys.executable, "-m", "tui", *map(str, arguments)],
        capture_output=True, text=True, cwd=cwd, timeout=60, check=False, stdin=subprocess.DEVNULL,
        env={**os.environ, "PYTHONPATH": str(ROOT), "STUDBOOK_NAME": "Robin"},
    )  # fmt: skip


def test_demo_without_a_terminal_puts_the_job_there_prints_its_status_and_leaves_0(tmp_path: Path) -> None:
    done = run("demo", tmp_path / "d")
    assert done.returncode == 0, done.stderr
    assert done.stderr == ""
    path = tmp_path / "d" / "demo-wall.json"
    assert f"Demo job: {path}" in done.stdout
    assert "at Rough-in (stage 4 of 8)" in done.stdout
    again = run("demo", tmp_path / "d")
    assert again.returncode == 0, "a demo that is there already is opened, not made anew"


def test_open_without_a_job_and_without_a_terminal(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The last job's status; the last job is the one that a screen opened."""
    path = job_file(tmp_path)
    assert main(["open", str(path)]) == 0
    first = capsys.readouterr().out
    assert "at Rough-in" in first
    assert main([str(path)]) == 0, "the command may be left out"
    assert capsys.readouterr().out == first


@pytest.mark.parametrize("starter", ["empty", "media-wall", "media-wall-metric", "demo"])
def test_new_makes_a_private_file_from_a_starter(tmp_path: Path, starter: str) -> None:
    path = tmp_path / "job.json"
    assert main(["new", str(path), "--starter", starter]) == 0
    assert path.stat().st_mode & 0o777 == 0o600
    assert main(["verify", str(path)]) == 0


def test_new_never_writes_over_a_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "job.json"
    path.write_text("mine")
    assert main(["new", str(path)]) == 5
    assert path.read_text() == "mine"
    assert "this file exists" in capsys.readouterr().err


def test_a_starter_of_ones_own_is_taken_and_its_mistakes_are_named(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    good = tmp_path / "mine.toml"
    good.write_text(
        '[job]\nname = "Mine"\n[[wall]]\nname = "North"\n[[wall.reading]]\nwhat = "width"\nvalue = "9\' 1/2"\n'
    )
    assert main(["new", str(tmp_path / "a.json"), "--starter", str(good)]) == 0
    assert stored(tmp_path / "a.json").job.settings.name == "Mine"
    bad = tmp_path / "bad.toml"
    bad.write_text('[job]\nname = "Mine"\n[[wall]]\nname = "North"\nspacing = "wide"\n')
    capsys.readouterr()
    assert main(["new", str(tmp_path / "b.json"), "--starter", str(bad)]) == 6
    told = capsys.readouterr().err
    for part in ("bad.toml", "wall", "1", "spacing"):
        assert part in told
    assert not (tmp_path / "b.json").exists()
    assert (
        main(["new", str(tmp_path / "c.json"), "--starter", "nonesuch"]) == 6 or "nonesuch" in capsys.readouterr().err
    )


@pytest.mark.parametrize("command", ["status", "figures"])
def test_json_goes_to_standard_output_alone(tmp_path: Path, command: str) -> None:
    done = run(command, job_file(tmp_path), "--json")
    assert done.returncode == 0
    assert done.stderr == ""
    assert isinstance(json.loads(done.stdout), dict)


def test_status_tells_what_the_screen_tells(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = small_job(tmp_path, [Check(tag="Q1", what="one"), Check(tag="Q2", what="two")])
    book = Book.open(path, "Robin")
    done = close(rough_in(book.job)[0], "Robin", date.today(), evidence="both blocks nailed")
    book.act("close", [add(done, keep_tag=True)])
    capsys.readouterr()
    assert main(["status", str(path), "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert found["items"] == {"total": 2, "open": 1, "closed": 1, "not_needed": 0}
    assert (found["stage"], found["next"]) == ("Survey", "Design")
    assert [each["key"] for each in found["holds"]] == ["walls"]


def test_advance_is_held_with_3_and_passes_with_0(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = small_job(tmp_path, [Check(tag="Q1", what="one")])
    assert main(["advance", str(path), "--by", "Robin"]) == 3, "a reason is needed"
    for _ in range(3):
        assert main(["advance", str(path), "--by", "Robin", "--reason", "as planned"]) == 0
    capsys.readouterr()
    assert main(["advance", str(path), "--by", "Robin", "--reason", "I want to"]) == 3
    assert "Q1 one" in capsys.readouterr().err
    book = Book.open(path, "Robin")
    done = close(rough_in(book.job)[0], "Robin", date.today(), evidence="both blocks nailed")
    book.act("close", [add(done, keep_tag=True)])
    assert main(["advance", str(path), "--by", "Robin"]) == 0
    assert "Moved to Drywall" in capsys.readouterr().out
    assert main(["advance", str(path), "--by", "  "]) == 6


def test_without_a_terminal_and_without_a_job_it_says_what_to_name(tmp_path: Path) -> None:
    done = run(cwd=tmp_path)
    assert done.returncode == 2
    assert "studbook new" in done.stderr
    assert "\x1b" not in done.stdout


def test_usage_is_2(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for wrong in (["status"], ["advance", "x.json"], ["new"], ["figures", "a", "b"], ["--nonsense"]):
        with pytest.raises(SystemExit) as left:
            main(wrong)
        assert left.value.code == 2
    assert main(["status", str(tmp_path / "none.json")]) == 2
    assert "no such file" in capsys.readouterr().err
    with pytest.raises(SystemExit) as left:
        main(["--help"])
    assert left.value.code == 0


@pytest.mark.parametrize("content", [b"", b"{", b"hello", b"\xff\xfe\x00", b"[]", b"{}", b'{"a": {"1": {}}}'])
@pytest.mark.parametrize("command", ["status", "figures", "verify", "advance", "open"])
def test_a_damaged_empty_or_foreign_file_is_4_and_is_not_touched(
    tmp_path: Path, command: str, content: bytes, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "job.json"
    path.write_bytes(content)
    arguments = [command, str(path), *(["--by", "Robin"] if command == "advance" else [])]
    assert main(arguments) == 4
    assert path.read_bytes() == content
    told = capsys.readouterr()
    assert str(path) in told.err
    assert "Traceback" not in told.err


def test_verify_names_the_newest_copy_that_opens(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = small_job(tmp_path)
    Book.open(path, "Robin").act("more", [add(Check(tag="", what="one"))])
    path.write_bytes(path.read_bytes()[:-50])
    assert main(["verify", str(path)]) == 4
    told = capsys.readouterr().err
    assert "The newest copy that opens: " in told
    copy = Path(told.split("The newest copy that opens: ")[1].strip())
    assert stored(copy).job.settings.name == "Small"


def test_verify_tells_what_was_done_by_hand_and_puts_it_back(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = small_job(tmp_path, [Check(tag="Q1", what="one")])
    assert main(["verify", str(path)]) == 0
    raw = tables(path)
    raw["check"]["1"]["what"] = "another"
    path.write_text(json.dumps(raw))
    capsys.readouterr()
    assert main(["verify", str(path)]) == 4
    assert "check Q1 was changed outside of Studbook" in capsys.readouterr().out
    assert main(["verify", str(path), "--put-back"]) == 0
    assert tables(path)["check"]["1"]["what"] == "one"


def test_a_stage_claimed_by_hand_is_3_for_verify(tmp_path: Path) -> None:
    path = job_file(tmp_path)
    raw = tables(path)
    raw["passage"]["9"] = {"tag": "P9", "stage": "Drywall", "date": "2026-01-01", "by": "x"}
    path.write_text(json.dumps(raw))
    assert main(["verify", str(path)]) in (3, 4)
    done = run("status", path)
    assert done.returncode == 0
    assert "Stage recorded, not earned: Drywall" in done.stdout


def test_a_folder_that_cannot_be_written_to_is_5(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """As root every folder can be written to, so the refusal of the system is put in its place."""
    path = small_job(tmp_path)
    before = path.read_bytes()

    def refuse(*_arguments: object, **_named: object) -> int:
        raise OSError(errno.EROFS, "Read-only file system")

    real = os.open
    monkeypatch.setattr(os, "open", lambda name, flags, *more, **named: (
        refuse() if flags & os.O_CREAT else real(name, flags, *more, **named)
    ))  # fmt: skip
    assert main(["advance", str(path), "--by", "Robin", "--reason", "as planned"]) == 5
    assert path.read_bytes() == before


def test_control_characters_of_a_job_do_not_reach_the_terminal(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = job_file(tmp_path)
    raw = tables(path)
    nasty = "a\x1b[31mb\x9b5n\x07\u202ec"
    raw["job"]["1"]["name"] = nasty
    for doc in [*raw["check"].values(), *raw["equipment"].values(), *raw["contact"].values()]:
        doc.update({key: nasty for key in ("what", "name", "where") if key in doc and key != "tag" and doc is not None})
    for doc in raw["equipment"].values():
        doc["what"] = "other"
    path.write_text(json.dumps(raw))
    for command in ("status", "figures", "verify"):
        assert main([command, str(path)]) in (0, 4)
        told = capsys.readouterr()
        assert told.out
        assert not [sign for sign in told.out + told.err if sign in "\x1b\x9b\x07\u202e"]


def test_no_command_but_open_and_demo_imports_the_screen(tmp_path: Path) -> None:
    paths = {"new": tmp_path / "new.json", **dict.fromkeys(("status", "figures", "verify"), small_job(tmp_path))}
    code = (
        "import sys; from tui.cli.main import main;"
        "status = [main([each, path]) for each, path in zip(sys.argv[1::2], sys.argv[2::2])];"
        "print([n for n in ('textual', 'rich', 'tinydb') if n in sys.modules], file=sys.stderr); sys.exit(any(status))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, *(str(word) for pair in paths.items() for word in pair)],
        capture_output=True, text=True, cwd=ROOT, timeout=60, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert done.stderr.strip() == "[]"


def test_output_that_nobody_reads_to_the_end_is_no_error(tmp_path: Path) -> None:
    path = job_file(tmp_path)
    command = f"{sys.executable} -m tui status {path} | head -1"
    done = subprocess.run(["/bin/sh", "-c", command], capture_output=True, text=True, cwd=ROOT, timeout=60, check=False)
    assert done.returncode == 0
    assert "Traceback" not in done.stderr
