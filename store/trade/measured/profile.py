"""A line of several heights along a wall: a floor that runs out of level, a ceiling that slopes or steps.

Whole nanometres. Between two places the line is straight; one place given twice is a step. Left of the first place and
right of the last one it goes on level. Plane geometry; no source needed.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

import msgspec


class Profile(msgspec.Struct, frozen=True):
    """Places along a wall with their height, from left to right; at least one."""

    points: tuple[tuple[int, int], ...]

    def at(self, x_nm: int, low: bool = True) -> int:
        """The height at a place, rounded down; at a step the lower one, or with `low` off the higher one."""
        found = _heights(self.points, x_nm)
        return min(found) if low else max(found)

    def lowest(self, left_nm: int, right_nm: int) -> int:
        """The least height over a stretch."""
        return min(self._over(left_nm, right_nm))

    def highest(self, left_nm: int, right_nm: int) -> int:
        """The greatest height over a stretch."""
        return max(self._over(left_nm, right_nm))

    def _over(self, left: int, right: int) -> list[int]:
        within = [y for x, y in self.points if left < x < right]
        # At the two ends only the side that lies within the stretch counts: a thing may touch a step.
        return [*within, _side(self.points, left, 1), _side(self.points, right, -1)]

    def corners(self, left_nm: int, right_nm: int) -> tuple[tuple[int, int], ...]:
        """The line over a stretch as a row of points, its two ends among them."""
        within = [(x, y) for x, y in self.points if left_nm < x < right_nm]
        ends = (left_nm, _side(self.points, left_nm, 1)), (right_nm, _side(self.points, right_nm, -1))
        return (ends[0], *within, ends[1])

    def clipped(self, left_nm: int, right_nm: int, most_nm: int) -> tuple[tuple[int, int], ...]:
        """The line over a stretch, or a level one where that is lower, as a row of points."""
        points = self.corners(left_nm, right_nm)
        found: list[tuple[int, int]] = []
        for (x, y), (to_x, to_y) in pairwise(points):
            found.append((x, min(y, most_nm)))
            if (y - most_nm) * (to_y - most_nm) < 0:
                found.append((x + (to_x - x) * (most_nm - y) // (to_y - y), most_nm))
        found.append((points[-1][0], min(points[-1][1], most_nm)))
        return tuple(found)


def level(height_nm: int) -> Profile:
    """A line of one height."""
    return Profile(((0, height_nm),))


def profile(points: Sequence[tuple[int, int]]) -> Profile:
    """A line through places, in their order from left to right. Raises ValueError for none."""
    if not points:
        raise ValueError("a line needs one place with its height")
    # Sorted by place alone: of a step, the height that was given first is the one on its left.
    return Profile(tuple(sorted(points, key=lambda each: each[0])))


def _heights(points: Sequence[tuple[int, int]], x: int) -> list[int]:
    at = [y for place, y in points if place == x]
    return at or [_between(points, x)]


def _side(points: Sequence[tuple[int, int]], x: int, way: int) -> int:
    """The height just right of a place (way 1), or just left of it (-1)."""
    at = [y for place, y in points if place == x]
    if at:
        return at[-1] if way > 0 else at[0]
    return _between(points, x)


def _between(points: Sequence[tuple[int, int]], x: int) -> int:
    if x <= points[0][0]:
        return points[0][1]
    for (left, low), (right, high) in pairwise(points):
        if left <= x < right:
            return low + (high - low) * (x - left) // (right - left)
    return points[-1][1]
