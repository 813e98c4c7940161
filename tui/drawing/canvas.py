"""A grid of terminal cells to draw to scale on: edges that join up, dots for slanted lines, labels that never collide.

Layers of a cell, the front one first: text, dots, edges, faint edges, fill. Nothing here knows a widget or a record;
styles are names that the widget turns into colours.
"""

from __future__ import annotations

import unicodedata
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import lru_cache

from rich.cells import cell_len

from store.measure.text import clean
from tui.drawing.dots import Dot, Way, cells_through
from tui.drawing.frame import Place

UP, RIGHT, DOWN, LEFT = 1, 2, 4, 8
HEAVY = 4
"""Shift of the bits of an arm that is drawn heavy."""
GLYPHS = " ╴╸╷┐┑╻┒┓╶─╾┌┬┭┎┰┱╺╼━┍┮┯┏┲┳╵┘┙│┤┥╽┧┪└┴┵├┼┽┟╁╅┕┶┷┝┾┿┢╆╈╹┚┛╿┦┩┃┨┫┖┸┹┞╀╃┠╂╉┗┺┻┡╄╇┣╊╋"
"""Box drawings by the weight (none, light, heavy) of the arms up, right, down and left, as digits of base 3."""
_ROUND = {RIGHT | DOWN: "╭", DOWN | LEFT: "╮", UP | LEFT: "╯", UP | RIGHT: "╰"}
_DASHED = {UP | DOWN: "┆", LEFT | RIGHT: "┄"}
LINED, WRITTEN = 1, 2
"""What a cell has been taken for."""
SEVERAL = "*"
"""In place of the one thing whose lines are in a cell."""
Cells = tuple[int, int, int, int]
"""A rectangle of cells: first column and row, last column and row."""
POINT = "▪"
"""What is left of a rectangle that is smaller than a cell."""


def _glyph(arms: int) -> str:
    weights = [(arms >> bit & 1) + (arms >> HEAVY + bit & 1) for bit in range(4)]
    return GLYPHS[weights[0] * 27 + weights[1] * 9 + weights[2] * 3 + weights[3]]


_GLYPHS = [_glyph(arms) for arms in range(256)]


class Grid:
    """Cells to draw on. Whatever lies outside is cut off."""

    def __init__(self, columns: int, rows: int) -> None:
        self.columns, self.rows = max(columns, 0), max(rows, 0)
        count = self.columns * self.rows
        self._arms = [0] * count
        self._looks = [""] * count
        self._dots = [0] * count
        self._faint: list[str] = [""] * count
        self._fill: list[str] = [""] * count
        self._text: list[str | None] = [None] * count
        self._styles: dict[str, list[str]] = {name: [""] * count for name in ("arms", "dots", "faint", "fill", "text")}
        self._owners: dict[int, str] = {}
        self._lines: dict[int, str] = {}
        """Whose lines are in a cell; those of several things are nobody's alone."""
        self._taken = bytearray(count)
        """What is in a cell, lines or text, to see at once that a stretch of cells is blank."""

    def edge(
        self,
        column: int,
        row: int,
        to_column: int,
        to_row: int,
        style: str,
        look: str = "plain",
        heavy: bool = False,
        owner: str = "",
    ) -> None:
        """A level or upright line from the middle of a cell to that of another. Looks: plain, dashed, round."""
        level = row == to_row
        low, high = sorted((column, to_column) if level else (row, to_row))
        cells = range(max(low, 0), min(high, (self.columns if level else self.rows) - 1) + 1)
        if not (0 <= row < self.rows if level else 0 <= column < self.columns):
            return
        back, forth = (LEFT, RIGHT) if level else (UP, DOWN)
        drawn, looks, styles, lines, taken = self._arms, self._looks, self._styles["arms"], self._lines, self._taken
        for each in cells:
            index = row * self.columns + each if level else each * self.columns + column
            arms = (back if each > low else 0) | (forth if each < high else 0)
            drawn[index] |= arms | (arms << HEAVY if heavy else 0)
            looks[index] = look if looks[index] in ("", look) else "plain"
            styles[index] = style
            if lines.setdefault(index, owner) != owner:
                lines[index] = SEVERAL
            taken[index] = LINED

    def rect(
        self,
        column: int,
        row: int,
        to_column: int,
        to_row: int,
        style: str,
        look: str = "plain",
        heavy: bool = False,
        owner: str = "",
    ) -> None:
        """The outline of a rectangle by two corners; one smaller than a cell is a line or a point."""
        if column == to_column and row == to_row:
            self.fill(column, row, column, row, POINT, style)
            return
        for each in {row, to_row}:
            self.edge(column, each, to_column, each, style, look, heavy, owner)
        for each in {column, to_column}:
            self.edge(each, row, each, to_row, style, look, heavy, owner)

    def faint(self, column: int, row: int, to_row: int, style: str, sign: str = "╎") -> None:
        """An upright line behind everything but fill, joined to nothing."""
        if 0 <= column < self.columns:
            for each in range(max(row, 0), min(to_row, self.rows - 1) + 1):
                self._faint[each * self.columns + column] = sign
                self._styles["faint"][each * self.columns + column] = style

    def fill(self, column: int, row: int, to_column: int, to_row: int, sign: str, style: str) -> None:
        """A sign in every cell of a rectangle, both corners included, behind everything else."""
        for each in range(max(row, 0), min(to_row, self.rows - 1) + 1):
            for at in range(max(column, 0), min(to_column, self.columns - 1) + 1):
                self._fill[each * self.columns + at] = sign
                self._styles["fill"][each * self.columns + at] = style

    def line(self, start: Dot, end: Dot, style: str, owner: str = "", dash: int = 0) -> None:
        """A line of dots between two dots as `Frame.dot` counts them; with `dash`, so many dots on and so many off."""
        self.dots(cells_through((start, end), dash, self.columns, self.rows), style, owner)

    def dots(self, cells: Mapping[int, int], style: str, owner: str = "") -> None:
        """Dots in cells, as `cells_through` gives them."""
        dots, styles, lines, taken = self._dots, self._styles["dots"], self._lines, self._taken
        for index, there in cells.items():
            dots[index] |= there
            styles[index] = style
            if lines.setdefault(index, owner) != owner:
                lines[index] = SEVERAL
            taken[index] = LINED
        if owner:
            self._owners.update(dict.fromkeys(cells, owner))

    def dots_of(self, many: Sequence[tuple[Way, str, str]]) -> None:
        """Dots of many things, in their order, each with style and owner, as `dots` draws one: most share their cells
        with others, and what is told of a cell is told once.
        """
        dots, shown, lines, taken = self._dots, self._styles["dots"], self._lines, self._taken
        lit: defaultdict[int, set[int]] = defaultdict(set)
        of_owner: defaultdict[str, int] = defaultdict(int)
        for way, _, owner in many:
            of_owner[owner] |= way.there
            for bits, cells in way.lit:
                lit[bits].update(cells)
        for bits, there in lit.items():
            for index in there:
                dots[index] |= bits
        drawn = shared = 0
        for among in of_owner.values():
            shared |= drawn & among
            drawn |= among
        several, left = shared.to_bytes(len(dots) // 8 + 1, "little"), set[int]().union(*lit.values())
        for way, style, owner in reversed(many):  # of a cell the last thing counts: most lie under others
            if not drawn & way.there:
                continue
            for index in left.intersection(way.cells):
                alone = not several[index >> 3] >> (index & 7) & 1 and lines.get(index, owner) == owner
                lines[index] = owner if alone else SEVERAL
                self._owners[index], shown[index], taken[index] = owner, style, LINED
            left.difference_update(way.cells)
            drawn &= ~way.there

    def is_free(self, column: int, row: int) -> bool:
        """True for a cell of the grid without text."""
        inside = 0 <= row < self.rows and 0 <= column < self.columns
        return inside and self._text[row * self.columns + column] is None

    def put(self, column: int, row: int, text: str, style: str, owner: str = "") -> bool:
        """Text that starts in a cell, if all of it fits and a blank is left to its neighbours."""
        cells = cells_of(text)
        if not cells or not 0 <= row < self.rows or column < 0 or column + len(cells) > self.columns:
            return False
        first = row * self.columns + column
        taken = range(first, first + len(cells))
        if self._text[first : taken.stop].count(None) != len(cells):
            return False
        if column and self._is_anothers(first - 1, owner):
            return False
        if column + len(cells) < self.columns and self._is_anothers(taken.stop, owner):
            return False
        for index, cell in zip(taken, cells, strict=True):
            self._text[index] = cell
            self._taken[index] = WRITTEN
            self._styles["text"][index] = style
            self._owners[index] = owner
        return True

    def _is_anothers(self, index: int, owner: str) -> bool:
        """True for a cell with text that is not of the same thing."""
        return self._text[index] is not None and self._owners.get(index, "") != (owner or None)

    def label(
        self, tag: str, words: Sequence[str], places: Iterable[Place], style: str, owner: str = "", lines: str = ""
    ) -> str:
        """A label: tag and words, the words in the first wording that has a place with room for it; else shortened;
        else the tag alone. Where it may stand on lines, those are its owner's, or of the thing that is named. Returns
        the text put there, empty when there is room for nothing.
        """
        lines = lines or owner
        # What stands at a place has a sign in its very cell: one that is taken need not be tried in each wording.
        if not words:
            free = (each for each in places if self.is_free(each.column, each.row))
            return tag if self._put_in(free, tag, style, owner, lines) else ""
        known: list[Place] = []
        for number, each in enumerate(words):
            whole = f"{tag} {each}".strip()
            if self._put_in(known if number else self._free_of(places, known), whole, style, owner, lines):
                return whole
        for place in known:
            short = shorten(f"{tag} {words[-1]}", place.room)
            if cell_len(short) >= cell_len(tag) + 4 and self._put_in((place,), short, style, owner, lines):
                return short
        return tag if tag and self._put_in(known, tag, style, owner, lines) else ""

    def _free_of(self, places: Iterable[Place], known: list[Place]) -> Iterator[Place]:
        """The places whose own cell is free, one by one as they are asked for; all that were are `known` from then."""
        for each in places:
            if self.is_free(each.column, each.row):
                known.append(each)
                yield each

    def put_near(
        self, around: Cells, far: int, text: str, style: str, owner: str, others: Sequence[Cells] = ()
    ) -> bool:
        """A short text in the nearest blank cells in or round a rectangle of cells, at most so many rows away and
        twice as many columns; within one of the `others`, whose it would seem to be, only where nothing else is."""
        left, top, right, bottom = around
        need = len(cells_of(text))
        low, high, upper, lower = left - 2 * far - need, right + 2 * far + need, top - far, bottom + far
        others = [each for each in others if each[0] < high and low < each[2] and each[1] < lower and upper < each[3]]
        middle, free = (max(top, 0) + min(bottom, self.rows - 1)) // 2, bytes(need)
        found: list[tuple[int, int, int]] = []
        for row in range(max(upper, 0), min(lower, self.rows - 1) + 1):
            begin = row * self.columns
            stop = begin + min(high, self.columns - 1) + 1
            at = begin + max(low, 0)
            away = 2 * max(top - row, row - bottom, 0)
            while (at := self._taken.find(free, at, stop)) >= 0:
                column = at - begin
                aside = max(left - (column + need - 1), column - right, 0)
                strange = bool(others) and any(x < column < xx and y < row < yy for x, y, xx, yy in others)
                found.append((away + aside + 4 * far * strange, abs(row - middle), at))
                at += 1
        places = (divmod(at, self.columns) for _, _, at in sorted(found))
        return any(self.put(column, row, text, style, owner) for row, column in places)

    def _put_in(self, places: Iterable[Place], text: str, style: str, owner: str, lines: str) -> bool:
        """A text in the first place that has room for it."""
        width, columns, taken = len(cells_of(text)), self.columns, self._taken
        for place in places:
            if width > place.room or not 0 <= place.row < self.rows:
                continue
            align = place.align
            column = place.column if align < 0 else place.column - ((width - 1) // 2 if align == 0 else width - 1)
            if column < 0 or column + width > columns:
                continue
            first = place.row * columns + column
            stop = first + width
            if taken.find(WRITTEN, first, stop) >= 0:
                continue
            if taken.find(LINED, first, stop) >= 0 and not (place.over and lines and self._are_of(lines, first, stop)):
                continue
            if self.put(column, place.row, text, style, owner):
                return True
        return False

    def _are_of(self, owner: str, first: int, stop: int) -> bool:
        """True where no lines but those of a thing are in some cells."""
        return all(self._lines.get(index, owner) == owner for index in range(first, stop))

    def owner(self, column: int, row: int) -> str:
        """Whose text or dots are in a cell, or an empty text."""
        inside = 0 <= column < self.columns and 0 <= row < self.rows
        return self._owners.get(row * self.columns + column, "") if inside else ""

    def runs(self, row: int) -> Iterator[tuple[str, str]]:
        """A row as pieces of text with their styles; blanks have the style ``""``."""
        piece, style = "", ""
        for index in range(row * self.columns, (row + 1) * self.columns):
            sign, its = self._cell(index)
            if its != style and sign and piece:
                yield piece, style
                piece = ""
            style = its if sign else style
            piece += sign
        if piece:
            yield piece, style

    def _cell(self, index: int) -> tuple[str, str]:
        text = self._text[index]
        if text is not None:
            return text, self._styles["text"][index]
        if self._dots[index]:
            return chr(0x2800 | self._dots[index]), self._styles["dots"][index]
        if arms := self._arms[index]:
            special = {"round": _ROUND, "dashed": _DASHED}.get(self._looks[index], {})
            return special.get(arms, _GLYPHS[arms]), self._styles["arms"][index]
        if self._faint[index]:
            return self._faint[index], self._styles["faint"][index]
        return (self._fill[index], self._styles["fill"][index]) if self._fill[index] else (" ", "")

    def lines(self) -> list[str]:
        """Every row as plain text."""
        return ["".join(piece for piece, _ in self.runs(row)) for row in range(self.rows)]


@lru_cache(maxsize=8192)
def cells_of(text: str) -> tuple[str, ...]:
    """The text cell by cell: a wide character is followed by an empty one, a combining one joins the one before.

    Signs that join others, or choose how they look, are left out: terminals do not agree on their width.
    """
    plain = clean(text)
    if plain.isascii():
        return tuple(plain)
    found: list[str] = []
    for sign in plain:
        width = cell_len(sign)
        if width:
            found += [sign] + [""] * (width - 1)
        elif found and unicodedata.combining(sign):
            at = len(found) - 1 if found[-1] else len(found) - 2
            found[at] += sign
    if cell_len("".join(found)) != len(found):
        return tuple(sign if sign.isascii() else "?" for sign in plain)
    return tuple(found)


@lru_cache(maxsize=8192)
def shorten(text: str, room: int) -> str:
    """The text in so many cells, with an ellipsis at its end where something is left out."""
    cells = cells_of(text)
    if len(cells) <= room:
        return text
    kept = list(cells[: max(room - 1, 0)])
    if kept and cells[len(kept)] == "":  # half of a wide character
        kept.pop()
    return "".join(kept).rstrip() + "…" if room > 0 else ""
