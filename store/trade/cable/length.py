"""How long a cable is: its path through the wall, the length to cut, the length to buy.

Lengths are whole nanometres, so that nothing is lost on the way from a tape reading to a shopping list. Where
a path is slanted its length is rounded up to the next nanometre: a cable is never cut short.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from decimal import Decimal
from fractions import Fraction
from itertools import pairwise
from math import isqrt

from store.measure.length import FOOT_NM, INCH_NM

METRE_NM = 1_000_000_000
QUARTER_METRE_NM = METRE_NM // 4

WASTE_PERCENT = 10
"""Share added to a measured path for sag and detours. Common practice, no source."""
OUTLET_SLACK_NM = 12 * INCH_NM
"""Slack left at a low-voltage outlet: 12 in at least. Common practice."""
EQUIPMENT_SLACK_NM = 3 * FOOT_NM
"""Slack left at the equipment end: 3 ft to 10 ft in a house. Common practice, no source."""
POWER_BOX_FREE_NM = 6 * INCH_NM
"""Free conductor at a power box: 6 in from where it leaves the sheath. NFPA 70 (NEC) 300.14."""

Point = tuple[int, int, int]
"""A place in nm: along the wall, up from the floor, out from the wall."""
Share = int | Decimal | Fraction


def _root_up(square: int) -> int:
    """Return the square root of a whole number, rounded up."""
    root = isqrt(square)
    return root if root * root == square else root + 1


def path_length_nm(points: Sequence[Point]) -> int:
    """Return the length in nm of a path of straight legs through the points; 0 for fewer than two.

    Exact for legs along an axis; a slanted leg is rounded up. Bends make the true path slightly shorter
    (`bends.bent_length_nm`), so this errs on the safe side.
    """
    return sum(_root_up(sum((a - b) ** 2 for a, b in zip(one, two, strict=True))) for one, two in pairwise(points))


def studs_crossed(from_nm: int, to_nm: int, centres_nm: Iterable[int], stud_nm: int = 0) -> tuple[int, ...]:
    """Return the centres of the studs that a level run goes through, in the order it meets them.

    Positions along the wall in nm; `stud_nm` is the thickness of a stud. A stud counts when any of it lies
    strictly between the two ends, so an end that only touches a face does not count and an end inside a stud
    does. Each one needs a bored hole (see the limits for boring).
    """
    low, high = min(from_nm, to_nm), max(from_nm, to_nm)
    # Doubling keeps half a stud whole when its thickness is an odd number of nm.
    met = {c for c in centres_nm if 2 * c + stud_nm > 2 * low and 2 * c - stud_nm < 2 * high and low != high}
    return tuple(sorted(met, reverse=to_nm < from_nm))


def round_up_nm(length_nm: int, step_nm: int) -> int:
    """Round a length up to a whole number of steps. Raises ValueError if the step is not positive."""
    if step_nm <= 0:
        raise ValueError("the step must be longer than nothing")
    return -(-length_nm // step_nm) * step_nm


def cut_length_nm(
    path_nm: int,
    waste_percent: Share = WASTE_PERCENT,
    start_allowance_nm: int = OUTLET_SLACK_NM,
    end_allowance_nm: int = EQUIPMENT_SLACK_NM,
    step_nm: int = FOOT_NM,
) -> int:
    """Return the length to cut, in nm: path × (1 + waste) plus the allowance at each end, rounded up.

    `step_nm` is FOOT_NM or QUARTER_METRE_NM. The rule is common practice. Raises ValueError on a negative
    length, allowance or waste.
    """
    if min(path_nm, start_allowance_nm, end_allowance_nm) < 0 or waste_percent < 0:
        raise ValueError("a path, an allowance and the waste cannot be negative")
    exact = path_nm * (1 + Fraction(waste_percent) / 100) + start_allowance_nm + end_allowance_nm
    whole = -(-exact.numerator // exact.denominator)
    return round_up_nm(whole, step_nm)


def next_sold_nm(needed_nm: int, sold_nm: Iterable[int]) -> int | None:
    """Return the shortest length sold that reaches, or None when none does.

    For a cable that comes with its plugs on: it cannot be cut, and what is over has to be coiled somewhere.
    """
    return min((one for one in sold_nm if one >= needed_nm), default=None)
