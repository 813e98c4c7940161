"""Lists with mistakes in them, by the thousand: read, or refused in words."""

from __future__ import annotations

import random
from collections.abc import Iterator
from datetime import date

from store.measure.errors import BadValue, StudbookError
from store.records.whole import KINDS, Job
from templates.spreadsheet.fields import KIND_NAMES
from templates.spreadsheet.reading import read_import
from templates.spreadsheet.writing import export_csv

_BITS = (
    b"", b",", b";", b"\t", b'"', b"'", b"\r", b"\n", b"\x00", b"\xff", b"\xef\xbb\xbf", b"=", "＝".encode(), b"-",
    b"1e9",
    b"1,5", b"1.234,5", b"kW", "€".encode(), b"3/4/2026", b"K1", b"W99", b"PK\x03\x04",
    "\u202e\u0301\u200b".encode(),
    b"9" * 40, b"sep=;", b"#REF!", b"true",
)  # fmt: skip


def csv_mutations(count: int, seed: int, lists: dict[str, bytes]) -> Iterator[tuple[str, bytes]]:
    """`count` damaged lists, each with its kind: bytes put in, taken out, doubled, swapped or cut off."""
    chance = random.Random(seed)
    kinds = sorted(lists)
    for _ in range(count):
        kind = chance.choice(kinds)
        raw = bytearray(lists[kind])
        for _ in range(chance.randint(1, 4)):
            at = chance.randrange(len(raw) + 1)
            to = min(len(raw), at + chance.choice((0, 1, 1, 3, 40)))
            way = chance.randrange(5)
            if way == 0:
                raw[at:to] = chance.choice(_BITS)
            elif way == 1:
                raw[at:at] = raw[at:to] * chance.randint(1, 3)
            elif way == 2:
                raw[at:to] = bytes(chance.randrange(256) for _ in range(to - at))
            elif way == 3:
                rows = bytes(raw).split(b"\r\n")
                chance.shuffle(rows)
                raw = bytearray(b"\r\n".join(rows))
            else:
                del raw[at:to]
        if chance.random() < 0.05:
            del raw[chance.randrange(len(raw) + 1) :]
        yield kind, bytes(raw)


def lists_of(job: Job) -> dict[str, bytes]:
    """The lists of a job that have anything in them."""
    return {kind: export_csv(job, KINDS[kind]).encode() for kind in KIND_NAMES if job.tables.get(kind)}


def try_all(job: Job, count: int, seed: int) -> dict[str, int]:
    """Read each damaged list; how many were read and how many refused. Any other error comes through."""
    told = {"read": 0, "refused": 0}
    for kind, raw in csv_mutations(count, seed, lists_of(job)):
        try:
            read_import(job, KINDS[kind], raw)
            told["read"] += 1
        except StudbookError as error:
            if not isinstance(error, BadValue) or not str(error):
                raise
            told["refused"] += 1
    return told


def demo(today: date = date(2026, 10, 14)) -> Job:
    """The demo job in memory."""
    from store.book.changes import Ledger
    from store.records.base import from_doc
    from templates.starters import load

    tables: dict[str, dict[str, object]] = {kind: {} for kind in KINDS}
    for step in Ledger({}, {}).apply(load("demo", today)):
        if step.after is not None:
            tables[step.kind][step.tag] = from_doc(step.after, KINDS[step.kind])
    return Job(tables, today=today)  # type: ignore[arg-type]
