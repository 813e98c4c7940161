"""Stretches of cables and raceways, and how places on several walls become one way over them."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Iterator
from itertools import pairwise
from typing import Literal

import msgspec

from store.records.whole import Job
from store.rules.wall.places import Point
from store.rules.wall.unfold import flat

Place = Literal["wall", "beyond", "raceway", "cabinet"]
"""Where a stretch lies: in the wall, above or below it, in a raceway, or in front of the wall."""


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

    def legs(self, points: tuple[Point, ...], place: Place, beyond: int | None = None) -> Iterator[Leg]:
        """The stretches of a way; level ones at the height `beyond` lie above or below the walls."""
        for start, end in pairwise(points if len(points) > 1 else points * 2):
            lies: Place = "beyond" if start != end and start[1] == end[1] == beyond else place
            for a, b in pairwise((start, *self._cuts(start, end), end)):
                left, wall = self.faces[bisect_left(self.corners, (a[0] + b[0]) / 2)]
                yield Leg(wall, (a[0] - left, a[1]), (b[0] - left, b[1]), lies)

    def _cuts(self, start: Point, end: Point) -> Iterator[Point]:
        """Where a stretch passes a corner, from its start on."""
        low, high = sorted((start[0], end[0]))
        for at in sorted({each for each in self.corners if low < each < high}, reverse=start[0] > end[0]):
            yield at, start[1] + (end[1] - start[1]) * (at - start[0]) // (end[0] - start[0])


def enters(leg: Leg, corners: tuple[int, int, int, int]) -> bool:
    """Whether a stretch goes through the inside of a rectangle (left, low, right, top, nm); along its edge it does
    not."""
    (x, y), (to_x, to_y), (left, low, right, top) = leg.start, leg.end, corners
    if max(x, to_x) <= left or min(x, to_x) >= right or max(y, to_y) <= low or min(y, to_y) >= top:
        return False
    first, last = 0.0, 1.0
    for start, step, least, most in ((x, to_x - x, left, right), (y, to_y - y, low, top)):
        if step:
            enter, leave = sorted(((least - start) / step, (most - start) / step))
            first, last = max(first, enter), min(last, leave)
    return first < last
