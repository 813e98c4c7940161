"""After damage: which of the copies beside a file still opens."""

from __future__ import annotations

from pathlib import Path

from store.book.book import Book
from store.book.errors import Busy, Damaged, NoFile
from store.book.file import DurableFile, copies_of
from store.book.migrate import FORMAT, version_of


def newest_good(path: Path) -> Path | None:
    """The newest copy kept beside a file that opens whole; None when there is none."""
    for copy in copies_of(path):
        try:
            # A copy of an older form would be migrated on opening; a look must not write.
            if version_of(copy, DurableFile(copy).read()) == FORMAT:
                Book.open(copy, "").close()
            return copy
        except (Damaged, Busy, NoFile):
            continue
    return None
