"""The history of one state of the file: the newest entries at hand, the packed ones unpacked when they must be."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import msgspec

from store.book.chain import archive, history
from store.book.chain.folded import Folded, fold
from store.book.decoding import Tables, without_collecting
from store.book.errors import Damaged


class Past:
    """The history in the tables of a file; what is packed is unpacked once for each state of it."""

    def __init__(self, path: Path) -> None:
        self._path = path
        self.tables: Tables = {}
        self._sound: Mapping[str, object] = {}
        """The entries that were looked at last."""
        self._says: tuple[object, Folded] = (None, Folded())
        self._unpacked: tuple[object, list[history.Entry]] = (None, [])

    def docs(self) -> list[dict[str, Any]]:
        """The documents of the entries that are not packed. Raises Damaged."""
        docs = history.docs_of(self._path, self.tables, self._sound)
        self._sound = dict(self.tables.get("history", {}))
        return docs

    def packed_says(self) -> Folded:
        """What the packed entries come to. Raises Damaged."""
        said = self.tables.get(archive.SUMMARY)
        if said is None:
            return Folded()
        if self._says[0] is not said:
            try:
                self._says = (said, archive.summary_of(self.tables))
            except archive.Unreadable as error:
                raise Damaged(self._path, f"its packed history cannot be read ({error})") from error
        return self._says[1]

    def says(self) -> Folded:
        """What the whole history comes to. Raises Damaged."""
        return fold(self.docs(), self.packed_says())

    def entries(self) -> list[history.Entry]:
        """Every entry, oldest first. Raises Damaged."""
        return [*self._packed_entries(), *self._converted(self.docs())]

    def last(self) -> history.Entry | None:
        """The newest entry. Raises Damaged."""
        newest = self.docs()[-1:]
        return self._converted(newest)[0] if newest else None

    def first(self) -> history.Entry | None:
        """The oldest entry: the making of the job. Raises Damaged."""
        if archive.TABLE in self.tables:
            return next(iter(self._packed_entries()), None)
        oldest = self.docs()[:1]
        return self._converted(oldest)[0] if oldest else None

    def entry(self, number: int) -> history.Entry | None:
        """The entry of a number, looked for among the newest first. Raises Damaged."""
        found = [doc for doc in self.docs() if doc["n"] == number]
        if found:
            return self._converted(found)[0]
        return next((each for each in self._packed_entries() if each.n == number), None) if number else None

    def back(self, act: str, session: str, since: int) -> int:
        """The number of the entry that `undo` would take back, or `redo` bring back; 0 for none. Raises Damaged.

        `since` is the number of the first entry that the session made here.
        """

        def session_of(number: int) -> str:
            entry = self.entry(number)
            return entry.session if entry else ""

        found = history.undoable(self.docs(), session, self.packed_says().undone, session_of, since)
        number = found.undo if act == "undo" else found.redo
        if number is None:
            every = history.undoable(msgspec.to_builtins(self.entries()), session)
            number = every.undo if act == "undo" else every.redo
        return number or 0

    def newly_packed(self) -> Tables:
        """The tables that change where older entries are due to be packed; nothing where they are not."""
        return history.packed(self.tables, self.docs(), self.packed_says())

    def _packed_entries(self) -> list[history.Entry]:
        past = self.tables.get(archive.TABLE)
        if past is None:
            return []
        if self._unpacked[0] is not past:
            try:
                with without_collecting():
                    self._unpacked = (past, self._converted(archive.unpacked(self.tables)))
            except archive.Unreadable as error:
                raise Damaged(self._path, f"its packed history cannot be read ({error})") from error
        return self._unpacked[1]

    def _converted(self, docs: list[dict[str, Any]]) -> list[history.Entry]:
        try:
            return msgspec.convert(docs, list[history.Entry])
        except msgspec.ValidationError as error:
            raise Damaged(self._path, f"its history cannot be read: {error}") from error
