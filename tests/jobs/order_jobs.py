"""Small jobs for tests of the calendar, the money and the handoffs."""

from __future__ import annotations

from datetime import date
from typing import Any

from store.records.base import Record
from store.records.job import Settings
from store.records.people import Step
from store.records.whole import KINDS, Job

MONDAY = date(2026, 11, 2)


def job_of(*records: Record, today: date = MONDAY, marks: dict[str, int] | None = None, **settings: Any) -> Job:
    """A job with these records."""
    tables: dict[str, dict[str, Record]] = {kind: {} for kind in KINDS}
    tables["job"]["job"] = Settings(tag="job", name="Test wall", **settings)
    for record in records:
        tables[record.kind][record.tag] = record
    return Job(tables, marks or {}, today=today)


def step(tag: str, days: float, *after: str, **more: Any) -> Step:
    """A step."""
    return Step(tag=tag, what=f"work {tag}", days=days, after=after, **more)  # type: ignore[arg-type]
