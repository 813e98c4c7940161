"""The photos of the owner's book: each turned upright and scaled to the page, or the reason why it is not there."""

from __future__ import annotations

from base64 import b64encode
from pathlib import Path

import msgspec

from store.book.pictures import full_path, look, small_picture
from store.book.scaled import jpeg, scaled
from store.measure.errors import BadValue
from store.records.access import Photo
from store.records.whole import Job
from store.rules.core.wording import date_text
from templates.sheets.layout.fill import MOST_PAGE_BYTES

WIDE_PX, SMALL_PX = 1100, 640
"""Longer side of a picture: 170 to the inch over a page's width; of many, half as large, so that the book opens."""
MANY = 60
NO_FOLDER = "it is beside the job's file"


class Shown(msgspec.Struct, frozen=True):
    """One photo: its picture where it can stand in the page, else the reason why not."""

    tag: str
    words: str
    uri: str
    why: str


def shown(job: Job, folder: Path | None) -> dict[str, Shown]:
    """Every photo of the job by its tag, in its order."""
    found, left = {}, MOST_PAGE_BYTES
    longest = WIDE_PX if len(job.of(Photo)) <= MANY else SMALL_PX
    for tag, photo in job.of(Photo).items():
        uri, why = _uri(photo.file, folder, longest, left) if folder is not None else ("", NO_FOLDER)
        left -= len(uri)
        of = f" (of {', '.join(photo.of)})" if photo.of else ""
        day = f", {date_text(job, photo.date)}" if photo.date else ""
        where = f": {photo.file}" if photo.shows or not uri else ""
        found[tag] = Shown(tag, f"{photo.shows or photo.file}{of}{day}{where}", uri, why)
    return found


def _uri(file: str, folder: Path, longest: int, left: int) -> tuple[str, str]:
    """A picture as an address that holds it whole, or why there is none."""
    seen = look(file, folder)
    if seen.why:
        return "", seen.why
    path = full_path(file, folder)
    try:
        raw = jpeg(scaled(path, longest))
    except BadValue as error:
        raw = small_picture(path)
        if not raw:
            return "", str(error)
    uri = f"data:image/jpeg;base64,{b64encode(raw).decode()}"
    return (uri, "") if len(uri) <= left else ("", "the book holds no more pictures; look at the file itself")
