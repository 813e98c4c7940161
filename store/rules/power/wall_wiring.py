"""Where the walls stand that wires run in: what they bear, their floor line, the holes bored in them."""

from __future__ import annotations

from collections.abc import Iterator

from store.measure.length import INCH_NM, Length, inches
from store.records.wall import Obstacle, Opening, Wall
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.core.code import edition, is_us
from store.rules.core.keyed import filed, index
from store.rules.core.memo import once
from store.rules.wall.pieces import bearing
from store.rules.wall.places import point_of, rect_of
from store.rules.wall.readings import sizes
from store.trade.cable.install import (
    SUPPORT_FROM_BOX_IN,
    SUPPORT_FROM_CLAMPLESS_BOX_IN,
)
from store.trade.measured.framing import BORE_SOURCE, METRIC_BORE_SOURCE, BoreLook, look_at_bore
from store.trade.power.receptacles import Break, Gap, Receptacle, Spacing, spacing

_obstacles_on = index(Obstacle, lambda one: (one.wall,))
openings_on = index(Opening, lambda one: (one.wall,))
receptacles_on = index(Box, lambda box: (box.wall,) if box.what == "receptacle" else ())
"""What is on each wall."""


def floor_line(job: Job, wall: str) -> tuple[Gap, ...]:
    """What takes up the floor line of a wall: doorways, fireplaces and cabinets that stand on the floor."""
    gaps = []
    for obstacle in _obstacles_on(job).get(wall, ()):
        if obstacle.what == "door" and obstacle.y.nm <= FLOOR_NM:
            start = obstacle.x.inches
            gaps.append(Gap(start, start + obstacle.width.inches, "doorway"))
    for one in openings_on(job).get(wall, ()):
        rect = rect_of(one)
        if rect is None or rect.y > FLOOR_NM:
            continue
        what: Break | None = "fireplace" if one.use == "fireplace" else None
        what = "fixed cabinet without countertop" if one.use in CABINETS else what
        if what is not None:
            gaps.append(Gap(rect.x / INCH_NM, rect.right / INCH_NM, what))
    return tuple(gap for gap in gaps if gap.width_in > 0)


@once
def wall_spacing(job: Job, wall: str) -> Spacing | None:
    """Receptacles along the finished wall against NEC 210.52(A); None while the wall's width is not read."""
    size = sizes(job).get((wall, "width"))
    if size is None or size.least.nm <= 0:
        return None
    return spacing(size.least.inches, floor_line(job, wall), _along_wall(job).get(wall, ()), edition(job))


@filed(Box)
def _along_wall(job: Job, box: Box) -> Iterator[tuple[str, Receptacle]]:
    """The receptacles of each wall, as their spacing is judged."""
    if box.what == "receptacle" and (at := point_of(job, box.tag)) is not None:
        inside = job.of(Opening).get(box.reached)
        hidden = inside is not None and inside.use != "other"
        x, y = (each / INCH_NM for each in at)
        yield (
            str(box.wall),
            Receptacle(box.tag, x, y, in_cabinet=hidden, switched_for_light=box.switched == "all"),
        )


def bore_of(job: Job, wall: Wall, hole: Length) -> BoreLook:
    """A hole bored through the middle of a wall's studs."""
    return look_at_bore(wall.stud_depth.nm, hole.nm, bearing(wall), metric=not is_us(job))


def bore_source(job: Job, wall: Wall) -> str:
    """Where the limit of holes and notches in a wall's studs is from: of what carries nothing, the IRC is the guide."""
    return BORE_SOURCE if is_us(job) or wall.bearing == "no" else METRIC_BORE_SOURCE


def first_support(box: Box) -> Length:
    """How far from a box its cable is first held: NEC 334.30, and 314.17 for one gang of plastic without clamps."""
    clampless = not box.clamps and not box.metal and box.gangs == 1
    return inches(SUPPORT_FROM_CLAMPLESS_BOX_IN if clampless else SUPPORT_FROM_BOX_IN)


FLOOR_NM = 6 * INCH_NM
"""An opening or a cabinet whose bottom is this near the floor takes up the floor line; a toe platform is no higher.

Common practice, no source: the code speaks of what is unbroken at the floor line.
"""


CABINETS = ("equipment", "shelf", "drawer")
