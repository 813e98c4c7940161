"""The nearest way that a cable can take where its own leads through what nothing can be run through.

Ways in the wall are square to the framing and clear of what is in the way by the studs beside it. Where there is none
that clears everything, the shorter of those over the top and under the floor is named. Raceways: `raceway_ways`.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise

import msgspec

from store.measure.length import INCH_NM, MM_NM, Length, typed_length
from store.records.whole import Job
from store.records.wiring import Cable, Raceway
from store.rules.cable.blocked import Blocked, blocked, crossed, outside
from store.rules.cable.courses import place_of_end
from store.rules.cable.in_wall import in_the_wall
from store.rules.cable.legs import BEYOND, Unfolded, has_line
from store.rules.cable.routes import Route, route_of, routes
from store.rules.core.keyed import of_each
from store.rules.core.wording import said
from store.rules.wall.lines import ceilings
from store.rules.wall.places import read_place
from store.rules.wall.readings import sizes
from store.trade.cable.way import way_round
from store.trade.measured.plane import Rect

CLEAR_NM = 3 * INCH_NM
"""Beside, over and under a hole: a king stud and a trimmer, each 1-1/2 in. Common practice."""
PIPE_NM = INCH_NM
"""Beside a pipe or masonry: room for a drill. Our own, no source."""
PLATE_NM = 3 * INCH_NM
"""At the foot and the head of the wall: the plates, and room for a drill. Common practice."""
SLOPE_STEPS = 12
"""Steps that a sloped stretch of a ceiling is taken in."""
OUTSIDE = {"up and over": "over the top", "down and under": "under the floor"}
"""How a way that leaves the wall is told."""


class Way(msgspec.Struct, frozen=True):
    """A way that clears everything."""

    cable: Cable
    """The cable with that way entered."""
    route: Route
    longer_nm: int
    """How much longer than the way that cannot be taken; less than nothing where it is shorter."""


@of_each(Cable)
def ways_round(job: Job, cable: Cable) -> Way | None:
    """The nearest buildable way of every cable whose own way leads through something; None where none is known.

    A length measured by hand says nothing of the way: that of the plan is judged, and another takes its place.
    """
    route = routes.one(job, cable.tag)
    if route is None or route.path is None or not in_the_wall(job, cable):
        return None
    if cable.route == "raceway" or not _cannot(job, cable, route):
        return None
    plain = msgspec.structs.replace(cable, measured=None)
    found = [(each, route_of(job, each)) for each in _others(job, plain)]
    clear = [
        (each.route != "points", way.path, at, each, way)
        for at, (each, way) in enumerate(found)
        if way.path is not None and way.legs and not _cannot(job, each, way)
    ]
    if not clear:
        return None
    # What is above and below a wall is not known here, so a way that stays in it comes first.
    _, path, _, each, way = min(clear, key=lambda one: one[:3])
    own = route.path if cable.measured is None else route_of(job, plain).path
    return Way(each, way, path - (own or 0))


def _cannot(job: Job, cable: Cable, route: Route) -> bool:
    """True where a way goes through what nothing can be run through, or leaves the wall it is in."""
    return any(crossed(job, cable, route.in_wall)) or outside(job, route.legs) is not None


def way_words(job: Job, way: Way, *, brief: bool = False) -> str:
    """The way and its length, to be read: `over the top: 31'-2", 4'-0" longer`."""
    return led_words(job, way.cable, way.route.path or 0, way.longer_nm, brief=brief)


def led_words(job: Job, one: Cable | Raceway, length_nm: int, longer_nm: int, *, brief: bool = False) -> str:
    """How a cable or a raceway is led, how long that is, and how much longer or shorter than before.

    In brief, its points are counted and not named.
    """
    points = ", ".join(_read(job, text) for text in one.points)
    named = f"by {points}" if len(one.points) < 2 or not brief else f"by {len(one.points)} points"
    how = named if one.points else OUTSIDE.get(one.route, one.route)
    if longer_nm == 0:
        return f"{how}: {said(job, length_nm)}, the same length"
    return f"{how}: {said(job, length_nm)}, {said(job, abs(longer_nm))} {'longer' if longer_nm > 0 else 'shorter'}"


def _read(job: Job, text: str) -> str:
    """A point to be read: one that is kept in feet and inches is told in millimeters in a metric job."""
    found = read_place(job, text) if job.settings.metric and "/" in text else None
    return f"{found[0]} {said(job, found[1][0])}/{said(job, found[1][1])}".lstrip() if found else text


def only_measured(cable: Cable) -> str:
    """What is to be said of a way of which no more than the length was measured; empty where none was."""
    return "" if cable.measured is None else " Its length was measured by hand; the route is that of the plan."


def _others(job: Job, cable: Cable) -> Iterator[Cable]:
    """The cable as it could be led: round what is in the way, over the top, under the floor."""
    points = points_in_wall(job, cable)
    if points is not None:
        yield msgspec.structs.replace(cable, route="points", level=None, points=points)
    for how in BEYOND:
        yield msgspec.structs.replace(cable, route=how, level=None, points=())


def points_in_wall(
    job: Job, one: Cable | Raceway, beside_nm: int = 0, shut: Iterable[tuple[str, Rect]] = ()
) -> tuple[str, ...] | None:
    """The corners of the shortest way in the wall, as they are typed; None where there is no such way.

    The middle of what is led keeps `beside_nm` farther off than a cable does, and out of what else is `shut`, each with
    its wall.
    """
    unfolded = Unfolded.of(job, (place_of_end(job, one.start), place_of_end(job, one.end)))
    if isinstance(unfolded, str):
        return None
    start, end = unfolded.points
    step = MM_NM if job.settings.metric else INCH_NM // 16
    rects = [
        _grown(each.rect, left, _clear_nm(each) + beside_nm, step)
        for left, wall in unfolded.faces
        for each in blocked(job).get(wall, ())
        if not each.serves(job, one)
    ]
    lefts = {wall: left for left, wall in unfolded.faces}
    rects += [_grown(rect, lefts[wall], beside_nm, step) for wall, rect in shut if wall in lefts]
    rects += _slopes(job, unfolded)
    way = way_round(start, end, rects, _within(job, unfolded))
    if way is None:
        return None
    return tuple(_typed(job, unfolded, at) for at in way[1:-1])


def _clear_nm(one: Blocked) -> int:
    return CLEAR_NM if one.framed else PIPE_NM if one.what != "heater" else 0


def _grown(rect: Rect, left: int, by: int, step: int) -> Rect:
    """What is to be kept clear of, on walls laid out flat: outward to what is read off a tape."""
    low, bottom = (rect.x_nm - by) // step * step, (rect.y_nm - by) // step * step
    right, top = -(-(rect.right_nm + by) // step) * step, -(-(rect.top_nm + by) // step) * step
    return Rect(left + low, bottom, right - low, top - bottom)


def _slopes(job: Job, unfolded: Unfolded) -> Iterator[Rect]:
    """What is above a ceiling line that slopes or steps, and the plates under it, in steps; an end stays outside."""
    for at, (left, wall) in enumerate(unfolded.faces):
        line = ceilings(job).get(wall)
        if line is None or not has_line(job, wall):
            continue
        size = sizes(job).get((wall, "width"))
        right = unfolded.faces[at + 1][0] if at + 1 < len(unfolded.faces) else left + (size.least.nm if size else 0)
        wide, top = right - left, line.highest(0, max(1, right - left))
        edges = {0, wide, *(x for x, _ in line.points if 0 < x < wide)}
        edges |= {wide * step // SLOPE_STEPS for step in range(SLOPE_STEPS)}
        for a, b in pairwise(sorted(edges)):
            low = line.lowest(a, b) - PLATE_NM
            low = max(low, *(y for x, y in unfolded.points if a < x - left < b), low)
            if low < top:
                yield Rect(left + a, low, b - a, top - low + PLATE_NM)


def _within(job: Job, unfolded: Unfolded) -> Rect:
    """Where a way in the wall can be: between the plates of the lowest of its walls, from end to end."""
    known = [_height(job, wall) for wall in unfolded.walls]
    heights = [each for each in known if each is not None]
    last, wall = unfolded.faces[-1]
    size = sizes(job).get((wall, "width"))
    xs = [at[0] for at in unfolded.points]
    right = last + size.least.nm if size is not None else max(xs)
    top = min(heights) - PLATE_NM if heights else max(at[1] for at in unfolded.points)
    return Rect(unfolded.faces[0][0], PLATE_NM, max(1, right - unfolded.faces[0][0]), max(1, top - PLATE_NM))


def _height(job: Job, wall: str) -> int | None:
    """The height of a wall, of a sloped one where it is highest; None while it is not known."""
    line, size = ceilings(job).get(wall), sizes(job).get((wall, "height"))
    if line is not None and has_line(job, wall):
        return max(y for _, y in line.points)
    return size.least.nm if size is not None else None


def _typed(job: Job, unfolded: Unfolded, at: tuple[int, int]) -> str:
    """A corner as a person types it: its wall, how far along, how far up."""
    # A way to the left has its first wall at 0 and the next ones below that.
    left, wall = next((each for each in reversed(unfolded.faces) if each[0] <= at[0]), unfolded.faces[0])
    metric = job.settings.metric
    across, up = (typed_length(Length(each), metric, size=False) for each in (at[0] - left, at[1]))
    return f"{wall} {across}/{up}"
