"""Sound proof of each kind, for tests of something else: closings that count."""

from __future__ import annotations

import hashlib
import struct
import zlib
from datetime import date
from pathlib import Path

from msgspec.structs import replace

from store.records.gate import Closing
from store.rules.core.checks import RoughIn, close
from store.rules.core.proof import kinds_for
from store.rules.core.tested import ANY, why_not

PICTURE = "photos/wall.png"
SEEN = "both blocks nailed to the studs"
TESTS = (
    "insulation tester: pass, 200 Mohm",
    "wire map: pass, 1 Gb/s",
    "0.2 ohm",
    "3 dB",
    "2160p60 shown for an hour",
    "sound: no hum",
    "light: pass",
    "device: seen",
    "continuity: pass",
)
"""Readings, one of which passes for each family of cable."""


def png(shade: int = 0) -> bytes:
    """A whole picture of one point."""

    def chunk(name: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))

    head = struct.pack(">IIBBBBB", 1, 1, 8, 0, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", head)
        + chunk(b"IDAT", zlib.compress(bytes((0, shade))))
        + chunk(b"IEND", b"")
    )


DIGEST = hashlib.sha256(png()).hexdigest()[:32]


def take_picture(folder: Path, name: str = PICTURE, shade: int = 0) -> str:
    """Put a picture beside a job; gives its path from there."""
    path = folder / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(png(shade))
    return name


def sound(check: RoughIn, by: str = "Ann", day: date = date(2026, 11, 25)) -> Closing:
    """A closing of the check that counts; its picture, if it takes one, must be put beside the job."""
    kind = "seen" if "seen" in kinds_for(check) else kinds_for(check)[0]
    if kind == "seen":
        return close(check, by, day, SEEN)
    if kind == "photo":
        return replace(close(check, by, day, PICTURE), pictures={PICTURE: DIGEST})
    if kind == "inspection":
        return close(check, by, day, office="building department", reference="R-112", inspected=day)
    passing = next(each for each in TESTS if not why_not(each, check.test or ANY))
    return close(check, by, day, passing)
