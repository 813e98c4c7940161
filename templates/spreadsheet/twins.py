"""Rows that were read in before, told by what is in them: what is there already is not added once more."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from typing import Any

from store.records.base import Record


class There:
    """The records of a kind, by their values in the columns of a file."""

    def __init__(self, records: Mapping[str, Record], keys: Sequence[str], but: Collection[str]) -> None:
        """`but` are the tags that rows of the file have themselves."""
        self._keys = keys
        self._found: dict[tuple[Any, ...], list[str]] = {}
        for tag, record in records.items():
            if tag not in but:
                self._found.setdefault(tuple(getattr(record, key) for key in keys), []).append(tag)

    def take(self, values: Mapping[str, Any]) -> str:
        """The tag of a record with just these values, each record once; empty where there is none left."""
        tags = self._found.get(tuple(values.get(key) for key in self._keys))
        return tags.pop(0) if tags else ""
