"""What cannot be read, written or said ends in a sentence and its status, never in a traceback."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pytest

from tests.tui.seat import small_job
from tui.cli.main import main

ROOT = Path(__file__).parents[3]


def studbook(*words: object, shell: str = "", cwd: Path | None = None, **more: Any) -> subprocess.CompletedProcess[str]:
    """Run the program by itself; `shell` is what the shell does with its output."""
    command: Sequence[str] = [sys.executable, "-m", "tui", *map(str, words)]
    if shell:
        command = ["/bin/sh", "-c", f'"$@" {shell}', "sh", *command]
    env = {**os.environ, "PYTHONPATH": str(ROOT)}
    return subprocess.run(
        command, cwd=cwd or ROOT, env=env, capture_output=True, text=True, timeout=120, check=False, **more
    )


def within(*words: object) -> int:
    """Run the program in this process, where nothing is tried that only one of its own has; its exit status."""
    return main([str(each) for each in words])


@pytest.mark.parametrize("words", [["status"], ["export", "wall"], ["print", "labels", "--to", "-"]])
def test_an_answer_that_cannot_be_written_is_told(words: list[str], tmp_path: Path) -> None:
    path = small_job(tmp_path)
    given = [*words[:2], path, *words[2:]] if words[0] in ("export", "print") else [*words, path]
    full = studbook(*given, shell="> /dev/full")
    assert (full.returncode, full.stderr.count("\n")) == (5, 1)
    assert full.stderr.startswith("studbook: the answer cannot be written: No space left on device.")
    closed = studbook(*given, shell=">&-")
    assert (closed.returncode, closed.stderr.count("\n")) == (5, 1)
    assert "standard output is closed" in closed.stderr
    read_no_further = studbook(*given, shell="| true")
    assert read_no_further.stderr == ""


def test_with_every_way_out_closed_it_still_ends_with_its_status(tmp_path: Path) -> None:
    path = small_job(tmp_path)
    assert studbook("status", path, shell=">&- 2>&-").returncode == 5
    assert studbook("status", tmp_path / "none.json", shell="2>&-").returncode == 2
    assert studbook("status", tmp_path / "none.json", shell="2> /dev/full").returncode == 2


def test_a_folder_that_is_no_more_is_told(tmp_path: Path) -> None:
    gone = tmp_path / "gone"
    gone.mkdir()
    for words in ("status w.json", "new w.json", "verify w.json", "export wall w.json a.csv", "print labels w.json"):
        there = f"mkdir -p {gone} && cd {gone} && rmdir {gone}"
        shell = f'{there} && "{sys.executable}" -m tui {words}; s=$?; mkdir -p {gone}; exit $s'
        env = {**os.environ, "PYTHONPATH": str(ROOT)}
        result = subprocess.run(
            ["/bin/sh", "-c", shell], env=env, capture_output=True, text=True, timeout=60, check=False
        )
        assert result.returncode in (2, 5), (words, result.stderr)
        assert "Traceback" not in result.stderr
        assert "studbook: " in result.stderr


def test_odd_names_and_things_that_are_no_files(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    assert within("new", "--", "-x.json") == 0
    assert capsys.readouterr().out.endswith("Open it: studbook -- -x.json\n")
    assert within("status", "--", "-x.json") == 0
    assert within("--", "-x.json") == 0
    assert within("new", tmp_path / ("n" * 240 + ".json")) == 5
    assert "the name is too long" in capsys.readouterr().err
    os.mkfifo(tmp_path / "pipe")
    small_job(tmp_path)
    for thing in ("/dev/zero", tmp_path / "pipe", tmp_path):
        assert within("status", thing) in (4, 5)
        assert within("new", tmp_path / "a.json", "--starter", thing) == 6
        assert within("import", "contact", tmp_path / "-x.json", thing) == 6


def test_a_cell_of_a_million_marks_is_refused_in_bounded_time(tmp_path: Path) -> None:
    path = small_job(tmp_path)
    text = "e" + "\u0301\u0323" * 500_000
    (tmp_path / "a.csv").write_text(f"name,trade\n{text},owner\n", "utf-8")
    result = studbook("import", "contact", path, tmp_path / "a.csv")
    assert result.returncode == 6
    assert len(result.stderr) < 2000


def test_verify_lists_the_copies_and_brings_one_back(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = small_job(tmp_path)
    for name in "AB":
        (tmp_path / "a.csv").write_text(f"name,trade\n{name},owner\n", "utf-8")
        assert within("import", "contact", path, tmp_path / "a.csv") == 0
    whole = path.read_bytes()
    path.unlink()
    assert within("verify", path) == 2
    assert f".{path.name}.copy0: 2 actions, the last " in capsys.readouterr().err
    within("verify", path, "--json")
    told = json.loads(capsys.readouterr().out)
    assert [each["actions"] for each in told["copies"]] == [2, 1]
    assert within("new", path) == 5
    capsys.readouterr()
    assert within("verify", path, "--restore", "copy0") == 0
    assert capsys.readouterr().out.startswith(f"Restored .{path.name}.copy0: 2 actions")
    path.write_bytes(whole[:500])
    assert within("verify", path, "--put-back") == 4
    assert "The newest copy that opens: " in capsys.readouterr().err
    assert within("verify", path, "--restore", "copy1", "--to", tmp_path / "new.json") == 0
    assert path.read_bytes() == whole[:500]
    assert within("verify", path, "--force") == 6
    capsys.readouterr()
    within("verify", tmp_path / "new.json", "--json")
    assert json.loads(capsys.readouterr().out)["exit"] == 0


def test_what_cannot_be_opened_is_told_with_its_folder_and_what_to_type(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    path = small_job(tmp_path)
    torn, far = tmp_path / "torn job.json", tmp_path / "none" / "wall.json"
    torn.write_bytes(path.read_bytes()[:200])

    def told(*words: object) -> str:
        assert within(*words) != 0
        return capsys.readouterr().err

    assert f"studbook verify '{torn}'" in told("status", torn)
    assert "Nothing was changed" in (said := told("verify", torn))
    assert "Run `studbook verify" not in said, "who runs it is not told to run it"
    assert f"There is no folder {far.parent} either" in told("status", far)
    assert f"studbook new {tmp_path / 'none.json'}`" in told("status", tmp_path / "none.json")
    monkeypatch.chdir(tmp_path)
    assert "studbook verify 'torn job.json'" in told("status", torn)
    assert f"studbook print money {path.name}" in told("print", path.name, "money")
    assert f"studbook export wall {path.name}" in told("export", path.name, "wall")
    (tmp_path / "phone").mkdir()
    assert f"studbook photos {path.name} phone" in told("photos", "phone", path.name)
