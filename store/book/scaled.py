"""A picture as it is looked at: turned as the camera was held, shrunk to what is needed, never changed on the disk.

Pillow is imported only where a picture is opened. What only an extra can read is shown with the line that installs it.
"""

from __future__ import annotations

import contextlib
import io
import warnings
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from store.book.ground import disk
from store.book.true_picture import ENDINGS, MOST_BYTES, MOST_PIXELS, wrong_with
from store.measure.errors import BadValue

if TYPE_CHECKING:
    from PIL.Image import Exif, Image

HEIC_NEEDS = "a HEIC picture needs one more package: pip install 'studbook[pictures]'"
EXIF_PART, TAKEN, TAKEN_OFFSET, TAKEN_PART, CHANGED, UNIQUE = 0x8769, 0x9003, 0x9011, 0x9291, 0x0132, 0xA420
"""Tags of Exif 2.3, 4.6.5: the part that a camera writes, DateTimeOriginal, its offset and its parts of a second,
DateTime, ImageUniqueID (a 128-bit number in hexadecimal)."""
QUALITY = 85


def scaled(source: Path | bytes, longest: int) -> Image:
    """The picture of a file, upright, in colour, its longer side `longest` pixels at most. Raises BadValue."""
    from PIL import ImageOps

    try:
        with _quiet(), _opened(source) as picture:
            picture.draft("RGB", (longest, longest))  # a JPEG is decoded small: a fifth of the time and memory
            upright = ImageOps.exif_transpose(picture) or picture
            upright.thumbnail((longest, longest))
            return upright.convert("RGB")
    except BadValue:
        raise
    except Exception as error:  # a decoder may raise whatever it stumbles over
        raise BadValue(wrong_with(_bytes_of(source))) from error


def jpeg(picture: Image, exif: Exif | None = None) -> bytes:
    """A picture as the bytes of a JPEG file, with what is to be told of it."""
    out = io.BytesIO()
    picture.save(out, "JPEG", quality=QUALITY, **({"exif": exif.tobytes()} if exif is not None else {}))
    return out.getvalue()


def told_by_camera(source: Path | bytes) -> tuple[datetime | None, str]:
    """When a picture was taken by the camera's own clock, and its number where it has one. Raises BadValue."""
    try:
        with _quiet(), _opened(source) as picture:
            exif = picture.getexif()
            inner = exif.get_ifd(EXIF_PART)
            said = str(inner.get(TAKEN) or exif.get(CHANGED) or "").strip("\0 ")
            part = str(inner.get(TAKEN_PART) or "").strip("\0 ")
            return _time(said, part), str(inner.get(UNIQUE) or "").strip("\0 ").lower()
    except BadValue:
        raise
    except Exception as error:
        raise BadValue(wrong_with(_bytes_of(source))) from error


def exif_of(taken: datetime | None, number: str) -> Exif:
    """What is kept of what the camera wrote: the time and the picture's number, not where it was taken."""
    from PIL.Image import Exif

    exif = Exif()
    inner = exif.get_ifd(EXIF_PART)
    inner[UNIQUE] = number
    if taken is not None:
        exif[CHANGED] = inner[TAKEN] = taken.strftime("%Y:%m:%d %H:%M:%S")
    return exif


def _time(said: str, part: str) -> datetime | None:
    try:
        taken = datetime.strptime(said[:19], "%Y:%m:%d %H:%M:%S")  # noqa: DTZ007 - as the clock on the wall was
    except ValueError:
        return None
    return taken.replace(microsecond=int(part[:6].ljust(6, "0"))) if part.isdecimal() else taken


@contextlib.contextmanager
def _quiet():  # type: ignore[no-untyped-def]
    """Pillow warns of large pictures, and of bytes that it puts right."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        yield


def _bytes_of(source: Path | bytes) -> bytes:
    """The bytes of a picture. Raises BadValue."""
    try:
        return source if isinstance(source, bytes) else disk.read_given(source, MOST_BYTES)
    except OSError as error:
        raise BadValue(f"it can't be read ({error.strerror})") from error


def _opened(source: Path | bytes) -> Image:
    """A picture, its pixels not yet read. Raises BadValue, or what the decoder raises."""
    from PIL import Image

    raw = _bytes_of(source)
    if raw[4:8] == b"ftyp":
        with contextlib.suppress(ImportError):
            import pillow_heif

            pillow_heif.register_heif_opener()
    Image.init()
    known = [each for each in ENDINGS if each in Image.OPEN]
    try:
        picture = Image.open(io.BytesIO(raw), formats=known)
    except Exception as error:
        if raw[4:8] == b"ftyp" and "HEIF" not in known:
            raise BadValue(HEIC_NEEDS) from error
        raise BadValue(wrong_with(raw)) from error
    if picture.width * picture.height > MOST_PIXELS:
        raise BadValue(f"it has {picture.width} by {picture.height} pixels, too many to open")
    return picture
