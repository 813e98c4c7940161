"""What nothing can be run through: windows, doors, ducts, pipes, openings that take all of the studs, hot places, and
masonry that was there before; and where a run leaves its wall."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

import msgspec

from store.measure.length import INCH_NM
from store.records.equipment import Equipment
from store.records.wall import BuildOut, Obstacle, Opening, Wall
from store.records.whole import Job
from store.records.wiring import Box, Cable, Raceway
from store.rules.cable.legs import Leg
from store.rules.core.keyed import by_key
from store.rules.wall.contents import opening_at
from store.rules.wall.layout import Placed, walls
from store.rules.wall.lines import ceilings, floors
from store.rules.wall.pieces import COVERING
from store.rules.wall.places import Point, equipment_rect, on_side, point_of, rect_of, wall_of
from store.rules.wall.places import Rect as Outline
from store.rules.wall.readings import sizes
from store.rules.wall.shape import build_outs, face_of, into_wall_nm
from store.trade.cable.way import enters
from store.trade.measured.plane import Rect

HOLES = ("window", "door", "vent", "return air", "pipe")
"""What is no wall to run in."""


class Blocked(msgspec.Struct, frozen=True):
    """A place in a wall where nothing can run."""

    tag: str
    what: str
    """Of an obstacle what it is; `opening`, `masonry` or `heater`."""
    wall: str
    rect: Rect
    opening: str = ""
    """The opening that a hot thing is in."""

    @property
    def framed(self) -> bool:
        """True for a hole with framing of its own beside it; not for a pipe, and a heater's clearances are counted."""
        return self.what not in ("pipe", "heater", "masonry")

    @property
    def words(self) -> str:
        """What it is and its tag, to be read: `the window O1`, `N1`."""
        return f"the {self.what} {self.tag}" if self.what in (*HOLES, "masonry") else self.tag

    def serves(self, job: Job, one: Cable | Raceway) -> bool:
        """True where an end is in it: it is where the cable or raceway is led to."""
        ends = {one.start, one.end} - {""}
        if self.what == "heater":
            served = ends | {opening_at(job, each) for each in ends} - {""}
            return self.tag in served or self.opening in served
        if self.what == "masonry":
            faces = (face_of(job, each) for each in ends)
            return any(face is not None and face.out == self.tag for face in faces)
        return self.tag in ends or any(self._holds(job, tag) for tag in ends if tag in job.of(Box))

    def _holds(self, job: Job, tag: str) -> bool:
        """True for a box that is in it, as seen from the front."""
        at = point_of(job, tag)
        return (
            at is not None
            and wall_of(job, tag) == self.wall
            and self.rect.x_nm <= at[0] <= self.rect.right_nm
            and self.rect.y_nm <= at[1] <= self.rect.top_nm
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
    for tag, outs in build_outs(job).items():
        found.setdefault(tag, []).extend(
            Blocked(each.tag, "masonry", tag, each.rect)
            for each in outs
            if each.work == "masonry" and not job.of(BuildOut)[each.tag].new
        )
    for heater, opening, on, rect in heaters(job):
        place = rect.plane
        found.setdefault(on, []).append(Blocked(heater, "heater", on, place, opening))
    return {tag: tuple(each) for tag, each in found.items()}


def crossed(job: Job, one: Cable | Raceway, legs: Iterable[Leg]) -> Iterator[Blocked]:
    """What some stretches go through, each once; what an end is in is where they are led to."""
    stretches = tuple(leg for leg in legs if leg.place != "beyond")
    for wall in dict.fromkeys(leg.wall for leg in stretches):
        for each in blocked(job).get(wall, ()):
            through = (leg.wall == wall and enters(leg.start, leg.end, each.rect) for leg in stretches)
            if any(through) and not each.serves(job, one):
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
        if one.use == "fireplace" and one.wall and not on_side(one) and (rect := rect_of(one)):
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


# --- off the wall ---


class Outside(msgspec.Struct, frozen=True):
    """A place on a run that is not on its wall."""

    wall: str
    at: Point
    past: str
    """`ceiling`, `floor`, `left end` or `right end`."""
    by_nm: int


def outside(job: Job, legs: Sequence[Leg]) -> Outside | None:
    """The place that is farthest off; None where all of it is on its walls. An end that is off itself does not count:
    that is told of the thing there."""
    within = [leg for leg in legs if leg.place in ("wall", "raceway")]
    if not within or any(leg.place == "beyond" for leg in legs):
        return None  # what goes over the top or under the floor leaves the wall there
    ends = {(legs[0].wall, legs[0].start), (legs[-1].wall, legs[-1].end)}
    found = [
        each
        for leg in within
        for at in _places(job, leg)
        if (leg.wall, at) not in ends
        for each in _past(job, leg.wall, at)
    ]
    return max(found, key=lambda each: each.by_nm, default=None)


def _places(job: Job, leg: Leg) -> Iterator[Point]:
    """Both ends of a stretch, and where the ceiling or the floor turns along it."""
    (x, y), (to_x, to_y) = leg.start, leg.end
    yield leg.start
    yield leg.end
    low, high = sorted((x, to_x))
    for line in (ceilings(job).get(leg.wall), floors(job).get(leg.wall)):
        for at, _ in line.points if line is not None else ():
            if low < at < high:
                yield at, y + (to_y - y) * (at - x) // (to_x - x)


def _past(job: Job, wall: str, at: Point) -> Iterator[Outside]:
    x, y = at
    wide, ceiling, floor = sizes(job).get((wall, "width")), ceilings(job).get(wall), floors(job).get(wall)
    over = {
        "left end": -x,
        "right end": x - wide.least.nm if wide is not None else 0,
        "ceiling": y - ceiling.at(x) if ceiling is not None else 0,
        "floor": floor.at(x, low=False) - y if floor is not None else 0,
    }
    for past, by in over.items():
        if by > SLIGHT_NM:
            yield Outside(wall, at, past, by)


SLIGHT_NM = INCH_NM // 2
"""Readings of one wall, and of two that meet, differ by so much without a run being off the wall. Our own."""
