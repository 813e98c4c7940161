"""Moving a thing on the wall: by a step, to a stud, to a neighbour, to the middle."""

from __future__ import annotations

from typing import Literal, cast

import msgspec

from store.measure.errors import BadValue
from store.measure.length import INCH_NM, MM_NM, SIXTEENTH_NM, Length, show_length
from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.wall import Opening
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.drawing.elevation import scene
from store.rules.drawing.shapes import Block, Scene
from store.rules.wall.layout import walls
from store.rules.wall.shape import face_of
from store.rules.wall.uprights import studs_at, uprights

Movable = Opening | Panel | Box | Equipment
Target = Literal["stud", "neighbour", "centre"]

BOX_HALF_NM = 9 * INCH_NM // 8
"""Half the width of a single-gang box, 2 1/4 in over all: common practice, from memory; only snapping uses it."""


def movable(job: Job, tag: str) -> Movable:
    """The record that can be moved on the drawing. Raises BadValue when it cannot."""
    record = job.get(tag)
    in_opening = isinstance(record, Equipment) and bool(record.opening)
    if not isinstance(record, Opening | Panel | Box | Equipment) or in_opening:
        raise BadValue(
            f"{tag} can't be moved on the drawing: only openings, access panels, boxes and things on a face can"
        )
    if record.x is None or record.y is None or not record.wall:
        raise BadValue(f"{tag} is not placed yet. e = enter its place")
    if record.face in ("left return", "right return", "underside", "top"):
        raise BadValue(f"{tag} is on the {record.face}, which you see from the side. e = enter its place")
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
    if isinstance(record, Equipment):
        half = record.width.nm // 2 if record.width else 0
        return x - half, x + half
    if isinstance(record, Box):
        return x - BOX_HALF_NM, x + BOX_HALF_NM
    return x, x + (record.width.nm if record.width else 0)


def _stud_faces(job: Job, record: Movable) -> list[int]:
    """Both faces of each upright at the height of a thing; of an opening those of the row, not what frames itself."""
    face = face_of(job, record.tag)
    out = face.out if face is not None and face.side == "front" else ""
    if isinstance(record, Opening):
        on = walls(job).get(record.wall)
        row = [(each.left_nm, each.right_nm) for each in on.studs] if on is not None else []
        front = [each for each in uprights(job, record.wall, out) if each.part in ("stud", "cripple")] if out else []
        return [edge for faces in ([(each.left_nm, each.right_nm) for each in front] or row) for edge in faces]
    low, high = _heights(record)
    there = studs_at(job, record.wall, low, high, out) or studs_at(job, record.wall, low, high)
    return [edge for each in there for edge in (each.left_nm, each.right_nm)]


def _heights(record: Movable) -> tuple[int, int]:
    y = cast(Length, record.y).nm
    high = 0 if isinstance(record, Box) or record.height is None else record.height.nm
    low = y - high // 2 if isinstance(record, Equipment) else y
    return low, low + high


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
