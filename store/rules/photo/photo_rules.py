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
            f"{', '.join(loose)} {'belongs' if len(loose) == 1 else 'belong'} to no thing and no place, so nobody "
            "will find it when it is wanted.",
            "Name the tags it shows, or the place on the wall.",
            PRACTICE,
            {"photos": ", ".join(loose)},
        )


@rule
def photo_name(job: Job) -> Iterable[Finding]:
    """A file whose name has no ending of a picture."""
    for tag, one in job.of(Photo).items():
        ending = PurePath(one.file.replace("\\", "/")).suffix.lower()
        if ending not in PICTURES:
            yield Finding(
                "photo_name",
                "look",
                (tag,),
                f"The file of {tag} ends in {ending or 'nothing'}: that is no picture as cameras write them.",
                "Give the picture's own file, not a page or a link to it.",
                PRACTICE,
                {"file": one.file},
            )
