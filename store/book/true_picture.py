"""Is a file truly a picture: it is when the whole of it decodes as one, not by its name nor by how it begins.

What is given to a desktop's viewer goes by its name there, so a name that says otherwise is not given to it: a copy
with the right one is.
"""

from __future__ import annotations

import contextlib
import io
import tempfile
import warnings
from pathlib import Path

import msgspec

from store.book.ground import disk
from store.book.pictures import HEAD_BYTES, kind_of

MOST_BYTES = 200_000_000
MOST_PIXELS = 180_000_000
"""A picture of more is not opened: it would take gigabytes to decode (a phone's have 12 to 200 million)."""
ENDINGS: dict[str, tuple[str, ...]] = {
    "JPEG": (".jpg", ".jpeg", ".jpe", ".jfif"),
    "MPO": (".jpg", ".jpeg", ".mpo"),
    "PNG": (".png",),
    "GIF": (".gif",),
    "TIFF": (".tif", ".tiff"),
    "BMP": (".bmp", ".dib"),
    "WEBP": (".webp",),
    "AVIF": (".avif",),
    "HEIF": (".heic", ".heif", ".hif"),
}
"""What pictures of each kind are called; the first is given to one that is called otherwise."""


class Decoded(msgspec.Struct, frozen=True):
    """What a file turned out to be."""

    kind: str = ""
    """A key of ENDINGS; empty where it is not a picture."""
    why: str = ""
    raw: bytes = b""


def true_picture(path: Path) -> Decoded:
    """Decode a file. What is wrong is shown, never raised."""
    try:
        raw = disk.read_given(path, MOST_BYTES)
    except OSError as error:
        return Decoded(why=f"it cannot be read ({error.strerror})")
    try:
        from PIL import Image  # takes a while to bring in, and only a picture that is opened needs it
    except ImportError:
        return Decoded(why="the library that reads pictures (Pillow) is not installed")
    with contextlib.suppress(ImportError):
        import pillow_heif

        pillow_heif.register_heif_opener()
    Image.init()
    known = [each for each in ENDINGS if each in Image.OPEN]
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            with Image.open(io.BytesIO(raw), formats=known) as picture:
                if picture.width * picture.height > MOST_PIXELS:
                    return Decoded(why=f"it has {picture.width} by {picture.height} pixels, too many to open")
                kind = picture.format or ""
                picture.draft("RGB", (64, 64))  # a JPEG is gone through whole, and decoded to a small one
                picture.load()
    except Exception:
        # A decoder may raise whatever it stumbles over; whoever made the file chose what that is.
        if raw[4:8] == b"ftyp" and "HEIF" not in known:
            return Decoded(why="HEIC pictures can be checked only with pillow-heif: pip install 'studbook[pictures]'")
        return Decoded(why=wrong_with(raw))
    return Decoded(kind, raw=raw)


DAMAGED = "it is damaged or cut short"


def wrong_with(raw: bytes) -> str:
    """Why bytes do not decode as a picture, for a person: a decoder names what it stumbled over in its own words."""
    if not raw:
        return "it is empty"
    return DAMAGED if kind_of(raw[:HEAD_BYTES]) else "it is not a picture"


def under_its_true_name(path: Path, found: Decoded) -> Path:
    """The file itself where its name says what it is, else a private copy whose name does. Raises OSError."""
    endings = ENDINGS[found.kind]
    plain = disk.plain(path)
    if path.suffix.lower() in endings and plain is not None:
        return path
    folder = Path(tempfile.mkdtemp(prefix="studbook-picture-"))
    copy = folder / f"picture{endings[0]}"
    fd = disk.open_new(copy, 0o600)
    try:
        disk.write_all(fd, found.raw)
    finally:
        disk.let_go(fd)
    return copy
