"""Whether an eye sees the bare source of a light, or its mirror image in a dark screen.

Plane geometry in whole nanometres: heights from the floor, distances from the screen or the wall, places across
from the left corner.
"""

from __future__ import annotations

from math import atan2, degrees
from typing import NamedTuple

from store.trade.measured.plane import Rect


class Eye(NamedTuple):
    """An eye: how high, how far from the wall, and how far across from the left corner."""

    up_nm: int
    out_nm: int
    across_nm: int = 0


class Lamp(NamedTuple):
    """A source of light, in the same measures."""

    up_nm: int
    out_nm: int
    across_nm: int = 0


class Look(NamedTuple):
    """How an eye meets a lip."""

    eye_deg: float
    """From the eye up (or down) to the source."""
    shield_deg: float
    """From the edge of the lip to the source: seen once the eye's angle is steeper."""
    seen: bool


def past_lip(eye: Eye, source: Lamp, lip_nm: int, behind_nm: int) -> Look:
    """Whether an eye sees a source under a shelf or over a valance, behind a lip.

    `lip_nm` is how far the lip comes past the source towards the eye's side, `behind_nm` how far the source is behind
    it. Hidden while atan(rise / distance) is below atan(lip / behind); an eye level with the source, or on the lip's
    far side, never sees it. A source with no lip is seen whenever the eye is past its level. Raises ValueError unless
    the eye is farther out than the source and lip and setback at least 0.
    """
    if eye.out_nm <= source.out_nm or min(lip_nm, behind_nm) < 0:
        raise ValueError("an eye is in front of the source, and a lip and its distance are at least 0")
    angle = degrees(atan2(abs(source.up_nm - eye.up_nm), eye.out_nm - source.out_nm))
    shield = 90.0 if not behind_nm and lip_nm else degrees(atan2(lip_nm, behind_nm)) if lip_nm else 0.0
    return Look(angle, shield, angle > shield)


def mirrored_at(eye: Eye, lamp: Lamp) -> tuple[int, int]:
    """Where on the wall plane the mirror image of a lamp stands, across and up: each weighed by the other's distance.

    For a flat screen that hangs plumb; tilted by an angle the ray turns by twice that. Raises ValueError unless both
    are in front of the wall.
    """
    if min(eye.out_nm, lamp.out_nm) <= 0:
        raise ValueError("an eye and a lamp are in front of the screen")
    both = eye.out_nm + lamp.out_nm

    def weighed(of_eye: int, of_lamp: int) -> int:
        return (of_lamp * eye.out_nm + of_eye * lamp.out_nm) // both

    return weighed(eye.across_nm, lamp.across_nm), weighed(eye.up_nm, lamp.up_nm)


def mirrored_in(eye: Eye, lamp: Lamp, picture: Rect) -> bool:
    """Whether that place is within the picture."""
    x, y = mirrored_at(eye, lamp)
    return picture.x_nm <= x <= picture.right_nm and picture.y_nm <= y <= picture.top_nm
