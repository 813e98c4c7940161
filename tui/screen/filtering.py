"""The line that narrows a list by words: empty and out of sight until it is asked for; the first paint has none."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tui.widgets.typed import TypedLine


class Filtering:
    """The words that rows must have."""

    def __init__(self) -> None:
        self.line: TypedLine | None = None

    @property
    def text(self) -> str:
        """What stands in the line."""
        return self.line.value if self.line is not None else ""

    @property
    def words(self) -> list[str]:
        """The words that rows must have."""
        return self.text.lower().split()

    def type_in(self) -> None:
        """Let the person type words."""
        if self.line is not None:
            self.line.add_class("on")
            self.line.focus()

    def put(self, words: str) -> None:
        """Put words in the line, in sight where there are any."""
        if self.line is not None:
            self.line.value = words
            self.line.set_class(bool(words), "on")
