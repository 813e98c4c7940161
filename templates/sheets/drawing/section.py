"""Sections through a wall where depth matters: upright cuts seen from the side, the room at the left, side by side.

A cut goes through every opening that it meets, so few cuts show all depths. Behind the face stand the board, the studs,
the openings as deep as they are, and in them the equipment with what is left behind it for plugs and air.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import msgspec

from store.measure.length import MM_NM, Length, show_length, show_size
from store.records.equipment import Equipment
from store.records.wall import Opening, Wall
from store.records.whole import Job
from store.rules.drawing.shapes import Scene
from store.rules.wall.layout import in_opening
from store.rules.wall.places import Rect, equipment_rect, rect_of
from templates.sheets.drawing import chains
from templates.sheets.drawing.column import Row, entry_row, head, text_rows
from templates.sheets.drawing.ink import MEDIUM, TEXT, THIN, WIDE, line, rect, slanted, words
from templates.sheets.drawing.paper import largest
from templates.sheets.drawing.views import Entry

BEYOND_NM = 150 * MM_NM
"""The floor is drawn so far into the room."""
TITLE = 2 * TEXT * 1.32
LEFT, RIGHT, UNDER = 30.0, 4.0, 34.0
"""Room for the texts of a cut, mm."""


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
    found, wall = cuts(job, scene.wall), job.of(Wall)[scene.wall]
    back = job.settings.finish.nm + wall.stud_depth.nm
    deepest = max((max(each.deepest, back) for each in found), default=0) + BEYOND_NM
    widest = room[0] / min(len(found), 3) - LEFT - RIGHT if found else room[0]
    factor = largest(deepest, scene.height, (max(widest, 12.0), room[1] - TITLE - UNDER), scene.metric, asked)
    pages, x, body = [], 0.0, ""
    for each in found:
        wide = LEFT + RIGHT + (max(each.deepest, back) + BEYOND_NM) / MM_NM / factor
        if x and x + wide > room[0]:
            pages.append(body)
            x, body = 0.0, ""
        body += _Drawn(job, scene, wall, each, factor, (x + LEFT, room[1] - UNDER)).whole()
        x += wide
    return ([*pages, body] if body else pages), factor


class _Drawn:
    """One cut on paper; `corner` is the foot of the finished face."""

    def __init__(self, job: Job, scene: Scene, wall: Wall, cut: Cut, factor: int, corner: tuple[float, float]) -> None:
        self.job, self.scene, self.cut, self.factor = job, scene, cut, factor
        self.face = corner[0] + self.mm(BEYOND_NM)
        self.floor = corner[1]
        self.board = job.settings.finish.nm
        self.back = self.board + wall.stud_depth.nm

    def mm(self, nm: int) -> float:
        return nm / MM_NM / self.factor

    def box(self, low: int, high: int, front: int, behind: int, width: float, fill: str = "#fff") -> str:
        """A rectangle by its heights and its depths behind the face."""
        return rect(self.face + self.mm(front), self.floor - self.mm(high), self.mm(behind - front),
                    self.mm(high - low), width, fill=fill)  # fmt: skip

    def whole(self) -> str:
        top, end = self.floor - self.mm(self.scene.height), self.face + self.mm(max(self.cut.deepest, self.back))
        parts = [self.box(0, self.scene.height, self.board, self.back, THIN)]
        parts.append(self.box(0, self.scene.height, 0, self.board, THIN))
        parts.append(slanted(self.face, top, self.mm(self.board), self.floor - top, 1.4))
        for tag, around, depth in self.cut.openings:
            parts.append(self.box(around.y, around.top, 0, depth, WIDE))
            parts += self._inside(tag, depth)
        for y in (self.floor, top):
            parts.append(line(self.face - self.mm(BEYOND_NM), y, end, y, MEDIUM))
        for tag, around, depth in self.cut.openings:
            middle = self.floor - self.mm((around.y + around.top) // 2)
            parts.append(words(self.face + self.mm(depth) - 0.8, middle + TEXT * 0.35, tag, anchor="end", bold=True,
                               halo=True))  # fmt: skip
        return "".join([*parts, *self._chains()])

    def _inside(self, opening: str, depth: int) -> Iterator[str]:
        for one in in_opening(self.job).get(opening, ()):
            around = equipment_rect(self.job, one)
            if around is None or one.depth is None:
                continue
            front = standing(one, depth)
            yield self.box(around.y, around.top, front, front + one.depth.nm, THIN, "#ddd")
            yield words(self.face + self.mm(front) + 0.6, self.floor - self.mm(around.y) - 0.8, one.tag, halo=True)

    def _chains(self) -> Iterator[str]:
        def said(nm: int) -> str:
            return show_length(Length(nm), self.scene.metric)

        edges = [(nm, said(nm), tag) for tag, around, _ in self.cut.openings for nm in (around.y, around.top)]
        high = chains.merged([(0, "0", ""), *edges, (self.scene.height, said(self.scene.height), "wall")])
        ys = [self.floor - self.mm(each.at_nm) for each in high]
        left = self.face - self.mm(BEYOND_NM) - 0.5
        yield chains.up(high, ys, left, -1, (self.floor - self.mm(self.scene.height) - 2, self.floor + 2))
        depths = [(depth, show_size(Length(depth), self.scene.metric), tag) for tag, _, depth in self.cut.openings]
        board = show_size(Length(self.board), self.scene.metric)
        stops = [(0, "0", "face"), (self.board, board, "finish"), (self.back, show_size(Length(self.back),
                 self.scene.metric), "back of studs"), *depths]  # fmt: skip
        low = chains.merged(stops)
        xs = [self.face + self.mm(each.at_nm) for each in low]
        yield chains.across(
            low, xs, self.floor + 1, 1, (left, self.face + self.mm(max(self.cut.deepest, self.back)) + 9)
        )
        title = f"Cut {said(self.cut.at_nm)} from left"
        yield words(left - 6, self.floor - self.mm(self.scene.height) - 3.5, title, bold=True)


def standing(one: Equipment, depth: int) -> int:
    """How far behind the face the front of a device stands: against the back of its opening, less what it must keep."""
    own = one.depth.nm if one.depth is not None else 0
    return depth - (one.clear_back.nm if one.clear_back is not None else 0) - own


def rows(job: Job, scene: Scene, room: float) -> Iterator[Row]:
    """The column beside the cuts: each opening with its depth, and what stands in it with what is left behind."""
    yield head(f"Section: {scene.wall}, from the side")
    for note in (
        "The room is at the left, depths are from the finished face.",
        "Equipment stands as deep as its clearance behind lets it. Plugs and bends of cable need room behind too.",
    ):
        yield from text_rows(note, room)
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
