"""Find: one field over everything, answering while one types; gives back the tag that was chosen."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from store.rules.finder import Hit
from tui.text import content, fit
from tui.widgets.dialogs import DIALOG_CSS
from tui.widgets.typed import TypedLine

SHOWN = 30
"""Answers listed; whoever does not see the right one types another word."""
TAG_CELLS, TITLE_CELLS, LINE_CELLS = 7, 38, 24
EMPTY = "a tag, a name, words on a label: what was retired is found too"


class FindDialog(ModalScreen[str | None]):
    """Words in, the likeliest first; Enter gives the tag, Escape gives None."""

    CSS = DIALOG_CSS.replace("$self", "FindDialog")
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "cancel", "Cancel"),
        Binding("down", "move(1)", "Down", show=False),
        Binding("up", "move(-1)", "Up", show=False),
    ]

    def __init__(
        self,
        answers: Callable[[str], Sequence[Hit]],
        way: Callable[[str], str] | None = None,
        *,
        start: str = "",
    ) -> None:
        """`answers` gives the hits of a line of words; `way` a line about the one under the cursor."""
        super().__init__()
        self._answers, self._way, self._start = answers, way, start
        self._hits: list[Hit] = []

    def compose(self) -> ComposeResult:
        """The field, the answers, and a line about the one that would be taken."""
        with Vertical(classes="dialog"):
            yield Static(content("Find anything"), classes="question")
            yield TypedLine(self._start, placeholder=EMPTY, compact=True)
            yield OptionList(markup=False)
            yield Static(content(""), classes="about")
            yield Static(content("Enter: go there   Up, Down: choose   Escape: leave it"), classes="keys")

    def on_mount(self) -> None:
        """File the words before the first one is typed, so that it is answered at once."""
        self.call_after_refresh(self._fill, self._start)

    @property
    def hits(self) -> tuple[str, ...]:
        """Tags of the answers, the likeliest first."""
        return tuple(hit.tag for hit in self._hits)

    @on(Input.Changed)
    def typed(self, event: Input.Changed) -> None:
        """Answer what is typed so far."""
        self._fill(event.value)

    def _fill(self, words: str) -> None:
        self._hits = list(self._answers(words))[:SHOWN]
        options = self.query_one(OptionList)
        options.clear_options()
        options.add_options([Option(content(_line(hit))) for hit in self._hits])
        if self._hits:
            options.highlighted = 0
        else:
            self._tell("Nothing has these words." if words.strip() else "")

    @on(OptionList.OptionHighlighted)
    def told(self, event: OptionList.OptionHighlighted) -> None:
        """Tell how to get at the one that would be taken."""
        if event.option_index < len(self._hits):
            hit = self._hits[event.option_index]
            self._tell(self._way(hit.tag) if self._way else hit.line)

    def _tell(self, text: str) -> None:
        self.query_one(".about", Static).update(content(text))

    def action_move(self, by: int) -> None:
        """Move in the list while the field keeps the focus."""
        options = self.query_one(OptionList)
        (options.action_cursor_down if by > 0 else options.action_cursor_up)()

    @on(Input.Submitted)
    def take(self) -> None:
        """Take what is highlighted."""
        at = self.query_one(OptionList).highlighted
        if at is not None and at < len(self._hits):
            self.dismiss(self._hits[at].tag)

    @on(OptionList.OptionSelected)
    def take_clicked(self, event: OptionList.OptionSelected) -> None:
        """Take what was clicked."""
        self.dismiss(self._hits[event.option_index].tag)

    def action_cancel(self) -> None:
        """Leave it."""
        self.dismiss(None)


def _line(hit: Hit) -> str:
    gone = "retired: " if hit.retired else ""
    return f"{fit(hit.tag, TAG_CELLS)} {fit(gone + hit.title, TITLE_CELLS)} {fit(hit.line, LINE_CELLS)}"
