"""The column beside a drawing: schedule, notes, changes and signs as rows of a height each, and how they are broken."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise
from math import inf

import msgspec

from store.rules.drawing.shapes import Run, Scene, Spot
from templates.sheets.drawing.ink import HEAD, LINE, TEXT, broken, path, wide, words
from templates.sheets.drawing.views import Entry, View, weight
from templates.sheets.layout.marks import box_sign

INDENT = 11.0
"""From the tag to what is said of it, mm."""
SIGN = 0.26
"""The signs of boxes are drawn in px of a screen; so many mm are one."""


SIGN_HIGH = 5.4
"""A line of signs, mm."""


class Row(msgspec.Struct, frozen=True):
    """Something of the column: its height, and its marks from the upper left corner."""

    high: float
    marks: tuple[tuple[float, float, str, bool], ...] = ()
    """x, y of the base line, text, bold."""
    sign: str = ""
    keep: bool = False
    """Not the last of a column: a heading."""

    def drawn(self, x: float, y: float) -> str:
        """It, at a place."""
        said = "".join(words(x + dx, y + dy, text, bold=bold) for dx, dy, text, bold in self.marks)
        return said + (f'<g transform="translate({x:.2f} {y:.2f})">{self.sign}</g>' if self.sign else "")


def head(text: str, room: float = inf) -> Row:
    """A heading, on as many lines as the `room` (mm) asks for: a date and a letter may be too long for one."""
    lines = broken(text, room, bold=True) or (text,)
    marks = tuple((0.0, HEAD * 1.15 + TEXT * LINE * at, each, True) for at, each in enumerate(lines))
    return Row(HEAD * 1.7 + TEXT * LINE * (len(lines) - 1), marks, keep=True)


def text_rows(text: str, room: float, bold: bool = False) -> Iterator[Row]:
    """A paragraph."""
    lines = broken(text, room, bold=bold)
    marks = tuple((0.0, TEXT * (0.95 + LINE * at), each, bold) for at, each in enumerate(lines))
    if marks:
        yield Row(TEXT * LINE * len(lines) + 0.7, marks)


def entry_row(entry: Entry, room: float) -> Row:
    """One thing of the schedule: tag, name, what is said of it."""
    indent = max(INDENT, wide(entry.tag, bold=True) + 1.5)
    marks = [(0.0, TEXT * 0.95, entry.tag, True)]
    at = 0
    for bold, text in ((True, entry.name), *((False, each) for each in entry.lines)):
        for each in broken(text, room - indent, bold=bold):
            marks.append((indent, TEXT * (0.95 + LINE * at), each, bold))
            at += 1
    return Row(TEXT * LINE * max(at, 1) + 0.9, tuple(marks))


def signs(scene: Scene, view: View, said: Callable[[str], str] = str) -> Iterator[Row]:
    """The signs that are drawn, each with its word as it is `said` where the job is."""
    seen = sorted({(each.kind, each.new) for each in scene.shapes if isinstance(each, Spot) and weight(view, each)})
    for kind, new in seen:
        sign = f'<g transform="translate(4 2.6) scale({SIGN})">{box_sign(kind, 0, 0, new)}</g>'
        yield Row(SIGN_HIGH, ((INDENT, 3.5, said(kind if new else f"{kind}, existing"), False),), sign)
    runs = {
        each.kind for each in scene.shapes if isinstance(each, Run) and each.layer == "cables" and weight(view, each)
    }
    for kind in sorted(runs):
        dash = "" if kind == "power" else "2.4 1.2"
        word = "line-voltage cable" if kind == "power" else "low-voltage cable"
        yield Row(4.0, ((INDENT, 2.9, said(word), False),), path([(0.5, 2), (9, 2)], 0.5, dash))
    if view.bands:
        yield Row(5.0, ((INDENT, 3.4, "NO SCREWS", True),), stripes([([(2.5, 2.5), (8, 2.5)], 4.0)]))


def legend(scene: Scene, view: View, room: tuple[float, float], said: Callable[[str], str] = str) -> str | None:
    """The signs in lines side by side, from the upper left corner of a room (wide, high; mm); None where they do not
    go into it."""
    parts, x, y = [], 0.0, 0.0
    for row in signs(scene, view, said):
        long = INDENT + max(wide(text, bold=bold) for _, _, text, bold in row.marks) + 3
        if x and x + long > room[0]:
            x, y = 0.0, y + SIGN_HIGH
        if x + long > room[0] or y + SIGN_HIGH > room[1]:
            return None
        parts.append(row.drawn(x, y))
        x += long
    return "".join(parts)


def stripes(strips: Sequence[tuple[Sequence[tuple[float, float]], float]]) -> str:
    """Striped strips along lines of so many mm each: no screws there. Where they cross they become one."""
    joined = ' stroke-linejoin="round" stroke-linecap="square"/>'
    outer = "".join(path(points, wide_mm).replace("/>", joined) for points, wide_mm in strips)
    inner = [path(points, max(wide_mm - 0.5, 0.1), colour="#fff").replace("/>", joined) for points, wide_mm in strips]
    # Piece by piece: a stripe that goes round a bend would fill its corner with black.
    dashes = [
        path(piece, max(wide_mm - 0.5, 0.1), "0.3 1.7") for points, wide_mm in strips for piece in pairwise(points)
    ]
    return f"{outer}{''.join(inner)}{''.join(dashes)}"


def columns(rows: Sequence[Row], highs: Sequence[float], more: float) -> list[list[Row]]:
    """The rows dealt into columns: the first ones are so high each, every later one `more`."""
    dealt: list[list[Row]] = [[]]
    left = [*highs]
    room = left.pop(0) if left else more
    for at, row in enumerate(rows):
        need = row.high + (rows[at + 1].high if row.keep and at + 1 < len(rows) else 0.0)
        if need > room and dealt[-1]:
            dealt.append([])
            room = left.pop(0) if left else more
        dealt[-1].append(row)
        room -= row.high
    return dealt


def drawn(rows: Sequence[Row], x: float, y: float) -> str:
    """A column of rows from its upper left corner."""
    parts = []
    for row in rows:
        parts.append(row.drawn(x, y))
        y += row.high
    return "".join(parts)
