"""Findings about ways that a run cannot take: through a window or a door, through a recess, outside the zones, off its
wall."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from store.measure.length import MM_NM
from store.records.whole import Job
from store.records.wiring import Box, Cable, Raceway
from store.rules.cable.blocked import Blocked, Outside, crossed, outside
from store.rules.cable.courses import raceway_course
from store.rules.cable.in_wall import in_the_wall
from store.rules.cable.kinds import is_power
from store.rules.cable.legs import Leg
from store.rules.cable.raceway_ways import raceway_way_words, raceway_ways
from store.rules.cable.routes import routes
from store.rules.cable.ways import only_measured, way_words, ways_round
from store.rules.core.code import METRIC_CODE, is_us
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each, index
from store.rules.core.wording import ELECTRICIAN, listed, named, said, sized
from store.rules.wall.cabinets import through_the_wall
from store.rules.wall.layout import walls
from store.rules.wall.readings import sizes

PRACTICE, GEOMETRY = "common practice", "plane geometry"
PAST = {"ceiling": "above the ceiling", "floor": "under the floor", "left end": "past the left end",
        "right end": "past the right end"}  # fmt: skip
NO_WAY = "Move an end of it, or what is in its way: no route in the wall, over it or under it is clear."
ZONE_NM = 150 * MM_NM
"""From a ceiling or a corner: BS 7671 522.6.202 (from memory)."""
SLIP_NM = 25 * MM_NM
"""A run this near to the line of an accessory is in its zone, which is as wide as the accessory. Our own reading."""
ZONE_SOURCE = f"{METRIC_CODE} 522.6.202 (from memory)"
_boxes_on = index(Box, lambda box: (box.wall,) if box.wall else ())
"""The accessories of each wall."""


@rule
@from_each(Cable)
def cable_through_hole(job: Job, cable: Cable) -> Iterable[Finding]:
    """A cable in the wall whose way goes through a window, a door, a duct, a pipe, or an opening that takes all of the
    studs."""
    route = routes(job).get(cable.tag)
    if route is None or not in_the_wall(job, cable):
        return
    found = _holes(job, cable, route.in_wall)
    if not (cable.start and cable.end) and cable.route == "through studs":
        # How a home run leaves the wall is a guess as long as no route is entered: whoever pulls it past what is yet
        # to be framed takes another way.
        found = {tag: each for tag, each in found.items() if each.what != "opening"}
    if found:
        way = ways_round(job).get(cable.tag)
        yield Finding(
            "cable_through_hole",
            "fix",
            (cable.tag, *found),
            _head(found),
            f"Run it {way_words(job, way)}." if way is not None else _no_way(job, cable, route.walls),
            PRACTICE,
            {"through": " ".join(found), "route": cable.route},
            why=_why(job, found) + only_measured(cable),
            about=(cable.tag,),
        )


def _no_way(job: Job, cable: Cable, over: Iterable[str]) -> str:
    """What to do where no clear way is known."""
    if cable.route == "raceway":
        return f"Run its raceway {cable.raceway} another way, or run it outside of one."
    if any(sizes(job).get((wall, what)) is None for wall in over for what in ("width", "height")):
        return "Run it over the top or under the floor, or enter the height of a run that clears it."
    return NO_WAY


@rule
@from_each(Raceway)
def raceway_through_hole(job: Job, raceway: Raceway) -> Iterable[Finding]:
    """A raceway whose way goes through what no raceway can be run through."""
    way = raceway_course(job, raceway)
    if isinstance(way, str) or raceway.type == "grommet" or not through_the_wall(job, raceway.start, raceway.end):
        return
    found = _holes(job, raceway, way.legs)
    if found:
        yield Finding(
            "raceway_through_hole",
            "fix",
            (raceway.tag, *found),
            _head(found),
            f"Run it {raceway_way_words(job, round_it)}."
            if (round_it := raceway_ways(job).get(raceway.tag)) is not None
            else NO_WAY,
            PRACTICE,
            {"through": " ".join(found)},
            why=_why(job, found),
            about=(raceway.tag,),
        )


def _holes(job: Job, one: Cable | Raceway, legs: Iterable[Leg]) -> dict[str, Blocked]:
    """What some stretches go through, by tag; a heater's own rule tells of that, clearances counted."""
    return {each.tag: each for each in crossed(job, one, legs) if each.what != "heater"}


def _head(found: Mapping[str, Blocked]) -> str:
    """`Runs through the window O1 and the pipe O2`; of more than two the first, and how many more."""
    words = [each.words for each in found.values()]
    return f"Runs through {listed(words) if len(words) < 3 else f'{words[0]} and {len(words) - 1} more'}"


def _why(job: Job, found: Iterable[str]) -> str:
    return f"On the plan its route goes through {', '.join(named(job, tag) for tag in found)}: nothing can run there."


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
            why=f"It runs {where} on {leg.wall}, in line with no accessory. Someone hanging a picture there could "
            "drill into it.",
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
        for box in _boxes_on(job).get(leg.wall, ())
        if box.x is not None and box.y is not None
    )


@rule
@from_each(Cable)
def cable_off_wall(job: Job, cable: Cable) -> Iterable[Finding]:
    """A cable in the wall whose way on the plan leaves the wall."""
    route = routes(job).get(cable.tag)
    if route is None or not in_the_wall(job, cable) or cable.route == "raceway":
        return
    if not (cable.start and cable.end):
        return  # a home run leaves its wall: where is not known
    off = outside(job, route.legs)
    if off is not None:
        way = ways_round(job).get(cable.tag)
        yield _finding(job, "cable_off_wall", cable.tag, off, way_words(job, way) if way is not None else "",
                       only_measured(cable))  # fmt: skip


@rule
@from_each(Raceway)
def raceway_off_wall(job: Job, raceway: Raceway) -> Iterable[Finding]:
    """A raceway whose way on the plan leaves the wall."""
    way = raceway_course(job, raceway)
    if isinstance(way, str) or raceway.type == "grommet" or not through_the_wall(job, raceway.start, raceway.end):
        return
    off = outside(job, way.legs)
    if off is not None:
        led = raceway_ways(job).get(raceway.tag)
        yield _finding(job, "raceway_off_wall", raceway.tag, off, raceway_way_words(job, led) if led else "", "")


def _finding(job: Job, name: str, tag: str, off: Outside, way: str, more: str) -> Finding:
    x, y = (said(job, each) for each in off.at)
    return Finding(
        name,
        "fix",
        (tag, off.wall),
        f"Runs {sized(job, off.by_nm)} {PAST[off.past]} of {off.wall}"
        if "end" in off.past
        else f"Runs {sized(job, off.by_nm)} {PAST[off.past]}, {off.wall}",
        f"Run it {way}." if way else f"Correct its height or its points, or the readings of {off.wall}.",
        GEOMETRY,
        {"by": sized(job, off.by_nm), "past": off.past},
        why=f"On the plan it is {x} from the left and {y} up on {off.wall}, which ends before that.{more}",
        about=(tag,),
    )
