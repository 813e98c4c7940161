"""The line of a form that is being typed in."""

from __future__ import annotations

from typing import ClassVar

from textual import events
from textual.binding import Binding, BindingType
from textual.message import Message

from tui.widgets.typed import TypedLine


class FormLine(TypedLine):
    """The line that is being typed in; up, down and Enter lead to another field."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up,shift+tab", "leave(-1)", "Up", show=False),
        Binding("down,tab", "leave(1)", "Down", show=False),
        Binding("enter", "enter", "Next", show=False),
        Binding("pageup", "leave(-8)", "Up", show=False),
        Binding("pagedown", "leave(8)", "Down", show=False),
        Binding("f2", "pick", "Choices", show=False),
    ]

    class Left(Message):
        """The person goes on to another field."""

        def __init__(self, by: int, done: bool = False) -> None:
            super().__init__()
            self.by = by
            self.done = done
            """True with Enter, which on the last field means: save."""

    class PickAsked(Message):
        """The person wants to see the choices, or the window of a note, with what was typed already."""

        def __init__(self, typed: str = "") -> None:
            super().__init__()
            self.typed = typed

    class Cycled(Message):
        """The person wants the next choice, or the next that begins with a letter."""

        def __init__(self, letter: str = "") -> None:
            super().__init__()
            self.letter = letter

    cycles = False
    """True on a field of choices: space takes the next one, a letter the next that begins with it."""
    opens = False
    """True on a field that a window of its own edits: whatever is typed opens it."""

    def action_leave(self, by: int) -> None:
        """Go on."""
        self.post_message(self.Left(by))

    def action_enter(self) -> None:
        """Go on, or open the window of a note."""
        self.post_message(self.PickAsked() if self.opens else self.Left(1, done=True))

    def action_pick(self) -> None:
        """Show the choices."""
        self.post_message(self.PickAsked())

    def on_key(self, event: events.Key) -> None:
        """On a field of choices a letter chooses."""
        if self.cycles and event.is_printable and event.character:
            event.stop()
            event.prevent_default()
            self.post_message(self.Cycled("" if event.key == "space" else event.character))

    def on_paste(self, event: events.Paste) -> None:
        """A note takes a paste with its lines."""
        if self.opens:
            event.prevent_default()
            event.stop()
            self.post_message(self.PickAsked(event.text))

    def replace(self, text: str, start: int, end: int) -> None:
        """Every way of typing leads here; a note shows its first line only, so it is not changed in place."""
        if self.opens:
            self.post_message(self.PickAsked(text))
        else:
            super().replace(text, start, end)
