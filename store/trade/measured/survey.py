"""What a set of tape readings says: which one governs, how far from square, and where the tape was likely
misread.

Lengths are whole nanometres and stay exact. Practice of cabinet fitting, from memory (high as practice): keep
every reading, build to the least, scribe to the difference between the greatest and the least.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import acos, asin, degrees, sqrt

import msgspec

from store.measure.length import FOOT_NM, INCH_NM, MM_NM

TOLERANCE_NM = INCH_NM // 8
"""Spread of readings, or difference of diagonals, taken as the same: 1/8 in, common practice for cabinets."""


class Spread(msgspec.Struct, frozen=True):
    """Readings of one thing, brought together, nanometres."""

    least_nm: int
    """What governs: nothing wider goes in."""
    greatest_nm: int
    scribe_nm: int
    """Greatest minus least: what a filler or scribe has to take up in all."""
    count: int
    within: bool
    """Whether the readings agree within the tolerance."""


class Square(msgspec.Struct, frozen=True):
    """How far an opening with equal opposite sides leans."""

    lean_nm: int
    """How far the top stands to the right of the bottom (left when negative), nanometres."""
    off_deg: float
    """Angle between the sides and the upright, degrees, with the sign of the lean."""
    diagonals_differ_nm: int
    misfit_nm: int
    """How much longer the diagonals are than these sides allow (shorter when negative), nanometres: far from
    0, a side or a diagonal was misread or opposite sides are not equal."""
    within: bool
    """Whether the diagonals agree within the tolerance."""


class Corner(msgspec.Struct, frozen=True):
    """A corner found from a triangle of three readings."""

    angle_deg: float
    off_deg: float
    """Angle minus 90°: above 0 the corner is open, below 0 it is closed."""
    off_nm: int
    """How far the end of the second leg is out of square, nanometres, with the sign of `off_deg`."""


class Slip(msgspec.Struct, frozen=True):
    """A difference between two readings that looks like a slip of the hand."""

    name: str
    step_nm: int
    rest_nm: int
    """What the difference leaves beside the step: the true difference, if it was this slip."""


class OddReading(msgspec.Struct, frozen=True):
    """A reading that differs from the middle one by what looks like a slip."""

    index: int
    against: int
    """Index of the middle reading. With two readings only, either can be the wrong one."""
    slip: Slip


# How people misread a tape (common practice, no source): the foot mark is dropped or counted twice; the hook
# is worn and the tape "burnt" an inch without taking it off; a whole ten of small marks is miscounted. The
# tens are exact, because a true difference is seldom a round number.
SLIPS = (
    ("one foot", FOOT_NM, INCH_NM // 2),
    ("one inch", INCH_NM, INCH_NM // 32),
    ("ten inches", 10 * INCH_NM, 0),
    ("one centimetre", 10 * MM_NM, 0),
    ("ten centimetres", 100 * MM_NM, 0),
    ("one metre", 1_000 * MM_NM, 10 * MM_NM),
)


def spread(readings_nm: Sequence[int], tolerance_nm: int = TOLERANCE_NM) -> Spread:
    """Least, greatest, scribe and agreement of readings of one thing. Raises ValueError for no reading at
    all."""
    if not readings_nm:
        raise ValueError("a spread needs at least one reading")
    least, greatest = min(readings_nm), max(readings_nm)
    return Spread(least, greatest, greatest - least, len(readings_nm), greatest - least <= tolerance_nm)


def square_by_diagonals(
    width_nm: int, height_nm: int, rising_nm: int, falling_nm: int, tolerance_nm: int = TOLERANCE_NM
) -> Square:
    """Lean of an opening from its sides and both diagonals.

    `rising_nm` runs from the left bottom corner to the right top one, `falling_nm` from left top to right
    bottom. With opposite sides equal, the law of cosines in both triangles gives rising² - falling² = 4 ·
    width · lean, so the lean is (rising² - falling²) / 4·width and the angle asin(lean / height); and rising²
    + falling² must be twice width² + height². Raises ValueError when a figure is not above 0 or no such
    opening exists. It does not hold for an opening with unequal opposite sides; `misfit_nm` shows some of
    those, not all.
    """
    if min(width_nm, height_nm, rising_nm, falling_nm) <= 0:
        raise ValueError("squareness needs two sides and two diagonals above 0")
    squares = rising_nm**2 - falling_nm**2
    if abs(squares) > 4 * width_nm * height_nm:
        raise ValueError("no opening has these sides and diagonals: read them again")
    misfit = sqrt((rising_nm**2 + falling_nm**2) / 2) - sqrt(width_nm**2 + height_nm**2)
    differ = abs(rising_nm - falling_nm)
    return Square(
        _nearest(squares, 4 * width_nm),
        degrees(asin(squares / (4 * width_nm * height_nm))),
        differ,
        round(misfit),
        differ <= tolerance_nm,
    )


def corner(leg_nm: int, other_nm: int, across_nm: int) -> Corner:
    """The angle of a corner from marks along both legs and the reading across them, by the law of cosines.

    The 3-4-5 check is this with legs of 3 and 4: across is 5 when the corner is square. Raises ValueError
    when a figure is not above 0 or the three make no triangle.
    """
    if min(leg_nm, other_nm, across_nm) <= 0:
        raise ValueError("a corner needs three readings above 0")
    rest = leg_nm**2 + other_nm**2 - across_nm**2
    if abs(rest) > 2 * leg_nm * other_nm:
        raise ValueError("these three readings make no triangle: read them again")
    angle = degrees(acos(rest / (2 * leg_nm * other_nm)))
    return Corner(angle, angle - 90, -_nearest(rest, 2 * leg_nm))


def likely_slip(one_nm: int, other_nm: int) -> Slip | None:
    """The slip of the hand that two readings of the same thing look like; None when their difference looks
    real.

    A foot within 1/2 in, an inch within 1/32 in, a metre within 10 mm, and exactly ten inches, one or ten
    centimetres. Common practice, no source; a hint to read again, nothing more.
    """
    difference = abs(one_nm - other_nm)
    found = [Slip(name, step, difference - step) for name, step, near in SLIPS if abs(difference - step) <= near]
    return min(found, key=lambda slip: abs(slip.rest_nm), default=None)


def odd_readings(readings_nm: Sequence[int]) -> tuple[OddReading, ...]:
    """The readings that differ by what looks like a slip, in the order they were given.

    From the middle one first; where no reading differs from that by a slip, from any other: of such a pair the one
    farther from the middle is the odd one.
    """
    if len(readings_nm) < 2:
        return ()
    order = sorted(range(len(readings_nm)), key=lambda index: readings_nm[index])
    middle = order[(len(order) - 1) // 2]
    found = []
    for index, reading in enumerate(readings_nm):
        slip = likely_slip(reading, readings_nm[middle])
        if slip is not None:
            found.append(OddReading(index, middle, slip))
    if found or len(readings_nm) == 2:
        return tuple(found)

    def from_middle(index: int) -> int:
        return abs(readings_nm[index] - readings_nm[middle])

    for odd in sorted(order, key=from_middle, reverse=True):
        for against in sorted(order, key=from_middle):
            slip = likely_slip(readings_nm[odd], readings_nm[against])
            if slip is not None:
                return (OddReading(odd, against, slip),)
    return ()


def _nearest(numerator: int, denominator: int) -> int:
    """The whole number nearest to a fraction, halves away from zero, whichever its sign."""
    whole = (2 * abs(numerator) + denominator) // (2 * denominator)
    return whole if numerator >= 0 else -whole
