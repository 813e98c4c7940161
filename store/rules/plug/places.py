"""Where plugs, cords and receptacles are: in which opening, on which wall, and how far apart."""

from __future__ import annotations

from math import isqrt

from store.records.equipment import Equipment
from store.records.wall import Opening
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.core.memo import once
from store.rules.power.plan import Feed, power
from store.rules.wall.places import Point, Rect, equipment_rect, rect_of, wall_of

IN_THE_WALL = ("screen", "fireplace", "speaker")
"""Uses of an opening that is a recess in the framed wall: a cord leaves it only through the wall or over its face."""


def straight_nm(one: Point, other: Point) -> int:
    """Straight distance between two places, nm, rounded down."""
    return isqrt((one[0] - other[0]) ** 2 + (one[1] - other[1]) ** 2)


def opening_of(job: Job, one: Equipment) -> str:
    """The opening a thing is in, or is reached by; empty when neither is noted."""
    known = job.of(Opening)
    return next((str(each) for each in (one.opening, one.reached) if each in known), "")


@once
def opening_of_box(job: Job) -> dict[str, str]:
    """The opening a box is in, by the tag of the box: the one it is reached by, else the one its centre lies in."""
    rects: dict[str, list[tuple[str, Rect]]] = {}
    for tag, one in job.of(Opening).items():
        rect = rect_of(one)
        if rect is not None:
            rects.setdefault(one.wall, []).append((tag, rect))
    found = {}
    for tag, box in job.of(Box).items():
        if box.reached in job.of(Opening):
            found[tag] = str(box.reached)
        elif box.x is not None and box.y is not None:
            x, y = box.x.nm, box.y.nm
            inside = [each for each, r in rects.get(box.wall, ()) if r.x <= x <= r.right and r.y <= y <= r.top]
            if inside:
                found[tag] = inside[0]
    return found


def known_place(job: Job, box: Box) -> bool:
    """True when it can be told in which opening the box is, or that it is in none."""
    return box.tag in opening_of_box(job) or (bool(box.wall) and box.x is not None and box.y is not None)


def strip_opening(job: Job, strip: Equipment) -> str | None:
    """The opening of a strip: its own, else that of its box; None when nothing tells."""
    own = opening_of(job, strip)
    if own:
        return own
    return opening_of_box(job).get(power(job).feeds.get(strip.tag, Feed()).box)


def reach_nm(job: Job, one: Equipment, box: Box) -> tuple[int, int] | None:
    """Straight way from the nearest edge of a thing to a box, and the square way from its middle; None if not placed.

    The first is the least that any cord needs, wherever it leaves the thing; the second is what one usually takes.
    """
    rect = equipment_rect(job, one)
    if rect is None or box.x is None or box.y is None or wall_of(job, one.tag) != box.wall:
        return None
    x, y = box.x.nm, box.y.nm
    edge = (min(max(x, rect.x), rect.right), min(max(y, rect.y), rect.top))
    middle = rect.centre
    return straight_nm(edge, (x, y)), abs(middle[0] - x) + abs(middle[1] - y)
