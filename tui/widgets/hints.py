"""The keys at the foot of a window, each with what it does; each is a button too."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from rich.cells import cell_len
from textual import events
from textual.geometry import Size
from textual.strip import Strip

from tui.shared.text import Part, one_line, strip
from tui.widgets.ground import Grounded
from tui.widgets.lines import KEY_NAMES

Hint = tuple[str, str]
"""A key by Textual's name, and what it does; no key where it only tells something."""
BETWEEN = 2
"""Empty cells between two hints."""


class HintLine(Grounded):
    """`Enter = save  Esc = cancel`, on as many lines as that takes; a click on one is its key."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {"hint-line--hover"}
    DEFAULT_CSS = """
    HintLine {
        width: 100%;
        height: auto;
        color: $muted;
        & .hint-line--hover { text-style: underline; }
    }
    """

    def __init__(self, hints: Sequence[Hint], *, classes: str = "keys", id: str | None = None) -> None:  # noqa: A002
        super().__init__(id=id, classes=classes)
        self._hints = list(hints)
        self._under: Hint | None = None
        """The hint under the mouse."""

    def show(self, hints: Sequence[Hint]) -> None:
        """Show others."""
        if list(hints) != self._hints:
            self._hints, self._under = list(hints), None
            self.refresh(layout=True)

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        """As many lines as the hints take."""
        return max(1, len(self._lines(width)))

    def _lines(self, width: int) -> list[list[tuple[int, str, Hint]]]:
        """Where each hint begins, its text, and itself; line by line."""
        lines: list[list[tuple[int, str, Hint]]] = []
        at = width
        for hint in self._hints:
            text = said(hint)
            if at + cell_len(text) > width or not lines:
                lines.append([])
                at = 0
            lines[-1].append((at, text, hint))
            at += cell_len(text) + BETWEEN
        return lines

    def render_line(self, y: int) -> Strip:
        """One line of hints."""
        base, lines = self.ground, self._lines(self.size.width)
        if y >= len(lines):
            return Strip.blank(self.size.width, base)
        hover, parts, at = self.get_component_rich_style("hint-line--hover"), list[Part](), 0
        for start, text, hint in lines[y]:
            parts += [(" " * (start - at), base), (text, hover if hint == self._under else base)]
            at = start + cell_len(text)
        return strip(parts, self.size.width, base)

    def _at(self, x: int, y: int) -> Hint | None:
        lines = self._lines(self.size.width)
        there = lines[y] if 0 <= y < len(lines) else []
        return next((hint for start, text, hint in there if start <= x < start + cell_len(text) and hint[0]), None)

    def on_click(self, event: events.Click) -> None:
        """The key of the hint under the mouse."""
        if (hint := self._at(event.x, event.y)) is not None:
            event.stop()
            self.app.simulate_key(hint[0])

    def on_mouse_move(self, event: events.MouseMove) -> None:
        """What a click would do stands out."""
        self._hover(self._at(event.x, event.y))

    def on_leave(self) -> None:
        """Nothing stands out any more."""
        self._hover(None)

    def _hover(self, hint: Hint | None) -> None:
        if hint != self._under:
            self._under = hint
            self.refresh()


def said(hint: Hint) -> str:
    """`Enter = save`, in the words of the region."""
    key, label = hint
    return one_line(f"{KEY_NAMES.get(key, key)} = {label}" if key else label)
