"""What a load away from the wall does to the screws behind it.

Statics: the bracket turns about its lowest line of bearing, so the load's lever is held by the pull of the upper
screws; all of them share the weight. Loads in pounds-force, lengths in inches. It does not hold where the bracket bears
on soft covering below its screws, nor for the bracket's own strength: its maker rates that.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, hypot
from typing import NamedTuple

from store.trade.build.screws import Held, at_angle

HANDLED_FACTOR = 2.0
"""Kept on top where people pull at it, as at an arm: common practice (from memory, medium)."""


class Hung(NamedTuple):
    """A weight and how far its middle is from the wall, at its worst place."""

    lbf: float
    out_in: float


class Load(NamedTuple):
    """On the screw that is loaded hardest, pounds-force."""

    pull_lbf: float
    shear_lbf: float

    @property
    def both_lbf(self) -> float:
        """Pull and weight together, at their angle."""
        return hypot(self.pull_lbf, self.shear_lbf)


def hardest(hung: Sequence[Hung], apart_in: float, upper: int, screws: int) -> Load:
    """The load on each screw of the upper row of a bracket.

    `apart_in` from the upper screws down to where it bears: the lower row, or the lower edge of a plate with one row.
    `upper` screws in the upper row of `screws` in all. Pull: Σ weight · lever / apart, over the upper ones; weight over
    all. Raises ValueError unless `apart_in` and the numbers are above 0, `upper` is no more than all, and no weight or
    lever is below 0.
    """
    if apart_in <= 0 or upper <= 0 or screws < upper or any(min(one) < 0 for one in hung):
        raise ValueError("a lever needs screws with a distance above 0 between them, and no weight or lever below 0")
    turning = sum(one.lbf * one.out_in for one in hung)
    return Load(turning / apart_in / upper, sum(one.lbf for one in hung) / screws)


def margin(held: Held, load: Load) -> float | None:
    """How many times the load on a screw it holds, in the direction of that load; None with no load."""
    return at_angle(held, *load) / load.both_lbf if load.both_lbf else None


def screws_needed(held: Held, hung: Sequence[Hung], apart_in: float, rows: int, factor: float = 1.0) -> int | None:
    """The least number of screws, in equal rows (one or two), that holds with a factor; None where no number does.

    Raises ValueError as `hardest` does, and for rows other than 1 and 2.
    """
    if rows not in (1, 2):
        raise ValueError("screws stand in one row or two")
    one = hardest(hung, apart_in, 1, rows)
    holds = at_angle(held, *one)
    if not one.both_lbf:
        return 0
    return None if holds <= 0 else rows * ceil(one.both_lbf * factor / holds - 1e-9)
