"""Bends: how tight a cable may turn, and the room that takes."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise
from math import atan2, degrees, sqrt


def least_radius_nm(outside_nm: int, multiple: int | Fraction) -> int:
    """Return the smallest inside bend radius in nm, rounded up: outside diameter × multiple.

    The multiple comes with the kind of cable (4 for category cable: ANSI/TIA-568.0-D; 5 for NM: NEC 334.24).
    The manufacturer's figure wins. Raises ValueError unless both are positive.
    """
    if outside_nm <= 0 or multiple <= 0:
        raise ValueError("a cable has a diameter, and a bend a multiple of it, above nothing")
    radius = Fraction(multiple) * outside_nm
    return -(-radius.numerator // radius.denominator)


def room_for_turn_nm(plug_nm: int, outside_nm: int, multiple: int | Fraction) -> int:
    """Return the depth in nm that a plug and a right-angle turn behind it take, off the socket's face.

    The plug and its stiff part, then the inside radius, then the cable itself on the outside of the bend.
    """
    return plug_nm + least_radius_nm(outside_nm, multiple) + outside_nm


def turned_deg(points: Sequence[tuple[int, ...]]) -> float:
    """All turns of a way through its corners added up, degrees: 90 for one round a square corner. On the plane or in
    the room; plane geometry."""
    ways = [tuple(q - p for p, q in zip(a, b, strict=True)) for a, b in pairwise(points) if a != b]
    return round(sum(_turn_deg(one, other) for one, other in pairwise(ways)), 6)


def _turn_deg(one: tuple[int, ...], other: tuple[int, ...]) -> float:
    """The angle between two directions, degrees; from its sine and cosine, so that a straight way has none."""
    along = sum(a * b for a, b in zip(one, other, strict=True))
    across = sum(a * a for a in one) * sum(b * b for b in other) - along * along
    return degrees(atan2(sqrt(across), along))
