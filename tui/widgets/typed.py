"""What is typed or pasted into, made safe as it comes in: a paste can carry what steers a terminal."""

from __future__ import annotations

from textual import events
from textual.widgets import Input

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
