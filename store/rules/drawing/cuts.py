"""The wall cut: level at a height and seen from above, or upright at a place and seen from its left end.

Whole nanometres. The second axis of the one, and the first of the other, is the depth behind the wall's finished face:
below zero is in front of it, towards the room, where build-outs, cabinets and what hangs on a face are.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from store.measure.length import INCH_NM, Length, show_length
from store.records.equipment import Equipment
from store.records.inside import ShelfBoard
from store.records.wall import BuildOut, Opening, Wall, Zone
from store.records.whole import Job
from store.rules.drawing.elevation import face, lay_out, left_over, wall_named
from store.rules.drawing.shapes import LAYERS, Block, Layer, Run, Scene, Unplaced
from store.rules.fit.furniture import from_front, furniture_at
from store.rules.wall.hung import hung
from store.rules.wall.inside import shelf_depth_nm
from store.rules.wall.lines import ceilings, floors
from store.rules.wall.places import board_rect, equipment_rect, wall_of
from store.rules.wall.readings import sizes
from store.rules.wall.shape import build_outs, face_of, out_of, rect_on, stands_in_front, stands_out_nm
from store.rules.wall.uprights import studs_at
from store.trade.measured.plane import Rect


def plan(job: Job, wall_tag: str, height_nm: int) -> Scene:
    """The wall cut level at a height above the floor and seen from above, the room at the bottom.

    The second axis is the depth behind the finished face. An opening goes back from its face by its depth; a device
    stands clear of the opening's inside back by its clearance behind, or against it where none is given. Raises
    BadValue when there is no such wall.
    """
    wall = wall_named(job, wall_tag)
    blocks = [
        Block(tag, layer, kind, label, rect.x_nm, deep, rect.width_nm, thick)
        for tag, layer, kind, label, rect, deep, thick in _things(job, wall_tag)
        if rect.y_nm <= height_nm < rect.top_nm
    ]
    width, _, remarks = face(job, wall_tag, [each.extent for each in blocks], "width")
    depth, told = _depth(job, wall, blocks, 3)
    remarks += told
    board = job.settings.finish.nm
    cut = [each for each in blocks if each.layer == "openings" and each.y + each.height > 0]
    framing = [*_studs_cut(job, wall, width, height_nm, cut)]
    framing += [Block("", "studs", "board", "wall finish", x, 0, wide, board) for x, wide in _gaps(width, cut)]
    remarks.insert(0, f"Cut {show_length(Length(height_nm), job.settings.metric)} above the floor, seen from above.")
    metric = job.settings.metric
    shapes = (*framing, *_sorted(blocks))
    return Scene(
        wall_tag, wall.name, width, depth, shapes, tuple(_no_depth(job, wall_tag)), tuple(remarks), "plan", metric
    )


def section(job: Job, wall_tag: str, x_nm: int) -> Scene:
    """The wall cut upright at a place from its left end and seen from there, the room at the left.

    The first axis is the depth behind the finished face, the second the height. Raises BadValue when there is no such
    wall.
    """
    wall = wall_named(job, wall_tag)
    blocks = [
        Block(tag, layer, kind, label, deep, rect.y_nm, thick, rect.height_nm)
        for tag, layer, kind, label, rect, deep, thick in _things(job, wall_tag)
        if rect.x_nm <= x_nm < rect.right_nm
    ]
    _, _, remarks = face(job, wall_tag, [], "width")
    line, floor = ceilings(job).get(wall_tag), floors(job).get(wall_tag)
    high = line.at(x_nm) if line is not None else max((each.extent[3] for each in blocks), default=0)
    depth, told = _depth(job, wall, blocks, 2)
    board, cut = job.settings.finish.nm, [each for each in blocks if each.layer == "openings" and each.extent[2] > 0]
    taken = [(each.y, each.y + each.height) for each in cut]
    framing: list[Block | Run] = []
    for low, top in left_over(0, high, taken):
        framing.append(Block("", "studs", "board", "wall finish", 0, low, board, top - low))
        framing.append(Block("", "studs", "stud", "framing", board, low, wall.stud_depth.nm, top - low))
    remarks = [f"Cut {show_length(Length(x_nm), job.settings.metric)} from the left end, seen from there.", *told]
    ends = [each.extent for each in (*framing, *blocks)]
    left, right = min((each[0] for each in ends), default=0), max((each[2] for each in ends), default=depth)
    for level, what in ((high, "ceiling"), (floor.at(x_nm) if floor is not None else 0, "floor")):
        if right > left:
            framing.append(Run("", "build-outs", what, what, ((left, level), (right, level))))
    metric = job.settings.metric
    shapes = (*framing, *_sorted(blocks))
    missing = tuple(_no_depth(job, wall_tag))
    return Scene(wall_tag, wall.name, depth, high, shapes, missing, tuple(remarks), "section", metric)


MOST_CUTS = 6
"""Cuts of one wall that a page shows; more are not looked at."""
MIDDLE_NM = 48 * INCH_NM
"""Where a wall is cut on which nothing has a depth: 48 in, about its middle."""


def best_cuts(job: Job, wall: str, *, upright: bool = False) -> tuple[int, ...]:
    """Heights, or with `upright` places from the left, at which cuts show each thing of a wall at least once.

    The first goes through the most things; at most `MOST_CUTS`. Nanometres.
    """
    left = [
        (rect.x_nm, rect.right_nm) if upright else (rect.y_nm, rect.top_nm)
        for _, _, _, _, rect, _, _ in _things(job, wall)
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


Thing = tuple[str, Layer, str, str, Rect, int, int]
"""Tag, layer, kind, label, outline on the wall, depth at which it begins (below zero in front), how deep it is."""


def _sorted(blocks: Sequence[Block]) -> list[Block]:
    return sorted(blocks, key=lambda each: LAYERS.index(each.layer))


def _things(job: Job, wall: str) -> Iterator[Thing]:
    """Everything that has a depth at its place."""
    for each in build_outs(job).get(wall, ()):
        name = job.of(BuildOut)[each.tag].name
        yield each.tag, "build-outs", "build-out", name, each.rect, -each.depth_nm, each.depth_nm
    for tag, zone in job.of(Zone).items():
        rect = rect_on(job, tag)
        if zone.wall == wall and rect is not None and zone.face in ("nearest", "wall", "front"):
            yield tag, "finishes", "finish", zone.name, rect, -_out(job, tag), zone.thickness.nm
    for tag, one in job.of(Opening).items():
        rect = rect_on(job, tag)
        if (
            one.wall == wall
            and rect is not None
            and rect.width_nm
            and one.depth is not None
            and _in_front_view(job, tag)
        ):
            yield tag, "openings", one.use, one.name, rect, _begins(job, one), one.depth.nm
    yield from _boards(job, wall)
    for piece in furniture_at(job).get(wall, ()):
        front = -piece.off.nm - piece.depth.nm
        yield piece.tag, "obstacles", "furniture", piece.name, from_front(piece), front, piece.depth.nm
    yield from _equipment(job, wall)


def _boards(job: Job, wall: str) -> Iterator[Thing]:
    """Shelves and dividers inside the openings: from the front back, less the gap behind them."""
    for tag, board in job.of(ShelfBoard).items():
        opening, rect = job.of(Opening).get(board.opening), board_rect(job, tag)
        if opening is None or rect is None or opening.wall != wall or opening.depth is None:
            continue
        deep = shelf_depth_nm(board, opening) if _in_front_view(job, opening.tag) else None
        if deep is None or deep <= 0:
            continue
        gap = board.gap.nm if board.gap is not None else 0
        front = _begins(job, opening) + opening.depth.nm - gap - deep
        outline = rect.plane
        yield tag, "openings", board.what, board.name or board.what, outline, front, deep


def _in_front_view(job: Job, tag: str) -> bool:
    face_there = face_of(job, tag)
    return face_there is None or face_there.side in ("wall", "front")


def _out(job: Job, tag: str) -> int:
    """How far the face of a thing is in front of the wall's own."""
    there = face_of(job, tag)
    out = out_of(job, there.out) if there is not None and there.out else None
    return out.depth_nm if out is not None and there is not None and there.side == "front" else 0


def _begins(job: Job, one: Opening) -> int:
    """Where the front of an opening is: at its face; of cabinet work before the bare wall, its depth in front of it."""
    if stands_in_front(job, one) and one.depth is not None:
        return -one.depth.nm
    return -_out(job, one.tag)


def _equipment(job: Job, wall: str) -> Iterator[Thing]:
    for each in hung(job).get(wall, ()):
        one, proud = job.of(Equipment)[each.tag], stands_out_nm(job, job.of(Equipment)[each.tag])
        if proud is not None and one.depth is not None:
            yield each.tag, "equipment", one.what, one.name, each.rect, -_out(job, each.tag) - proud, one.depth.nm
    for tag, one in job.of(Equipment).items():
        opening, place = job.of(Opening).get(one.opening), equipment_rect(job, one)
        if one.retired is not None or opening is None or opening.wall != wall or place is None:
            continue
        if opening.depth is None or one.depth is None or not _in_front_view(job, opening.tag):
            continue
        # The thickness noted is that of the sides; a back is not counted here, as it is not when the fit is judged.
        behind = one.clear_back.nm if one.clear_back else 0
        front = _begins(job, opening) + opening.depth.nm - behind - one.depth.nm
        rect = place.plane
        yield tag, "equipment", one.what, one.name, rect, front, one.depth.nm


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
