"""Lines of dots, two across and four down in a cell, by the cells that they go through."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import NamedTuple

_DOTS = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))
"""Bit of each dot of a braille cell, by row and column: the Unicode Standard, block 2800."""
Dot = tuple[int, int]
"""Across and down, as `Frame.dot` counts."""


class Way(NamedTuple):
    """The cells of a line of dots, as a drawing of thousands of them asks for them."""

    cells: Mapping[int, int]
    """Each with its bits, as `cells_through` gives them."""
    there: int
    """The bit of the number of each of the cells."""
    lit: tuple[tuple[int, tuple[int, ...]], ...]
    """The cells by their bits: most of a line has one and the same."""

    @classmethod
    def of(cls, cells: Mapping[int, int]) -> Way:
        """The way through some cells."""
        lit: dict[int, list[int]] = {}
        there = 0
        for index, bits in cells.items():
            lit.setdefault(bits, []).append(index)
            there |= 1 << index
        return cls(cells, there, tuple((bits, tuple(each)) for bits, each in lit.items()))


def cells_through(dots: Sequence[Dot], dash: int, columns: int, rows: int) -> dict[int, int]:
    """The cells of a grid that a line of dots from one dot to the next goes through, by their numbers, each with its
    bits."""
    found: dict[int, int] = {}
    for start, end in pairwise(dots):
        across, down = end[0] - start[0], end[1] - start[1]
        steps = max(abs(across), abs(down), 1)
        first, last = _within(start[0], across, steps, 2 * columns)
        other_first, other_last = _within(start[1], down, steps, 4 * rows)
        for step in range(max(first, other_first), min(last, other_last) + 1):
            x = start[0] + (2 * across * step + steps) // (2 * steps)
            y = start[1] + (2 * down * step + steps) // (2 * steps)
            shown = not dash or step // dash % 2 == 0
            if shown and 0 <= x < 2 * columns and 0 <= y < 4 * rows:
                index = (y >> 2) * columns + (x >> 1)
                found[index] = found.get(index, 0) | _DOTS[y & 3][x & 1]
    return found


def _within(start: int, way: int, steps: int, size: int) -> tuple[int, int]:
    """The first and last step of a way at which it can be on a side of a size, a step more at either end."""
    if way == 0:
        return (0, steps) if 0 <= start < size else (0, -1)
    ends = sorted((-start * steps // way, (size - start) * steps // way))
    return max(0, ends[0] - 1), min(steps, ends[1] + 1)
