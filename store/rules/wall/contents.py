"""What stands in an opening, and in which opening a thing stands."""

from __future__ import annotations

from collections.abc import Mapping
from math import isqrt

from store.measure.length import INCH_NM
from store.records.equipment import Equipment
from store.records.wall import Opening
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.core.keyed import by_key, index, of_each
from store.rules.core.memo import once
from store.rules.wall.layout import in_opening
from store.rules.wall.pieces import hangs
from store.rules.wall.places import Point, Rect, on_side, rect_of

IN_THE_WALL = ("screen", "fireplace", "speaker")
"""Uses of an opening that is a recess in the framed wall: a cord leaves it only through the wall or over its face."""


def straight_nm(one: Point, other: Point) -> int:
    """Straight distance between two places, nm, rounded down."""
    return isqrt((one[0] - other[0]) ** 2 + (one[1] - other[1]) ** 2)


def opening_of(job: Job, one: Equipment) -> str:
    """The opening a thing is in, or is reached by; empty when neither is noted."""
    known = job.of(Opening)
    return next((str(each) for each in (one.opening, one.reached) if each in known), "")


COLUMN_NM = 48 * INCH_NM
"""Openings are looked up by columns of their wall of this width, so that those far along it are not looked at."""


@of_each(Box)
def opening_of_box(job: Job, box: Box) -> str | None:
    """The opening a box is in, by the tag of the box: the one it is reached by, else the one its centre lies in."""
    if box.reached in job.of(Opening):
        return str(box.reached)
    if box.x is None or box.y is None:
        return None
    if on_side(box):
        return None
    return _opening_around(job, box.wall, box.x.nm, box.y.nm) or None


def known_place(job: Job, box: Box) -> bool:
    """True when it can be told in which opening the box is, or that it is in none."""
    return box.tag in opening_of_box(job) or (bool(box.wall) and box.x is not None and box.y is not None)


@by_key
def places(job: Job) -> Mapping[str, tuple[str, ...]]:
    """The devices in every opening, by its tag: those that stand in it, and those that are reached only through it."""
    found: dict[str, list[str]] = {}
    for tag, one in job.of(Equipment).items():
        if one.retired is None and (place := place_of(one)):
            found.setdefault(place, []).append(tag)
    return {place: tuple(tags) for place, tags in found.items()}


def place_of(one: Equipment) -> str:
    """The opening a device is in; empty when it is in none."""
    return one.opening or (one.reached if one.reached.startswith("N") else "")


@by_key
def _rects(job: Job) -> Mapping[tuple[str, int], tuple[tuple[str, Rect], ...]]:
    """The openings by their wall and the columns of it that they reach into, in the order of their table."""
    found: dict[tuple[str, int], list[tuple[str, Rect]]] = {}
    for tag, one in job.of(Opening).items():
        if (rect := rect_of(one)) is not None:
            for column in range(rect.x // COLUMN_NM, rect.right // COLUMN_NM + 1):
                found.setdefault((one.wall, column), []).append((tag, rect))
    return {column: tuple(rects) for column, rects in found.items()}


def _opening_around(job: Job, wall: str, x: int, y: int) -> str:
    """The first opening that a place on a wall lies in; empty for none."""
    near = _rects(job).get((wall, x // COLUMN_NM), ())
    return next((tag for tag, r in near if r.x <= x <= r.right and r.y <= y <= r.top), "")


@once
def opening_at(job: Job, tag: str) -> str:
    """The opening that an end of a cable serves: itself, its device's, or the one that its box is in or reached by."""
    record = job.get(tag)
    if isinstance(record, Opening):
        return tag
    if isinstance(record, Equipment):
        return place_of(record)
    if not isinstance(record, Box):
        return ""
    if record.reached.startswith("N"):
        return record.reached
    if record.x is None or record.y is None or on_side(record):
        return ""
    return _opening_around(job, record.wall, record.x.nm, record.y.nm)


CLOSED = ("solid", "glass")
"""Doors that keep warm air in."""


def hung_in(job: Job, opening: str) -> tuple[Equipment, ...]:
    """What is fastened in an opening, its bracket among it: what the backing of the opening carries."""
    return tuple(one for one in in_opening(job).get(opening, ()) if hangs(one) or one.what == "mount")


stands_on = index(Equipment, lambda one: (str(one.stands_on),) if one.stands_on else ())
"""What is said to stand on each thing."""


def stood_on(job: Job, tag: str) -> dict[str, float]:
    """What stands on a thing, pounds by tag, as far as it is weighed; what is retired no longer does."""
    there = (job.of(Equipment)[each.tag] for each in stands_on(job).get(tag, ()))
    return {
        one.tag: max(0.0, one.weight.pounds) * one.count
        for one in there
        if one.retired is None and one.weight is not None
    }
