"""What stands in the room before each door and each access panel: furniture, by its size and where it stands.

Whole nanometres: along the wall, up, and out from the wall's finished face.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Literal

from store.measure.length import INCH_NM, MM_NM
from store.records.access import Panel
from store.records.room import Furniture
from store.records.wall import Opening
from store.records.whole import Job
from store.rules.core.keyed import by_key, index
from store.rules.wall.layout import Placed, overlapping, walls
from store.rules.wall.pieces import is_drawer
from store.rules.wall.places import rect_of
from store.rules.wall.shape import face_of, front_nm, spot
from store.trade.build.cabinet import WIDE_DOOR_NM
from store.trade.measured.plane import Rect, Swing, swing_hits

SWINGING = ("hinged", "door", "touch latch")
"""Ways in which an access panel opens by turning."""
Side = Literal["left", "right", "top", "bottom"]
SIDES: tuple[Side, ...] = ("left", "right", "top", "bottom")
furniture_at = index(Furniture, lambda one: (one.wall,))
"""What stands before each wall."""


def work_nm(metric: bool) -> int:
    """Free before an access panel for a person who kneels and takes it off, nm: 24 in or 600 mm, common practice."""
    return 600 * MM_NM if metric else 24 * INCH_NM


def from_above(one: Furniture) -> Rect:
    """Its outline seen from above: along the wall, and out from its face."""
    return Rect(one.x.nm, one.off.nm, one.width.nm, one.depth.nm)


def from_front(one: Furniture) -> Rect:
    """Its outline seen from the front: along the wall, and up."""
    return Rect(one.x.nm, one.y.nm, one.width.nm, one.height.nm)


def leaf_swing(leaf: Rect, front_nm: int, side: Side) -> Swing:
    """How a leaf, seen from the front and hinged at a side, turns: a door seen from above, a flap from the side."""
    low, high = (leaf.x_nm, leaf.right_nm) if side in ("left", "right") else (leaf.y_nm, leaf.top_nm)
    if side in ("left", "bottom"):
        return Swing(low, front_nm, high - low, 1)
    return Swing(high, front_nm, high - low, -1)


def hit_by_leaf(one: Furniture, leaf: Rect, front_nm: int, side: Side) -> bool:
    """Whether a leaf, seen from the front and hinged at a side, runs into a piece of furniture on its way open."""
    seen = from_front(one)
    if side in ("left", "right"):
        beside = seen.y_nm < leaf.top_nm and leaf.y_nm < seen.top_nm
        ahead = from_above(one)
    else:
        beside = seen.x_nm < leaf.right_nm and leaf.x_nm < seen.right_nm
        ahead = Rect(one.y.nm, one.off.nm, one.height.nm, one.depth.nm)
    return beside and swing_hits(leaf_swing(leaf, front_nm, side), ahead)


def leaves(opening: Opening, around: Rect) -> Iterator[tuple[Rect, Side]]:
    """The doors of an opening, each with its hinge side; a wide one has two."""
    if opening.door == "none" or opening.hinge not in SIDES:
        return
    if opening.hinge in ("left", "right") and around.width_nm > WIDE_DOOR_NM:
        half = around.width_nm // 2
        yield Rect(around.x_nm, around.y_nm, half, around.height_nm), "left"
        yield Rect(around.x_nm + half, around.y_nm, around.width_nm - half, around.height_nm), "right"
    else:
        yield around, opening.hinge


def met(job: Job, opening: Opening) -> Iterator[tuple[Furniture, int]]:
    """The furniture that a door, a flap or a drawer runs into, and how far out from the wall it must be free."""
    rect, face = rect_of(opening), face_of(job, opening.tag)
    if rect is None or face is None or face.side not in ("wall", "front"):
        return
    around, front = rect.plane, front_nm(job, opening)
    for one in (job.of(Furniture)[tag] for tag in _seen_before(job).get(opening.tag, ())):
        if is_drawer(opening) and opening.depth is not None:
            free = front + opening.depth.nm
            if one.off.nm < free and one.off.nm + one.depth.nm > front:
                yield one, free
            continue
        for leaf, side in leaves(opening, around):
            if hit_by_leaf(one, leaf, front, side):
                yield one, front + (leaf.width_nm if side in ("left", "right") else leaf.height_nm)
                break


@by_key
def _seen_before(job: Job) -> Mapping[str, tuple[str, ...]]:
    """The furniture before each opening and each panel as they are seen from the front, however far out."""
    found: dict[str, list[str]] = {}
    for tag, wall in walls(job).items() if job.of(Furniture) else ():
        pieces = [Placed(one.tag, from_front(one)) for one in furniture_at(job).get(tag, ())]
        for thing, piece in overlapping((*wall.openings, *wall.panels), pieces):
            found.setdefault(thing.tag, []).append(piece.tag)
    return {tag: tuple(tags) for tag, tags in found.items()}


@by_key
def furniture_before(job: Job) -> Mapping[str, tuple[str, ...]]:
    """The furniture that stands before each access panel, or over one in the floor, nearer than a person needs."""
    found: dict[str, list[str]] = {}
    for tag, pieces in _seen_before(job).items():
        place = spot(job, tag) if tag in job.of(Panel) else None
        for each in pieces if place is not None else ():
            one = job.of(Furniture)[each]
            if place is not None and place.out_nm - one.depth.nm < one.off.nm < place.out_nm + work_nm(
                job.settings.metric
            ):
                found.setdefault(tag, []).append(each)
    floors: dict[str, list[Placed]] = {}
    for tag, panel in job.of(Panel).items():
        if panel.face == "floor" and (rect := rect_of(panel)) is not None:
            floors.setdefault(panel.wall, []).append(Placed(tag, rect.plane))
    for wall, panels in floors.items():
        standing = [Placed(one.tag, from_above(one)) for one in furniture_at(job).get(wall, ()) if one.y.nm == 0]
        for thing, piece in overlapping(panels, standing):
            found.setdefault(thing.tag, []).append(piece.tag)
    return {tag: tuple(tags) for tag, tags in found.items()}
