"""Pictures as a phone writes them, small enough for tests."""

from __future__ import annotations

import io
import os
import random
from pathlib import Path

from PIL import Image, ImageDraw

SIZE = (160, 120)
CORNER = (220, 20, 20)
"""The upper left corner of every picture, as it lies in the file."""


def picture(seed: int, size: tuple[int, int] = SIZE) -> Image.Image:
    """A picture that looks like no other of another seed."""
    dice = random.Random(seed)
    wide, high = size
    made = Image.new("RGB", size, (200, 180, 150))
    draw = ImageDraw.Draw(made)
    for _ in range(24):
        x, y = dice.randrange(wide), dice.randrange(high)
        colour = (dice.randrange(256), dice.randrange(256), dice.randrange(256))
        draw.rectangle((x, y, x + wide // 6, y + high // 6), fill=colour)
    draw.rectangle((0, 0, wide // 3, high // 3), fill=CORNER)
    return made


def shot(path: Path, seed: int, taken: str = "", turned: int = 1, size: tuple[int, int] = SIZE) -> Path:
    """A file of a phone: the time by its camera, how it was held (Exif 2.3, Orientation), and where it was (GPS)."""
    exif = Image.Exif()
    exif[0x0112] = turned
    exif.get_ifd(0x8825)[1] = "N"
    if taken:
        exif.get_ifd(0x8769)[0x9003] = taken
    out = io.BytesIO()
    picture(seed, size).save(out, "JPEG", quality=90, exif=exif.tobytes())
    path.write_bytes(out.getvalue())
    return path


def phone_folder(folder: Path) -> Path:
    """Three photos out of the order of their names, one of them twice, one sent on smaller, a film, a torn file, an
    empty one, a text by a picture's name, a link that leads nowhere, a pipe."""
    folder.mkdir()
    shot(folder / "IMG_3.jpg", 1, "2026:11:03 09:00:00")
    shot(folder / "IMG_1.jpg", 2, "2026:11:04 14:05:10", turned=6)
    shot(folder / "IMG_2.jpg", 3, "2026:11:04 13:00:00", size=(640, 480))
    (folder / "IMG_1 (1).jpg").write_bytes((folder / "IMG_1.jpg").read_bytes())
    picture(3, (640, 480)).resize((200, 150)).save(folder / "sent.jpg", quality=60)
    (folder / "clip.mov").write_bytes(b"\0\0\0\x14ftypqt  film")
    (folder / "torn.jpg").write_bytes((folder / "IMG_2.jpg").read_bytes()[:300])
    (folder / "empty.jpg").touch()
    (folder / "note.jpg").write_text("no picture")
    (folder / "gone.jpg").symlink_to(folder / "nowhere.jpg")
    os.mkfifo(folder / "pipe.jpg")
    (folder / ".hidden.jpg").write_bytes((folder / "IMG_2.jpg").read_bytes())
    return folder
