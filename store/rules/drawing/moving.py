"""Moving a thing on the wall: by a step, to a stud, to a neighbour, to the middle."""

from __future__ import annotations

from typing import Literal, cast

import msgspec

from store.measure.errors import BadValue
from store.measure.length import INCH_NM, MM_NM, SIXTEENTH_NM, Length, show_length
from store.records.access import Panel
from store.records.wall import Opening
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.drawing.elevation import scene
from store.rules.drawing.shapes import Block, Scene
from store.rules.wall.layout import walls
from store.rules.wall.shape import face_of
from store.rules.wall.uprights import uprights

Movable = Opening | Panel | Box
Target = Literal["stud", "neighbour", "centre"]

BOX_HALF_NM = 9 * INCH_NM // 8
"""Half the width of a single-gang box, 2 1/4 in over all: common practice, from memory; only snapping uses it."""


def movable(job: Job, tag: str) -> Movable:
    """The record that can be moved on the drawing. Raises BadValue when it cannot."""
    record = job.get(tag)
    if not isinstance(record, Opening | Panel | Box):
        raise BadValue(f"{tag} is not moved on the drawing: only openings, panels and boxes are")
    if record.x is None or record.y is None or not record.wall:
        raise BadValue(f"{tag} is not placed yet. e = enter its place")
    return record


def step_nm(metric: bool, fine: bool) -> int:
    """How far one key moves: 1/2 in or 1/16 in; 10 mm or 1 mm."""
    if metric:
        return MM_NM if fine else 10 * MM_NM
    return SIXTEENTH_NM if fine else INCH_NM // 2


def moved(record: Movable, right_nm: int, up_nm: int) -> Movable:
    """The record at another place; never left of the corner nor below the floor."""
    x, y = cast(Length, record.x), cast(Length, record.y)
    return msgspec.structs.replace(
        record, x=Length(max(0, x.nm + right_nm), x.metric), y=Length(max(0, y.nm + up_nm), y.metric)
    )


def snapped(job: Job, record: Movable, to: Target) -> Movable:
    """The record moved sideways to the nearest stud face, to the nearest neighbour's edge, or to the wall's middle.

    Raises BadValue when there is nothing of that sort.
    """
    drawn = scene(job, record.wall)
    left, right = _sides(record)
    if to == "centre":
        return moved(record, drawn.width // 2 - (left + right) // 2, 0)
    edges = _stud_faces(job, record) if to == "stud" else _neighbour_edges(drawn, record.tag)
    shifts = [edge - side for edge in edges for side in (left, right)]
    if not shifts:
        raise BadValue(f"there is no {to} to snap to on {record.wall}")
    # Nought first: a thing that already touches stays; else the shortest way.
    return moved(record, min(shifts, key=abs), 0)


def _sides(record: Movable) -> tuple[int, int]:
    x = cast(Length, record.x).nm
    if isinstance(record, Box):
        return x - BOX_HALF_NM, x + BOX_HALF_NM
    return x, x + (record.width.nm if record.width else 0)


def _stud_faces(job: Job, record: Movable) -> list[int]:
    """Both faces of each stud as found, or of the front of the build-out it is on; not what frames the thing itself."""
    face = face_of(job, record.tag)
    if face is not None and face.side == "front" and face.out:
        line = [(each.left_nm, each.right_nm) for each in uprights(job, record.wall, face.out) if each.part == "stud"]
    else:
        on = walls(job).get(record.wall)
        line = [(each.left_nm, each.right_nm) for each in on.studs] if on is not None else []
    return [edge for faces in line for edge in faces]


def _neighbour_edges(drawn: Scene, tag: str) -> list[int]:
    others = [
        each
        for each in drawn.shapes
        if isinstance(each, Block) and each.layer in ("openings", "panels", "obstacles") and each.tag != tag
    ]
    return [edge for each in others for edge in (each.x, each.x + each.width)]


def move_words(before: Movable, after: Movable, metric: bool) -> str:
    """`right 2", up 1/2"`: how far a thing was moved; empty when it was not."""
    words = []
    for was, now, ways in ((before.x, after.x, ("right", "left")), (before.y, after.y, ("up", "down"))):
        if was is not None and now is not None and was != now:
            far = now - was
            words.append(f"{ways[far.nm < 0]} {show_length(Length(abs(far.nm)), metric)}")
    return ", ".join(words)
