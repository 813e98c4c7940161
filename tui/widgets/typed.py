"""What is typed or pasted into, made safe as it comes in: a paste can carry what steers a terminal."""

from __future__ import annotations

from textual import events
from textual.widgets import Input, TextArea
from textual.widgets.text_area import EditResult, Location

from store.measure.text import clean


class TypedLine(Input):
    """One line of typed text. A paste of several lines is kept whole, as one line."""

    def validate_value(self, value: str) -> str:
        """However it came: typed, pasted, or put there from the file."""
        return clean(value)

    def on_paste(self, event: events.Paste) -> None:
        """Take all of it: the lines after the first are not lost."""
        event.prevent_default()
        event.stop()
        self.replace(clean(event.text.strip("\r\n")), *self.selection)


class TypedNote(TextArea):
    """Several lines of typed text."""

    def __init__(self, text: str) -> None:
        super().__init__(clean(text, lines=True), soft_wrap=True, tab_behavior="focus")

    def on_mount(self) -> None:
        """A note is gone on with where it ended."""
        self.move_cursor(self.document.end)

    def replace(
        self, insert: str, start: Location, end: Location, *, maintain_selection_offset: bool = True
    ) -> EditResult:
        """Every way in leads here."""
        return super().replace(
            clean(insert, lines=True), start, end, maintain_selection_offset=maintain_selection_offset
        )
