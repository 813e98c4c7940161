"""The bytes of a file from its tables, made again only where a table changed since the last time."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import islice
from operator import eq, is_
from typing import Any

import msgspec

_encode = msgspec.json.Encoder().encode


class Encoding:
    """Tables to bytes; remembers what it made of each table.

    A table and its documents must not be changed in place once they were encoded: a changed one is another object.
    """

    def __init__(self) -> None:
        self._made: dict[str, tuple[Mapping[str, Any], bytearray]] = {}
        """Each table with its JSON, the closing brace left off."""

    def bytes_of(self, tables: Mapping[str, Mapping[str, Any]]) -> bytes:
        """The JSON of all tables."""
        self._made = {name: (table, self._body(name, table)) for name, table in tables.items()}
        parts: list[bytes | bytearray] = []
        for name, (_, body) in self._made.items():
            parts += (b"," if parts else b"{", _encode(name), b":", body, b"}")
        return b"".join([*parts, b"}"]) if parts else b"{}"

    def _body(self, name: str, table: Mapping[str, Any]) -> bytearray:
        old, body = self._made.get(name, ({}, bytearray()))
        if old is table:
            return body
        # Most tables only grow, the history always: what was there stays as it is in front.
        if old and len(old) < len(table) and all(map(eq, old, table)) and all(map(is_, old.values(), table.values())):
            body += b","
            body += memoryview(_encode(dict(islice(table.items(), len(old), None))))[1:-1]
            return body
        return bytearray(_encode(table))[:-1]
