"""How square a wall is, from the readings of its sides and diagonals."""

from __future__ import annotations

from collections.abc import Mapping

import msgspec

from store.records.wall import Reading
from store.records.whole import Job
from store.rules.core.keyed import by_key
from store.rules.wall.readings import sizes
from store.trade.measured.survey import corner, square_by_diagonals


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
