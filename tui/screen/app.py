"""The program on the screen: opens a job and owns its screens."""

from __future__ import annotations

import contextlib
import os
from datetime import date
from pathlib import Path, PurePath
from typing import Any, ClassVar, Protocol, runtime_checkable

from textual.app import App
from textual.binding import Binding, BindingType
from textual.screen import Screen

from store.book.book import Book
from store.measure.errors import StudbookError
from store.measure.text import clean
from tui.screen.themes import put_on
from tui.shared.collector import collect_seldom
from tui.shared.signs import Signs, no_colors_wanted, plain_wanted
from tui.shared.who import who

CUT_OFF, ENDED = 129, 143
"""Exit statuses, as a shell has them for the two signals."""
PATIENCE_S = 2.0
"""A screen waits for somebody else's save no longer than a person waits for a key; saving can be tried again."""
JOB_CSS: list[str | PurePath] = ["screen.tcss"]
PLAIN_CSS = ".dialog, .form, .many { border: ascii $muted !important; }"
"""Where the terminal has plain signs only, Textual's round corners are none of them."""


@runtime_checkable
class HasDraft(Protocol):
    """A window in which something is typed that is kept while it is not saved."""

    def keep_draft(self) -> None:
        """Keep it beside the job."""

    def forget_draft(self) -> None:
        """It was saved, or left on purpose."""


class StudbookApp(App[int]):
    """A start page, or a job."""

    TITLE = "Studbook"
    ENABLE_COMMAND_PALETTE = False
    # Of the app and not of its screens: Textual reads no styles of the screen at the bottom. Each file nests all that
    # it says in the name of its screen.
    CSS_PATH: ClassVar[list[str | PurePath]] = [*JOB_CSS, "start.tcss"]
    BINDINGS: ClassVar[list[BindingType]] = [Binding("ctrl+q", "quit", "Quit", priority=True)]

    def __init__(self, path: Path | None, name: str = "", *, photos: Path | None = None) -> None:
        plain = no_colors_wanted(os.environ)
        if plain:
            os.environ["NO_COLOR"] = ""  # which Textual reads, and takes away
        # Where no colors are wanted Textual takes them off only when it is told before it starts that they are the
        # terminal's own.
        # A job that is opened at once never shows the start page, and reads no styles of it.
        super().__init__(css_path=self.CSS_PATH if path is None else JOB_CSS, ansi_color=True if plain else None)
        self._path = path
        self.photos = photos
        """A folder of photos that is gone through as soon as the job is shown."""
        self.name_given = name
        put_on(self, "none" if plain else self.console.color_system)
        self.book: Book | None = None
        if path is not None:
            self.open_book(path)

    def open_book(self, path: Path) -> Book:
        """Open a job file; errors are the caller's to tell."""
        self.book = Book.open(path, self.name_given, date.today, glance=True)
        self.book.who = self.name_given or who(self.book.job.settings.owner)
        self.book.wait_at_most(PATIENCE_S)
        return self.book

    def get_default_screen(self) -> Screen[Any]:
        """The job, or the start page; as the screen at the bottom, so that no empty one is made under it."""
        if self.book is not None:
            from tui.screen.job_screen import JobScreen

            return JobScreen(self.book)
        from tui.screen.start_page import StartScreen

        return StartScreen()

    async def action_quit(self) -> None:
        """Leave; what was typed and not saved is not thrown away unasked."""

        def sure(yes: bool | None) -> None:
            if yes:
                for form in self._forms():
                    form.forget_draft()
                self.exit()

        if any(getattr(screen, "unsaved", False) for screen in self.screen_stack):
            from tui.widgets.dialogs import Confirm

            self.push_screen(Confirm("Discard changes and quit?", yes="discard", no="keep editing"), sure)
        else:
            self.exit()

    def _forms(self) -> list[HasDraft]:
        return [screen for screen in self.screen_stack if isinstance(screen, HasDraft)]

    def on_mount(self) -> None:
        """Be told when the terminal goes away, or when somebody ends the program."""
        import asyncio
        import signal

        loop = asyncio.get_running_loop()
        for name, then in (("SIGHUP", self._cut_off), ("SIGTERM", self._ended)):
            number = getattr(signal, name, None)
            if number is not None:
                # Where no signal can be waited for, the draft of a moment ago is what is kept.
                with contextlib.suppress(NotImplementedError, RuntimeError, ValueError):
                    loop.add_signal_handler(number, then)

    def _cut_off(self) -> None:
        """The terminal is gone: keep what is typed, and leave without writing to it."""
        self._keep_drafts()
        os._exit(CUT_OFF)

    def _ended(self) -> None:
        """Somebody ends the program: keep what is typed, and leave the terminal as it was."""
        self._keep_drafts()
        self.exit(return_code=ENDED)

    def _keep_drafts(self) -> None:
        for form in self._forms():
            form.keep_draft()

    def show_job(self, book: Book) -> None:
        """Put the screen of a job on top, in place of that of the job before."""
        from tui.screen.job_screen import JobScreen

        last = next((each for each in self.screen_stack if isinstance(each, JobScreen)), None)
        if last is None:
            self.push_screen(JobScreen(book))
            return
        while self.screen is not last:
            self.pop_screen()
        if last is self.screen_stack[0]:
            # The screen at the bottom was never pushed, and so has nothing to answer to; taken away, it must have.
            last._push_result_callback(last, None)
        self.switch_screen(JobScreen(book))
        last.book.close()

    def collect(self) -> None:
        """After the first paint: what was made until now stays, and need not be looked through again."""
        collect_seldom()

    def give_up(self, error: StudbookError) -> None:
        """Leave a job that cannot be worked with; the error is told where the program was started."""
        self.exit(return_code=error.exit_status, message=clean(f"studbook: {error}", lines=True))


def run(path: Path | None, *, photos: Path | None = None) -> int:
    """Open the screen, and on it the photos of a folder where one is given; returns the exit status."""
    Signs.plain = plain_wanted(os.environ)
    if Signs.plain:
        StudbookApp.CSS = PLAIN_CSS
    app = StudbookApp(path, photos=photos)
    app.run()
    return app.return_code or 0
