"""Stretches of cables and raceways: how places on several walls become one way over them, in the walls, over their top
along the ceiling line as it is, or under their floor.

Whole nanometres.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Iterator
from itertools import pairwise
from typing import Literal

import msgspec

from store.records.wall import Wall
from store.records.whole import Job
from store.rules.wall.lines import ceilings, floors
from store.rules.wall.places import Point
from store.rules.wall.readings import sizes
from store.rules.wall.unfold import flat
from store.trade.measured.profile import Profile, level

Place = Literal["wall", "beyond", "raceway", "cabinet"]
"""Where a stretch lies: in the wall, above or below it, in a raceway, or in front of the wall."""


OVER: Literal["up and over"] = "up and over"
UNDER: Literal["down and under"] = "down and under"
BEYOND: tuple[Literal["up and over", "down and under"], ...] = (OVER, UNDER)
"""Routes that leave the wall."""


class Leg(msgspec.Struct, frozen=True):
    """A straight stretch within one wall, in that wall's own places."""

    wall: str
    start: Point
    end: Point
    place: Place = "wall"


class Unfolded(msgspec.Struct, frozen=True):
    """Places on walls that are laid out flat: x runs on from the first wall over the corners."""

    points: tuple[Point, ...]
    walls: tuple[str, ...]
    """In turn."""
    faces: tuple[tuple[int, str], ...]
    """Each wall with where its left end lies, from the left."""
    corners: tuple[int, ...] = ()
    """Where each wall meets the next, from the left."""
    noted: bool = True
    other_by: int = 0

    @classmethod
    def of(cls, job: Job, places: Iterable[tuple[str, Point]]) -> Unfolded | str:
        """The places laid out flat, each beside the one before; in words what is missing."""
        (last, here), *others = places
        left, noted, longer = 0, True, 0
        points, faces, corners = [here], {0: last}, set()
        for wall, (x, y) in others:
            onward = flat(job, last, wall, points[-1][0] - left, x)
            if isinstance(onward, str):
                return onward
            faces.update({left + each.left: each.wall for each in onward.faces})
            corners |= {left + each for each in onward.corners}
            noted, longer = noted and onward.noted, longer + onward.other_by
            last, left = wall, left + onward.faces[-1].left
            points.append((left + x, y))
        walls = tuple(dict.fromkeys(faces.values()))
        return cls(tuple(points), walls, tuple(sorted(faces.items())), tuple(sorted(corners)), noted, longer)

    def legs(self, points: tuple[Point, ...], place: Place, beyond: frozenset[Point] = frozenset()) -> Iterator[Leg]:
        """The stretches of a way; those from place to place of `beyond` lie above or below the walls."""
        for start, end in pairwise(points if len(points) > 1 else points * 2):
            lies: Place = "beyond" if start != end and start in beyond and end in beyond else place
            for a, b in pairwise((start, *self._cuts(start, end), end)):
                left, wall = self.faces[bisect_left(self.corners, (a[0] + b[0]) / 2)]
                yield Leg(wall, (a[0] - left, a[1]), (b[0] - left, b[1]), lies)

    def _cuts(self, start: Point, end: Point) -> Iterator[Point]:
        """Where a stretch passes a corner, from its start on."""
        low, high = sorted((start[0], end[0]))
        for at in sorted({each for each in self.corners if low < each < high}, reverse=start[0] > end[0]):
            yield at, start[1] + (end[1] - start[1]) * (at - start[0]) // (end[0] - start[0])


def beyond_walls(job: Job, unfolded: Unfolded, how: str) -> tuple[Point, ...] | str:
    """The stretches above the walls or below them, from over the first end to over the last; in words what is missing.

    Where nobody entered a line, the ceiling is level at the height of the highest of the walls, and the floor at 0.
    """
    lines = _lines(job, unfolded, over=how == OVER)
    if isinstance(lines, str):
        return lines
    start, end = unfolded.points[0][0], unfolded.points[-1][0]
    points = tuple(_along(unfolded, lines, min(start, end), max(start, end)))
    return points if start <= end else points[::-1]


def _lines(job: Job, unfolded: Unfolded, *, over: bool) -> dict[str, Profile] | str:
    if not over:
        return {wall: floors(job).get(wall) or level(0) for wall in unfolded.walls}
    typed = {wall: ceilings(job).get(wall) for wall in unfolded.walls if has_line(job, wall)}
    known = {wall: sizes(job).get((wall, "height")) for wall in unfolded.walls if not typed.get(wall)}
    for wall, size in known.items():
        if size is None:
            return f"it goes over the top, and the height of {wall} is not read yet"
    high = level(max((size.least.nm for size in known.values() if size is not None), default=0))
    return {wall: typed.get(wall) or high for wall in unfolded.walls}


def _along(unfolded: Unfolded, lines: dict[str, Profile], low: int, high: int) -> Iterator[Point]:
    """The lines over a stretch of the walls, from left to right."""
    for at, (left, wall) in enumerate(unfolded.faces):
        last = at == len(unfolded.faces) - 1
        a = max(low, left) if at else low
        b = high if last else min(high, unfolded.faces[at + 1][0])
        if a < b or a == b == low == high:
            yield from ((left + x, y) for x, y in lines[wall].corners(a - left, b - left))


def has_line(job: Job, wall: str) -> bool:
    """True for a wall whose ceiling line was entered: it may slope or step."""
    one = job.of(Wall).get(wall)
    return one is not None and bool(one.ceiling_line)
