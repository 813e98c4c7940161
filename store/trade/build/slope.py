"""The sticks of a wall under a ceiling that slopes or steps, and on a floor that runs out of level.

Whole nanometres from the left end and floor zero. Top plates lie along the ceiling, a length for each straight piece of
it; each stud goes up to their underside at its own middle, where they are thicker upright the steeper they lie. Plane
geometry; that studs are measured at their middle is common practice.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import hypot

import msgspec

from store.trade.build.takeoff import SHORTEST_NM, Framing, Stick
from store.trade.measured.profile import Profile

UPRIGHT = ("stud", "king stud", "trimmer", "cripple")


def under(
    framing: Framing, ceiling: Profile, floor: Profile, *, width_nm: int, thick_nm: int, top_plates: int,
    plate_nm: int | None = None,
) -> Framing:  # fmt: skip
    """The framing of a wall as high as the highest of its ceiling, cut to the ceiling and the floor as they are."""
    if len(ceiling.points) == 1 and len(floor.points) == 1 and floor.points[0][1] == 0:
        return framing
    flat = thick_nm if plate_nm is None else plate_nm
    sticks: list[Stick] = []
    for each in framing.sticks:
        if each.part == "top plate":
            continue
        if each.part not in UPRIGHT:
            sticks.append(each)
            continue
        middle = each.x_nm + thick_nm // 2
        low = each.y_nm + (floor.at(middle) if each.y_nm == flat else 0)
        most = ceiling.at(middle) - round(top_plates * flat * _steep(ceiling, middle))
        length = min(each.y_nm + each.length_nm, most) - low
        if length >= SHORTEST_NM:
            sticks.append(msgspec.structs.replace(each, y_nm=low, length_nm=length))
    plates = list(_plates(ceiling, width_nm, flat, top_plates))
    bottom = [each for each in sticks if each.part == "bottom plate"]
    rest = [each for each in sticks if each.part != "bottom plate"]
    return Framing((*bottom, *plates, *rest), framing.unsized)


def _plates(ceiling: Profile, width: int, thick: int, count: int) -> Iterator[Stick]:
    """The top plates, a length along each straight piece of the ceiling."""
    for (x, y), (to_x, to_y) in pairwise(ceiling.corners(0, width)):
        across, rise = to_x - x, to_y - y
        if across <= 0:
            continue
        long = round(hypot(across, rise))
        upright = round(thick * long / across)
        for at in range(count):
            yield Stick("top plate", long, x, y - (count - at) * upright, rise_nm=rise)


def _steep(ceiling: Profile, at: int) -> float:
    """How much thicker upright than square to itself something is that lies along the ceiling at a place."""
    for (x, y), (to_x, to_y) in pairwise(ceiling.points):
        if x <= at < to_x:
            return hypot(to_x - x, to_y - y) / (to_x - x)
    return 1.0
