"""Text beside a table: wrapped when it changes, drawn line by line as it is looked at."""

from __future__ import annotations

from textual.geometry import Size
from textual.scroll_view import ScrollView
from textual.strip import Strip

from tui.shared.text import fit, strip, wrap
from tui.widgets.ground import Grounded

MARGIN = 1
"""Empty cells at the left and at the right."""


class SidePage(ScrollView, Grounded, can_focus=False):
    """A page of text to read. A widget whose height follows its text would have the whole screen laid out anew
    whenever the text changes, with every row that the cursor passes."""

    DEFAULT_CSS = "SidePage { width: 46; background: $panel; scrollbar-size-vertical: 1; overflow-x: hidden; }"

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002 - Textual's own name
        super().__init__(id=id)
        self._text = ""
        self._lines: list[str] = []
        self._wrapped: tuple[str, int] = ("", 0)

    def show(self, text: str) -> None:
        """Show a text, from its top; one that is shown already stays as it was scrolled."""
        if text == self._text:
            return
        self._text = text
        self._wrap()
        self.scroll_to(y=0, animate=False, immediate=True)
        self.refresh()

    @property
    def text(self) -> str:
        """What is shown, whole."""
        return self._text

    def _wrap(self) -> None:
        width = max(1, self.scrollable_content_region.width - 2 * MARGIN)
        if (self._text, width) == self._wrapped:
            return
        self._wrapped = (self._text, width)
        self._lines = wrap(self._text, width) if self._text else []
        self.virtual_size = Size(width, len(self._lines))

    def on_resize(self) -> None:
        """Another width wraps otherwise."""
        self._wrap()

    def render_line(self, y: int) -> Strip:
        """One line of the text."""
        self._wrap()
        width, base = self.scrollable_content_region.width, self.ground
        at = y + round(self.scroll_offset.y)
        if at >= len(self._lines):
            return Strip.blank(width, base)
        return strip([(" " * MARGIN + fit(self._lines[at], width - MARGIN), base)], width, base)
