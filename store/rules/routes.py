"""Where cables run: the path of each, its length, the studs it goes through. This is the truth of paths.

Whole nanometres. A path lies on the face of the wall; where it goes round the corner to another wall, both faces are
laid out flat, the second continuing the first, so that x runs on past the corner.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

import msgspec

from store.measure.length import Length, show_length
from store.records.wall import Wall
from store.records.whole import Job
from store.records.wiring import Box, Cable, Circuit, Raceway
from store.rules.cable_kinds import is_power
from store.rules.once import once
from store.rules.scene_parts import Point, point_of, read_point, wall_of, without_repeats
from store.rules.survey import sizes
from store.trade.cable_length import path_length_nm, studs_crossed
from store.trade.framing import MOST_STUDS

PLAN = "the plan"
MEASURED = "measured by hand"
TOP_PLATES, BOTTOM_PLATES = "top plate", "bottom plate"


class Leg(msgspec.Struct, frozen=True):
    """A straight stretch of a cable within one wall, in that wall's own places."""

    wall: str
    start: Point
    end: Point


class Corner(msgspec.Struct, frozen=True):
    """Where the path goes round from its first wall to another."""

    at: int
    """Of the corner, along the walls laid out flat."""
    shift: int
    """To be added to a place on the second wall to lay it out flat."""
    other_by: int
    """How much longer the way round the other end of the first wall would be; below 0 when it is shorter."""
    noted: bool = False
    """True where somebody noted at which end the two walls meet."""


class Route(msgspec.Struct, frozen=True):
    """The way of one cable."""

    path: int | None
    """Its length; None while it is not known."""
    found: str = PLAN
    """How the length was found."""
    why: str = ""
    """What is missing while the length is not known, in words."""
    points: tuple[Point, ...] = ()
    """The way over the walls laid out flat; empty where it is not known or lies in a raceway."""
    legs: tuple[Leg, ...] = ()
    """The stretches that lie in a wall; runs above it, below it and in a raceway are left out."""
    walls: tuple[str, ...] = ()
    corner: Corner | None = None
    studs: int | None = 0
    """Studs to be bored; None while the layout of the studs is not known."""
    plates_bored: int = 0
    """Holes through top or bottom plates."""


@once
def routes(job: Job) -> dict[str, Route]:
    """The route of every cable that is in use, by tag."""
    return {tag: route_of(job, cable) for tag, cable in job.of(Cable).items() if cable.retired is None}


def route_of(job: Job, cable: Cable) -> Route:
    """The way of one cable. A length measured by hand wins over the one of the plan."""
    plan = _planned(job, cable)
    if cable.measured is not None:
        return msgspec.structs.replace(plan, path=cable.measured.nm, found=MEASURED, why="")
    return plan


def course(cable: Cable) -> str:
    """The route that counts: what stays in the cabinet goes straight unless another way is named."""
    if not cable.in_wall and cable.route == "through studs" and cable.level is None:
        return "cabinet"
    return cable.route


def _planned(job: Job, cable: Cable) -> Route:
    how = course(cable)
    if how == "raceway":
        return _by_raceway(job, cable)
    if home := _home_run(job, cable):
        return home
    if why := _ends_missing(job, cable):
        return Route(None, studs=None, why=why)
    walls = (wall_of(job, cable.start), wall_of(job, cable.end))
    start, end, corner, why = _laid_flat(job, cable, walls)
    if why:
        return Route(None, studs=None, why=why)
    level, why = _level(job, cable, how, walls, start)
    if why:
        return Route(None, studs=None, why=why)
    between = _between(job, cable, how, start, end, level)
    points = without_repeats((start, *between, end))
    path = path_length_nm([(x, y, 0) for x, y in points])
    kept = walls if corner else walls[:1]
    if how == "cabinet" or not cable.in_wall:
        return Route(path, points=points, walls=kept, corner=corner)
    legs = tuple(_legs(points, walls, corner, level if how in ("up and over", "down and under") else None))
    bored = {"up and over": 2, "down and under": 2}.get(how, 0)
    return Route(path, PLAN, "", points, legs, kept, corner, _studs(job, legs, corner), bored)


def _ends_missing(job: Job, one: Cable | Raceway) -> str:
    for side, tag in (("from", one.start), ("to", one.end)):
        if not tag:
            return f"its end `{side}` is not given"
        if point_of(job, tag) is None:
            return f"{tag} has no place yet"
        if not wall_of(job, tag):
            return f"{tag} is on no wall yet"
    return ""


def _laid_flat(job: Job, cable: Cable, walls: tuple[str, str]) -> tuple[Point, Point, Corner | None, str]:
    """Both ends on the walls laid out flat, the corner between them, and what is missing for it."""
    start, end = point_of(job, cable.start) or (0, 0), point_of(job, cable.end) or (0, 0)
    if walls[0] == walls[1]:
        return start, end, None, ""
    for wall in walls:
        if (wall, "width") not in sizes(job):
            return start, end, None, f"it goes round a corner, and the width of {wall} is not read yet"
    width, other = (sizes(job)[wall, "width"].least.nm for wall in walls)
    right, left = _round(start, end, width, other)
    at_right, noted = meetings(job)[walls]
    corner = Corner(width, width, left - right, noted) if at_right else Corner(0, -other, right - left, noted)
    return start, (end[0] + corner.shift, end[1]), corner, ""


def _round(start: Point, end: Point, width: int, other: int) -> tuple[int, int]:
    """The way along both walls, round the right and round the left end of the first."""
    return (width - start[0]) + end[0], start[0] + (other - end[0])


@once
def meetings(job: Job) -> dict[tuple[str, str], tuple[bool, bool]]:
    """For two walls, whether the right end of the first meets the second, and whether that was noted.

    Two walls meet in one corner: what is noted for one cable holds for all between them. Where nothing is noted, the
    corner is taken that makes the cables between them shortest altogether.
    """
    noted: dict[tuple[str, str], bool] = {}
    gain: dict[tuple[str, str], int] = {}
    for cable in job.of(Cable).values():
        walls = (wall_of(job, cable.start), wall_of(job, cable.end))
        start, end = point_of(job, cable.start), point_of(job, cable.end)
        widths = [sizes(job).get((wall, "width")) for wall in walls]
        if cable.retired is not None or walls[0] == walls[1] or start is None or end is None or None in widths:
            continue
        width, other = (each.least.nm for each in widths if each is not None)
        right, left = _round(start, end, width, other)
        pair, sign = (walls, 1) if walls[0] < walls[1] else (walls[::-1], -1)
        gain[pair] = gain.get(pair, 0) + sign * (left - right)
        if cable.corner != "shorter way":
            noted.setdefault(pair, (cable.corner == "right end") == (sign == 1))
    found = {}
    for pair, more in gain.items():
        at_right = noted.get(pair, more >= 0)
        found[pair] = (at_right, pair in noted)
        found[pair[::-1]] = (not at_right, pair in noted)
    return found


def _level(job: Job, cable: Cable, how: str, walls: tuple[str, str], start: Point) -> tuple[int, str]:
    if how == "up and over":
        known = [sizes(job).get((wall, "height")) for wall in walls]
        if any(each is None for each in known):
            return 0, f"it goes over the top, and the height of {walls[0 if known[0] is None else 1]} is not read yet"
        return max(each.least.nm for each in known if each is not None), ""
    if how == "down and under":
        return 0, ""
    return (start[1] if cable.level is None else cable.level.nm), ""


def _between(job: Job, cable: Cable, how: str, start: Point, end: Point, level: int) -> tuple[Point, ...]:
    if how == "cabinet":
        return ()
    if how == "points":
        return tuple(found for text in cable.points if (found := read_point(text, job.settings.metric)))
    return (start[0], level), (end[0], level)


def _home_run(job: Job, cable: Cable) -> Route | None:
    """A feed from the electrical panel: one end in a box, and the circuit of that box tells how long it is."""
    if bool(cable.start) == bool(cable.end) or not is_power(job, cable):
        return None
    box = job.of(Box).get(cable.start or cable.end)
    circuit = job.of(Circuit).get(box.circuit) if box else None
    if box is None or circuit is None or circuit.length is None:
        return None
    return Route(circuit.length.nm, f"the length of {circuit.tag} to the panel", walls=(box.wall,), studs=None)


def raceway_length(job: Job, raceway: Raceway) -> int | None:
    """How long a raceway is: as noted, or square to the framing between its ends; None while neither is known."""
    if raceway.length is not None:
        return raceway.length.nm
    ends = raceway_ends(job, raceway)
    return None if ends is None else abs(ends[0][0] - ends[1][0]) + abs(ends[0][1] - ends[1][1])


def raceway_ends(job: Job, raceway: Raceway) -> tuple[Point, Point] | None:
    """Both ends of a raceway, where they have places on one wall."""
    start, end = point_of(job, raceway.start), point_of(job, raceway.end)
    if start is None or end is None or wall_of(job, raceway.start) != wall_of(job, raceway.end):
        return None
    return start, end


def _by_raceway(job: Job, cable: Cable) -> Route:
    raceway = job.of(Raceway).get(cable.raceway)
    if raceway is None:
        return Route(None, studs=None, why="its raceway is not named")
    length = raceway_length(job, raceway)
    if length is None:
        return Route(None, studs=None, why=f"the length of {raceway.tag} is not noted")
    if {cable.start, cable.end} == {raceway.start, raceway.end}:
        way = 0
    else:
        ways = [
            _to_mouths(job, cable, *mouths) for mouths in ((raceway.start, raceway.end), (raceway.end, raceway.start))
        ]
        known = [each for each in ways if each is not None]
        if not known:
            missing = _ends_missing(job, cable) or _ends_missing(job, raceway) or "an end is on another wall"
            return Route(None, studs=None, why=f"the way to {raceway.tag} is not known: {missing}")
        way = min(known)
    walls = tuple(dict.fromkeys(each for each in (wall_of(job, cable.start), wall_of(job, cable.end)) if each))
    return Route(length + way, f"the plan, along {raceway.tag}", walls=walls)


def _to_mouths(job: Job, cable: Cable, first: str, last: str) -> int | None:
    """From the ends of a cable to the mouths of its raceway, square to the framing; None while not known."""
    total = 0
    for end, mouth in ((cable.start, first), (cable.end, last)):
        if end == mouth:
            continue
        here, there = point_of(job, end), point_of(job, mouth)
        if here is None or there is None or wall_of(job, end) != wall_of(job, mouth):
            return None
        total += abs(here[0] - there[0]) + abs(here[1] - there[1])
    return total


def _legs(
    points: tuple[Point, ...], walls: tuple[str, str], corner: Corner | None, outside: int | None
) -> Iterator[Leg]:
    """The stretches in a wall; those at the height `outside` of the walls are left out."""
    for start, end in pairwise(points):
        if outside is not None and start[1] == end[1] == outside:
            continue
        if corner is None:
            yield Leg(walls[0], start, end)
            continue
        for piece in _at_corner(start, end, corner.at):
            second = sum(x for x, _ in piece) > 2 * corner.at if corner.at > 0 else sum(x for x, _ in piece) < 0
            shift = corner.shift if second else 0
            yield Leg(walls[second], (piece[0][0] - shift, piece[0][1]), (piece[1][0] - shift, piece[1][1]))


def _at_corner(start: Point, end: Point, at: int) -> list[tuple[Point, Point]]:
    """A stretch, cut in two where it passes the corner."""
    if not min(start[0], end[0]) < at < max(start[0], end[0]):
        return [(start, end)]
    height = start[1] + (end[1] - start[1]) * (at - start[0]) // (end[0] - start[0])
    return [(start, (at, height)), ((at, height), end)]


def _studs(job: Job, legs: tuple[Leg, ...], corner: Corner | None) -> int | None:
    total = 0
    for leg in legs:
        if leg.start[0] != leg.end[0]:
            met = studs_between(job, leg.wall, leg.start[0], leg.end[0], ends=corner is not None)
            if met is None:
                return None
            total += len(met)
    return total


def studs_between(job: Job, wall: str, start: int, end: int, *, ends: bool = False) -> tuple[int, ...] | None:
    """Centres of the studs that a level run on a wall goes through, by the wall's layout; None while not measured.

    With `ends` the studs at both ends of the wall count too, where its width is known: a run round a corner meets them.
    """
    one = job.of(Wall).get(wall)
    if one is None or one.first_stud is None:
        return None
    low, high = min(start, end), max(start, end)
    spacing, first, wide = one.spacing.nm, one.first_stud.nm, one.stud_width.nm
    count = (high + wide - first) // spacing
    if (high - low) // spacing > MOST_STUDS:
        return None
    begin = max(0, (low - wide - first) // spacing)
    centres = {first + at * spacing for at in range(begin, count + 1)}
    known = sizes(job).get((wall, "width"))
    if ends and known is not None:
        for end_stud in (wide // 2, known.least.nm - wide // 2):
            centres = {each for each in centres if abs(each - end_stud) >= wide} | {end_stud}
    return studs_crossed(start, end, centres, wide)


def place_text(job: Job, tag: str) -> str:
    """A tag with its place, for reading: `B3 at 7' 9" / 5' 6" on W1`."""
    point = point_of(job, tag) if tag else None
    if point is None:
        return tag or "an end that is not on the list"
    metric = job.settings.metric
    across, up = (show_length(Length(each), metric) for each in point)
    return f"{tag} at {across} / {up} on {wall_of(job, tag) or 'no wall'}"
