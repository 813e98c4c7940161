"""The drawing in plain signs, where a terminal has no braille: letters for boxes, strokes for cables, light and double
lines."""

from __future__ import annotations

from tui.shared.signs import PLAIN

_DOT_COLUMNS = (0x47, 0xB8)
"""The bits of the left and of the right column of a braille cell."""
_DOT_ROWS = (0x09, 0x12, 0x24, 0xC0)
_UPRIGHT = 3
"""Rows of dots from which on what is in one column is an upright line."""
_DOUBLE = {"━": "═", "┃": "║", "┏": "╔", "┓": "╗", "┗": "╚", "┛": "╝", "╋": "╬", "┣": "╠", "┫": "╣", "┳": "╦", "┻": "╩"}
BOXES = dict(zip("◉◆▲■●◈▣◎◇△□○", "RSVJPQFrsvjp", strict=True))
"""The letter of a box: a capital for one to be set, a small letter for one that was there."""


def _stroke(bits: int) -> str:
    """What dots look like: lying, upright, rising or falling."""
    columns = [bool(bits & each) for each in _DOT_COLUMNS]
    rows = [bool(bits & each) for each in _DOT_ROWS]
    if not all(columns):
        return "|" if sum(rows) >= _UPRIGHT else "."
    if sum(rows) == 1:
        return "-"
    left = max(at for at, each in enumerate(_DOT_ROWS) if each & bits & _DOT_COLUMNS[0])
    right = max(at for at, each in enumerate(_DOT_ROWS) if each & bits & _DOT_COLUMNS[1])
    if sum(rows) >= _UPRIGHT and left == right:
        return "+"
    return "+" if left == right else "/" if left > right else "\\"


def _mixed(glyphs: str) -> dict[str, str]:
    """Lines of which one arm is heavy: as light ones with the same arms."""
    light = {}
    for number, sign in enumerate(glyphs):
        weights = number // 27, number // 9 % 3, number // 3 % 3, number % 3
        thin = sum((1 if weight else 0) * 3**power for weight, power in zip(weights, (3, 2, 1, 0), strict=True))
        light[sign] = glyphs[thin]
    return light


def table(glyphs: str) -> dict[int, str]:
    """What is written in place of each sign of the drawing, for `str.translate`; `glyphs` are the box drawings by the
    weights of their arms, as the canvas has them."""
    signs = {chr(0x2800 + bits): _stroke(bits) for bits in range(1, 256)}
    signs |= {sign: PLAIN.get(ord(light), light) for sign, light in _mixed(glyphs).items() if sign != light}
    return {**PLAIN, **{ord(sign): plain for sign, plain in {**signs, **_DOUBLE, **BOXES}.items()}}
