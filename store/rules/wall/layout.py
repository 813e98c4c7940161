"""Where everything stands, looked up once for all rules: walls with their studs and outlines, what is in each opening.

Every rule about places asks here, so that none has to go through all records again.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Literal

import msgspec

from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.wall import Obstacle, Opening, Wall
from store.records.whole import Job
from store.records.wiring import Cable
from store.rules.core.keyed import by_key, index
from store.rules.wall.readings import sizes
from store.rules.wall.stud_row import stud_line
from store.trade.measured.framing import Bay, Stud, bays
from store.trade.measured.plane import Rect, overlap_rect

Direction = Literal["top", "bottom", "left", "right"]
MOST_OVERLAPS = 8
"""Overlaps told of one outline; more of them add nothing to what must be mended."""
BANDS = 8
"""Level bands of a wall that are searched apart, so that what is far below or above is not looked at."""


class Placed(msgspec.Struct, frozen=True):
    """Something with a rectangle on a wall."""

    tag: str
    rect: Rect


class WallLayout(msgspec.Struct, frozen=True):
    """One wall and what has a place on it."""

    wall: Wall
    width_nm: int | None
    """The least reading; None while it was not read."""
    height_nm: int | None
    studs: tuple[Stud, ...]
    """Empty while the width or the first stud is not known."""
    bays: tuple[Bay, ...]
    openings: tuple[Placed, ...]
    panels: tuple[Placed, ...]
    obstacles: tuple[Placed, ...]


in_opening = index(Equipment, lambda one: (one.opening,) if one.opening and one.retired is None else ())
"""What stands in each opening; what is retired is left out."""
cables_at = index(Cable, lambda one: (one.start, one.end) if one.retired is None else ())
"""The cables that end at each thing; what is retired is left out."""


@by_key
def walls(job: Job) -> Mapping[str, WallLayout]:
    """Every wall with what has a place on it, by tag."""
    openings, panels, obstacles = (_by_wall(job, cls) for cls in (Opening, Panel, Obstacle))
    read = sizes(job)
    found = {}
    for tag, wall in job.of(Wall).items():
        width, height = (read[tag, what].least.nm if (tag, what) in read else None for what in ("width", "height"))
        line = stud_line(wall, width, job.settings.metric)
        found[tag] = WallLayout(
            wall,
            width,
            height,
            line,
            bays(width, line) if width and line else (),
            *(tuple(group.get(tag, ())) for group in (openings, panels, obstacles)),
        )
    return found


def _by_wall(job: Job, cls: type[Opening] | type[Panel] | type[Obstacle]) -> dict[str, list[Placed]]:
    found: dict[str, list[Placed]] = {}
    for tag, one in job.of(cls).items():
        # What is on a return has its place on that face, which is seen from the side.
        aside = not isinstance(one, Obstacle) and one.face not in ("nearest", "wall", "front", "cabinet back")
        if one.wall and not aside and (rect := outline(one)) is not None:
            found.setdefault(one.wall, []).append(Placed(tag, rect))
    return found


def outline(one: Opening | Panel | Obstacle) -> Rect | None:
    """Its rectangle from the left corner and the floor; None while its place or a size is missing."""
    if one.x is None or one.y is None or one.width is None or one.height is None:
        return None
    return Rect(one.x.nm, one.y.nm, one.width.nm, one.height.nm)


def overlapping(first: Sequence[Placed], second: Sequence[Placed] | None = None) -> Iterator[tuple[Placed, Placed]]:
    """Every pair that shares area: one of `first` with one of `second`, or two of `first` when `second` is left out.

    Swept from left to right. Touching edges share no area. Of each thing at most `MOST_OVERLAPS` pairs are told.
    """
    both = (tuple(first), () if second is None else tuple(second))
    events = [(each.rect.x_nm, side, at, each) for side, group in enumerate(both) for at, each in enumerate(group)]
    events.sort(key=lambda event: event[:3])
    bands = _bands([each.rect for group in both for each in group])
    active: list[list[list[Placed]]] = [[[] for _ in range(BANDS)] for _ in both]
    for x, side, _, each in events:
        own = bands(each.rect)
        for one in _sharing(each, active[side if second is None else 1 - side], own, x):
            yield (one, each) if second is None or side == 1 else (each, one)
        for band in own:
            active[side][band].append(each)


def _bands(rects: Sequence[Rect]) -> Callable[[Rect], range]:
    """Which bands a rectangle reaches into."""
    low = min((rect.y_nm for rect in rects), default=0)
    deep = (max((rect.top_nm for rect in rects), default=0) - low) // BANDS + 1
    return lambda rect: range((rect.y_nm - low) // deep, (rect.top_nm - 1 - low) // deep + 1)


def _sharing(each: Placed, active: Sequence[list[Placed]], own: range, x: int) -> list[Placed]:
    """What shares area with a thing that begins at x, each once, the first few."""
    found: dict[str, Placed] = {}
    for band in own:
        active[band][:] = [one for one in active[band] if one.rect.right_nm > x]
        for one in active[band]:
            if one.tag not in found and one.tag != each.tag and overlap_rect(one.rect, each.rect):
                found[one.tag] = one
                if len(found) == MOST_OVERLAPS:
                    return list(found.values())
    return list(found.values())


class Neighbours:
    """The outlines of one wall in order of each edge, to find what a rectangle faces."""

    def __init__(self, things: Sequence[Placed]) -> None:
        self._sorted: dict[Direction, list[tuple[int, Placed]]] = {}
        self._things = things

    def facing(self, rect: Rect, way: Direction) -> Iterator[Placed]:
        """What is seen from one side of a rectangle, straight on and nothing in between, the nearest first."""
        order = self._order(way)
        edge = {"top": rect.top_nm, "bottom": -rect.y_nm, "right": rect.right_nm, "left": -rect.x_nm}[way]
        free = [_across(rect, way)]
        for _, each in order[bisect_left(order, edge, key=lambda pair: pair[0]) :]:
            low, high = _across(each.rect, way)
            if any(low < end and start < high for start, end in free):
                yield each
                free = [piece for start, end in free for piece in ((start, min(end, low)), (max(start, high), end))]
                free = [(start, end) for start, end in free if start < end]
                if not free:
                    return

    def _order(self, way: Direction) -> list[tuple[int, Placed]]:
        if way not in self._sorted:
            near = [(_near_edge(each.rect, way), each) for each in self._things]
            self._sorted[way] = sorted(near, key=lambda pair: pair[0])
        return self._sorted[way]


def _across(rect: Rect, way: Direction) -> tuple[int, int]:
    return (rect.x_nm, rect.right_nm) if way in ("top", "bottom") else (rect.y_nm, rect.top_nm)


def _near_edge(rect: Rect, way: Direction) -> int:
    return {"top": rect.y_nm, "bottom": -rect.top_nm, "right": rect.x_nm, "left": -rect.right_nm}[way]
