"""Looking at picture files: are they there, what are they, on which day were they taken.

Paths that are not full count from the folder of the job file. Only the first bytes of a file are read.
"""

from __future__ import annotations

import os
import struct
from collections.abc import Iterator, Mapping
from datetime import date, datetime
from functools import lru_cache
from pathlib import Path

from store.book.ground import disk
from store.book.ground.owner import give, make_folder, manners_for
from store.measure.errors import BadValue
from store.records.access import Photo
from store.records.whole import Job
from store.rules.core.findings import Finding
from store.rules.photo.pictures import Look, evidence_findings, evidence_pictures, photo_findings

HEAD_BYTES = 65_536
"""EXIF data stands within the first 64 KiB of a JPEG file: an APP1 segment is no longer (Exif 2.3, 4.5.4)."""
SIGNATURES = (
    (b"\xff\xd8\xff", "jpeg"),
    (b"\x89PNG\r\n\x1a\n", "png"),
    (b"GIF87a", "gif"),
    (b"GIF89a", "gif"),
    (b"II*\x00", "tiff"),
    (b"MM\x00*", "tiff"),
    (b"BM", "bmp"),
)
"""First bytes of picture files, each from its own format's description."""
BRANDS = (b"heic", b"heix", b"hevc", b"mif1", b"msf1", b"avif")
EXIF_POINTER, DATE_TIME, DATE_TIME_ORIGINAL = 0x8769, 0x0132, 0x9003
SMALL_AT, SMALL_LENGTH = 0x0201, 0x0202
"""Tags of Exif 2.3, 4.6."""
MOST_BYTES = 200_000_000
MOST_ENTRIES = 500
PHOTOS = "photos"
"""The folder beside the job file that pictures are copied to."""
MOST_KEPT = 4096
"""Files of which is kept what they were, so that a change of the job reads none of them again."""


def looks(job: Job, folder: Path) -> dict[str, Look]:
    """What is seen of every photo's file, by tag."""
    return {tag: look(photo.file, folder) for tag, photo in job.of(Photo).items()}


def missing_pictures(job: Job, folder: Path) -> list[Finding]:
    """The findings about photos, and about the pictures that closings rest on, that take a look at the disk."""
    rested_on = {file: look(file, folder) for files in evidence_pictures(job).values() for file in files}
    return [*photo_findings(job, looks(job, folder)), *evidence_findings(job, rested_on)]


def full_path(file: str, folder: Path) -> Path:
    """Where a photo's file is: `~` is the home, a path that is not full counts from the folder."""
    return folder / os.path.expanduser(file)  # noqa: PTH111 - Path.expanduser raises for an unknown user


def copied_beside(file: str, folder: Path) -> str:
    """Copy a picture beside the job, as `put_beside` does. Raises BadValue when it cannot be read or written."""
    source = full_path(file, folder)
    try:
        raw, changed = disk.read_given(source, MOST_BYTES), source.stat().st_mtime
    except OSError as error:
        raise BadValue(f"{source}: can't copy it to {folder / PHOTOS}: {error.strerror}") from error
    return put_beside(raw, source.name, folder, changed)


def put_beside(raw: bytes, name: str, folder: Path, taken: float) -> str:
    """Write a picture beside the job, into a folder `photos`; its path from the job's folder.

    A picture of that name that is there already is kept, and the new one takes the next name; where it is the very
    same, it is that one. `taken` is the time that the file is given, in seconds. Raises BadValue.
    """
    into = folder / PHOTOS
    number, target = 1, into / name
    while target.exists() and not (target.stat().st_size == len(raw) and target.read_bytes() == raw):
        number += 1
        target = into / f"{Path(name).stem}-{number}{Path(name).suffix}"
    try:
        make_folder(into)
        if into.is_symlink():
            raise BadValue(f"{into}: it is a link, and nothing is copied through a link. Put a real folder there.")
        if not target.exists():
            _written(raw, target, (int(taken * 1e9), int(taken * 1e9)))
    except OSError as error:
        raise BadValue(f"{target}: can't write it: {error.strerror}") from error
    return f"{PHOTOS}/{target.name}"


def _written(raw: bytes, target: Path, times: tuple[int, int]) -> None:
    """Write a file under a name that nothing has yet; whatever gets that name meanwhile is not written through."""
    manners = manners_for(target.parent)
    fd = disk.open_new(target, 0o660 if manners.inherits else 0o600)
    try:
        give(fd, manners)
        disk.write_all(fd, raw)
    except BaseException:
        target.unlink(missing_ok=True)
        raise
    finally:
        disk.let_go(fd)
    os.utime(target, ns=times)


def lies_outside(file: str, folder: Path) -> bool:
    """True for a picture that is there, and not in the folder of the job."""
    path = full_path(file, folder)
    return path.is_file() and not path.resolve().is_relative_to(folder.resolve())


def look(file: str, folder: Path) -> Look:
    """What is seen of one file; what is wrong is shown, never raised."""
    path = full_path(file, folder)
    try:
        if not path.is_file():
            return Look(str(path), why="it is a folder" if path.is_dir() else "there is no such file")
        now = path.stat()
        return _read(path, now.st_ino, now.st_mtime_ns, now.st_size)
    except (OSError, ValueError, OverflowError) as error:
        return Look(str(path), why=f"it cannot be read ({getattr(error, 'strerror', None) or error})")


@lru_cache(maxsize=MOST_KEPT)
def _read(path: Path, inode: int, changed_ns: int, size: int) -> Look:
    """What a file is; read once as long as it stays the same file of the same time and size."""
    with path.open("rb") as opened:
        head = opened.read(HEAD_BYTES)
    kind = kind_of(head)
    if not kind:
        return Look(str(path), why="it is empty" if not head else "it is not a picture")
    taken = taken_on(head) if kind == "jpeg" else None
    changed = date.fromtimestamp(changed_ns / 1_000_000_000)  # noqa: DTZ012 - the day of this place
    return Look(str(path), kind, taken or changed, taken is not None)


def kind_of(head: bytes) -> str:
    """The kind of picture that a file begins as; empty for none."""
    for signature, kind in SIGNATURES:
        if head.startswith(signature) and _BEGUN.get(kind, bool)(head):
            return kind
    if head[:4] == b"RIFF" and head[8:12] == b"WEBP":
        return "webp"
    return "heif" if head[4:8] == b"ftyp" and head[8:12] in BRANDS else ""


def _has_segment(head: bytes) -> bool:
    """True where a JPEG file goes on after its first bytes: a copy that broke off there shows nothing."""
    return next(_segments(head), None) is not None


def _is_bitmap(head: bytes) -> bool:
    """True where a bitmap's own header follows its two letters: nothing in the reserved bytes, and a known size."""
    return head[6:10] == b"\0\0\0\0" and head[15:18] == b"\0\0\0" and head[14:15] in b"\x0c\x28\x34\x38\x40\x6c\x7c"


_BEGUN = {"bmp": _is_bitmap, "jpeg": _has_segment}
"""What must follow the first bytes of a kind of file that too little else would begin as."""


def small_picture(path: Path) -> bytes:
    """The small picture that a camera puts beside a large one in a JPEG file; empty where there is none (Exif 2.3,
    4.5.5 and 4.5.8)."""
    try:
        with path.open("rb") as opened:
            head = opened.read(HEAD_BYTES)
        for marker, at, end in _segments(head):
            if marker == 0xE1 and head[at : at + 6] == b"Exif\x00\x00":
                return _small(head[at + 6 : end])
    except (OSError, struct.error, ValueError):
        return b""
    return b""


def _small(data: bytes) -> bytes:
    order = {b"II": "<", b"MM": ">"}.get(data[:2])
    if order is None:
        return b""
    first = struct.unpack_from(f"{order}I", data, 4)[0]
    count = struct.unpack_from(f"{order}H", data, first)[0]
    second = struct.unpack_from(f"{order}I", data, first + 2 + 12 * count)[0]
    entries = _entries(data, order, second) if second else {}
    if SMALL_AT not in entries or SMALL_LENGTH not in entries:
        return b""
    at, length = entries[SMALL_AT][1], entries[SMALL_LENGTH][1]
    small = data[at : at + length]
    return small if len(small) == length and small.startswith(b"\xff\xd8\xff") else b""


def taken_on(head: bytes) -> date | None:
    """The day in the EXIF data of a JPEG file; None when it has none that can be read (Exif 2.3, 4.5 and 4.6)."""
    for marker, at, end in _segments(head):
        if marker == 0xE1 and head[at : at + 6] == b"Exif\x00\x00":
            try:
                return _from_tiff(head[at + 6 : end])
            except (struct.error, ValueError, UnicodeDecodeError):
                return None
    return None


def _segments(head: bytes) -> Iterator[tuple[int, int, int]]:
    """The segments of a JPEG file before its picture: marker, start and end of what it holds."""
    at = 2
    while at + 4 <= len(head) and head[at] == 0xFF:
        marker = head[at + 1]
        size = int.from_bytes(head[at + 2 : at + 4], "big")
        if marker == 0xDA or size < 2:
            return
        yield marker, at + 4, at + 2 + size
        at += 2 + size


def _from_tiff(data: bytes) -> date | None:
    order = {b"II": "<", b"MM": ">"}.get(data[:2])
    if order is None:
        return None
    first = _entries(data, order, struct.unpack_from(f"{order}I", data, 4)[0])
    inner = _entries(data, order, first[EXIF_POINTER][1]) if EXIF_POINTER in first else {}
    for found, tag in ((inner, DATE_TIME_ORIGINAL), (first, DATE_TIME)):
        if tag in found:
            _, at = found[tag]
            text = data[at : at + 10].decode("ascii")
            return datetime.strptime(text, "%Y:%m:%d").date()  # noqa: DTZ007 - a day has no zone
    return None


def _entries(data: bytes, order: str, at: int) -> Mapping[int, tuple[int, int]]:
    """The entries of one directory: count and value (or the place of it) by tag."""
    count = min(struct.unpack_from(f"{order}H", data, at)[0], MOST_ENTRIES)
    found = {}
    for number in range(count):
        tag, _, many, value = struct.unpack_from(f"{order}HHII", data, at + 2 + 12 * number)
        found[tag] = (many, value)
    return found
