"""The pictures that a job names: of photos, and of what shows that an item is done."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date, timedelta

import msgspec

from store.records.access import Photo
from store.records.gate import Closing
from store.records.whole import Job
from store.rules.core.findings import Finding
from store.rules.core.proof import pictures_named
from store.rules.core.wording import date_text, day_short

PRACTICE = "common practice"


class Look(msgspec.Struct, frozen=True):
    """What was seen of one photo's file."""

    path: str
    """Where it was looked for, in full."""
    kind: str = ""
    """`jpeg`, `png` ...; empty when it is no picture that is known here."""
    taken: date | None = None
    """The day the camera wrote in it, else the day of the file."""
    by_camera: bool = False
    why: str = ""
    """What is wrong with it, in words; empty when it is a picture."""


def evidence_pictures(job: Job) -> dict[str, tuple[str, ...]]:
    """The picture files that closings rest on, by the key of the check."""
    closed = {key: one for key, one in job.of(Closing).items() if one.outcome == "closed"}
    found = {key: tuple(one.pictures) or pictures_named(one.evidence) for key, one in closed.items()}
    return {key: files for key, files in found.items() if files}


def evidence_findings(job: Job, looks: Mapping[str, Look]) -> Iterator[Finding]:
    """Findings about the pictures that closings rest on, from what was seen on the disk, by file."""
    for key, files in evidence_pictures(job).items():
        for file in files:
            seen = looks.get(file)
            if seen is not None and seen.why:
                yield Finding(
                    "evidence_missing",
                    "look",
                    (key.partition("/")[0],),
                    f"Proof of {key} is missing",
                    (
                        "Put the file there, or sign off on what is there. Once the wall is covered, you can't "
                        "take the picture again."
                    ),
                    PRACTICE,
                    {"check": key, "file": file, "why": seen.why},
                    why=f"{key} was signed off on {file}, and {seen.why} ({seen.path}).",
                    about=(),
                )


def photo_findings(job: Job, looks: Mapping[str, Look]) -> Iterator[Finding]:
    """Findings from what was seen on the disk, by the tag of the photo."""
    for tag, seen in looks.items():
        photo = job.of(Photo).get(tag)
        if photo is None:
            continue
        if seen.why:
            yield Finding(
                "photo_missing",
                "look",
                (tag,),
                "Picture can't be shown",
                ("Put the file there, or correct its path. Once the wall is covered, you can't take it again."),
                PRACTICE,
                {"file": photo.file, "why": seen.why},
                why=f"{seen.why[0].upper()}{seen.why[1:]} ({seen.path}).",
            )
        elif seen.by_camera and seen.taken and photo.date and abs(seen.taken - photo.date) > timedelta(days=1):
            yield Finding(
                "photo_date",
                "look",
                (tag,),
                f"Camera says {day_short(job, seen.taken)}, entry says {day_short(job, photo.date)}",
                "Correct the entry, or the clock of the camera.",
                "the date in the picture's own EXIF data",
                {"camera": seen.taken.isoformat(), "noted": photo.date.isoformat()},
                why=(
                    f"The camera dated it {date_text(job, seen.taken)}; it is entered as {date_text(job, photo.date)}."
                ),
            )
