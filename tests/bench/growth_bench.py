"""How the work after one edit grows with the job: everything that follows from it, worked out again.

Processor time, as other work on the machine must not count; each beside a fixed loop of bare Python in the same run.
"""

from __future__ import annotations

import asyncio
import gc
import os
import statistics
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import msgspec

from store.book.book import Book
from store.book.changes import add, edit
from store.measure.length import Length
from store.records.base import Record
from store.records.equipment import Equipment
from store.records.whole import Job
from store.records.wiring import Box, Cable, Circuit
from store.rules.core.checks import close, items, rough_in
from store.rules.core.figures import figures
from store.rules.core.findings import findings
from store.rules.gate.gate import standing
from templates.sheets.catalogue import Context, make
from tests.bench.rows import Row
from tests.rules.core.edits import starter, with_records
from tui.screen.app import StudbookApp
from tui.shared.collector import collect_seldom

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


def watts(job: Job, turn: int) -> Job:
    """The job with other watts of a device: its plug, circuit, heat and findings follow."""
    one = list(job.of(Equipment).values())[3]
    return with_records(job, msgspec.structs.replace(one, watts=100.0 + turn))


def breaker(job: Job, turn: int) -> Job:
    """The job with another breaker: all boxes and cables of its circuit follow."""
    one = next(iter(job.of(Circuit).values()))
    return with_records(job, msgspec.structs.replace(one, breaker=15.0 if turn % 2 else 20.0))


def signed_off(job: Job, turn: int) -> Job:
    """The job with one more item of its list signed off."""
    return with_records(job, close(rough_in(job)[50 + turn], "Ann", job.today, "photo 12"))


def owned(job: Job, turn: int) -> Job:
    """The job with another owner: a setting that little follows from."""
    return with_records(job, msgspec.structs.replace(job.settings, owner=f"Robin {turn}"))


def undone(job: Job, turn: int) -> Job:
    """A box moved, and moved back: the job as it was before."""
    everything(moved(job, turn))
    return job


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


EDITS: dict[str, Callable[[Job, int], Job]] = {
    "a box moved": moved,
    "that undone": undone,
    "watts of a device": watts,
    "another breaker": breaker,
    "an item signed off": signed_off,
    "another owner": owned,
}


def repaint_ms(job: Job, size: tuple[int, int] = (120, 36), rounds: int = 7) -> float:
    """Processor time from a key to its repaint when a box is moved: saved, worked out, list, page and wall drawn."""

    async def taken(path: Path) -> float:
        app = StudbookApp(path, "bench")
        async with app.run_test(size=size) as pilot:
            await pilot.pause()
            screen: Any = app.screen
            await pilot.press("3")
            await pilot.pause()
            times = []
            for turn in range(rounds):
                boxes = list(screen.book.job.of(Box).values())
                one = boxes[len(boxes) // 2]
                other = msgspec.structs.replace(one, x=Length((one.x.nm if one.x else 0) + (turn % 3 + 1) * MM))
                start = time.process_time()
                screen.book.act("Move", [edit(one, other)])
                screen.desk.look_again()
                await pilot.pause(0)
                screen._compositor.render_strips()
                times.append((time.process_time() - start) * 1000)
            return min(times)

    with tempfile.TemporaryDirectory() as name:
        path = Path(name) / "job.json"
        os.environ["XDG_STATE_HOME"] = os.environ["XDG_CACHE_HOME"] = name
        puts = [add(each, keep_tag=True) for table in job.tables.values() for each in table.values()]
        Book.create(path, puts, "bench", "start").close()
        return asyncio.run(taken(path))


def run(rounds: int = 7) -> list[Row | tuple[str, float, float, str]]:
    """The rows of this bench."""
    rows: list[Row | tuple[str, float, float, str]] = []
    taken: dict[int, float] = {}
    for records, bar in BARS_MS.items():
        job = grown(records)
        everything(job)
        gc.collect()
        collect_seldom()  # as the program does it after its first paint
        for what, change in EDITS.items():
            times = []
            for turn in range(rounds):
                job = change(job, turn)
                times.append(cpu_ms(lambda job=job: everything(job)))  # type: ignore[misc]
            rows.append(Row(f"{what}, {records:,} records, all that follows", min(times), "ms", bar=bar))
            taken.setdefault(records, min(times))
        rows.append(Row("  the first / a loop of a million steps", taken[records], "ms", floor=loop_ms()))
        gc.unfreeze()
        rows.append(Row(f"a box moved, {records:,} records, to repaint", repaint_ms(grown(records)), "ms", bar=bar))
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
