"""Walls laid out flat: where two walls meet, and how a place on one lies beside a place on another.

Seen from the room, the right end of a wall meets the left end of the next. Whole nanometres.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

import msgspec

from store.records.wall import Wall
from store.records.whole import Job
from store.records.wiring import Cable, Raceway
from store.rules.core.keyed import by_key
from store.rules.wall.places import point_of, wall_of
from store.rules.wall.readings import sizes
from store.rules.wall.shape import Out


class Face(msgspec.Struct, frozen=True):
    """One wall of several laid out flat."""

    wall: str
    left: int
    """Where its left end lies."""


class Flat(msgspec.Struct, frozen=True):
    """The walls that a way goes over, laid out flat: the first begins at 0."""

    faces: tuple[Face, ...]
    corners: tuple[int, ...] = ()
    """Where each wall meets the next."""
    noted: bool = True
    """False where nobody noted how the walls meet, and the nearer way was taken."""
    other_by: int = 0
    """How much longer the way round the other ends would be, where that is not noted."""


@by_key
def next_walls(job: Job) -> Mapping[str, str]:
    """For a wall, the one that its right end meets, as noted on either of them; the first note counts."""
    found: dict[str, str] = {}
    for left, right in _notes(job):
        if left != right and left not in found and right not in found.values():
            found[left] = right
    return found


def at_odds(job: Job) -> list[tuple[str, str]]:
    """Notes of two walls that meet (the left one first) which cannot be true beside the others."""
    return [pair for pair in dict.fromkeys(_notes(job)) if next_walls(job).get(pair[0]) != pair[1]]


def _notes(job: Job) -> Iterator[tuple[str, str]]:
    for tag, wall in job.of(Wall).items():
        if wall.meets_right:
            yield tag, wall.meets_right
        if wall.meets_left:
            yield wall.meets_left, tag


def flat(job: Job, first: str, last: str, start: int, end: int) -> Flat | str:
    """The walls from a place on one to a place on another, laid out flat; in words what is missing for it."""
    if first == last:
        return Flat((Face(first, 0),))
    onward = next_walls(job)
    back = {right: left for left, right in onward.items()}
    rightward, leftward = _chain(onward, first, last), _chain(back, first, last)
    if not rightward and not leftward:
        return _not_noted(job, first, last, start, end)
    ways = [each for each in (_to_right(job, rightward), _to_left(job, leftward)) if isinstance(each, Flat)]
    if not ways:
        return next(each for each in (_to_right(job, rightward), _to_left(job, leftward)) if isinstance(each, str))
    return min(ways, key=lambda each: abs(each.faces[-1].left + end - start))


def _chain(onward: Mapping[str, str], first: str, last: str) -> tuple[str, ...]:
    """The walls from the first to the last, each the next of the one before; empty where that leads nowhere."""
    walls = [first]
    while walls[-1] != last:
        following = onward.get(walls[-1], "")
        if not following or following in walls:
            return ()
        walls.append(following)
    return tuple(walls)


def _to_right(job: Job, walls: tuple[str, ...]) -> Flat | str:
    faces, corners, at = [], [], 0
    for wall in walls:
        faces.append(Face(wall, at))
        if wall != walls[-1]:
            width = _width(job, wall)
            if width is None:
                return _unread(wall)
            at += width
            corners.append(at)
    return Flat(tuple(faces), tuple(corners)) if faces else ""


def _to_left(job: Job, walls: tuple[str, ...]) -> Flat | str:
    faces, corners, at = [Face(wall, 0) for wall in walls[:1]], [], 0
    for wall in walls[1:]:
        width = _width(job, wall)
        if width is None:
            return _unread(wall)
        corners.append(at)
        at -= width
        faces.append(Face(wall, at))
    return Flat(tuple(faces), tuple(corners)) if faces else ""


def _width(job: Job, wall: str) -> int | None:
    known = sizes(job).get((wall, "width"))
    return known.least.nm if known else None


def _unread(wall: str) -> str:
    return f"it goes around a corner, and {wall} has no width reading yet"


def _not_noted(job: Job, first: str, last: str, start: int, end: int) -> Flat | str:
    """Two walls of which nobody noted how they meet: one corner, taken so that the ways round it are shortest."""
    width, other = _width(job, first), _width(job, last)
    if width is None or other is None:
        return _unread(first if width is None else last)
    at_right, sure = _nearer(job).get((first, last), (None, False))
    if at_right is None:
        return (
            f"no corner entered between {first} and {last}: enter on a wall which one meets its left and its right end"
        )
    way = _to_right(job, (first, last)) if at_right else _to_left(job, (first, last))
    longer = (start + other - end) - (width - start + end)
    by = 0 if sure else longer if at_right else -longer
    return msgspec.structs.replace(way, noted=False, other_by=by) if isinstance(way, Flat) else way


@by_key
def _nearer(job: Job) -> Mapping[tuple[str, str], tuple[bool, bool]]:
    """For two walls of which nobody noted it, whether the right end of the first is taken to meet the second.

    Two walls meet in one corner: the one that makes the runs between them shortest altogether. An end that is noted
    to meet a third wall is out of the question; True beside it where that leaves one corner only.
    """
    gain: dict[tuple[str, str], int] = {}
    for one in _runs(job):
        walls = (wall_of(job, one.start), wall_of(job, one.end))
        start, end = point_of(job, one.start), point_of(job, one.end)
        widths = _width(job, walls[0]), _width(job, walls[1])
        if walls[0] == walls[1] or start is None or end is None or widths[0] is None or widths[1] is None:
            continue
        right, left = (widths[0] - start[0]) + end[0], start[0] + (widths[1] - end[0])
        pair, sign = (walls, 1) if walls[0] < walls[1] else ((walls[1], walls[0]), -1)
        gain[pair] = gain.get(pair, 0) + sign * (left - right)
    found = {}
    onward = next_walls(job)
    for (one_wall, other), more in gain.items():
        free = {
            True: one_wall not in onward and other not in onward.values(),
            False: other not in onward and one_wall not in onward.values(),
        }
        at_right = more >= 0 if free[True] == free[False] else free[True]
        if free[at_right]:
            found[one_wall, other] = (at_right, not free[not at_right])
            found[other, one_wall] = (not at_right, not free[not at_right])
    return found


def _runs(job: Job) -> Iterable[Cable | Raceway]:
    yield from (each for each in job.of(Cable).values() if each.retired is None)
    yield from job.of(Raceway).values()


def hidden_by_out(job: Job, out: Out) -> Iterator[tuple[str, int, int]]:
    """The walls round an inside corner that a build-out stands before, each from where to where."""
    onward, own = next_walls(job), job.of(Wall)[out.wall]
    wide = sizes(job).get((out.wall, "width"))
    before = next((left for left, right in onward.items() if right == out.wall), "")
    beside = sizes(job).get((before, "width")) if before else None
    if out.rect.x_nm <= 0 and before and own.left_corner == "inside" and beside is not None:
        yield before, beside.least.nm - out.depth_nm, beside.least.nm
    after = onward.get(out.wall, "")
    if after and own.right_corner == "inside" and wide is not None and out.rect.right_nm >= wide.least.nm:
        yield after, 0, out.depth_nm
