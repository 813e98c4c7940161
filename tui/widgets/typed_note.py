"""Several lines that are typed or pasted into, made safe as they come in; apart, because few windows need it."""

from __future__ import annotations

from textual import events
from textual.widgets import TextArea
from textual.widgets.text_area import EditResult, Location

from store.measure.text import clean
from tui.widgets.typed import do_now, too_long


class TypedNote(TextArea):
    """Several lines of typed text."""

    def __init__(self, text: str) -> None:
        super().__init__(clean(text, lines=True), soft_wrap=True, tab_behavior="focus")

    async def on_key(self, event: events.Key) -> None:
        """Do what a key is bound to here and now."""
        await do_now(self, event)

    def on_paste(self, event: events.Paste) -> None:
        """A paste that no note would take is not taken; Textual itself takes the others."""
        if too_long(self, event.text):
            event.prevent_default()
            event.stop()

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
