"""What every window over the job has in common: it closes once, and a click outside closes it too."""

from __future__ import annotations

from typing import Any, TypeVar

from textual import events
from textual.await_complete import AwaitComplete
from textual.screen import ModalScreen, Screen

Answer = TypeVar("Answer")


class Window(ModalScreen[Answer]):
    """A window that gives an answer."""

    def dismiss(self, result: Answer | None = None) -> AwaitComplete:
        """Close with an answer. Textual closes whatever is on top: a second key, pressed before this window was gone,
        would close the one under it, or answer twice."""
        return super().dismiss(result) if self.is_active else AwaitComplete()

    def on_click(self, event: events.Click) -> None:
        """A click outside of the window is its Escape: it asks where something typed would be lost."""
        inside = any(each.region.contains(round(event.screen_x), round(event.screen_y)) for each in self.children)
        if not inside:
            event.stop()
            press_key(self, "escape")


def press_key(screen: Screen[Any], key: str) -> None:
    """Press a key on behalf of a screen. It is sent by what has the keys: what a screen sends itself stops on its way
    up when it comes by that screen again, before anybody asks what the key is bound to."""
    (screen.focused or screen).call_later(screen.app.simulate_key, key)
