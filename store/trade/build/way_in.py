"""What gets into the room: a sheet or a long stick carried on edge round a corner of the way in."""

from __future__ import annotations

from math import hypot, isqrt

from store.measure.length import INCH_NM

HANDS_NM = INCH_NM
"""Kept free at each wall for the hands that carry: common practice, no source."""
USUAL_DOOR_NM = 80 * INCH_NM
"""Height of a doorway where none is entered: 6 ft 8 in, common practice."""
SOURCE = "the longest rod round a corner (a sum of calculus, from memory)"


def longest_round_corner(first_nm: int, second_nm: int) -> int:
    """The longest sheet or stick, in nm, that goes level round a right-angled corner from one clear width into another.

    On edge a sheet is a rod seen from above. At an angle t it needs a / cos t + b / sin t at most, which is least where
    tan³ t = b / a: (a^(2/3) + b^(2/3))^(3/2). Both widths are less the hands at a wall. Rounded down to whole inches.
    Raises ValueError for a width with no room for hands.
    """
    one, other = first_nm - HANDS_NM, second_nm - HANDS_NM
    if one <= 0 or other <= 0:
        raise ValueError("each width must be more than the hands take")
    rod = (one ** (2 / 3) + other ** (2 / 3)) ** 1.5
    return int(rod) // INCH_NM * INCH_NM


def widest_through(door_nm: int, high_nm: int) -> int:
    """The widest sheet, in nm, that goes through a clear doorway lengthwise: its narrow side along the diagonal.

    A sheet is so thin that it goes through a doorway as a line does; both sizes are less the hands. Any length goes
    straight through. Geometry. Raises ValueError for a size with no room for hands.
    """
    wide, high = door_nm - HANDS_NM, high_nm - HANDS_NM
    if wide <= 0 or high <= 0:
        raise ValueError("a doorway is larger than the hands take")
    return isqrt(wide**2 + high**2)


def longest_stick(round_nm: int, high_nm: int) -> int:
    """The longest stick, in nm, that goes round a corner which lets `round_nm` round level, tilted up to the height
    of the doorway: the diagonal of both. Rounded down to whole inches. Geometry."""
    return int(hypot(round_nm, max(0, high_nm - HANDS_NM))) // INCH_NM * INCH_NM
