"""What nothing can be run through: windows, doors, ducts, pipes, openings that take all of the studs, hot places."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

import msgspec

from store.records.equipment import Equipment
from store.records.wall import Obstacle, Opening, Wall
from store.records.whole import Job
from store.records.wiring import Box, Cable, Raceway
from store.rules.cable.legs import Leg, enters
from store.rules.core.keyed import by_key
from store.rules.wall.contents import opening_at
from store.rules.wall.layout import Placed, walls
from store.rules.wall.pieces import COVERING
from store.rules.wall.places import Rect as Outline
from store.rules.wall.places import equipment_rect, rect_of, wall_of
from store.rules.wall.shape import into_wall_nm
from store.trade.measured.plane import Rect

HOLES = ("window", "door", "vent", "pipe")
"""What is no wall to run in."""


class Blocked(msgspec.Struct, frozen=True):
    """A place in a wall where nothing can run."""

    tag: str
    what: str
    """Of an obstacle what it is; `opening`, or `heater`."""
    wall: str
    rect: Rect
    opening: str = ""
    """The opening that a hot thing is in."""

    @property
    def framed(self) -> bool:
        """True for a hole with framing of its own beside it; not for a pipe, and a heater's clearances are counted."""
        return self.what not in ("pipe", "heater")

    @property
    def corners(self) -> tuple[int, int, int, int]:
        """Left, low, right and top, nm."""
        return self.rect.x_nm, self.rect.y_nm, self.rect.right_nm, self.rect.top_nm

    def serves(self, job: Job, one: Cable | Raceway) -> bool:
        """True where an end is in it: it is where the cable or raceway is led to."""
        ends = {one.start, one.end} - {""}
        if self.what == "heater":
            served = ends | {opening_at(job, each) for each in ends} - {""}
            return self.tag in served or self.opening in served
        return self.tag in ends or any(
            box.wall == self.wall
            and box.x is not None
            and box.y is not None
            and self.rect.x_nm <= box.x.nm <= self.rect.right_nm
            and self.rect.y_nm <= box.y.nm <= self.rect.top_nm
            for tag in ends
            if (box := job.of(Box).get(tag)) is not None
        )


@by_key
def blocked(job: Job) -> Mapping[str, tuple[Blocked, ...]]:
    """All that is in the way in each wall: its holes, and its hot places with their clearances."""
    found: dict[str, list[Blocked]] = {}
    for tag, wall in walls(job).items():
        for each in wall.obstacles:
            what = job.of(Obstacle)[each.tag].what
            if what in HOLES:
                found.setdefault(tag, []).append(Blocked(each.tag, what, tag, each.rect))
        for each in wall.openings:
            if job.of(Opening)[each.tag].use != "fireplace" and takes_the_studs(job, wall.wall, each):
                found.setdefault(tag, []).append(Blocked(each.tag, "opening", tag, each.rect))
    for heater, opening, on, rect in heaters(job):
        place = Rect(rect.x, rect.y, rect.width, rect.height)
        found.setdefault(on, []).append(Blocked(heater, "heater", on, place, opening))
    return {tag: tuple(each) for tag, each in found.items()}


def crossed(job: Job, one: Cable | Raceway, legs: Iterable[Leg]) -> Iterator[Blocked]:
    """What some stretches go through, each once; what an end is in is where they are led to."""
    stretches = tuple(legs)
    for wall in dict.fromkeys(leg.wall for leg in stretches):
        for each in blocked(job).get(wall, ()):
            if any(leg.wall == wall and enters(leg, each.corners) for leg in stretches) and not each.serves(job, one):
                yield each


def takes_the_studs(job: Job, wall: Wall, each: Placed) -> bool:
    """True for an opening as deep as the studs and their board: nothing passes behind it.

    A cabinet is left out: a cable goes along its back or its side.
    """
    one = job.of(Opening)[each.tag]
    into = into_wall_nm(job, one) if one.use not in COVERING or one.thickness is None else None
    return into is not None and into >= wall.stud_depth.nm + job.settings.finish.nm


def heaters(job: Job) -> Iterator[tuple[str, str, str, Outline]]:
    """Each hot thing: its tag, its opening, its wall and the place no cable may cross."""
    for tag, one in job.of(Opening).items():
        if one.use == "fireplace" and one.wall and (rect := rect_of(one)):
            yield tag, tag, one.wall, rect
    for tag, device in job.of(Equipment).items():
        hot = device.heats or device.what in ("fireplace", "heater")
        if not hot or device.retired is not None or not (rect := equipment_rect(job, device)):
            continue
        around = job.of(Opening).get(device.opening)
        rect = _with_clearances(device, rect)
        hole = rect_of(around) if around and around.use == "fireplace" else None
        inside = hole and hole.x <= rect.x and hole.y <= rect.y and rect.right <= hole.right and rect.top <= hole.top
        if not inside:
            yield tag, device.opening, wall_of(job, tag), rect


def _with_clearances(device: Equipment, rect: Outline) -> Outline:
    left, right, above, below = (
        each.nm if each is not None else 0
        for each in (device.clear_left, device.clear_right, device.clear_top, device.clear_bottom)
    )
    return Outline(rect.x - left, rect.y - below, rect.width + left + right, rect.height + above + below)
