"""Pictures on the screen: opened by the desktop's own viewer, those of a thing picked from when there are several."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

from store.book.pictures import look
from store.book.true_picture import true_picture, under_its_true_name
from store.records.access import Photo
from store.records.base import Record
from store.records.whole import Job
from store.rules.access.steps import photo_text
from store.rules.core.wording import date_text
from store.rules.photo.pictures import Look
from store.rules.photo.places import photos_by_tag
from tui.view.desk import Desk


def viewer() -> list[str]:
    """The command that opens a file with the desktop's own program; empty where none is known."""
    if sys.platform == "darwin":
        return ["open"]
    # The first is there on most desktops; the others where it is not: one desktop's own, and a Linux within Windows.
    for name, *words in (["xdg-open"], ["gio", "open"], ["kde-open"], ["exo-open"], ["wslview"]):
        if found := shutil.which(name):
            return [found, *words]
    return []


def open_picture(path: Path) -> str:
    """Open a picture with the desktop's viewer; what went wrong, or nothing.

    Only what decodes as a picture is given to it, under a name that says so: the desktop goes by the name.
    """
    found = true_picture(path)
    if found.why:
        return f"not opened, {found.why}; the file is {path}"
    try:
        path = under_its_true_name(path, found)
    except OSError as error:
        return f"not opened: its name has no picture ending, and no copy can be made ({error.strerror}); it is {path}"
    if sys.platform == "win32":
        os.startfile(path)
        return ""
    command = viewer()
    if not command:
        return f"No program here can show pictures. The file is {path}"
    quiet = subprocess.DEVNULL
    try:
        subprocess.Popen([*command, str(path)], stdin=quiet, stdout=quiet, stderr=quiet, start_new_session=True)
    except OSError as error:
        return f"{command[0]} won't start ({error.strerror}). The file is {path}"
    return ""


def photos_of(job: Job, tag: str) -> tuple[Photo, ...]:
    """The photo itself, or the photos of a thing."""
    own = job.of(Photo).get(tag)
    return (own,) if own is not None else photos_by_tag(job).get(tag.partition("/")[0], ())


def seen_words(job: Job, seen: Look) -> str:
    """`Nov 4, 2026 (camera)`, `(file)` where the camera wrote no day, or what is wrong with it."""
    if seen.why or seen.taken is None:
        return f"! {seen.why}"
    day = date_text(job, seen.taken)
    return f"{day} (camera)" if seen.by_camera else f"{day} (file)"


def picture_text(job: Job, record: Record, folder: Path | None) -> str:
    """A line on the file of a photo; empty for anything else."""
    if not isinstance(record, Photo) or folder is None:
        return ""
    seen = look(record.file, folder)
    return f"{seen.path}: " + (f"{seen.kind}, " if seen.kind else "") + seen_words(job, seen)


def show_photos(desk: Desk, tag: str) -> None:
    """Open the photo of a thing; of several, the one that is picked."""
    photos = photos_of(desk.state.job, tag)
    if not photos:
        desk.say(f"No photo of {tag}. Add one in Photos and enter {tag} in it.", bad=True)
    elif len(photos) == 1:
        show_photo(desk, photos[0].tag)
    else:
        choices = [(each.tag, photo_text(each)) for each in photos]
        desk.pick(f"Which photo of {tag}?", choices, lambda which: show_photo(desk, which))


def show_photo(desk: Desk, tag: str) -> None:
    """Open one photo, or say why it cannot be shown."""
    photo = desk.state.job.of(Photo)[tag]
    seen = look(photo.file, desk.folder)
    wrong = seen.why or open_picture(Path(seen.path))
    # Whether the viewer shows it, nobody tells us; where it does not, the path is what helps.
    desk.say(f"{tag}: {wrong}" if wrong else f"Opened the photo of {tag}: {seen.path}", bad=bool(wrong))
