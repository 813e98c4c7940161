"""What can go wrong with a job file, each with the exit status that the command line gives for it."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from store.measure.errors import StudbookError


class Damaged(StudbookError):
    """The file is there, but it is not a whole Studbook job; it is never rewritten."""

    exit_status = 4

    def __init__(self, path: Path, what: str, remedy: str = "") -> None:
        self.path = path
        super().__init__(
            f"{path}: {what}. Nothing was changed. "
            + (remedy or f"Run `studbook verify {path.name}` in its folder to find the newest good copy.")
        )


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
