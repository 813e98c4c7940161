"""A fan at its working point: what it moves through the openings of a cabinet, and how loud it is then.

Flow in cfm, pressure in inches of water, free areas in square inches. A fan's curve is taken as a straight line from
its shut-off pressure to its free flow, a first answer; its manufacturer's own curve wins.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import log10, pi, sqrt
from typing import NamedTuple

VELOCITY = 4005.0
"""Feet a minute of air at the square root of one inch of water: standard air, every HVAC text."""
DISCHARGE = 0.6
"""Share of the ideal flow through a grille or a sharp hole: common practice (from memory, medium)."""
SMALL_FAN_INH2O = 0.10
"""Shut-off pressure of a small cabinet fan whose maker says nothing: our own assumption."""
GRILLE_SHARE = 0.5
"""Free share of a grille's face when its maker says nothing, 50 to 75 %: common practice (from memory, medium)."""
CLOTH_SHARE = 0.5
"""What a cloth or a filter over it leaves: from memory (low); measure it."""
NOISE_STEP = 50.0
"""Decibels by ten times the speed: fan laws, 50 · log10 of the speeds (from memory, medium)."""


class Working(NamedTuple):
    """Where a fan and its openings agree."""

    cfm: float
    inh2o: float


def resistance(free_in2: Sequence[float]) -> float | None:
    """Inches of water at one cfm squared of openings in a row: Σ 1 / (Cd · area · 4005)². None when one is shut.

    Raises ValueError for an area below 0.
    """
    if any(each < 0 for each in free_in2):
        raise ValueError("an opening has an area of at least 0")
    if any(each == 0 for each in free_in2):
        return None
    return sum((1 / (DISCHARGE * each / 144 * VELOCITY)) ** 2 for each in free_in2)


def working_point(free_cfm: float, shut_inh2o: float, resists: float) -> Working:
    """Flow and pressure where a straight fan curve meets resists · flow².

    Raises ValueError unless flow and pressure are above 0 and the resistance at least 0.
    """
    if min(free_cfm, shut_inh2o) <= 0 or resists < 0:
        raise ValueError("a fan has a flow and a pressure above 0, and a resistance is at least 0")
    if resists == 0:
        return Working(free_cfm, 0.0)
    slope = shut_inh2o / free_cfm
    flow = (-slope + sqrt(slope**2 + 4 * resists * shut_inh2o)) / (2 * resists)
    return Working(flow, resists * flow**2)


def free_flow_wanted(cfm: float, shut_inh2o: float, resists: float) -> float | None:
    """The free flow of a fan that moves a wanted flow against a resistance; None where its pressure is too small for
    any. Raises ValueError as `working_point` does."""
    if min(cfm, shut_inh2o) <= 0 or resists < 0:
        raise ValueError("a fan has a flow and a pressure above 0, and a resistance is at least 0")
    left = 1 - resists * cfm**2 / shut_inh2o
    return cfm / left if left > 0 else None


def vents_wanted(cfm: float, shut_inh2o: float) -> float:
    """Free area of each of two equal vents, square inches, that take half of a fan's pressure at a flow.

    A fan then has twice the free flow: the usual half. Raises ValueError unless flow and pressure are above 0.
    """
    if min(cfm, shut_inh2o) <= 0:
        raise ValueError("a flow and a pressure are above 0")
    return 144 * cfm * sqrt(2 / (shut_inh2o / 2)) / (DISCHARGE * VELOCITY)


def noise_at(noise_db: float, share: float) -> float:
    """Noise of a fan turned down to a share of its speed, decibels. Raises ValueError unless the share is above 0."""
    if share <= 0:
        raise ValueError("a fan that turns has a speed above 0")
    return noise_db + NOISE_STEP * log10(share)


def mesh_share(open_size: float, pitch: float) -> float:
    """Free share of a square woven mesh: (open / pitch)². Raises ValueError unless 0 ≤ open ≤ pitch."""
    _within(open_size, pitch)
    return (open_size / pitch) ** 2


def holes_share(diameter: float, pitch: float, staggered: bool = True) -> float:
    """Free share of a sheet of round holes: staggered at 60° π / (2√3) · (D / pitch)², else π / 4 · (D / pitch)².
    Raises ValueError unless 0 ≤ diameter ≤ pitch."""
    _within(diameter, pitch)
    return (pi / (2 * sqrt(3)) if staggered else pi / 4) * (diameter / pitch) ** 2


def _within(part: float, pitch: float) -> None:
    if pitch <= 0 or not 0 <= part <= pitch:
        raise ValueError("a hole is no wider than its pitch")
