"""The shapes a drawing of a wall is made of, in whole nanometres, and the scene that holds them."""

from __future__ import annotations

from itertools import chain, pairwise
from typing import Literal

import msgspec

from store.rules.wall.places import Point

Extent = tuple[int, int, int, int]
"""Left, bottom, right and top."""
Layer = Literal[
    "finishes",
    "studs",
    "build-outs",
    "obstacles",
    "openings",
    "equipment",
    "panels",
    "raceways",
    "cables",
    "boxes",
    "photos",
]
LAYERS: tuple[Layer, ...] = (
    "finishes", "studs", "build-outs", "obstacles", "openings", "equipment", "panels", "raceways", "cables", "boxes",
    "photos",
)  # fmt: skip
"""The layers in drawing order, the lowest first."""


LINES = ("floor line", "ceiling line")
"""Kinds of the runs that are the floor and the ceiling of a wall where they are more than level."""


class Block(msgspec.Struct, frozen=True):
    """A rectangle on the wall, or a cut through one in a plan."""

    tag: str
    """Empty for a part that is no record of its own, like a stud."""
    layer: Layer
    kind: str
    label: str
    x: int
    y: int
    width: int
    height: int
    outline: tuple[Point, ...] = ()
    """Its corners where it is no rectangle, such as a build-out under a ceiling that slopes; else empty."""

    @property
    def corners(self) -> tuple[Point, ...]:
        """Its corners in turn."""
        left, bottom, right, top = self.extent
        return self.outline or ((left, bottom), (right, bottom), (right, top), (left, top))

    @property
    def centre(self) -> Point:
        """Its middle."""
        return self.x + self.width // 2, self.y + self.height // 2

    @property
    def extent(self) -> Extent:
        """Left, bottom, right and top."""
        return self.x, self.y, self.x + self.width, self.y + self.height


class Spot(msgspec.Struct, frozen=True):
    """A box by its centre, or the mark of a photo."""

    tag: str
    layer: Layer
    kind: str
    label: str
    x: int
    y: int
    new: bool = True
    """False for one that was there before."""

    @property
    def centre(self) -> Point:
        """Its place."""
        return self.x, self.y

    @property
    def extent(self) -> Extent:
        """Left, bottom, right and top: all at its centre."""
        return self.x, self.y, self.x, self.y


class Run(msgspec.Struct, frozen=True):
    """A cable or a raceway: a line through places."""

    tag: str
    layer: Layer
    kind: str
    label: str
    points: tuple[Point, ...]

    @property
    def centre(self) -> Point:
        """The place half-way along it."""
        lengths = [abs(b[0] - a[0]) + abs(b[1] - a[1]) for a, b in pairwise(self.points)]
        rest = sum(lengths) // 2
        for length, (a, b) in zip(lengths, pairwise(self.points), strict=True):
            if rest <= length and length:
                return a[0] + (b[0] - a[0]) * rest // length, a[1] + (b[1] - a[1]) * rest // length
            rest -= length
        return self.points[0]

    @property
    def extent(self) -> Extent:
        """Left, bottom, right and top."""
        across, up = zip(*self.points, strict=True)
        return min(across), min(up), max(across), max(up)


Shape = Block | Spot | Run


class Unplaced(msgspec.Struct, frozen=True):
    """Something that is left out of the drawing, and what it lacks."""

    tag: str
    label: str
    why: str


class Scene(msgspec.Struct, frozen=True):
    """Everything a drawing of one wall needs."""

    wall: str
    name: str
    width: int
    """Of the wall: the least of its readings governs."""
    height: int
    """Of the wall; in a plan, its depth. In a section the width is the depth."""
    shapes: tuple[Shape, ...]
    """In drawing order."""
    unplaced: tuple[Unplaced, ...] = ()
    remarks: tuple[str, ...] = ()
    """What was taken for granted, in sentences."""
    view: Literal["elevation", "plan", "section"] = "elevation"
    metric: bool = False

    @property
    def extent(self) -> Extent:
        """Left, bottom, right and top of all that is drawn, the wall itself included."""
        # Of the runs, which are many, the points are looked at all at once; an extent is two places.
        points = chain.from_iterable(shape.points for shape in self.shapes if isinstance(shape, Run))
        blocks = (shape.extent for shape in self.shapes if isinstance(shape, Block))
        places = [0, 0, self.width, self.height, *chain.from_iterable(points), *chain.from_iterable(blocks)]
        spots = [shape for shape in self.shapes if isinstance(shape, Spot)]
        across, up = places[::2] + [each.x for each in spots], places[1::2] + [each.y for each in spots]
        return min(across), min(up), max(across), max(up)

    @property
    def floor(self) -> tuple[Point, ...]:
        """The corners of the floor, from the left."""
        return self._line(LINES[0], 0)

    @property
    def ceiling(self) -> tuple[Point, ...]:
        """The corners of the ceiling, from the left; where it steps, two at one place."""
        return self._line(LINES[1], self.height)

    def _line(self, kind: str, level: int) -> tuple[Point, ...]:
        found = (each.points for each in self.shapes if isinstance(each, Run) and not each.tag and each.kind == kind)
        return next(found, ((0, level), (self.width, level)))

    @property
    def corners(self) -> tuple[Point, ...]:
        """The outline of the wall from its lower left corner round: along its floor and its ceiling as they are."""
        return (*self.floor, *reversed(self.ceiling))

    @property
    def is_square(self) -> bool:
        """True where floor and ceiling are level."""
        return not any(isinstance(each, Run) and each.kind in LINES for each in self.shapes)

    def get(self, tag: str) -> Shape | None:
        """The shape of a tag, or None."""
        return next((shape for shape in self.shapes if shape.tag == tag), None) if tag else None
