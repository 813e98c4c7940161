"""A picture drawn in the cells of a terminal: two spots a cell, one above the other, in a half block.

It asks the terminal for nothing, so no key is lost; the picture is read in a thread and kept as lines, so that a
repaint costs what text costs.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from rich.color import Color
from rich.segment import Segment
from rich.style import Style
from textual import events, work
from textual.strip import Strip

from store.measure.errors import BadValue
from tui.shared.text import fit, wrap
from tui.widgets.ground import Grounded

if TYPE_CHECKING:
    from PIL.Image import Image

UPPER = "▀"
SPOTS = 2
"""Spots above each other in a cell, which is about twice as high as wide."""


class HalfBlocks(Grounded, can_focus=True):
    """Shows one picture as large as there is room, upright, in the middle; or says why it cannot be shown."""

    DEFAULT_CSS = "HalfBlocks { width: 1fr; height: 1fr; }"

    def __init__(self, path: Path | None = None, *, id: str | None = None) -> None:  # noqa: A002 - Textual's own name
        super().__init__(id=id)
        self._path = path
        self._lines: list[Strip] = []
        self.words = ""
        """What stands in place of the picture; empty while there is one."""

    @property
    def path(self) -> Path | None:
        """The picture that is shown, or read just now."""
        return self._path

    def show(self, path: Path | None) -> None:
        """Show another picture, or none."""
        self._path, self._lines, self.words = path, [], "…" if path else ""
        self.refresh()
        self._begin()

    def on_mount(self) -> None:
        """The picture that it was made with."""
        self._begin()

    def on_resize(self, event: events.Resize) -> None:
        """Drawn anew for the room there is."""
        self._begin()

    def _begin(self) -> None:
        if self._path is not None and self.size.width and self.size.height:
            self._read(self._path, self.size.width, self.size.height)

    @work(thread=True, exclusive=True, group="picture")
    def _read(self, path: Path, width: int, height: int) -> None:
        """Read and shrink the picture beside the screen's own work."""
        from store.book.scaled import scaled

        lines: list[Strip] = []
        words = ""
        try:
            lines = drawn(scaled(path, max(width, SPOTS * height) * 2), width, height)
        except BadValue as error:
            words = str(error)
        self.app.call_from_thread(self._take, path, lines, words)

    def _take(self, path: Path, lines: list[Strip], words: str) -> None:
        if path == self._path:  # another may be asked for by now
            self._lines, self.words = lines, words
            self.refresh()

    def render_line(self, y: int) -> Strip:
        """One line of the picture, or of what is said instead."""
        width, base = self.size.width, self.ground
        if self._lines:
            return self._lines[y] if y < len(self._lines) else Strip.blank(width, base)
        said = wrap(self.words, max(width - 2, 1)) if self.words else []
        at = y - max(0, (self.size.height - len(said)) // 2)
        text = f" {said[at]}" if 0 <= at < len(said) else ""
        return Strip([Segment(fit(text, width), base)], width)


def drawn(picture: Image, width: int, height: int) -> list[Strip]:
    """A picture in so many cells, as large as it goes in and in the middle; what is left over stays plain."""
    wide, high = picture.size
    across = min(width, max(1, round(SPOTS * height * wide / high)))
    down = min(SPOTS * height, max(1, round(across * high / wide)))
    spots = picture.resize((across, down)).tobytes()
    left, top = (width - across) // 2, (SPOTS * height - down) // 2

    def spot(x: int, y: int) -> Color | None:
        if not 0 <= y - top < down:
            return None
        at = 3 * ((y - top) * across + x)
        return Color.from_rgb(spots[at], spots[at + 1], spots[at + 2])

    before, after = Segment(" " * left), Segment(" " * (width - across - left))
    return [
        Strip([before, *(_cell(spot(x, SPOTS * y), spot(x, SPOTS * y + 1)) for x in range(across)), after], width)
        for y in range(height)
    ]


def _cell(upper: Color | None, lower: Color | None) -> Segment:
    """One cell of two spots; at the rim of a picture one of them may be missing."""
    if upper is None:
        return Segment("▄", Style(color=lower)) if lower is not None else Segment(" ")
    return Segment(UPPER, Style(color=upper, bgcolor=lower))
