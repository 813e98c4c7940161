"""What is on the face of each wall in no opening, like a TV on its bracket or a mantel; and what it hides."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import cast

from store.measure.length import INCH_NM
from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.wall import Obstacle, Wall
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.core.keyed import by_key, said_by
from store.rules.wall.layout import Placed, overlapping, walls
from store.rules.wall.pieces import on_face
from store.rules.wall.places import equipment_rect
from store.rules.wall.shape import face_of
from store.trade.measured.plane import Rect

BOX_NM = 9 * INCH_NM // 4
"""Half the height, and the width, of a single-gang plate about its center, roughly: common practice, from memory."""
BODY_NM = (9 * INCH_NM // 4, 15 * INCH_NM // 4, 29 * INCH_NM // 16)
"""What a box takes: width of one gang, height, width of each gang more. Common practice, from memory."""
PLATE_NM = 3 * INCH_NM // 2
"""A plate of two-by lumber: actual 1-1/2 in, ALSC PS 20."""
NO_BOX_IN = ("window", "door", "vent", "return air", "pipe")
"""Obstacles that no box can be set in."""
CARRIED = ("screen", "mount", "floating shelf", "floating cabinet", "mantel")
"""Kinds of thing on a face that are screwed to the framing, whatever they weigh."""


def hung_face(job: Job, tag: str) -> bool:
    """True for a thing on a face that is seen from the front: the wall itself, or the front of a build-out."""
    one, face = job.of(Equipment).get(tag), face_of(job, tag)
    in_place = one is not None and one.retired is None and on_face(one)
    return in_place and face is not None and face.side in ("wall", "front")


@by_key
def hung(job: Job) -> Mapping[str, tuple[Placed, ...]]:
    """The things on the face of each wall whose place and size are known."""
    found: dict[str, list[Placed]] = {tag: [] for tag in job.of(Wall)}
    for tag, one in job.of(Equipment).items():
        if hung_face(job, tag) and (rect := equipment_rect(job, one)) is not None:
            found.setdefault(one.wall, []).append(Placed(tag, rect.plane))
    return {wall: tuple(things) for wall, things in found.items()}


@by_key
def hides(job: Job) -> Mapping[str, tuple[str, ...]]:
    """The boxes, panels and obstacles that each thing on a face is in front of: at least half of them."""
    found: dict[str, list[str]] = {}
    for wall, things in hung(job).items():
        if not things:
            continue
        on = walls(job).get(wall)
        there = [*_plates(job).get(wall, ()), *(on.panels if on else ()), *(on.obstacles if on else ())]
        for thing, behind in overlapping(things, there):
            if _half_covered(thing.rect, behind.rect):
                found.setdefault(thing.tag, []).append(behind.tag)
    return {tag: tuple(dict.fromkeys(tags)) for tag, tags in found.items()}


@by_key
def hidden_by(job: Job) -> Mapping[str, tuple[str, ...]]:
    """The things on a face that are in front of each box, panel or obstacle."""
    found: dict[str, list[str]] = {}
    for thing, tags in hides(job).items():
        for tag in tags:
            found.setdefault(tag, []).append(thing)
    return {tag: tuple(things) for tag, things in found.items()}


@said_by(Box)
def _plates(one: Box) -> Iterator[tuple[str, Placed]]:
    """The plates of the boxes in the face of each wall; what is on a return is not behind anything on the front."""
    if one.x is not None and one.y is not None and one.face in ("nearest", "wall", "front"):
        wide = BOX_NM + (max(1, one.gangs) - 1) * 46 * INCH_NM // 25
        yield str(one.wall), Placed(one.tag, Rect(one.x.nm - wide // 2, one.y.nm - BOX_NM, wide, 2 * BOX_NM))


def body(box: Box) -> Rect | None:
    """What a box takes of its own face, by its gangs: 3-3/4 in high, 2-1/4 in wide and 1-13/16 for each gang more.

    Common practice, from memory. None while it has no place.
    """
    if box.x is None or box.y is None or not box.wall:
        return None
    wide = BODY_NM[0] + (max(1, box.gangs) - 1) * BODY_NM[2]
    return Rect(box.x.nm - wide // 2, box.y.nm - BODY_NM[1] // 2, wide, BODY_NM[1])


def top_plates(job: Job, wall: str) -> int:
    """The thickness of the top plates of a wall, nm."""
    one = job.of(Wall).get(wall)
    return PLATE_NM * (int(one.top_plates) if one is not None else 2)


def _half_covered(front: Rect, behind: Rect) -> bool:
    """True where at least half of what is behind is covered, by its area."""
    across = min(front.right_nm, behind.right_nm) - max(front.x_nm, behind.x_nm)
    up = min(front.top_nm, behind.top_nm) - max(front.y_nm, behind.y_nm)
    return across > 0 and up > 0 and 2 * across * up >= behind.width_nm * behind.height_nm


def paired(job: Job, one: Equipment) -> Equipment | None:
    """On a face: the TV that a mount carries, or the mount of a TV: the one whose outline holds the other's center."""
    wanted = {"mount": "screen", "screen": "mount"}.get(one.what)
    if wanted is None or one.opening or one.x is None or one.y is None:
        return None
    for other in job.of(Equipment).values():
        if other.what != wanted or other.retired is not None or other.wall != one.wall or not on_face(other):
            continue
        screen, mount = (one, other) if one.what == "screen" else (other, one)
        rect = equipment_rect(job, screen)
        if rect is None or mount.x is None or mount.y is None:
            continue
        if rect.x <= mount.x.nm <= rect.right and rect.y <= mount.y.nm <= rect.top:
            return other
    return None


def obstacle_kind(job: Job, tag: str) -> str:
    """What a hidden thing is: the kind of an obstacle or of a box, `panel`; empty for none of them."""
    record = job.get(tag)
    if isinstance(record, Panel):
        return "panel"
    return cast(str, record.what) if isinstance(record, Box | Obstacle) else ""
