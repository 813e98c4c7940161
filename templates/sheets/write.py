"""Writing a sheet: a clear name, the whole of it or nothing, and never over a file that is not ours."""

from __future__ import annotations

import os
import re
import stat
from pathlib import Path

from store.book.ground import disk
from store.book.ground.owner import is_anothers_link
from store.book.written import digest_of, is_as_written, protect, remember, replace_file
from store.measure.errors import StudbookError
from templates.sheets.convert import MARK, MARKS, SOURCE, converted

TAIL_BYTES = 200
BOM = b"\xef\xbb\xbf"
_MARKED = re.compile(rf"(?:<!-- |-- ){MARK} (?P<sum>[0-9a-f]{{24}})")
_SHEETS = re.compile(r">sheet 1 of (\d+)<")
LONGEST_NAME = 80
THERE_ALREADY = (
    "a file is there that Studbook did not write, or that was changed since. Nothing was written. Choose another "
    "name, or use --force to overwrite it."
)
_LAST_RESORT_NAME = "studbook"


class NotOurs(StudbookError):
    """There is a file of that name that this program did not write, or the place cannot be written to."""

    exit_status = 5


def marked(text: str, form: str) -> str:
    """The text with the mark by which the program knows its own file again, and whether it was changed since."""
    mark = MARKS[form]
    if not mark or _MARKED.search(text[-TAIL_BYTES:]):
        return text
    body = text.rstrip("\n")
    named = f"{MARK} {digest_of(body.encode('utf-8', 'replace'))}"
    return f"{body}\n{mark.replace(MARK, named)}"


def as_bytes(text: str, form: str, *, bom: bool = True) -> bytes:
    """The whole file of a sheet. A PDF and a PNG are made of the page or drawing in `text`. Raises NotInstalled."""
    if form in SOURCE:
        return converted(text, form)
    return (BOM if bom and form == "csv" else b"") + marked(text, form).encode("utf-8", "replace")


def part_of(text: str, form: str) -> str:
    """What is said of a drawing that is the first of several sheets, as a file that holds but one; else nothing."""
    count = _SHEETS.search(text) if form in ("svg", "png") else None
    return f" (sheet 1 of {count[1]}: html and pdf have all)" if count and count[1] != "1" else ""


def default_name(stem: str, sheet: str, form: str) -> str:
    """`demo-wall-packet-electrician.html`: the job's file, the sheet, the format."""
    plain = re.sub(r"[^\w]+", "-", f"{stem}-{sheet}", flags=re.ASCII).strip("-").lower()
    return f"{plain[:LONGEST_NAME].rstrip('-') or _LAST_RESORT_NAME}.{form}"


def target(to: Path | None, stem: str, sheet: str, form: str) -> Path:
    """Where a sheet goes: `to`, or in it when it is a folder, or here, under the default name."""
    if to is None:
        return Path(default_name(stem, sheet, form))
    if to.is_dir():
        return to / default_name(stem, sheet, form)
    return to


def write_sheet(
    path: Path, text: str, form: str, *, force: bool = False, bom: bool = True, job: Path | None = None
) -> Path:
    """Write a sheet durably and atomically; returns the path written. Line ends stay as they are in `text`.

    A csv file begins with the mark of UTF-8 (`bom`), by which a spreadsheet on Windows knows its encoding.
    `job` is the job that it is of: its files are never written
    over. Raises NotOurs, and then what was there is untouched, when it is not as this program wrote it (unless
    `force`), when it is no plain file, or when the folder cannot be written to; Protected for a file of a job, forced
    or not.
    """
    whole = as_bytes(text, form, bom=bom)
    try:
        if is_anothers_link(path):
            raise NotOurs(f"{path}: it is a link that someone else made. Nothing was written. Choose another name.")
        real = Path(os.path.realpath(path))
        protect(real, job)
        there = disk.seen(real)
        if there is not None and not stat.S_ISREG(there.st_mode):
            raise NotOurs(f"{path}: it is not a file. Nothing was written. Choose another name.")
        if there is not None and not force and not _ours(real, whole, form):
            raise NotOurs(f"{path}: {THERE_ALREADY}")
        replace_file(real, whole)
    except OSError as error:
        raise NotOurs(f"{path}: cannot be written: {error.strerror}. Nothing was written.") from error
    if not MARKS[form]:
        remember(real, whole)
    return path


def _ours(path: Path, whole: bytes, form: str) -> bool:
    """True for a plain file that is as this program wrote it, or that would come out the same."""
    there = path.read_bytes()
    if there == whole:
        return True
    if not MARKS[form]:
        return is_as_written(path, there)
    found = _MARKED.search(there[-TAIL_BYTES:].decode("utf-8", "replace"))
    if found is None:
        return False
    body, _, after = there.rpartition(found[0].encode())
    if after.decode("utf-8", "replace").strip() != MARKS[form].partition(MARK)[2].strip():
        return False  # a line that somebody put below the mark
    return digest_of(body.rstrip(b"\n")) == found["sum"]
