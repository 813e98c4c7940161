"""The elevation of a wall: everything that has a place on it as plain shapes, for the screen and for paper alike.

Whole nanometres from the wall's left corner and its finished floor. `plan` cuts the same wall level at a height and
looks down: there the second axis is the depth behind the finished face.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from store.measure.errors import BadValue
from store.measure.length import Length, show_length
from store.records.access import Panel, Photo
from store.records.equipment import Equipment
from store.records.wall import Obstacle, Opening, Wall
from store.records.whole import Job
from store.records.wiring import Box, Cable, Raceway
from store.rules.cable.kinds import is_power
from store.rules.cable.legs import Leg
from store.rules.cable.routes import raceway_course, routes
from store.rules.drawing.kin import kin
from store.rules.drawing.shapes import LAYERS, Block, Extent, Layer, Run, Scene, Shape, Spot, Unplaced
from store.rules.photo.places import photo_places
from store.rules.wall.places import (
    BEYOND_NM,
    Point,
    Rect,
    bad_points,
    equipment_rect,
    not_placed,
    rect_of,
    wall_of,
    without_repeats,
)
from store.rules.wall.readings import sizes
from store.rules.wall.stud_row import stud_line
from store.rules.wall.uprights import Upright, uprights
from store.trade.measured.framing import Stud, studs


def scene(job: Job, wall_tag: str) -> Scene:
    """The elevation of a wall as seen from the room. Raises BadValue when there is no such wall."""
    wall = _wall(job, wall_tag)
    blocks = [*_obstacles(job, wall_tag), *_openings(job, wall_tag), *_equipment(job, wall_tag)]
    blocks += _panels(job, wall_tag)
    spots = [*_boxes(job, wall_tag), *_photos(job, wall_tag)]
    width, height, remarks = _face(job, wall_tag, [*(each.extent for each in blocks), *(each.extent for each in spots)])
    framing, why = _studs(job, wall, width, height, [each for each in blocks if each.layer == "openings"])
    runs = list(_runs(job, wall_tag))
    shapes: list[Shape] = [*framing, *blocks, *runs, *spots]
    shapes.sort(key=lambda each: LAYERS.index(each.layer))
    remarks += [
        f"{each.tag}: the point {text[:40]!r} is not a place like 4'/2' 6\" and was left out."
        for each in job.of(Cable).values()
        if each.route == "points" and wall_of(job, each.start) == wall_tag
        for text in bad_points(job, each)
    ]
    missing = ([Unplaced(wall_tag, "studs", why)] if why else []) + list(_unplaced(job, wall_tag))
    metric = job.settings.metric
    return Scene(wall_tag, wall.name, width, height, tuple(shapes), tuple(missing), tuple(remarks), metric=metric)


def plan(job: Job, wall_tag: str, height_nm: int) -> Scene:
    """The wall cut level at a height above the floor and seen from above, the room at the bottom.

    The second axis is the depth behind the finished face. An opening goes back from the face by its depth; a device
    stands clear of the opening's inside back by its clearance behind, or against it where none is given. Raises
    BadValue when there is no such wall.
    """
    wall = _wall(job, wall_tag)
    blocks = list(_cut_openings(job, wall_tag, height_nm)) + list(_cut_equipment(job, wall_tag, height_nm))
    width, _, remarks = _face(job, wall_tag, [each.extent for each in blocks], "width")
    board = job.settings.finish.nm
    known = sizes(job).get((wall_tag, "depth"))
    deepest = max((each.extent[3] for each in blocks), default=0)
    depth = known.least.nm if known else max(deepest, board + wall.stud_depth.nm)
    if not known:
        remarks.append("No depth read yet: the drawing is as deep as the equipment.")
    cut = [each for each in blocks if each.layer == "openings"]
    framing = [
        Block("", "studs", "stud", f"stud {number}", each.left_nm, board, wall.stud_width.nm, wall.stud_depth.nm)
        for number, each in enumerate(_lay_out(job, wall, width)[0], 1)
        if not any(hole.x < each.right_nm and each.left_nm < hole.x + hole.width for hole in cut)
    ]
    framing += [Block("", "studs", "board", "wall finish", x, 0, wide, board) for x, wide in _gaps(width, cut)]
    remarks.insert(0, f"Cut {show_length(Length(height_nm), job.settings.metric)} above the floor, seen from above.")
    missing = tuple(_no_depth(job, wall_tag))
    shapes = (*framing, *blocks)
    metric = job.settings.metric
    return Scene(wall_tag, wall.name, width, depth, shapes, missing, tuple(remarks), "plan", metric)


def _wall(job: Job, tag: str) -> Wall:
    wall = job.of(Wall).get(tag)
    if wall is None:
        raise BadValue(f"there is no wall {tag!r}: put it on the list of walls, then draw it")
    return wall


def _face(job: Job, tag: str, extents: Sequence[Extent], only: str = "") -> tuple[int, int, list[str]]:
    """Width and height of a wall: the readings that govern, or how far the things on it reach."""
    read, remarks, found = sizes(job), [], []
    for what, edge in (("width", 2), ("height", 3)):
        known = read.get((tag, what))
        found.append(known.least.nm if known else max((each[edge] for each in extents), default=0))
        if known or (only and what != only):
            continue
        reach = "is as far as what stands on it reaches" if found[-1] else "is not known"
        remarks.append(f"The {what} was not read: the wall drawn {reach}.")
    return found[0], found[1], remarks


def _lay_out(job: Job, wall: Wall, width: int) -> tuple[tuple[Stud, ...], str]:
    """The studs of a wall and, where there are none, why."""
    if wall.first_stud is None and not wall.odd_studs:
        return (), "the first stud is not measured"
    line = stud_line(wall, width, job.settings.metric)
    if line:
        return line, ""
    try:
        first = wall.first_stud.nm if wall.first_stud is not None else 0
        return studs(width, wall.spacing.nm, first, wall.stud_width.nm), ""
    except ValueError as error:
        return (), str(error)


def _studs(job: Job, wall: Wall, width: int, height: int, openings: Sequence[Block]) -> tuple[list[Block], str]:
    """What is upright in the wall as framed; the studs alone, less the openings, while its size was not read."""
    line, why = _lay_out(job, wall, width)
    framed = [each for each in uprights(job, wall.tag) if each.low_nm < height]
    if framed:
        return [_upright(each, height) for each in framed], why
    pieces = []
    for number, stud in enumerate(line, 1):
        cuts = [each.extent for each in openings if each.x < stud.right_nm and stud.left_nm < each.extent[2]]
        pieces += [
            Block("", "studs", "stud", f"stud {number}", stud.left_nm, low, stud.right_nm - stud.left_nm, high - low)
            for low, high in _left_over(0, height, [(bottom, top) for _, bottom, _, top in cuts])
        ]
    return pieces, why


def _upright(each: Upright, height: int) -> Block:
    high = min(each.high_nm, height)
    wide = each.right_nm - each.left_nm
    return Block("", "studs", "stud", each.part, each.left_nm, each.low_nm, wide, max(0, high - each.low_nm))


def _gaps(width: int, cut: Sequence[Block]) -> Iterator[tuple[int, int]]:
    """Left edge and width of each stretch of wall between what is cut out of it."""
    for low, high in _left_over(0, width, [(each.x, each.x + each.width) for each in cut]):
        yield low, high - low


def _left_over(start: int, end: int, taken: Iterable[tuple[int, int]]) -> Iterator[tuple[int, int]]:
    for low, high in sorted(taken):
        if low > start:
            yield start, min(low, end)
        start = max(start, high)
        if start >= end:
            return
    if start < end:
        yield start, end


def _block(tag: str, layer: Layer, kind: str, label: str, rect: Rect) -> Block:
    return Block(tag, layer, kind, label, rect.x, rect.y, rect.width, rect.height)


def _obstacles(job: Job, wall: str) -> Iterator[Block]:
    for tag, one in job.of(Obstacle).items():
        if one.wall == wall:
            yield Block(tag, "obstacles", one.what, one.what, one.x.nm, one.y.nm, one.width.nm, one.height.nm)


def _openings(job: Job, wall: str) -> Iterator[Block]:
    for tag, one in job.of(Opening).items():
        if one.wall == wall and (rect := rect_of(one)):
            yield _block(tag, "openings", one.use, one.name, rect)


def _equipment(job: Job, wall: str) -> Iterator[Block]:
    for tag, one in job.of(Equipment).items():
        if one.retired is None and wall_of(job, tag) == wall and (rect := equipment_rect(job, one)):
            yield _block(tag, "equipment", one.what, one.name, rect)


def _panels(job: Job, wall: str) -> Iterator[Block]:
    for tag, one in job.of(Panel).items():
        if one.wall == wall and (rect := rect_of(one)):
            yield _block(tag, "panels", one.opens, one.name, rect)


def _boxes(job: Job, wall: str) -> Iterator[Spot]:
    for tag, one in job.of(Box).items():
        if one.wall == wall and one.x is not None and one.y is not None:
            yield Spot(tag, "boxes", one.what, one.name or one.what, one.x.nm, one.y.nm, one.new)


def _photos(job: Job, wall: str) -> Iterator[Spot]:
    for tag, (on, (x, y)) in photo_places(job).items():
        if on == wall:
            photo = job.of(Photo)[tag]
            yield Spot(tag, "photos", "photo", photo.shows or photo.file, x, y)


def _runs(job: Job, wall: str) -> Iterator[Run]:
    """What runs over this wall, each as measured; of a run round a corner the part on this wall."""
    for tag, raceway in job.of(Raceway).items():
        way = raceway_course(job, raceway)
        for path in _paths(wall, () if isinstance(way, str) else way.legs):
            yield Run(tag, "raceways", raceway.type, raceway.name or raceway.type, path)
    for tag, route in routes(job).items():
        cable = job.of(Cable)[tag]
        for path in _paths(wall, route.legs):
            yield Run(tag, "cables", "power" if is_power(job, cable) else "signal", cable.name or cable.type, path)


def _paths(wall: str, legs: Iterable[Leg]) -> Iterator[tuple[Point, ...]]:
    """The stretches on a wall as lines; what runs above it or below it is drawn farther out."""
    path: list[Point] = []
    last: Leg | None = None
    for leg in legs:
        line = [leg.start, leg.end]
        if leg.place == "beyond":
            out = BEYOND_NM if leg.start[1] else -BEYOND_NM
            line[1:1] = [(x, y + out) for x, y in line]
        joined = last is not None and last.wall == leg.wall and last.end == leg.start
        if path and not joined:
            yield without_repeats(tuple(path))
            path = []
        if leg.wall == wall:
            path += line
        last = leg
    if path:
        yield without_repeats(tuple(path))


def _unplaced(job: Job, wall: str) -> Iterator[Unplaced]:
    """What belongs to the wall, or to none yet, and cannot be drawn."""
    things: list[Opening | Panel | Box] = [*job.of(Opening).values(), *job.of(Panel).values(), *job.of(Box).values()]
    for one in things:
        if one.wall in ("", wall) and (why := not_placed(one)):
            yield Unplaced(one.tag, one.name, why)
    for tag, device in job.of(Equipment).items():
        if device.retired is None and wall_of(job, tag) in ("", wall) and equipment_rect(job, device) is None:
            yield Unplaced(tag, device.name, _why_no_device(job, device))
    runs: list[Raceway | Cable] = [*job.of(Raceway).values(), *job.of(Cable).values()]
    for run in runs:
        walls = wall_of(job, run.start), wall_of(job, run.end)
        if (wall in walls or not any(walls)) and (why := _why_no_run(job, run)):
            yield Unplaced(run.tag, run.name or run.type, why)


def _why_no_device(job: Job, one: Equipment) -> str:
    if not one.opening:
        return "not in an opening"
    opening = job.of(Opening).get(one.opening)
    if opening is None or rect_of(opening) is None:
        return f"its opening {one.opening} has no place"
    return "no width and height entered"


def _why_no_run(job: Job, one: Cable | Raceway) -> str:
    """What is missing for its way; empty when it is drawn, or was given up."""
    if isinstance(one, Cable):
        route = routes(job).get(one.tag)
        return route.why if route is not None and not route.legs else ""
    way = raceway_course(job, one)
    return way if isinstance(way, str) else ""


def _cut_openings(job: Job, wall: str, height: int) -> Iterator[Block]:
    for tag, one in job.of(Opening).items():
        rect = rect_of(one)
        if one.wall == wall and rect and one.depth is not None and rect.y <= height < rect.top:
            yield Block(tag, "openings", one.use, one.name, rect.x, 0, rect.width, one.depth.nm)


def _cut_equipment(job: Job, wall: str, height: int) -> Iterator[Block]:
    for tag, one in job.of(Equipment).items():
        opening, rect = job.of(Opening).get(one.opening), equipment_rect(job, one)
        if one.retired is not None or opening is None or opening.wall != wall or rect is None:
            continue
        if opening.depth is None or one.depth is None or not rect.y <= height < rect.top:
            continue
        # The thickness noted is that of the sides; a back is not counted here, as it is not when the fit is judged.
        behind = one.clear_back.nm if one.clear_back else 0
        front = opening.depth.nm - behind - one.depth.nm
        yield Block(tag, "equipment", one.what, one.name, rect.x, front, rect.width, one.depth.nm)


def _no_depth(job: Job, wall: str) -> Iterator[Unplaced]:
    things: list[Opening | Equipment] = [*job.of(Opening).values(), *job.of(Equipment).values()]
    for one in things:
        gone = isinstance(one, Equipment) and one.retired is not None
        if not gone and wall_of(job, one.tag) == wall and one.depth is None:
            yield Unplaced(one.tag, one.name, "no depth entered")


__all__ = ["LAYERS", "Block", "Layer", "Run", "Scene", "Shape", "Spot", "Unplaced", "kin", "plan", "scene"]
