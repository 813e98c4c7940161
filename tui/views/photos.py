"""Photos: what each shows, whether its file is there, and a key that opens it."""

from __future__ import annotations

from store.book.pictures import look
from store.measure.dates import show_date
from store.records.access import Photo
from tui.pictures import show_photos
from tui.views.base import Desk, Key, KindView


def _check(desk: Desk, key: str) -> None:
    lines = []
    for tag, photo in desk.state.job.of(Photo).items():
        seen = look(photo.file, desk.folder)
        day = f", {'taken' if seen.by_camera else 'file of'} {show_date(seen.taken)}" if seen.taken else ""
        lines.append(f"{tag} {photo.file}: " + (f"! {seen.why}" if seen.why else f"{seen.kind}{day}"))
    bad = sum(": ! " in line for line in lines)
    desk.read(f"{len(lines)} photos, {bad} that cannot be shown", "\n".join(lines))


class Photos(KindView):
    """Pictures of the open wall, of labels and of rating plates."""

    keys = (Key("p", "Open picture", show_photos), Key("c", "Check the files", _check))

    def __init__(self) -> None:
        super().__init__(Photo)
        self.about += (
            " Tie each to the tags it shows or to a place on the wall. p opens it with the desktop's viewer; c looks "
            "whether every file is there and a picture. A path that is not full counts from the job file's folder."
        )
