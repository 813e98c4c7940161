"""What a thing in the wall is by itself: whether it hangs, gives heat, is hidden or in use."""

from __future__ import annotations

import re

from store.measure.length import Length
from store.records.equipment import Equipment
from store.records.wall import Opening, Wall
from store.trade.fit.pieces import Size, clear_size

HEATERS = ("fireplace", "heater")


def gives_heat(one: Equipment) -> bool:
    """True for what is made to give heat."""
    return one.heats or one.what in HEATERS


def is_drawer(one: Opening) -> bool:
    """True for an opening whose front is pulled out."""
    return one.use == "drawer" or one.hinge == "drawer"


def bearing(wall: Wall) -> bool | None:
    """Whether a wall carries the house; None where nobody knows."""
    return None if wall.bearing == "unknown" else wall.bearing == "yes"


def hangs(one: Equipment) -> bool:
    """True for what is fixed in the middle of its opening; False for what stands on the floor of it."""
    return one.mounting in ("wall bracket", "made to be recessed", "surface only") or (
        one.what == "screen" and one.mounting == "unknown"
    )


COVERING = ("equipment", "shelf", "drawer", "other")
"""Uses of an opening whose back hides the wall; a recess for a screen, a fireplace or a speaker is open in front."""


HIDDEN = ("driver", "power supply", "strip", "extender", "splitter", "part", "light")
"""Sorts of equipment that are changed in a few years and stand out of sight."""


HIDDEN_NAMES = re.compile(
    r"\b(power suppl|psu\b|driver|transformer|ballast|splice|junction|valve|extender|repeater|balun|splitter|injector|"
    r"combiner|diplexer)",
    re.I,
)
"""Words in a name that tell the same of equipment whose sort nobody chose, or for want of a nearer one."""


def in_use(one: object) -> bool:
    """True unless it was retired."""
    return getattr(one, "retired", None) is None


def is_hidden(one: Equipment) -> bool:
    """True for a sort, or where none was chosen a name, of what is changed in a few years and stands out of sight."""
    return one.what in HIDDEN or (one.what in ("other", "switch") and HIDDEN_NAMES.search(one.name) is not None)


def on_face(one: Equipment) -> bool:
    """True for a thing with a place of its own on a face of the wall; False in an opening, or behind the face.

    What is changed in a few years and stands out of sight, a driver or a splice, is behind it unless it names a face.
    """
    if one.opening or not one.wall or one.x is None or one.y is None or one.face == "behind":
        return False
    return one.face != "nearest" or not is_hidden(one)


def inside_of(one: Opening) -> Size:
    """The clear size of an opening: its outer size less its four sides; a bare framed hole is clear as it is.

    A back and a front are not counted, since the thickness noted is that of the sides: note the depth inside of a back.
    """
    outer = Size(nm_of(one.width), nm_of(one.height), nm_of(one.depth))
    return clear_size(outer, max(0, one.thickness.nm)) if one.thickness is not None else outer


def nm_of(length: Length | None) -> int | None:
    """A length in nanometers; None for none."""
    return None if length is None else length.nm
