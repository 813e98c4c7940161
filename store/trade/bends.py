"""Bends: how tight a cable may turn, the room that takes, and how many turns a path makes."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise
from math import acos, degrees, floor, hypot, radians, sqrt, tan

from store.trade.cable_length import Point, path_length_nm


def least_radius_nm(outside_nm: int, multiple: int | Fraction) -> int:
    """Return the smallest inside bend radius in nm, rounded up: outside diameter × multiple.

    The multiple comes with the kind of cable (4 for category cable: ANSI/TIA-568.0-D; 5 for NM: NEC 334.24).
    The maker's figure wins. Raises ValueError unless both are positive.
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


def room_for_loop_nm(outside_nm: int, multiple: int | Fraction) -> int:
    """Return the clear width in nm of a U-turn or a coil: twice the inside radius and the cable on both sides."""
    return 2 * (least_radius_nm(outside_nm, multiple) + outside_nm)


def turns_deg(points: Sequence[Point]) -> tuple[float, ...]:
    """Return the angle, in degrees, by which the path turns at each inner point: 0 straight on, 180 back.

    Points that repeat are passed over, as they have no direction. For a raceway, `raceway_fill.bends_left_deg` says
    how much of its 360 degrees is left.
    """
    distinct = [one for at, one in enumerate(points) if at == 0 or one != points[at - 1]]
    return tuple(
        _turn_deg(before, here, after)
        for before, here, after in zip(distinct, distinct[1:], distinct[2:], strict=False)
    )


def _turn_deg(before: Point, here: Point, after: Point) -> float:
    first = [b - a for a, b in zip(before, here, strict=True)]
    second = [b - a for a, b in zip(here, after, strict=True)]
    dot = sum(a * b for a, b in zip(first, second, strict=True))
    cosine = dot / (hypot(*first) * hypot(*second))
    return degrees(acos(max(-1.0, min(1.0, cosine))))


def bent_length_nm(points: Sequence[Point], radius_nm: int) -> int:
    """Return the length in nm of a path whose corners are rounded to `radius_nm` (centre line of the cable).

    Each corner of angle t replaces two tangents of R·tan(t/2) by an arc R·t. Raises ValueError, naming the
    leg, if a leg is too short for the tangents at its ends, or the path turns straight back.
    """
    distinct = [one for at, one in enumerate(points) if at == 0 or one != points[at - 1]]
    angles = [radians(one) for one in turns_deg(distinct)]
    if any(one > radians(179.99) for one in angles):
        raise ValueError("the path turns straight back: no rounded corner joins its two legs")
    tangents = [0.0, *(radius_nm * tan(one / 2) for one in angles), 0.0]
    for leg, (one, two) in enumerate(pairwise(distinct), start=1):
        length = sqrt(sum((a - b) ** 2 for a, b in zip(one, two, strict=True)))
        if tangents[leg - 1] + tangents[leg] > length + 1:
            raise ValueError(f"leg {leg} of the path is too short for the bends at its ends")
    saved = sum(2 * radius_nm * tan(one / 2) - radius_nm * one for one in angles)
    return path_length_nm(distinct) - floor(saved)
