"""Tags on a drawing: each where there is room, with a line to its thing where that is not beside it. None is lost."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from store.rules.drawing.shapes import Block, Shape
from templates.sheets.drawing.ink import TEXT, THIN, line, wide, words

Area = tuple[float, float, float, float]
"""Left, top, right, bottom, mm of paper."""
Point = tuple[float, float]


SQUARE_MM = 8.0
CROWDED = 30
"""After so many tags that found no free place, none is looked for farther out: of thousands few find one."""


class Tags:
    """Places tags within an area."""

    def __init__(self, within: Area) -> None:
        self._within = within
        self._taken: dict[tuple[int, int], list[Area]] = {}
        """What is taken, by the squares of paper that it lies in: a tag is held against its surroundings alone."""
        self._failed = 0

    def take(self, area: Area) -> None:
        """Keep an area free."""
        for square in _squares(area):
            self._taken.setdefault(square, []).append(area)

    def put(self, tag: str, at: Point, near: Iterator[Point], bold: bool) -> str:
        """The tag with its middle at the first free place of those near, or farther out with a line to its thing.

        Where all is taken it is put at its thing all the same: a tag that overlaps is read, one that is missing is not.
        """
        w, h = wide(tag, bold=bold) + 0.4, TEXT * 1.1
        for place in near:
            if self._free(place, w, h):
                return self._at(tag, place, w, h, bold)
        for place in _farther(at) if self._failed <= CROWDED else ():
            if self._free(place, w, h):
                x, y = place
                edge = (min(max(at[0], x - w / 2), x + w / 2), min(max(at[1], y - h / 2), y + h / 2))
                return line(*at, *edge, THIN) + self._at(tag, place, w, h, bold)
        self._failed += 1
        return self._at(tag, at, w, h, bold)

    def _at(self, tag: str, place: Point, w: float, h: float, bold: bool) -> str:
        x, y = place
        self.take((x - w / 2, y - h / 2, x + w / 2, y + h / 2))
        return words(x, y + TEXT * 0.36, tag, anchor="middle", bold=bold, halo=True)

    def _free(self, place: Point, w: float, h: float) -> bool:
        x, y = place
        area = (x - w / 2, y - h / 2, x + w / 2, y + h / 2)
        left, top, right, bottom = self._within
        if area[0] < left or area[1] < top or area[2] > right or area[3] > bottom:
            return False
        first, last = int(area[1] // SQUARE_MM), int(area[3] // SQUARE_MM)
        for across in range(int(area[0] // SQUARE_MM), int(area[2] // SQUARE_MM) + 1):
            for down in range(first, last + 1):
                for each in self._taken.get((across, down), ()):
                    if area[0] < each[2] and each[0] < area[2] and area[1] < each[3] and each[1] < area[3]:
                        return False
        return True


def _squares(area: Area) -> list[tuple[int, int]]:
    left, top, right, bottom = (int(each // SQUARE_MM) for each in area)
    return [(across, down) for across in range(left, right + 1) for down in range(top, bottom + 1)]


def _farther(at: Point) -> Iterator[Point]:
    """Places round a point, the nearest rings first."""
    ways = ((1, 0), (-1, 0), (0, -1), (0, 1), (0.7, -0.7), (-0.7, -0.7), (0.7, 0.7), (-0.7, 0.7), (0.9, -0.4),
            (-0.9, -0.4), (0.9, 0.4), (-0.9, 0.4))  # fmt: skip
    for ring in range(2, 24):
        yield from ((at[0] + dx * ring * 3.0, at[1] + dy * ring * 3.0) for dx, dy in ways)


def near_block(area: Area, shape: Block) -> Iterator[Point]:
    """Inside a rectangle: an opening's tag in a corner, that of other things in the middle."""
    left, top, right, bottom = area
    middle = ((left + right) / 2, (top + bottom) / 2)
    corners = [
        (left + 4.5, top + 2.4), (right - 4.5, top + 2.4), (left + 4.5, bottom - 2.4), (right - 4.5, bottom - 2.4),
    ]  # fmt: skip
    inside = [each for each in corners if left < each[0] < right and top < each[1] < bottom]
    fits = right - left > 6 and bottom - top > 3
    places = [*inside, middle] if shape.layer == "openings" else [middle, *inside]
    yield from places if fits else []
    yield from ((middle[0], top - 2.2), (middle[0], bottom + 2.2), (right + 4.5, middle[1]), (left - 4.5, middle[1]))


def near_spot(at: Point, reach: float) -> Iterator[Point]:
    """Beside a sign."""
    x, y = at
    side, over = reach + 3.4, reach + 1.8
    yield from ((x + side, y), (x - side, y), (x, y - over), (x, y + over))
    yield from ((x + side, y - over), (x - side, y - over), (x + side, y + over), (x - side, y + over))


def near_run(points: list[Point]) -> Iterator[Point]:
    """On a line, in the middle of its longest parts first."""
    parts = sorted(pairwise(points), key=lambda each: -(abs(each[0][0] - each[1][0]) + abs(each[0][1] - each[1][1])))
    for share in (0.5, 0.3, 0.7, 0.15, 0.85):
        for a, b in parts:
            yield a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share


def turn(shape: Shape) -> int:
    """Whose tag is placed first: what has few good places."""
    layers = ("boxes", "photos", "panels", "equipment", "openings", "obstacles", "raceways", "cables")
    return layers.index(shape.layer) if shape.layer in layers else len(layers)
