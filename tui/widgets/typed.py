"""What is typed or pasted into, made safe as it comes in: a paste can carry what steers a terminal."""

from __future__ import annotations

from textual import events
from textual.widget import Widget
from textual.widgets import Input

from store.measure.text import LONGEST, clean


async def do_now(widget: Widget, event: events.Key) -> None:
    """Do at once what a key is bound to in the widget that is typed in.

    Textual does it only when the key has gone up to the app. Where several come together, as from a terminal that was
    slow for a moment, the letters after it would be typed before it was done.
    """
    bound = None if event.is_printable else widget.app.screen.active_bindings.get(event.key)
    if bound is not None and bound.node is widget and bound.enabled:
        event.stop()
        event.prevent_default()
        await widget.app.run_action(bound.binding.action, bound.node)


def too_long(widget: Widget, text: str) -> bool:
    """Refuse a paste that no field would take: to draw it, letter on letter, could take all the time there is."""
    if len(text) <= LONGEST:
        return False
    widget.notify(f"Too long to paste: {len(text):,} characters, {LONGEST:,} at most", severity="error", markup=False)
    return True


class TypedLine(Input):
    """One line of typed text. A paste of several lines is kept whole, as one line."""

    DEFAULT_CSS = """
    TypedLine {
        background: $raised;
        &:focus { background: $focus; color: $on-focus; background-tint: transparent; }
        &:focus > .input--placeholder { color: $on-focus; text-style: italic; }
        &:focus > .input--cursor { background: $on-focus; color: $focus; }
    }
    """

    def validate_value(self, value: str) -> str:
        """However it came: typed, pasted, or put there from the file."""
        return clean(value)

    def on_paste(self, event: events.Paste) -> None:
        """Take all of it: the lines after the first are not lost."""
        event.prevent_default()
        event.stop()
        if too_long(self, event.text):
            return
        self.replace(clean(event.text.strip("\r\n")), *self.selection)
