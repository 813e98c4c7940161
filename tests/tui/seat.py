"""A person at the keyboard, for tests: real keys in, what is on the screen and in the file out."""

from __future__ import annotations

import asyncio
import re
import unicodedata
from collections.abc import AsyncIterator, Callable, Sequence, Sized
from contextlib import asynccontextmanager
from datetime import date
from pathlib import Path
from typing import Any, TypeVar

from rich.cells import cell_len
from textual import events
from textual._compositor import Compositor
from textual.pilot import Pilot
from textual.screen import Screen
from textual.widget import Widget

from store.book.book import Book
from store.book.changes import Put, add
from store.book.decoding import decode
from store.measure.length import inches
from store.records.base import Record
from store.records.field import Ref
from store.records.job import Settings
from store.records.wall import Opening, Reading, Wall
from tests.book.build import NO_PERMIT
from tests.jobs.begun import file_of
from tui.forms.form_line import FormLine
from tui.forms.record_form import RecordForm
from tui.screen.app import StudbookApp
from tui.screen.job_screen import JobScreen
from tui.views.index import SECTIONS
from tui.widgets.dialogs import Confirm
from tui.widgets.lines import ChoiceLine, SayLine
from tui.widgets.record_table import RecordTable

W = TypeVar("W", bound=Widget)
LOW, MIDDLE, WIDE = (80, 24), (120, 36), (200, 60)
SIZES = (LOW, MIDDLE, WIDE)
_PAINT = Compositor.render_update
"""As Textual does for a terminal; `conftest` keeps it from being done for nobody."""


async def at_rest(pilot: Pilot[Any]) -> None:
    """Let all happen that waits for nothing: until the event loop has only timers left, and nothing is to be laid out.

    Textual's own pause sends a message through every widget, and has them answer once.
    """
    ready: Sized = asyncio.get_running_loop()._ready  # type: ignore[attr-defined]
    for _ in range(10_000):
        await asyncio.sleep(0)
        if ready:
            continue
        pilot.app.screen._on_timer_update()
        await asyncio.sleep(0)
        if not ready:
            return
    raise AssertionError("never came to rest")


async def settle(pilot: Pilot[Any], until: Callable[[], bool] = lambda: True, tries: int = 60) -> None:
    """Let queued messages finish, until `until()` is true."""
    for _ in range(tries):
        await at_rest(pilot)
        if until():
            return
        await pilot.pause(0.01)
    raise AssertionError("never became true")


class Seat:
    """Where the person sits."""

    def __init__(self, pilot: Pilot[int]) -> None:
        self.pilot = pilot
        app = pilot.app
        assert isinstance(app, StudbookApp)
        self.app = app

    # --- hands ---

    async def keys(self, *names: str) -> None:
        """Press keys by Textual's names, one after the other."""
        for name in names:
            self.app.post_message(events.Key(name, " " if name == "space" else None))
            await self.calm()

    async def go(self, title: str) -> None:
        """Go to a view by its section's digit, then on within the section."""
        place, titles = next(
            (place, [name for name, _ in views])
            for place, (_, views) in enumerate(SECTIONS, 1)
            if title in [name for name, _ in views]
        )
        await self.keys(str(place))
        for _ in titles:
            if self.job_screen.views.titles[self.job_screen.number] == title:
                return
            await self.keys("right_square_bracket")
        raise AssertionError(f"the keys do not lead to {title}")

    async def write(self, text: str) -> None:
        """Type a text letter by letter."""
        for letter in text:
            name = letter if letter.isalnum() else unicodedata.name(letter).lower().replace("-", "_").replace(" ", "_")
            self.app.post_message(events.Key(name, letter))
            await at_rest(self.pilot)
        await self.calm()

    async def click_at(self, x: int, y: int) -> None:
        """Press a button of the mouse and let go, as the terminal tells it."""
        for kind in (events.MouseDown, events.MouseUp):
            self.app.post_message(kind(None, x, y, 0, 0, 1, False, False, False, x, y))
            await at_rest(self.pilot)
        await self.calm()

    async def click(self, words: str, *, below: int = 0) -> None:
        """Click on words that are in sight, the first time they are from a line on."""
        await self.calm()
        lines = self.lines()
        row = next((at for at, line in enumerate(lines) if at >= below and words in line), None)
        assert row is not None, f"{words!r} is nowhere:\n{self.text}"
        await self.click_at(lines[row].index(words) + (len(words) > 1), row)

    async def paste(self, text: str) -> None:
        """Paste a text."""
        self.app.post_message(events.Paste(text))
        await at_rest(self.pilot)

    async def until(self, so: Callable[[], bool]) -> None:
        """Wait until something is so."""
        await settle(self.pilot, so)
        await self.calm()

    async def fill(self, **texts: str) -> None:
        """Type into fields of the form, then save with Ctrl+S."""
        await self.until(lambda: isinstance(self.top, RecordForm) and self.app.focused is not None)
        keys = [field.key for field in self.form._fields]
        for key, text in texts.items():
            self.form._go(keys.index(key))
            if self.form.line.cycles:
                for _ in range(40):
                    if self.form.line.value == text:
                        break
                    await self.keys("space")
            else:
                self.form.line.select_all()
                await self.write(text)
            assert self.form.body.texts[key] == text, key
        await self.keys("ctrl+s")

    async def to_field(self, key: str) -> None:
        """Go to a field of the form with the arrows, and where it waits under More show that first."""
        names = [field.key for field in self.form.body._fields]
        if names.index(key) not in self.form.body.seen:
            await self.keys("f3")
        for _ in range(len(names)):
            by = names.index(key) - self.form.body.at
            if not by:
                return
            await self.keys("down" if by > 0 else "up")
        raise AssertionError(f"the arrows do not lead to {key}")

    async def calm(self) -> None:
        """Wait until the screen on top is laid out and has the keys. A job reads on after its first paint."""
        for _ in range(100):
            await at_rest(self.pilot)
            top = self.top
            laid_out = bool(top._compositor.size.area) and not top._layout_required and top.focused is not None
            if laid_out or (isinstance(top, Confirm) and top._compositor.size.area):
                if isinstance(top, JobScreen) and not top.settled:
                    self.paint()
                return
            await self.pilot.pause(0.005)
        raise AssertionError(f"{self.top} never came to rest")

    def paint(self) -> None:
        """Paint what changed, as for a terminal."""
        _PAINT(self.top._compositor, screen_stack=self.app._background_screens)

    # --- eyes ---

    @property
    def top(self) -> Screen[Any]:
        """The screen on top."""
        return self.app.screen

    def top_is(self, kind: type[Screen[Any]]) -> bool:
        """True when such a screen is on top."""
        return isinstance(self.app.screen, kind)

    @property
    def job_screen(self) -> JobScreen:
        """The screen of the job, whatever is over it."""
        return next(each for each in self.app.screen_stack if isinstance(each, JobScreen))

    @property
    def table(self) -> RecordTable:
        """The table."""
        return self.job_screen.table

    @property
    def form(self) -> RecordForm:
        """The form on top."""
        assert isinstance(self.top, RecordForm), f"{self.top} is no form"
        return self.top

    @property
    def form_line(self) -> FormLine:
        """The line of the form that is typed in."""
        return self.form.line

    @property
    def subset(self) -> str:
        """The subset of the view that is shown."""
        return self.job_screen.listing.subset(self.job_screen.view)

    @property
    def said(self) -> str:
        """What the line under the table says."""
        return self.job_screen.query_one(SayLine).words

    def rows(self) -> list[str]:
        """Keys of the rows of the table, from the top."""
        return list(self.table._keys)

    def cells(self, key: str) -> tuple[str, ...]:
        """The cells of a row."""
        return self.table.line_at(self.rows().index(key)).cells

    def strips(self) -> list[list[str]]:
        """Every line of the screen as its pieces of text."""
        self.paint()
        return [[segment.text for segment in strip] for strip in self.top._compositor.render_strips()]

    def lines(self) -> list[str]:
        """Every line of the screen."""
        return ["".join(parts) for parts in self.strips()]

    @property
    def text(self) -> str:
        """The whole screen."""
        return "\n".join(line.rstrip() for line in self.lines())

    # --- the book ---

    @property
    def book(self) -> Book:
        """The open book."""
        assert self.app.book is not None
        return self.app.book

    def record(self, tag: str) -> Record:
        """A record as it is in the file itself."""
        found = stored(self.book.path).job.get(tag)
        assert found is not None, f"{tag} is not in the file"
        return found


def stored(path: Path) -> Book:
    """The book read afresh from its file."""
    return Book.open(path, "reader")


def tables(path: Path) -> dict[str, dict[str, Any]]:
    """The raw tables of a file."""
    return decode(path, path.read_bytes())


def job_file(folder: Path, starter: str = "demo") -> Path:
    """A fresh job made from a shipped starter."""
    path = folder / "job.json"
    path.write_bytes(file_of(starter, date.today()))
    return path


NORTH = (
    Wall(tag="W1", name="North"),
    Reading(tag="D1", wall=Ref("W1"), what="width", value=inches(144)),
    Reading(tag="D2", wall=Ref("W1"), what="height", value=inches(96)),
    Opening(
        tag="N1", name="Shelf", wall=Ref("W1"), x=inches(20), y=inches(10), width=inches(30), height=inches(20),
        depth=inches(12),
    ),
)  # fmt: skip
"""A wall of 12 by 8 ft with one opening."""


def small_job(folder: Path, records: Sequence[Record] = ()) -> Path:
    """A job that holds only these records, and needs no permit; tags are kept."""
    path = folder / "small.json"
    puts: list[Put] = [add(Settings(tag="job", name="Small", owner="Robin", **NO_PERMIT), keep_tag=True)]
    Book.create(path, [*puts, *(add(each, keep_tag=True) for each in records)], "Robin", "Start").close()
    return path


@asynccontextmanager
async def seat_at(path: Path | None, size: tuple[int, int] = LOW, first: str = "Measurements") -> AsyncIterator[Seat]:
    """The program open on a file at a view, or at what it opens on itself where `first` is empty; or on its start
    page."""
    app = StudbookApp(path, "Robin")
    async with app.run_test(size=size) as pilot:
        seat = Seat(pilot)
        if path is not None:
            await seat.until(lambda: seat.top_is(JobScreen) and seat.top.focused is not None)
            await seat.until(lambda: seat.job_screen.settled)
            if first and seat.top_is(JobScreen):
                await seat.go(first)
        else:
            await settle(pilot)
        yield seat
    if app.book is not None:
        app.book.close()


def assert_fits(seat: Seat, size: tuple[int, int]) -> None:
    """Every line has the width of the screen, and no piece of it steers the terminal."""
    drawn = seat.strips()
    assert len(drawn) == size[1]
    for parts in drawn:
        line = "".join(parts)
        assert not STEERING.search(line), f"control characters in {parts!r}"
        assert cell_len(line) == size[0], repr(line)


STEERING = re.compile("[\x00-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ufeff]")
"""Control signs, signs that turn the direction of a text, and those that are no sign at all."""

__all__ = [
    "LOW", "MIDDLE", "SIZES", "WIDE", "ChoiceLine", "Seat", "assert_fits", "job_file", "seat_at", "settle",
    "small_job", "stored", "tables",
]  # fmt: skip
