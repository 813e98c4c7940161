"""Plane geometry in whole nanometres: upright rectangles on a wall or a floor plan, and the sweep of hinged
doors.

Answers that can be whole numbers are whole numbers, so two edges that touch are told from two that overlap by
a hair. Only the areas bounded by an arc are floating point. Plane geometry; no source needed.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from math import asin, isqrt, sqrt

import msgspec


class Rect(msgspec.Struct, frozen=True):
    """An upright rectangle: its left bottom corner, width and height, nanometres."""

    x_nm: int
    y_nm: int
    width_nm: int
    height_nm: int

    @property
    def right_nm(self) -> int:
        """The right edge."""
        return self.x_nm + self.width_nm

    @property
    def top_nm(self) -> int:
        """The top edge."""
        return self.y_nm + self.height_nm

    @property
    def area_nm2(self) -> int:
        """The area, square nanometres."""
        return self.width_nm * self.height_nm


class Swing(msgspec.Struct, frozen=True):
    """What a hinged door sweeps in plan from shut to open at 90°: a quarter of a disc about its hinge.

    `to_x` and `to_y` are +1 or -1 and say into which quarter, seen from the hinge, the door turns.
    """

    hinge_x_nm: int
    hinge_y_nm: int
    width_nm: int
    to_x: int = 1
    to_y: int = 1

    @property
    def box(self) -> Rect:
        """The square that holds the sweep."""
        x = self.hinge_x_nm - (self.width_nm if self.to_x < 0 else 0)
        y = self.hinge_y_nm - (self.width_nm if self.to_y < 0 else 0)
        return Rect(x, y, self.width_nm, self.width_nm)


def nearest_root(numerator: int, denominator: int = 1) -> int:
    """The whole number nearest to the square root of a fraction, without a floating point step.

    Raises ValueError for a negative fraction or a denominator below 1.
    """
    if denominator < 1 or numerator < 0:
        raise ValueError("a root needs a fraction of at least 0 with a denominator of at least 1")
    return (isqrt(4 * numerator // denominator) + 1) // 2


def overlap_rect(one: Rect, other: Rect) -> Rect | None:
    """The rectangle that two rectangles share; None when they share no area (touching edges share none)."""
    x, y = max(one.x_nm, other.x_nm), max(one.y_nm, other.y_nm)
    width = min(one.right_nm, other.right_nm) - x
    height = min(one.top_nm, other.top_nm) - y
    return Rect(x, y, width, height) if width > 0 and height > 0 else None


def overlap_area(one: Rect, other: Rect) -> int:
    """The area that two rectangles share, square nanometres."""
    shared = overlap_rect(one, other)
    return shared.area_nm2 if shared else 0


def union_area(one: Rect, other: Rect) -> int:
    """The area that two rectangles cover together, square nanometres, the shared part counted once."""
    return one.area_nm2 + other.area_nm2 - overlap_area(one, other)


def inside(inner: Rect, outer: Rect, margin_nm: int = 0) -> bool:
    """Whether `inner` lies within `outer` with at least `margin_nm` left on each of the four sides."""
    return (
        inner.x_nm - outer.x_nm >= margin_nm
        and inner.y_nm - outer.y_nm >= margin_nm
        and outer.right_nm - inner.right_nm >= margin_nm
        and outer.top_nm - inner.top_nm >= margin_nm
    )


def distance_squared(one: Rect, other: Rect) -> int:
    """The square of the shortest distance between two rectangles, exact, square nanometres; 0 when they
    meet."""
    dx = max(one.x_nm - other.right_nm, other.x_nm - one.right_nm, 0)
    dy = max(one.y_nm - other.top_nm, other.y_nm - one.top_nm, 0)
    return dx * dx + dy * dy


def distance_nm(one: Rect, other: Rect) -> int:
    """The shortest distance between two rectangles, to the nearest nanometre; 0 when they touch or
    overlap."""
    return nearest_root(distance_squared(one, other))


def swing_hits(swing: Swing, rect: Rect) -> bool:
    """Whether a door that opens runs into a rectangle in plan; exact. Touching the edge or the arc is no
    hit."""
    shared = overlap_rect(swing.box, rect)
    if shared is None:
        return False
    dx = _between(swing.hinge_x_nm, shared.x_nm, shared.right_nm) - swing.hinge_x_nm
    dy = _between(swing.hinge_y_nm, shared.y_nm, shared.top_nm) - swing.hinge_y_nm
    return dx * dx + dy * dy < swing.width_nm**2


def swings_meet(one: Swing, other: Swing) -> bool:
    """Whether two doors sweep over common ground in plan; exact. Touching sweeps do not meet.

    Both doors can stand anywhere in their sweep, so a meeting is a possible knock, not a certain one.
    The test finds the point of the shared square that lies deepest in both discs, in exact fractions.
    """
    shared = overlap_rect(one.box, other.box)
    if shared is None:
        return False
    for first, second in ((one, other), (other, one)):
        x = _between(first.hinge_x_nm, shared.x_nm, shared.right_nm)
        y = _between(first.hinge_y_nm, shared.y_nm, shared.top_nm)
        if _depth(first, Fraction(x), Fraction(y)) >= _depth(second, Fraction(x), Fraction(y)):
            return _depth(first, Fraction(x), Fraction(y)) < 0
    point = _deepest_on_common_chord(one, other, shared)
    return point is not None and _depth(one, *point) < 0


def overlap_swing_rect(swing: Swing, rect: Rect) -> float:
    """The part of a rectangle that a door sweeps over in plan, square nanometres (floating point)."""
    return _overlap(_swing_region(swing), _rect_region(rect))


def overlap_swings(one: Swing, other: Swing) -> float:
    """The ground that two doors both sweep over, square nanometres (floating point)."""
    return _overlap(_swing_region(one), _swing_region(other))


def union_swings(one: Swing, other: Swing) -> float:
    """The ground that two doors sweep over together, square nanometres, the shared part counted once."""
    each = [overlap_swing_rect(swing, swing.box) for swing in (one, other)]
    return sum(each) - overlap_swings(one, other)


def _between(value: int, low: int, high: int) -> int:
    return min(max(value, low), high)


def _depth(swing: Swing, x: Fraction, y: Fraction) -> Fraction:
    """Negative inside the disc of the swing, 0 on its circle."""
    return (x - swing.hinge_x_nm) ** 2 + (y - swing.hinge_y_nm) ** 2 - swing.width_nm**2


def _deepest_on_common_chord(one: Swing, other: Swing, box: Rect) -> tuple[Fraction, Fraction] | None:
    """The point of the box on the line where both depths are equal, nearest to the first hinge."""
    nx, ny = other.hinge_x_nm - one.hinge_x_nm, other.hinge_y_nm - one.hinge_y_nm
    square = nx * nx + ny * ny
    if square == 0:
        return None
    along = Fraction(square + one.width_nm**2 - other.width_nm**2, 2 * square)
    foot_x, foot_y = one.hinge_x_nm + along * nx, one.hinge_y_nm + along * ny
    # The chord is (foot_x - ny·t, foot_y + nx·t); cut the range of t to the box, then take the t nearest to
    # 0.
    low, high = Fraction(-square - 1), Fraction(square + 1)
    for foot, step, start, end in (
        (foot_x, -ny, box.x_nm, box.right_nm),
        (foot_y, nx, box.y_nm, box.top_nm),
    ):
        if step == 0:
            if not start <= foot <= end:
                return None
            continue
        ends = sorted(((start - foot) / step, (end - foot) / step))
        low, high = max(low, ends[0]), min(high, ends[1])
    if low > high:
        return None
    at = min(max(Fraction(0), low), high)
    return foot_x - ny * at, foot_y + nx * at


class _Edge(msgspec.Struct, frozen=True):
    """The lower or upper edge of a region over x: a level line, or half a circle above (+1) or below (-1)."""

    y: float
    bend: int = 0
    x: float = 0.0
    radius: float = 0.0

    def at(self, x: float) -> float:
        return self.y + self.bend * sqrt(max(0.0, self.radius**2 - (x - self.x) ** 2))

    def area(self, start: float, end: float) -> float:
        """The area between the edge and y = 0 from `start` to `end`."""
        flat = self.y * (end - start)
        return flat + self.bend * (self._half(end) - self._half(start)) if self.bend else flat

    def _half(self, x: float) -> float:
        u = min(max((x - self.x) / self.radius, -1.0), 1.0)
        return self.radius**2 / 2 * (u * sqrt(max(0.0, 1 - u * u)) + asin(u))


class _Region(msgspec.Struct, frozen=True):
    left: float
    right: float
    low: _Edge
    high: _Edge


def _rect_region(rect: Rect) -> _Region:
    return _Region(rect.x_nm, rect.right_nm, _Edge(rect.y_nm), _Edge(rect.top_nm))


def _swing_region(swing: Swing) -> _Region:
    box = swing.box
    level = _Edge(swing.hinge_y_nm)
    arc = _Edge(swing.hinge_y_nm, 1 if swing.to_y > 0 else -1, swing.hinge_x_nm, swing.width_nm)
    low, high = (level, arc) if swing.to_y > 0 else (arc, level)
    return _Region(box.x_nm, box.right_nm, low, high)


def _overlap(one: _Region, other: _Region) -> float:
    """Area shared by two regions: cut x where any two edges cross, then add the exact area of each strip."""
    left, right = max(one.left, other.left), min(one.right, other.right)
    if left >= right:
        return 0.0
    cuts = {left, right}
    edges = (one.low, one.high, other.low, other.high)
    for index, edge in enumerate(edges):
        for second in edges[index + 1 :]:
            cuts.update(x for x in _crossings(edge, second) if left < x < right)
    total = 0.0
    for start, end in pairwise(sorted(cuts)):
        middle = (start + end) / 2
        high = min((one.high, other.high), key=lambda edge: edge.at(middle))
        low = max((one.low, other.low), key=lambda edge: edge.at(middle))
        if high.at(middle) > low.at(middle):
            total += high.area(start, end) - low.area(start, end)
    return total


def _crossings(one: _Edge, other: _Edge) -> tuple[float, ...]:
    """The x at which two edges can cross; may hold an x at which they do not, which only cuts a strip in
    two."""
    if not one.bend and not other.bend:
        return ()
    if one.bend and other.bend:
        return _circle_crossings(one, other)
    arc, level = (one, other) if one.bend else (other, one)
    square = arc.radius**2 - (level.y - arc.y) ** 2
    return (arc.x - sqrt(square), arc.x + sqrt(square)) if square > 0 else ()


def _circle_crossings(one: _Edge, other: _Edge) -> tuple[float, ...]:
    dx, dy = other.x - one.x, other.y - one.y
    square = dx * dx + dy * dy
    if square == 0:
        return ()
    along = (square + one.radius**2 - other.radius**2) / (2 * square)
    rest = one.radius**2 / square - along**2
    if rest <= 0:
        return ()
    foot, reach = one.x + along * dx, sqrt(rest) * dy
    return (foot - reach, foot + reach)
