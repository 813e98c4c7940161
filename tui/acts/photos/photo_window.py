"""Photos of a thing in the terminal itself, one after the other, without a viewer of the desktop."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.widgets import Static

from store.book.pictures import look
from store.rules.access.steps import photo_text
from tui.acts.photos.pictures import photos_of
from tui.shared.text import content
from tui.view.state import State
from tui.widgets.half_blocks import HalfBlocks
from tui.widgets.hints import HintLine
from tui.widgets.window import Window

Shown = tuple[str, Path]
"""What a picture is, and its file."""


def pictures_of(state: State, key: str) -> list[Shown]:
    """The pictures of a thing or of a rough-in item that are there: its photos, and those that it was signed off on."""
    folder = state.folder
    if folder is None:
        return []
    item = state.item(key)
    named = [(photo_text(each), each.file) for each in photos_of(state.job, key)]
    if item is not None and item.closing is not None:
        named += [(f"proof of {key}: {file}", file) for file in item.closing.pictures]
    found: dict[Path, str] = {}
    for words, file in named:
        seen = look(file, folder)
        if not seen.why:
            found.setdefault(Path(seen.path), words)
    return [(words, path) for path, words in found.items()]


class PhotoWindow(Window[None]):
    """One picture, as large as the terminal."""

    CSS = """
    PhotoWindow {
        & > Vertical { width: 100%; height: 100%; background: $surface; }
        #words { height: 1; text-style: bold; padding: 0 1; }
        #keys { padding: 0 1; }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("right,down", "step(1)", "Next"),
        Binding("left,up", "step(-1)", "One before"),
        Binding("escape,enter", "leave", "Back to the page"),
    ]

    def __init__(self, pictures: Sequence[Shown]) -> None:
        super().__init__()
        self._pictures = pictures
        self.at = 0

    def compose(self) -> ComposeResult:
        """What it is, the picture, the keys."""
        with Vertical():
            yield Static(id="words")
            yield HalfBlocks(self._pictures[0][1], id="photo")
            many = [("right", "next"), ("left", "before")] if len(self._pictures) > 1 else []
            yield HintLine([*many, ("escape", "back")], id="keys")

    def on_mount(self) -> None:
        """The first picture."""
        self.query_one(HalfBlocks).focus()
        self._say()

    def _say(self) -> None:
        words = f"{self.at + 1} of {len(self._pictures)}: {self._pictures[self.at][0]}"
        self.query_one("#words", Static).update(content(words))

    def action_step(self, by: int) -> None:
        """Another picture."""
        self.at = (self.at + by) % len(self._pictures)
        self.query_one(HalfBlocks).show(self._pictures[self.at][1])
        self._say()

    def action_leave(self) -> None:
        """Back."""
        self.dismiss(None)
