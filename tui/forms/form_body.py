"""The lines of a form: every field with what stands in it, and the one that is being typed in."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from textual import events
from textual.app import ComposeResult
from textual.geometry import Offset
from textual.message import Message
from textual.strip import Strip
from textual.widget import Widget

from store.records.field import Field
from tui.forms.form_line import FormLine
from tui.shared.text import Part, fit, strip

LABEL = 20
"""Cells for the name of a field."""


class FormBody(Widget):
    """The lines of the form; one of them is the FormLine, laid over its place."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {"form-body--group", "form-body--label", "form-body--wrong"}
    DEFAULT_CSS = """
    FormBody {
        height: 1fr;
        & > FormLine { position: absolute; width: 40; height: 1; background: $primary-muted; }
        & .form-body--group { color: $text-accent; text-style: bold; }
        & .form-body--label { color: $text-muted; }
        & .form-body--wrong { color: $text-error; text-style: bold; }
    }
    """

    class Clicked(Message):
        """A field was clicked."""

        def __init__(self, number: int) -> None:
            super().__init__()
            self.number = number

    def __init__(self, fields: Sequence[Field]) -> None:
        super().__init__()
        self._fields = fields
        self.texts: dict[str, str] = {}
        self.wrong: dict[str, str] = {}
        self.at = 0
        self._top = 0
        self._lines: list[int | str] = []
        for number, field in enumerate(fields):
            if field.says.group:
                self._lines.append(field.says.group)
            self._lines.append(number)

    def compose(self) -> ComposeResult:
        """The line that is typed in."""
        yield FormLine(compact=True, select_on_focus=False)

    def place(self) -> None:
        """Lay the typing line over its field, scrolling as far as needed."""
        row = self._lines.index(self.at)
        height = max(1, self.size.height)
        # A heading stays in sight together with its first field.
        above = row - 1 if row and isinstance(self._lines[row - 1], str) else row
        if above < self._top:
            self._top = above
        elif row >= self._top + height:
            self._top = row - height + 1
        self._top = max(0, min(self._top, len(self._lines) - height))
        line = self.query_one(FormLine)
        line.styles.offset = Offset(LABEL + 2, row - self._top)
        line.styles.width = max(10, self.size.width - LABEL - 3)
        self.refresh()

    def on_resize(self) -> None:
        """Keep the typing line in place."""
        self.place()

    def render_line(self, y: int) -> Strip:
        """One field, or a heading."""
        base, width = self.rich_style, self.size.width
        row = y + self._top
        if row >= len(self._lines):
            return Strip.blank(width, base)
        what = self._lines[row]
        if isinstance(what, str):
            return strip([(fit(what, width), self.get_component_rich_style("form-body--group"))], width, base)
        field = self._fields[what]
        wrong = field.key in self.wrong
        sign = "!" if wrong else "*" if field.required else " "
        name = "wrong" if wrong else "label"
        parts: list[Part] = [
            (f"{sign}{fit(field.says.title, LABEL)} ", self.get_component_rich_style(f"form-body--{name}"))
        ]
        shown = first_line(self.texts.get(field.key, ""))
        parts.append((fit(shown, max(0, width - LABEL - 2)), base))
        return strip(parts, width, base)

    def on_click(self, event: events.Click) -> None:
        """Go to the field that was clicked."""
        row = event.y + self._top
        if row < len(self._lines) and isinstance(number := self._lines[row], int):
            self.post_message(self.Clicked(number))

    def on_mouse_scroll_down(self) -> None:
        """The wheel goes on to the next field."""
        self.post_message(self.Clicked(min(self.at + 1, len(self._fields) - 1)))

    def on_mouse_scroll_up(self) -> None:
        """The wheel goes back."""
        self.post_message(self.Clicked(max(self.at - 1, 0)))


def first_line(text: str) -> str:
    """The first line of a note, and how many there are."""
    lines = text.split("\n")
    return lines[0] + (f" … ({len(lines)} lines)" if len(lines) > 1 else "")
