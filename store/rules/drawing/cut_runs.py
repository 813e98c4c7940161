"""What a cut through a wall shows of its wiring: runs that lie in it as lines, those that pass through it as marks,
and the boxes that it goes through.

Whole nanometres, in the two axes of the cut.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from store.measure.length import Length, show_length
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.cable.outs import Deep
from store.rules.core.keyed import index, of_each
from store.rules.drawing.deep_ways import deep_ways, end_depth
from store.rules.drawing.shapes import Layer, Run, Shape, Spot
from store.rules.wall.hung import body
from store.rules.wall.places import Point
from store.rules.wall.shape import spot

ACROSS, UP = 0, 1
"""Axes that a cut is square to: along the wall for an upright cut, up for a level one."""
WIRING: tuple[Layer, ...] = ("raceways", "cables")
MOST_TOLD = 12
"""Heights of a cut at which runs are told in words."""
SAME_NM = 50_000_000
"""Runs within 2 in of height are told together. Our own."""

boxes_on = index(Box, lambda box: (box.wall,) if box.wall else ())
"""The boxes of each wall."""


def wiring(job: Job, wall: str, axis: int, at_nm: int) -> Iterator[Shape]:
    """The runs and the boxes of a wall that a cut meets."""
    for way in deep_ways(job).get(wall, ()):
        low, high = way.reach[axis]
        if at_nm < low - way.half_nm or at_nm > high + way.half_nm:
            continue
        lines, marks = sliced(way.points, axis, at_nm, way.half_nm)
        for line in lines:
            yield Run(way.tag, way.layer, way.kind, way.label, line)
        for x, y in marks:
            yield Spot(way.tag, way.layer, way.kind, way.label, x, y)
    for box in boxes_on(job).get(wall, ()):
        yield from _box(job, box, axis, at_nm)


def sliced(points: Sequence[Deep], axis: int, at_nm: int, near_nm: int) -> tuple[list[tuple[Point, ...]], list[Point]]:
    """The lines of a way that lie within so much of a cut, and the places where it passes through the cut besides."""
    lines: list[list[Point]] = []
    marks: list[Point] = []
    joined = False
    for one, other in pairwise(points):
        a, b = one[axis] - at_nm, other[axis] - at_nm
        if abs(a) <= near_nm and abs(b) <= near_nm:
            if not joined:
                lines.append([flat(one, axis)])
            lines[-1].append(flat(other, axis))
            joined = True
            continue
        joined = False
        if a * b < 0 or 0 in (a, b):
            share = a / (a - b)
            marks.append(flat(_between(one, other, share), axis))
    kept = [tuple(line) for line in lines if any(each != line[0] for each in line)]
    # Where a way turns out of the cut its line ends: that needs no mark.
    ends = {at for line in lines for at in line}
    return kept, [at for at in dict.fromkeys(marks) if not any(_close(at, end, near_nm) for end in ends)]


def flat(at: Deep, axis: int) -> Point:
    """A place in the room as a cut shows it: behind the face and up, or along the wall and behind the face."""
    x, y, deep = at
    return (deep, y) if axis == ACROSS else (x, deep)


def _between(one: Deep, other: Deep, share: float) -> Deep:
    x, y, deep = (round(a + (b - a) * share) for a, b in zip(one, other, strict=True))
    return x, y, deep


def _close(one: Point, other: Point, near: int) -> bool:
    return abs(one[0] - other[0]) <= near and abs(one[1] - other[1]) <= near


@of_each(Box)
def _in_depth(job: Job, box: Box) -> tuple[Deep, tuple[int, int]] | None:
    """The front of a box in the room, and its width and height; None while it has no place."""
    place, own, deep = spot(job, box.tag), body(box), end_depth(job, box.tag)
    if place is None or own is None or deep is None:
        return None
    return (place.x_nm, place.y_nm, deep), (own.width_nm, own.height_nm)


def _box(job: Job, box: Box, axis: int, at_nm: int) -> Iterator[Spot]:
    """A box that a cut goes through, by its front."""
    found = _in_depth(job).get(box.tag)
    if found is not None and abs(found[0][axis] - at_nm) <= found[1][axis] // 2:
        x, y = flat(found[0], axis)
        yield Spot(box.tag, "boxes", box.what, box.name or box.what, x, y, box.new)


def bundles(spots: Sequence[Spot]) -> list[list[Spot]]:
    """The marks of runs at about one height, from the top down; each raceway before what runs in it."""
    found: list[list[Spot]] = []
    for each in sorted(spots, key=lambda one: -one.y):
        if found and found[-1][0].y - each.y <= SAME_NM:
            found[-1].append(each)
        else:
            found.append([each])
    return [sorted(group, key=lambda one: WIRING.index(one.layer)) for group in found]


def told(shapes: Sequence[Shape], metric: bool, *, upright: bool, high_nm: int = 0) -> list[str]:
    """In a sentence what runs through a cut, by its height, or by its place along the wall."""
    marks = [each for each in shapes if isinstance(each, Spot) and each.layer in WIRING]
    if not upright:
        # By the place along the wall, from the left.
        marks = [Spot(each.tag, each.layer, each.kind, each.label, each.y, -each.x) for each in marks]
    said = []
    for group in bundles(marks):
        y, tags = group[0].y, dict.fromkeys(each.tag for each in group)
        where = f"at {show_length(Length(abs(y)), metric)}"
        if upright and not 0 <= y <= high_nm:
            where = "under the floor" if y < 0 else "above the ceiling"
        said.append(f"{' '.join(tags)} {where}")
    left_out = f", and {len(said) - MOST_TOLD} more places" if len(said) > MOST_TOLD else ""
    return [f"Runs through the cut: {', '.join(said[:MOST_TOLD])}{left_out}."] if said else []
