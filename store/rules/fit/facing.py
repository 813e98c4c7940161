"""What doors, flaps and drawers of several walls sweep, seen from above in one room: which of them meet round a corner.

The walls that meet are laid out as they are, square to each other; plan geometry, in nanometres.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import cos, pi, sin

import msgspec

from store.records.wall import Opening, Wall
from store.records.whole import Job
from store.rules.core.keyed import by_key
from store.rules.fit.furniture import SIDES, from_above, furniture_at
from store.rules.wall.layout import walls
from store.rules.wall.pieces import is_drawer
from store.rules.wall.readings import sizes
from store.rules.wall.shape import build_outs, face_of, spot, stands_in_front
from store.rules.wall.unfold import next_walls
from store.trade.measured.plane import Rect

Plan = tuple[float, float]
"""A place in the room, seen from above."""
ARC_STEPS = 12
"""Corners that a quarter of a circle is taken to have."""


class Frame(msgspec.Struct, frozen=True):
    """Where a wall is in the room: its left end, which way it runs, which way the room is."""

    x: int
    y: int
    along: tuple[int, int]
    out: tuple[int, int]

    def at(self, along_nm: float, out_nm: float) -> Plan:
        """A place along the wall and out from its face."""
        return (
            self.x + along_nm * self.along[0] + out_nm * self.out[0],
            self.y + along_nm * self.along[1] + out_nm * self.out[1],
        )


class Area(msgspec.Struct, frozen=True):
    """What something takes of the room: its outline from above, without a dent, and between which heights."""

    tag: str
    wall: str
    outline: tuple[Plan, ...]
    low_nm: int
    top_nm: int
    moves: bool
    """True for what a door or drawer sweeps; else it stands there."""

    def meets(self, other: Area) -> bool:
        """True where two areas share a part of the room; touching is not sharing."""
        if self.low_nm >= other.top_nm or other.low_nm >= self.top_nm:
            return False
        return not any(_apart(self.outline, other.outline, axis) for axis in _axes(self.outline, other.outline))


@by_key
def frames(job: Job) -> Mapping[str, tuple[int, Frame]]:
    """Each wall that is known to meet another, with the number of its chain and where it is in the room."""
    onward = next_walls(job)
    firsts = [tag for tag in job.of(Wall) if tag in onward and tag not in onward.values()]
    # A room that is closed has no first wall: any will do.
    firsts += [tag for tag in onward if tag not in firsts]
    found: dict[str, tuple[int, Frame]] = {}
    for number, first in enumerate(firsts):
        wall, frame = first, Frame(0, 0, (1, 0), (0, -1))
        while wall and wall not in found:
            found[wall] = (number, frame)
            after, size = onward.get(wall, ""), sizes(job).get((wall, "width"))
            if not after or size is None:
                break
            frame, wall = _round(job, frame, wall, after, size.least.nm), after
    return found


def _round(job: Job, frame: Frame, wall: str, after: str, width: int) -> Frame:
    """Where the next wall is."""
    x, y = frame.at(width, 0)
    one, other = job.of(Wall).get(wall), job.of(Wall).get(after)
    outside = "outside" in ((one.right_corner if one else ""), (other.left_corner if other else ""))

    def turned(way: tuple[int, int]) -> tuple[int, int]:
        return (-way[1], way[0]) if outside else (way[1], -way[0])

    return Frame(round(x), round(y), turned(frame.along), turned(frame.out))


@by_key
def meeting(job: Job) -> Mapping[str, tuple[Area, ...]]:
    """For each opening that opens towards the room, what it meets on the other walls as it opens."""
    frame_of = frames(job)
    if len(frame_of) < 2:
        return {}
    areas = [
        (frame_of[wall][0], area, _around(area)) for wall in frame_of for area in _areas(job, wall, frame_of[wall][1])
    ]
    found: dict[str, list[Area]] = {}
    for chain, one, (left, low, right, high) in areas:
        for number, other, (x, y, to_x, to_y) in areas if one.moves else ():
            near = x < right and left < to_x and y < high and low < to_y
            if near and number == chain and other.wall != one.wall and one.meets(other):
                found.setdefault(one.tag, []).append(other)
    return {tag: tuple(each) for tag, each in found.items()}


def _around(area: Area) -> tuple[float, float, float, float]:
    """Left, low, right and high of what an area takes, seen from above."""
    across, up = zip(*area.outline, strict=True)
    return min(across), min(up), max(across), max(up)


def _areas(job: Job, wall: str, frame: Frame) -> Iterator[Area]:
    for out in build_outs(job).get(wall, ()):
        yield _standing(out.tag, wall, frame, out.rect, out.depth_nm)
    for piece in furniture_at(job).get(wall, ()):
        at = from_above(piece)
        edges = (at.x_nm, at.y_nm), (at.right_nm, at.y_nm), (at.right_nm, at.top_nm), (at.x_nm, at.top_nm)
        low = piece.y.nm
        around = tuple(frame.at(*each) for each in edges)
        yield Area(piece.tag, wall, around, low, low + piece.height.nm, False)
    on = walls(job).get(wall)
    for each in on.openings if on is not None else ():
        one, face = job.of(Opening)[each.tag], face_of(job, each.tag)
        if face is None or face.side not in ("wall", "front"):
            continue
        before = one.depth.nm if stands_in_front(job, one) and one.depth is not None else 0
        place = spot(job, each.tag)
        from_wall = before or (place.out_nm if place is not None else 0)
        if before:
            yield _standing(each.tag, wall, frame, each.rect, before)
        if (outline := _swept(one, each.rect, from_wall)) is not None:
            yield Area(each.tag, wall, tuple(frame.at(*at) for at in outline), each.rect.y_nm, each.rect.top_nm, True)


def _standing(tag: str, wall: str, frame: Frame, rect: Rect, deep: int) -> Area:
    edges = (rect.x_nm, 0), (rect.right_nm, 0), (rect.right_nm, deep), (rect.x_nm, deep)
    return Area(tag, wall, tuple(frame.at(*each) for each in edges), rect.y_nm, rect.top_nm, False)


def _swept(one: Opening, rect: Rect, front: int) -> list[Plan] | None:
    """What the front of an opening sweeps as it opens, along its wall and out from it; None for what does not open."""
    if is_drawer(one):
        far = front + (one.depth.nm if one.depth is not None else 0)
    elif one.door == "none" or one.hinge not in SIDES:
        return None
    elif one.hinge in ("left", "right"):
        way, hinge = (1, rect.x_nm) if one.hinge == "left" else (-1, rect.right_nm)
        turns = (pi / 2 * step / ARC_STEPS for step in range(ARC_STEPS + 1))
        arc = [(hinge + way * rect.width_nm * cos(turn), front + rect.width_nm * sin(turn)) for turn in turns]
        return [(hinge, front), *arc]
    else:
        far = front + rect.height_nm
    return [(rect.x_nm, front), (rect.right_nm, front), (rect.right_nm, far), (rect.x_nm, far)]


def _axes(*outlines: tuple[Plan, ...]) -> Iterator[Plan]:
    """A direction square to each side: two areas without a dent are apart if they are so along one of these."""
    for outline in outlines:
        for (x, y), (to_x, to_y) in zip(outline, (*outline[1:], outline[0]), strict=True):
            if (x, y) != (to_x, to_y):
                yield y - to_y, to_x - x


def _apart(one: tuple[Plan, ...], other: tuple[Plan, ...], axis: Plan) -> bool:
    (low, high), (least, most) = (
        (min(along), max(along)) for along in ([x * axis[0] + y * axis[1] for x, y in each] for each in (one, other))
    )
    # A hair is left to the rounding of the arc.
    hair = 1e-9 * max(abs(low), abs(high), abs(least), abs(most))
    return high <= least + hair or most <= low + hair
