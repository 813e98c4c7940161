"""Small jobs for the tests of cables: one wall, a box at each end, and whatever a test adds."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import date
from typing import Any

import msgspec

from store.measure.length import Length, parse_length
from store.records.base import R, Record
from store.records.job import Settings
from store.records.wall import Reading, Wall
from store.records.whole import KINDS, Job
from store.records.wiring import Box, Cable
from store.rules.core.findings import Finding

TODAY = date(2026, 10, 14)
Rule = Callable[[Job], Iterable[Finding]]


def at(text: str) -> Length:
    """A length as a person types it."""
    return parse_length(text)


def make(cls: type[R], tag: str, **values: Any) -> R:
    """A record; texts that stand where a length is meant are read."""
    lengths = ("x", "y", "width", "height", "depth", "level", "measured", "length", "value", "first_stud", "inside")
    read: dict[str, Any] = {
        key: at(each) if key in lengths and isinstance(each, str) else each for key, each in values.items()
    }
    return cls(tag=tag, **read)


def wall(tag: str = "W1", width: str = "14'", height: str = "8'", **more: Any) -> tuple[Record, ...]:
    """A wall with a reading of its width and height, studs every 16 in from 16 in on."""
    number = tag[1:]
    values = {"name": "wall", "first_stud": "16", **more}
    return (
        make(Wall, tag, **values),
        make(Reading, f"D{number}1", wall=tag, what="width", value=width),
        make(Reading, f"D{number}2", wall=tag, what="height", value=height),
    )


def box(tag: str, x: str, y: str, what: str = "low-voltage", on: str = "W1", **more: Any) -> Box:
    """A box at a place."""
    return make(Box, tag, what=what, wall=on, x=x, y=y, **more)


def cable(tag: str = "K1", kind: str = "cat6", start: str = "B1", end: str = "B2", **more: Any) -> Cable:
    """A cable in the wall, marked well enough for every kind."""
    marks = {"12-2 nm": "NM-B", "14-2 nm": "NM-B", "fibre": "OFNR"}
    return make(Cable, tag, type=kind, start=start, end=end, **{"rating": marks.get(kind, "CMP"), **more})


def job_of(*records: Record | tuple[Record, ...], **settings: Any) -> Job:
    """A job in memory that holds these records."""
    tables: dict[str, dict[str, Record]] = {kind: {} for kind in KINDS}
    tables["job"]["job"] = Settings(tag="job", **{"name": "test wall", **settings})
    for each in records:
        for record in each if isinstance(each, tuple) else (each,):
            tables[record.kind][record.tag] = record
    return Job(tables=tables, today=TODAY)


def plain(*more: Record | tuple[Record, ...], **settings: Any) -> Job:
    """One wall 14 ft by 8 ft, box B1 at 2 ft / 1 ft, box B2 at 8 ft / 5 ft, and what is added."""
    return job_of(wall(), box("B1", "2'", "1'"), box("B2", "8'", "5'"), *more, **settings)


def put(job: Job, record: Record) -> Job:
    """The job with a record put in place of the one of its tag."""
    tables = {**job.tables, record.kind: {**job.tables[record.kind], record.tag: record}}
    return msgspec.structs.replace(job, tables=tables)


def without(job: Job, tag: str) -> Job:
    """The job without a record."""
    record = job.get(tag)
    assert record is not None
    left = {key: each for key, each in job.tables[record.kind].items() if key != tag}
    return msgspec.structs.replace(job, tables={**job.tables, record.kind: left})


def told(rule: Rule, job: Job) -> list[tuple[str, str, tuple[str, ...]]]:
    """What a rule finds: its name, how grave, about what. Each finding must carry words, a remedy and a source."""
    found = list(rule(job))
    for each in found:
        assert each.says.endswith(".")
        assert each.remedy.endswith(".")
        assert each.source
    return [(each.rule, each.severity, each.tags) for each in found]
