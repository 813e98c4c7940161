"""One-line widgets: the names of the views, the keys that work here, and what was said last."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from typing import ClassVar

from rich.cells import cell_len
from rich.style import Style
from textual import events
from textual.message import Message
from textual.strip import Strip

from tui.shared.text import Part, fit, one_line, strip, wrap
from tui.widgets.ground import Grounded

KEY_NAMES = {
    "space": "Space",
    "backspace": "Bksp",
    "enter": "Enter",
    "slash": "/",
    "question_mark": "?",
    "left_square_bracket": "[",
    "right_square_bracket": "]",
    "plus": "+",
    "minus": "-",
    "left": "←",
    "right": "→",
    "up": "↑",
    "down": "↓",
    "ctrl+s": "Ctrl+S",
    "ctrl+p": "Ctrl+P",
    "ctrl+f": "Ctrl+F",
    "f1": "F1",
    "f2": "F2",
    "f3": "F3",
    "equals_sign": "=",
    "escape": "Esc",
}
"""How keys are written on the screen, where Textual's name is not what stands on the key."""
NAMED = {written: name for name, written in KEY_NAMES.items()}
HINT = re.compile(r"(?<!\S)(Enter|Esc|Space|Bksp|Ctrl\+[A-Z]|[^\W\d_]|[?/+=-]) = [^\s.]+(?: [^\s.=]+(?! =))*")
"""A key and what it does, within what is said."""
MOST_LINES = 3
"""Of what is said."""


def _cells(pair: tuple[str, str]) -> int:
    """Cells that a key with its label takes, with the sign before it."""
    key, label = _named(pair)
    return 1 + cell_len(key) + (1 + cell_len(label) if label else 0)


def _named(pair: tuple[str, str]) -> tuple[str, str]:
    """A key by its name and its label, in the words of the region."""
    key, label = pair
    return one_line(KEY_NAMES.get(key, key)), one_line(label)


def _over(style: Style, hover: Style | None) -> Style:
    return style + hover if hover is not None else style


class ChoiceLine(Grounded):
    """Labels in a row, each with its key; a click is the key."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {
        "choice-line--key",
        "choice-line--label",
        "choice-line--on",
        "choice-line--hover",
    }
    DEFAULT_CSS = """
    ChoiceLine {
        height: 1;
        background: $panel;
        & .choice-line--key { color: $foreground; text-style: bold; }
        & .choice-line--label { color: $muted; }
        & .choice-line--hover { text-style: underline; }
        & .choice-line--on { background: $raised; color: $foreground; text-style: bold; }
    }
    """

    class Pressed(Message):
        """A label was clicked."""

        def __init__(self, key: str) -> None:
            super().__init__()
            self.key = key

    def __init__(
        self,
        *,
        bare: bool = False,
        rest: str = "",
        before: Callable[[], None] | None = None,
        id: str | None = None,  # noqa: A002 - Textual's own name
    ) -> None:
        super().__init__(id=id)
        self._before = before
        """Where a click presses the key itself, what is done before: the keys go to where it is meant. The screen that
        is over the line cannot press it: what it sends stops on its way up when it comes by the screen again."""
        self._bare = bare
        """True where every key must stay in sight: on a narrow screen the last ones lose their words."""
        self._rest = rest
        """The key that tells of those for which there is no room; the line then ends with it and with their number."""
        self._under = ""
        """The key of the label under the mouse."""
        self._choices: Sequence[tuple[str, str]] = ()
        self._on = ""
        self._spots: list[tuple[int, int, str]] = []

    def show(self, choices: Sequence[tuple[str, str]], on: str = "") -> None:
        """Show pairs of key and label; `on` is the key of the one that is on."""
        if (list(choices), on) != (list(self._choices), self._on):
            self._choices, self._on, self._under = choices, on, ""
            self.refresh()

    def render_line(self, y: int) -> Strip:
        """The labels that fit."""
        base, width = self.ground, self.size.width
        key_style = self.get_component_rich_style("choice-line--key")
        label_style = self.get_component_rich_style("choice-line--label")
        on_style = self.get_component_rich_style("choice-line--on")
        parts: list[Part] = []
        self._spots = []
        at = 0
        # Where not everything fits, the cell between two labels is the first thing to go.
        gap = " " if sum(map(_cells, self._choices)) + len(self._choices) <= width else ""
        hover = self.get_component_rich_style("choice-line--hover")
        for pair in self._fitting(width):
            key, (name, label) = pair[0], _named(pair)
            on = key == self._on
            size = _cells(pair) + len(gap)
            if at + size - len(gap) > width:
                break
            over = hover if key == self._under else None
            parts.append((f"{'▸' if on else ' '}{name}", _over(on_style if on else key_style, over)))
            parts.append((f" {label}" if label else "", _over(on_style if on else label_style, over)))
            parts.append((gap, base))
            self._spots.append((at, at + size, key))
            at += size
        return strip(parts, width, base)

    def _fitting(self, width: int) -> list[tuple[str, str]]:
        """The pairs, without the words of the last ones where not all words fit and every key must show."""
        pairs = list(self._choices)
        if self._rest:
            return self._with_rest(pairs, width)
        for number in range(len(pairs) - 2, -1, -1):
            if not self._bare or sum(map(_cells, pairs)) <= width:
                break
            if pairs[number][0] != self._on:
                pairs[number] = (pairs[number][0], "")
        return pairs

    def _with_rest(self, pairs: list[tuple[str, str]], width: int) -> list[tuple[str, str]]:
        """The pairs that fit, and at the end how many more there are and the key that tells of them."""
        if sum(map(_cells, pairs)) <= width:
            return pairs
        left = [pair for pair in pairs if pair[0] != self._rest]
        for count in range(len(left) - 1, 0, -1):
            shown = [*left[:count], (self._rest, f"{len(left) - count} more")]
            if sum(map(_cells, shown)) <= width:
                return shown
        return [(self._rest, "all")]

    def on_click(self, event: events.Click) -> None:
        """The key of the label under the mouse."""
        key = self._key_at(event.x)
        if key and self._before is not None:
            self._before()
            self.app.simulate_key(key)
        elif key:
            self.post_message(self.Pressed(key))

    def on_mouse_move(self, event: events.MouseMove) -> None:
        """What a click would do stands out."""
        self._hover(self._key_at(event.x))

    def on_leave(self) -> None:
        """Nothing stands out any more."""
        self._hover("")

    def _key_at(self, x: int) -> str:
        return next((key for start, end, key in self._spots if start <= x < end), "")

    def _hover(self, key: str) -> None:
        if key != self._under:
            self._under = key
            self.refresh()


class SayLine(Grounded):
    """Under a list: what was said last until the next key, whole; else what the row under the cursor says that is cut
    off in its line, where that has a line of its own, and the totals of the view.
    """

    COMPONENT_CLASSES: ClassVar[set[str]] = {"say-line--said", "say-line--bad", "say-line--row"}
    DEFAULT_CSS = """
    SayLine {
        height: 1;
        color: $muted;
        & .say-line--said { color: $foreground; text-style: bold; }
        & .say-line--bad { color: $fix; text-style: bold; }
        & .say-line--row { color: $foreground; }
    }
    """

    def __init__(self, row: Callable[[], str] = str, *, id: str | None = None) -> None:  # noqa: A002 - Textual's own
        super().__init__(id=id)
        self._row = row
        self._summary = ""
        self._said = ""
        self._bad = False

    @property
    def words(self) -> str:
        """What the line says."""
        return self._said or self._summary

    def show(self, summary: str) -> None:
        """Show totals."""
        self._summary = summary
        self.refresh()

    def say(self, words: str, *, bad: bool = False) -> None:
        """Say something; an empty text goes back to the totals."""
        was, self._said, self._bad = self._said, words, bad
        if words or was:
            self._make_room()
        self.refresh()

    def on_resize(self) -> None:
        """What is said may take fewer lines, or more."""
        if self._said:
            self._make_room()

    def _make_room(self) -> None:
        """As many lines as what is said takes, where that is more than the styles give."""
        self.styles.clear_rule("height")
        given = self.styles.height
        needed = len(self._lines) if self._said else 0
        if given is None or needed > given.value:
            self.styles.height = needed
        if self.size.height != max(needed, given.value if given else 1):
            self.refresh(layout=True)

    @property
    def _lines(self) -> list[str]:
        """What is said, as the lines that it takes."""
        first = "! " if self._bad else "  "
        lines = wrap(self._said, max(10, (self.size.width or self.app.size.width) - len(first)))
        if len(lines) > MOST_LINES:
            lines[MOST_LINES - 1 :] = [" ".join(lines[MOST_LINES - 1 :])]
        return [(first if number == 0 else "  ") + line for number, line in enumerate(lines)]

    def render_line(self, y: int) -> Strip:
        """One of its lines."""
        base, width = self.ground, self.size.width
        text, name = self._texts(self.size.height)[y]
        style = self.get_component_rich_style(f"say-line--{name}") if name else base
        return strip([(fit(text, width), style)], width, style if name else base)

    def _texts(self, height: int) -> list[tuple[str, str]]:
        """Each line with what it is: what was said; else the row; and the totals, which come last."""
        said = [(line, "bad" if self._bad else "said") for line in self._lines][:height] if self._said else []
        row = [(f" {cut}", "row")] if not said and height > 1 and (cut := self._row()) else []
        left = height - len(said) - len(row)
        totals = wrap(self._summary, max(10, self.size.width - 1))
        if len(totals) > left:
            totals[max(0, left - 1) :] = [" ".join(totals[max(0, left - 1) :])] if left else []
        blank = [("", "")] * (left - len(totals))
        return [*said, *blank, *row, *((f" {line}", "") for line in totals)]

    def on_click(self, event: events.Click) -> None:
        """A hint in what is said, like `u = undo`, is a button too."""
        for hint in HINT.finditer(fit(self._texts(self.size.height)[event.y][0], self.size.width)):
            if hint.start() <= event.x < hint.end():
                self.app.simulate_key(NAMED.get(hint[1], hint[1]))
