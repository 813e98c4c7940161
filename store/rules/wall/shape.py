"""The shape of a wall: its build-outs with their faces, on which face each thing is, and how deep it is there.

Whole nanometres. Along the wall from its left end, up from the finished floor, and out from the wall's finished face
towards the room. On a return the place across is from the wall out to the front; on an underside or a top the place up
is that. So the tape is always hooked into the corner that is there first.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Literal

import msgspec

from store.measure.length import FOOT_NM
from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.wall import BuildOut, Opening, Wall, Zone
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.core.keyed import by_key
from store.rules.core.memo import once
from store.rules.wall.lines import ceilings
from store.rules.wall.pieces import COVERING, on_face
from store.rules.wall.places import ELSEWHERE, equipment_rect, own_point, rect_of, wall_of
from store.rules.wall.readings import sizes
from store.trade.measured.plane import Rect, overlap_rect

Side = Literal[
    "wall", "front", "left return", "right return", "underside", "top",
    "ceiling", "floor", "cabinet left side", "cabinet right side",
]  # fmt: skip
HIGHEST_NM = 30 * FOOT_NM
"""Top of a build-out that goes up to a ceiling whose height nobody read."""


class Out(msgspec.Struct, frozen=True):
    """A build-out: what it takes of the wall's face, and how far it comes out."""

    tag: str
    wall: str
    rect: Rect
    depth_nm: int
    work: str
    """`framing`, `cabinet` or `masonry`."""


class Face(msgspec.Struct, frozen=True):
    """The face that something is on."""

    wall: str
    side: Side
    out: str = ""
    """The build-out; empty for the wall's own face."""


class Spot(msgspec.Struct, frozen=True):
    """A place in the room: along the wall, up, and out from its face."""

    wall: str
    x_nm: int
    y_nm: int
    out_nm: int


@by_key
def build_outs(job: Job) -> Mapping[str, tuple[Out, ...]]:
    """The build-outs of each wall, the deepest first."""
    found: dict[str, list[Out]] = {tag: [] for tag in job.of(Wall)}
    for tag, one in job.of(BuildOut).items():
        line = ceilings(job).get(one.wall)
        top = HIGHEST_NM if line is None else line.highest(one.x.nm, one.x.nm + one.width.nm)
        high = one.height.nm if one.height is not None else max(0, top - one.y.nm)
        rect = Rect(one.x.nm, one.y.nm, one.width.nm, high)
        found.setdefault(one.wall, []).append(Out(tag, one.wall, rect, one.depth.nm, one.work))
    return {wall: tuple(sorted(each, key=lambda one: -one.depth_nm)) for wall, each in found.items()}


def out_of(job: Job, tag: str) -> Out | None:
    """A build-out by its tag."""
    record = job.of(BuildOut).get(tag)
    return next((each for each in build_outs(job).get(record.wall, ()) if each.tag == tag), None) if record else None


def out_at(job: Job, wall: str, x_nm: int, y_nm: int) -> Out | None:
    """The build-out whose front is nearest to the room at a place on a wall; None for the wall's own face."""
    for each in build_outs(job).get(wall, ()):
        if each.rect.x_nm <= x_nm <= each.rect.right_nm and each.rect.y_nm <= y_nm <= each.rect.top_nm:
            return each
    return None


def outs_over(job: Job, wall: str, rect: Rect) -> Iterator[tuple[Out, bool]]:
    """The build-outs that share area with a rectangle, each with whether it holds the whole of it."""
    for each in build_outs(job).get(wall, ()):
        shared = overlap_rect(each.rect, rect)
        if shared is not None:
            yield each, shared == rect


def rect_on(job: Job, tag: str) -> Rect | None:
    """The outline of an opening, a panel, a zone or a thing on its face; of a box a point. None without a place."""
    record = job.get(tag)
    if isinstance(record, Zone):
        return Rect(record.x.nm, record.y.nm, record.width.nm, record.height.nm)
    if isinstance(record, Opening | Panel):
        one = rect_of(record)
    elif isinstance(record, Equipment):
        one = equipment_rect(job, record)
    else:
        one = None
    if one is not None:
        return one.plane
    point = own_point(job, tag)
    return None if point is None else Rect(*point, 0, 0)


@once
def face_of(job: Job, tag: str) -> Face | None:
    """The face that an opening, a panel, a box, a zone or a thing is on; None while it has no wall or no place.

    What says nothing else is on the front of the build-out that stands at its middle, else on the wall itself. Of a
    thing in an opening, the face of the opening.
    """
    record = job.get(tag)
    if isinstance(record, Equipment) and record.opening:
        return face_of(job, record.opening)
    if not isinstance(record, Opening | Panel | Box | Zone | Equipment) or not wall_of(job, tag):
        return None
    rect, wall = rect_on(job, tag), wall_of(job, tag)
    if rect is None:
        return None
    middle = rect.x_nm + rect.width_nm // 2, rect.y_nm + rect.height_nm // 2
    if record.face == "wall" or record.face == "cabinet back":
        return Face(wall, "wall")
    if record.face == "ceiling" or record.face == "floor":
        return Face(wall, record.face)
    if record.face == "cabinet left side" or record.face == "cabinet right side":
        return Face(wall, record.face, str(record.on))
    named = out_of(job, record.on) if record.on else None
    if record.face == "nearest" or record.face == "behind" or record.face == "front":
        out = named or out_at(job, wall, *middle)
        return Face(out.wall, "front", out.tag) if out is not None else Face(wall, "wall")
    out = named or _only(job, wall)
    return Face(wall, "wall") if out is None else Face(out.wall, record.face, out.tag)


def _only(job: Job, wall: str) -> Out | None:
    """The build-out of a wall that has but one: a face of it needs no tag."""
    there = build_outs(job).get(wall, ())
    return there[0] if len(there) == 1 else None


def spot_on(job: Job, face: Face, x_nm: int, y_nm: int) -> Spot:
    """A place on a face, as a place in the room."""
    if face.side in ELSEWHERE:
        return _elsewhere(job, face, x_nm, y_nm)
    out = out_of(job, face.out) if face.out else None
    if out is None:
        return Spot(face.wall, x_nm, y_nm, 0)
    if face.side == "left return":
        return Spot(face.wall, out.rect.x_nm, y_nm, x_nm)
    if face.side == "right return":
        return Spot(face.wall, out.rect.right_nm, y_nm, x_nm)
    if face.side in ("underside", "top"):
        return Spot(face.wall, x_nm, out.rect.y_nm if face.side == "underside" else out.rect.top_nm, y_nm)
    return Spot(face.wall, x_nm, y_nm, out.depth_nm)


def _elsewhere(job: Job, face: Face, x_nm: int, y_nm: int) -> Spot:
    """A place in a ceiling, a floor or the side of a cabinet, as a place in the room."""
    if face.side in ("ceiling", "floor"):
        line = ceilings(job).get(face.wall) if face.side == "ceiling" else None
        return Spot(face.wall, x_nm, line.at(x_nm) if line is not None else 0, y_nm)
    cabinet = job.of(Opening).get(face.out)
    around = rect_of(cabinet) if cabinet is not None else None
    if cabinet is None or around is None:
        return Spot(face.wall, x_nm, y_nm, 0)
    edge = around.x if face.side == "cabinet left side" else around.right
    return Spot(face.wall, edge, y_nm, back_nm(job, cabinet) + x_nm)


def front_nm(job: Job, one: Opening) -> int:
    """How far the front of an opening is out from the wall's own face: its build-out's front, or its own depth where it
    is cabinet work that stands before the bare wall."""
    if stands_in_front(job, one) and one.depth is not None:
        return one.depth.nm
    place = spot(job, one.tag)
    return place.out_nm if place is not None else 0


def back_nm(job: Job, one: Opening) -> int:
    """How far the back of an opening is out from the wall's own face; below zero behind it."""
    return front_nm(job, one) - (one.depth.nm if one.depth is not None else 0)


@once
def spot(job: Job, tag: str) -> Spot | None:
    """The middle of a thing as a place in the room; None while it has no place."""
    point, face = own_point(job, tag), face_of(job, tag)
    return None if point is None or face is None else spot_on(job, face, *point)


def bounds_of(job: Job, face: Face) -> Rect | None:
    """A face's own outline in its own places; of the wall None while it was not read."""
    if face.side in ELSEWHERE:
        return None
    out = out_of(job, face.out) if face.out else None
    if out is None:
        line, wide = ceilings(job).get(face.wall), sizes(job).get((face.wall, "width"))
        return None if line is None or wide is None else Rect(0, 0, wide.least.nm, line.highest(0, wide.least.nm))
    if face.side in ("left return", "right return"):
        return Rect(0, out.rect.y_nm, out.depth_nm, out.rect.height_nm)
    if face.side in ("underside", "top"):
        return Rect(out.rect.x_nm, 0, out.rect.width_nm, out.depth_nm)
    return out.rect


# --- depth ---


def cavity_nm(job: Job, wall: str) -> int | None:
    """Depth of the wall itself behind its finished face: as read, else its studs and their board."""
    record, read = job.of(Wall).get(wall), sizes(job).get((wall, "depth"))
    if record is None:
        return None
    return read.least.nm if read is not None else record.stud_depth.nm + job.settings.finish.nm


def depth_behind(job: Job, face: Face) -> int | None:
    """How deep it is behind a face: the build-out and the wall behind it; behind masonry nothing more is counted."""
    out = out_of(job, face.out) if face.out else None
    if out is None:
        return cavity_nm(job, face.wall)
    if face.side in ("left return", "right return"):
        return out.rect.width_nm
    if face.side in ("underside", "top"):
        return out.rect.height_nm
    behind = 0 if out.work == "masonry" else cavity_nm(job, face.wall) or 0
    return out.depth_nm + behind


def depth_there(job: Job, tag: str) -> int | None:
    """How deep it is where an opening, a box, a panel or a thing is; None while it has no place."""
    face = face_of(job, tag)
    return None if face is None else depth_behind(job, face)


def stands_in_front(job: Job, one: Opening) -> bool:
    """True for cabinet work on the wall's own face: a carcass, deeper than the wall, that is a box in front of it."""
    if one.use not in COVERING or one.thickness is None or one.depth is None:
        return False
    face = face_of(job, one.tag)
    there = cavity_nm(job, one.wall) if face is None else depth_behind(job, face)
    # In a build-out it is held against what is there; on the bare wall nothing holds it.
    return there is not None and one.depth.nm > there and (face is None or not face.out)


def into_wall_nm(job: Job, one: Opening) -> int | None:
    """How far an opening goes into the wall itself, behind the wall's finished face; None while that is not known.

    What is within a build-out, or in front of the bare wall, takes nothing of it.
    """
    if one.depth is None:
        return None
    face = face_of(job, one.tag)
    if face is None or not face.out:
        return 0 if stands_in_front(job, one) else one.depth.nm
    out = out_of(job, face.out)
    if out is None or face.side not in ("front", "wall"):
        return 0
    return max(0, one.depth.nm - out.depth_nm)


def stands_out_nm(job: Job, one: Equipment) -> int | None:
    """How far a thing on a face comes out of it: what its bracket holds it off, and its own depth."""
    if not on_face(one) or one.depth is None:
        return None
    return one.depth.nm + (one.off_wall.nm if one.off_wall is not None else 0)
