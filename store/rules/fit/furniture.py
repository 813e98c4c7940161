"""What stands in the room before each door and each access panel: furniture, by its size and where it stands.

Whole nanometres: along the wall, up, and out from the wall's finished face.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Literal

from store.measure.length import INCH_NM
from store.records.access import Panel
from store.records.room import Furniture
from store.records.wall import Opening
from store.records.whole import Job
from store.rules.core.keyed import by_key, index
from store.rules.wall.places import rect_of
from store.rules.wall.shape import face_of, front_nm, spot
from store.trade.build.cabinet import WIDE_DOOR_NM
from store.trade.measured.plane import Rect, Swing, swing_hits

WORK_NM = 24 * INCH_NM
"""Free before an access panel, so that a person kneels at it and takes it off: common practice, no source."""
SWINGING = ("hinged", "door", "touch latch")
"""Ways in which an access panel opens by turning."""
Side = Literal["left", "right", "top", "bottom"]
SIDES: tuple[Side, ...] = ("left", "right", "top", "bottom")
furniture_at = index(Furniture, lambda one: (one.wall,))
"""What stands before each wall."""


def from_above(one: Furniture) -> Rect:
    """Its outline seen from above: along the wall, and out from its face."""
    return Rect(one.x.nm, one.off.nm, one.width.nm, one.depth.nm)


def hit_by_leaf(one: Furniture, leaf: Rect, front_nm: int, side: Side) -> bool:
    """Whether a leaf, seen from the front and hinged at a side, runs into a piece of furniture on its way open."""
    across = one.x.nm < leaf.right_nm and leaf.x_nm < one.x.nm + one.width.nm
    up = one.y.nm < leaf.top_nm and leaf.y_nm < one.y.nm + one.height.nm
    way: Literal[1, -1] = 1 if side in ("left", "bottom") else -1
    if side in ("left", "right"):
        hinge = leaf.x_nm if way > 0 else leaf.right_nm
        return up and swing_hits(Swing(hinge, front_nm, leaf.width_nm, way), from_above(one))
    hinge = leaf.y_nm if way > 0 else leaf.top_nm
    upright = Rect(one.y.nm, one.off.nm, one.height.nm, one.depth.nm)
    return across and swing_hits(Swing(hinge, front_nm, leaf.height_nm, way), upright)


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


def is_drawer(opening: Opening) -> bool:
    """True for what is pulled out."""
    return opening.use == "drawer" or opening.hinge == "drawer"


def met(job: Job, opening: Opening) -> Iterator[tuple[Furniture, int]]:
    """The furniture that a door, a flap or a drawer runs into, and how far out from the wall it must be free."""
    rect, face = rect_of(opening), face_of(job, opening.tag)
    if rect is None or face is None or face.side not in ("wall", "front"):
        return
    around, front = Rect(rect.x, rect.y, rect.width, rect.height), front_nm(job, opening)
    for one in furniture_at(job).get(opening.wall, ()):
        if is_drawer(opening) and opening.depth is not None:
            free = front + opening.depth.nm
            if _before(one, around) and one.off.nm < free and one.off.nm + one.depth.nm > front:
                yield one, free
            continue
        for leaf, side in leaves(opening, around):
            if hit_by_leaf(one, leaf, front, side):
                yield one, front + (leaf.width_nm if side in ("left", "right") else leaf.height_nm)
                break


def _before(one: Furniture, rect: Rect) -> bool:
    """Whether it is before an outline, seen from the front."""
    across = one.x.nm < rect.right_nm and rect.x_nm < one.x.nm + one.width.nm
    return across and one.y.nm < rect.top_nm and rect.y_nm < one.y.nm + one.height.nm


@by_key
def furniture_before(job: Job) -> Mapping[str, tuple[str, ...]]:
    """The furniture that stands before each access panel, or over one in the floor, nearer than a person needs."""
    found: dict[str, tuple[str, ...]] = {}
    for tag, panel in job.of(Panel).items() if job.of(Furniture) else ():
        tags = tuple(one.tag for one in furniture_at(job).get(panel.wall, ()) if _in_the_way(job, panel, one))
        if tags:
            found[tag] = tags
    return found


def _in_the_way(job: Job, panel: Panel, one: Furniture) -> bool:
    rect = rect_of(panel)
    if rect is None:
        return False
    seen = Rect(rect.x, rect.y, rect.width, rect.height)
    if panel.face == "floor":
        over = from_above(one)
        return (
            one.y.nm == 0
            and over.x_nm < seen.right_nm
            and seen.x_nm < over.right_nm
            and (over.y_nm < seen.top_nm and seen.y_nm < over.top_nm)
        )
    if panel.face in ("ceiling", "left return", "right return", "underside", "top") or panel.face.startswith("cabinet"):
        return False
    place = spot(job, panel.tag)
    front = place.out_nm if place is not None else 0
    return _before(one, seen) and front - one.depth.nm < one.off.nm < front + WORK_NM
