"""TinyDB on the durable file: TinyDB stays the engine and the format, one unit of work is one durable write."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from tinydb import TinyDB
from tinydb.storages import Storage
from tinydb.table import Document, Table

from store.book.decoding import Tables
from store.book.file import DurableFile


class DurableStorage(Storage):
    """TinyDB's door to a DurableFile; writes gather here until `commit`."""

    def __init__(self, file: DurableFile) -> None:
        self._file = file
        self._pending: Tables | None = None

    def read(self) -> Tables:
        """The tables, with what is not committed yet; a copy on top, because TinyDB swaps tables in place."""
        return self._pending if self._pending is not None else dict(self._file.read())

    def write(self, data: dict[str, dict[str, Any]]) -> None:
        """Gather a write; nothing reaches the disk before `commit`."""
        self._pending = data

    def emptied(self, name: str, keys: Iterable[str]) -> list[str]:
        """Put empty documents in place of those that are there, and give their keys.

        TinyDB updates documents in place, and these are held elsewhere too.
        """
        tables = self.read()
        table = tables.get(name, {})
        have = [key for key in keys if key in table]
        if have:
            self.write({**tables, name: {**table, **{key: {} for key in have}}})
        return have

    def commit(self) -> None:
        """Make everything gathered durable in one write, or nothing of it."""
        if self._pending is not None:
            pending, self._pending = self._pending, None
            self._file.commit(pending)


class TextKeys(Table):
    """A table known by its keys as the file has them: TinyDB makes each a number and back, on every change."""

    document_id_class = str  # type: ignore[assignment]


class Database:
    """The tables of one job through TinyDB, changed in units."""

    def __init__(self, file: DurableFile) -> None:
        self._storage = DurableStorage(file)
        self._db = TinyDB(file, storage=lambda file: self._storage)
        self._db.table_class = TextKeys

    def table(self, name: str) -> Table:
        """A table; without TinyDB's query cache, which would go stale when another copy writes."""
        return self._db.table(name, cache_size=0)

    def put(self, name: str, docs: Iterable[tuple[int, dict[str, Any]]]) -> None:
        """Put documents under their numbers, replacing what is there."""
        table, new = self.table(name), {str(number): doc for number, doc in docs}
        have: Any = self._storage.emptied(name, new)
        if have:
            # One update for all of them: TinyDB builds the whole table again each time.
            filling = iter([new.pop(key) for key in have])
            table.update(lambda doc: doc.update(next(filling)), doc_ids=have)
        if new:
            keyed: Any = new.items()
            table.insert_multiple(Document(doc, doc_id=key) for key, doc in keyed)

    def drop(self, name: str, numbers: Iterable[int]) -> None:
        """Remove documents by their numbers."""
        keys: Any = [str(number) for number in numbers]
        self.table(name).remove(doc_ids=keys)

    def commit(self) -> None:
        """Write the unit."""
        self._storage.commit()

    def forget(self) -> None:
        """Give up the unit."""
        self._storage._pending = None
