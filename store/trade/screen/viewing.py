"""The picture of a flat screen: its size, how wide it looks from a seat, and whether its mounting holes make
sense.

Sizes are of the picture. The outside of a set is a little larger, and "class" sizes are rounded: take the
outside size and the holes from the data sheet of the set itself, and use this only to place it and to doubt
it.
"""

from __future__ import annotations

from math import atan, degrees, radians, tan

import msgspec

from store.measure.length import INCH_NM, MM_NM
from store.measure.mass import KILOGRAM_UG, POUND_UG
from store.trade.measured.plane import nearest_root

WIDE_ASPECT = (16, 9)
ARC_MINUTE_DEG = 1 / 60

FARTHEST_SEAT_ANGLE_DEG = 30.0
"""Least horizontal angle of the picture from the farthest seat: SMPTE EG 18-1994 (seen in a secondary
copy)."""
CINEMA_ANGLES_DEG = (36.0, 40.0)
"""Angles that home cinemas aim at: common practice, no source."""
NEAR_ANGLE_DEG = 60.0
"""Beyond this the picture is wider than most people like: common practice, no source."""


class Picture(msgspec.Struct, frozen=True):
    """The size of a picture, nanometres."""

    width_nm: int
    height_nm: int


def picture_size(diagonal_nm: int, aspect: tuple[int, int] = WIDE_ASPECT) -> Picture:
    """Width and height of a picture from its diagonal and aspect, to the nearest nanometre (Pythagoras).

    Raises ValueError for a diagonal or an aspect that is not above 0.
    """
    across, up = aspect
    if diagonal_nm <= 0 or across <= 0 or up <= 0:
        raise ValueError("a picture needs a diagonal and an aspect above 0")
    square = across * across + up * up
    return Picture(nearest_root((diagonal_nm * across) ** 2, square), nearest_root((diagonal_nm * up) ** 2, square))


def horizontal_angle(width_nm: int, distance_nm: int) -> float:
    """The angle, degrees, that a picture fills from a seat straight in front of its centre: 2·atan(W / 2d).

    Raises ValueError unless both are above 0. A seat to one side sees a smaller angle.
    """
    if width_nm <= 0 or distance_nm <= 0:
        raise ValueError("an angle needs a width and a distance above 0")
    return degrees(2 * atan(width_nm / (2 * distance_nm)))


def distance_for_angle(width_nm: int, angle_deg: float) -> int:
    """The distance, nanometres, from which a picture fills an angle: W / (2·tan(θ/2)).

    Raises ValueError unless the width is above 0 and the angle lies between 0° and 180°.
    """
    if width_nm <= 0 or not 0 < angle_deg < 180:
        raise ValueError("a distance needs a width above 0 and an angle between 0° and 180°")
    return round(width_nm / (2 * tan(radians(angle_deg / 2))))


def acuity_distance(height_nm: int, lines: int) -> int:
    """The distance, nanometres, at which one line of the picture fills one minute of arc: H / (N·tan 1′).

    From farther away an eye of ordinary sharpness cannot part the lines, so more of them gain nothing.
    Raises ValueError unless both are above 0.
    """
    if height_nm <= 0 or lines <= 0:
        raise ValueError("an acuity distance needs a height and a number of lines above 0")
    return round(height_nm / (lines * tan(radians(ARC_MINUTE_DEG))))


class MountingClass(msgspec.Struct, frozen=True):
    """One class of the VESA Flat Display Mounting Interface: diagonals, hole patterns (across, up), screws,
    mass."""

    name: str
    below_nm: int
    patterns_mm: tuple[tuple[int, int], ...]
    screws: str
    mass_ug: int


# VESA FDMI, seen in secondary copies; from memory: the 75 × 35 of class C, the screws of B and C, the mass of
# F. A class reaches up to the first diagonal of the next one.
MOUNTING_CLASSES = (
    MountingClass("MIS-B", 8 * INCH_NM, ((50, 20),), "M4", 2 * KILOGRAM_UG),
    MountingClass("MIS-C", 12 * INCH_NM, ((75, 35),), "M4", KILOGRAM_UG * 9 // 2),
    MountingClass("MIS-D", 23 * INCH_NM, ((75, 75), (100, 100)), "M4", 14 * KILOGRAM_UG),
    MountingClass("MIS-E", 31 * INCH_NM, ((200, 100),), "M4", 50 * POUND_UG),
    MountingClass(
        "MIS-F",
        90 * INCH_NM + 1,
        ((200, 200), (280, 150), (400, 200), (400, 400), (600, 200), (600, 400), (800, 400)),
        "M6 or M8",
        250 * POUND_UG,
    ),
)
SMALLEST_MOUNTING_DIAGONAL_NM = 4 * INCH_NM
MOUNTING_SOURCE = "VESA FDMI, classes B to F (secondary copies)"


class MountingLook(msgspec.Struct, frozen=True):
    """What the standard expects beside what the data sheet says. None: the figure or the class is not
    known."""

    expected: MountingClass | None
    pattern_expected: bool | None
    pattern_class: str | None
    """The name of the class that lists the pattern given, which may be another one."""
    mass_expected: bool | None


def mounting_class(diagonal_nm: int) -> MountingClass | None:
    """The FDMI class for a diagonal from 4 in to 90 in; None outside that range."""
    if diagonal_nm < SMALLEST_MOUNTING_DIAGONAL_NM:
        return None
    return next((each for each in MOUNTING_CLASSES if diagonal_nm < each.below_nm), None)


def look_at_mounting(
    diagonal_nm: int, pattern_nm: tuple[int, int] | None = None, mass_ug: int | None = None
) -> MountingLook:
    """Compare a set's hole pattern (across, up) and mass with its FDMI class. A difference is a doubt, not a
    fault.

    A pattern listed for a smaller class is common on light sets. The manual of the set decides, also on the
    screw: one that is too long can reach parts inside.
    """
    expected = mounting_class(diagonal_nm)
    listed = None
    if pattern_nm is not None:
        listed = next((each.name for each in MOUNTING_CLASSES if _lists(each, pattern_nm)), None)
    return MountingLook(
        expected,
        None if expected is None or pattern_nm is None else listed == expected.name,
        listed,
        None if expected is None or mass_ug is None else mass_ug <= expected.mass_ug,
    )


def _lists(each: MountingClass, pattern_nm: tuple[int, int]) -> bool:
    across, up = pattern_nm
    return any((wide * MM_NM, high * MM_NM) == (across, up) for wide, high in each.patterns_mm)
