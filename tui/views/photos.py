"""Photos: what each shows, whether its file is there, and a key that opens it."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

from store.book.pictures import look
from store.measure.dates import show_date
from store.records.access import Photo
from tui.views.base import Desk, Key, KindView


def viewer() -> list[str]:
    """The command that opens a file with the desktop's own program; empty where none is known."""
    if sys.platform == "darwin":
        return ["open"]
    found = shutil.which("xdg-open")
    return [found] if found else []


def open_picture(path: Path) -> str:
    """Open a picture with the desktop's viewer; what went wrong, or nothing."""
    if sys.platform == "win32":
        os.startfile(path)
        return ""
    command = viewer()
    if not command:
        return f"no program to show pictures is known here; the file is {path}"
    quiet = subprocess.DEVNULL
    try:
        subprocess.Popen([*command, str(path)], stdin=quiet, stdout=quiet, stderr=quiet, start_new_session=True)
    except OSError as error:
        return f"{command[0]} does not start ({error.strerror}); the file is {path}"
    return ""


def _show(desk: Desk, key: str) -> None:
    photo = desk.state.job.of(Photo)[key]
    seen = look(photo.file, desk.folder)
    wrong = seen.why or open_picture(Path(seen.path))
    desk.say(f"{key}: {wrong}" if wrong else f"{key} {photo.file} is shown by the desktop", bad=bool(wrong))


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

    keys = (Key("o", "Open it", _show), Key("c", "Check the files", _check))

    def __init__(self) -> None:
        super().__init__(Photo)
        self.about += (
            " Tie each to the tags it shows or to a place on the wall. o opens it with the desktop's viewer; c looks "
            "whether every file is there and a picture. A path that is not full counts from the job file's folder."
        )
