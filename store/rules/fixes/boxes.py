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
from store.trade.measured.plane import Rect, overlap_rect

REACH = 60
"""Steps that a box is moved at most: 30 in, or 900 mm. Our own."""
MOST = 8
"""Places that are tried."""


@fixes("box_off_wall", "box_on_obstacle", "box_on_edge", "boxes_overlap", "box_on_stud")
def box_moved(job: Job, finding: Finding) -> Iterator[Fix]:
    """The box at the nearest place that is free; several on studs all beside them."""
    boxes = [one for tag in finding.tags if (one := job.of(Box).get(tag)) is not None and one.new and not on_side(one)]
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


def _places(job: Job, box: Box) -> Iterator[Box]:
    """The box at free places of its wall, the nearest first."""
    on, placed, record = walls(job).get(box.wall), body(job, box.tag), job.of(Wall).get(box.wall)
    if on is None or placed is None or record is None or box.x is None or box.y is None or on.width_nm is None:
        return
    step = 15 * MM_NM if job.settings.metric else INCH_NM // 2
    wide, high = placed.rect.width_nm, placed.rect.height_nm
    # What is far off the wall is first brought to its edge.
    x = min(max(box.x.nm, wide // 2), on.width_nm - (wide + 1) // 2)
    line = ceilings(job).get(box.wall)
    top = (line.lowest(0, on.width_nm) if line is not None else box.y.nm + high) - top_plates(job, box.wall)
    y = min(max(box.y.nm, PLATE_NM + high // 2), top - (high + 1) // 2)
    offsets = [
        (a, b) for a in range(-REACH, REACH + 1) for b in range(-REACH, REACH + 1) if not (a % 2 or b % 8) or not b
    ]
    for a, b in sorted(offsets, key=lambda each: (abs(each[0]) + 2 * abs(each[1]), each)):
        rect = Rect(x + a * step - wide // 2, y + b * step - high // 2, wide, high)
        if (a or b or (x, y) != (box.x.nm, box.y.nm)) and _free(job, on, box, rect, top):
            yield replace(box, x=Length(x + a * step), y=Length(y + b * step))


def _free(job: Job, on: WallLayout, box: Box, rect: Rect, top: int) -> bool:
    """Whether a box can be set in a place: on the wall, between the plates, on nothing that is there."""
    if rect.x_nm < 0 or rect.right_nm > (on.width_nm or 0) or rect.y_nm < PLATE_NM or rect.top_nm > top:
        return False
    hard = [each.rect for each in on.obstacles if job.of(Obstacle)[each.tag].what in NO_BOX_IN]
    hard += [Rect(each.left_nm, 0, each.right_nm - each.left_nm, top) for each in on.studs]
    for tag, other in job.of(Box).items():
        there = body(job, tag) if other.wall == box.wall and tag != box.tag else None
        hard += [there.rect] if there is not None else []
    # In an opening it is whole, or not at all.
    halves = (each.rect for each in on.openings if overlap_rect(each.rect, rect) not in (None, rect))
    return not any(overlap_rect(each, rect) for each in hard) and not any(halves)
