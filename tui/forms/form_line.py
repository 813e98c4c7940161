"""The line of a form that is being typed in."""

from __future__ import annotations

from typing import ClassVar, Protocol

from textual import events
from textual.binding import Binding, BindingType

from tui.widgets.typed import TypedLine, do_now, too_long


class FormOwner(Protocol):
    """The form that a line is of. It is called, and not sent messages: what is typed next must find it done."""

    def leave_line(self, by: int, *, done: bool = False) -> None:
        """The person goes on to another field; `done` with Enter, which on the last field means: save."""

    def pick(self, typed: str = "") -> None:
        """The person wants to see the choices, or the window of a note, with what was typed already."""

    def next_choice(self, letter: str) -> None:
        """The person types to choose: one more letter, or nothing where the last is taken back."""

    def action_save(self) -> None:
        """The person wants it saved."""


class FormLine(TypedLine):
    """The line that is being typed in; up, down and Enter lead to another field."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up,shift+tab", "leave(-1)", "Up", show=False),
        Binding("down,tab", "leave(1)", "Down", show=False),
        Binding("enter", "enter", "Next", show=False),
        Binding("pageup", "leave(-8)", "Up", show=False),
        Binding("pagedown", "leave(8)", "Down", show=False),
        Binding("f2", "pick", "Choices", show=False),
        Binding("ctrl+s", "save", "Save", show=False),
    ]

    cycles = False
    """True on a field of choices: space takes the next one, letters narrow them."""
    opens = False
    """True on a field that a window of its own edits: whatever is typed opens it."""

    owner: FormOwner

    def action_leave(self, by: int) -> None:
        """Go on."""
        self.owner.leave_line(by)

    def action_enter(self) -> None:
        """Go on, or open the window of a note."""
        if self.opens:
            self.owner.pick()
        else:
            self.owner.leave_line(1, done=True)

    def action_pick(self) -> None:
        """Show the choices."""
        self.owner.pick()

    def action_save(self) -> None:
        """Save the whole form."""
        self.owner.action_save()

    async def on_key(self, event: events.Key) -> None:
        """On a field of choices a letter chooses; what a key is bound to is done here and now."""
        if self.cycles and event.is_printable and event.character:
            event.stop()
            event.prevent_default()
            self.owner.next_choice(event.character)
        elif self.cycles and event.key == "backspace":
            event.stop()
            event.prevent_default()
            self.owner.next_choice("")
        else:
            await do_now(self, event)

    def on_paste(self, event: events.Paste) -> None:
        """A note takes a paste with its lines."""
        if self.opens:
            event.prevent_default()
            event.stop()
            if not too_long(self, event.text):
                self.owner.pick(event.text)

    def replace(self, text: str, start: int, end: int) -> None:
        """Every way of typing leads here; a note shows its first line only, so it is not changed in place."""
        if self.opens:
            self.owner.pick(text)
        else:
            super().replace(text, start, end)
