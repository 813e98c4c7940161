"""The marks a drawing on paper is made of: safe text, the signs of boxes, dimension lines, labels."""

from __future__ import annotations

import unicodedata
from collections.abc import Callable, Iterable, Sequence
from html import escape
from itertools import repeat
from math import floor

from store.measure.text import clean
from templates.sheets.layout.hatches import INK

TEXT_PX = 12.0
"""Height of ordinary text."""
CHARACTER = 0.58
"""Width of an ordinary character, in heights of the text; a wide one takes 1. An estimate for sans-serif faces."""
TICK_PX = 4.0
BOX_PX = 7.0
"""Radius of the sign of a box."""

STYLE = f"""
text {{ font-family: sans-serif; fill: {INK}; }}
.halo {{ paint-order: stroke; stroke: #fff; stroke-width: 3px; stroke-linejoin: round; }}
.line {{ fill: none; stroke: {INK}; }}
"""


def safe(text: str, longest: int = 0) -> str:
    """Text of a person for the inside of a drawing: cleaned, cut to so many characters, and escaped."""
    plain = clean(text).replace("\ufffe", "\ufffd").replace("\uffff", "\ufffd")
    if longest and len(plain) > longest:
        plain = plain[: longest - 1].rstrip() + "…"
    return escape(plain)


def width_of(text: str, px: float = TEXT_PX) -> float:
    """About how wide a text is, pixels."""
    plain = clean(text)
    if plain.isascii():
        return sum(repeat(px * CHARACTER, len(plain)))
    return sum([px if unicodedata.east_asian_width(sign) in "WF" else px * CHARACTER for sign in plain])


def text_at(x: float, y: float, text: str, px: float = TEXT_PX, anchor: str = "start", more: str = "") -> str:
    """A text by the left end, middle or right end of its base line."""
    return f'<text x="{x:.1f}" y="{y:.1f}" font-size="{px:g}" text-anchor="{anchor}"{more}>{safe(text)}</text>'


def line_at(x1: float, y1: float, x2: float, y2: float, wide: float = 1.0, colour: str = INK) -> str:
    """A straight line."""
    return f'<path d="M{x1:.1f} {y1:.1f}L{x2:.1f} {y2:.1f}" fill="none" stroke="{colour}" stroke-width="{wide:g}"/>'


def _circle(x: float, y: float, rest: str, old: str) -> str:
    return f'<circle cx="{x:.1f}" cy="{y:.1f}" r="{BOX_PX:g}" fill="#fff" stroke="{INK}" {old}/>{rest}'


def _letter(x: float, y: float, letter: str) -> str:
    return text_at(x, y + 4, letter, 11, "middle", ' font-weight="bold"')


def _receptacle(x: float, y: float, old: str) -> str:
    high = BOX_PX + 3
    return _circle(x, y, "".join(line_at(x + at, y - high, x + at, y + high, 1.2) for at in (-2.5, 2.5)), old)


def _switch(x: float, y: float, old: str) -> str:
    return (
        f'<rect x="{x - BOX_PX:.1f}" y="{y - BOX_PX:.1f}" width="{2 * BOX_PX:g}" height="{2 * BOX_PX:g}" fill="#fff" '
        f'stroke="none"/>{text_at(x, y + 6, "S", 17, "middle", chr(32) + "font-weight=" + chr(34) + "bold" + chr(34))}'
        + (line_at(x - BOX_PX, y + BOX_PX + 1, x + BOX_PX, y + BOX_PX + 1, 1) if old else "")
    )


def _shape(points: Sequence[tuple[float, float]]) -> Callable[[float, float, str], str]:
    def draw(x: float, y: float, old: str) -> str:
        path = "L".join(f"{x + across * BOX_PX:.1f} {y + down * BOX_PX:.1f}" for across, down in points)
        return f'<path d="M{path}Z" fill="#fff" stroke="{INK}" {old}/>'

    return draw


def _junction(x: float, y: float, old: str) -> str:
    return _circle(x, y, _letter(x, y, "J"), old)


def _pass_through(x: float, y: float, old: str) -> str:
    return _circle(x, y, f'<circle cx="{x:.1f}" cy="{y:.1f}" r="3" fill="none" stroke="{INK}"/>', old)


def _quick_connect(x: float, y: float, old: str) -> str:
    return _shape(((0, -1.2), (1.2, 0), (0, 1.2), (-1.2, 0)))(x, y, old) + _letter(x, y, "Q")


def _photo(x: float, y: float, old: str) -> str:
    wide, high = 2 * BOX_PX, 2 * BOX_PX - 4
    return (
        f'<rect x="{x - BOX_PX:.1f}" y="{y - BOX_PX + 2:.1f}" width="{wide:g}" height="{high:g}" rx="1.5" '
        f'fill="#fff" stroke="{INK}" {old}/><circle cx="{x:.1f}" cy="{y:.1f}" r="3" fill="none" stroke="{INK}"/>'
        + line_at(x - 3, y - BOX_PX, x + 3, y - BOX_PX, 2)
    )


SIGNS: dict[str, Callable[[float, float, str], str]] = {
    "receptacle": _receptacle,
    "switch": _switch,
    "low-voltage": _shape(((0, -1.2), (1.1, 0.9), (-1.1, 0.9))),
    "junction": _junction,
    "pass-through": _pass_through,
    "quick-connect": _quick_connect,
    "photo": _photo,
}
"""The sign of a box by its kind, as plans of houses commonly have it; a photo is a small camera."""


def box_sign(kind: str, x: float, y: float, new: bool = True) -> str:
    """The sign of a box at its centre; one that was there before is dashed (a switch: underlined)."""
    return SIGNS.get(kind, _junction)(x, y, "" if new else 'stroke-dasharray="2.5 2"')


def dimension(stops: Sequence[float], texts: Sequence[str], name: str) -> str:
    """A level dimension line with a tick at each stop, the texts between them, a name behind.

    A text that has no room between its stops is told behind the name instead.
    """
    parts = [line_at(stops[0], 0, stops[-1], 0, 0.8)]
    parts += [line_at(at - TICK_PX, TICK_PX, at + TICK_PX, -TICK_PX, 1.4) for at in stops]
    behind = [name] if name else []
    for left, right, text in zip(stops, stops[1:], texts, strict=False):
        if right - left >= width_of(text, 11) + 6:
            parts.append(text_at((left + right) / 2, -3, text, 11, "middle", ' class="halo"'))
        elif right > left:
            behind.append(text)
    parts.append(text_at(stops[-1] + 8, 4, " · ".join(behind), 11))
    return "".join(parts)


Area = tuple[float, float, float, float]
"""Left, top, right and bottom."""
SQUARE_PX = 48.0
"""Labels are looked up by squares of the page of this size, so that only those near one another are compared."""
SURE = 0.78
"""The part of a reckoned width that letters take at the least, the narrow ones of common fonts counted."""


class Labels:
    """Puts labels where none is yet, between a left and a right edge."""

    def __init__(self, left: float, right: float) -> None:
        self._left, self._right = left, right
        self._taken: dict[tuple[int, int], list[Area]] = {}
        """What is taken, by the squares of the page that it reaches into."""

    def take(self, left: float, top: float, right: float, bottom: float) -> None:
        """Keep an area free of labels."""
        area = (left, top, right, bottom)
        for square in _squares(area):
            self._taken.setdefault(square, []).append(area)

    def _is_free(self, area: Area) -> bool:
        return not any(_meet(area, each) for square in _squares(area) for each in self._taken.get(square, ()))

    def put(self, wordings: Iterable[str], places: Sequence[tuple[float, float, str, float]], px: float) -> str:
        """The first wording at the first place (x, y of the base line, anchor, room) that is free; else nothing."""
        for text in wordings:
            wide = width_of(text, px)
            for x, y, anchor, room in places:
                left = x - {"start": 0.0, "middle": wide / 2, "end": wide}[anchor]
                area = (left, y - 0.8 * px, left + wide, y + 0.25 * px)
                inside = self._left <= left and left + wide <= self._right
                if wide <= room and inside and self._is_free(area):
                    self.take(*area)
                    # White between its words, where a halo lets lines through. Widths are reckoned amply: of that,
                    # no more than the letters take is surely their own, and what is beside them stays to be seen.
                    start, size = x + (left - x) * SURE, wide * SURE
                    under = f"M{start:.1f} {y - 0.7 * px:.1f}h{size:.1f}v{0.8 * px:.1f}h{-size:.1f}z"
                    return f'<path d="{under}" fill="#fff"/>' + text_at(x, y, text, px, anchor, ' class="halo"')
        return ""


def _squares(area: Area) -> list[tuple[int, int]]:
    across = range(floor(area[0] / SQUARE_PX), floor(area[2] / SQUARE_PX) + 1)
    return [(x, y) for x in across for y in range(floor(area[1] / SQUARE_PX), floor(area[3] / SQUARE_PX) + 1)]


def _meet(one: Area, other: Area) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def wrapped(text: str, room: float, px: float = TEXT_PX) -> list[str]:
    """The text in lines of so many pixels, broken between words, and in a word that is longer than a line."""
    most = max(int(room / (px * CHARACTER)), 1)
    lines = [""]
    for word in clean(text).split():
        pieces = [word[at : at + most] for at in range(0, len(word), most)]
        for piece in pieces:
            if lines[-1] and len(lines[-1]) + 1 + len(piece) > most:
                lines.append(piece)
            else:
                lines[-1] = f"{lines[-1]} {piece}".strip()
    return lines
