"""The elevation of a wall: everything that has a place on it as plain shapes, for the screen and for paper alike.

Whole nanometres from the wall's left corner and its finished floor. `cuts` has the same wall cut level or upright.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from store.measure.errors import BadValue, quoted
from store.measure.length import INCH_NM, Length, show_length
from store.records.access import Panel, Photo
from store.records.equipment import Equipment
from store.records.inside import ShelfBoard
from store.records.wall import BuildOut, Obstacle, Opening, Wall, Zone
from store.records.whole import Job
from store.records.wiring import Box, Cable, Raceway
from store.rules.cable.courses import raceway_course
from store.rules.cable.legs import Leg
from store.rules.cable.routes import routes
from store.rules.core.keyed import filed
from store.rules.drawing.kin import kin
from store.rules.drawing.led import led
from store.rules.drawing.shapes import LAYERS, LINES, Block, Extent, Layer, Run, Scene, Shape, Spot, Unplaced
from store.rules.fit.furniture import furniture_at
from store.rules.photo.places import photo_places
from store.rules.wall.lines import ceilings, floors
from store.rules.wall.places import (
    BEYOND_NM,
    ELSEWHERE,
    Point,
    Rect,
    bad_points,
    board_rect,
    equipment_rect,
    not_placed,
    rect_of,
    wall_of,
    without_repeats,
)
from store.rules.wall.readings import sizes
from store.rules.wall.shape import Face, Out, build_outs, face_of, spot, spot_on, stands_out_nm
from store.rules.wall.stud_row import stud_line
from store.rules.wall.unfold import hidden_by_out
from store.rules.wall.uprights import Upright, uprights
from store.trade.measured.framing import Stud, studs

DOOR_NM = 80 * INCH_NM
"""Height of a usual door, 6'-8": common practice."""
_AT = {layer: number for number, layer in enumerate(LAYERS)}
THIN_NM = INCH_NM // 2
"""What is on a return is drawn as a strip of this width along its edge."""


def scene(job: Job, wall_tag: str) -> Scene:
    """The elevation of a wall as seen from the room. Raises BadValue when there is no such wall."""
    wall = wall_named(job, wall_tag)
    beside, said_of = _round_the_corner(job, wall_tag)
    blocks = [
        *_build_outs(job, wall_tag),
        *beside,
        *_zones(job, wall_tag),
        *_obstacles(job, wall_tag),
        *_furniture(job, wall_tag),
        *_openings(job, wall_tag),
        *_boards(job, wall_tag),
        *_equipment(job, wall_tag),
    ]
    blocks += _panels(job, wall_tag)
    spots = [*_boxes(job).get(wall_tag, ()), *_photos(job, wall_tag)]
    width, height, remarks = face(job, wall_tag, [*(each.extent for each in blocks), *(each.extent for each in spots)])
    framing, why = _studs(job, wall, width, height, [each for each in blocks if each.layer == "openings"])
    runs = [*_runs(job).get(wall_tag, ()), *_lines(job, wall, width)]
    shapes: list[Shape] = [*framing, *blocks, *runs, *spots]
    shapes.sort(key=lambda each: _AT[each.layer])
    remarks += [
        f"{each.tag}: the point {text[:40]!r} is not a place like 4'/2' 6\" and was left out."
        for each in job.of(Cable).values()
        if each.route == "points" and wall_of(job, each.start) == wall_tag
        for text in bad_points(job, each)
    ]
    remarks += said_of
    missing = ([Unplaced(wall_tag, "studs", why)] if why else []) + list(_unplaced(job, wall_tag))
    metric = job.settings.metric
    return Scene(wall_tag, wall.name, width, height, tuple(shapes), tuple(missing), tuple(remarks), metric=metric)


def wall_named(job: Job, tag: str) -> Wall:
    wall = job.of(Wall).get(tag)
    if wall is None:
        raise BadValue(f"no wall {quoted(tag)} in this job. Add it to the list of walls.")
    return wall


def face(job: Job, tag: str, extents: Sequence[Extent], only: str = "") -> tuple[int, int, list[str]]:
    """Width and height of a wall: the readings that govern, or how far the things on it reach."""
    read, remarks, found = sizes(job), [], []
    for what, edge in (("width", 2), ("height", 3)):
        known = read.get((tag, what))
        found.append(known.least.nm if known else max((each[edge] for each in extents), default=0))
        if what == "height" and job.of(Wall)[tag].ceiling_line and (line := ceilings(job).get(tag)) is not None:
            found[-1] = line.highest(0, found[0])
            continue
        if known or (only and what != only):
            continue
        reach = "it is drawn as far as what is on it" if found[-1] else "it is not known"
        remarks.append(f"No {what} reading yet: {reach}.")
    return found[0], found[1], remarks


def lay_out(job: Job, wall: Wall, width: int) -> tuple[tuple[Stud, ...], str]:
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
    line, why = lay_out(job, wall, width)
    framed = [each for each in uprights(job, wall.tag) if each.low_nm < height]
    if framed:
        outs = build_outs(job).get(wall.tag, ())
        behind = [piece for each in framed for piece in _not_behind(each, outs, height)]
        fronts = [each for out in outs for each in uprights(job, wall.tag, out.tag)]
        return [*behind, *(_upright(each, height) for each in fronts)], why
    pieces = []
    for number, stud in enumerate(line, 1):
        cuts = [each.extent for each in openings if each.x < stud.right_nm and stud.left_nm < each.extent[2]]
        pieces += [
            Block("", "studs", "stud", f"stud {number}", stud.left_nm, low, stud.right_nm - stud.left_nm, high - low)
            for low, high in left_over(0, height, [(bottom, top) for _, bottom, _, top in cuts])
        ]
    return pieces, why


def _not_behind(each: Upright, outs: Sequence[Out], height: int) -> Iterator[Block]:
    """What is seen of an upright of the wall: not where a build-out stands before it."""
    middle, block = (each.left_nm + each.right_nm) // 2, _upright(each, height)
    over = [(out.rect.y_nm, out.rect.top_nm) for out in outs if out.rect.x_nm <= middle <= out.rect.right_nm]
    for low, high in left_over(block.y, block.y + block.height, over):
        yield Block("", "studs", "stud", each.part, each.left_nm, low, block.width, high - low)


def _upright(each: Upright, height: int) -> Block:
    high = min(each.high_nm, height)
    wide = each.right_nm - each.left_nm
    return Block("", "studs", "stud", each.part, each.left_nm, each.low_nm, wide, max(0, high - each.low_nm))


def left_over(start: int, end: int, taken: Iterable[tuple[int, int]]) -> Iterator[tuple[int, int]]:
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


def _build_outs(job: Job, wall: str) -> Iterator[Block]:
    """The fronts of the build-outs, the one nearest to the wall first."""
    line, known = ceilings(job).get(wall), sizes(job).get((wall, "height"))
    for each in reversed(build_outs(job).get(wall, ())):
        one, rect = job.of(BuildOut)[each.tag], each.rect
        high = rect.height_nm
        if one.height is None and line is None and known is None:
            # Nobody read how high the ceiling is: as high as a usual door, so that it is seen at all.
            high = DOOR_NM
        what = "soffit" if one.y.nm > 0 and one.height is None else "build-out"
        yield Block(
            each.tag, "build-outs", what, one.name, rect.x_nm, rect.y_nm, rect.width_nm, high, _under(job, each)
        )


def _round_the_corner(job: Job, wall: str) -> tuple[list[Block], list[str]]:
    """The build-outs of the walls beside that stand before this one, as their sides are seen; a sentence of each."""
    blocks, remarks = [], []
    metric = job.settings.metric
    for other in job.of(Wall):
        for out in build_outs(job).get(other, ()) if other != wall else ():
            for on, left, right in hidden_by_out(job, out):
                if on == wall:
                    rect = Rect(left, out.rect.y_nm, right - left, out.rect.height_nm)
                    # Without a tag: it is moved and chosen on its own wall.
                    blocks.append(_block("", "build-outs", "build-out", job.of(BuildOut)[out.tag].name, rect))
                    ends = [show_length(Length(each), metric) for each in (left, right)]
                    name = f"{out.tag} {job.of(BuildOut)[out.tag].name} on {other}"
                    remarks.append(f"{name} is in front of this wall from {ends[0]} to {ends[1]}.")
    return blocks, remarks


def _under(job: Job, out: Out) -> tuple[Point, ...]:
    """The corners of a front that a sloped or stepped ceiling cuts; empty where none does."""
    line, rect = ceilings(job).get(out.wall), out.rect
    if line is None or line.lowest(rect.x_nm, rect.right_nm) >= rect.top_nm:
        return ()
    top = line.clipped(rect.x_nm, rect.right_nm, rect.top_nm)
    return without_repeats(((rect.x_nm, rect.y_nm), (rect.right_nm, rect.y_nm), *reversed(top)))


def _zones(job: Job, wall: str) -> Iterator[Block]:
    for tag, one in job.of(Zone).items():
        rect = Rect(one.x.nm, one.y.nm, one.width.nm, one.height.nm)
        if one.wall == wall and (seen := _seen(job, tag, rect)):
            yield _block(tag, "finishes", "finish", one.name, seen)


def _obstacles(job: Job, wall: str) -> Iterator[Block]:
    for tag, one in job.of(Obstacle).items():
        if one.wall == wall:
            yield Block(tag, "obstacles", one.what, one.what, one.x.nm, one.y.nm, one.width.nm, one.height.nm)


def _openings(job: Job, wall: str) -> Iterator[Block]:
    for tag, one in job.of(Opening).items():
        if one.wall == wall and (rect := _seen(job, tag, rect_of(one))):
            yield _block(tag, "openings", one.use, one.name, rect)


def _boards(job: Job, wall: str) -> Iterator[Block]:
    """The shelves and dividers inside the openings, each where its opening is seen from the front."""
    for tag, one in job.of(ShelfBoard).items():
        if wall_of(job, tag) == wall and face_is_front(job, one.opening) and (rect := board_rect(job, tag)):
            yield _block(tag, "openings", one.what, one.name or one.what, rect)


def face_is_front(job: Job, opening: str) -> bool:
    """True for an opening that is seen from the front: in the wall's own face, or in the front of a build-out."""
    there = face_of(job, opening)
    return there is None or there.side in ("wall", "front")


def _equipment(job: Job, wall: str) -> Iterator[Block]:
    for tag, one in job.of(Equipment).items():
        if one.retired is not None or wall_of(job, tag) != wall:
            continue
        if rect := _seen(job, tag, equipment_rect(job, one), stands_out_nm(job, one) or 0):
            yield _block(tag, "equipment", one.what, one.name, rect)


def _panels(job: Job, wall: str) -> Iterator[Block]:
    for tag, one in job.of(Panel).items():
        if one.wall == wall and (rect := _seen(job, tag, rect_of(one))):
            yield _block(tag, "panels", one.opens, one.name, rect)


def _seen(job: Job, tag: str, rect: Rect | None, out: int = 0) -> Rect | None:
    """The outline as it is seen from the front: of what is on a return, an underside or a top, its edge in the face, or
    what stands so far out of it.
    """
    face = face_of(job, tag) if rect is not None else None
    if rect is None or face is None or face.side in ("wall", "front"):
        return rect
    if face.side in ELSEWHERE:
        return _seen_elsewhere(job, face, rect)
    place, thick = spot_on(job, face, rect.x, rect.y), out or THIN_NM
    # What is in the face goes into the build-out, and what stands on it away from it.
    if face.side in ("underside", "top"):
        return Rect(rect.x, place.y_nm - (thick if (face.side == "top") != bool(out) else 0), rect.width, thick)
    return Rect(place.x_nm - (thick if (face.side == "right return") != bool(out) else 0), rect.y, thick, rect.height)


def _seen_elsewhere(job: Job, face: Face, rect: Rect) -> Rect:
    """The edge of a panel in a ceiling, a floor or the side of a cabinet, as a strip."""
    place = spot_on(job, face, rect.x, rect.y)
    if face.side in ("ceiling", "floor"):
        return Rect(rect.x, place.y_nm - (THIN_NM if face.side == "ceiling" else 0), rect.width, THIN_NM)
    return Rect(place.x_nm - (THIN_NM if face.side == "cabinet right side" else 0), rect.y, THIN_NM, rect.height)


def _furniture(job: Job, wall: str) -> Iterator[Block]:
    for one in furniture_at(job).get(wall, ()):
        yield Block(one.tag, "obstacles", "furniture", one.name, one.x.nm, one.y.nm, one.width.nm, one.height.nm)


@filed(Box)
def _boxes(job: Job, one: Box) -> Iterator[tuple[str, Spot]]:
    """The boxes on each wall."""
    if one.x is not None and one.y is not None:
        place = spot(job, one.tag)
        x, y = (one.x.nm, one.y.nm) if place is None else (place.x_nm, place.y_nm)
        yield one.wall, Spot(one.tag, "boxes", one.what, one.name or one.what, x, y, one.new)


def _photos(job: Job, wall: str) -> Iterator[Spot]:
    for tag, (on, (x, y)) in photo_places(job).items():
        if on == wall:
            photo = job.of(Photo)[tag]
            yield Spot(tag, "photos", "photo", photo.shows or photo.file, x, y)


@filed(Raceway, Cable)
def _runs(job: Job, one: Raceway | Cable) -> Iterator[tuple[str, Run]]:
    """What runs over each wall, each as measured; of a run round a corner the part on that wall."""
    way = led(job, one)
    for wall in dict.fromkeys(leg.wall for leg in way.legs):
        for path in _paths(wall, way.legs):
            yield wall, Run(one.tag, way.layer, way.kind, way.label, path)


def _lines(job: Job, wall: Wall, width: int) -> Iterator[Run]:
    """The floor line and the ceiling line where they are more than level."""
    for typed, line, what in (
        (wall.ceiling_line, ceilings(job).get(wall.tag), LINES[1]),
        (wall.floor_line, floors(job).get(wall.tag), LINES[0]),
    ):
        if typed and line is not None and width:
            yield Run("", "build-outs", what, what, line.corners(0, width))


def _paths(wall: str, legs: Iterable[Leg]) -> Iterator[tuple[Point, ...]]:
    """The stretches on a wall as lines; what runs above it or below it is drawn farther out."""
    path: list[Point] = []
    last: Leg | None = None
    for leg in legs:
        line = [leg.start, leg.end]
        joined = last is not None and last.wall == leg.wall and last.end == leg.start
        if leg.place == "beyond":
            over = leg.start[1] > BEYOND_NM
            line[1:1] = [(x, y + (BEYOND_NM if over else -BEYOND_NM)) for x, y in line]
            if joined and last is not None and last.place == "beyond" and path:
                # It goes on above the wall, or below it: it does not come back to the edge between.
                path.pop()
                line.pop(0)
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
    for walls, one in _not_drawn(job).get("", ()):
        if wall in walls or not any(walls):
            yield one


@filed(Opening, Panel, Box, Equipment, Raceway, Cable)
def _not_drawn(
    job: Job, one: Opening | Panel | Box | Equipment | Raceway | Cable
) -> Iterator[tuple[str, tuple[tuple[str, ...], Unplaced]]]:
    """What cannot be drawn, with the walls that it belongs to; all of it together."""
    walls: tuple[str, ...]
    if isinstance(one, Raceway | Cable):
        walls = wall_of(job, one.start), wall_of(job, one.end)
        name, why = one.name or one.type, _why_no_run(job, one)
    elif isinstance(one, Equipment):
        walls, name = (wall_of(job, one.tag),), one.name
        why = _why_no_device(job, one) if one.retired is None and equipment_rect(job, one) is None else ""
    else:
        walls, name, why = (str(one.wall),), one.name, not_placed(one)
    if why:
        yield "", (walls, Unplaced(one.tag, name, why))


def _why_no_device(job: Job, one: Equipment) -> str:
    if not one.opening:
        return "in no opening and on no face" if not one.wall else "its place or its size is not entered"
    opening = job.of(Opening).get(one.opening)
    if opening is None or rect_of(opening) is None:
        return f"its opening {one.opening} is not placed yet"
    return "no width and height entered"


def _why_no_run(job: Job, one: Cable | Raceway) -> str:
    """What is missing for its way; empty when it is drawn, or was given up."""
    if isinstance(one, Cable):
        route = routes(job).get(one.tag)
        return route.why if route is not None and not route.legs else ""
    way = raceway_course(job, one)
    return way if isinstance(way, str) else ""


__all__ = ["LAYERS", "Block", "Layer", "Run", "Scene", "Shape", "Spot", "Unplaced", "kin", "scene"]
