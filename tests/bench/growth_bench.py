"""How the work after one edit grows with the job: everything that follows from it, worked out again.

Processor time, as other work on the machine must not count; each beside a fixed loop of bare Python in the same run.
"""

from __future__ import annotations

import gc
import statistics
import time
from collections.abc import Callable

import msgspec

from store.measure.length import Length
from store.records.base import Record
from store.records.whole import Job
from store.records.wiring import Box, Cable
from store.rules.core.checks import items
from store.rules.core.figures import figures
from store.rules.core.findings import findings
from store.rules.gate.gate import standing
from templates.sheets.catalogue import Context, make
from tests.bench.rows import Row
from tests.rules.core.edits import starter, with_records

BARS_MS = {200: 30.0, 2_000: 60.0, 10_000: 300.0}
"""The most that one edit may take with all that follows, by the number of records."""
BOOK_S = 2.0
"""The most that the owner's book of 2,000 records may take, from nothing."""
MM = 1_000_000


def grown(records: int) -> Job:
    """The demo with so many records: half of the more are boxes on its first wall, half cables from each to the next.

    They stand on and over one another, more to a foot than any wall has: so rules that look at pairs show it.
    """
    job = starter()
    boxes, cables = list(job.of(Box).values()), [each for each in job.of(Cable).values() if each.in_wall]
    more = max(0, records - sum(len(table) for table in job.tables.values())) // 2
    tags = [f"B{1000 + number}" for number in range(more)]
    made: list[Record] = []
    for number, tag in enumerate(tags):
        x, y = Length(number * 37 % 4_000 * MM), Length((300 + number * 53 % 1_800) * MM)
        made.append(msgspec.structs.replace(boxes[number % len(boxes)], tag=tag, x=x, y=y))
        ends = {"start": tag, "end": tags[(number + 1) % more]}
        made.append(msgspec.structs.replace(cables[number % len(cables)], tag=f"K{1000 + number}", **ends))
    return with_records(job, *made)


def everything(job: Job) -> None:
    """All that a person is told after an edit."""
    found = findings(job)
    items(job)
    figures(job)
    standing(job, found)


def moved(job: Job, turn: int) -> Job:
    """The job with one of its boxes moved: its cables, checks, fill and findings follow."""
    boxes = list(job.of(Box).values())
    one = boxes[len(boxes) // 2]
    across = Length((one.x.nm if one.x else 0) + (turn + 1) * MM)
    return with_records(job, msgspec.structs.replace(one, x=across))


def cpu_ms(work: Callable[[], object]) -> float:
    """Processor time of some work, milliseconds."""
    start = time.process_time()
    work()
    return (time.process_time() - start) * 1000


def loop_ms() -> float:
    """A million steps of bare Python: what this machine is worth just now."""

    def loop() -> int:
        total = 0
        for number in range(1_000_000):
            total += number & 7
        return total

    return statistics.median(cpu_ms(loop) for _ in range(5))


def run(rounds: int = 7) -> list[Row | tuple[str, float, float, str]]:
    """The rows of this bench."""
    rows: list[Row | tuple[str, float, float, str]] = []
    taken: dict[int, float] = {}
    for records, bar in BARS_MS.items():
        job = grown(records)
        everything(job)
        gc.collect()
        gc.freeze()  # what is kept for good is not gone through again and again
        times = []
        for turn in range(rounds):
            job = moved(job, turn)
            times.append(cpu_ms(lambda job=job: everything(job)))  # type: ignore[misc]
        taken[records] = min(times)
        rows.append(Row(f"an edit of {records:,} records, all that follows", taken[records], "ms", bar=bar))
        rows.append(Row("  the same / a loop of a million steps", taken[records], "ms", floor=loop_ms()))
        gc.unfreeze()
    rows.append(("10,000 records / 2,000, for each record", taken[10_000] / taken[2_000] / 5, 1.2, "x"))
    book = grown(2_000)
    rows.append(
        (
            "owner's book of 2,000 records",
            cpu_ms(lambda: make("owners-book", "html", book, Context())) / 1000,
            BOOK_S,
            "s",
        )
    )
    return rows
