"""How the ways of cables and raceways are drawn: in dots."""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise

from store.rules.drawing.elevation import Run
from tui.drawing.canvas import Frame, Grid
from tui.drawing.dots import cells_through

DASH = 3
"""Dots of a raceway that are drawn, and as many that are not."""


def draw_run(grid: Grid, frame: Frame, shape: Run, style: str, heavy: bool) -> None:
    """One way on a grid; what is selected is drawn heavy."""
    dash = dash_of(shape)
    grid.dots(cells_of_way(shape.points, frame, dash), style, shape.tag)
    for start, end in pairwise([frame.dot(point) for point in shape.points] if heavy else []):
        # a second row of dots beside the first, in the same cells
        level = abs(end[0] - start[0]) >= abs(end[1] - start[1])
        right = 0 if level else 1 - 2 * (start[0] & 1)
        down = (1 if start[1] & 3 < 3 else -1) if level else 0
        grid.line((start[0] + right, start[1] + down), (end[0] + right, end[1] + down), style, shape.tag, dash)


def dash_of(shape: Run) -> int:
    """How many dots on and as many off: of a raceway, which is hollow; 0 for a whole line."""
    return DASH if shape.layer == "raceways" else 0


@lru_cache(maxsize=16_384)
def cells_of_way(points: tuple[tuple[int, int], ...], frame: Frame, dash: int) -> dict[int, int]:
    """The cells of a run. Most runs of a drawing lie as in the drawing before."""
    return cells_through([frame.dot(point) for point in points], dash, frame.columns, frame.rows)
