"""The shortest way square to the framing between two places on a wall, round what stands in it.

Whole nanometres. The way lies on the lines through both ends and along the edges of what is in the way: some shortest
way always does. Plane geometry; the search is E. W. Dijkstra's, Numerische Mathematik 1 (1959), pages 269 to 271.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterable, Sequence
from functools import cache
from heapq import heappop, heappush

from store.trade.measured.plane import Rect

Point = tuple[int, int]
Span = tuple[int, int]
_STEPS = ((1, 0), (-1, 0), (0, 1), (0, -1))


def way_round(start: Point, end: Point, blocked: Iterable[Rect], within: Rect) -> tuple[Point, ...] | None:
    """The shortest way of level and upright stretches, of several the one with the fewest turns, as its corners.

    It keeps out of the inside of every rectangle in `blocked` (along an edge is outside) and in `within`; the ends may
    be outside of that. None where there is none, such as for an end inside of a rectangle.
    """
    shut = [each for each in blocked if each.width_nm > 0 and each.height_nm > 0]
    if any(_inside(at, each) for at in (start, end) for each in shut):
        return None
    across = _lines(start[0], end[0], within.x_nm, within.right_nm, [(each.x_nm, each.right_nm) for each in shut])
    up = _lines(start[1], end[1], within.y_nm, within.top_nm, [(each.y_nm, each.top_nm) for each in shut])
    first = across.index(start[0]), up.index(start[1])
    last = across.index(end[0]), up.index(end[1])
    beside_row = _met_on(up, [((each.y_nm, each.top_nm), (each.x_nm, each.right_nm)) for each in shut])
    beside_column = _met_on(across, [((each.x_nm, each.right_nm), (each.y_nm, each.top_nm)) for each in shut])
    best: dict[tuple[int, int, int], tuple[int, int]] = {}
    before: dict[tuple[int, int, int], tuple[int, int, int]] = {}
    queue: list[tuple[int, int, tuple[int, int, int]]] = []
    free: dict[tuple[bool, int, int], bool] = {}  # steps along a row or a column: each is come upon from several sides
    for way in range(len(_STEPS)):
        best[(*first, way)] = (0, 0)
        heappush(queue, (0, 0, (*first, way)))
    while queue:
        length, turns, here = heappop(queue)
        if (length, turns) > best[here]:
            continue
        i, j, heading = here
        if (i, j) == last:
            return _corners(here, before, across, up)
        for way, (by_x, by_y) in enumerate(_STEPS):
            to_i, to_j = i + by_x, j + by_y
            if not (0 <= to_i < len(across) and 0 <= to_j < len(up)) or (by_x, by_y) == _back(heading):
                continue
            row = by_x != 0
            step = (row, min(i, to_i), j) if row else (row, i, min(j, to_j))
            low, high = (across[step[1]], across[step[1] + 1]) if row else (up[step[2]], up[step[2] + 1])
            if step not in free:
                walls = beside_row(j) if row else beside_column(i)
                free[step] = not any(low < most and least < high for least, most in walls)
            if not free[step]:
                continue
            cost = length + high - low, turns + (way != heading)
            node = to_i, to_j, way
            if node not in best or cost < best[node]:
                best[node], before[node] = cost, here
                heappush(queue, (*cost, node))
    return None


def enters(start: Point, end: Point, rect: Rect) -> bool:
    """Whether a straight stretch goes through the inside of a rectangle; along its edge it does not."""
    (x, y), (to_x, to_y) = start, end
    if max(x, to_x) <= rect.x_nm or min(x, to_x) >= rect.right_nm:
        return False
    if max(y, to_y) <= rect.y_nm or min(y, to_y) >= rect.top_nm:
        return False
    if x == to_x or y == to_y:
        return True
    first, last = 0.0, 1.0
    for at, step, least, most in ((x, to_x - x, rect.x_nm, rect.right_nm), (y, to_y - y, rect.y_nm, rect.top_nm)):
        enter, leave = sorted(((least - at) / step, (most - at) / step))
        first, last = max(first, enter), min(last, leave)
    return first < last


def turns_of(points: Sequence[Point]) -> int:
    """How often a way changes its direction."""
    ways = [(_sign(b[0] - a[0]), _sign(b[1] - a[1])) for a, b in itertools.pairwise(points) if a != b]
    return sum(one != other for one, other in itertools.pairwise(ways))


def _met_on(lines: Sequence[int], shut: Sequence[tuple[Span, Span]]) -> Callable[[int], tuple[Span, ...]]:
    """What is met on each line, by its number: the spans along it of all whose span across it has it inside."""

    @cache
    def met(number: int) -> tuple[Span, ...]:
        return tuple(along for (least, most), along in shut if least < lines[number] < most)

    return met


def _lines(start: int, end: int, low: int, high: int, edges: Iterable[tuple[int, int]]) -> list[int]:
    inner = {each for pair in edges for each in pair if low <= each <= high}
    return sorted({start, end} | inner)


def _inside(at: Point, rect: Rect) -> bool:
    return rect.x_nm < at[0] < rect.right_nm and rect.y_nm < at[1] < rect.top_nm


def _back(way: int) -> tuple[int, int]:
    return -_STEPS[way][0], -_STEPS[way][1]


def _corners(
    here: tuple[int, int, int],
    before: dict[tuple[int, int, int], tuple[int, int, int]],
    across: Sequence[int],
    up: Sequence[int],
) -> tuple[Point, ...]:
    nodes = [here]
    while nodes[-1] in before:
        nodes.append(before[nodes[-1]])
    points = [(across[i], up[j]) for i, j, _ in reversed(nodes)]
    kept = [points[0]]
    for at, point in enumerate(points[1:], 1):
        after = points[at + 1] if at + 1 < len(points) else None
        straight = after is not None and (kept[-1][0] == point[0] == after[0] or kept[-1][1] == point[1] == after[1])
        if not straight and point != kept[-1]:
            kept.append(point)
    return tuple(kept)


def _sign(value: int) -> int:
    return (value > 0) - (value < 0)
