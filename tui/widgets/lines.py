"""One-line widgets: the names of the views, the keys that work here, and what was said last."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from rich.cells import cell_len
from textual import events
from textual.message import Message
from textual.strip import Strip
from textual.widget import Widget

from tui.text import Part, fit, strip

KEY_NAMES = {"space": "Space", "backspace": "Bksp", "slash": "/", "question_mark": "?"}
"""How keys are written on the screen, where Textual's name is not what stands on the key."""


class ChoiceLine(Widget):
    """Labels in a row, each with its key; a click is the key."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {"choice-line--key", "choice-line--label", "choice-line--on"}
    DEFAULT_CSS = """
    ChoiceLine {
        height: 1;
        background: $panel;
        & .choice-line--key { color: $text-accent; text-style: bold; }
        & .choice-line--label { color: $foreground; }
        & .choice-line--on { background: $primary; color: $text; text-style: bold; }
    }
    """

    class Pressed(Message):
        """A label was clicked."""

        def __init__(self, key: str) -> None:
            super().__init__()
            self.key = key

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002 - Textual's own name
        super().__init__(id=id)
        self._choices: Sequence[tuple[str, str]] = ()
        self._on = ""
        self._spots: list[tuple[int, int, str]] = []

    def show(self, choices: Sequence[tuple[str, str]], on: str = "") -> None:
        """Show pairs of key and label; `on` is the key of the one that is on."""
        self._choices, self._on = choices, on
        self.refresh()

    def render_line(self, y: int) -> Strip:
        """The labels; on a narrow screen only the one that is on keeps its word when they do not fit."""
        base, width = self.rich_style, self.size.width
        key_style = self.get_component_rich_style("choice-line--key")
        label_style = self.get_component_rich_style("choice-line--label")
        on_style = self.get_component_rich_style("choice-line--on")
        parts: list[Part] = []
        self._spots = []
        at = 0
        for key, label in self._choices:
            on = key == self._on
            sign = "▸" if on else " "
            name = {"space": "Space", "backspace": "Bksp", "enter": "Enter", "slash": "/", "question_mark": "?"}.get(
                key, key
            )
            size = cell_len(f"{sign}{name} {label} ")
            if at + size > width:
                break
            parts += [(f"{sign}{name} ", on_style if on else key_style), (f"{label} ", on_style if on else label_style)]
            self._spots.append((at, at + size, key))
            at += size
        return strip(parts, width, base)

    def on_click(self, event: events.Click) -> None:
        """The key of the label under the mouse."""
        for start, end, key in self._spots:
            if start <= event.x < end:
                self.post_message(self.Pressed(key))


class SayLine(Widget):
    """Totals of the view, or what was said last until the next key."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {"say-line--said", "say-line--bad"}
    DEFAULT_CSS = """
    SayLine {
        height: 1;
        color: $text-muted;
        & .say-line--said { color: $text; text-style: bold; }
        & .say-line--bad { color: $text-error; text-style: bold; }
    }
    """

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002 - Textual's own name
        super().__init__(id=id)
        self._summary = ""
        self._said = ""
        self._bad = False

    @property
    def words(self) -> str:
        """What the line says."""
        return self._said or self._summary

    def show(self, summary: str) -> None:
        """Show totals."""
        self._summary = summary
        self.refresh()

    def say(self, words: str, *, bad: bool = False) -> None:
        """Say something; an empty text goes back to the totals."""
        self._said, self._bad = words, bad
        self.refresh()

    def render_line(self, y: int) -> Strip:
        """The one line."""
        base, width = self.rich_style, self.size.width
        if not self._said:
            return strip([(fit(" " + self._summary, width), base)], width, base)
        style = self.get_component_rich_style("say-line--bad" if self._bad else "say-line--said")
        return strip([(fit(("! " if self._bad else "  ") + self._said, width), style)], width, base)
