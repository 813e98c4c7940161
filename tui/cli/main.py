"""The command line: reads the words, and imports what a command needs only for that command."""

from __future__ import annotations

import argparse
import contextlib
import gc
import io
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

from store.measure.errors import StudbookError
from store.measure.text import clean
from tui.cli.words import ANSWERS, AnyOrder
from tui.shared.who import who


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; returns its exit status."""
    if arguments is None:
        # A command is short, and a screen's start makes only what stays: collecting meanwhile costs and finds nothing.
        # The screen begins to collect once it has been painted.
        gc.disable()
        # What the terminal has no letter for is written as its number, rather than stopping halfway.
        if isinstance(sys.stdout, io.TextIOWrapper):
            sys.stdout.reconfigure(errors="backslashreplace")
    given = list(sys.argv[1:] if arguments is None else arguments)
    if not given or given[0] == "--" or (given[0] not in COMMANDS and not given[0].startswith("-")):
        given.insert(0, "open")
    if sys.stdout is None:
        return _tell("standard output is closed. Nothing was done.")
    options = _parser(given).parse_args(given)
    return _told(options) if arguments is None else _done(options)


def _told(options: argparse.Namespace) -> int:
    """Do a command, and see to it that its answer got out."""
    try:
        status = _done(options)
        sys.stdout.flush()
        return status
    except BrokenPipeError:
        # Whoever read our output has enough.
        return _look_away(0)
    except OSError as error:
        _tell(f"the answer cannot be written: {error.strerror}. What was asked for may be done already.")
        return _look_away(CANNOT)


def _done(options: argparse.Namespace) -> int:
    """Do a command; what goes wrong is told in a sentence."""
    if options.command not in ("status", "figures"):
        from store.book.ground import lock  # an answer waits for nobody

        lock.tell = _tell
    try:
        with _watched(options):
            return COMMANDS[options.command](options)
    except StudbookError as error:
        return _tell(str(error), error.exit_status)
    except OSError as error:
        if error.filename is None:
            raise  # of standard output: see above
        return _tell(f"{os.fsdecode(error.filename)}: {error.strerror}.")


SAID: dict[str, str] = {
    "status": "Working out the status",
    "figures": "Working out the figures",
    "advance": "Judging the gate",
    "export": "Writing",
    "import": "Reading",
    "verify": "Checking",
    "new": "Making the job",
}
"""What is said of a command that takes more than a second; the others say it themselves, or have the screen."""


def _watched(options: argparse.Namespace) -> contextlib.AbstractContextManager[None]:
    """Says on standard error that a command goes on, once it takes long."""
    command = options.command
    if command not in SAID:
        return contextlib.nullcontext()
    from tui.cli.progress import working

    return working(SAID[command], for_programs=getattr(options, "json", False))


CANNOT = 5


def _tell(words: str, status: int = CANNOT) -> int:
    """Say something on standard error, if that is open; gives the status."""
    if sys.stderr is not None:
        with contextlib.suppress(OSError):
            print(clean(f"studbook: {words}", lines=True), file=sys.stderr, flush=True)
    return status


def _look_away(status: int) -> int:
    """Point standard output away, so that leaving stays quiet."""
    with contextlib.suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    return status


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


def _parser(given: Sequence[str]) -> argparse.ArgumentParser:
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

    for name in given[:1] if given[0] in COMMANDS else COMMANDS:
        sub = command(name, ABOUT[name])
        if name == "print":
            from tui.cli.printing import about_print, add_print

            # The names of the sheets are in the catalogue, which only a question needs.
            if {"-h", "--help"} & set(given):
                sub.description, sub.formatter_class = about_print(), _Listed
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
        sub.add_argument("--json", action="store_true", help="as JSON, on standard output alone")
        if name == "status":
            sub.add_argument("--all", action="store_true", help="every item, problem and hold, not one screen")
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


def _job_command(name: str) -> Callable[[argparse.Namespace], int]:
    """A command of `tui.cli.commands`."""

    def run(options: argparse.Namespace) -> int:
        from tui.cli import commands

        command: Callable[[argparse.Namespace], int] = getattr(commands, {"open": "open_job"}.get(name, name))
        return command(options)

    return run


def _answer(options: argparse.Namespace) -> int:
    """Say what follows from a job as it is: as it was worked out before, or anew."""
    from tui.cli.answers import answer_to

    def work_out() -> tuple[str, bool]:
        from tui.cli import commands
        from tui.cli.progress import working

        with working(f"Working out the {options.command}", for_programs=options.json):
            if options.command == "status":
                return commands.status_text(options.job, as_json=options.json, whole=options.all), True
            return commands.figures_text(options.job, as_json=options.json), True

    whole = "all" if getattr(options, "all", False) else ""
    asked = (options.command, "json" if options.json else "words", whole)
    sys.stdout.write(answer_to(options.job, asked, work_out))
    return 0


def _verify(options: argparse.Namespace) -> int:
    from tui.cli.verifying import verify

    return verify(options)


def _print(options: argparse.Namespace) -> int:
    from tui.cli.printing import print_sheet

    return print_sheet(options, who)


def _photos(options: argparse.Namespace) -> int:
    from tui.cli.photos import photos

    return photos(options)


def _completion(options: argparse.Namespace) -> int:
    from importlib.resources import files

    sys.stdout.write(files("tui.cli").joinpath("completions", f"studbook.{options.shell}").read_text("utf-8"))
    return 0


def _list(options: argparse.Namespace) -> int:
    from tui.cli import lists

    commands = {"export": lists.export_kind, "import": lists.import_kind}
    return commands[options.command](options, who())


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
    "photos": "take in the photos of a phone's folder, one by one",
    "completion": "the completion of a shell, to be sourced by it",
}
"""The commands, in the order of their list."""
COMMANDS: dict[str, Callable[[argparse.Namespace], int]] = {
    **{name: _job_command(name) for name in ABOUT},
    "verify": _verify,
    "completion": _completion,
    "photos": _photos,
    "status": _answer,
    "figures": _answer,
    "print": _print,
    "export": _list,
    "import": _list,
}

if __name__ == "__main__":
    raise SystemExit(main())
