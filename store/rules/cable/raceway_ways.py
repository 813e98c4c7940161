"""The nearest way of a raceway that cannot go where it is led: through a hole, across a heater, or through studs that
may not be bored so wide.

In the wall it is square to the framing, keeps clear by half its own thickness more than a cable does, and has no more
bends than may be between two pull points where there is such a way.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import msgspec

from store.measure.length import INCH_NM, MM_NM, inches
from store.records.wall import Wall
from store.records.whole import Job
from store.records.wiring import Raceway
from store.rules.cable.blocked import crossed, outside
from store.rules.cable.courses import Course, raceway_course
from store.rules.cable.legs import BEYOND, Leg
from store.rules.cable.raceways import outside_in, studs_met
from store.rules.cable.ways import led_words, points_in_wall
from store.rules.core.code import is_us
from store.rules.core.keyed import of_each
from store.rules.wall.cabinets import through_the_wall
from store.rules.wall.pieces import bearing
from store.rules.wall.uprights import uprights
from store.trade.cable.raceway_fill import bends_left_deg
from store.trade.measured.framing import bore_limit
from store.trade.measured.plane import Rect

ANY_HALF_IN = 1.0
"""Half the thickness of a raceway that is not in the tables: as of trade size 2, rounded down. Our own."""


class Led(msgspec.Struct, frozen=True):
    """A way of a raceway that clears everything."""

    raceway: Raceway
    """The raceway with that way entered."""
    course: Course
    longer_nm: int
    """How much longer than the way that cannot be taken; less than nothing where it is shorter."""


class Thick(msgspec.Struct, frozen=True):
    """A raceway in studs that may not be bored so wide."""

    wall: str
    outside_nm: int
    limit_nm: int
    studs: int


@of_each(Raceway)
def raceway_ways(job: Job, raceway: Raceway) -> Led | None:
    """The nearest buildable way of every raceway whose own cannot be built; None where none is known."""
    course = raceway_course(job, raceway)
    if isinstance(course, str) or not through_the_wall(job, raceway.start, raceway.end):
        return None
    if raceway.type == "grommet" or not _cannot(job, raceway, course):
        return None
    found = []
    for at, other in enumerate(_others(job, raceway)):
        way = raceway_course(job, other)
        if isinstance(way, str) or _cannot(job, other, way):
            continue
        found.append((bends_left_deg([way.turned]) < 0, not other.points, way.length, at, other, way))
    if not found:
        return None
    *_, other, way = min(found, key=lambda one: one[:4])
    return Led(other, way, way.length - course.length)


def _cannot(job: Job, raceway: Raceway, course: Course) -> bool:
    """True for a way through what no raceway can be run through, through studs that may not be bored so wide, or off
    the wall."""
    if any(crossed(job, raceway, course.legs)) or too_thick(job, raceway, course.within) is not None:
        return True
    return outside(job, course.legs) is not None


def raceway_way_words(job: Job, led: Led, *, brief: bool = False) -> str:
    """The way, its length and its bends, to be read: `over the top: 14'-0", 2'-0" longer, 180° of bends`."""
    words = led_words(job, led.raceway, led.course.length, led.longer_nm, brief=brief)
    return f"{words}, {round(led.course.turned, 1):g}° of bends"


def too_thick(job: Job, raceway: Raceway, legs: Iterable[Leg]) -> Thick | None:
    """The first wall whose studs a raceway is led through and is too thick for; None where there is none, or its
    thickness is not known."""
    wide = outside_in(raceway)
    if wide is None:
        return None
    for wall, met in (studs_met(job, tuple(legs)) or {}).items():
        limit = _limit(job, wall)
        if met and limit is not None and inches(wide).nm > limit:
            return Thick(wall, inches(wide).nm, limit, met)
    return None


def _limit(job: Job, wall: str) -> int | None:
    """The widest hole that may be bored through the studs of a wall, nm."""
    one = job.of(Wall).get(wall)
    if one is None:
        return None
    return bore_limit(one.stud_depth.nm, bearing(one), metric=not is_us(job))


def _others(job: Job, raceway: Raceway) -> Iterator[Raceway]:
    """The raceway as it could be led: round what is in the way, over the top, under the floor."""
    plain = msgspec.structs.replace(raceway, points=(), route="square", length=None, bends=None)
    step = 5 * MM_NM if job.settings.metric else INCH_NM // 4
    half = -(-inches((outside_in(raceway) or 2 * ANY_HALF_IN) / 2).nm // step) * step
    points = points_in_wall(job, plain, half, _studs(job, raceway))
    if points is not None:
        yield msgspec.structs.replace(plain, points=points)
    for how in BEYOND:
        yield msgspec.structs.replace(plain, route=how)


def _studs(job: Job, raceway: Raceway) -> Iterator[tuple[str, Rect]]:
    """The studs that may not be bored for it, each with its wall."""
    wide = outside_in(raceway)
    for wall in job.of(Wall) if wide is not None else ():
        limit = _limit(job, wall)
        if limit is not None and inches(wide or 0).nm > limit:
            for each in uprights(job, wall):
                yield wall, Rect(each.left_nm, each.low_nm, each.right_nm - each.left_nm, each.high_nm - each.low_nm)
