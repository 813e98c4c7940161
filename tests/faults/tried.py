"""What a fault was tried with, and what came of it."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import msgspec

from store.book.book import Book
from store.book.changes import Put, add
from store.measure.errors import StudbookError
from store.records.job import Settings
from store.records.people import Contact
from store.records.wall import Wall

TODAY = date(2026, 11, 25)


class Tried(msgspec.Struct):
    """One row of the table."""

    what: str
    times: int = 0
    lost: int = 0
    """How often something was lost, damaged, written over, or ended in anything but a sentence."""
    notes: list[str] = []
    skipped: str = ""
    """Why it could not be tried here."""

    def bad(self, note: str) -> None:
        """Count a loss, and remember the first few."""
        self.lost += 1
        if len(self.notes) < 5:
            self.notes = [*self.notes, note]


def today() -> date:
    """The day on which all of it happens."""
    return TODAY


def job(folder: Path, name: str = "wall.json", contacts: int = 3) -> Path:
    """A small job with a copy beside it."""
    path = folder / name
    records = [Settings(tag="job", name="faults"), Wall(tag="W1", name="North wall")]
    book = Book.create(path, [add(each, keep_tag=True) for each in records], "Ann", "Begin", today)
    for number in range(contacts):
        book.act("Add", [add(Contact(tag="", name=f"N{number}", trade="owner"))])
    book.close()
    return path


def opened(path: Path) -> Book:
    """The job, by another copy of the program."""
    return Book.open(path, "Ann", today)


def acted(book: Book, note: str) -> None:
    """One action on two records."""
    book.act("Note", [Put("wall", "W1", {"notes": note}), add(Contact(tag="", name=note, trade="owner"))])


def print_of(path: Path) -> str:
    """What tells one content of a file from another; empty where there is none."""
    return hashlib.sha256(path.read_bytes()).hexdigest() if path.is_file() else ""


def wrong_with(path: Path, allowed: set[str] | None = None) -> str:
    """What is wrong with a job after a fault, or an empty text. `allowed`: the notes that its wall may bear."""
    try:
        book = opened(path)
        book.audit(inside=True)
    except StudbookError as error:
        return f"does not open: {error}"
    try:
        if book.job.outside:
            return f"not as its history has it: {book.job.outside[0]}"
        notes = book.job.of(Wall)["W1"].notes
        names = [each.name for each in book.job.of(Contact).values()]
        if allowed is not None and notes not in allowed:
            return f"holds {notes!r}"
        return f"half an action: {notes!r}" if notes and names[-1:] != [notes] else ""
    finally:
        book.close()


def told(work: Callable[[], object]) -> str:
    """What work came to: `done`, the sentence that refused it, or `! ` and what it should not have raised."""
    try:
        work()
    except StudbookError as error:
        return str(error)
    except Exception as error:
        return f"! {type(error).__name__}: {error}"
    return "done"


def tables(path: Path) -> Any:
    """The file as JSON."""
    return json.loads(path.read_text("utf-8"))
