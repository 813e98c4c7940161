"""How fast Find answers: at 20,000 records, the first time, after an edit, and while typing on."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from functools import partial

from store.records.access import Panel
from store.records.base import Record
from store.records.equipment import Equipment
from store.records.field import Ref
from store.records.job import Settings
from store.records.whole import KINDS, Job
from store.records.wiring import Box, Cable
from store.rules.find.search import find

Row = tuple[str, float, float, str]
"""What, measured, bar, unit."""
MANY = 20_000
BAR_MS = 50.0
QUESTIONS = ("hdmi behind the screen", "k17", "network", "screen", "which breaker for the fireplace", "e")


def large_job(many: int = MANY) -> Job:
    """A job of so many records: boxes, cables between them, equipment and panels."""
    tables: dict[str, dict[str, Record]] = {kind: {} for kind in KINDS}
    tables["job"]["job"] = Settings(tag="job", name="large")
    for record in _records(many - 1):
        tables[record.kind][record.tag] = record
    return Job(tables)


def _records(many: int) -> Iterator[Record]:
    places = ("behind the screen", "equipment cabinet", "window side", "left shelf", "receiver bay")
    types = ("hdmi-optical", "cat6", "rg6-quad", "speaker-14-2", "nm-12-2")
    for at in range(many):
        place, number = places[at % 5], at // 4 + 1
        if at % 4 == 0:
            yield Box(tag=f"B{number}", name=f"{place} {number}", what="low-voltage")
        elif at % 4 == 1:
            start, end = Ref(f"B{number}"), Ref(f"B{max(1, number - 1)}")
            name = f"run {number} to the {place}"
            yield Cable(tag=f"K{number}", name=name, type=types[at % 7 % 5], start=start, end=end)
        elif at % 4 == 2:
            yield Equipment(tag=f"E{number}", name=f"device {number}", what="streamer", serial=f"sn {number:06}")
        else:
            yield Panel(tag=f"A{number}", name=f"{place} {number}", behind=(Ref(f"B{number}"),))


def timed_ms(work: Callable[[], object]) -> float:
    """Wall time of one call, ms."""
    start = time.perf_counter()
    work()
    return (time.perf_counter() - start) * 1000


def run() -> list[Row]:
    """The rows of this bench."""
    job = large_job()
    rows = [(f"find at {MANY:,} records, the very first", timed_ms(lambda: find(job, QUESTIONS[0])), 10 * BAR_MS, "ms")]
    edited = job.having(Equipment(tag="E1", name="another name"))
    rows.append(
        (f"find at {MANY:,} records, after an edit", timed_ms(lambda: find(edited, QUESTIONS[0])), BAR_MS, "ms")
    )
    for question in QUESTIONS:
        best = min(timed_ms(partial(find, edited, question)) for _ in range(5))
        rows.append((f"find “{question}” at {MANY:,} records", best, BAR_MS, "ms"))
    return rows
