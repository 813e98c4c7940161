"""Findings about ways that a cable cannot take: through a window or a door, through a recess, outside the zones."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import msgspec

from store.measure.length import MM_NM
from store.records.wall import Obstacle, Opening, Wall
from store.records.whole import Job
from store.records.wiring import Box, Cable
from store.rules.cable.in_wall import in_the_wall
from store.rules.cable.kinds import is_power
from store.rules.cable.legs import Leg, enters
from store.rules.cable.routes import routes
from store.rules.core.code import METRIC_CODE, is_us
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import by_key, from_each
from store.rules.core.wording import ELECTRICIAN, named, said
from store.rules.wall.layout import Placed, walls
from store.rules.wall.pieces import COVERING
from store.rules.wall.shape import into_wall_nm
from store.trade.measured.plane import Rect

PRACTICE = "common practice"
HOLES = ("window", "door")
"""What is no wall to run in."""
ZONE_NM = 150 * MM_NM
"""From a ceiling or a corner: BS 7671 522.6.202 (from memory)."""
SLIP_NM = 25 * MM_NM
"""A run this near to the line of an accessory is in its zone, which is as wide as the accessory. Our own reading."""
ZONE_SOURCE = f"{METRIC_CODE} 522.6.202 (from memory)"


class Hole(msgspec.Struct, frozen=True):
    """A place in a wall where nothing can run."""

    tag: str
    what: str
    rect: Rect


@by_key
def holes(job: Job) -> dict[str, tuple[Hole, ...]]:
    """The windows, doors and openings through a wall's studs, by the wall."""
    found = {}
    for tag, wall in walls(job).items():
        there = [
            Hole(each.tag, job.of(Obstacle)[each.tag].what, each.rect)
            for each in wall.obstacles
            if job.of(Obstacle)[each.tag].what in HOLES
        ]
        through = (each for each in wall.openings if _takes_the_studs(job, wall.wall, each))
        there += [Hole(each.tag, "opening", each.rect) for each in through]
        if there:
            found[tag] = tuple(there)
    return found


def _takes_the_studs(job: Job, wall: Wall, each: Placed) -> bool:
    """True for an opening as deep as the studs and their board: nothing passes behind it.

    A cabinet is left out: a cable goes along its back or its side.
    """
    one = job.of(Opening)[each.tag]
    into = into_wall_nm(job, one) if one.use not in COVERING or one.thickness is None else None
    return into is not None and into >= wall.stud_depth.nm + job.settings.finish.nm


def _crossed(job: Job, cable: Cable, legs: Iterable[Leg]) -> Iterator[Hole]:
    """The holes that some stretches go through; one that an end is in or beside is where the cable is led to."""
    ends = {cable.start, cable.end}
    places = [
        (str(box.wall), box.x.nm, box.y.nm)
        for tag in ends
        if (box := job.of(Box).get(tag)) is not None and box.x is not None and box.y is not None
    ]
    for leg in legs:
        for hole in holes(job).get(leg.wall, ()):
            rect = hole.rect
            serves = hole.tag in ends or any(
                wall == leg.wall and rect.x_nm <= x <= rect.right_nm and rect.y_nm <= y <= rect.top_nm
                for wall, x, y in places
            )
            if not serves and enters(leg, (rect.x_nm, rect.y_nm, rect.right_nm, rect.top_nm)):
                yield hole


@rule
@from_each(Cable)
def cable_through_hole(job: Job, cable: Cable) -> Iterable[Finding]:
    """A cable in the wall whose way goes through a window, a door, or an opening that takes all of the studs."""
    route = routes(job).get(cable.tag)
    if route is None or not in_the_wall(job, cable):
        return
    found = {hole.tag: hole for hole in _crossed(job, cable, route.in_wall)}
    # A heater's own rule tells of it, clearances counted.
    found = {
        tag: hole
        for tag, hole in found.items()
        if tag not in job.of(Opening) or job.of(Opening)[tag].use != "fireplace"
    }
    if found:
        tags = tuple(found)
        what = f"the {found[tags[0]].what} " if found[tags[0]].what in HOLES else ""
        yield Finding(
            "cable_through_hole",
            "fix",
            (cable.tag, *tags),
            f"Runs through {what}{' '.join(tags)}",
            "Run it over the top or under the floor, or enter the height of a run that clears it.",
            PRACTICE,
            {"through": " ".join(tags), "route": cable.route},
            why=f"By the plan its way goes through {', '.join(named(job, tag) for tag in tags)}: there is no stud bay "
            "to run in.",
            about=(cable.tag,),
        )


@rule
@from_each(Cable)
def outside_safe_zone(job: Job, cable: Cable) -> Iterable[Finding]:
    """A 230 V cable whose entered height or points lead it where nobody expects one."""
    route = routes(job).get(cable.tag)
    told_so = (cable.level is not None and cable.route == "through studs") or (cable.points and cable.route == "points")
    if is_us(job) or route is None or not told_so or not in_the_wall(job, cable) or not is_power(job, cable):
        return
    off = [leg for leg in route.in_wall if leg.start != leg.end and not _in_zone(job, cable, leg)]
    if off:
        leg = off[0]
        level = leg.start[1] == leg.end[1]
        where = f"{said(job, leg.start[1])} up" if level else f"{said(job, leg.start[0])} from the left"
        yield Finding(
            "outside_safe_zone",
            "fix",
            (cable.tag, leg.wall),
            "Outside the safe zones",
            "Run it straight up, down or sideways from an accessory, or within 150 mm of the ceiling or a corner. "
            f"Otherwise it needs earthed metal over it. {ELECTRICIAN}",
            ZONE_SOURCE,
            {"at": where, "wall": str(leg.wall)},
            why=f"It runs {where} on {leg.wall}, in line with no accessory. Whoever hangs a picture there finds it.",
            about=(cable.tag,),
        )


def _in_zone(job: Job, cable: Cable, leg: Leg) -> bool:
    """True for a stretch in line with an accessory of its wall, or by the ceiling or a corner."""
    level, upright = leg.start[1] == leg.end[1], leg.start[0] == leg.end[0]
    wall = walls(job).get(leg.wall)
    if not (level or upright) or wall is None:
        return False
    at = leg.start[1] if level else leg.start[0]
    size = wall.height_nm if level else wall.width_nm
    if (size is not None and size - at <= ZONE_NM) or (not level and at <= ZONE_NM):
        return True
    return any(
        abs((box.y.nm if level else box.x.nm) - at) <= SLIP_NM
        for box in job.of(Box).values()
        if box.wall == leg.wall and box.x is not None and box.y is not None
    )
