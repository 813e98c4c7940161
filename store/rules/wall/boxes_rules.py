"""Findings about where boxes are: off the wall, on a window or a door, on an edge, on one another, on a stud, at a
height that nobody uses."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from store.measure.length import INCH_NM
from store.records.equipment import Equipment
from store.records.wall import BuildOut, Obstacle, Opening, Wall
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each, index, of_each, said_by
from store.rules.core.wording import listed, named, said, sized
from store.rules.wall.contents import opening_at
from store.rules.wall.hung import NO_BOX_IN, PLATE_NM, body, hidden_by, top_plates
from store.rules.wall.layout import walls
from store.rules.wall.lines import ceilings, floors
from store.rules.wall.places import on_side
from store.rules.wall.shape import Face, bounds_of, build_outs, face_of, stands_in_front
from store.rules.wall.uprights import row_of
from store.trade.measured.plane import Rect, overlap_rect

PRACTICE = "common practice"
GEOMETRY = "plane geometry"
INSIDE, REACHES = "inside", "and the box reaches into"
CELL_NM = 6 * INCH_NM
"""Boxes are looked up by squares of the wall of this size."""
MOST_CELLS = 60
"""A box over more of them across is mistyped."""
SWITCH_NM = (24 * INCH_NM, 60 * INCH_NM)
"""Heights of a switch that are not asked about; our own."""
USUAL_NM = (42 * INCH_NM, 48 * INCH_NM)
"""Of its center: common practice."""
REACH_NM = 78 * INCH_NM
"""What is plugged in higher is plugged in from a ladder; our own."""
HIGH_WORDS = {"switch": "Switch", "receptacle": "Receptacle", "low-voltage": "Low-voltage box"}
_boxes_on = index(Box, lambda box: (box.wall,) if box.wall and box.new else ())
"""The new boxes of each wall."""


@rule
@from_each(Box)
def box_off_wall(job: Job, box: Box) -> Iterable[Finding]:
    """A box that is not, or not whole, on the face that it is on: past an end, above the ceiling, in the floor; or in
    the plates, where none can be set."""
    rect, face = body(box), face_of(job, box.tag)
    bounds = bounds_of(job, face) if face is not None else None
    if rect is None or face is None or bounds is None or not bounds.width_nm or not bounds.height_nm:
        return
    on = face.out or face.wall
    low, high = _ends(job, rect, face, bounds)
    over = max(bounds.x_nm - rect.x_nm, rect.right_nm - bounds.right_nm, low - rect.y_nm, rect.top_nm - high)
    if over > 0:
        where = next(
            word
            for word, by in (
                ("left end", bounds.x_nm - rect.x_nm), ("right end", rect.right_nm - bounds.right_nm),
                ("floor", low - rect.y_nm), ("ceiling" if not face.out else "top", rect.top_nm - high),
            )
            if by == over
        )  # fmt: skip
        yield Finding(
            "box_off_wall",
            "fix",
            (box.tag, on),
            f"{sized(job, over)} past the {where} of {on}",
            f"Move {box.tag} onto {on}, or correct its place or the reading of {face.wall}.",
            GEOMETRY,
            {"over": sized(job, over), "past": where},
            why=f"Its center is {_place(job, box)}; a box is about {sized(job, rect.width_nm)} wide and "
            f"{sized(job, rect.height_nm)} high.",
            about=(box.tag,),
        )
    elif box.new and face.side == "wall" and (plate := _in_plate(job, face, rect, low, high)):
        yield Finding(
            "box_off_wall",
            "fix",
            (box.tag, on),
            f"In the {plate} plate of {on}",
            f"Move {box.tag} {'up' if plate == 'bottom' else 'down'} into the stud bay.",
            PRACTICE,
            {"at": said(job, rect.y_nm), "plate": plate},
            why=f"Its center is {_place(job, box)}. A box there has no room: the plate is "
            f"{sized(job, PLATE_NM if plate == 'bottom' else top_plates(job, face.wall))} of solid wood.",
            about=(box.tag,),
        )


def _ends(job: Job, rect: Rect, face: Face, bounds: Rect) -> tuple[int, int]:
    """Where a face begins and ends at a box, between the floor line and the ceiling line."""
    floor, ceiling = floors(job).get(face.wall), ceilings(job).get(face.wall)
    if face.side not in ("wall", "front"):
        return bounds.y_nm, bounds.top_nm
    left, right = rect.x_nm, rect.right_nm
    low = bounds.y_nm if floor is None else max(bounds.y_nm, floor.highest(left, right))
    high = bounds.top_nm if ceiling is None else min(bounds.top_nm, ceiling.lowest(left, right))
    return low, high


def _in_plate(job: Job, face: Face, rect: Rect, low: int, high: int) -> str:
    """`bottom` or `top` where a box reaches into a plate of a framed wall; empty where it does not."""
    if rect.y_nm < low + PLATE_NM:
        return "bottom"
    return "top" if rect.top_nm > high - top_plates(job, face.wall) else ""


def _place(job: Job, box: Box) -> str:
    x, y = box.x.nm if box.x is not None else 0, box.y.nm if box.y is not None else 0
    return f"{said(job, x)} from left and {said(job, y)} up"


@rule
@from_each(Box)
def box_on_obstacle(job: Job, box: Box) -> Iterable[Finding]:
    """A new box in the place of a window, a door, a vent or a pipe, or across its edge."""
    wall, own = walls(job).get(box.wall), body(box)
    if wall is None or own is None or not box.new or box.x is None or box.y is None or on_side(box):
        return
    for each in wall.obstacles:
        what = job.of(Obstacle)[each.tag].what
        rect = each.rect
        if what in NO_BOX_IN and overlap_rect(rect, own):
            within = rect.x_nm < box.x.nm < rect.right_nm and rect.y_nm < box.y.nm < rect.top_nm
            yield Finding(
                "box_on_obstacle",
                "fix",
                (box.tag, each.tag),
                f"Overlaps the {what} {each.tag}",
                f"Move {box.tag} clear of it, or correct where one of them is.",
                PRACTICE,
                {"at": f"{said(job, box.x.nm)}, {said(job, box.y.nm)} up", "what": what},
                why=f"Its center is {_place(job, box)}, {INSIDE if within else REACHES} the {what}.",
                about=(box.tag,),
            )


@rule
@from_each(Box)
def box_on_edge(job: Job, box: Box) -> Iterable[Finding]:
    """A new box that the edge of an opening goes through: half of it in the wall, half in the hole."""
    wall, own = walls(job).get(box.wall), body(box)
    if wall is None or own is None or not box.new or on_side(box):
        return
    face = face_of(job, box.tag)
    for each in wall.openings:
        there = face_of(job, each.tag)
        shared = overlap_rect(each.rect, own)
        if shared is None or shared == own or there != face or stands_in_front(job, job.of(Opening)[each.tag]):
            continue
        yield Finding(
            "box_on_edge",
            "fix",
            (box.tag, each.tag),
            f"Across the edge of {each.tag}",
            f"Move {box.tag} into {each.tag}, or clear of it and of the stud at its side.",
            GEOMETRY,
            {"at": _place(job, box), "opening": each.tag},
            why=f"Its center is {_place(job, box)}, and an edge of {named(job, each.tag)} goes through it.",
            about=(box.tag,),
        )


@rule
@from_each(Box)
def boxes_overlap(job: Job, box: Box) -> Iterable[Finding]:
    """Two boxes that take the same place of a face; the later one tells of the first that it is on."""
    own, under = body(box), _first_under(job).get(box.tag)
    if own is None or under is None:
        return
    tag, rect, wide = under
    yield Finding(
        "boxes_overlap",
        "fix",
        (box.tag, tag),
        f"In the place of {tag}, by {sized(job, wide)}",
        f"Move one of them {sized(job, wide)} or more aside, or make them one box with more gangs.",
        GEOMETRY,
        {"across": sized(job, wide), "other": tag},
        why=f"The centers of {named(job, box.tag)} and {named(job, tag)} are "
        f"{sized(job, abs(_middle(rect)[0] - _middle(own)[0]))} apart across and "
        f"{sized(job, abs(_middle(rect)[1] - _middle(own)[1]))} up.",
        about=(box.tag,),
    )


@of_each(Box)
def _first_under(job: Job, box: Box) -> tuple[str, Rect, int] | None:
    """The first of the boxes whose place a later one takes, that place, and how wide the part is that both take: while
    that is the same, whatever else moves about a box, nothing about it is judged again."""
    own = body(box)
    for cell in _cells(own) if own is not None else ():
        for tag, side, rect in _in_cell(job).get((box.wall, *cell), ()):
            if own is not None and _later(box.tag, tag) and side == (box.face, box.on):
                shared = overlap_rect(rect, own)
                if shared is not None:
                    return tag, rect, shared.width_nm
    return None


def _later(tag: str, other: str) -> bool:
    return (len(tag), tag) > (len(other), other)


def _middle(rect: Rect) -> tuple[int, int]:
    return rect.x_nm + rect.width_nm // 2, rect.y_nm + rect.height_nm // 2


def _cells(rect: Rect) -> list[tuple[int, int]]:
    """The squares of a wall that a box is on."""
    across = range(rect.x_nm // CELL_NM, rect.right_nm // CELL_NM + 1)
    up = range(rect.y_nm // CELL_NM, rect.top_nm // CELL_NM + 1)
    return [(x, y) for x in across[:MOST_CELLS] for y in up]


@said_by(Box)
def _in_cell(box: Box) -> Iterator[tuple[tuple[str, int, int], tuple[str, tuple[str, str], Rect]]]:
    """The boxes on each square of a wall, each with its face and what it takes."""
    rect = body(box)
    for cell in _cells(rect) if rect is not None else ():
        yield (box.wall, *cell), (box.tag, (box.face, box.on), rect)  # type: ignore[misc]


@rule
@from_each(Box)
def box_height_odd(job: Job, box: Box) -> Iterable[Finding]:
    """A switch, or an outlet of the room, at a height where nobody reaches or looks for it."""
    line = ceilings(job).get(box.wall)
    if not box.new or box.x is None or box.y is None or on_side(box) or body(box) is None:
        return
    if line is not None and box.y.nm >= line.at(box.x.nm):
        return
    high = box.y.nm
    if box.what == "switch":
        odd = not SWITCH_NM[0] <= high <= SWITCH_NM[1]
        usual = f"Switches are usually {said(job, USUAL_NM[0])} to {said(job, USUAL_NM[1])} up."
    else:
        used = bool(opening_at(job, box.tag)) or box.tag in hidden_by(job) or bool(_served(job).get(box.tag))
        odd = box.what in ("receptacle", "low-voltage") and high > REACH_NM and not used
        usual = "Nothing on the plan is near it or plugs in there."
    if odd:
        yield Finding(
            "box_height_odd",
            "look",
            (box.tag,),
            f"{HIGH_WORDS.get(box.what, 'Box')} {said(job, high)} off the floor",
            f"Check the height of {box.tag}. If it is right, accept this.",
            PRACTICE,
            {"up": said(job, high)},
            why=usual,
        )


_served = index(Equipment, lambda one: (one.plug,) if one.plug else ())
"""What plugs into each box, or is wired in it."""


@rule
@from_each(Wall)
def box_on_stud(job: Job, record: Wall) -> Iterable[Finding]:
    """New boxes whose center is on a stud of a wall, or of a build-out, that stands; one finding for each of them."""
    if record.framing != "existing" and all(
        job.of(BuildOut)[each.tag].new for each in build_outs(job).get(record.tag, ())
    ):
        return
    found: dict[str, list[Box]] = {}
    for box in _boxes_on(job).get(record.tag, ()):
        face = face_of(job, box.tag)
        if face is not None and face.side in ("wall", "front") and box.x is not None and _stands(job, record, face):
            row = row_of(job, record.tag, face.out)
            if any(stud.left_nm < box.x.nm < stud.right_nm for stud in row):
                found.setdefault(face.out or record.tag, []).append(box)
    for on, boxes in found.items():
        tags = tuple(box.tag for box in boxes)
        yield Finding(
            "box_on_stud",
            "look",
            (*tags, on),
            f"On a stud of {on}",
            "Move each beside the stud, so that it can be nailed to its side. Find the stud first.",
            PRACTICE,
            {box.tag: said(job, box.x.nm) for box in boxes if box.x is not None},
            why=f"By the layout of the studs the center of {listed(tags)} is on one.",
            about=tags,
        )


def _stands(job: Job, wall: Wall, face: Face) -> bool:
    """True where the framing of a face is there already: of new framing the studs are set out round the boxes."""
    out = job.of(BuildOut).get(face.out) if face.out else None
    return wall.framing == "existing" if out is None else not out.new
