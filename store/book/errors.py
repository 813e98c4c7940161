"""What can go wrong with a job file, each with the exit status that the command line gives for it."""

from __future__ import annotations

import shlex
from pathlib import Path
from typing import NamedTuple

from store.measure.errors import StudbookError


def as_typed(path: Path) -> str:
    """A file as it is typed in a shell: by its name where it is in the current folder, else in full."""
    try:
        here = path.parent == Path.cwd()
    except OSError:
        here = False
    return shlex.quote(path.name if here else str(path))


class Damaged(StudbookError):
    """The file is there, but it is not a whole Studbook job; it is never rewritten."""

    exit_status = 4

    def __init__(self, path: Path, what: str, remedy: str = "") -> None:
        self.path = path
        self.plain = f"{path}: {what}. Nothing was changed." + (f" {remedy}" if remedy else "")
        """Without the advice to run `verify`, for those who do."""
        advice = "" if remedy else f" Run `studbook verify {as_typed(path)}` to find the newest good copy."
        super().__init__(self.plain + advice)


class NoFile(StudbookError):
    """There is no file at that path."""

    exit_status = 2


class Busy(StudbookError):
    """Another copy holds the lock, or the place cannot be written to; nothing was written."""

    exit_status = 5


class Replaced(Busy):
    """Another job was put in the place of the one that is open; nothing was written."""


class Clash(NamedTuple):
    """One field that someone else changed meanwhile."""

    kind: str
    tag: str
    field: str
    seen: object
    """What it was when the form was opened (file form; None is empty)."""
    now: object
    mine: object


class Conflict(StudbookError):
    """A record was changed by someone else since it was read; nothing was written."""

    exit_status = 5

    def __init__(self, message: str, clashes: tuple[Clash, ...] = ()) -> None:
        super().__init__(message)
        self.clashes = clashes
