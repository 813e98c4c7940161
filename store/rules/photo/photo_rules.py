"""Findings about photos: files that are not there or are no pictures, and dates that do not agree.

What a file is takes a look at the disk, which rules do not do: `look` in store.book.pictures does it, and hands
what it saw to `photo_findings`.
"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import PurePath

from store.records.access import Photo
from store.records.whole import Job
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.proof import PICTURES
from store.rules.photo.pictures import PRACTICE


@rule
def photo_of_nothing(job: Job) -> Iterable[Finding]:
    """Photos that are neither tied to a thing nor to a place on the wall: one finding."""
    loose = [
        tag for tag, one in job.of(Photo).items() if not one.of and (not one.wall or one.x is None or one.y is None)
    ]
    if loose:
        yield Finding(
            "photo_of_nothing",
            "look",
            tuple(loose),
            "Photo with no tag and no place" if len(loose) == 1 else "Photos with no tag and no place",
            "Enter the tags they show, or the place on the wall.",
            PRACTICE,
            {"photos": ", ".join(loose)},
            why="You will not find them when you need them.",
        )


@rule
@from_each(Photo)
def photo_name(job: Job, one: Photo) -> Iterable[Finding]:
    """A file whose name has no ending of a picture."""
    tag = one.tag
    ending = PurePath(one.file.replace("\\", "/")).suffix.lower()
    if ending not in PICTURES:
        yield Finding(
            "photo_name",
            "look",
            (tag,),
            "Not a picture file",
            "Enter the picture's own file, not a page or a link to it.",
            PRACTICE,
            {"file": one.file},
            why=f"Its file ends in {ending or 'nothing'}.",
        )
