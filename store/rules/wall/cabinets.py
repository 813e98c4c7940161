"""Which things share one cabinet, so that a cable between them never enters the wall; told by places alone.

Openings that touch or overlap are one cabinet: a cable goes through their own sides. So are two pieces of cabinet work
with no more than a rail between them.
"""

from __future__ import annotations

from collections.abc import Mapping

from store.measure.length import INCH_NM
from store.records.equipment import Equipment
from store.records.wall import Opening
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.core.keyed import by_key
from store.rules.core.memo import once
from store.rules.wall.layout import Placed, overlapping, walls
from store.rules.wall.pieces import on_face
from store.rules.wall.places import equipment_rect, on_side, point_of, wall_of
from store.trade.measured.plane import Rect, overlap_rect

TOUCHING_NM = INCH_NM // 4
"""Openings nearer than this touch: a joint that a carpenter closes. Common practice, no source."""
RAIL_NM = 4 * INCH_NM
"""Widest rail, plinth or pair of sides between two pieces of one cabinet. Common practice, no source."""
SQUARE_NM = 48 * INCH_NM
"""Openings are looked up by squares of the wall of this size."""
MOST_SQUARES = 400
"""An opening over more of them is mistyped, and looked at wherever a thing is."""
EVERYWHERE = (-(10**9), 0)
BESIDE_NM = 12 * INCH_NM
"""Two things on a face that are no farther apart are joined in front of the wall: a soundbar under its TV. Our own."""
CABINET_WORK = ("equipment", "shelf", "drawer", "other")
"""Uses of an opening that is a carcass with sides of its own; a recess is framed, and a stud stands beside it."""


@by_key
def cabinets(job: Job) -> Mapping[str, str]:
    """The cabinet that each placed opening is part of, by tag: the first opening of those that touch one another."""
    first: dict[str, str] = {}

    def root(tag: str) -> str:
        while first[tag] != tag:
            first[tag] = first[first[tag]]
            tag = first[tag]
        return tag

    for wall in walls(job).values():
        first |= {each.tag: each.tag for each in wall.openings}
        work = [each for each in wall.openings if job.of(Opening)[each.tag].use in CABINET_WORK]
        for group, gap in ((wall.openings, TOUCHING_NM), (work, RAIL_NM)):
            for one, other in overlapping([Placed(each.tag, _grown(each.rect, gap)) for each in group]):
                first[root(other.tag)] = root(one.tag)
    return {tag: root(tag) for tag in first}


def _grown(rect: Rect, gap_nm: int) -> Rect:
    """A rectangle grown by half of a gap and a hair, so that two that are no farther apart overlap."""
    by = gap_nm // 2 + 1
    return Rect(rect.x_nm - by, rect.y_nm - by, rect.width_nm + 2 * by, rect.height_nm + 2 * by)


Square = tuple[str, int, int]
"""A wall, and a square of it across and up."""


@by_key
def _wide(job: Job) -> Mapping[Square, tuple[Placed, ...]]:
    """The openings, each grown by a joint, by the squares of their walls that they lie in."""
    found: dict[Square, list[Placed]] = {}
    for wall, known in walls(job).items():
        for each in known.openings:
            rect = _grown(each.rect, TOUCHING_NM)
            across = range(rect.x_nm // SQUARE_NM, rect.right_nm // SQUARE_NM + 1)
            up = range(rect.y_nm // SQUARE_NM, rect.top_nm // SQUARE_NM + 1)
            squares = [(x, y) for x in across for y in up] if len(across) * len(up) <= MOST_SQUARES else [EVERYWHERE]
            for x, y in squares:
                found.setdefault((wall, x, y), []).append(Placed(each.tag, rect))
    return {square: tuple(placed) for square, placed in found.items()}


@once
def _at_face(job: Job, tag: str) -> tuple[str, ...] | None:
    """The openings that a box, or a device in no opening, lies in by its place; none at the face of the wall, None
    while it has no place there."""
    one = job.get(tag)
    if not isinstance(one, Box | Equipment) or (isinstance(one, Equipment) and one.opening):
        return None
    if not one.wall or one.x is None or one.y is None or on_side(one):
        return None
    at, wide = Rect(one.x.nm, one.y.nm, 1, 1), _wide(job)
    squares = ((at.x_nm // SQUARE_NM, at.y_nm // SQUARE_NM), EVERYWHERE)
    there = (each for x, y in squares for each in wide.get((one.wall, x, y), ()))
    return tuple(each.tag for each in there if overlap_rect(each.rect, at) is not None)


def openings_at(job: Job, tag: str) -> tuple[str, ...]:
    """The openings that a box lies in by its place on the wall."""
    return _at_face(job, tag) or ()


def cabinets_at(job: Job, tag: str) -> frozenset[str] | None:
    """The cabinets a thing is in, by their first opening: none at the face of the wall; None while it has no place."""
    record = job.get(tag) if tag else None
    if isinstance(record, Equipment) and record.opening:
        record = job.of(Opening).get(record.opening)
    if isinstance(record, Opening):
        return frozenset((cabinets(job)[record.tag],)) if record.tag in cabinets(job) else None
    openings = _at_face(job, tag) if isinstance(record, Box | Equipment) else None
    return None if openings is None else frozenset(cabinets(job)[each] for each in openings)


def through_the_wall(job: Job, start: str, end: str) -> bool:
    """True when the way between two things leads through the wall: both have a place on it, and share no cabinet.

    A box behind a thing on the face is reached behind that, in front of the wall; so is a thing close beside another.
    """
    one, other = cabinets_at(job, start), cabinets_at(job, end)
    apart = start != end and one is not None and other is not None and not one & other
    return apart and not _before_the_wall(job, start, end) and not _before_the_wall(job, end, start)


def _before_the_wall(job: Job, thing: str, other: str) -> bool:
    """True where a thing hangs on the face, and the other end is behind it or close beside it on the same face."""
    one, beside = job.of(Equipment).get(thing), job.of(Equipment).get(other)
    rect = equipment_rect(job, one) if one is not None and on_face(one) else None
    point = point_of(job, other)
    if one is None or rect is None or point is None or wall_of(job, other) != one.wall:
        return False
    if rect.x <= point[0] <= rect.right and rect.y <= point[1] <= rect.top:
        return not on_side(job.get(other))
    place = equipment_rect(job, beside) if beside is not None and on_face(beside) else None
    if place is None:
        return False
    apart = max(place.x - rect.right, rect.x - place.right), max(place.y - rect.top, rect.y - place.top)
    return max(apart) <= BESIDE_NM
