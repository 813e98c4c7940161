"""The one place where data becomes something a terminal shows.

Data is never markup and never a control sequence: it is cleaned here, then measured in cells, so that a wide or a
combining character cannot push a column out of line.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache

from rich.cells import cell_len, set_cell_size
from rich.segment import Segment
from rich.style import Style
from textual.content import Content
from textual.strip import Strip

from store.measure.text import clean
from tui.shared.signs import Signs, written

Part = tuple[str, Style]
"""A piece of text with its style."""


_JOINING = str.maketrans("", "", "\u200d\ufe0e\ufe0f")
"""Signs that join others into one, or choose how one looks: terminals do not agree on the width of what comes out,
so each is shown by itself. The text in the file keeps them."""


class Region:
    """How the words of the program are said: as written, or in the words of the open job's region."""

    turn: Callable[[str], str] | None = None


def shown(data: object, *, lines: bool = False) -> str:
    """Data as a terminal is given it, in the words of the region."""
    text = clean(str(data), lines=lines)
    if Region.turn is not None:
        text = Region.turn(text)
    if text.isascii():
        return text
    text = text.translate(_JOINING)
    return written(text) if Signs.plain else text


def one_line(data: object) -> str:
    """Data as one clean line."""
    return shown(data)


def content(data: object, style: str = "") -> Content:
    """Data for a widget that takes Content: shown letter by letter."""
    text = shown(data, lines=True)
    return Content.styled(text, style) if style else Content(text)


def fit(data: object, width: int, *, right: bool = False, typed: bool = False) -> str:
    """Clean data in exactly so many cells, cut with an ellipsis where it is longer; what is being `typed` stays so."""
    text = clean(str(data)).translate(_JOINING) if typed else one_line(data)
    if width <= 0:
        return ""
    # The common case first: plain ASCII that needs no measuring.
    size = len(text) if text.isascii() else cell_len(text)
    if size > width:
        text = set_cell_size(text, width - 1) + written("…")
        size = cell_len(text)
    space = " " * (width - size)
    return space + text if right else text + space


def wrap(data: str, width: int) -> list[str]:
    """Clean text broken into lines of at most so many cells; its own line breaks stay, and so does what is set in:
    what goes on below a line that begins with spaces is set in a little farther."""
    lines: list[str] = []
    for raw in shown(data, lines=True).split("\n"):
        lines += (raw,) if len(raw) <= width and raw.isascii() else _wrapped(raw, width)
    return lines


@lru_cache(maxsize=4096)
def _wrapped(raw: str, width: int) -> tuple[str, ...]:
    """One line, broken. A page that changes keeps most of its lines."""
    words = raw.lstrip(" ")
    inset = len(raw) - len(words)
    if not 0 < inset < width // 2 - 2:
        return tuple(_broken(words, width, width))
    first, *rest = _broken(words, width - inset, width - inset - 2)
    return (" " * inset + first, *(" " * (inset + 2) + line for line in rest))


def _broken(text: str, first: int, others: int) -> list[str]:
    """Text broken at its spaces, and in a word only where it is longer than a line; widths of the lines in cells."""
    lines: list[str] = []
    line = ""
    measured = len if text.isascii() else cell_len
    for word in text.split(" "):
        if line and measured(line) + 1 + measured(word) <= (others if lines else first):
            line += " " + word
            continue
        if line:
            lines.append(line)
        line = word
        while cell_len(line) > (width := others if lines else first) > 1:
            head = set_cell_size(line, width).rstrip()
            lines.append(head)
            line = line[len(head) :]
    lines.append(line)
    return lines


def strip(parts: list[Part], width: int, base: Style) -> Strip:
    """A line of parts, filled or cut to exactly so many cells."""
    segments = [Segment(written(text) if Signs.plain else text, base + style) for text, style in parts if text]
    return Strip(segments).adjust_cell_length(width, base)
