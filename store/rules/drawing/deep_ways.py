"""Cables and raceways in the room: along the wall, up, and how deep behind its finished face they run.

Whole nanometres; below zero is in front of the wall's own face. Within the framing a run is at the middle of the studs,
where it is bored, or just behind an opening that is deeper than that; what stays in the cabinets is along their backs.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

import msgspec

from store.measure.length import INCH_NM, inches
from store.records.equipment import Equipment
from store.records.wall import BuildOut, Opening, Wall
from store.records.whole import Job
from store.records.wiring import Box, Cable, Raceway
from store.rules.cable.legs import Leg
from store.rules.cable.outs import Deep, in_room
from store.rules.cable.raceways import outside_in
from store.rules.core.keyed import by_key, filed
from store.rules.drawing.led import led
from store.rules.drawing.shapes import Layer
from store.rules.wall.contents import opening_at
from store.rules.wall.places import BEYOND_NM, Point, rect_of, wall_of
from store.rules.wall.shape import back_nm, face_of, front_nm, out_at, spot
from store.trade.measured.plane import Rect

CLEAR_NM = INCH_NM // 2
"""A run is drawn so far behind the back of an opening, or before it: about its own thickness. Our own."""
NEAR_NM = INCH_NM // 2
"""A run no farther from a cut than this lies in it: about the thickness of a cable. Our own."""


class DeepWay(msgspec.Struct, frozen=True):
    """A run on one wall, or a part of it that hangs together."""

    tag: str
    layer: Layer
    kind: str
    label: str
    half_nm: int
    """Half its thickness, or what is taken for it."""
    points: tuple[Deep, ...]
    """Each along the wall, up, and behind the wall's finished face."""
    reach: tuple[tuple[int, int], tuple[int, int]]
    """From where to where it goes along the wall, and up: most ways are nowhere near a cut."""


@filed(Raceway, Cable)
def deep_ways(job: Job, one: Raceway | Cable) -> Iterator[tuple[str, DeepWay]]:
    """The runs on each wall, by the wall."""
    way = led(job, one)
    wide = outside_in(one) if isinstance(one, Raceway) else None
    half = max(NEAR_NM, inches(wide / 2).nm if wide is not None else 0)
    if not way.legs:
        return
    # A home run leaves the drawing as far out as its box is.
    start, end = one.start or one.end, one.end or one.start
    rows = [row for row in in_room(job, way.legs, start, end) if len(row) > 1]
    for number, (row, legs) in enumerate(zip(rows, _by_rows(way.legs), strict=False)):
        wall = legs[0].wall
        points = list(_behind(job, wall, row, legs))
        if number == 0 and one.start:
            points = [*_end(job, one.start, wall, points[:1]), *points]
        if number == len(rows) - 1 and one.end:
            points += _end(job, one.end, wall, points[-1:])
        kept = tuple(at for before, at in pairwise([None, *points]) if at is not None and at != before)
        if kept:
            across, up, _ = zip(*kept, strict=True)
            reach = (min(across), max(across)), (min(up), max(up))
            yield wall, DeepWay(one.tag, way.layer, way.kind, way.label, half, kept, reach)


def _by_rows(legs: Sequence[Leg]) -> Iterator[list[Leg]]:
    """The stretches of each wall in turn, as `in_room` has its rows."""
    row: list[Leg] = []
    for leg in legs:
        if row and leg.wall != row[-1].wall:
            yield row
            row = []
        row.append(leg)
    if row:
        yield row


def _behind(job: Job, wall: str, row: Sequence[Deep], legs: Sequence[Leg]) -> Iterator[Deep]:
    """A row with its depths behind the face; a step out or in lies where the next stretch begins."""
    for (x, y, out), (to_x, to_y, _) in pairwise(row):
        if (x, y) == (to_x, to_y):
            continue
        leg = _leg_at(legs, ((x + to_x) // 2, (y + to_y) // 2))
        if leg.place == "beyond":
            by = BEYOND_NM if y > BEYOND_NM else -BEYOND_NM
            deep = _mid(job, wall, (x, y), out)
            yield from ((x, y + by, deep), (to_x, to_y + by, deep))
            continue
        for a, b in pairwise(_cut(job, wall, (x, y), (to_x, to_y))):
            middle = (a[0] + b[0]) // 2, (a[1] + b[1]) // 2
            if leg.place == "cabinet":
                deep = _in_cabinet(job, wall, middle)
            else:
                backs = [back for rect, _, back in _recesses(job).get(wall, ()) if _within(rect, middle)]
                deep = max([_mid(job, wall, middle, out), *(each + CLEAR_NM for each in backs)])
            yield from ((*a, deep), (*b, deep))


def _leg_at(legs: Sequence[Leg], at: Point) -> Leg:
    """The stretch that a place is on."""

    def off(leg: Leg) -> int:
        (x, y), (to_x, to_y) = leg.start, leg.end
        low, high = sorted((x, to_x))
        under, over = sorted((y, to_y))
        aside = max(low - at[0], at[0] - high, under - at[1], at[1] - over, 0)
        across = abs((to_x - x) * (at[1] - y) - (to_y - y) * (at[0] - x))
        return aside + across // max(abs(to_x - x) + abs(to_y - y), 1)

    return min(legs, key=off)


def _mid(job: Job, wall: str, at: Point, out: int) -> int:
    """The middle of the framing so far out of a wall, behind the wall's finished face."""
    there = out_at(job, wall, *at) if out else None
    record = job.of(BuildOut)[there.tag] if there is not None else job.of(Wall).get(wall)
    deep = record.stud_depth.nm if record is not None else 0
    return job.settings.finish.nm + deep // 2 - out


def _in_cabinet(job: Job, wall: str, at: Point) -> int:
    """Before the back of the cabinet that a place is in; before the face where it is in none."""
    backs = [back for rect, _, back in _recesses(job).get(wall, ()) if _within(rect, at)]
    there = out_at(job, wall, *at)
    return (max(backs) if backs else -there.depth_nm if there is not None else 0) - CLEAR_NM


def _within(rect: Rect, at: Point) -> bool:
    return rect.x_nm < at[0] < rect.right_nm and rect.y_nm < at[1] < rect.top_nm


@by_key
def _recesses(job: Job) -> dict[str, tuple[tuple[Rect, int, int], ...]]:
    """The openings of each wall that are seen from the front: outline, and where front and back are behind the face."""
    found: dict[str, list[tuple[Rect, int, int]]] = {}
    for tag, one in job.of(Opening).items():
        face, rect = face_of(job, tag), rect_of(one)
        if rect is not None and one.depth is not None and face is not None and face.side in ("wall", "front"):
            found.setdefault(one.wall, []).append((rect.plane, -front_nm(job, one), -back_nm(job, one)))
    return {wall: tuple(each) for wall, each in found.items()}


def _cut(job: Job, wall: str, start: Point, end: Point) -> list[Point]:
    """A stretch by its ends and the places where openings begin and end along it."""
    (x, y), (to_x, to_y) = start, end
    shares = {0.0, 1.0}
    for rect, _, _ in _recesses(job).get(wall, ()):
        for edge, begin, step in (
            (rect.x_nm, x, to_x - x), (rect.right_nm, x, to_x - x),
            (rect.y_nm, y, to_y - y), (rect.top_nm, y, to_y - y),
        ):  # fmt: skip
            if step and 0 < (share := (edge - begin) / step) < 1:
                shares.add(share)
    between = sorted(shares - {0.0, 1.0})
    return [start, *((x + round((to_x - x) * each), y + round((to_y - y) * each)) for each in between), end]


def _end(job: Job, tag: str, wall: str, last: Sequence[Deep]) -> list[Deep]:
    """The place at which a run meets a thing at its end: the back of a device, the face that a box is in."""
    if not last or wall_of(job, tag) != wall:
        return []
    deep = end_depth(job, tag)
    return [] if deep is None else [(last[0][0], last[0][1], deep)]


def end_depth(job: Job, tag: str) -> int | None:
    """How deep behind the wall's finished face a thing is met: the back of a device or of an opening, the front of a
    box; None while it has no place."""
    place, record = spot(job, tag), job.get(tag)
    if place is None:
        return None
    around = job.of(Opening).get(record.opening if isinstance(record, Equipment) else opening_at(job, tag))
    if isinstance(record, Box | Equipment | Opening) and around is not None and around.depth is not None:
        face = face_of(job, around.tag)
        if face is not None and face.side in ("wall", "front"):
            behind = record.clear_back if isinstance(record, Equipment) else None
            return -back_nm(job, around) - (behind.nm if behind is not None else 0)
    off = record.off_wall if isinstance(record, Equipment) else None
    return -place.out_nm - (off.nm if off is not None else 0)
