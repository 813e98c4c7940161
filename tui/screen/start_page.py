"""The start page: the jobs of last time, and the starters for a new one."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any, ClassVar, cast

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.screen import Screen
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from store.book.book import Book
from store.book.pictures import full_path
from store.measure.errors import StudbookError
from templates.starters import SHIPPED, load
from tui.shared.recent import recent
from tui.shared.text import Region, content
from tui.shared.who import who
from tui.widgets.choices import Choices
from tui.widgets.dialogs import AskText, ReadPage
from tui.widgets.hints import HintLine

if TYPE_CHECKING:
    from textual.app import App

    from tui.screen.host import Host

PLAN = "first plan: 12 questions, and your wall is laid out"
"""The guided new job."""
WELCOME = (
    "One built-in media wall on file: from the first tape reading to the day, years on, when you need to know what "
    "is behind a panel.\n"
    "The figures are a planning aid. Line voltage (mains) is for a licensed electrician where the law requires one. "
    "Local code and the manufacturer's instructions win."
)


def new_job_path(text: str) -> Path:
    """The file for a new job as it was typed: a name without an ending gets the one that job files have."""
    path = full_path(text.strip(), Path())
    return path if path.suffix or text.endswith("/") or path.is_dir() else path.with_name(f"{path.name}.json")


def old_job_path(text: str, folder: Path) -> Path:
    """The job file that was typed; where there is none of that name, the one with the ending of job files."""
    path = full_path(text.strip(), folder)
    longer = path.with_name(f"{path.name}.json") if path.name else path
    return longer if not path.exists() and longer.is_file() else path


class StartScreen(Screen[None]):
    """Pick a job, or start one."""

    CSS_PATH = "start.tcss"  # when it is pushed over a job, which was shown without
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("q", "app.quit", "Quit"),
        Binding("escape", "back", "Back"),
        Binding("T", "theme", "Colors"),
    ]

    def __init__(self, now: Path | None = None) -> None:
        """`now` is the job that is open under it, where one is."""
        super().__init__()
        self._now, self._spoken = now, Region.turn

    def compose(self) -> ComposeResult:
        """Welcome, jobs, starters; no job is open, so no region is spoken."""
        Region.turn = None
        with Vertical():
            yield Static(content("Studbook"), classes="title")
            yield Static(content(WELCOME))
            yield Static(content("Open a job or start one"), classes="head")
            yield Choices(markup=False)
            back = [("escape", f"back to {self._now.name}")] if self._now is not None else []
            yield HintLine([("up", "up"), ("down", "down"), ("enter", "open"), *back, ("T", "colors"), ("q", "quit")])

    def action_theme(self) -> None:
        """Choose the colors."""
        from tui.screen.themes import choose_theme

        if told := choose_theme(self.app):
            self.notify(told, markup=False)

    def on_mount(self) -> None:
        """List the jobs and the starters."""
        cast("Host", self.app).collect()
        self._jobs = recent()
        if self._now is not None and self._now not in self._jobs:
            self._jobs.insert(0, self._now)
        options = self.query_one(OptionList)
        for number, path in enumerate(self._jobs):
            here = " (open now)" if path == self._now else ""
            options.add_option(Option(content(f"open   {path.name}{here}   in {path.parent}"), id=f"job-{number}"))
        options.add_option(Option(content(f"new    {PLAN}"), id="plan-"))
        for name, about in SHIPPED.items():
            options.add_option(Option(content(f"new    {name}: {about}"), id=f"new-{name}"))
        options.add_option(Option(content("open   another file"), id="file-"))
        options.highlighted = 0
        options.focus()

    @on(OptionList.OptionSelected)
    def take(self, event: OptionList.OptionSelected) -> None:
        """Open the job, or ask where the new one goes."""
        what, _, rest = (event.option.id or "").partition("-")
        if what == "job":
            self._open(self._jobs[int(rest)])
            return
        folder = self._now.parent if self._now is not None else Path.cwd()
        if what == "file":
            self._ask_file(folder)
            return
        start = str(folder / f"{'my-wall' if what == 'plan' or rest == 'empty' else rest}.json")

        def named(text: str | None) -> None:
            if not text:
                return
            path = new_job_path(text)
            if what == "plan":
                from tui.screen.planning import ask_plan  # brings the form

                ask_plan(self.app, path, self._open)
            else:
                self._make(path, rest)

        about = PLAN if what == "plan" else SHIPPED[rest]
        self.app.push_screen(AskText("File for the new job", start=start, about=about), named)

    def _ask_file(self, folder: Path) -> None:
        def named(text: str | None) -> None:
            if text:
                self._open(old_job_path(text, folder))

        self.app.push_screen(AskText("Which file?", start=f"{folder}/", about="A job file ends in .json."), named)

    def action_back(self) -> None:
        """Back to the job that is open; the first page of the program has nothing behind it."""
        if self._now is not None:
            Region.turn = self._spoken
            self.dismiss(None)

    def _make(self, path: Path, starter: str) -> None:
        try:
            Book.create(path, load(starter, date.today()), who(), f"Start the job from {starter}").close()
        except StudbookError as error:
            self.app.push_screen(ReadPage("Not done", error.sentence))
            return
        self._open(path)

    def _open(self, path: Path) -> None:
        if self._now is not None and path.resolve() == self._now.resolve():
            self.action_back()
            return
        try:
            book = cast("Host", self.app).open_book(path)
        except StudbookError as error:
            self.app.push_screen(ReadPage("Not opened", error.sentence))
            return
        cast("Host", self.app).show_job(book)


def show_jobs(app: App[Any], now: Path) -> None:
    """Open another job, or make a new one, from within a job."""
    app.push_screen(StartScreen(now.absolute()))
