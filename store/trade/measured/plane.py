"""Plane geometry in whole nanometres: upright rectangles on a wall or a floor plan, and the sweep of hinged
doors.

Answers are whole numbers, so two edges that touch are shown from two that overlap by a hair. Plane geometry; no
source needed.
"""

from __future__ import annotations

from math import isqrt

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


def _between(value: int, low: int, high: int) -> int:
    return min(max(value, low), high)
