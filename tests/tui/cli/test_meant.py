"""The options of `print`: one that changes nothing of a sheet is refused, and no other is."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

import pytest
from msgspec.structs import replace

from templates.sheets.catalogue import SHEETS, Context, make
from tests.jobs.begun import begun
from tui.cli.main import main
from tui.cli.meant import WHY, about, means

TRIED = ("drawing", "section", "tape", "money", "schedule", "labels")
FORMS = ("html", "svg", "md", "txt", "dxf", "csv")
VALUES: dict[str, tuple[Any, Any]] = {
    "wall": ("W2", ""),
    "scale": ("1:64", "1:128"),
    "paper": ("letter-10", "letter-80"),
    "skip": (0, 3),
    "nudge": ("", "1,1"),
}


def test_an_option_means_something_just_where_it_changes_the_sheet(tmp_path: Path) -> None:
    job = begun(tmp_path / "d.json", "demo", date(2026, 10, 14)).job
    for name in TRIED:
        for form in [each for each in FORMS if each in SHEETS[name].makers]:
            for option, values in VALUES.items():
                papers = values if option != "paper" or name == "labels" else ("a3", "letter")
                one, other = (make(name, form, job, replace(Context(), **{option: each})) for each in papers)
                assert (one != other) == means(option, name, form), (name, form, option)
    assert set(VALUES) | {"final", "give"} == set(WHY)


def test_help_for_a_sheet_says_what_it_is_for_and_what_may_be_said_of_it(capsys: pytest.CaptureFixture[str]) -> None:
    assert about("tape").splitlines()[1:] == ["Comes as: html, md, pdf", "Options of its own: --wall, --paper"]
    assert about("contacts").endswith("--paper")
    with pytest.raises(SystemExit):
        main(["print", "--help", "labels"])
    said = capsys.readouterr().out
    assert "Labels for both ends of every cable and raceway" in said
    assert "Options of its own: --paper, --skip, --nudge" in said


def test_a_misspelt_command_or_sheet_is_told_the_nearest(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "d.json"
    begun(path, "demo", date(2026, 10, 14)).close()
    assert main(["prnt", "money", str(path)]) == 2
    assert f"Did you mean: studbook print money {path}" in capsys.readouterr().err
    assert main(["print", "mony", str(path)]) == 2
    assert "Did you mean money?" in capsys.readouterr().err
    folder = tmp_path / "in.two"
    folder.mkdir()
    assert main(["print", "money", str(path), "--paper", "a4", "--to", str(folder)]) == 0
    assert main(["print", "money", str(path), "--scale", "1:20"]) == 2
    assert "not drawn to a scale" in capsys.readouterr().err
