"""Small jobs about access: one wall of 12 ft, studs every 16 in, and whatever a test puts on it."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Any

from store.measure.length import Length, parse_length
from store.records.access import Panel
from store.records.base import R, Record
from store.records.job import Settings
from store.records.wall import Opening, Reading, Wall
from store.records.whole import KINDS, Job
from store.records.wiring import Box
from store.rules.core.findings import Finding, Rule

TODAY = date(2026, 10, 14)


def at(text: str) -> Length:
    """A length as a person types it."""
    return parse_length(text)


def make(cls: type[R], tag: str, **values: Any) -> R:
    """A record; lengths may be typed as text where the field is one, references are plain tags."""
    return cls(tag=tag, **values)


def wall(**values: Any) -> Wall:
    """The wall that everything here is on."""
    return make(Wall, "W1", name="Wall", **({"first_stud": at("16"), "bearing": "no"} | values))


READINGS = (
    make(Reading, "D1", wall="W1", what="width", value=at("144")),
    make(Reading, "D2", wall="W1", what="height", value=at("96")),
)


def panel(tag: str, x: str, y: str, width: str = "12", height: str = "12", **values: Any) -> Panel:
    """A panel on the wall; an empty size is one that is not noted."""
    size = {"width": at(width) if width else None, "height": at(height) if height else None}
    place = {"wall": "W1", "x": at(x), "y": at(y), **size}
    return make(Panel, tag, name=f"panel {tag}", **(place | values))


def opening(tag: str, use: str, x: str, y: str, width: str, height: str, **values: Any) -> Opening:
    """An opening in the wall."""
    place = {"wall": "W1", "x": at(x), "y": at(y), "width": at(width), "height": at(height)}
    return make(Opening, tag, name=f"opening {tag}", use=use, **(place | values))


def box(tag: str, what: str, x: str, y: str, **values: Any) -> Box:
    """A box on the wall, by its centre."""
    return make(Box, tag, name=f"box {tag}", what=what, **({"wall": "W1", "x": at(x), "y": at(y)} | values))


def job_of(*records: Record, today: date = TODAY, **settings: Any) -> Job:
    """A job in memory: the wall, its readings, and these records."""
    tables: dict[str, dict[str, Record]] = {kind: {} for kind in KINDS}
    tables["job"]["job"] = Settings(tag="job", name="test wall", **settings)
    for record in (wall(), *READINGS, *records):
        tables[record.kind][record.tag] = record
    return Job(tables, today=today)


def told(rule: Rule, job: Job) -> list[tuple[str, str, tuple[str, ...]]]:
    """What a rule finds: name, severity, tags."""
    return [(each.rule, each.severity, each.tags) for each in rule(job)]


def only(found: Iterable[Finding]) -> Finding:
    """The one finding there is."""
    listed = list(found)
    assert len(listed) == 1, listed
    return listed[0]
