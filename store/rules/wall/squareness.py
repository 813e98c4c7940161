"""How square a wall is, from the readings of its sides and diagonals; and the corners of a room, from readings across
them: 3 along this wall, 4 along the other, 5 across."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

import msgspec

from store.measure.length import FOOT_NM, MM_NM
from store.records.wall import Opening, Reading
from store.records.whole import Job
from store.rules.core.keyed import by_key
from store.rules.wall.layout import walls
from store.rules.wall.readings import sizes
from store.trade.measured.survey import Corner, corner, square_by_diagonals


class Squareness(msgspec.Struct, frozen=True):
    """What the diagonals of one wall say."""

    tags: tuple[str, ...]
    """The diagonals used."""
    lean_nm: int | None
    """How far the top stands to one side of the bottom; None when no wall has these sides and diagonals."""
    off_deg: float = 0.0
    differ_nm: int | None = None
    """Between both diagonals; None with one diagonal."""
    misfit_nm: int | None = None
    """How much longer both diagonals are than the sides allow; None with one diagonal."""


@by_key
def squareness(job: Job) -> Mapping[str, Squareness]:
    """How square each wall is of which width, height and a diagonal were read.

    With two diagonals from their difference, with one by the law of cosines, as 3-4-5 does. The lean has no sign,
    since a reading does not say which way its diagonal rises.
    """
    diagonals: dict[str, list[Reading]] = {}
    for reading in job.of(Reading).values():
        if reading.what == "diagonal":
            diagonals.setdefault(reading.wall, []).append(reading)
    read = sizes(job)
    return {
        wall: _square(read[wall, "width"].least.nm, read[wall, "height"].least.nm, _two(group))
        for wall, group in diagonals.items()
        if (wall, "width") in read and (wall, "height") in read
    }


def _two(group: list[Reading]) -> tuple[Reading, ...]:
    """The two diagonals, or the one. A tape that sags or goes round a bump reads long, so of each the least counts.

    Readings that do not say where they were taken cannot be told apart: then the least and the greatest are taken,
    which is the worst case.
    """
    by_place: dict[str, Reading] = {}
    for reading in group:
        place = " ".join(reading.where.lower().split())
        if place not in by_place or reading.value < by_place[place].value:
            by_place[place] = reading
    found = list(by_place.values()) if len(by_place) == 2 else group
    least, greatest = (pick(found, key=lambda each: each.value.nm) for pick in (min, max))
    return (least, greatest) if len(found) > 1 and least is not greatest else tuple(found[:2])


def _square(width: int, height: int, two: tuple[Reading, ...]) -> Squareness:
    tags = tuple(each.tag for each in two)
    try:
        if len(two) == 1:
            one = corner(width, height, two[0].value.nm)
            return Squareness(tags, abs(one.off_nm), abs(one.off_deg))
        both = square_by_diagonals(width, height, two[1].value.nm, two[0].value.nm)
    except ValueError:
        return Squareness(tags, None)
    return Squareness(tags, abs(both.lean_nm), abs(both.off_deg), both.diagonals_differ_nm, both.misfit_nm)


# --- corners ---

Side = Literal["left", "right"]
LEG_NM, LEG_METRIC_NM = 4 * FOOT_NM, 1_200 * MM_NM
"""Along the wall beside: the 4 of 3-4-5, or a multiple. Common practice; in a metric job 900, 1200 and 1500 mm."""
AT_END_NM = 2 * FOOT_NM
"""What begins no farther than this from a corner is fitted into it; our own."""


class CornerRead(msgspec.Struct, frozen=True):
    """One corner of a wall, as the least of its readings tells."""

    tag: str
    """The reading."""
    side: Side
    own_nm: int
    """Along this wall."""
    other_nm: int
    """Along the wall beside."""
    across_nm: int
    found: Corner | None
    """None where three such lengths make no triangle."""

    @property
    def square_nm(self) -> int:
        """What a square corner reads across."""
        return self.own_nm * 5 // 3


@by_key
def corners(job: Job) -> Mapping[str, tuple[CornerRead, ...]]:
    """The corners of each wall that were read, left one first."""
    least: dict[tuple[str, Side], Reading] = {}
    for reading in job.of(Reading).values():
        if reading.what in ("left corner", "right corner"):
            side: Side = "left" if reading.what == "left corner" else "right"
            if (reading.wall, side) not in least or reading.value < least[reading.wall, side].value:
                least[reading.wall, side] = reading
    found: dict[str, list[CornerRead]] = {}
    for (wall, side), reading in sorted(least.items(), key=lambda each: each[0]):
        one = (LEG_METRIC_NM if job.settings.metric else LEG_NM) // 4
        # Read over 6-8-10 or larger where the nearest such figure says so.
        times = max(1, round(reading.value.nm / (5 * one)))
        own, other = 3 * times * one, 4 * times * one
        try:
            angle = corner(own, other, reading.value.nm)
        except ValueError:
            angle = None
        found.setdefault(wall, []).append(CornerRead(reading.tag, side, own, other, reading.value.nm, angle))
    return {wall: tuple(each) for wall, each in found.items()}


def deepest_at(job: Job, wall: str, side: Side) -> tuple[str, int] | None:
    """The deepest opening that is fitted into a corner of a wall, with its depth; None where there is none."""
    on = walls(job).get(wall)
    if on is None:
        return None
    there = []
    for each in on.openings:
        depth = job.of(Opening)[each.tag].depth
        away = each.rect.x_nm if side == "left" else None if on.width_nm is None else on.width_nm - each.rect.right_nm
        if depth is not None and away is not None and away <= AT_END_NM:
            there.append((depth.nm, each.tag))
    return (max(there)[1], max(there)[0]) if there else None
