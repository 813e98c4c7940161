"""Photos: what each shows, whether its file is there and when it was taken, and a key that opens it."""

from __future__ import annotations

from typing import Any

from store.book.pictures import look
from store.records.access import Photo
from store.rules.core.wording import date_text, plural
from store.rules.photo.places import photo_places
from tui.acts.photos.pictures import seen_words, show_photos
from tui.view.desk import Desk
from tui.view.state import State
from tui.view.view import Key, KindView
from tui.widgets.record_table import Column, Line


def _check(desk: Desk, key: str) -> None:
    lines, job = [], desk.state.job
    for tag, photo in job.of(Photo).items():
        seen = look(photo.file, desk.folder)
        lines.append(f"{tag} {photo.file}: " + (f"{seen.kind}, " if seen.kind else "") + seen_words(job, seen))
    bad = sum(": ! " in line for line in lines)
    desk.read(f"{plural(len(lines), 'photo')}, {bad} can't be shown", "\n".join(lines))


def _take_in(desk: Desk, key: str) -> None:
    desk.take_photos()


class Photos(KindView):
    """Pictures of the open wall, of labels and of rating plates."""

    keys = (
        Key("p", "Photo", show_photos),
        Key("v", "Check the files", _check),
        Key("A", "From a phone", _take_in, alone=True),
    )
    shown = ("shows", "of", "date", "file")

    def __init__(self) -> None:
        super().__init__(Photo)
        self.about += (
            " Enter the tags each photo shows (a panel, a cable, an item) or a place on the wall, and "
            "the drawing (w) marks it. A photo with no day shows the day of the camera or the file. A short path "
            "counts from the folder of the job file."
        )
        self.first = "A = take in the photos of a phone. Before close-in every stud bay needs one."

    def columns(self, state: State) -> tuple[Column, ...]:
        """Tag, what it shows, of what, the day, the file."""
        return (
            Column("tag", 5),
            Column("shows", 18, grow=True),
            Column("belongs to", 12),
            Column("day", 25),
            Column("file", 18, grow=True),
        )

    def line(self, state: State, row: Any) -> Line:
        """One photo; a file that cannot be shown is told in place of its day."""
        day = date_text(state.job, row.date) if row.date else ""
        seen = look(row.file, state.folder) if state.folder is not None else None
        if seen is not None and (seen.why or not day):
            day = seen_words(state.job, seen)
        place = photo_places(state.job).get(row.tag)
        of = ", ".join(row.of) or (f"on {place[0]}" if place else "nothing")
        return Line((row.tag, row.shows, of, day, row.file), "warn" if day.startswith("!") else "")
