"""A fan at its working point on the curve that its maker prints: points of flow and pressure, straight between them.

Flow in cfm, pressure in inches of water, free areas in square inches.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import sqrt

from store.trade.heat.fans import DISCHARGE, Working

Curve = tuple[tuple[float, float], ...]
"""Flow and pressure of each point, the least flow first."""
FRICTION = 0.03
"""Darcy's friction factor of a small raceway, a little rough or corrugated: common practice (from memory, medium)."""


def as_curve(points: Sequence[tuple[float, float]]) -> Curve:
    """The points in order of flow. Raises ValueError for fewer than two, one flow twice, anything below 0, a curve
    without any pressure, or one that does not fall from its first to its last point."""
    found = tuple(sorted(points))
    if len(found) < 2:
        raise ValueError("a curve has two points or more")
    if any(min(each) < 0 for each in found):
        raise ValueError("flow and pressure are at least 0")
    if any(one[0] == other[0] for one, other in pairwise(found)):
        raise ValueError("one flow has one pressure")
    if found[0][1] <= found[-1][1]:
        raise ValueError("more flow goes with less pressure")
    return found


def on_curve(curve: Curve, resists: float) -> Working:
    """Where the curve meets resists · flow²: of several places, as a dip makes them, the one of least flow.

    Below its first point the curve is taken as level, past its last as going no further: both move no more than the fan
    does. Raises ValueError for a resistance below 0.
    """
    if resists < 0:
        raise ValueError("a resistance is at least 0")
    (first, most), (last, least) = curve[0], curve[-1]
    if resists * first**2 >= most:
        return Working(sqrt(most / resists), most)
    for (near, high), (far, low) in pairwise(curve):
        if resists * far**2 >= low:
            slope = (low - high) / (far - near)
            # resists q² - slope q - (high - slope near) = 0
            flow = (slope + sqrt(slope**2 + 4 * resists * (high - slope * near))) / (2 * resists) if resists else far
            return Working(flow, resists * flow**2)
    return Working(last, least)


def flow_sold(curve: Curve, cfm: float, resists: float) -> float | None:
    """The last flow of a fan with such a curve, wider or narrower, that moves a wanted flow against a resistance.

    None where its pressure is too small for any. Raises ValueError unless the flow is above 0 and the resistance at
    least 0.
    """
    if cfm <= 0 or resists < 0:
        raise ValueError("a flow is above 0 and a resistance at least 0")
    asked = resists * cfm**2
    at = curve[-1][0] if asked <= curve[-1][1] else 0.0
    for (near, high), (far, low) in pairwise(curve):
        if low < asked <= high:
            at = max(at, near + (far - near) * (high - asked) / (high - low))
    return curve[-1][0] * cfm / at if at > 0 else None


def pipe_area(bore_in2: float, bore_in: float, long_in: float) -> float:
    """Free area of an opening that resists as a pipe does, in²: its ends as a hole, its length by Darcy's friction.

    1 / (Cd A)² + f L / (D A²) = 1 / (Cd A')² (Darcy-Weisbach, every text of fluid mechanics). Raises ValueError for a
    bore not above 0 or a length below 0.
    """
    if min(bore_in2, bore_in) <= 0 or long_in < 0:
        raise ValueError("a pipe has a bore above 0 and a length of at least 0")
    return bore_in2 / sqrt(1 + DISCHARGE**2 * FRICTION * long_in / bore_in)
