"""`python -m tests.picture`: open the demo job, press the keys, write the screens as SVG beside this file."""

from __future__ import annotations

import asyncio
import os
import tempfile
from datetime import date
from pathlib import Path

from store.book.book import Book
from templates.starters import load
from tests.tui.seat import seat_at

PICTURES = {"now": (), "walk": ("W",), "drawing": ("3", "right_square_bracket", "right_square_bracket", "w")}
"""Each picture with the keys that lead to it: what to do next, the walk, the wall to scale."""
SIZE = (120, 36)


async def picture(name: str, keys: tuple[str, ...], out: Path) -> None:
    """Write the screen of the demo job that these keys lead to."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "demo-wall.json"
        Book.create(path, load("demo", date.today()), "Robin", "Start the demo job").close()
        async with seat_at(path, SIZE, first="") as seat:
            await seat.keys(*keys)
            await seat.pilot.pause(0.2)
            out.write_text(seat.app.export_screenshot(title="Studbook"), "utf-8")


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as home:
        os.environ["XDG_STATE_HOME"] = os.environ["XDG_CACHE_HOME"] = os.environ["XDG_CONFIG_HOME"] = home
        # As a usual terminal shows it, whatever this runs in.
        os.environ |= {"TERM": "xterm-256color", "COLORTERM": "truecolor"}
        os.environ.pop("NO_COLOR", None)
        for name, keys in PICTURES.items():
            target = Path(__file__).with_name(f"{name}.svg")
            asyncio.run(picture(name, keys, target))
            print(f"wrote {target}")
