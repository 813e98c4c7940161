"""What gets into the room: a sheet or a long stick carried on edge round a corner of the way in."""

from __future__ import annotations

from store.measure.length import INCH_NM

HANDS_NM = INCH_NM
"""Kept free at each wall for the hands that carry: common practice, no source."""
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
