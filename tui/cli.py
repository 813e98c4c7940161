"""The command line. Only `open` and `demo` import the screen."""

from __future__ import annotations

import tui.quick  # isort: skip  # noqa: F401 - first, for what it does
import argparse
import gc
import os
import sys
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import Any

from store.book.book import Book
from store.book.changes import add
from store.book.errors import Damaged, NoFile
from store.measure.errors import BadValue, StudbookError
from store.measure.text import clean
from store.rules.gate import passage, standing
from store.rules.guard import Held


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; returns its exit status."""
    if arguments is None:
        # A command is short, and a screen's start makes only what stays: collecting meanwhile costs and finds nothing.
        # The screen begins to collect once it has been painted.
        gc.disable()
    given = list(sys.argv[1:] if arguments is None else arguments)
    if not given or (given[0] not in COMMANDS and not given[0].startswith("-")):
        given.insert(0, "open")
    options = _parser(given[0]).parse_args(given)
    try:
        return int(COMMANDS[options.command](options))
    except StudbookError as error:
        print(clean(f"studbook: {error}", lines=True), file=sys.stderr)
        return error.exit_status
    except BrokenPipeError:
        # Whoever read our output has enough; point the stream away so that leaving stays quiet.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0


def _parser(first: str) -> argparse.ArgumentParser:
    """The parser; what makes and reads files is imported only when it is asked for, or for the list of commands."""
    parser = argparse.ArgumentParser(
        prog="studbook",
        description="A book of what stands between the studs: one built-in media wall, from the first tape reading on.",
        epilog="Exit status: 0 done, 2 usage, 3 held by the gate, 4 file damaged or foreign, 5 busy or conflict, "
        "6 bad input. The figures are a planning aid: local code, the makers' instructions and licensed practice win.",
    )
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")

    def command(name: str, about: str, *, job: bool = True) -> argparse.ArgumentParser:
        sub = commands.add_parser(name, help=about, description=about)
        if job:
            sub.add_argument("job", type=Path, metavar="JOB", help="the job's file")
        return sub

    command("open", "open a job on the screen (the last one, or a start page, without JOB)", job=False).add_argument(
        "job", type=Path, metavar="JOB", nargs="?"
    )
    command("demo", "put the demo job in FOLDER and open it", job=False).add_argument(
        "folder", type=Path, metavar="FOLDER", nargs="?"
    )
    command("new", "make a new job").add_argument(
        "--starter", default="empty", metavar="S", help="a shipped starter's name, or a TOML file"
    )
    for name, about in (("status", "stage, what holds the next, findings"), ("figures", "every computed figure")):
        command(name, about).add_argument("--json", action="store_true", help="as JSON, on standard output alone")
    advance = command("advance", "pass to the next stage, or say what holds it")
    advance.add_argument("--by", required=True, metavar="NAME", help="who passes")
    advance.add_argument("--reason", default="", metavar="TEXT", help="why, where the gate leaves a choice")
    verify = command("verify", "check the file, its references and its passages")
    verify.add_argument("--put-back", action="store_true", help="undo what was changed outside of this program")
    if first in PAPER or first.startswith("-"):
        from tui.cli_paper import add_commands

        add_commands(command)
    return parser


def who(job_owner: str = "") -> str:
    """The name that goes into the history."""
    if known := os.environ.get("STUDBOOK_NAME") or job_owner:
        return known
    import getpass

    try:
        return getpass.getuser()
    except (KeyError, OSError):
        return "somebody"


def _open(options: argparse.Namespace) -> int:
    from tui.recent import recent

    path = options.job or next(iter(recent()), None)
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        if path is None:
            raise NoFile("there is no terminal to choose a job on: name its file. `studbook new JOB` makes one.")
        return _print_status(Book.open(path, who()), as_json=False)
    from tui.app import run

    return run(path)


def _demo(options: argparse.Namespace) -> int:
    import tempfile

    from templates.starters import load

    folder: Path = options.folder or Path(tempfile.mkdtemp(prefix="studbook-"))
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise BadValue(f"{folder}: cannot be made: {error.strerror}") from error
    path = folder / "demo-wall.json"
    if path.exists():
        book = Book.open(path, who())
    else:
        book = Book.create(path, load("demo", date.today()), who(), "Start the demo job")
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        print(f"The demo job is in {path}")
        return _print_status(book, as_json=False)
    book.close()
    from tui.app import run

    return run(path)


def _new(options: argparse.Namespace) -> int:
    from templates.starters import load

    starter = options.starter
    Book.create(options.job, load(starter, date.today()), who(), f"Start the job from {Path(starter).name}").close()
    print(f"{options.job} is ready. Open it with: studbook {options.job}")
    return 0


def _status(options: argparse.Namespace) -> int:
    book = Book.open(options.job, "")
    return _print_status(book, as_json=options.json)


def _print_status(book: Book, *, as_json: bool) -> int:
    from store.rules.status import status

    book.audit()
    found = status(book.job)
    if as_json:
        _print_json({"file": str(book.path), **found})
        return 0
    from tui.report import status_lines

    for line in status_lines(found):
        print(clean(line))
    return 0


def _figures(options: argparse.Namespace) -> int:
    from store.rules.figures import figures, plain

    book = Book.open(options.job, "")
    found = plain(figures(book.job), book.job.settings.metric)
    if options.json:
        _print_json(found)
        return 0
    for tag, named in found.items():
        for name, value in named.items():
            if not name.endswith("_mm") or name.removesuffix("_mm") not in named:
                print(clean(f"{tag:6} {name:24} {value}"))
    return 0


def _advance(options: argparse.Namespace) -> int:
    by = clean(options.by).strip()
    if not by:
        raise BadValue("--by needs a name: who passes the stage")
    book = Book.open(options.job, by)
    now = standing(book.job)
    if now.next is None:
        raise Held(f"the job is at {now.stage}; there is no stage after it")
    book.act(f"Pass to {now.next}", lambda job: [add(passage(job, by, clean(options.reason)))], clean(options.reason))
    print(f"Now at {standing(book.job).stage}.")
    for hold in standing(book.job).holds[:20]:
        print(clean(f"  next is held by {hold.key}: {hold.what}"))
    return 0


def _verify(options: argparse.Namespace) -> int:
    from tui.report import verify_report

    try:
        book = Book.open(options.job, who())
    except Damaged as error:
        from store.book.salvage import newest_good

        good = newest_good(options.job)
        print(clean(f"studbook: {error}", lines=True), file=sys.stderr)
        words = f"The newest copy that opens: {good}" if good else "No copy beside it opens."
        print(clean(words), file=sys.stderr)
        return error.exit_status
    if options.put_back:
        for each in [each for each in book.job.outside if each.kind != "history"]:
            book.mend(each)
            print(clean(f"put back: {each.kind} {each.tag}, which was {each.what}"))
    lines, result = verify_report(book)
    for line in lines:
        print(clean(line))
    return result


def _paper(options: argparse.Namespace) -> int:
    from tui import cli_paper

    commands = {"print": cli_paper.print_sheet, "export": cli_paper.export_kind, "import": cli_paper.import_kind}
    return commands[options.command](options, who())


def _print_json(value: dict[str, Any]) -> None:
    import msgspec

    sys.stdout.write(msgspec.json.format(msgspec.json.encode(value), indent=2).decode() + "\n")


PAPER = ("print", "export", "import")
"""The commands that make and read files."""
COMMANDS = {
    "open": _open,
    "demo": _demo,
    "new": _new,
    "status": _status,
    "figures": _figures,
    "advance": _advance,
    "verify": _verify,
    **dict.fromkeys(PAPER, _paper),
}

if __name__ == "__main__":
    raise SystemExit(main())
