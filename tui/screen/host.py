"""What a screen may ask of the app that it runs in."""

from __future__ import annotations

from pathlib import Path
from typing import Protocol

from store.book.book import Book
from store.measure.errors import StudbookError


class Host(Protocol):
    """The app, as its screens know it: none of them imports it, for it makes them."""

    photos: Path | None
    """A folder of photos that is gone through as soon as the job is shown."""

    def open_book(self, path: Path) -> Book:
        """Open a job file; errors are the caller's to tell."""

    def show_job(self, book: Book) -> None:
        """Put the screen of a job on top."""

    def collect(self) -> None:
        """After the first paint: what was made until now stays, and need not be looked through again."""

    def give_up(self, error: StudbookError) -> None:
        """Leave a job that cannot be worked with; the error is told where the program was started."""
