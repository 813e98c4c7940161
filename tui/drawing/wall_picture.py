"""A scene drawn on a grid of cells, and which thing is under which cell."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

import msgspec
from rich.cells import cell_len

from store.measure.length import INCH_NM, Length, show_length, show_pair
from store.records.field import SAID
from store.rules.drawing.cut_runs import WIRING
from store.rules.drawing.elevation import Block, Run, Scene, Shape, Spot
from tui.drawing.canvas import Cells, Grid
from tui.drawing.cut_marks import beside, mark, tags_of, through
from tui.drawing.dots import Way
from tui.drawing.frame import Frame, Place
from tui.drawing.label_places import MOST_CHARACTERS, box_of, cells_near, places
from tui.drawing.ways import DASH, dash_of, draw_run, ways_in

SELECTED, KIN = "▸", "+"
"""Signs in front of the label of what is selected, and of what belongs to it."""
RANKS, LABELS = ("", KIN, SELECTED), ("label", "kin-label", "selected-label")
NEW_SIGNS = {
    "receptacle": "◉", "switch": "◆", "low-voltage": "▲", "junction": "■", "pass-through": "●", "quick-connect": "◈",
    "photo": "▣",
}  # fmt: skip
OLD_SIGNS = {
    "receptacle": "◎", "switch": "◇", "low-voltage": "△", "junction": "□", "pass-through": "○", "quick-connect": "◇",
}  # fmt: skip
"""The sign of a box by its kind: solid for one to be set, hollow for one that was there."""
LOOKS = {"equipment": "round", "panels": "dashed"}
FILLS = {"obstacles": "╱", "furniture": "", "board": "░", "finishes": "·"}
ROOMY_NM = 3 * INCH_NM // 2
"""A column of this much of the wall, or less, leaves room for the names of boxes and cables."""
WIDE = 3
"""Columns from which on a stud is drawn with both its faces."""
TURNS = (
    "openings", "equipment", "panels", "obstacles", "boxes", "build-outs", "finishes", "raceways", "cables", "photos",
    "studs",
)  # fmt: skip
"""The layers in the order in which their things are named."""
FAR = 2
"""Rows, and twice as many columns, that a tag may stand away from its thing where it is crowded."""
CROWDED = 100
"""After so many labels that found no room, no more are tried: of thousands of things on a wall few have any."""


class Picture(msgspec.Struct, frozen=True):
    """A drawn scene."""

    grid: Grid
    frame: Frame
    shapes: tuple[Shape, ...]
    """What is shown, in drawing order."""

    def at(self, column: int, row: int) -> str:
        """The tag of the smallest thing under a cell; empty when there is none."""
        if owner := self.grid.owner(column, row):
            return owner
        found = [(area, tag) for area, tag in self._around(column, row)]
        return min(found)[1] if found else ""

    def _around(self, column: int, row: int) -> Iterator[tuple[int, str]]:
        for each in self.shapes:
            if isinstance(each, Block) and each.tag:
                left, top, right, bottom = box_of(self.frame, each)
                if left <= column <= right and top <= row <= bottom:
                    yield each.width * each.height, each.tag


def draw(
    scene: Scene,
    frame: Frame,
    selected: str = "",
    kin: frozenset[str] = frozenset(),
    hidden: frozenset[str] = frozenset(),
) -> Picture:
    """The scene in a frame; `hidden` names layers that are left out."""
    grid = Grid(frame.columns, frame.rows)
    shapes = tuple(each for each in scene.shapes if each.layer not in hidden)
    lit = kin | {selected} if selected else kin
    ranked = [each for each in shapes if each.tag not in lit]
    ranked += sorted((each for each in shapes if each.tag in lit), key=lambda each: _rank(each.tag, selected, kin))
    if scene.width or scene.height:
        wall = Block(scene.wall, "studs", "wall", scene.name, 0, 0, scene.width, scene.height)
        _draw_wall(grid, frame, scene, wall, _style("wall", wall.tag, selected, kin))
    runs: list[tuple[Way, str, str]] = []
    ways = {dash: ways_in(frame, dash) for dash in (0, DASH)}
    for shape in ranked:
        style = _style(shape.layer, shape.tag, selected, kin) if shape.tag in lit else shape.layer
        heavy = shape.tag == selected != ""
        if isinstance(shape, Run) and shape.tag and not heavy:
            runs.append((ways[dash_of(shape)][shape.points], style, shape.tag))
            continue
        if runs and (isinstance(shape, Run) or (isinstance(shape, Block) and shape.outline)):
            grid.dots_of(runs)  # what is drawn over them in dots comes after
            runs = []
        if not (scene.view == "plan" and _draw_low_stud(grid, frame, shape, style)):
            _draw(grid, frame, shape, style, heavy)
    grid.dots_of(runs)
    full: set[tuple[int, int]] = set()
    marks = [each for each in ranked if isinstance(each, Spot) and each.layer in WIRING]
    bundles = through(frame, marks)
    for group in bundles:
        _mark(grid, frame, group, selected, kin)
    for shape in reversed(ranked):
        if isinstance(shape, Spot) and shape.layer not in WIRING:
            at = frame.column(shape.x), frame.row(shape.y)
            if at not in full and not _put_sign(grid, at, shape, _style(shape.layer, shape.tag, selected, kin)):
                full.add(at)  # nothing drawn is taken away again
    for group in bundles:
        _name_bundle(grid, frame, scene, group, selected, kin)
    rest = tuple(each for each in reversed(ranked) if not isinstance(each, Spot) or each.layer not in WIRING)
    _name(grid, frame, scene, rest, selected, kin)
    return Picture(grid, frame, shapes)


def _draw_wall(grid: Grid, frame: Frame, scene: Scene, wall: Block, style: str) -> None:
    """The outline of the wall; where its ceiling slopes or steps that is a line of its own, and the wall ends there."""
    if scene.is_square:
        grid.rect(*box_of(frame, wall), style, owner=wall.tag)
        return
    corners = scene.corners
    for (x, y), (to_x, to_y) in pairwise((*corners, corners[0])):
        if x == to_x or y == to_y:
            ends = frame.column(x), frame.row(y), frame.column(to_x), frame.row(to_y)
            grid.edge(*ends, style, owner=wall.tag)


def nearest(shapes: Iterable[Shape], tag: str, right: int, up: int, start: tuple[int, int] = (0, 0)) -> str:
    """The tag of the nearest thing in a direction (one of `right` and `up` is 1 or -1), empty when there is none.

    From the thing of the tag, or from a place where the tag is not among them. What lies off the direction counts
    double, so that the arrow goes where it points. Of things with one and the same middle, the later one in drawing
    order counts as lying a hair to the right and below, so that each can be reached.
    """
    places = [(each.centre, number, each.tag) for number, each in enumerate(shapes) if each.tag]
    at, turn = next(((middle, number) for middle, number, each in places if each == tag), (start, -1))
    best: tuple[int, int, str] | None = None
    for middle, number, each in places:
        across, rise = middle[0] - at[0], middle[1] - at[1]
        if each == tag:  # a run is in several places of a cut
            continue
        along, off = (across * right, rise) if right else (rise * up, across)
        if middle == at:
            along = 1 if (number > turn) == (right - up > 0) else 0
        if along > 0 and (best is None or (along + 2 * abs(off), number) < best[:2]):
            best = (along + 2 * abs(off), number, each)
    return best[2] if best else ""


def about(scene: Scene, tag: str) -> str:
    """One line on a thing: its tag, its words, what it is, its size and its place."""
    shape = scene.get(tag)
    if shape is None:
        missing = next((each for each in scene.unplaced if each.tag == tag), None)
        return f"{tag} {missing.label} · not placed: {missing.why}" if missing and tag else ""
    sort = SAID.get(shape.kind, shape.kind)
    parts = [f"{tag} {shape.label[:MOST_CHARACTERS]}"] + ([sort] if sort not in (shape.label, "") else [])
    if isinstance(shape, Run):
        return " · ".join((*parts, shape.layer[:-1]))
    if shape.layer in WIRING:
        parts.append(shape.layer[:-1])
    if isinstance(shape, Block):
        parts.append(_size(shape, scene))
    elif not shape.new:
        parts.append("existing")
    return " · ".join((*parts, _place_words(scene, shape.x, shape.y)))


def _place_words(scene: Scene, x: int, y: int) -> str:
    """Where a thing is, in the words of the view: from left and floor, or behind or in front of the face."""
    if scene.view == "elevation":
        return f"{_length(x, scene)} from left, {_length(y, scene)} off the floor"
    along, deep = (x, y) if scene.view == "plan" else (y, x)
    where = f"{_length(abs(deep), scene)} {'behind' if deep >= 0 else 'in front of'} the face"
    return f"{_length(along, scene)} {'from left' if scene.view == 'plan' else 'off the floor'}, {where}"


def _rank(tag: str, selected: str, kin: frozenset[str]) -> int:
    return 2 if tag and tag == selected else 1 if tag in kin else 0


def _style(layer: str, tag: str, selected: str, kin: frozenset[str]) -> str:
    return (layer, "kin", "selected")[_rank(tag, selected, kin)]


def _draw_low_stud(grid: Grid, frame: Frame, shape: Shape, style: str) -> bool:
    """From above a stud in a wall that is a cell or two deep: a stroke from face to face; False for all else."""
    if not isinstance(shape, Block) or shape.kind != "stud":
        return False
    left, top, right, bottom = box_of(frame, shape)
    if bottom - top > 1 or right - left >= WIDE:
        return False
    if bottom > top:
        middle = frame.column(shape.centre[0])
        grid.edge(middle, top, middle, bottom, style)
    return True


def _draw(grid: Grid, frame: Frame, shape: Shape, style: str, heavy: bool) -> None:
    if isinstance(shape, Run):
        draw_run(grid, frame, shape, style, heavy)
    elif isinstance(shape, Block):
        left, top, right, bottom = box_of(frame, shape)
        if shape.kind == "stud" and shape.width < WIDE * frame.column_nm and bottom > top:
            grid.faint(frame.column(shape.centre[0]), top, bottom, style)
            return
        if shape.outline:
            grid.dots(ways_in(frame, 0)[*shape.corners, shape.corners[0]].cells, style, shape.tag)
            return
        if sign := FILLS.get(shape.kind, FILLS.get(shape.layer)):
            grid.fill(left + 1, top + 1, right - 1, bottom - 1, sign, style)
        grid.rect(left, top, right, bottom, style, LOOKS.get(shape.layer, "plain"), heavy, shape.tag)


def _put_sign(grid: Grid, cell: tuple[int, int], shape: Spot, style: str) -> bool:
    """The sign of a box in its cell, or beside it where another box is drawn there already; False for no room."""
    sign = (NEW_SIGNS if shape.new else OLD_SIGNS).get(shape.kind, "●")
    column, row = cell
    for right, down in ((0, 0), (1, 0), (-1, 0), (0, 1), (0, -1)):
        at = column + right, row + down
        if grid.is_free(*at) and grid.put(*at, sign, style, shape.tag):
            return True
    return False


def _mark(grid: Grid, frame: Frame, group: Sequence[Spot], selected: str, kin: frozenset[str]) -> None:
    """The signs of runs that pass through a cut close to one another."""

    def rank(one: Spot) -> int:
        return _rank(one.tag, selected, kin)

    first = max(group, key=rank)
    mark(grid, frame, group, rank, _style(first.layer, first.tag, selected, kin))


def _name_bundle(
    grid: Grid, frame: Frame, scene: Scene, group: Sequence[Spot], selected: str, kin: frozenset[str]
) -> None:
    """The tags of such runs together; of one alone its name too."""

    def rank(one: Spot) -> int:
        return _rank(one.tag, selected, kin)

    first = max(group, key=rank)
    words = (first.label[:MOST_CHARACTERS],) if len({each.tag for each in group}) == 1 else ()
    tags = tags_of(group, lambda one: RANKS[rank(one)], rank)
    places = list(beside(frame, group, upright=scene.view == "section"))
    grid.label(tags, words, places, LABELS[rank(first)], first.tag)


def _name(
    grid: Grid, frame: Frame, scene: Scene, ranked: tuple[Shape, ...], selected: str, kin: frozenset[str]
) -> None:
    """The labels: of what is selected first, then of its kin, then of the rest, so that those are sure to be seen."""
    failed = 0
    rooms = [(each.tag, box_of(frame, each)) for each in ranked if each.layer == "openings" and isinstance(each, Block)]
    for shape in _in_turn(ranked, selected, kin):
        rank = _rank(shape.tag, selected, kin)
        if not shape.tag:
            continue
        tag, style = RANKS[rank] + shape.tag, LABELS[rank]
        words = _words(frame, scene, shape, rank > 0)
        put = grid.label(tag, words, places(frame, shape, cell_len(tag)), style, shape.tag)
        failed += not (put or _put_near(grid, frame, rooms, shape, FAR * (1 + 2 * rank), tag, style))
        if failed > CROWDED:
            break
    _name_wall(grid, frame, scene)


def _put_near(
    grid: Grid, frame: Frame, rooms: Sequence[tuple[str, Cells]], shape: Shape, far: int, tag: str, style: str
) -> bool:
    """A tag alone near its thing; in an opening that the thing is not in only where there is no other place."""
    column, row = frame.column(shape.centre[0]), frame.row(shape.centre[1])
    others = [
        cells
        for whose, cells in rooms
        if whose != shape.tag and not (cells[0] <= column <= cells[2] and cells[1] <= row <= cells[3])
    ]
    return any(grid.put_near(cells, far, tag, style, shape.tag, others) for cells in cells_near(frame, shape))


def _words(frame: Frame, scene: Scene, shape: Shape, wanted: bool) -> tuple[str, ...]:
    """What may stand behind the tag, the longest wording first."""
    label = shape.label[:MOST_CHARACTERS]
    if not isinstance(shape, Block):
        return (label,) if wanted or frame.column_nm <= ROOMY_NM else ()
    if shape.layer not in ("openings", "equipment") or scene.view != "elevation":
        return (label,)
    return f"{label} · {_size(shape, scene)}", label


def _name_wall(grid: Grid, frame: Frame, scene: Scene) -> None:
    """The wall's own name and size on its upper edge; where nothing is drawn at all, why."""
    if scene.width or scene.height:
        size = f"{scene.name} · {_length(scene.width, scene)} x {_length(scene.height, scene)}"
        left, row = max(frame.column(0), 0) + 2, frame.row(scene.height)
        room = min(frame.column(scene.width), frame.columns) - left - 1
        far = min(frame.column(scene.width), frame.columns) - 2
        places = [Place(left, row, -1, room, over=True), Place(far, row, 1, room, over=True)]
        grid.label(scene.wall, (size, scene.name), places, "label", "", scene.wall)
    else:
        middle = frame.columns // 2, frame.rows // 2
        says = "Nothing placed on this wall yet. Enter its readings, then place an opening."
        for down, line in enumerate(_wrapped(says, frame.columns - 4)):
            grid.label("", (line,), [Place(middle[0], middle[1] + down, 0, frame.columns - 2)], "label", "")


def _wrapped(text: str, room: int) -> list[str]:
    lines = [""]
    for word in text.split():
        if lines[-1] and len(lines[-1]) + 1 + len(word) > room:
            lines.append(word)
        else:
            lines[-1] = f"{lines[-1]} {word}".strip()
    return lines


def _length(nm: int, scene: Scene) -> str:
    return show_length(Length(nm), scene.metric)


def _size(shape: Block, scene: Scene) -> str:
    return show_pair(Length(shape.width), Length(shape.height), scene.metric)


def _in_turn(ranked: Sequence[Shape], selected: str, kin: frozenset[str]) -> Iterator[Shape]:
    """What is selected, its kin, then the rest, each by its layer: labels that have one good place come before those
    that can stand anywhere."""
    by_turn: dict[tuple[int, str], list[Shape]] = {}
    for each in ranked:
        by_turn.setdefault((_rank(each.tag, selected, kin), each.layer), []).append(each)
    return (each for rank in (2, 1, 0) for layer in TURNS for each in by_turn.get((rank, layer), ()))
