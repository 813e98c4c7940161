"""What every window over the job has in common: it closes once, and a click outside closes it too."""

from __future__ import annotations

from typing import TypeVar

from textual import events
from textual.await_complete import AwaitComplete
from textual.screen import ModalScreen

Answer = TypeVar("Answer")


class Window(ModalScreen[Answer]):
    """A window that gives an answer."""

    def dismiss(self, result: Answer | None = None) -> AwaitComplete:
        """Close with an answer. Textual closes whatever is on top: a second key, pressed before this window was gone,
        would close the one under it, or answer twice."""
        return super().dismiss(result) if self.is_active else AwaitComplete()

    def on_click(self, event: events.Click) -> None:
        """A click outside of the window is its Escape: it asks where something typed would be lost."""
        if event.widget is self:
            event.stop()
            self.app.simulate_key("escape")
