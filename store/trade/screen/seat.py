"""What the eye of a seated person sees of a screen: angles up and down, and the heights that suit its
centre."""

from __future__ import annotations

from math import atan2, degrees, radians, tan

import msgspec

from store.measure.length import INCH_NM

DEFAULT_EYE_HEIGHT_NM = 42 * INCH_NM
"""Eye of a person on a sofa above the floor: common practice (40 in to 44 in), no source. Measure your
own."""


class Limit(msgspec.Struct, frozen=True):
    """An angle that is said to be the largest, where it was printed, and how it is known."""

    degrees: float
    source: str
    known: str


CENTRE_LIMIT = Limit(15.0, "SMPTE EG 18-1994; SMPTE 196M-2003 gives ±15° both ways", "from memory (medium)")
TOP_LIMIT = Limit(35.0, "SMPTE EG 18-1994", "from memory (high)")


class Sight(msgspec.Struct, frozen=True):
    """Angles of sight to a picture, degrees above the horizontal (below it when negative)."""

    centre_deg: float
    top_deg: float
    bottom_deg: float


class CentreBand(msgspec.Struct, frozen=True):
    """Heights above the floor, nanometres, that keep the centre of a picture in comfortable sight."""

    lowest_nm: int
    level_nm: int
    """The height of the eye: no tilt of the head at all."""
    highest_nm: int
    held_by: Limit
    """The limit that sets the highest height."""


def sight(eye_nm: int, centre_nm: int, picture_height_nm: int, distance_nm: int) -> Sight:
    """Angles from an eye to the centre, top and bottom of an upright picture: atan(rise / distance).

    Heights are above the floor, the distance is level from eye to wall, all nanometres.
    Raises ValueError unless the distance is above 0 and the picture height is at least 0. For a tilted screen
    the angles are a little off.
    """
    _check(picture_height_nm, distance_nm)
    rise = centre_nm - eye_nm
    half = picture_height_nm / 2
    return Sight(*(degrees(atan2(up, distance_nm)) for up in (rise, rise + half, rise - half)))


def centre_band(
    eye_nm: int,
    picture_height_nm: int,
    distance_nm: int,
    centre_limit: Limit = CENTRE_LIMIT,
    top_limit: Limit = TOP_LIMIT,
) -> CentreBand:
    """Heights for the centre of a picture: at most 15° up or down to the centre and at most 35° up to the
    top.

    Limits as in `CENTRE_LIMIT` and `TOP_LIMIT`; they are comfort, not code. The band never puts the bottom of
    the picture under the floor; when the two clash (a tall picture seen from close by), lowest is above
    highest. Raises ValueError unless the distance is above 0 and the picture height is at least 0.
    """
    _check(picture_height_nm, distance_nm)
    swing = round(distance_nm * tan(radians(centre_limit.degrees)))
    by_centre = eye_nm + swing
    by_top = eye_nm + round(distance_nm * tan(radians(top_limit.degrees)) - picture_height_nm / 2)
    lowest = max(eye_nm - swing, -(-picture_height_nm // 2))
    held_by = centre_limit if by_centre <= by_top else top_limit
    return CentreBand(lowest, eye_nm, min(by_centre, by_top), held_by)


def _check(picture_height_nm: int, distance_nm: int) -> None:
    if distance_nm <= 0 or picture_height_nm < 0:
        raise ValueError("sight needs a distance above 0 and a picture height of at least 0")
