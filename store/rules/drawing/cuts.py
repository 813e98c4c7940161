"""The wall cut: level at a height and seen from above, or upright at a place and seen from its left end.

Whole nanometres. The second axis of the one, and the first of the other, is the depth behind the wall's finished face:
below zero is in front of it, towards the room, where build-outs, cabinets and what hangs on a face are. Cables and
raceways are where they run: a line where they lie in the cut, a mark where they pass through it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from store.measure.length import INCH_NM, Length, show_length
from store.records.equipment import Equipment
from store.records.wall import BuildOut, Opening, Wall
from store.records.whole import Job
from store.rules.drawing.cut_runs import ACROSS, UP, told, wiring
from store.rules.drawing.elevation import DOOR_NM, face, lay_out, left_over, wall_named
from store.rules.drawing.shapes import LAYERS, Block, Run, Scene, Shape, Unplaced
from store.rules.drawing.solids import Solid, solids
from store.rules.wall.lines import ceilings, floors
from store.rules.wall.places import wall_of
from store.rules.wall.readings import sizes
from store.rules.wall.shape import build_outs
from store.rules.wall.uprights import studs_at

THICK_NM = 2 * INCH_NM
"""A wall is not cut level for the sake of what is thinner than this: a panel in a ceiling or a floor. Our own."""


def plan(job: Job, wall_tag: str, height_nm: int) -> Scene:
    """The wall cut level at a height above the floor and seen from above, the room at the bottom.

    The second axis is the depth behind the finished face. An opening goes back from its face by its depth; a device
    stands clear of the opening's inside back by its clearance behind, or against it where none is given. Raises
    BadValue when there is no such wall.
    """
    wall, metric = wall_named(job, wall_tag), job.settings.metric
    met = [each for each in solids(job, wall_tag) if each.holds(UP, height_nm)]
    blocks = [_block(each, ACROSS) for each in met]
    width, _, remarks = face(job, wall_tag, [each.extent for each in blocks], "width")
    depth, said = _depth(job, wall, blocks, 3)
    runs = list(wiring(job, wall_tag, UP, height_nm))
    board = job.settings.finish.nm
    cut = [block for block, each in zip(blocks, met, strict=True) if each.hole and each.high[2] > 0]
    framing = [*_studs_cut(job, wall, width, height_nm, cut)]
    framing += [Block("", "studs", "board", "wall finish", x, 0, wide, board) for x, wide in _gaps(width, cut)]
    remarks = [f"Cut {show_length(Length(height_nm), metric)} above the floor, seen from above.", *remarks, *said]
    remarks += told(runs, metric, upright=False)
    shapes = (*framing, *_sorted([*blocks, *runs]))
    missing = tuple(_no_depth(job, wall_tag))
    return Scene(wall_tag, wall.name, width, depth, shapes, missing, tuple(remarks), "plan", metric)


def section(job: Job, wall_tag: str, x_nm: int) -> Scene:
    """The wall cut upright at a place from its left end and seen from there, the room at the left.

    The first axis is the depth behind the finished face, the second the height. Raises BadValue when there is no such
    wall.
    """
    wall, metric = wall_named(job, wall_tag), job.settings.metric
    met = [each for each in solids(job, wall_tag) if each.holds(ACROSS, x_nm)]
    blocks = [_block(each, UP) for each in met]
    line = ceilings(job).get(wall_tag)
    high = line.at(x_nm) if line is not None else _reach(blocks)
    blocks = [_under(each, high) for each in blocks]
    _, _, remarks = face(job, wall_tag, [], "width")
    depth, said = _depth(job, wall, blocks, 2)
    framing = _framing(job, wall, blocks, [block for block, each in zip(blocks, met, strict=True) if each.hole], high)
    runs = list(wiring(job, wall_tag, ACROSS, x_nm))
    remarks = [f"Cut {show_length(Length(x_nm), metric)} from the left end, seen from there.", *said]
    remarks += told(runs, metric, upright=True, high_nm=high)
    levels = _levels(job, wall_tag, x_nm, high, [*framing, *blocks], depth)
    shapes = (*framing, *levels, *_sorted([*blocks, *runs]))
    missing = tuple(_no_depth(job, wall_tag))
    return Scene(wall_tag, wall.name, depth, high, shapes, missing, tuple(remarks), "section", metric)


def _block(each: Solid, along: int) -> Block:
    """A solid as a cut shows it: along the wall and its depth, or its depth and up."""
    wide, high = each.high[along] - each.low[along], each.high[2] - each.low[2]
    if along == ACROSS:
        return Block(each.tag, each.layer, each.kind, each.label, each.low[0], each.low[2], wide, high)
    return Block(each.tag, each.layer, each.kind, each.label, each.low[2], each.low[1], high, wide)


def _reach(blocks: Sequence[Block]) -> int:
    """How high a wall is drawn whose height nobody read: as far as things reach; a build-out as high as a door."""
    return max((DOOR_NM if each.layer == "build-outs" else each.extent[3] for each in blocks), default=0)


def _under(each: Block, high: int) -> Block:
    """What goes up to the ceiling, no higher than the ceiling is there."""
    if each.layer != "build-outs" or each.extent[3] <= high:
        return each
    return Block(each.tag, each.layer, each.kind, each.label, each.x, each.y, each.width, max(0, high - each.y))


def _framing(job: Job, wall: Wall, blocks: Sequence[Block], holes: Sequence[Block], high: int) -> list[Block]:
    """Board and framing of the wall, and of the fronts of build-outs, but where something goes through them."""
    found = list(_slab(job, (0, high), 0, wall.stud_depth.nm, holes))
    for each in blocks:
        out = job.of(BuildOut).get(each.tag)
        if out is not None and out.work == "framing":
            inside = min(out.stud_depth.nm, each.width - job.settings.finish.nm)
            found += _slab(job, (each.y, each.y + each.height), each.x, inside, holes)
    return found


def _slab(job: Job, ends: tuple[int, int], front: int, deep: int, holes: Sequence[Block]) -> Iterator[Block]:
    """Board from a front back, and framing so deep behind it, from one height to another."""
    board = job.settings.finish.nm
    taken = [(each.y, each.y + each.height) for each in holes if each.x < front + board and each.extent[2] > front]
    for low, high in left_over(*ends, taken):
        yield Block("", "studs", "board", "wall finish", front, low, board, high - low)
        if deep > 0:
            yield Block("", "studs", "stud", "framing", front + board, low, deep, high - low)


def _levels(job: Job, wall: str, x_nm: int, high: int, drawn: Sequence[Block], depth: int) -> Iterator[Run]:
    """The ceiling and the floor over all that is drawn."""
    ends, floor = [each.extent for each in drawn], floors(job).get(wall)
    left, right = min((each[0] for each in ends), default=0), max((each[2] for each in ends), default=depth)
    for level, what in ((high, "ceiling"), (floor.at(x_nm) if floor is not None else 0, "floor")):
        if right > left:
            yield Run("", "build-outs", what, what, ((left, level), (right, level)))


def through(job: Job, wall: str, tag: str, *, upright: bool) -> int | None:
    """Where a cut goes through the middle of a thing: a height or, with `upright`, a place from the left, nanometres.

    None for what has no depth at its place.
    """
    axis = ACROSS if upright else UP
    found = next((each for each in solids(job, wall) if each.tag == tag), None)
    return None if found is None else (found.low[axis] + found.high[axis]) // 2


MOST_CUTS = 6
"""Cuts of one wall that a page shows; more are not looked at."""
MIDDLE_NM = 48 * INCH_NM
"""Where a wall is cut on which nothing has a depth: 48 in, about its middle."""


def best_cuts(job: Job, wall: str, *, upright: bool = False) -> tuple[int, ...]:
    """Heights, or with `upright` places from the left, at which cuts show each thing of a wall at least once.

    The first goes through the most things; at most `MOST_CUTS`. Nanometres.
    """
    axis = ACROSS if upright else UP
    left = [
        (each.low[axis], each.high[axis])
        for each in solids(job, wall)
        if each.layer != "panels" or each.high[axis] - each.low[axis] >= THICK_NM
    ]
    found: list[int] = []
    while left and len(found) < MOST_CUTS:
        middles = sorted({(low + high) // 2 for low, high in left})
        best = max(middles, key=lambda at: sum(low <= at < high for low, high in left))
        rest = [(low, high) for low, high in left if not low <= best < high]
        if len(rest) == len(left):
            break
        found.append(best)
        left = rest
    return tuple(found) or (MIDDLE_NM,)


def _sorted(shapes: Sequence[Shape]) -> list[Shape]:
    return sorted(shapes, key=lambda each: LAYERS.index(each.layer))


def _depth(job: Job, wall: Wall, blocks: Sequence[Block], edge: int) -> tuple[int, list[str]]:
    """How deep the wall is drawn: as read, else as deep as what is in it."""
    known = sizes(job).get((wall.tag, "depth"))
    deepest = max((each.extent[edge] for each in blocks), default=0)
    if known:
        return known.least.nm, []
    said = ["No depth read yet: the drawing is as deep as the equipment."]
    return max(deepest, job.settings.finish.nm + wall.stud_depth.nm), said


def _studs_cut(job: Job, wall: Wall, width: int, height: int, cut: Sequence[Block]) -> Iterator[Block]:
    board = job.settings.finish.nm
    line = studs_at(job, wall.tag, height, height) or lay_out(job, wall, width)[0]
    for number, each in enumerate(line, 1):
        if not any(hole.x < each.right_nm and each.left_nm < hole.x + hole.width for hole in cut):
            wide = each.right_nm - each.left_nm
            yield Block("", "studs", "stud", f"stud {number}", each.left_nm, board, wide, wall.stud_depth.nm)
    for out in build_outs(job).get(wall.tag, ()):
        front = job.of(BuildOut)[out.tag]
        for each in studs_at(job, wall.tag, height, height, out.tag):
            wide = each.right_nm - each.left_nm
            yield Block("", "studs", "stud", "stud", each.left_nm, board - out.depth_nm, wide, front.stud_depth.nm)


def _gaps(width: int, cut: Sequence[Block]) -> Iterator[tuple[int, int]]:
    """Left edge and width of each stretch of wall between what is cut out of it."""
    for low, high in left_over(0, width, [(each.x, each.x + each.width) for each in cut]):
        yield low, high - low


def _no_depth(job: Job, wall: str) -> Iterator[Unplaced]:
    things: list[Opening | Equipment] = [*job.of(Opening).values(), *job.of(Equipment).values()]
    for one in things:
        gone = isinstance(one, Equipment) and one.retired is not None
        if not gone and wall_of(job, one.tag) == wall and one.depth is None:
            yield Unplaced(one.tag, one.name, "no depth entered")
