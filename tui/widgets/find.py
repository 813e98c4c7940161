"""Find: one field over everything, answering while one types; gives back the tag that was chosen."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from textual import on
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from store.rules.find.search import Hit
from tui.shared.text import content, fit
from tui.widgets.choices import Choices
from tui.widgets.dialogs import DIALOG_CSS, ListWindow
from tui.widgets.hints import HintLine
from tui.widgets.typed import TypedLine

SHOWN = 30
"""Answers listed; whoever does not see the right one types another word."""
TAG_CELLS, TITLE_CELLS, LINE_CELLS = 7, 38, 19
EMPTY = "a tag, a name, words on a label; retired things too"


class FindDialog(ListWindow):
    """Words in, the likeliest first; Enter gives the tag, Escape gives None."""

    CSS = (
        DIALOG_CSS.replace("$self", "FindDialog")
        + """
    FindDialog > .dialog > OptionList { max-height: 9; }
    FindDialog > .dialog > .about { max-height: 33vh; }
    """
    )

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
            yield Choices(markup=False)
            yield Static(content(""), classes="about")
            yield HintLine([("enter", "go"), ("up", "up"), ("down", "down"), ("escape", "cancel")])

    def on_mount(self) -> None:
        """File the words before the first one is typed, so that it is answered at once."""
        self.call_after_refresh(self._fill, self._start)

    @on(Input.Changed)
    def typed(self, event: Input.Changed) -> None:
        """Answer what is typed so far."""
        self._fill(event.value)

    def _fill(self, words: str) -> None:
        self._hits = list(self._answers(words))[:SHOWN]
        self.shown = tuple(hit.tag for hit in self._hits)
        options = self.query_one(OptionList)
        options.clear_options()
        options.add_options([Option(content(_line(hit))) for hit in self._hits])
        if self._hits:
            options.highlighted = 0
        else:
            self._tell("No matches." if words.strip() else "")

    @on(OptionList.OptionHighlighted)
    def told(self, event: OptionList.OptionHighlighted) -> None:
        """Tell how to get at the one that would be taken."""
        if event.option_index < len(self._hits):
            hit = self._hits[event.option_index]
            self._tell(self._way(hit.tag) if self._way else hit.line)

    def _tell(self, text: str) -> None:
        self.query_one(".about", Static).update(content(text))


def _line(hit: Hit) -> str:
    gone = "retired: " if hit.retired else ""
    return f"{fit(hit.tag, TAG_CELLS)} {fit(gone + hit.title, TITLE_CELLS)} {fit(hit.line, LINE_CELLS)}"
