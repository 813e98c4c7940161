"""The words of the command line as argparse reads them; apart, since opening a job needs none of it."""

from __future__ import annotations

import argparse
import os
from collections.abc import Sequence
from pathlib import Path

from tui.cli.words import ANSWERS, AnyOrder

ABOUT = {
    "open": "open a job on the screen (the last one, or a start page, without JOB)",
    "demo": "put the demo job in FOLDER and open it",
    "new": "make a new job",
    "status": "stage, what locks the next one, problems, totals",
    "figures": "every calculated figure",
    "advance": "move to the next stage, or show what locks it",
    "print": "write a sheet: a packet, a schedule, labels, a list, a drawing, the owner's book",
    "export": "write records as csv for import: one kind, or the whole job",
    "import": "read records from csv or xlsx",
    "verify": "check the file, its references and its stages",
    "photos": "add the photos in a phone's folder, one by one",
    "completion": "the completion script of a shell, to source in it",
}
"""The commands, in the order of their list."""


class _Help(argparse.HelpFormatter):
    """As wide as the terminal. What argparse itself asks for the width takes a tenth of the time of a command."""

    def __init__(self, prog: str) -> None:
        try:
            columns = int(os.environ.get("COLUMNS", "")) or os.get_terminal_size().columns
        except (OSError, ValueError):
            columns = 80
        super().__init__(prog, width=max(columns - 2, 20))


class _Listed(_Help, argparse.RawDescriptionHelpFormatter):
    """A description that is a list keeps its lines."""


class _Version(argparse.Action):
    """Says which version this is, and leaves."""

    def __call__(self, parser: argparse.ArgumentParser, *_: object) -> None:
        """Print it."""
        from importlib.metadata import PackageNotFoundError, version  # slow: only where it is asked for

        try:
            said = version("studbook")
        except PackageNotFoundError:
            said = "from its source, not installed"
        print(f"studbook {said}")
        parser.exit()


def parser_of(given: Sequence[str]) -> argparse.ArgumentParser:
    """The parser of the command whose name is given first; of all commands where none does, for their list."""
    parser = argparse.ArgumentParser(
        prog="studbook",
        formatter_class=_Help,
        description="What is behind your media wall, from the first tape reading to years after.",
        epilog=(
            "Exit status: 0 done, 2 usage, 3 locked by the gate, 4 file damaged or foreign, 5 busy or "
            "conflict, 6 bad input. Planning aid only: local code, the manufacturers' instructions and "
            "licensed practice win."
        ),
    )
    parser.add_argument("--version", action=_Version, nargs=0, help="show the version")
    commands = parser.add_subparsers(
        prog="studbook", dest="command", required=True, metavar="COMMAND", parser_class=AnyOrder
    )

    def command(name: str, about: str) -> argparse.ArgumentParser:
        return commands.add_parser(name, help=about, description=about, formatter_class=_Help)

    for name in given[:1] if given[0] in ABOUT else ABOUT:
        sub = command(name, ABOUT[name])
        if name == "print":
            from tui.cli.printing import about_print, add_print

            # The names of the sheets are in the catalogue, which only a question needs.
            if {"-h", "--help"} & set(given):
                sub.description, sub.formatter_class = about_print(given), _Listed
            add_print(sub)
        elif name in ("export", "import"):
            from tui.cli.lists import add_command

            add_command(sub, name)
        else:
            _add_words(sub, name)
    return parser


def _add_words(sub: argparse.ArgumentParser, name: str) -> None:
    """Give the parser of a command its words."""
    if name == "completion":
        sub.add_argument("shell", choices=("bash", "zsh", "fish"))
        return
    if name == "demo":
        sub.add_argument("folder", type=Path, metavar="FOLDER", nargs="?")
        return
    sub.add_argument("job", type=Path, metavar="JOB", nargs="?" if name == "open" else None, help="the job's file")
    if name == "new":
        sub.add_argument("--starter", default="empty", metavar="S", help="a shipped starter's name, or a TOML file")
        for key, about in ANSWERS.items():
            sub.add_argument(f"--{key}", metavar="X", help=f"first plan: {about}")
    elif name in ("status", "figures"):
        sub.add_argument("--json", action="store_true", help="as JSON, only on standard output")
        if name == "status":
            sub.add_argument("--all", action="store_true", help="all items, problems and holds, not only one screen")
    elif name == "advance":
        sub.add_argument("--by", required=True, metavar="NAME", help="who moves the job on")
        sub.add_argument("--reason", default="", metavar="TEXT", help="why, where the gate leaves a choice")
        sub.add_argument("--to", default="", metavar="STAGE", help="the stage to move to: only that one")
    elif name == "verify":
        from tui.cli.verifying import add_words

        add_words(sub)
    elif name == "photos":
        from tui.cli import photos

        photos.add_words(sub)
