"""What an action writes into the tables of the file: its records, its entry of the history, the file's own counters."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from typing import Any

import msgspec

from store.book import migrate
from store.book.chain import archive, history
from store.book.changes import Step
from store.book.decoding import Tables
from store.book.file import DurableFile
from store.book.taken import Taken


class Noted(msgspec.Struct, frozen=True):
    """An entry of the history that changes no record."""

    act: str
    what: str
    why: str
    steps: list[Step] = []
    """What the history says of a record from now on; the record itself is so already."""
    past: str = ""
    follows: str = ""
    """The seal that it follows, where that is not the one of the last entry."""
    more: dict[str, Any] = {}
    """Its other fields."""


@contextmanager
def saving(file: DurableFile) -> Iterator[Any]:
    """The database of a file while an action is written into it; all of it is saved at the end, or nothing."""
    from store.book.database import Database  # only what writes needs the database

    database = Database(file)
    try:
        yield database
        database.commit()
    except BaseException:
        database.forget()
        file.distrust()  # whatever got to the disk is read again before anything else is done
        raise


def with_entry(tables: Tables, entry: history.Entry) -> Tables:
    """Tables with one more entry of history, for a file that is made whole at once."""
    meta = {**migrate.meta_of(tables), "last": entry.n}
    entries = {**tables.get("history", {}), str(entry.n): msgspec.to_builtins(entry)}
    return {**tables, "_meta": {"1": meta}, "history": entries}


def write(
    database: Any,
    taken: Taken,
    steps: list[Step],
    entry: history.Entry,
    serials: Mapping[str, int],
    packed: Tables,
) -> None:
    """Gather the writes of an action."""
    for kind in dict.fromkeys(step.kind for step in steps):
        mine = [step for step in steps if step.kind == kind]
        place = taken.places[kind].of
        gone = [place(step.tag) for step in mine if step.after is None]
        if gone:
            database.drop(kind, gone)
        puts = [(place(step.tag), step.after) for step in mine if step.after is not None]
        if puts:
            database.put(kind, puts)
    if packed:
        database.drop("history", [key for key in taken.tables["history"] if key not in packed["history"]])
        for table in (archive.TABLE, archive.SUMMARY):
            database.put(table, packed[table].items())
    database.put("history", [(entry.n, msgspec.to_builtins(entry))])
    born = {"born": taken.born} if packed else {}
    meta = {**migrate.meta_of(taken.tables), **born, "last": entry.n, "next": dict(serials)}
    database.put("_meta", [(1, meta)])
