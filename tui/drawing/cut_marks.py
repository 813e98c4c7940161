"""Runs that pass through a cut, in cells: a dot for a cable, a ring for a raceway, their tags together beside them."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from rich.cells import cell_len

from store.rules.drawing.cut_runs import WIRING
from store.rules.drawing.elevation import Spot
from tui.drawing.canvas import Grid
from tui.drawing.frame import Frame, Place

DOT, RING = "•", "∘"
APART = 2
"""Columns between marks of one row from which on they are named apart."""
LONGEST = 26
"""Cells of the tags of one bundle; the rest of them is counted."""
FAR, HIGH = 18, 5
"""How far to the side of its mark a label may stand, columns, and how far above or below it, rows."""


def through(frame: Frame, spots: Sequence[Spot]) -> list[list[Spot]]:
    """The marks that share a row and are close together, as they are named: raceways first."""
    found: list[list[Spot]] = []
    places = sorted(((frame.row(each.y), frame.column(each.x)), at) for at, each in enumerate(spots))
    last = (-1, 0)
    for place, at in places:
        if found and place[0] == last[0] and place[1] - last[1] <= APART:
            found[-1].append(spots[at])
        else:
            found.append([spots[at]])
        last = place
    return [sorted(group, key=lambda one: WIRING.index(one.layer)) for group in found]


def mark(grid: Grid, frame: Frame, group: Sequence[Spot], rank: Callable[[Spot], int], style: str) -> None:
    """The signs of a bundle: one in each cell that a run of it passes through."""
    row, owner = frame.row(group[0].y), max(group, key=rank).tag
    signs: dict[int, str] = {}
    for each in group:
        column = frame.column(each.x)
        signs[column] = RING if each.layer == "raceways" else signs.get(column, DOT)
    for column, sign in signs.items():
        grid.put(column, row, sign, style, owner)


def tags_of(group: Sequence[Spot], sign: Callable[[Spot], str], rank: Callable[[Spot], int]) -> str:
    """The tags of a bundle, what is selected first; as many as there is room for, and how many more there are."""
    names = list(dict.fromkeys(f"{sign(each)}{each.tag}" for each in sorted(group, key=lambda one: -rank(one))))
    if cell_len(" ".join(names)) <= LONGEST:
        return " ".join(names)
    kept: list[str] = []
    while cell_len(" ".join([*kept, names[len(kept)]])) <= LONGEST - 5:
        kept.append(names[len(kept)])
    return " ".join([*kept, f"+{len(names) - len(kept)}"])


def beside(frame: Frame, group: Sequence[Spot], *, upright: bool) -> Iterator[Place]:
    """Where the tags of a bundle may stand: of an upright cut behind the wall or before it, of a level one above it."""
    columns, row = [frame.column(each.x) for each in group], frame.row(group[0].y)
    low, high = min(columns), max(columns)
    if not upright:
        for down in (*range(1, HIGH + 1), *range(-1, -HIGH - 1, -1)):
            yield Place((low + high) // 2, row - down, 0, LONGEST)
    for off in range(1, FAR + 1):
        yield Place(high + off, row, -1, LONGEST)
    for off in range(1, FAR + 1):
        yield Place(low - off, row, 1, LONGEST)
    for down in (1, -1):
        yield Place(high + 1, row + down, -1, LONGEST)
        yield Place(low - 1, row + down, 1, LONGEST)
