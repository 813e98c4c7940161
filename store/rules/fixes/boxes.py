"""Another place for a box: the nearest on its wall where it is whole, between the plates and clear of what is there."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import islice

from msgspec.structs import replace

from store.measure.length import INCH_NM, MM_NM, Length
from store.records.wall import Obstacle, Wall
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.core.findings import Finding
from store.rules.core.wording import listed, said
from store.rules.fixes.fix import Fix, fixes
from store.rules.wall.hung import NO_BOX_IN, PLATE_NM, body, top_plates
from store.rules.wall.layout import WallLayout, walls
from store.rules.wall.lines import ceilings
from store.rules.wall.places import on_side
from store.rules.wall.shape import bounds_of, face_of
from store.rules.wall.uprights import studs_seen
from store.trade.measured.plane import Rect, overlap_rect

REACH = 60
"""Steps that a box is moved at most: 30 in, or 900 mm. Our own."""
MOST = 8
"""Places that are tried."""


@fixes("box_off_wall", "box_on_obstacle", "box_on_edge", "boxes_overlap", "box_on_stud")
def box_moved(job: Job, finding: Finding) -> Iterator[Fix]:
    """The box at the nearest place that is free; several on studs all beside them."""
    boxes = [one for tag in finding.tags if (one := job.of(Box).get(tag)) is not None and one.new]
    for one in boxes if finding.rule == "box_off_wall" else ():
        yield from _onto_its_face(job, one)
    boxes = [one for one in boxes if not on_side(one)]
    if finding.rule == "box_on_stud":
        moved = [next(iter(_places(job, one)), None) for one in boxes]
        found = [each for each in moved if each is not None]
        if found and len(found) == len(moved):
            yield Fix(f"Move {listed([each.tag for each in found])} beside the stud", tuple(found))
        return
    for one in boxes:
        for each in islice(_places(job, one), MOST):
            at = f"{said(job, each.x.nm)} / {said(job, each.y.nm)}" if each.x is not None and each.y is not None else ""
            yield Fix(f"Move {one.tag} to {at}", (each,))


def _onto_its_face(job: Job, box: Box) -> Iterator[Fix]:
    """The box moved no farther than onto its build-out's front or side."""
    own, face = body(box), face_of(job, box.tag)
    bounds = bounds_of(job, face) if face is not None and face.out else None
    if own is None or bounds is None or bounds.width_nm < own.width_nm or bounds.height_nm < own.height_nm:
        return
    x = min(max(own.x_nm, bounds.x_nm), bounds.right_nm - own.width_nm) + own.width_nm // 2
    y = min(max(own.y_nm, bounds.y_nm), bounds.top_nm - own.height_nm) + own.height_nm // 2
    yield Fix(f"Move {box.tag} to {said(job, x)} / {said(job, y)}", (replace(box, x=Length(x), y=Length(y)),))


def _places(job: Job, box: Box) -> Iterator[Box]:
    """The box at free places of its wall, the nearest first."""
    on, own, record = walls(job).get(box.wall), body(box), job.of(Wall).get(box.wall)
    if on is None or own is None or record is None or box.x is None or box.y is None or on.width_nm is None:
        return
    step = 15 * MM_NM if job.settings.metric else INCH_NM // 2
    wide, high = own.width_nm, own.height_nm
    # What is far off the wall is first brought to its edge.
    x = min(max(box.x.nm, wide // 2), on.width_nm - (wide + 1) // 2)
    line = ceilings(job).get(box.wall)
    top = (line.lowest(0, on.width_nm) if line is not None else box.y.nm + high) - top_plates(job, box.wall)
    y = min(max(box.y.nm, PLATE_NM + high // 2), top - (high + 1) // 2)
    hard, openings = _hard(job, on, box), [each.rect for each in on.openings]
    aside = [(a, 0) for a in range(-REACH, REACH + 1)]
    aside += [(a, b) for a in range(-REACH, REACH + 1, 2) for b in range(-REACH, REACH + 1, 8) if b]
    for a, b in sorted(aside, key=lambda each: (abs(each[0]) + 2 * abs(each[1]), each)):
        rect = Rect(x + a * step - wide // 2, y + b * step - high // 2, wide, high)
        if (a or b or (x, y) != (box.x.nm, box.y.nm)) and _within(on, rect, top):
            # In an opening it is whole, or not at all.
            if any(overlap_rect(each, rect) not in (None, rect) for each in openings):
                continue
            if any(overlap_rect(each, rect) for each in hard):
                continue
            yield replace(box, x=Length(x + a * step), y=Length(y + b * step))


def _within(on: WallLayout, rect: Rect, top: int) -> bool:
    """Whether a box would be on the wall, between its plates."""
    return rect.x_nm >= 0 and rect.right_nm <= (on.width_nm or 0) and rect.y_nm >= PLATE_NM and rect.top_nm <= top


def _hard(job: Job, on: WallLayout, box: Box) -> list[Rect]:
    """What no box can be set in: obstacles, studs, other boxes."""
    hard = [each.rect for each in on.obstacles if job.of(Obstacle)[each.tag].what in NO_BOX_IN]
    hard += studs_seen(job, box.wall)
    others = (other for tag, other in job.of(Box).items() if other.wall == box.wall and tag != box.tag)
    return [*hard, *(there for other in others if (there := body(other)) is not None)]
