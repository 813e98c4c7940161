"""One table of the file as records: every entry looked at, and refused by its place when it does not hold."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import msgspec

from store.book.changes import Doc
from store.book.errors import Damaged
from store.measure.errors import BadValue
from store.records.base import Record, from_doc
from store.records.whole import KINDS, serial_of


class TableRead(msgspec.Struct, frozen=True):
    """What one table holds, by tag, in the order of the numbers."""

    docs: dict[str, Doc]
    numbers: dict[str, int]
    records: dict[str, Record]


def read_table(
    path: Path, kind: str, table: Mapping[str, Any], old_docs: Mapping[str, Doc], old_records: Mapping[str, Record]
) -> TableRead:
    """Read a table; a record whose document is that of `old_docs` is taken from `old_records`. Raises Damaged."""
    cls = KINDS[kind]
    docs: dict[str, Doc] = {}
    numbers: dict[str, int] = {}
    records: dict[str, Record] = {}
    try:
        ordered = sorted(table.items(), key=lambda item: int(item[0]))
    except ValueError as error:
        raise Damaged(path, f"table {kind} has an entry whose key is not a number ({error})") from error
    for key, doc in ordered:
        tag = doc.get("tag")
        if not isinstance(tag, str) or tag in docs or not tag:
            raise Damaged(path, f"table {kind}, entry {key}: its tag {tag!r} is missing or used twice")
        number = int(key)
        if key != str(number) or (cls.letter and not serial_of(kind, tag)):
            raise Damaged(path, f"table {kind}, entry {key}: its key or its tag {tag!r} does not belong to this table")
        try:
            # A record whose document did not change is kept: reading again costs only what is new.
            same = tag in old_docs and old_docs[tag] == doc
            records[tag] = old_records[tag] if same else from_doc(doc, cls)
        except BadValue as error:
            raise Damaged(path, f"table {kind}, entry {key}: {error}") from error
        docs[tag], numbers[tag] = doc, number
    return TableRead(docs, numbers, records)
