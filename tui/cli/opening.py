"""The commands that bring the screen up: they import what a first paint needs and nothing else."""

from __future__ import annotations

import tui.shared.no_network  # isort: skip
import tui.shared.quick  # isort: skip  # noqa: F401 - the same
import sys
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from store.book.book import Book
from store.book.errors import NoFile
from store.measure.errors import BadValue
from store.measure.text import clean
from tui.shared.who import who

if TYPE_CHECKING:
    import argparse


def open_job(options: argparse.Namespace) -> int:
    """Open a job, or where there is no terminal print its status."""
    from tui.shared.recent import recent

    path = options.job or next(iter(recent()), None)
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        if path is None:
            raise NoFile("no terminal to choose a job on. Give its file, or make one: `studbook new JOB`.")
        from tui.cli.commands import status_of

        sys.stdout.write(status_of(Book.open(path, who())))
        return 0
    from tui.screen.app import run

    return run(path)


def demo(options: argparse.Namespace) -> int:
    """Put the demo job into a folder and open it."""
    import tempfile

    from store.book.ground.owner import make_folder
    from templates.starters import load

    folder: Path = options.folder or Path(tempfile.mkdtemp(prefix="studbook-"))
    try:
        make_folder(folder)
    except OSError as error:
        raise BadValue(f"{folder}: can't make it: {error.strerror}") from error
    path = folder / "demo-wall.json"
    if path.exists():
        book = Book.open(path, who())
    else:
        book = Book.create(path, load("demo", date.today()), who(), "Start the demo job")
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        from tui.cli.commands import status_of

        print(clean(f"Demo job: {path}"))
        sys.stdout.write(status_of(book))
        return 0
    book.close()
    from tui.screen.app import run

    return run(path)
