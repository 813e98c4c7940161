"""Years of use: a job with 20,000 actions beside the same with 200."""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import msgspec

from store.book.book import Book
from store.book.chain.history import Entry
from store.book.chain.seals import seal_of
from store.book.changes import Put, Step
from tests.bench.rows import Row
from tests.bench.storage_bench import job_file, timed_ms, today

FEW, MANY, BAR = 200, 20_000, 3.0
RECORDS = 200
ROUNDS = 31


def aged(path: Path, actions: int) -> None:
    """A job of some hundred records that was changed so often: its history is written whole, and packed by one more
    change, as the program would have done bit by bit."""
    job_file(path, RECORDS).close()
    tables: dict[str, dict[str, Any]] = msgspec.json.decode(path.read_bytes())
    docs = {doc["tag"]: (key, doc) for key, doc in tables["equipment"].items()}
    seal = tables["history"]["1"]["seal"]
    for n in range(2, actions):
        tag = f"E{2 + n % 40 * 4}"
        key, before = docs[tag]
        notes = f"change {n}: looked at once more on the wall, with the tape and the plan beside it. " * 3
        after = {**before, "notes": notes}
        step = Step("equipment", tag, before, after)
        entry = msgspec.to_builtins(Entry(n, "2026-11-25T12:00:00Z", "bench", f"Edit {tag}", [step], "s"))
        seal = entry["seal"] = seal_of(seal, entry)
        tables["history"][str(n)] = entry
        docs[tag] = (key, after)
        tables["equipment"][key] = after
    tables["_meta"]["1"]["last"] = actions - 1
    path.write_bytes(msgspec.json.encode(tables))
    book = Book.open(path, "bench", today)
    book.act("Edit E2", [Put("equipment", "E2", {"notes": "packed"})])
    book.audit(inside=True)
    if book.job.outside or book.actions != actions:
        raise AssertionError(f"the history made here does not hold together: {book.job.outside}")
    book.close()


def works_of(path: Path) -> dict[str, tuple[Callable[[], object], int]]:
    """What people do with a job, and how often each is measured."""
    book = Book.open(path, "bench", today)

    def save() -> None:
        book.act("Edit E2", [Put("equipment", "E2", {"notes": f"note {os.urandom(4).hex()}"})])

    def status() -> None:
        command = [sys.executable, "-m", "tui", "status", str(path)]
        subprocess.run(command, check=True, stdout=subprocess.DEVNULL, env={**os.environ, "XDG_CACHE_HOME": "/proc/1"})

    return {
        "opened": (lambda: Book.open(path, "bench", today).close(), ROUNDS),
        "saved": (save, ROUNDS),
        "undone": (book.undo, ROUNDS),
        "status, nothing remembered": (status, 5),
    }


def run() -> list[Row]:
    """The rows of this bench: each work on the two jobs in turn."""
    with tempfile.TemporaryDirectory() as name:
        few, many = Path(name) / "few.json", Path(name) / "many.json"
        aged(few, FEW)
        aged(many, MANY)
        rows = [Row(f"file after {MANY:,} actions", many.stat().st_size / 1e6, "MB")]
        long = works_of(many)
        for what, (work, rounds) in works_of(few).items():
            pairs = [(timed_ms(work), timed_ms(long[what][0])) for _ in range(rounds)]
            floor, value = (statistics.median(each) for each in zip(*pairs, strict=True))
            rows.append(Row(f"{what}, {MANY:,} actions beside {FEW}", value, "ms", floor, BAR))
    return rows
