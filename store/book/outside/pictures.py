"""The pictures that closings rest on: noted by their content when they are entered, looked at again ever after."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from functools import lru_cache
from pathlib import Path

from store.book.changes import Doc, Step
from store.book.ground import disk
from store.book.pictures import full_path, lies_outside, look
from store.book.true_picture import DAMAGED, true_picture
from store.measure.errors import BadValue
from store.records.gate import Closing
from store.records.whole import Job, Outside
from store.rules.core.checks import PICTURE
from store.rules.core.proof import pictures_named

MOST_KEPT = 4096
"""Pictures of which is kept what their content was, as long as they are the same file of the same time."""


def with_pictures(steps: Sequence[Step], folder: Path) -> list[Step]:
    """The steps of an action, with the content of each picture noted that a closing of theirs rests on.

    Raises BadValue where a picture is not there, is none, or does not lie with the job.
    """
    return [_noted(step, folder) if step.kind == Closing.kind and step.after else step for step in steps]


def _noted(step: Step, folder: Path) -> Step:
    doc: Doc = dict(step.after or {})
    doc.pop("pictures", None)
    if doc.get("proof") == "photo":
        evidence = str(doc.get("evidence", ""))
        named = pictures_named(evidence)
        if not named:
            raise BadValue(f"no picture entered for {step.tag}. Enter the picture file, like photos/wall-3.jpg.")
        doc["pictures"] = dict(_content(file, folder, step.tag) for file in named)
    return Step(step.kind, step.tag, step.before, doc)


def _content(file: str, folder: Path, key: str) -> tuple[str, str]:
    seen = look(file, folder)
    if wrong := seen.why or _cut_short(full_path(file, folder)):
        raise BadValue(
            f"this picture can't prove {key}. {file}: {wrong} ({seen.path}). Enter a picture that is there and opens."
        )
    if lies_outside(file, folder):
        raise BadValue(
            f"picture of {key} is not with the job. Copy {file} into the photos folder beside the job's file."
        )
    return file, digest_of(full_path(file, folder))


def _cut_short(path: Path) -> str:
    """Why a file that begins as a picture shows none, as a copy that broke off; empty where that cannot be told."""
    now = path.stat()
    return _damage(path, now.st_ino, now.st_mtime_ns, now.st_ctime_ns, now.st_size)


@lru_cache(maxsize=MOST_KEPT)
def _damage(path: Path, inode: int, changed_ns: int, entered_ns: int, size: int) -> str:
    why = true_picture(path).why
    return why if why == DAMAGED else ""


def lost_pictures(job: Job, folder: Path) -> tuple[Outside, ...]:
    """The pictures that closings rest on and that are gone, or not what they were; each once."""
    found: dict[str, str] = {}
    for closing in job.of(Closing).values():
        for file, noted in closing.pictures.items():
            if not found.get(file):
                found[file] = _state(full_path(file, folder), noted)
    return tuple(Outside(PICTURE, file, what) for file, what in found.items() if what)


def _state(path: Path, noted: str) -> str:
    """What became of a picture; empty where it is as it was."""
    try:
        return "" if digest_of(path) == noted else "was changed"
    except (OSError, ValueError) as error:
        return "can't be found" if isinstance(error, FileNotFoundError | IsADirectoryError) else "can't be read"


def digest_of(path: Path) -> str:
    """The digest of a file's content (SHA-256, shortened). Raises OSError."""
    now = path.stat()
    return _digest(path, now.st_ino, now.st_mtime_ns, now.st_ctime_ns, now.st_size)


@lru_cache(maxsize=MOST_KEPT)
def _digest(path: Path, inode: int, changed_ns: int, entered_ns: int, size: int) -> str:
    import hashlib  # brings a whole cryptographic library; a job without pictures does not need it

    with os.fdopen(disk.open_given(path), "rb") as opened:
        return hashlib.file_digest(opened, "sha256").hexdigest()[:32]


def pictures_of(job: Job) -> Iterator[str]:
    """The files that what follows from a job depends on, beside its own."""
    for closing in job.of(Closing).values():
        yield from closing.pictures
