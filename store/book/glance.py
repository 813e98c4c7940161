"""A first look at a big file: the records of a kind are read when they are first asked for."""

from __future__ import annotations

from collections.abc import Callable, ItemsView, Iterator, KeysView, Mapping, ValuesView

from store.records.base import Record


class GlancedTable(Mapping[str, Record]):
    """The records of one kind, by tag; read on first use."""

    def __init__(self, read: Callable[[], dict[str, Record]]) -> None:
        self._read = read
        self._records: dict[str, Record] | None = None

    def _all(self) -> dict[str, Record]:
        if self._records is None:
            self._records = self._read()
        return self._records

    def __getitem__(self, tag: str) -> Record:
        return self._all()[tag]

    def __iter__(self) -> Iterator[str]:
        return iter(self._all())

    def __len__(self) -> int:
        return len(self._all())

    # Mapping's own views go through __getitem__ one by one; the dictionary's are as quick as it gets.

    def keys(self) -> KeysView[str]:
        """The tags."""
        return self._all().keys()

    def values(self) -> ValuesView[Record]:
        """The records."""
        return self._all().values()

    def items(self) -> ItemsView[str, Record]:
        """Tags with records."""
        return self._all().items()
