"""How the ways of cables and raceways are drawn: in dots."""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise

from store.rules.drawing.elevation import Run
from tui.drawing.canvas import Grid
from tui.drawing.dots import Way, cells_through
from tui.drawing.frame import Frame

DASH = 3
"""Dots of a raceway that are drawn, and as many that are not."""
MOST_WAYS = 16_384
"""Ways that are kept of a frame."""


def draw_run(grid: Grid, frame: Frame, shape: Run, style: str, heavy: bool) -> None:
    """One way on a grid; what is selected is drawn heavy."""
    dash = dash_of(shape)
    grid.dots(ways_in(frame, dash)[shape.points].cells, style, shape.tag)
    for start, end in pairwise([frame.dot(point) for point in shape.points] if heavy else []):
        # a second row of dots beside the first, in the same cells
        level = abs(end[0] - start[0]) >= abs(end[1] - start[1])
        right = 0 if level else 1 - 2 * (start[0] & 1)
        down = (1 if start[1] & 3 < 3 else -1) if level else 0
        grid.line((start[0] + right, start[1] + down), (end[0] + right, end[1] + down), style, shape.tag, dash)


def dash_of(shape: Run) -> int:
    """How many dots on and as many off: of a raceway, which is hollow; 0 for a whole line."""
    return DASH if shape.layer == "raceways" else 0


class Ways(dict[tuple[tuple[int, int], ...], Way]):
    """The ways of runs in a frame, by their points. Most runs of a drawing lie as in the drawing before."""

    def __init__(self, frame: Frame, dash: int) -> None:
        super().__init__()
        self._frame, self._dash = frame, dash

    def __missing__(self, points: tuple[tuple[int, int], ...]) -> Way:
        if len(self) >= MOST_WAYS:
            self.clear()
        frame = self._frame
        cells = cells_through([frame.dot(point) for point in points], self._dash, frame.columns, frame.rows)
        found = self[points] = Way.of(cells)
        return found


@lru_cache(maxsize=4)
def ways_in(frame: Frame, dash: int) -> Ways:
    """The ways in a frame, drawn with such a dash; those of the frame before are kept too."""
    return Ways(frame, dash)
