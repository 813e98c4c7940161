"""Writing a sheet: a clear name, the whole of it or nothing, and never over a file that is not ours."""

from __future__ import annotations

import contextlib
import os
import re
from pathlib import Path

from store.measure.errors import StudbookError

MARK = "Studbook sheet"
MARKS = {
    "html": f"<!-- {MARK} -->\n",
    "svg": f"<!-- {MARK} -->\n",
    "md": f"\n<!-- {MARK} -->\n",
    "txt": f"\n-- {MARK}\n",
    "ics": "",
    "csv": "",
}
"""What ends a file of each format; a calendar names its maker itself, and a list is known by its first line."""
ICS_MAKER = b"PRODID:-//Studbook//"
TAIL_BYTES = 200
LONGEST_NAME = 80
THERE_ALREADY = (
    "there is a file already that is not a sheet of this program. Name another, or say --force to write over it. "
    "Nothing was written."
)
_LAST_RESORT_NAME = "studbook"


class NotOurs(StudbookError):
    """There is a file of that name that this program did not write, or the place cannot be written to."""

    exit_status = 5


def marked(text: str, form: str) -> str:
    """The text with the mark by which the program knows its own file again."""
    mark = MARKS[form]
    return text if not mark or mark.strip() in text[-TAIL_BYTES:] else text.rstrip("\n") + "\n" + mark


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


def write_sheet(path: Path, text: str, form: str, *, force: bool = False) -> Path:
    """Write a sheet durably and atomically; returns the path written. Line ends stay as they are in `text`.

    Raises NotOurs, and then the file that was there is untouched, when it does not carry our mark (unless `force`),
    or when the folder cannot be written to.
    """
    real = Path(os.path.realpath(path))
    whole = marked(text, form).encode("utf-8", "replace")
    try:
        if real.exists() and not force and not _ours(real, whole, form):
            raise NotOurs(f"{path}: {THERE_ALREADY}")
        _replace(real, whole)
    except OSError as error:
        raise NotOurs(f"{path}: cannot be written: {error.strerror}. Nothing was written.") from error
    return path


def _ours(path: Path, whole: bytes, form: str) -> bool:
    if not path.is_file():
        return False
    there = path.read_bytes()
    if form == "csv":
        first = whole.split(b"\r\n", 1)[0]
        return bool(first) and there.removeprefix(b"\xef\xbb\xbf").split(b"\r\n", 1)[0] == first
    return (ICS_MAKER in there[:TAIL_BYTES]) if form == "ics" else (MARK.encode() in there[-TAIL_BYTES:])


def _replace(path: Path, whole: bytes) -> None:
    import tempfile  # only a file needs it, and it costs as much as all else here

    handle, name = tempfile.mkstemp(prefix=f".{path.name[:40]}.", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(whole)
            stream.flush()
            os.fsync(stream.fileno())
        Path(name).replace(path)
    except BaseException:
        with contextlib.suppress(OSError):
            Path(name).unlink()
        raise
    folder = os.open(path.parent, os.O_RDONLY)
    try:
        os.fsync(folder)
    finally:
        os.close(folder)
