"""TinyDB on the durable file: TinyDB stays the engine and the format, one unit of work is one durable write."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from tinydb import TinyDB
from tinydb.storages import Storage
from tinydb.table import Document, Table

from store.book.file import DurableFile, Tables


class DurableStorage(Storage):
    """TinyDB's door to a DurableFile; writes gather here until `commit`."""

    def __init__(self, file: DurableFile) -> None:
        self._file = file
        self._pending: Tables | None = None

    def read(self) -> Tables | None:
        """The tables, with what is not committed yet; a copy on top, because TinyDB swaps tables in place."""
        return self._pending if self._pending is not None else dict(self._file.read())

    def write(self, data: dict[str, dict[str, Any]]) -> None:
        """Gather a write; nothing reaches the disk before `commit`."""
        self._pending = data

    def commit(self) -> None:
        """Make everything gathered durable in one write, or nothing of it."""
        if self._pending is not None:
            pending, self._pending = self._pending, None
            self._file.commit(pending)


class Database:
    """The tables of one job through TinyDB, changed in units."""

    def __init__(self, file: DurableFile) -> None:
        self._storage = DurableStorage(file)
        self._db = TinyDB(file, storage=lambda file: self._storage)

    def table(self, name: str) -> Table:
        """A table; without TinyDB's query cache, which would go stale when another copy writes."""
        return self._db.table(name, cache_size=0)

    def put(self, name: str, docs: Iterable[tuple[int, dict[str, Any]]]) -> None:
        """Put documents under their numbers, replacing what is there."""
        table = self.table(name)
        new = [Document(doc, doc_id=number) for number, doc in docs]
        have = [doc.doc_id for doc in new if table.contains(doc_id=doc.doc_id)]
        if have:
            table.remove(doc_ids=have)
        table.insert_multiple(new)

    def drop(self, name: str, numbers: Iterable[int]) -> None:
        """Remove documents by their numbers."""
        self.table(name).remove(doc_ids=list(numbers))

    def commit(self) -> None:
        """Write the unit."""
        self._storage.commit()

    def forget(self) -> None:
        """Give up the unit."""
        self._storage._pending = None
