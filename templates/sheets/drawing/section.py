"""Sections through a wall where depth matters: upright cuts seen from the side, the room at the left, side by side.

A cut goes through every opening that it meets, so few cuts show all depths. Behind the face stand the board, the studs,
the openings as deep as they are, and in them the equipment with what is left behind it for plugs and air.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import msgspec

from store.measure.length import MM_NM, Length, show_length, show_size
from store.records.wall import Opening
from store.records.whole import Job
from store.rules.core.wording import local
from store.rules.drawing.cuts import section
from store.rules.drawing.shapes import Block, Run, Scene, Shape
from store.rules.wall.layout import in_opening
from store.rules.wall.places import Rect, rect_of
from templates.sheets.drawing import chains
from templates.sheets.drawing.column import Row, entry_row, head, text_rows
from templates.sheets.drawing.ink import MEDIUM, TEXT, THIN, WIDE, line, rect, slanted, words
from templates.sheets.drawing.paper import largest
from templates.sheets.drawing.views import Entry

BEYOND_NM = 150 * MM_NM
"""The floor is drawn so far into the room."""
TITLE = 2 * TEXT * 1.32
LEFT, RIGHT = 30.0, 6.0
"""Room for the texts of a cut, mm."""
CHAINED = ("openings", "build-outs", "finishes")
"""Layers whose edges are on the chains."""
BACK = {"board": "finish", "stud": "back of studs"}


class Cut(msgspec.Struct, frozen=True):
    """An upright cut at a place along the wall, through these openings."""

    at_nm: int
    openings: tuple[tuple[str, Rect, int], ...]
    """Tag, place and depth."""

    @property
    def deepest(self) -> int:
        """Depth of the deepest opening."""
        return max(depth for _, _, depth in self.openings)


def cuts(job: Job, wall: str) -> list[Cut]:
    """As few cuts as meet every opening with a depth, from the left."""
    found = [
        (tag, around, one.depth.nm)
        for tag, one in job.of(Opening).items()
        if one.wall == wall and one.depth is not None and one.depth.nm > 0 and (around := rect_of(one)) is not None
    ]
    made, left = [], sorted(found, key=lambda each: each[1].x + each[1].width)
    while left:
        at = min(each[1].x + each[1].width for each in left)
        mine = [each for each in left if each[1].x < at]
        low = max(each[1].x for each in mine)
        made.append(Cut((low + at) // 2, tuple(sorted(mine, key=lambda each: each[1].y))))
        left = [each for each in left if each not in mine]
    return made


def drawn(job: Job, scene: Scene, room: tuple[float, float], asked: int | None) -> tuple[list[str], int]:
    """The cuts of a wall, dealt to pages of a room (mm), from the upper left; and the factor of their scale."""
    seen = [(each, _clipped(section(job, scene.wall, each.at_nm), scene.height)) for each in cuts(job, scene.wall)]
    if not seen:
        return [], 1
    under = max(chains.room(_depths(each)) for _, each in seen) + 3
    deepest = max(each.extent[2] - each.extent[0] for _, each in seen) + BEYOND_NM
    widest = room[0] / min(len(seen), 3) - LEFT - RIGHT
    tallest = max(each.extent[3] - each.extent[1] for _, each in seen)
    factor = largest(deepest, tallest, (max(widest, 12.0), room[1] - TITLE - under), scene.metric, asked)
    pages, x, body = [], 0.0, ""
    for cut, each in seen:
        left, _, right, _ = each.extent
        wide = LEFT + RIGHT + (right - left + BEYOND_NM) / MM_NM / factor
        if x and x + wide > room[0]:
            pages.append(body)
            x, body = 0.0, ""
        body += _Drawn(each, cut, factor, (x + LEFT, room[1] - under)).whole()
        x += wide
    return [*pages, body], factor


def _clipped(cut: Scene, high: int) -> Scene:
    """A cut no higher than the wall is drawn from the front: where its height was not read, that is as far as things
    reach."""
    shapes: list[Shape] = []
    for each in cut.shapes:
        if isinstance(each, Block):
            shapes.append(msgspec.structs.replace(each, height=max(0, min(each.y + each.height, high) - each.y)))
        elif isinstance(each, Run):
            points = tuple((x, min(y, high)) for x, y in each.points)
            shapes.append(msgspec.structs.replace(each, points=points))
    return msgspec.structs.replace(cut, shapes=tuple(shapes), height=min(cut.height, high))


def _depths(cut: Scene) -> tuple[chains.Stop, ...]:
    """The stops of the chain under a cut: depths from the finished face, and what stands out in front of it."""
    blocks = [each for each in cut.shapes if isinstance(each, Block)]
    found = [(0, "0", "face")]
    for each in blocks:
        if each.layer == "studs" and each.kind in BACK:
            found.append((each.extent[2], show_size(Length(each.extent[2]), cut.metric), BACK[each.kind]))
    for each in blocks:
        if each.layer in CHAINED:
            for nm in (each.extent[0], each.extent[2]):
                front = " in front" if nm < 0 else ""
                found += [(nm, f"{show_size(Length(abs(nm)), cut.metric)}{front}", each.tag)] if nm else []
    return chains.merged(dict.fromkeys(found))


class _Drawn:
    """One cut on paper; `corner` is the foot of what stands out farthest into the room."""

    def __init__(self, scene: Scene, cut: Cut, factor: int, corner: tuple[float, float]) -> None:
        self.scene, self.cut, self.factor = scene, cut, factor
        self.face = corner[0] + (BEYOND_NM - scene.extent[0]) / MM_NM / factor
        self.floor = corner[1]
        self.left = corner[0]

    def x(self, nm: int) -> float:
        return self.face + nm / MM_NM / self.factor

    def y(self, nm: int) -> float:
        return self.floor - nm / MM_NM / self.factor

    def whole(self) -> str:
        shapes = list(self.scene.shapes)
        blocks = [each for each in shapes if isinstance(each, Block)]
        parts = [self._block(each) for each in blocks]
        for each in shapes:
            if isinstance(each, Run):  # floor and ceiling; into the room, so that one sees where it is
                y = self.y(each.points[0][1])
                parts.append(line(self.left, y, self.x(each.points[-1][0]), y, MEDIUM))
        parts += [self._named(each) for each in blocks if each.tag]
        return "".join([*parts, *self._chains()])

    def _block(self, shape: Block) -> str:
        left, bottom, right, top = shape.extent
        x, y, w, h = self.x(left), self.y(top), self.x(right) - self.x(left), self.y(bottom) - self.y(top)
        if shape.layer == "studs":
            return rect(x, y, w, h, THIN, fill="#fff") + (slanted(x, y, w, h, 1.4) if shape.kind == "board" else "")
        if shape.layer == "equipment":
            return rect(x, y, w, h, THIN, fill="#ddd")
        return rect(x, y, w, h, WIDE if shape.layer == "openings" else MEDIUM, fill="#fff")

    def _named(self, shape: Block) -> str:
        left, bottom, right, top = shape.extent
        if shape.layer == "equipment":
            return words(self.x(left) + 0.6, self.y(bottom) - 0.8, shape.tag, halo=True)
        middle = self.y((bottom + top) // 2) + TEXT * 0.35
        return words(self.x(right) - 0.8, middle, shape.tag, anchor="end", bold=True, halo=True)

    def _chains(self) -> Iterator[str]:
        metric = self.scene.metric
        holes = [each for each in self.scene.shapes if isinstance(each, Block) and each.layer in CHAINED]
        edges = [(nm, show_length(Length(nm), metric), each.tag)
                 for each in holes for nm in (each.extent[1], each.extent[3])]  # fmt: skip
        whole = (self.scene.height, show_length(Length(self.scene.height), metric), "wall")
        high = chains.merged([(0, "0", ""), *edges, whole])
        top = self.y(self.scene.height)
        yield chains.up(high, [self.y(each.at_nm) for each in high], self.left - 0.5, -1, (top - 2, self.floor + 2))
        low = _depths(self.scene)
        right = self.x(self.scene.extent[2])
        xs = [self.x(each.at_nm) for each in low]
        yield chains.across(low, xs, self.floor + 1, 1, (self.left - 4, right + 12))
        title = f"Cut {show_length(Length(self.cut.at_nm), metric)} from left"
        yield words(self.left - 6, top - 3.5, title, bold=True)


def rows(job: Job, scene: Scene, room: float) -> Iterator[Row]:
    """The column beside the cuts: each opening with its depth, and what stands in it with what is left behind."""
    yield head(f"Section: {scene.wall}, from the side")
    for note in (
        "The room is at the left, depths are from the finished face.",
        "Equipment is drawn as far back as its clearance behind allows. Plugs and bends of cable need room behind too.",
    ):
        yield from text_rows(local(job, note), room)
    yield head("Depths")
    for cut in cuts(job, scene.wall):
        for tag, _, depth in cut.openings:
            yield entry_row(Entry(tag, job.of(Opening)[tag].name, tuple(_lines(job, scene, tag, depth))), room)


def _lines(job: Job, scene: Scene, tag: str, depth: int) -> Sequence[str]:
    said = [f"{show_size(Length(depth), scene.metric)} deep"]
    for one in in_opening(job).get(tag, ()):
        if one.depth is not None:
            left = depth - one.depth.nm
            over = f"{show_size(Length(abs(left)), scene.metric)} {'left' if left >= 0 else 'TOO DEEP'}"
            said.append(f"{one.tag} {one.name}: {show_size(one.depth, scene.metric)} deep, {over}")
    return said
