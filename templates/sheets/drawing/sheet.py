"""One wall on one sheet of paper, for one trade: to a round scale, dimensioned from one datum, nothing under 7 pt."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

import msgspec

from store.measure.length import MM_NM, Length, show_length
from store.rules.drawing.shapes import Block, Run, Scene, Shape, Spot
from store.trade.measured.plane import Rect
from templates.sheets.drawing import chains
from templates.sheets.drawing.column import SIGN, SIGN_HIGH, legend, stripes
from templates.sheets.drawing.ink import (
    FINE,
    MEDIUM,
    TEXT,
    THIN,
    WIDE,
    line,
    path,
    rect,
    slanted,
    words,
)
from templates.sheets.drawing.paper import Sheet, largest
from templates.sheets.drawing.tags import Area, Point, Tags, near_block, near_run, near_spot, turn
from templates.sheets.drawing.title import bar_step, scale_bar
from templates.sheets.drawing.views import HAND_NM, View, in_band, stops, weight
from templates.sheets.layout.marks import BOX_PX, box_sign

EDGE = 8.0
"""Margin of the sheet, mm: more than printers leave white."""
FOOT = 2 * SIGN_HIGH + 1.0
"""For the scale bar and the signs under the chains, mm."""
BAR = 60.0
"""The longest scale bar, mm."""
CORNER = "corner"
NAME = 4.5
"""For the words above a chain, mm."""


class Chains(msgspec.Struct, frozen=True):
    """The four chains of a drawing."""

    above: tuple[chains.Stop, ...]
    below: tuple[chains.Stop, ...]
    left: tuple[chains.Stop, ...]
    right: tuple[chains.Stop, ...]


def chains_of(scene: Scene, view: View) -> Chains:
    """Above: centers of studs; below and right: edges of openings, panels and build-outs; left: heights of boxes, or of
    framing. Each chain at a side ends at the height that the wall has there."""

    def said(nm: int) -> str:
        return show_length(Length(nm), scene.metric)

    studs = sorted({each.centre[0] for each in scene.shapes if each.layer == "studs" and each.kind == "stud"})
    above = [(at, said(at), "") for at in studs] if view.trade in ("general", "carpenter", "drywall") else []
    boxes = [*stops(scene, view, lambda each: each.layer == "boxes", 0)]
    holes = [*stops(scene, view, lambda each: each.layer in ("openings", "panels"), 0)] or [*_around(scene, 0)]
    holes += _build_outs(scene, view, 0)
    high = [*stops(scene, view, lambda each: each.layer == "boxes", 1)]
    if view.framing:
        level = [each for each in scene.shapes if isinstance(each, Block) and each.layer == "studs" and each.tag]
        high = [(each.y, said(each.y), each.tag) for each in level]
    tall = [*stops(scene, view, lambda each: each.layer in ("openings", "panels"), 1)] or [*_around(scene, 1)]
    tall += _build_outs(scene, view, 1)
    zero, width = (0, "0", ""), (scene.width, said(scene.width), "wall")
    bends, left, right = _outline(scene)
    return Chains(
        chains.merged([zero, *above, width] if above else []),
        chains.merged([zero, *boxes, *holes, *bends, width]),
        chains.merged([zero, *high, *left]),
        chains.merged([zero, *tall, *right]),
    )


Stops = list[tuple[int, str, str]]


def _outline(scene: Scene) -> tuple[Stops, Stops, Stops]:
    """Where floor and ceiling bend or step, across; how high they are there, at the left half and at the right half."""

    def said(nm: int) -> str:
        return show_length(Length(nm), scene.metric)

    if scene.is_square:
        whole = [(scene.height, said(scene.height), "wall")]
        return [], whole, whole
    across: Stops = []
    sides: tuple[Stops, Stops] = ([], [])
    for name, points in (("floor", scene.floor), ("ceiling", scene.ceiling)):
        for x, y in points:
            if 0 < x < scene.width:
                across.append((x, said(x), name))
            if y:
                sides[x * 2 > scene.width].append((y, said(y), name))
    return across, *sides


def _build_outs(scene: Scene, view: View, axis: int) -> Iterator[tuple[int, str, str]]:
    """The edges of the build-outs, for every trade that sees them; of one that a ceiling cuts, every corner.

    One of the wall beside, which stands before the end of this one, has no tag here and is called a corner.
    """
    for each in scene.shapes:
        if isinstance(each, Block) and each.layer == "build-outs" and weight(view, each):
            for at in sorted({corner[axis] for corner in each.corners}):
                yield at, show_length(Length(at), scene.metric) if at else "0", each.tag or CORNER


def _around(scene: Scene, axis: int) -> Iterator[tuple[int, str, str]]:
    """The edges of the openings, for a trade whose own work is none."""
    for each in scene.shapes:
        if isinstance(each, Block) and each.layer == "openings":
            for at in (each.extent[axis], each.extent[axis + 2]):
                yield at, show_length(Length(at), scene.metric), each.tag


class Drawn:
    """A drawing while it is being made: where the wall is on the paper, and how large."""

    def __init__(
        self, scene: Scene, view: View, paper: Sheet, high: float, asked: int | None, sheets: Sequence[Rect] = (),
        said: Callable[[str], str] = str,
    ) -> None:  # fmt: skip
        self.scene, self.view, self.sheets = scene, view, sheets
        self.chains = chains_of(scene, view)
        left, bottom, right, top = scene.extent
        pads = [chains.room(each) for each in (self.chains.left, self.chains.right)]
        over, under = chains.room(self.chains.above), chains.room(self.chains.below)
        self.area: Area = (EDGE, EDGE, paper.wide - EDGE - paper.column - 3, EDGE + high)
        wide = self.area[2] - self.area[0] - pads[0] - pads[1]
        tall = high - over - under - NAME * (2 if self.chains.above else 1) - FOOT
        self.factor = largest(right - left, top - bottom, (wide, tall), scene.metric, asked)
        used = ((right - left) / MM_NM / self.factor, (top - bottom) / MM_NM / self.factor)
        self.x0 = self.area[0] + pads[0] + max(0.0, (wide - used[0]) / 2) - left / MM_NM / self.factor
        self.y0 = self.area[3] - FOOT - under - NAME - max(0.0, (tall - used[1]) / 2) + bottom / MM_NM / self.factor
        self.tags = Tags(self.area)
        self.after_bar = self.area[0] + 4 * bar_step(self.factor, scene.metric, BAR) / MM_NM / self.factor + 12
        self.legend = legend(scene, view, (self.area[2] - self.after_bar, FOOT), said)
        """The signs beside the scale bar; None where they do not go there, and stand in the column."""

    def x(self, nm: int) -> float:
        """Across, mm of paper."""
        return self.x0 + nm / MM_NM / self.factor

    def y(self, nm: int) -> float:
        """Down, mm of paper."""
        return self.y0 - nm / MM_NM / self.factor

    def mm(self, nm: int) -> float:
        """A length on paper."""
        return nm / MM_NM / self.factor

    def whole(self) -> str:
        """Everything but the column and the title block."""
        shown = [(each, weight(self.view, each)) for each in self.scene.shapes]
        parts = []
        studs = [each for each in shown if each[0].layer == "studs" and each[1]]
        # What is on a build-out is drawn over it, whoever's work it is.
        under = [each for each in shown if each[0].layer in ("build-outs", "finishes") and each[1]]
        rest = [each for each in shown if each[0].layer not in ("studs", "build-outs", "finishes") and each[1]]
        parts += [self._shape(each, how == "own") for each, how in studs]
        if self.view.bands:
            parts.append(stripes([self._band(each) for each in self.scene.shapes if in_band(each)]))
        parts += [self._shape(each, how == "own") for each, how in under]
        parts += [
            path([(self.x(x), self.y(y)) for x, y in _around_of(each)], MEDIUM, "5 1 1 1") for each in self.sheets
        ]
        parts += [self._shape(each, how == "own") for each, how in sorted(rest, key=lambda each: each[1])]
        parts.append(self._wall())
        parts += [self._chains(), chains.datum(self.x(0), self.y(0))]
        parts.append(scale_bar(self.area[0] + 2, self.area[3] - 5.5, self.factor, self.scene.metric, BAR))
        if self.legend:
            parts.append(f'<g transform="translate({self.after_bar:.2f} {self.area[3] - FOOT:.2f})">{self.legend}</g>')
        named = sorted((each for each in shown if each[1] and each[0].tag), key=lambda each: turn(each[0]))
        for each, _ in named:
            if isinstance(each, Spot):
                reach = BOX_PX * SIGN + 0.4
                x, y = self.x(each.x), self.y(each.y)
                self.tags.take((x - reach, y - reach, x + reach, y + reach))
        parts += [self._tag(each, how == "own") for each, how in named]
        return "".join(parts)

    # --- shapes ---

    def _wall(self) -> str:
        """The outline of the wall, up to a ceiling that slopes or steps."""
        if self.scene.is_square:
            wide, high = self.mm(self.scene.width), self.mm(self.scene.height)
            return rect(self.x(0), self.y(self.scene.height), wide, high, WIDE)
        return path([(self.x(x), self.y(y)) for x, y in (*self.scene.corners, self.scene.corners[0])], WIDE)

    def _shape(self, shape: Shape, own: bool) -> str:
        if isinstance(shape, Block):
            return self._block(shape, own)
        if isinstance(shape, Spot):
            sign = box_sign(shape.kind, 0, 0, shape.new)
            return f'<g transform="translate({self.x(shape.x):.2f} {self.y(shape.y):.2f}) scale({SIGN})">{sign}</g>'
        points = self._points(shape)
        if shape.layer == "build-outs":
            return path(points, MEDIUM)
        if shape.layer == "raceways":
            return path(points, 1.6) + path(points, 1.1, colour="#fff")
        return path(points, 0.5 if own else THIN, "" if shape.kind == "power" else "2.4 1.2")

    def _points(self, shape: Run) -> list[Point]:
        return [(self.x(x), self.y(y)) for x, y in shape.points]

    def _area(self, shape: Block) -> Area:
        left, bottom, right, top = shape.extent
        return self.x(left), self.y(top), self.x(right), self.y(bottom)

    def _block(self, shape: Block, own: bool) -> str:
        left, top, right, bottom = self._area(shape)
        w, h = right - left, bottom - top
        if shape.layer == "studs":
            crossed = line(left, top, right, bottom, FINE) if shape.kind in ("blocking", "fire block") else ""
            if shape.outline:
                return path(self._around(shape), THIN if self.view.framing else FINE)
            return rect(left, top, w, h, THIN if self.view.framing else FINE, fill="#fff") + crossed
        if shape.layer == "openings":
            cross = line(left, top, right, bottom, FINE) + line(left, bottom, right, top, FINE)
            return rect(left, top, w, h, WIDE if own else MEDIUM, fill="#fff") + cross
        if shape.layer == "panels":
            return rect(left, top, w, h, WIDE if own else MEDIUM, fill="#fff", dash="2 1")
        if shape.layer == "build-outs":
            corners = self._around(shape)
            return path(corners, MEDIUM, "6 1.5") if shape.outline else rect(left, top, w, h, MEDIUM, dash="6 1.5")
        if shape.layer == "finishes":
            return rect(left, top, w, h, THIN, dash="1 1")
        if shape.kind == "furniture":
            return rect(left, top, w, h, THIN, dash="1.5 1")
        if shape.layer == "obstacles":
            return rect(left, top, w, h, THIN, fill="#fff") + slanted(left, top, w, h, 1.6)
        return rect(left, top, w, h, MEDIUM if own else THIN, fill="#fff")

    def _around(self, shape: Block) -> list[Point]:
        """The corners of a block, the first one again at the end."""
        return [(self.x(x), self.y(y)) for x, y in (*shape.corners, shape.corners[0])]

    def _band(self, shape: Shape) -> tuple[list[Point], float]:
        if isinstance(shape, Run):
            return self._points(shape), self.mm(2 * HAND_NM)
        left, bottom, right, top = shape.extent
        middle = self.x((left + right) // 2)
        return [(middle, self.y(top)), (middle, self.y(bottom))], self.mm(right - left + 2 * HAND_NM)

    # --- tags and chains ---

    def _tag(self, shape: Shape, own: bool) -> str:
        at = (self.x(shape.centre[0]), self.y(shape.centre[1]))
        if isinstance(shape, Block):
            return self.tags.put(shape.tag, at, near_block(self._area(shape), shape), own)
        if isinstance(shape, Spot):
            return self.tags.put(shape.tag, at, near_spot(at, BOX_PX * SIGN), own)
        return self.tags.put(shape.tag, at, near_run(self._points(shape)), own)

    def _chains(self) -> str:
        left, bottom, right, top = self.scene.extent
        low, high = self.y(bottom) + 1.5, self.y(top) - 1.5
        limits_x = (self.area[0] + TEXT, self.area[2] - TEXT)
        limits_y = (self.area[1] + TEXT, self.area[3] - FOOT - TEXT)
        parts = []
        if self.chains.above:
            parts.append(self._across(self.chains.above, high, -1, limits_x, "Stud centers from the datum"))
        parts.append(self._across(self.chains.below, low, 1, limits_x, "From the datum: box centers, edges"))
        for stops_, edge, away in (
            (self.chains.left, self.x(left) - 1.5, -1), (self.chains.right, self.x(right) + 1.5, 1),
        ):  # fmt: skip
            places = [self.y(each.at_nm) for each in stops_]
            parts.append(chains.up(stops_, places, edge, away, limits_y))
        return "".join(parts)

    def _across(
        self, row: Sequence[chains.Stop], edge: float, away: int, limits: tuple[float, float], name: str
    ) -> str:
        drawn = chains.across(row, [self.x(each.at_nm) for each in row], edge, away, limits)
        y = edge + away * chains.room(row) + (away * 3.4 if away > 0 else -1.2)
        return drawn + words((self.area[0] + self.area[2]) / 2, y, name, anchor="middle")


def _around_of(one: Rect) -> list[tuple[int, int]]:
    """The corners of a sheet of board, round to the first."""
    low, high = (one.x_nm, one.y_nm), (one.right_nm, one.top_nm)
    return [low, (high[0], low[1]), high, (low[0], high[1]), low]


def placed(scene: Scene) -> bool:
    """Whether there is a wall to draw."""
    return bool(scene.width and scene.height)
