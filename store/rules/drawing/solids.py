"""What is on a wall as solids in the room: from where to where along it, up, and behind its finished face.

Whole nanometres; below zero is in front of the wall's own face, towards the room.
"""

from __future__ import annotations

from collections.abc import Iterator

import msgspec

from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.inside import ShelfBoard
from store.records.wall import BuildOut, Obstacle, Opening, Wall, Zone
from store.records.whole import Job
from store.rules.cable.outs import Deep
from store.rules.drawing.shapes import Layer
from store.rules.fit.furniture import from_front, furniture_at
from store.rules.wall.hung import hung
from store.rules.wall.inside import shelf_depth_nm
from store.rules.wall.lines import ceilings
from store.rules.wall.places import RETURNS, Point, board_rect, equipment_rect, rect_of
from store.rules.wall.shape import (
    Face,
    back_nm,
    build_outs,
    face_of,
    out_at,
    out_of,
    rect_on,
    spot_on,
    stands_in_front,
    stands_out_nm,
)
from store.trade.measured.plane import Rect

THROUGH = ("window", "door", "vent", "return air")
"""Obstacles that go through the wall; a pipe is in its framing, and of trim nobody enters how thick it is."""


class Solid(msgspec.Struct, frozen=True):
    """A thing in the room, square to the wall."""

    tag: str
    layer: Layer
    kind: str
    label: str
    low: Deep
    """Its nearest corner: left, bottom, and the side towards the room."""
    high: Deep

    def holds(self, axis: int, at_nm: int) -> bool:
        """True where a cut across an axis at a place goes through it."""
        return self.low[axis] <= at_nm < self.high[axis]

    @property
    def hole(self) -> bool:
        """True for what takes board and framing away where it is."""
        return self.layer == "openings" or self.kind in THROUGH


def solids(job: Job, wall: str) -> Iterator[Solid]:
    """Everything on a wall that has a depth at its place."""
    for each in build_outs(job).get(wall, ()):
        name = job.of(BuildOut)[each.tag].name
        yield _solid((each.tag, "build-outs", "build-out", name), each.rect, -each.depth_nm, 0)
    for tag, zone in job.of(Zone).items():
        if zone.wall == wall:
            yield from _on(job, (tag, "finishes", "finish", zone.name), tag, 0, zone.thickness.nm)
    yield from _obstacles(job, wall)
    for tag, one in job.of(Opening).items():
        if one.wall == wall and one.depth is not None and (rect := rect_on(job, tag)) is not None and rect.width_nm:
            front = _front(job, one)
            yield from _on(job, (tag, "openings", one.use, one.name), tag, front, front + one.depth.nm)
    yield from _boards(job, wall)
    for piece in furniture_at(job).get(wall, ()):
        front = -piece.off.nm - piece.depth.nm
        yield _solid((piece.tag, "obstacles", "furniture", piece.name), from_front(piece), front, -piece.off.nm)
    yield from _equipment(job, wall)
    for tag, panel in job.of(Panel).items():
        if panel.wall == wall:
            yield from _panel(job, (tag, "panels", panel.opens, panel.name), panel)


What = tuple[str, Layer, str, str]
"""Tag, layer, kind and label."""


def _solid(what: What, rect: Rect, front: int, back: int) -> Solid:
    return Solid(*what, (rect.x_nm, rect.y_nm, front), (rect.right_nm, rect.top_nm, back))


def _on(job: Job, what: What, tag: str, into: int, to: int, rect: Rect | None = None) -> Iterator[Solid]:
    """A thing on its face, from so far behind that face to so far."""
    face, rect = face_of(job, tag), rect or rect_on(job, tag)
    if face is not None and rect is not None:
        yield standing(job, what, face, rect, into, to)


def standing(job: Job, what: What, face: Face, rect: Rect, into: int, to: int) -> Solid:
    """A thing in the room, by its outline on a face and from how far behind the face to how far it is."""
    left, low, right, top = rect.x_nm, rect.y_nm, rect.right_nm, rect.top_nm
    if face.side in ("wall", "front"):
        out = out_of(job, face.out) if face.out else None
        front = out.depth_nm if out is not None else 0
        return Solid(*what, (left, low, into - front), (right, top, to - front))
    at = spot_on(job, face, left, low)
    if face.side in ("underside", "top", "ceiling", "floor"):
        up = face.side in ("underside", "ceiling")
        ends = (at.y_nm + into, at.y_nm + to) if up else (at.y_nm - to, at.y_nm - into)
        return Solid(*what, (left, ends[0], -top), (right, ends[1], -low))
    rightward = face.side in ("left return", "cabinet left side")
    # The far side of a cabinet is seen from within it: behind the left side is to the left.
    if face.side in ("cabinet left side", "cabinet right side"):
        rightward = not rightward
    ends = (at.x_nm + into, at.x_nm + to) if rightward else (at.x_nm - to, at.x_nm - into)
    near, far = -spot_on(job, face, right, low).out_nm, -at.out_nm
    return Solid(*what, (ends[0], low, near), (ends[1], top, far))


def _obstacles(job: Job, wall: str) -> Iterator[Solid]:
    """Windows, doors and ducts, as deep as the framing that they go through; pipes within it."""
    board = job.settings.finish.nm
    for tag, one in job.of(Obstacle).items():
        if one.wall != wall or one.what not in (*THROUGH, "pipe"):
            continue
        rect = Rect(one.x.nm, one.y.nm, one.width.nm, one.height.nm)
        there = out_at(job, wall, rect.x_nm + rect.width_nm // 2, rect.y_nm + rect.height_nm // 2)
        record = job.of(Wall)[wall] if there is None else job.of(BuildOut)[there.tag]
        front = 0 if there is None else -there.depth_nm
        begin = front + (board if one.what == "pipe" else 0)
        yield _solid((tag, "obstacles", one.what, one.what), rect, begin, front + board + record.stud_depth.nm)


def _front(job: Job, one: Opening) -> int:
    """From which depth behind its face an opening begins: below zero for cabinet work before the bare wall."""
    return -one.depth.nm if one.depth is not None and stands_in_front(job, one) else 0


def _boards(job: Job, wall: str) -> Iterator[Solid]:
    """Shelves and dividers inside the openings: from the front back, less the gap behind them."""
    for tag, board in job.of(ShelfBoard).items():
        opening, rect = job.of(Opening).get(board.opening), board_rect(job, tag)
        if opening is None or rect is None or opening.wall != wall or opening.depth is None:
            continue
        deep = shelf_depth_nm(board, opening)
        if deep is None or deep <= 0:
            continue
        back = _front(job, opening) + opening.depth.nm - (board.gap.nm if board.gap is not None else 0)
        what: What = (tag, "openings", board.what, board.name or board.what)
        yield from _on(job, what, opening.tag, back - deep, back, rect.plane)


def _equipment(job: Job, wall: str) -> Iterator[Solid]:
    """What hangs on a face, and what stands in an opening: clear of its back by what it asks behind it."""
    for each in hung(job).get(wall, ()):
        yield from _hung(job, job.of(Equipment)[each.tag])
    for tag, one in job.of(Equipment).items():
        if one.wall == wall and one.retired is None and one.face in RETURNS:
            yield from _hung(job, one)
            continue
        opening, place = job.of(Opening).get(one.opening), equipment_rect(job, one)
        if one.retired is not None or opening is None or opening.wall != wall or place is None:
            continue
        if opening.depth is None or one.depth is None:
            continue
        # The thickness noted is that of the sides; a back is not counted here, as it is not when the fit is judged.
        back = _front(job, opening) + opening.depth.nm - (one.clear_back.nm if one.clear_back else 0)
        yield from _on(job, (tag, "equipment", one.what, one.name), opening.tag, back - one.depth.nm, back, place.plane)


def _hung(job: Job, one: Equipment) -> Iterator[Solid]:
    proud = stands_out_nm(job, one)
    if proud is not None and one.depth is not None:
        yield from _on(job, (one.tag, "equipment", one.what, one.name), one.tag, -proud, one.depth.nm - proud)


def _panel(job: Job, what: What, panel: Panel) -> Iterator[Solid]:
    """An access panel, as thick as the board that it is in; of one in a cabinet's back, behind the cabinet."""
    face, rect, thick = face_of(job, panel.tag), rect_of(panel), job.settings.finish.nm
    if face is None or rect is None:
        return
    # What says no more is in the back of the opening that its middle lies in: a front is closed by a door.
    behind = _cabinet(job, panel, rect.centre) if panel.face in ("cabinet back", "nearest") else None
    begin = -back_nm(job, behind) if behind is not None else 0
    if face.side == "ceiling" and ceilings(job).get(face.wall) is None:
        return
    yield standing(job, what, face, rect.plane, begin, begin + thick)


def _cabinet(job: Job, panel: Panel, at: Point) -> Opening | None:
    """The opening whose back a panel is in: the one named, else the one that its middle lies in."""
    named = job.of(Opening).get(panel.on)
    if named is not None:
        return named
    for one in job.of(Opening).values():
        around = rect_of(one) if one.wall == panel.wall else None
        if around is not None and around.x <= at[0] <= around.right and around.y <= at[1] <= around.top:
            return one
    return None
