"""The command line: reads the words, and imports what a command needs only for that command."""

from __future__ import annotations

import contextlib
import gc
import io
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

from store.measure.errors import StudbookError
from store.measure.text import clean
from tui.shared.who import who

TYPE_CHECKING = False
if TYPE_CHECKING:
    import argparse


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
        if len(given) > 1 and given[0] != "--" and (guess := _meant(given[0])):
            return _tell(f"there is no command {given[0]!r}. Did you mean: studbook {' '.join([guess, *given[1:]])}", 2)
        given.insert(0, "open")
    if sys.stdout is None:
        return _tell("standard output is closed. Nothing was done.")
    options = _opened(given) or _read(given)
    return _told(options) if arguments is None else _done(options)


def _meant(word: str) -> str:
    """The command that a misspelt word stands for; empty where it is a file, or like none."""
    from difflib import get_close_matches  # only where a first word is no command and others follow

    return "" if Path(word).exists() else next(iter(get_close_matches(word, COMMANDS, 1)), "")


class Opened:
    """The words of `open`, as the parser gives them."""

    command = "open"

    def __init__(self, job: Path | None) -> None:
        self.job = job


def _opened(given: Sequence[str]) -> argparse.Namespace | None:
    """What to open, where that is all that is said: so the screen comes up without a parser. None for anything else."""
    if given[0] != "open" or len(given) > 2 or any(each.startswith("-") for each in given):
        return None
    return Opened(Path(given[1]) if len(given) == 2 else None)  # type: ignore[return-value] # as good as one


def _read(given: Sequence[str]) -> argparse.Namespace:
    from tui.cli.parsing import parser_of

    return parser_of(given).parse_args(given)


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
        return _tell(f"{error}{_turned_round(options)}", error.exit_status)
    except OSError as error:
        if error.filename is None:
            raise  # of standard output: see above
        return _tell(f"{os.fsdecode(error.filename)}: {error.strerror}.")


FIRST = {"print": "sheet", "export": "kind", "import": "kind"}
"""What stands before the job in the words of a command."""


def _turned_round(options: argparse.Namespace) -> str:
    """A hint where the job was given in the place of what comes before or after it; else nothing."""
    command, job = options.command, getattr(options, "job", None)
    if job is None or job.is_file():
        return ""
    if command in FIRST and Path(first := getattr(options, FIRST[command])).is_file():
        return f"\nThe job comes second: studbook {command} {job} {first}"
    if command == "photos" and options.folder.is_file():
        return f"\nThe job comes first: studbook photos {options.folder} {job}"
    return ""


SAID: dict[str, str] = {
    "advance": "Checking the gate",
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


def _open(options: argparse.Namespace) -> int:
    from tui.cli import opening

    return opening.open_job(options) if options.command == "open" else opening.demo(options)


def _job_command(name: str) -> Callable[[argparse.Namespace], int]:
    """A command of `tui.cli.commands`."""

    def run(options: argparse.Namespace) -> int:
        from tui.cli import commands

        command: Callable[[argparse.Namespace], int] = getattr(commands, name)
        return command(options)

    return run


def _answer(options: argparse.Namespace) -> int:
    """Say what follows from a job as it is: as it was worked out before, or anew."""
    from tui.cli.answers import answer_to

    def work_out() -> tuple[str, bool]:
        from tui.cli import commands
        from tui.cli.progress import working

        with working(f"Calculating the {options.command}", for_programs=options.json):
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


COMMANDS: dict[str, Callable[[argparse.Namespace], int]] = {
    "open": _open,
    "demo": _open,
    "new": _job_command("new"),
    "advance": _job_command("advance"),
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
