"""Where the label of a thing may stand on the drawing, the best place first."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise

from rich.cells import cell_len

from store.rules.drawing.elevation import Block, Run, Shape, Spot
from tui.drawing.frame import Frame, Place

LONGEST = 28
"""Cells of a label that stands outside its shape."""
MOST_CHARACTERS = 120
"""Of a name; no terminal line shows more of it."""


def box_of(frame: Frame, shape: Block) -> tuple[int, int, int, int]:
    """The cells of a rectangle: first column and row, last column and row."""
    left, bottom, right, top = shape.extent
    return frame.column(left), frame.row(top), frame.column(right), frame.row(bottom)


def places(frame: Frame, shape: Shape, need: int) -> Iterable[Place]:
    """Where a label may stand, the best first; `need` is what its tag takes."""
    if isinstance(shape, Spot):
        return _beside_spot(frame, shape, need)
    if isinstance(shape, Run):
        return _along(frame, shape, need)
    return _in_block(frame, shape, need, min(need + 1 + cell_len(shape.label[:MOST_CHARACTERS]), LONGEST))


def cells_near(frame: Frame, shape: Shape) -> list[tuple[int, int, int, int]]:
    """The cells near which a tag may stand where there is no room for a label: of a run at its middles."""
    if isinstance(shape, Block):
        return [box_of(frame, shape)]
    points = [shape.centre, *(_parted(shape, (4,)) if isinstance(shape, Run) else ())]
    cells = [(frame.column(x), frame.row(y)) for x, y in points]
    return [(column, row, column, row) for column, row in cells]


def _in_block(frame: Frame, shape: Block, need: int, name: int) -> Iterator[Place]:
    """On its upper edge for an opening, inside for the rest; then on its edges; then its name, no more, outside."""
    left, top, right, bottom = box_of(frame, shape)
    seen_left, seen_right = max(left, 0), min(right, frame.columns - 1)
    inner, middle = seen_right - seen_left - 1, (seen_left + seen_right) // 2
    sides = ((seen_left + 1, -1), (middle, 0), (seen_right - 1, 1))
    title = [Place(at, row, align, inner, over=True) for row in (top, bottom) for at, align in sides]
    if inner >= need:
        if shape.layer == "openings":
            yield from title[:3]
        inside = max(top, -1) + 1, min(bottom, frame.rows) - 1
        # A build-out is full of other things: its name is sought from its top down.
        rows = list(range(inside[0], inside[1] + 1)) if shape.layer == "build-outs" else list(_outward(*inside))
        yield from (Place(middle, row, 0, inner) for row in rows)
        yield from (Place(at, row, align, inner) for row in rows for at, align in (sides[0], sides[2]))
        yield from title
    half = (top + bottom) // 2
    yield Place(right + 1, half, -1, name)
    yield Place(left - 1, half, 1, name)
    yield Place(middle, top - 1, 0, name)
    yield Place(middle, bottom + 1, 0, name)


def _outward(first: int, last: int) -> Iterator[int]:
    """Rows from the middle one outwards."""
    middle = (first + last) // 2
    yield from sorted(range(first, last + 1), key=lambda row: abs(row - middle))


def _beside_spot(frame: Frame, shape: Spot, need: int) -> Iterator[Place]:
    column, row = frame.column(shape.x), frame.row(shape.y)
    yield Place(column + 1, row, -1, LONGEST)
    yield Place(column - 1, row, 1, LONGEST)
    yield Place(column, row - 1, 0, LONGEST)
    yield Place(column, row + 1, 0, LONGEST)


def _along(frame: Frame, shape: Run, need: int) -> Iterator[Place]:
    """Above or below the middle of the run and of its legs; on it, somewhere, where all else is taken."""
    middles = [shape.centre, *_parted(shape, (4,))]
    cells = [(frame.column(x), frame.row(y)) for x, y in middles]
    for column, row in cells:
        yield Place(column, row - 1, 0, LONGEST)
        yield Place(column, row + 1, 0, LONGEST)
        yield Place(column + 2, row, -1, LONGEST)
        yield Place(column - 2, row, 1, LONGEST)
    cells += [(frame.column(x), frame.row(y)) for x, y in _parted(shape, (2, 6, 1, 7))]
    yield from (Place(column, row, 0, need, over=True) for column, row in cells)


def _parted(shape: Run, eighths: tuple[int, ...]) -> Iterator[tuple[int, int]]:
    """The places so many eighths along each leg of a run."""
    for part in eighths:
        for a, b in pairwise(shape.points):
            yield a[0] + (b[0] - a[0]) * part // 8, a[1] + (b[1] - a[1]) * part // 8
