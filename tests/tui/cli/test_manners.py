"""Small manners of the command line: its version, what each sheet is for, the form of its JSON, completion."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path

import pytest

from templates.sheets.catalogue import SHEETS
from tests.completions import FOLDER, SHELLS, script
from tests.jobs.begun import begun
from tui.cli.main import COMMANDS, main


@pytest.fixture
def job(tmp_path: Path) -> Path:
    path = tmp_path / "wall.json"
    begun(path, "demo", date.today()).close()
    return path


def test_it_says_its_version(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as left:
        main(["--version"])
    assert left.value.code == 0
    assert capsys.readouterr().out.startswith("studbook ")


def test_the_help_of_print_says_what_each_sheet_is_for(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        main(["print", "--help"])
    lines = [line.split(maxsplit=1) for line in capsys.readouterr().out.splitlines() if line.startswith("  ")]
    told = {line[0]: line[1] for line in lines if len(line) == 2}
    assert {name: told.get(name) for name in SHEETS} == {name: one.title for name, one in SHEETS.items()}


@pytest.mark.parametrize("command", ["status", "figures", "verify"])
def test_every_json_names_its_form(command: str, job: Path, capsys: pytest.CaptureFixture[str]) -> None:
    main([command, str(job), "--json"])
    assert json.loads(capsys.readouterr().out)["schema"] == 1


@pytest.mark.parametrize("shell", SHELLS)
def test_the_completion_that_is_shipped_is_that_of_today(
    shell: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "80")
    shipped = (FOLDER / f"studbook.{shell}").read_text("utf-8")
    assert shipped == script(shell), "run `python -m tests.completions`"
    assert all(name in shipped for name in COMMANDS)
    assert "drawing-drywall" in shipped
    assert main(["completion", shell]) == 0
    assert capsys.readouterr().out == shipped
