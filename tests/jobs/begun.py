"""Jobs of the shipped starters. Each is made once by the door that makes it for a person; then its file is copied."""

from __future__ import annotations

import tempfile
from datetime import date
from functools import cache
from pathlib import Path

from store.book.book import Book
from templates.starters import load


@cache
def file_of(starter: str, day: date) -> bytes:
    """The job file that a shipped starter makes on a day."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "job.json")
        Book.create(path, load(starter, day), "Robin", f"Start from {starter}", lambda: day).close()
        return path.read_bytes()


def begun(path: Path, starter: str, day: date, who: str = "Robin") -> Book:
    """A new job of a shipped starter, begun by Robin on this day and open to `who`."""
    path.write_bytes(file_of(starter, day))
    return Book.open(path, who, lambda: day)
