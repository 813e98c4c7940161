"""Where things are on a wall, in whole nanometres from its left corner and its finished floor."""

from __future__ import annotations

from itertools import pairwise

import msgspec

from store.measure.errors import BadValue
from store.measure.length import INCH_NM, Length, parse_length, to_file
from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.inside import ShelfBoard
from store.records.wall import BuildOut, Opening, Wall, Zone
from store.records.whole import Job
from store.records.wiring import Box, Cable
from store.rules.wall.inside import inside_at, insides
from store.rules.wall.layout import in_opening
from store.rules.wall.lines import ceilings
from store.rules.wall.pieces import hangs, on_face
from store.trade.measured.plane import Rect as PlaneRect
from store.trade.power.devices import device_named

BEYOND_NM = 6 * INCH_NM
"""How far outside the wall a run over its top or under its floor is drawn, so that it is told from the wall's edge."""
POWER_BOXES = ("receptacle", "switch", "junction", "quick-connect")
"""Boxes that hold mains wiring."""
COVERED_DEVICES = ("", "terminal block", "driver or transformer", "surge protector")
"""What lies in a box behind its cover: no part of it is at the finished wall."""

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

    @property
    def plane(self) -> PlaneRect:
        """The same as plane geometry takes it."""
        return PlaneRect(self.x, self.y, self.width, self.height)


def rect_of(one: Opening | Panel) -> Rect | None:
    """The rectangle of an opening or a panel; None while its place or a size is missing."""
    if one.x is None or one.y is None or one.width is None or one.height is None:
        return None
    return Rect(one.x.nm, one.y.nm, one.width.nm, one.height.nm)


def equipment_rect(job: Job, one: Equipment) -> Rect | None:
    """The front of a device in its opening: what hangs is in the middle, what stands is on the inside floor.

    What says on which shelf it stands is there. On a face it is about its own centre. Across it stands at its offset;
    without one, those that share an opening stand side by side about its middle.
    None while its opening has no place or its own width or height is not known.
    """
    if (shelf := fastened_to(job, one)) is not None:
        return _along(job, one, shelf)
    if one.width is not None and one.height is not None and one.x is not None and one.y is not None and on_face(one):
        left, low = one.x.nm - one.width.nm // 2, one.y.nm - one.height.nm // 2
        return Rect(left, low, one.width.nm, one.height.nm)
    opening = job.of(Opening).get(one.opening)
    around = rect_of(opening) if opening else None
    if opening is None or around is None or one.width is None or one.height is None:
        return None
    side = opening.thickness.nm if opening.thickness else 0
    if (stands := inside_at(job, one)) is not None:
        there = stands[1]
        return Rect(around.x + side + there.left_nm, around.y + side + there.bottom_nm, there.width_nm, there.height_nm)
    x = around.centre[0] + _beside(job, one) if one.offset is None else around.x + side + one.offset.nm
    y = around.centre[1] - one.height.nm // 2 if hangs(one) else around.y + side
    return Rect(x, y, one.width.nm, one.height.nm)


CARRIES_LIGHT = ("floating shelf", "floating cabinet", "mantel")
"""Things on the face of a wall with an edge that a strip of light is fastened to."""


def fastened_to(job: Job, one: Equipment) -> Equipment | None:
    """The floating shelf, cabinet or mantel on the wall that a light is fastened to; None for any other."""
    if one.what != "light" or not one.stands_on:
        return None
    on = job.of(Equipment).get(one.stands_on)
    return on if on is not None and on.what in CARRIES_LIGHT and on.retired is None and on_face(on) else None


def _along(job: Job, one: Equipment, shelf: Equipment) -> Rect | None:
    """A strip under a shelf, on top of it where it faces up: in the middle, or as far from its left end as it says."""
    there = equipment_rect(job, shelf)
    if there is None:
        return None
    high = one.height.nm if one.height is not None else 0
    start = max(0, one.offset.nm) if one.offset is not None else 0
    wide = min(there.width - start, (one.width or one.tape or Length(there.width)).nm)
    if wide <= 0:
        return None
    left = there.x + ((there.width - wide) // 2 if one.offset is None else start)
    return Rect(left, there.top if one.faces == "up" else there.y - high, wide, high)


def _beside(job: Job, one: Equipment) -> int:
    """Where the left edge of a piece without an offset comes, from the middle of its opening."""
    row = [each for each in in_opening(job).get(one.opening, ()) if each.offset is None and each.width is not None]
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
    if isinstance(record, Equipment) and not record.opening and (on := fastened_to(job, record)) is not None:
        return on.wall
    if (isinstance(record, Equipment) and record.opening) or isinstance(record, ShelfBoard):
        record = job.of(Opening).get(record.opening)
    return record.wall if isinstance(record, Opening | Box | Panel | Equipment | Zone | BuildOut) else ""


RETURNS = ("left return", "right return", "underside", "top")
"""Faces of a build-out that are seen from the side: a place on them is from the wall out."""


ELSEWHERE = ("ceiling", "floor", "cabinet left side", "cabinet right side")
"""Faces that a panel may be in and that are none of a wall or a build-out; see `records.access.PanelFace`."""


def on_side(one: object) -> bool:
    """True for what is on a return, an underside or a top; or in a ceiling, a floor or the side of a cabinet."""
    return getattr(one, "face", "") in (*RETURNS, *ELSEWHERE)


def from_front(job: Job, one: Box | Panel | Opening | Equipment, point: Point) -> Point:
    """A place on a return, an underside or a top as it is seen from the front: at the edge of its build-out."""
    if one.face in ELSEWHERE:
        return _elsewhere(job, one, point)
    there = [each for each in job.of(BuildOut).values() if each.wall == one.wall]
    out = job.of(BuildOut).get(one.on) or (there[0] if len(there) == 1 else None)
    if out is None or not on_side(one):
        return point
    if one.face in ("underside", "top"):
        high = out.height.nm if one.face == "top" and out.height is not None else 0
        return point[0], out.y.nm + high
    return out.x.nm + (out.width.nm if one.face == "right return" else 0), point[1]


def _elsewhere(job: Job, one: Box | Panel | Opening | Equipment, point: Point) -> Point:
    """A place in a ceiling, a floor or the side of a cabinet, as it is seen from the front."""
    if one.face == "floor":
        return point[0], 0
    if one.face == "ceiling":
        line = ceilings(job).get(one.wall)
        return point[0], line.at(point[0]) if line is not None else point[1]
    cabinet = job.of(Opening).get(one.on)
    around = rect_of(cabinet) if cabinet is not None else None
    if around is None:
        return point
    return around.x if one.face == "cabinet left side" else around.right, point[1]


def shows_on_wall(box: Box) -> bool:
    """True for a box that can be opened from the room: any but a junction box, and that by its blank plate or by a
    device with a face of its own, like a fused connection unit or a luminaire."""
    faces = any(device_named(text) not in COVERED_DEVICES for text in box.devices)
    return box.what != "junction" or box.plate or faces


def point_of(job: Job, tag: str) -> Point | None:
    """Where a cable or raceway meets a thing, seen from the front; see `own_point`."""
    point, record = own_point(job, tag), job.get(tag)
    if point is None or not isinstance(record, Box | Panel | Opening | Equipment) or not on_side(record):
        return point
    return from_front(job, record, point)


def own_point(job: Job, tag: str) -> Point | None:
    """The middle of a thing on its own face: a box's centre, the middle of a device, an opening or a panel.

    A device whose size is not noted yet is taken to be at the middle of its opening; one that is in no opening has a
    place of its own, like a box.
    """
    record = job.get(tag)
    if isinstance(record, Box) or (isinstance(record, Equipment) and not record.opening):
        return (record.x.nm, record.y.nm) if record.x is not None and record.y is not None else None
    rect = None
    if isinstance(record, Equipment):
        rect = equipment_rect(job, record)
        record = job.of(Opening).get(record.opening)
    if rect is None and isinstance(record, Opening | Panel):
        rect = rect_of(record)
    return rect.centre if rect else None


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


def read_place(job: Job, text: str) -> tuple[str, Point] | None:
    """A place on the way of a cable, with its wall: `B7` (a tag), `W2 1'/3'`, or `1'/3'` (its wall then is empty).

    None when it cannot be read, or names a thing that has no place.
    """
    first, _, rest = text.strip().partition(" ")
    tag = first.upper()
    if tag in job.of(Wall):
        point = read_point(rest, job.settings.metric)
        return None if point is None else (tag, point)
    if not rest and job.get(tag) is not None:
        point = point_of(job, tag)
        return None if point is None else (wall_of(job, tag), point)
    point = read_point(text, job.settings.metric)
    return None if point is None else ("", point)


def bad_points(job: Job, cable: Cable) -> list[str]:
    """The points of a cable that do not say one place and no other."""
    return [text for text in cable.points if read_place(job, text) is None]


def without_repeats(points: tuple[Point, ...]) -> tuple[Point, ...]:
    """The points with each that equals the one before it left out, and at least one."""
    kept = [points[0]]
    kept += [point for before, point in pairwise(points) if point != before]
    return tuple(kept)


def not_placed(one: Opening | Panel | Box) -> str:
    """What is missing for a place on the wall, in words; empty when nothing is."""
    wanted: list[tuple[str, Length | None]] = [("from left", one.x), ("from floor", one.y)]
    if not isinstance(one, Box):
        wanted += [("width", one.width), ("height", one.height)]
    missing = [name for name, value in wanted if value is None]
    if not one.wall:
        missing.insert(0, "wall")
    return f"not entered: {', '.join(missing)}" if missing else ""


def spot_of(job: Job, tag: str) -> str:
    """An end with its place, exact: what a closing vouches for."""
    point = point_of(job, tag) if tag else None
    if point is None:
        return tag
    across, up = (to_file(Length(each)) for each in point)
    return f"{tag} at {across} / {up} on {wall_of(job, tag)}"


def board_rect(job: Job, tag: str) -> Rect | None:
    """A shelf or a divider inside an opening, seen from the front; None while its place or its opening's is missing."""
    board = job.of(ShelfBoard).get(tag)
    opening = job.of(Opening).get(board.opening) if board is not None else None
    there, around = (insides(job).get(opening.tag), rect_of(opening)) if opening is not None else (None, None)
    laid = there.board(tag) if there is not None else None
    if opening is None or around is None or laid is None:
        return None
    side = opening.thickness.nm if opening.thickness else 0
    wide, high = laid.right_nm - laid.left_nm, laid.top_nm - laid.bottom_nm
    return Rect(around.x + side + laid.left_nm, around.y + side + laid.bottom_nm, max(0, wide), max(0, high))
