"""Sections through a wall where depth matters: upright cuts seen from the side, the room at the left, side by side.

A cut goes through every opening that it meets, so few cuts show all depths. Behind the face stand the board, the studs,
the openings as deep as they are, and in them the equipment with what is left behind it for plugs and air.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

import msgspec

from store.measure.length import MM_NM, Length, show_length, show_size
from store.records.wall import Opening
from store.records.whole import Job
from store.rules.core.wording import local
from store.rules.drawing.cut_runs import WIRING, bundles, told
from store.rules.drawing.cuts import section
from store.rules.drawing.shapes import Block, Run, Scene, Shape, Spot
from store.rules.wall.layout import in_opening
from store.rules.wall.places import Rect, rect_of
from templates.sheets.drawing import chains
from templates.sheets.drawing.column import SIGN, Row, entry_row, head, text_rows
from templates.sheets.drawing.ink import FINE, MEDIUM, TEXT, THIN, WIDE, line, path, rect, slanted, wide, words
from templates.sheets.drawing.paper import largest
from templates.sheets.drawing.views import Entry, View, weight
from templates.sheets.layout.cut_marks import Passing, run_mark, tag_wordings, together
from templates.sheets.layout.marks import box_sign

BEYOND_NM = 150 * MM_NM
"""The floor is drawn so far into the room."""
TITLE = 2 * TEXT * 1.32
LEFT, RIGHT = 30.0, 6.0
"""Room for the texts of a cut, mm."""
CHAINED = ("openings", "build-outs", "finishes")
"""Layers whose edges are on the chains."""
NARROW = 25.0
"""Three cuts go beside one another on a page where each has so many mm for what is drawn, else two."""
MARK, GAP = 0.9, 2.4
"""Radius of a raceway that passes through a cut, and what is left beside its tags, mm."""
APART = 30.0, 2.4
"""Marks farther apart than this, across or up, are named apart, mm."""
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


def drawn(job: Job, scene: Scene, view: View, room: tuple[float, float], asked: int | None) -> tuple[list[str], int]:
    """The cuts of a wall, dealt to pages of a room (mm), from the upper left; and the factor of their scale.

    Cables, raceways and boxes are on them for a trade whose drawing has them.
    """
    seen = [(each, _clipped(_seen_by(view, section(job, scene.wall, each.at_nm)), scene.height))
            for each in cuts(job, scene.wall)]  # fmt: skip
    if not seen:
        return [], 1
    under = max(chains.room(_depths(each)) for _, each in seen) + 3
    deepest = max(each.extent[2] - each.extent[0] for _, each in seen) + BEYOND_NM
    tags = max(_tags_wide(each) for _, each in seen)
    beside = [room[0] / count - LEFT - RIGHT - tags for count in (min(len(seen), 3), min(len(seen), 2))]
    widest = beside[0] if beside[0] >= NARROW else beside[1]
    tallest = max(each.extent[3] - each.extent[1] for _, each in seen)
    factor = largest(deepest, tallest, (max(widest, 12.0), room[1] - TITLE - under), scene.metric, asked)
    pages, x, body = [], 0.0, ""
    for cut, each in seen:
        one = _Drawn(each, cut, factor, (x + LEFT, room[1] - under))
        across = one.ends + RIGHT - x
        if x and x + across > room[0]:
            pages.append(body)
            x, body = 0.0, ""
            one = _Drawn(each, cut, factor, (LEFT, room[1] - under))
        body += one.whole()
        x += across
    return [*pages, body], factor


def _seen_by(view: View, cut: Scene) -> Scene:
    """A cut without the wiring that the drawing of a trade does not have."""
    kept = (each for each in cut.shapes if each.layer not in (*WIRING, "boxes") or weight(view, each))
    return msgspec.structs.replace(cut, shapes=tuple(kept))


def _tags_wide(cut: Scene) -> float:
    """Room for the tags of runs behind a wall, mm, as they are bundled by height."""
    spots = [each for each in cut.shapes if isinstance(each, Spot) and each.layer in WIRING]
    found = [next(tag_wordings([each.tag for each in group])) for group in bundles(spots)]
    return max((wide(each) + GAP for each in found), default=0.0)


def _clipped(cut: Scene, high: int) -> Scene:
    """A cut no higher than the wall is drawn from the front: where its height was not read, that is as far as things
    reach."""
    shapes: list[Shape] = []
    for each in cut.shapes:
        if isinstance(each, Block):
            shapes.append(msgspec.structs.replace(each, height=max(0, min(each.y + each.height, high) - each.y)))
        elif isinstance(each, Run):
            points = tuple((x, max(0, min(y, high)) if each.layer in WIRING else min(y, high)) for x, y in each.points)
            shapes.append(msgspec.structs.replace(each, points=points))
        elif 0 <= each.y <= high:  # what runs over the ceiling or under the floor is told beside the drawing
            shapes.append(each)
    return msgspec.structs.replace(cut, shapes=tuple(shapes), height=min(cut.height, high))


def _depths(cut: Scene) -> tuple[chains.Stop, ...]:
    """The stops of the chain under a cut: depths from the finished face, and what stands out in front of it."""
    blocks = [each for each in cut.shapes if isinstance(each, Block)]
    found = [(0, "0", "face")]
    for each in blocks:
        if each.layer == "studs" and each.kind in BACK and each.extent[2] > 0:
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
        self.title = f"Cut {show_length(Length(cut.at_nm), scene.metric)} from left"
        spots = [each for each in scene.shapes if isinstance(each, Spot) and each.layer in WIRING]
        self.bundles = together([(self.x(each.x), self.y(each.y), each) for each in spots], APART)
        behind = (wide(next(tag_wordings([one.tag for _, _, one in each]))) + GAP for each in self.bundles)
        self.lying = [each for each in scene.shapes if isinstance(each, Run) and each.layer in WIRING]
        self.right = self.x(max((each.extent[2] for each in scene.shapes), default=0))
        """Where what is drawn ends behind the wall; the tags of runs come after it."""
        said = max([0.0, *behind, *(wide(each.tag) + GAP for each in self.lying)])
        self.ends = max(self.right + said, self.left - 6 + wide(self.title, bold=True) - RIGHT)

    def x(self, nm: int) -> float:
        return self.face + nm / MM_NM / self.factor

    def y(self, nm: int) -> float:
        return self.floor - nm / MM_NM / self.factor

    def whole(self) -> str:
        shapes = list(self.scene.shapes)
        blocks = [each for each in shapes if isinstance(each, Block)]
        parts = [self._block(each) for each in blocks]
        for each in shapes:
            if isinstance(each, Run) and each.layer not in WIRING:
                # Floor and ceiling; into the room, so that one sees where it is.
                y = self.y(each.points[0][1])
                parts.append(line(self.left, y, self.x(each.points[-1][0]), y, MEDIUM))
        parts += self._names([each for each in blocks if each.tag])
        parts += self._runs()
        for each in shapes:
            if isinstance(each, Spot) and each.layer == "boxes":
                at = f"translate({self.x(each.x):.2f} {self.y(each.y):.2f}) scale({SIGN})"
                parts.append(f'<g transform="{at}">{box_sign(each.kind, 0, 0, each.new)}</g>')
                parts.append(words(self.x(each.x) - 2.2, self.y(each.y) + 0.9, each.tag, anchor="end", halo=True))
        return "".join([*parts, *(self._bundle(each) for each in self.bundles), *self._chains()])

    def _runs(self) -> Iterator[str]:
        """The runs that lie in the cut, each with its tag behind the wall, where no other tag is."""
        taken = [bundle[0][1] for bundle in self.bundles]
        for run in self.lying:
            dash = "" if run.kind == "power" or run.layer == "raceways" else "1.6 0.8"
            points = [(self.x(x), self.y(y)) for x, y in run.points]
            yield path(points, WIDE if run.layer == "raceways" else MEDIUM, dash)
            (x, y), (to_x, to_y) = max(pairwise(points), key=lambda ends: abs(ends[1][1] - ends[0][1]))
            places = [(x + (to_x - x) * part / 8, y + (to_y - y) * part / 8) for part in (4, 2, 6, 1, 7, 3, 5)]
            at = next((each for each in places if all(abs(each[1] - one) > TEXT for one in taken)), places[0])
            taken.append(at[1])
            yield self._tagged(*at, run.tag)

    def _tagged(self, x: float, y: float, text: str) -> str:
        """A text behind the wall, with a line to what it names."""
        right = self.right + 1
        return line(x, y, right, y, FINE) + words(right + 0.6, y + TEXT * 0.35, text, halo=True)

    def _bundle(self, bundle: Sequence[Passing]) -> str:
        """Runs that pass through the cut close to one another, their tags behind the wall."""
        marks = "".join(run_mark(x, y, raceway=one.layer == "raceways", radius=MARK, wide=MEDIUM)
                        for x, y, one in bundle)  # fmt: skip
        text = next(tag_wordings([one.tag for _, _, one in bundle]))
        return self._tagged(max(x for x, _, _ in bundle) + MARK, bundle[0][1], text) + marks

    def _block(self, shape: Block) -> str:
        left, bottom, right, top = shape.extent
        x, y, w, h = self.x(left), self.y(top), self.x(right) - self.x(left), self.y(bottom) - self.y(top)
        if shape.layer == "studs":
            return rect(x, y, w, h, THIN, fill="#fff") + (slanted(x, y, w, h, 1.4) if shape.kind == "board" else "")
        if shape.layer == "equipment":
            return rect(x, y, w, h, THIN, fill="#ddd")
        return rect(x, y, w, h, WIDE if shape.layer == "openings" else MEDIUM, fill="#fff")

    def _names(self, blocks: Sequence[Block]) -> Iterator[str]:
        """The tag of each block within it: at its middle, else higher or lower, else not a second time, since the
        chain at the left has it too."""
        taken: list[tuple[float, float, float]] = []
        for shape in sorted(blocks, key=lambda each: each.layer == "openings"):
            left, bottom, right, top = shape.extent
            bold, size = shape.layer != "equipment", wide(shape.tag, bold=shape.layer != "equipment")
            x = self.x(left) + 0.6 if not bold else self.x(right) - 0.8 - size
            low, high = self.y(bottom) - 0.8, self.y(top) + TEXT
            middle = (low + high) / 2
            places = (middle, high, low) if bold else (low, high, middle)
            free = (y for y in places if not any(a - size < x < b and abs(y - at) < TEXT for a, b, at in taken))
            y = next(free, None)
            if y is None and shape.layer in CHAINED:
                continue
            y = low if y is None else y
            taken.append((x, x + size, y))
            yield words(x, y, shape.tag, bold=bold, halo=True)

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
        yield words(self.left - 6, top - 3.5, self.title, bold=True)


def rows(job: Job, scene: Scene, view: View, room: float) -> Iterator[Row]:
    """The column beside the cuts: each opening with its depth, and what stands in it with what is left behind."""
    yield head(f"Section: {scene.wall}, from the side", room)
    for note in (
        "The room is at the left, depths are from the finished face.",
        "Equipment is drawn as far back as its clearance behind allows. Plugs and bends of cable need room behind too.",
    ):
        yield from text_rows(local(job, note), room)
    yield head("Depths")
    made = cuts(job, scene.wall)
    for cut in made:
        for tag, _, depth in cut.openings:
            yield entry_row(Entry(tag, job.of(Opening)[tag].name, tuple(_lines(job, scene, tag, depth))), room)
    runs = [text for cut in made if (text := _passing(job, view, scene.wall, cut))]
    if runs:
        yield head("Cables and raceways through the cuts")
        for text in runs:
            yield from text_rows(text, room)


def _passing(job: Job, view: View, wall: str, cut: Cut) -> str:
    """What runs through a cut, with its heights; empty for nothing."""
    found = _seen_by(view, section(job, wall, cut.at_nm))
    said = told(found.shapes, found.metric, upright=True, high_nm=found.height)
    return f"Cut {show_length(Length(cut.at_nm), found.metric)} from left: {said[0].split(': ', 1)[1]}" if said else ""


def _lines(job: Job, scene: Scene, tag: str, depth: int) -> Sequence[str]:
    said = [f"{show_size(Length(depth), scene.metric)} deep"]
    for one in in_opening(job).get(tag, ()):
        if one.depth is not None:
            left = depth - one.depth.nm
            over = f"{show_size(Length(abs(left)), scene.metric)} {'left' if left >= 0 else 'TOO DEEP'}"
            said.append(f"{one.tag} {one.name}: {show_size(one.depth, scene.metric)} deep, {over}")
    return said
