"""Years of use: a job with 20,000 actions beside the same with 200."""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

from store.book.book import Book
from store.book.changes import Put
from tests.bench.rows import Row
from tests.bench.storage_bench import job_file, timed_ms, today

FEW, MANY, BAR = 200, 20_000, 3.0
RECORDS = 200
ROUNDS = 15


def aged(path: Path, actions: int) -> None:
    """A job of some hundred records that was changed so often."""
    book = job_file(path, RECORDS)
    real = os.fsync
    os.fsync = lambda fd: None  # the disk is not what is measured here
    try:
        for number in range(actions):
            note = f"change {number}: looked at once more on the wall, with the tape and the plan beside it. " * 3
            book.act(f"Edit E{2 + number % 40 * 4}", [Put("equipment", f"E{2 + number % 40 * 4}", {"notes": note})])
    finally:
        os.fsync = real
    book.close()


def measured(path: Path) -> dict[str, float]:
    """Median milliseconds of what people do with a job."""
    book = Book.open(path, "bench", today)
    count = 0

    def save() -> None:
        nonlocal count
        count += 1
        book.act("Edit E2", [Put("equipment", "E2", {"notes": f"note {count} {os.urandom(4).hex()}"})])

    def status() -> None:
        command = [sys.executable, "-m", "tui", "status", str(path)]
        subprocess.run(command, check=True, stdout=subprocess.DEVNULL, env={**os.environ, "XDG_CACHE_HOME": "/proc/1"})

    works: dict[str, tuple[Callable[[], object], int]] = {
        "opened": (lambda: Book.open(path, "bench", today).close(), ROUNDS),
        "saved": (save, ROUNDS),
        "undone": (book.undo, ROUNDS),
        "status, nothing remembered": (status, 5),
    }
    return {name: statistics.median(timed_ms(work) for _ in range(rounds)) for name, (work, rounds) in works.items()}


def run() -> list[Row]:
    """The rows of this bench."""
    with tempfile.TemporaryDirectory() as name:
        few, many = Path(name) / "few.json", Path(name) / "many.json"
        aged(few, FEW)
        aged(many, MANY)
        size = Row(f"file after {MANY:,} actions", many.stat().st_size / 1e6, "MB")
        floors, values = measured(few), measured(many)
    return [size, *(Row(f"{what}, {MANY:,} actions", values[what], "ms", floors[what], BAR) for what in values)]
