"""Where plugs, cords and receptacles are: in which opening, on which wall, and how far apart."""

from __future__ import annotations

from store.records.equipment import Equipment
from store.records.wall import Opening
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.power.plan import Feed, power
from store.rules.wall.contents import opening_of, opening_of_box, straight_nm
from store.rules.wall.places import equipment_rect, point_of, rect_of, wall_of


def strip_opening(job: Job, strip: Equipment) -> str | None:
    """The opening of a strip: its own, else that of its box; None when nothing tells."""
    own = opening_of(job, strip)
    if own:
        return own
    return opening_of_box(job).get(power(job).feeds.get(strip.tag, Feed()).box)


def reach_nm(job: Job, one: Equipment, box: Box) -> tuple[int, int] | None:
    """Straight way from the nearest edge of a thing to a box, and the square way from its middle; None if not placed.

    The first is the least that any cord needs, wherever it leaves the thing; the second is what one usually takes. A
    thing whose size nobody entered is somewhere in its opening: the nearest edge of that is nearer than its own.
    """
    around = job.of(Opening).get(one.opening)
    rect = equipment_rect(job, one) or (rect_of(around) if around is not None else None)
    point = point_of(job, box.tag)
    if rect is None or point is None or wall_of(job, one.tag) != box.wall:
        return None
    x, y = point
    edge = (min(max(x, rect.x), rect.right), min(max(y, rect.y), rect.top))
    middle = rect.centre
    return straight_nm(edge, (x, y)), abs(middle[0] - x) + abs(middle[1] - y)


UNPOWERED = ("mount", "part", "speaker", "other")
"""Sorts of thing that often need no power: nothing is asked of them until somebody notes how they are powered."""
