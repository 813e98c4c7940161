"""`python -m tests.picture`: open the demo job, press the keys, write the screen as SVG beside this file."""

from __future__ import annotations

import asyncio
import tempfile
from datetime import date
from pathlib import Path

from store.book.book import Book
from templates.starters import load
from tui.screen.app import StudbookApp

KEYS = ("6",)
SIZE = (132, 40)


async def picture(out: Path) -> None:
    """Write the screen of the demo job, at its rough-in list."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "demo-wall.json"
        Book.create(path, load("demo", date.today()), "Robin", "Start the demo job").close()
        app = StudbookApp(path, "Robin")
        async with app.run_test(size=SIZE) as pilot:
            await pilot.pause()
            await pilot.pause(1.0)
            for key in KEYS:
                await pilot.press(key)
            await pilot.pause()
            out.write_text(app.export_screenshot(title="Studbook"), "utf-8")


if __name__ == "__main__":
    target = Path(__file__).with_name("screen.svg")
    asyncio.run(picture(target))
    print(f"wrote {target}")
