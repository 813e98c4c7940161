"""Where things are on a wall, in whole nanometres from its left corner and its finished floor."""

from __future__ import annotations

from itertools import pairwise

import msgspec

from store.measure.errors import BadValue
from store.measure.length import INCH_NM, Length, parse_length
from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.wall import Opening
from store.records.whole import Job
from store.records.wiring import Box, Cable, Raceway
from store.rules.fit import hangs
from store.rules.layout import layout

BEYOND_NM = 6 * INCH_NM
"""How far outside the wall a run over its top or under its floor is drawn, so that it is told from the wall's edge."""
POWER_BOXES = ("receptacle", "switch", "junction", "quick-connect")
"""Boxes that hold mains wiring; a cable that ends in one is drawn as power."""

Point = tuple[int, int]
"""From the left corner and from the finished floor, nanometres."""


class Rect(msgspec.Struct, frozen=True):
    """A rectangle by its lower left corner, nanometres."""

    x: int
    y: int
    width: int
    height: int

    @property
    def centre(self) -> Point:
        """Its middle, rounded down to a nanometre."""
        return self.x + self.width // 2, self.y + self.height // 2

    @property
    def right(self) -> int:
        """Its right edge."""
        return self.x + self.width

    @property
    def top(self) -> int:
        """Its upper edge."""
        return self.y + self.height


def rect_of(one: Opening | Panel) -> Rect | None:
    """The rectangle of an opening or a panel; None while its place or a size is missing."""
    if one.x is None or one.y is None or one.width is None or one.height is None:
        return None
    return Rect(one.x.nm, one.y.nm, one.width.nm, one.height.nm)


def equipment_rect(job: Job, one: Equipment) -> Rect | None:
    """The front of a device in its opening: what hangs is in the middle, what stands is on the inside floor.

    Across it stands at its offset; without one, those that share an opening stand side by side about its middle.
    None while its opening has no place or its own width or height is not known.
    """
    opening = job.of(Opening).get(one.opening)
    around = rect_of(opening) if opening else None
    if opening is None or around is None or one.width is None or one.height is None:
        return None
    side = opening.thickness.nm if opening.thickness else 0
    x = around.centre[0] + _beside(job, one) if one.offset is None else around.x + side + one.offset.nm
    y = around.centre[1] - one.height.nm // 2 if hangs(one) else around.y + side
    return Rect(x, y, one.width.nm, one.height.nm)


def _beside(job: Job, one: Equipment) -> int:
    """Where the left edge of a piece without an offset comes, from the middle of its opening."""
    row = [each for each in layout(job).inside.get(one.opening, ()) if each.offset is None and each.width is not None]
    widths = {each.tag: each.width.nm for each in row if each.width is not None}
    left = -sum(widths.values()) // 2
    for tag, width in widths.items():
        if tag == one.tag:
            return left
        left += width
    return -(one.width.nm if one.width else 0) // 2


def wall_of(job: Job, tag: str) -> str:
    """The wall on which a thing stands: its own, or that of the opening it is in; empty when none is given."""
    record = job.get(tag)
    if isinstance(record, Equipment):
        record = job.of(Opening).get(record.opening)
    return record.wall if isinstance(record, Opening | Box | Panel) else ""


def point_of(job: Job, tag: str) -> Point | None:
    """Where a cable or raceway meets a thing: a box's centre, or the middle of a device, an opening or a panel."""
    record = job.get(tag)
    if isinstance(record, Box):
        return (record.x.nm, record.y.nm) if record.x is not None and record.y is not None else None
    rect = None
    if isinstance(record, Opening | Panel):
        rect = rect_of(record)
    elif isinstance(record, Equipment):
        rect = equipment_rect(job, record)
    return rect.centre if rect else None


def cable_path(job: Job, cable: Cable, height_nm: int, beyond_nm: int = 0) -> tuple[Point, ...] | None:
    """The way of a cable over the face of its wall, or None while an end has no place there or they are on two walls.

    Through studs it runs level at `level`, or at the height of its start where no level is given. Over the top
    it runs at `height_nm`, under the floor at 0, each `beyond_nm` farther out. Through a raceway it goes by both
    of its ends; in a cabinet, straight: so does a cable that is not in the wall and
    names no other way. Points that cannot be read are left out (`bad_points` lists them).
    """
    ends = _ends(job, cable)
    if ends is None:
        return None
    start, end = ends
    return without_repeats((start, *_between(job, cable, start, end, height_nm + beyond_nm, -beyond_nm), end))


def _between(job: Job, cable: Cable, start: Point, end: Point, over: int, under: int) -> tuple[Point, ...]:
    levels = {
        "through studs": start[1] if cable.level is None else cable.level.nm,
        "up and over": over,
        "down and under": under,
    }
    in_cabinet = not cable.in_wall and cable.route == "through studs" and cable.level is None
    if cable.route in levels and not in_cabinet:
        level = levels[cable.route]
        return (start[0], level), (end[0], level)
    if cable.route == "points":
        return tuple(found for text in cable.points if (found := read_point(text, job.settings.metric)))
    raceway = job.of(Raceway).get(cable.raceway)
    if cable.route == "raceway" and raceway is not None and (ends := _ends(job, raceway)) is not None:
        return ends if _near(start, ends[0]) <= _near(start, ends[1]) else ends[::-1]
    return ()


def raceway_path(job: Job, raceway: Raceway) -> tuple[Point, ...] | None:
    """The straight line between both ends of a raceway, or None while an end has no place or they are on two walls."""
    return _ends(job, raceway)


def _ends(job: Job, one: Cable | Raceway) -> tuple[Point, Point] | None:
    start, end = point_of(job, one.start), point_of(job, one.end)
    if start is None or end is None or wall_of(job, one.start) != wall_of(job, one.end):
        return None
    return start, end


def _near(one: Point, other: Point) -> int:
    return abs(one[0] - other[0]) + abs(one[1] - other[1])


def read_point(text: str, metric: bool) -> Point | None:
    """A place typed as `x/y`, or None when it cannot be read. A fraction is a slash too: every split is tried."""
    parts = text.split("/")
    found = []
    for cut in range(1, len(parts)):
        try:
            pair = [parse_length("/".join(each), metric) for each in (parts[:cut], parts[cut:])]
        except BadValue:
            continue
        found.append((pair[0].nm, pair[1].nm))
    return found[0] if len(found) == 1 else None


def bad_points(cable: Cable, metric: bool) -> list[str]:
    """The points of a cable that do not say one place and no other."""
    return [text for text in cable.points if read_point(text, metric) is None]


def without_repeats(points: tuple[Point, ...]) -> tuple[Point, ...]:
    """The points with each that equals the one before it left out, and at least one."""
    kept = [points[0]]
    kept += [point for before, point in pairwise(points) if point != before]
    return tuple(kept)


def is_power(job: Job, cable: Cable) -> bool:
    """True when an end of the cable is a box that holds mains wiring."""
    ends = (job.of(Box).get(cable.start), job.of(Box).get(cable.end))
    return any(box is not None and box.what in POWER_BOXES for box in ends)


def not_placed(one: Opening | Panel | Box) -> str:
    """What is missing for a place on the wall, in words; empty when nothing is."""
    wanted: list[tuple[str, Length | None]] = [("from left", one.x), ("from floor", one.y)]
    if not isinstance(one, Box):
        wanted += [("width", one.width), ("height", one.height)]
    missing = [name for name, value in wanted if value is None]
    if not one.wall:
        missing.insert(0, "wall")
    return f"{', '.join(missing)} not given" if missing else ""
