"""How fast the screen comes up and answers, each against a floor measured in the same run."""

from __future__ import annotations

import asyncio
import fcntl
import os
import pty
import select
import signal
import statistics
import struct
import subprocess
import sys
import tempfile
import termios
import time
from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path
from typing import Any

import msgspec
from textual import events

from store.book.book import Book
from store.book.changes import Put, add, edit
from store.measure.money import Money
from store.records.equipment import Equipment
from store.records.job import Settings
from templates.starters import load
from tests.bench.rows import Row
from tui.screen.app import StudbookApp
from tui.screen.job_screen import JobScreen

ROOT = Path(__file__).resolve().parents[2]
PATIENCE_S = 60.0
MINIMAL = """
from textual.app import App
from textual.widgets import Static
class Small(App):
    def compose(self):
        yield Static("Looking through the job")
Small().run()
"""
"""The least that Textual does: one line of text, what stands in the first list until it is worked out."""
PAINTED = b"Looking through the job"


def _environment() -> dict[str, str]:
    """The environment, but for what would keep Python from using its compiled modules, as an installed program does."""
    return {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}


def first_paint_s(arguments: Sequence[str], home: str) -> float:
    """Seconds from the start of a process, in a terminal of 80 by 24, to its first words."""
    master, slave = pty.openpty()
    fcntl.ioctl(slave, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
    own = {"TERM": "xterm-256color", "HOME": home, "XDG_STATE_HOME": home, "PYTHONPATH": str(ROOT)}
    start = time.perf_counter()
    process = subprocess.Popen(
        arguments,
        stdin=slave,
        stdout=slave,
        stderr=slave,
        env={**_environment(), **own},
        cwd=ROOT,
        start_new_session=True,
    )
    os.close(slave)
    seen = b""
    try:
        while PAINTED not in seen:
            left = start + PATIENCE_S - time.perf_counter()
            if left <= 0 or not select.select([master], [], [], left)[0]:
                raise RuntimeError(f"nothing was painted: {seen[-300:]!r}")
            seen += os.read(master, 65536)
        return time.perf_counter() - start
    finally:
        os.killpg(process.pid, signal.SIGKILL)
        process.wait()
        os.close(master)


def run_s(arguments: Sequence[str]) -> float:
    """Seconds of a whole process."""
    start = time.perf_counter()
    subprocess.run(arguments, cwd=ROOT, check=True, stdout=subprocess.DEVNULL, env=_environment())
    return time.perf_counter() - start


def ratio(work: Callable[[], float], floor: Callable[[], float], rounds: int) -> float:
    """A measure over its floor, each time measured right after the other: the median, as a machine's own speed changes
    from minute to minute by more than what is looked for."""
    return statistics.median(work() / floor() for _ in range(rounds))


def equipment_job(folder: Path, many: int) -> Path:
    """A job of so many pieces of equipment."""
    path = folder / f"{many}.json"
    puts: list[Put] = [add(Settings(tag="job", name="large"), keep_tag=True)]
    puts += [add(Equipment(tag=f"E{n}", name=f"device {n}", price=Money(n)), keep_tag=True) for n in range(1, many + 1)]
    Book.create(path, puts, "bench", "start").close()
    return path


async def key_ms(path: Path, keys: int = 60) -> float:
    """Milliseconds from a key in the list of equipment to the repaint, the lower quartile of many."""
    app = StudbookApp(path, "bench")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        app.post_message(events.Key("4", "4"))
        await pilot.pause()
        table = _job_screen(app).table
        taken = []
        for _ in range(keys):
            before = table.cursor_key
            start = time.perf_counter()
            app.post_message(events.Key("down", None))
            while table.cursor_key == before:
                await pilot.pause(0)
            _job_screen(app)._compositor.render_strips()
            taken.append((time.perf_counter() - start) * 1000)
    return statistics.quantiles(taken, n=4)[0]


async def edit_ms(path: Path, size: tuple[int, int], rounds: int = 40) -> float:
    """Milliseconds from a saved edit of the row under the cursor to its repaint, everything that follows worked out
    anew; the least, as what else runs can only add."""
    app = StudbookApp(path, "bench")
    async with app.run_test(size=size) as pilot:
        await pilot.pause()
        screen = _job_screen(app)
        await pilot.press("4")
        screen.table.move_to("E1")
        await pilot.pause()
        taken = []
        for turn in range(rounds):
            one = screen.book.job.of(Equipment)["E1"]
            changed = edit(one, msgspec.structs.replace(one, watts=100.0 + turn))
            screen.book.act("Edit E1", [changed])
            start = time.perf_counter()
            screen.desk.look_again()
            await pilot.pause(0)
            screen._compositor.render_strips()
            taken.append((time.perf_counter() - start) * 1000)
    return min(taken)


def _job_screen(app: StudbookApp) -> JobScreen:
    screen: Any = app.screen
    assert isinstance(screen, JobScreen)
    return screen


def run(rounds: int = 12) -> list[Row | tuple[str, float, float, str]]:
    """The rows of this bench."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        os.environ["XDG_STATE_HOME"] = os.environ["XDG_CACHE_HOME"] = name
        demo = folder / "demo.json"
        Book.create(demo, load("demo", date.today()), "bench", "start").close()
        large, small = equipment_job(folder, 20_000), equipment_job(folder, 200)

        def small_app() -> float:
            return first_paint_s([sys.executable, "-c", MINIMAL], name)

        def job_app(path: Path) -> float:
            return first_paint_s([sys.executable, "-m", "tui", str(path)], name)

        def status() -> float:
            return run_s([sys.executable, "-m", "tui", "status", str(demo)])

        def sheet() -> float:
            return run_s([sys.executable, "-m", "tui", "print", "checklist", str(demo), "--to", "-"])

        def status_anew() -> float:
            with tempfile.TemporaryDirectory() as empty:
                os.environ["XDG_CACHE_HOME"] = empty
                taken = status()
            os.environ["XDG_CACHE_HOME"] = name
            return taken

        def bare() -> float:
            return run_s([sys.executable, "-c", "pass"])

        few, many = asyncio.run(key_ms(small)), asyncio.run(key_ms(large))
        return [
            ("first paint, demo / minimal Textual app", ratio(lambda: job_app(demo), small_app, rounds), 1.25, "x"),
            ("first paint, 20,000 records / minimal app", ratio(lambda: job_app(large), small_app, rounds), 2.0, "x"),
            ("a key among 20,000 rows / among 200", many / few, 1.3, "x"),
            ("edit to repaint, demo, 80x24", asyncio.run(edit_ms(demo, (80, 24))), 30.0, "ms"),
            ("edit to repaint, demo, 120x36 with the wall", asyncio.run(edit_ms(demo, (120, 36))), 30.0, "ms"),
            ("status, asked again of an unchanged file / bare Python", ratio(status, bare, rounds), 4.0, "x"),
            ("print, asked again of an unchanged file / bare Python", ratio(sheet, bare, rounds), 4.0, "x"),
            Row("status, worked out anew / bare Python", ratio(status_anew, bare, rounds), "x"),
        ]
