"""The lines of a form: every field with what stands in it, and the one that is being typed in."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
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
        & > FormLine { position: absolute; width: 40; height: 1; }
        & .form-body--group { text-style: bold; }
        & .form-body--label { color: $muted; }
        & .form-body--wrong { color: $fix; text-style: bold; }
    }
    """

    class Clicked(Message):
        """A field was clicked."""

        def __init__(self, number: int) -> None:
            super().__init__()
            self.number = number

    class MoreClicked(Message):
        """The line that tells of more fields was clicked."""

    def __init__(self, fields: Sequence[Field], title: Callable[[Field], str] = lambda field: field.says.title) -> None:
        super().__init__()
        self._fields = fields
        self._title = title
        self.texts: dict[str, str] = {}
        self.wrong: dict[str, str] = {}
        self.wanted: frozenset[str] = frozenset()
        """Keys of the fields that are marked as needed."""
        self.at = 0
        self._top = 0
        self.seen: list[int] = []
        """Numbers of the fields that are shown, in order."""
        self._lines: list[int | str] = []
        self._foot = ""
        self.show_only(range(len(fields)))

    def show_only(self, numbers: Iterable[int], foot: str = "") -> None:
        """Show these fields, each group under its heading, and a line below that tells of the others."""
        self.seen, self._foot = sorted(numbers), foot
        self._lines, heading, told = [], "", ""
        shown = set(self.seen)
        for number, field in enumerate(self._fields):
            heading = field.says.group or heading
            if number in shown:
                if heading != told:
                    self._lines.append(heading)
                    told = heading
                self._lines.append(number)
        if foot:
            self._lines.append(foot)

    @property
    def lines(self) -> int:
        """How many there are to show."""
        return len(self._lines)

    def beside(self, by: int) -> int:
        """The number of the field so many shown fields on from where the line is."""
        place = self.seen.index(self.at) + by
        return self.seen[max(0, min(place, len(self.seen) - 1))]

    def compose(self) -> ComposeResult:
        """The line that is typed in."""
        yield FormLine(compact=True, select_on_focus=False)

    def place(self) -> None:
        """Lay the typing line over its field, scrolling as far as needed."""
        row = self._lines.index(self.at)
        last = self._foot and self.at == self.seen[-1]
        height = max(1, self.size.height)
        # A heading stays in sight together with its first field.
        above = row - 1 if row and isinstance(self._lines[row - 1], str) else row
        if above < self._top:
            self._top = above
        elif row + bool(last) >= self._top + height:
            self._top = row + bool(last) - height + 1
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
            name = "label" if what == self._foot else "group"
            return strip([(fit(what, width), self.get_component_rich_style(f"form-body--{name}"))], width, base)
        field = self._fields[what]
        wrong = field.key in self.wrong
        sign = "!" if wrong else "*" if field.required else "•" if field.key in self.wanted else " "
        name = "wrong" if wrong else "label"
        parts: list[Part] = [
            (f"{sign}{fit(self._title(field), LABEL)} ", self.get_component_rich_style(f"form-body--{name}"))
        ]
        shown = first_line(self.texts.get(field.key, ""))
        parts.append((fit(shown, max(0, width - LABEL - 2), typed=True), base))
        return strip(parts, width, base)

    def on_click(self, event: events.Click) -> None:
        """Go to the field that was clicked."""
        row = event.y + self._top
        if row >= len(self._lines):
            return
        if isinstance(number := self._lines[row], int):
            self.post_message(self.Clicked(number))
        elif number == self._foot:
            self.post_message(self.MoreClicked())

    def on_mouse_scroll_down(self) -> None:
        """The wheel goes on to the next field."""
        self.post_message(self.Clicked(self.beside(1)))

    def on_mouse_scroll_up(self) -> None:
        """The wheel goes back."""
        self.post_message(self.Clicked(self.beside(-1)))


def first_line(text: str) -> str:
    """The first line of a note, and how many there are."""
    lines = text.split("\n")
    return lines[0] + (f" … ({len(lines)} lines)" if len(lines) > 1 else "")
