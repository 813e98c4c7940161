"""Small jobs to try the book with."""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path
from typing import Any

from store.book.book import Book
from store.book.changes import Put, add
from store.measure.length import INCH_NM, Length
from store.records.base import Record
from store.records.field import Ref
from store.records.gate import Check
from store.records.job import Settings
from store.records.people import Contact
from store.records.wall import Reading, Wall

TODAY = date(2026, 11, 25)
NO_PERMIT: Any = {"permit": "not needed", "permit_by": "A. Clerk", "permit_office": "building department"}
"""No permit is needed, by the name and office that said so."""
LITTER = (".saving", ".new")


def today() -> date:
    """The day that these tests happen on."""
    return TODAY


def settings(**given: Any) -> Settings:
    """The job's own record; with no permit needed, so that an empty job has no check."""
    return Settings(**{"tag": "job", "name": "Media wall", **NO_PERMIT, **given})


def wall(tag: str = "", **given: Any) -> Wall:
    """A wall."""
    return Wall(**{"tag": tag, "name": "North wall", **given})


def contact(tag: str = "", **given: Any) -> Contact:
    """Someone who works on the wall."""
    return Contact(**{"tag": tag, "name": "A. Sparks", "trade": "electrician", **given})


def reading(on: str = "W1", inches: int = 120, tag: str = "", **given: Any) -> Reading:
    """A reading of a wall's width."""
    return Reading(**{"tag": tag, "wall": Ref(on), "what": "width", "value": Length(inches * INCH_NM), **given})


def check(what: str = "Blocks behind the screen", tag: str = "", **given: Any) -> Check:
    """A rough-in item."""
    return Check(**{"tag": tag, "what": what, **given})


def puts(records: Sequence[Record]) -> list[Put]:
    """The changes that make these records, each with the tag it has or, without one, the next."""
    return [add(each, keep_tag=bool(each.tag)) for each in records]


def make(path: Path, *records: Record, who: str = "Ann", day: Callable[[], date] = today) -> Book:
    """A new job file with these records."""
    return Book.create(path, puts([settings(), *records]), who, "Begin", day)


def reopen(path: Path, who: str = "Ann", day: Callable[[], date] = today) -> Book:
    """The same file opened by another copy of the program."""
    return Book.open(path, who, day)


def raw(path: Path) -> Any:
    """The file as JSON."""
    return json.loads(path.read_text("utf-8"))


def rewrite(path: Path, change: Callable[[Any], object]) -> None:
    """Edit the file by hand."""
    tables = raw(path)
    change(tables)
    path.write_text(json.dumps(tables), "utf-8")


def litter(path: Path) -> list[str]:
    """What a save may not leave behind in the folder of a file."""
    return [each.name for each in path.parent.iterdir() if each.name.endswith(LITTER)]


def names_in(folder: Path) -> list[str]:
    """The names of what a folder holds."""
    return sorted(each.name for each in folder.iterdir())
