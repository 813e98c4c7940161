"""`python -m tests.completions` makes the shell completions anew that are shipped beside the command line."""

from __future__ import annotations

from pathlib import Path

import shtab

from templates.sheets.catalogue import SHEETS
from tui.cli.parsing import parser_of
from tui.shared.made import PACKETS

FOLDER = Path(__file__).parents[1] / "tui" / "cli" / "completions"
SHELLS = ("bash", "zsh", "fish")


def script(shell: str) -> str:
    """The completion of a shell: every command, its options, the names of the sheets, files for jobs."""
    parser = parser_of(["--help"])
    for action in parser._subparsers._group_actions[0].choices["print"]._actions:  # type: ignore[union-attr, index]
        if action.dest == "sheet":
            action.choices = (PACKETS, *SHEETS)
    for sub in parser._subparsers._group_actions[0].choices.values():  # type: ignore[union-attr]
        for action in sub._actions:
            if action.dest in ("job", "folder", "file", "to"):
                action.complete = shtab.FILE
    made: str = shtab.complete(parser, shell=shell)
    return made


if __name__ == "__main__":
    FOLDER.mkdir(exist_ok=True)
    for each in SHELLS:
        (FOLDER / f"studbook.{each}").write_text(script(each), "utf-8")
