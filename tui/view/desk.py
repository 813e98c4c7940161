"""What views and guided acts may ask of the screen that they run on."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, Protocol

from store.book.book import Book
from store.book.changes import Change
from store.measure.errors import StudbookError
from store.records.base import Record
from store.records.whole import Job
from tui.view.state import State

if TYPE_CHECKING:
    from textual.screen import Screen


Changes = Sequence[Change] | Callable[[Job], Sequence[Change]]
"""What an action does, or how to work it out on the newest job."""


Keys = Sequence[tuple[str, str]]
"""Keys of a page, each with what it does."""
Pressed = Callable[[str | None], None]
"""What follows when a page is left: it gets the key that was pressed, or None."""


def leave(pressed: str | None) -> None:
    """What follows a page with no keys of its own: nothing."""


SAME_LINE = ""
"""In place of a key: the cursor stays on its line, where the next of a list comes up."""


class Desk(Protocol):
    """What a view's own keys may ask of the screen they are pressed on."""

    @property
    def state(self) -> State:
        """The job as it is."""

    @property
    def book(self) -> Book:
        """The job's file."""

    def edit(self, record: Record, first: str = "") -> None:
        """Open the form of a record."""

    def show_history(self, key: str) -> None:
        """What happened to a record, with the closings of a check."""

    def look_again(self, at: str | None = None) -> None:
        """Have everything shown anew, as the job is now."""

    def refuse(self, error: StudbookError) -> None:
        """Tell a refusal: in the line when it is short, in a window when it is a list."""

    def act(self, what: str, changes: Changes, why: str = "", *, at: str | None = None, offered: str = "") -> bool:
        """Do an action; False when it was refused (and said so). The cursor goes to `at`, or stays on its record.

        `offered` is filled in where a reason is asked for: one that was given before it was told what it is for.
        """

    def undo(self) -> None:
        """Take back the last action, and say so."""

    def say(self, words: str, *, bad: bool = False) -> None:
        """Tell the person something, below the table."""

    def ask(self, question: str, then: Callable[[str], None], *, start: str = "", about: str = "") -> None:
        """Ask for a line of text; `then` gets it when it is not empty."""

    def fill_in(self, cls: type[Record], values: Mapping[str, Any]) -> None:
        """Open an empty form with some values."""

    def fill_out(
        self,
        title: str,
        cls: type[Record],
        values: Mapping[str, Any],
        save: Callable[[dict[str, Any]], str],
        then: Callable[[], None] = lambda: None,
    ) -> None:
        """Open a form with some values; `save` gets them, and gives back what is wrong or nothing; `then` follows when
        it was saved and the form is gone."""

    def pick(self, question: str, choices: Sequence[tuple[str, str]], then: Callable[[str], None]) -> None:
        """Ask for one of a list of keys and labels; `then` gets the key."""

    def done(self, words: str) -> None:
        """Tell that something was done, and the gravest thing that it broke."""

    @property
    def change(self) -> str:
        """What the last change solved, and the gravest thing that is new after it, in one line."""

    @property
    def told(self) -> str:
        """What was told last."""

    @property
    def folder(self) -> Path:
        """Where the job file lies; paths of pictures count from there."""

    def show_page(self, key: str) -> None:
        """Open the page of a row."""

    def show_window(self, window: Screen[None]) -> None:
        """Open a window that gives no answer."""

    def read(self, title: str, text: str, keys: Keys = (), then: Pressed = leave) -> None:
        """Open a page to read; with `keys`, each with what it does, `then` gets the one pressed, or None."""

    def go_to(self, tag: str) -> None:
        """Show a record in its own view."""

    def open_list(self, title: str, key: str = "", *, words: str = "", subset: str = "") -> None:
        """Show a list by its title: a part of it, filtered by words, with a row under the cursor; Esc leads back."""

    def gate(self) -> None:
        """Show the gate."""

    def who(self) -> str:
        """Who is at the keyboard."""

    def take_photos(self) -> None:
        """Ask for a folder from a phone, and go through its photos."""

    def print(self, name: str = "") -> None:
        """Print a sheet: the one of that name, or one that is asked for."""
