"""A list to choose from, in windows."""

from __future__ import annotations

from textual import events
from textual.widgets import OptionList


class Choices(OptionList):
    """The wheel moves what Enter would take, and not only what is seen."""

    def on_mouse_scroll_down(self, event: events.MouseScrollDown) -> None:
        """On to the next."""
        _only(event)
        if self.highlighted is None or self.highlighted < self.option_count - 1:
            self.action_cursor_down()

    def on_mouse_scroll_up(self, event: events.MouseScrollUp) -> None:
        """Back to the one before."""
        _only(event)
        if self.highlighted:
            self.action_cursor_up()


def _only(event: events.MouseEvent) -> None:
    """Nothing else is done with it."""
    event.stop()
    event.prevent_default()
