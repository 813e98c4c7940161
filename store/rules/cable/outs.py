"""How far out of the wall a way runs: over the returns of build-outs to their fronts, and back to the wall.

Whole nanometres. On the drawing from the front such a step is one place; in the room it is as long as the build-out is
deep there. A way steps as little as it can: where nothing is in front of the wall it is in the wall.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

from store.records.equipment import Equipment
from store.records.wall import Opening
from store.records.whole import Job
from store.rules.cable.legs import Leg
from store.rules.wall.places import Point, wall_of
from store.rules.wall.shape import build_outs, out_at, spot
from store.trade.cable.bends import turned_deg

Deep = tuple[int, int, int]
"""Along the wall, up, and out from its face."""
Row = tuple[Deep, ...]
Reach = tuple[int, int]
"""From how far out to how far out an end can be met."""
SQUARE_DEG = 90.0
"""Round the corner of a room."""
ANY = 1 << 62
"""Where nothing holds a way back: above and below the wall."""


def reach_of(job: Job, tag: str) -> Reach:
    """How far out of the wall a thing is met: a box at its face, what is in an opening anywhere along its depth."""
    place = spot(job, tag) if tag else None
    if place is None:
        return 0, 0
    record = job.get(tag)
    around = job.of(Opening).get(record.opening) if isinstance(record, Equipment) else record
    depth = around.depth if isinstance(around, Opening) else None
    return max(0, place.out_nm - (depth.nm if depth is not None else 0)), place.out_nm


def in_room(
    job: Job, legs: Sequence[Leg], start: str, end: str, named: Mapping[tuple[str, Point], int] | None = None
) -> tuple[Row, ...]:
    """A way as places in the room, a row for each wall in turn; of several with the fewest steps, turns counted after.

    `named` are places on it that are things, with how far out they are.
    """
    if not any(build_outs(job).get(leg.wall) for leg in legs):
        return tuple(_flat(legs))
    first, last, named = reach_of(job, start), reach_of(job, end), named or {}
    back = [Leg(leg.wall, leg.end, leg.start, leg.place) for leg in reversed(legs)]
    found = [tuple(_stepped(job, legs, at, last, named)) for at in dict.fromkeys(first)]
    found += [_reversed(tuple(_stepped(job, back, at, first, named))) for at in dict.fromkeys(last)]
    return min(found, key=lambda rows: (steps_nm(rows), turns_deg(rows)))


def steps_nm(rows: Sequence[Row]) -> int:
    """All steps of a way out of the wall and back towards it, added up."""
    return sum(abs(b[2] - a[2]) for row in rows for a, b in pairwise(row))


def turns_deg(rows: Sequence[Row]) -> float:
    """The turns of a way within each of its walls, and a square one at each corner that it goes round."""
    return sum(turned_deg(row) for row in rows) + SQUARE_DEG * max(0, len(rows) - 1)


def _flat(legs: Sequence[Leg]) -> Iterator[Row]:
    """The rows of a way that stays in the wall."""
    row: list[Deep] = []
    for at, leg in enumerate(legs):
        row = row or [(*leg.start, 0)]
        row.append((*leg.end, 0))
        if at == len(legs) - 1 or legs[at + 1].wall != leg.wall:
            yield tuple(row)
            row = []


def _reversed(rows: tuple[Row, ...]) -> tuple[Row, ...]:
    return tuple(row[::-1] for row in rows[::-1])


def _stepped(
    job: Job, legs: Sequence[Leg], out: int, last: Reach, named: Mapping[tuple[str, Point], int]
) -> Iterator[Row]:
    """The rows of a way that stays as far out as it is for as long as there is something to run in."""
    row: list[Deep] = []
    for at, leg in enumerate(legs):
        row = row or [(*leg.start, out)]
        for a, b, most in _pieces(job, leg):
            if out > most:
                out = most
                row.append((*a, out))
            row.append((*b, out))
        there = named.get((leg.wall, leg.end))
        onward = legs[at + 1] if at + 1 < len(legs) else None
        if onward is None:
            there = min(max(out, last[0]), last[1])
        elif onward.wall != leg.wall:
            there = 0
        if there is not None and there != out:
            out = there
            row.append((*leg.end, out))
        if onward is None or onward.wall != leg.wall:
            yield tuple(row)
            row = []


def _pieces(job: Job, leg: Leg) -> Iterator[tuple[Point, Point, int]]:
    """A stretch cut where build-outs begin and end, each piece with how far out it can run."""
    (x, y), (to_x, to_y) = leg.start, leg.end
    shares = {0.0, 1.0}
    for each in build_outs(job).get(leg.wall, ()):
        for edge, start, step in (
            (each.rect.x_nm, x, to_x - x), (each.rect.right_nm, x, to_x - x),
            (each.rect.y_nm, y, to_y - y), (each.rect.top_nm, y, to_y - y),
        ):  # fmt: skip
            if step and 0 < (share := (edge - start) / step) < 1:
                shares.add(share)
    cuts = [_at(leg, each) for each in sorted(shares)]
    for a, b in pairwise(cuts):
        out = out_at(job, leg.wall, (a[0] + b[0]) // 2, (a[1] + b[1]) // 2)
        yield a, b, ANY if leg.place == "beyond" else 0 if out is None else out.depth_nm


def _at(leg: Leg, share: float) -> Point:
    if share in (0.0, 1.0):
        return leg.end if share else leg.start
    (x, y), (to_x, to_y) = leg.start, leg.end
    return x + round((to_x - x) * share), y + round((to_y - y) * share)


def named_at(job: Job, tag: str, point: Point) -> tuple[tuple[str, Point], int] | None:
    """A thing on a way, as `in_room` takes it: its wall and place as seen from the front, and how far out it is."""
    place = spot(job, tag)
    return None if place is None else ((wall_of(job, tag), point), place.out_nm)
