"""The nearest way that a cable can take where its own leads through what nothing can be run through.

Ways in the wall are square to the framing and clear of what is in the way by the studs beside it. Where there is none
that clears everything, the shorter of those over the top and under the floor is named.
"""

from __future__ import annotations

from collections.abc import Iterator

import msgspec

from store.measure.length import INCH_NM, Length, typed_length
from store.records.whole import Job
from store.records.wiring import Cable
from store.rules.cable.blocked import Blocked, blocked, crossed
from store.rules.cable.in_wall import in_the_wall
from store.rules.cable.legs import Unfolded
from store.rules.cable.routes import Route, place_of_end, route_of, routes
from store.rules.core.keyed import of_each
from store.rules.core.wording import said
from store.rules.wall.readings import sizes
from store.trade.cable.way import way_round
from store.trade.measured.plane import Rect

CLEAR_NM = 3 * INCH_NM
"""Beside, over and under a hole: a king stud and a trimmer, each 1-1/2 in. Common practice."""
PLATE_NM = 3 * INCH_NM
"""At the foot and the head of the wall: the plates, and room for a drill. Common practice."""


class Way(msgspec.Struct, frozen=True):
    """A way that clears everything."""

    cable: Cable
    """The cable with that way entered."""
    route: Route
    longer_nm: int
    """How much longer than the way that cannot be taken; less than nothing where it is shorter."""


@of_each(Cable)
def ways_round(job: Job, cable: Cable) -> Way | None:
    """The nearest buildable way of every cable whose own way leads through something; None where none is known."""
    route = routes.one(job, cable.tag)
    if route is None or route.path is None or cable.measured is not None or not in_the_wall(job, cable):
        return None
    if cable.route == "raceway" or not any(crossed(job, cable, route.in_wall)):
        return None
    found = [(each, route_of(job, each)) for each in _others(job, cable)]
    clear = [
        (each.route != "points", way.path, at, each, way)
        for at, (each, way) in enumerate(found)
        if way.path is not None and way.legs and not any(crossed(job, each, way.in_wall))
    ]
    if not clear:
        return None
    # What is above and below a wall is not known here, so a way that stays in it comes first.
    _, path, _, each, way = min(clear, key=lambda one: one[:3])
    return Way(each, way, path - route.path)


def way_words(job: Job, way: Way) -> str:
    """The way and its length, to be read: `up and over: 31'-2", 4'-0" longer`."""
    how = f"by {', '.join(way.cable.points)}" if way.cable.route == "points" else way.cable.route
    more = "longer" if way.longer_nm >= 0 else "shorter"
    return f"{how}: {said(job, way.route.path or 0)}, {said(job, abs(way.longer_nm))} {more}"


def _others(job: Job, cable: Cable) -> Iterator[Cable]:
    """The cable as it could be led: round what is in the way, over the top, under the floor."""
    points = _in_the_wall(job, cable)
    if points is not None:
        yield msgspec.structs.replace(cable, route="points", level=None, points=points)
    for how in ("up and over", "down and under"):
        yield msgspec.structs.replace(cable, route=how, level=None, points=())


def _in_the_wall(job: Job, cable: Cable) -> tuple[str, ...] | None:
    """The corners of the shortest way in the wall, as they are typed; None where there is no such way."""
    unfolded = Unfolded.of(job, (place_of_end(job, cable.start), place_of_end(job, cable.end)))
    if isinstance(unfolded, str):
        return None
    start, end = unfolded.points
    rects = [
        _grown(each, left)
        for left, wall in unfolded.faces
        for each in blocked(job).get(wall, ())
        if not each.serves(job, cable)
    ]
    way = way_round(start, end, rects, _within(job, unfolded))
    if way is None:
        return None
    return tuple(_typed(job, unfolded, at) for at in way[1:-1])


def _grown(one: Blocked, left: int) -> Rect:
    """What is to be kept clear of, on walls that are laid out flat: a hole with the studs beside it."""
    by = CLEAR_NM if one.framed else 0
    rect = one.rect
    return Rect(left + rect.x_nm - by, rect.y_nm - by, rect.width_nm + 2 * by, rect.height_nm + 2 * by)


def _within(job: Job, unfolded: Unfolded) -> Rect:
    """Where a way in the wall can be: between the plates of the lowest of its walls, from end to end."""
    heights = [size.least.nm for wall in unfolded.walls if (size := sizes(job).get((wall, "height"))) is not None]
    last, wall = unfolded.faces[-1]
    size = sizes(job).get((wall, "width"))
    xs = [at[0] for at in unfolded.points]
    right = last + size.least.nm if size is not None else max(xs)
    top = min(heights) - PLATE_NM if heights else max(at[1] for at in unfolded.points)
    return Rect(unfolded.faces[0][0], PLATE_NM, max(1, right - unfolded.faces[0][0]), max(1, top - PLATE_NM))


def _typed(job: Job, unfolded: Unfolded, at: tuple[int, int]) -> str:
    """A corner as a person types it: its wall, how far along, how far up."""
    left, wall = next((left, wall) for left, wall in reversed(unfolded.faces) if left <= at[0] or left == 0)
    metric = job.settings.metric
    across, up = (typed_length(Length(each), metric, size=False) for each in (at[0] - left, at[1]))
    return f"{wall} {across}/{up}"
