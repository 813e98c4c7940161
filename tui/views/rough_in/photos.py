"""Photos: what each shows, whether its file is there and when it was taken, and a key that opens it."""

from __future__ import annotations

from typing import Any

from store.book.pictures import look
from store.measure.dates import show_date
from store.records.access import Photo
from store.rules.photo.places import photo_places
from tui.acts.pictures import seen_words, show_photos
from tui.view.desk import Desk
from tui.view.state import State
from tui.view.view import Key, KindView
from tui.widgets.record_table import Column, Line


def _check(desk: Desk, key: str) -> None:
    lines = []
    for tag, photo in desk.state.job.of(Photo).items():
        seen = look(photo.file, desk.folder)
        lines.append(f"{tag} {photo.file}: " + (f"{seen.kind}, " if seen.kind else "") + seen_words(seen))
    bad = sum(": ! " in line for line in lines)
    desk.read(f"{len(lines)} photos, {bad} that cannot be shown", "\n".join(lines))


class Photos(KindView):
    """Pictures of the open wall, of labels and of rating plates."""

    keys = (Key("p", "Open picture", show_photos), Key("c", "Check the files", _check))
    shown = ("shows", "of", "date", "file")

    def __init__(self) -> None:
        super().__init__(Photo)
        self.about += (
            " Tie each to the tags it shows (a panel, a cable, a check) or to a place on the wall: there the drawing "
            "(w) marks it. p opens it with the desktop's viewer; c looks whether every file is there and a picture. "
            "Where no day is noted, that of the camera is told, or that of the file. A path that is not full counts "
            "from the job file's folder."
        )

    def columns(self, state: State) -> tuple[Column, ...]:
        """Tag, what it shows, of what, the day, the file."""
        return (
            Column("tag", 5),
            Column("shows", 18, grow=True),
            Column("of", 12),
            Column("day", 25),
            Column("file", 18, grow=True),
        )

    def line(self, state: State, row: Any) -> Line:
        """One photo; a file that cannot be shown is told in place of its day."""
        day = show_date(row.date) if row.date else ""
        seen = look(row.file, state.folder) if state.folder is not None else None
        if seen is not None and (seen.why or not day):
            day = seen_words(seen)
        place = photo_places(state.job).get(row.tag)
        of = ", ".join(row.of) or (f"on {place[0]}" if place else "nothing")
        return Line((row.tag, row.shows, of, day, row.file), "warn" if day.startswith("!") else "")
