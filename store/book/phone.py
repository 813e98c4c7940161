"""A folder from a phone: its pictures in the order they were taken, which of them are there twice, and the copy of one
that is kept beside the job.

The folder itself is only read.
"""

from __future__ import annotations

import hashlib
import os
import re
import stat
from collections.abc import Callable, Iterable, Iterator
from datetime import datetime
from itertools import pairwise
from pathlib import Path

import msgspec

from store.book.ground import disk
from store.book.pictures import HEAD_BYTES, full_path, kind_of, put_beside
from store.book.scaled import exif_of, jpeg, scaled, told_by_camera
from store.book.true_picture import ENDINGS, MOST_BYTES, wrong_with
from store.measure.errors import BadValue
from store.records.access import Photo
from store.records.whole import Job

LONGEST = 2400
"""Pixels of the longer side of what is kept: 300 to the inch over 8 in of paper."""
PICTURE_ENDINGS = frozenset(ending for endings in ENDINGS.values() for ending in endings)
"""A file of such a name that is no picture is told by its name; others are counted."""
MOST_FILES = 5000
NUMBER_BYTES = 16
"""A picture's number has 128 bits (Exif 2.3, ImageUniqueID)."""
GIST_WIDE, GIST_HIGH = 17, 16
ALIKE_BITS = 12
"""Of the 256 comparisons of neighbouring spots: two files of one picture differ in fewer, as they were measured to do
when scaled and written again."""
FLAT = 24
"""A picture with fewer brighter neighbours is a plain surface, and like every other."""


class Shot(msgspec.Struct, frozen=True):
    """One file of the folder."""

    path: Path
    taken: datetime
    """By the camera, in its own time; else the time of the file."""
    by_camera: bool = False
    number: str = ""
    """Follows from the bytes of the file: the same bytes, the same number."""
    gist: int = 0
    """Where its spots get brighter from left to right; the same for a copy of another size. 0 where it says nothing."""
    why: str = ""
    """What is wrong with it; empty for a picture."""
    same_as: str = ""
    """The name of a file with the same bytes, or the tag of the job's photo that was made of it."""
    like: str = ""
    """The name or tag of one that looks the same."""


class Folder(msgspec.Struct, frozen=True):
    """What a folder holds."""

    shots: tuple[Shot, ...] = ()
    """The pictures, in the order they were taken."""
    unread: tuple[Shot, ...] = ()
    """Pictures that can't be read, by content or by name, and what is no file, with the reason."""
    others: int = 0
    """Files that are no pictures, like films."""


def folder_of(folder: Path, job: Job, home: Path, told: Callable[[int, int], None] = lambda at, of: None) -> Folder:
    """Look through a folder and those in it. `home` is the job's folder; `told` gets how far it is.

    Raises BadValue where there is no such folder, or more in it than is ever from a phone.
    """
    shots, unread, others = [], list[Shot](), 0
    files = list(_files(folder, unread))
    for at, path in enumerate(files):
        told(at, len(files))
        one = _looked_at(path)
        if one is None:
            others += 1
        elif one.why:
            unread.append(one)
        else:
            shots.append(one)
    shots.sort(key=lambda each: (each.taken, len(each.path.name), each.path.name))
    return Folder(tuple(_doubles(shots, list(_kept(job, home)))), tuple(unread), others)


def keep(shot: Shot, home: Path) -> str:
    """Copy a picture beside the job, upright and scaled, with its day and number and without its place on earth.

    Gives its path from the job's folder. Raises BadValue where that cannot be done.
    """
    exif = exif_of(shot.taken if shot.by_camera else None, shot.number)
    raw = jpeg(scaled(shot.path, LONGEST), exif)
    plain = re.sub(r"[^\w-]+", "-", shot.path.stem).strip("-") or "photo"
    return put_beside(raw, f"{plain}.jpg", home, shot.taken.timestamp())


def _files(folder: Path, passed: list[Shot]) -> Iterator[Path]:
    """Every plain file of a folder and of those in it; hidden ones are left alone, and what is no file is noted."""
    if not folder.is_dir():
        raise BadValue(f"{folder}: there is no such folder")

    def refused(error: OSError) -> None:
        if error.filename == os.fspath(folder):
            raise BadValue(f"{folder}: it can't be read ({error.strerror})") from error
        passed.append(_unread(Path(error.filename), f"it can't be read ({error.strerror})"))

    found = 0
    for top, folders, names in os.walk(folder, onerror=refused):
        folders[:] = sorted(each for each in folders if not each.startswith("."))
        linked = [each for each in folders if Path(top, each).is_symlink()]
        for name in sorted([*names, *linked]):
            path = Path(top, name)
            if name.startswith("."):
                continue
            if why := _no_file(path):
                passed.append(_unread(path, why))
                continue
            found += 1
            if found > MOST_FILES:
                raise BadValue(f"{folder}: it has more than {MOST_FILES} files. Give a folder with only photos")
            yield path


def _no_file(path: Path) -> str:
    """Why there is no file to be read under a name; empty where there is one."""
    try:
        kind = path.lstat().st_mode
        if stat.S_ISLNK(kind):
            return "it is a link, and links are not followed" if path.exists() else "it is a link that leads nowhere"
    except OSError as error:
        return f"it can't be read ({error.strerror})"
    return "" if stat.S_ISREG(kind) else "it is not a file"


def _unread(path: Path, why: str) -> Shot:
    return Shot(path, datetime.min, why=why)  # noqa: DTZ901


def _looked_at(path: Path) -> Shot | None:
    """One file; None where it is no picture at all."""
    try:
        changed = datetime.fromtimestamp(path.stat().st_mtime)  # noqa: DTZ006 - as the clock on the wall was
        raw = disk.read_given(path, MOST_BYTES)
    except OSError as error:
        return _unread(path, f"it can't be read ({error.strerror})")
    if not kind_of(raw[:HEAD_BYTES]):
        return Shot(path, changed, why=wrong_with(raw)) if path.suffix.lower() in PICTURE_ENDINGS else None
    try:
        taken, _ = told_by_camera(raw)
        return Shot(path, taken or changed, taken is not None, _number(raw), _gist(raw))
    except BadValue as error:
        return Shot(path, changed, why=str(error))


def _number(raw: bytes) -> str:
    return hashlib.blake2b(raw, digest_size=NUMBER_BYTES).hexdigest()


def _gist(raw: bytes) -> int:
    """What a picture looks like, in 256 bits: is each of 16 x 16 spots brighter than the one at its left."""
    spots = scaled(raw, 4 * GIST_WIDE).convert("L").resize((GIST_WIDE, GIST_HIGH))
    levels = list(spots.tobytes())
    bits = 0
    for y in range(GIST_HIGH):
        row = levels[y * GIST_WIDE : (y + 1) * GIST_WIDE]
        for left, right in pairwise(row):
            bits = bits << 1 | (right > left)
    return bits if FLAT <= bits.bit_count() <= GIST_HIGH * (GIST_WIDE - 1) - FLAT else 0


def _kept(job: Job, home: Path) -> Iterator[Shot]:
    """The photos that the job has already, under their tags."""
    for tag, photo in job.of(Photo).items():
        path = full_path(photo.file, home)
        try:
            raw = disk.read_given(path, MOST_BYTES)
            yield Shot(Path(tag), datetime.min, number=_number(raw), gist=_gist(raw))  # noqa: DTZ901
            number = told_by_camera(raw)[1]
        except (OSError, BadValue):
            continue
        if number:
            yield Shot(Path(tag), datetime.min, number=number)  # noqa: DTZ901


def _doubles(shots: Iterable[Shot], kept: list[Shot]) -> Iterator[Shot]:
    """The shots, each with what it is a double of."""
    before = list(kept)
    for shot in shots:
        same = next((each.path.name for each in before if each.number == shot.number), "")
        like = "" if same else next((each.path.name for each in before if _alike(each.gist, shot.gist)), "")
        before.append(shot)
        yield msgspec.structs.replace(shot, same_as=same, like=like)


def _alike(one: int, other: int) -> bool:
    return bool(one and other) and (one ^ other).bit_count() <= ALIKE_BITS
