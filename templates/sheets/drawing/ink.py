"""The marks of a drawing sheet, in millimeters of paper: text that is never under 7 pt, lines of few widths, hatches.

A halo is drawn as a text of its own under the text, because not every program that makes paper knows `paint-order`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import lru_cache

from store.measure.text import clean
from templates.sheets.drawing.paper import LEAST_PT, POINT_MM
from templates.sheets.layout.marks import safe, width_of

TEXT = 2.6
"""Height of ordinary text, mm: 7.4 pt."""
HEAD = 3.3
LINE = 1.32
"""From one line of text to the next, in heights of the text."""
FINE, THIN, MEDIUM, WIDE = 0.13, 0.18, 0.35, 0.6
"""Widths of lines, mm: of the series of ISO 128, and 0.6 for what is cut out."""
BLACK, GREY = "#000", "#555"
assert TEXT >= LEAST_PT * POINT_MM


BROAD = str.maketrans("", "", "MWmw@%")
CAPITALS = str.maketrans("", "", "ABCDEFGHIJKLNOPQRSTUVXYZ")
MORE_BROAD, MORE_CAPITAL = 0.42, 0.14
"""What such a letter takes more than an ordinary one, of the size of the type: usual sans-serif faces, measured."""


def wide(text: str, size: float = TEXT, bold: bool = False) -> float:
    """About how wide a text is, mm; ample."""
    long = len(text)
    more = MORE_BROAD * (long - len(text.translate(BROAD))) + MORE_CAPITAL * (long - len(text.translate(CAPITALS)))
    return (width_of(text, size) + more * size) * (1.1 if bold else 1.03)


def words(
    x: float, y: float, text: str, size: float = TEXT, *, anchor: str = "start", bold: bool = False, turn: float = 0.0,
    halo: bool = False,
) -> str:  # fmt: skip
    """A text by the left end, middle or right end of its base line; turned about it by degrees, clockwise."""
    more = ' font-weight="bold"' if bold else ""
    more += f' text-anchor="{anchor}"' if anchor != "start" else ""
    more += f' transform="rotate({turn:g} {x:.2f} {y:.2f})"' if turn else ""
    head = f'<text x="{x:.2f}" y="{y:.2f}" font-size="{size:g}"{more}'
    said = safe(text)
    under = f'{head} stroke="#fff" stroke-width="1" stroke-linejoin="round" fill="#fff">{said}</text>' if halo else ""
    return f"{under}{head}>{said}</text>"


def line(x1: float, y1: float, x2: float, y2: float, width: float = THIN, dash: str = "", colour: str = BLACK) -> str:
    """A straight line."""
    return path([(x1, y1), (x2, y2)], width, dash, colour)


def path(points: Iterable[tuple[float, float]], width: float, dash: str = "", colour: str = BLACK) -> str:
    """A line through points."""
    way = "L".join(f"{x:.2f} {y:.2f}" for x, y in points)
    dashed = f' stroke-dasharray="{dash}"' if dash else ""
    return f'<path d="M{way}" fill="none" stroke="{colour}" stroke-width="{width:g}"{dashed}/>'


def rect(x: float, y: float, w: float, h: float, width: float, *, fill: str = "none", dash: str = "") -> str:
    """A rectangle by its upper left corner."""
    dashed = f' stroke-dasharray="{dash}"' if dash else ""
    return (
        f'<rect x="{x:.2f}" y="{y:.2f}" width="{max(w, 0):.2f}" height="{max(h, 0):.2f}" fill="{fill}" '
        f'stroke="{BLACK}" stroke-width="{width:g}"{dashed}/>'
    )


def slanted(x: float, y: float, w: float, h: float, step: float) -> str:
    """Lines at 45 degrees inside a rectangle, so many mm apart: a hatch without a pattern."""
    parts, at = [], step
    while at < w + h:
        parts.append(f"M{x + max(0, at - h):.2f} {y + min(at, h):.2f}L{x + min(at, w):.2f} {y + max(0, at - w):.2f}")
        at += step
    return f'<path d="{"".join(parts)}" fill="none" stroke="{BLACK}" stroke-width="{FINE:g}"/>' if parts else ""


@lru_cache(maxsize=4096)
def broken(text: str, room: float, size: float = TEXT, bold: bool = False) -> tuple[str, ...]:
    """The text in lines that go into so many mm, broken between words; a word that is longer, within it.

    The sheets of all trades say the same of a thing, so that most texts come several times.
    """
    return tuple(_broken(text, room, size, bold))


def _broken(text: str, room: float, size: float, bold: bool) -> Iterator[str]:
    row = ""
    for word in clean(text).split():
        rest = word
        if row and wide(f"{row} {rest}", size, bold) > room:
            yield row
            row = ""
        while wide(rest, size, bold) > room:
            cut = max(1, next(at for at in range(len(rest), 0, -1) if at == 1 or wide(rest[:at], size, bold) <= room))
            yield rest[:cut]
            rest = rest[cut:]
        row = f"{row} {rest}".strip()
    if row:
        yield row
