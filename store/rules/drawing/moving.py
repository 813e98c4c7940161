"""Moving a thing on the wall: by a step, to a stud, to a neighbour, to the middle."""

from __future__ import annotations

from typing import Literal, TypeVar, cast

import msgspec

from store.measure.errors import BadValue
from store.measure.length import INCH_NM, MM_NM, SIXTEENTH_NM, Length, show_length
from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.field import Ref
from store.records.inside import ShelfBoard
from store.records.wall import Opening
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.drawing.elevation import scene
from store.rules.drawing.shapes import Block, Scene
from store.rules.wall.inside import insides, thickness_nm
from store.rules.wall.layout import walls
from store.rules.wall.lines import ceilings
from store.rules.wall.places import ELSEWHERE, RETURNS, on_side
from store.rules.wall.readings import sizes
from store.rules.wall.shape import face_of, out_of
from store.rules.wall.unfold import next_walls
from store.rules.wall.uprights import studs_at, uprights
from store.trade.fit.inside import on_pins

Movable = Opening | Panel | Box | Equipment | ShelfBoard
M = TypeVar("M", bound=Movable)
S = TypeVar("S", bound=ShelfBoard)
Placed = Opening | Panel | Box | Equipment
P = TypeVar("P", bound=Placed)
Target = Literal["stud", "neighbour", "centre"]

BOX_HALF_NM = 9 * INCH_NM // 8
"""Half the width of a single-gang box, 2 1/4 in over all: common practice, from memory; only snapping uses it."""


def movable(job: Job, tag: str) -> Movable:
    """The record that can be moved on the drawing. Raises BadValue when it cannot."""
    record = job.get(tag)
    if isinstance(record, ShelfBoard):
        if (record.along if record.what == "divider" else record.up) is None:
            raise BadValue(f"{tag} is not placed yet. e = enter its place")
        return record
    in_opening = isinstance(record, Equipment) and bool(record.opening)
    if not isinstance(record, Opening | Panel | Box | Equipment) or in_opening:
        raise BadValue(
            f"{tag} can't be moved on the drawing. Move an opening, an access panel, a box or a thing on a face."
        )
    if record.x is None or record.y is None or not record.wall:
        raise BadValue(f"{tag} is not placed yet. e = enter its place")
    if record.face in ELSEWHERE:
        raise BadValue(f"{tag} is in the {record.face}, which no drawing shows. e = enter its place")
    return record


def view_for(record: Movable) -> Literal["front", "plan", "section"]:
    """The drawing on which a thing is moved: the one that looks at its face, or along its depth."""
    face = "" if isinstance(record, ShelfBoard) else record.face
    return "section" if face in SEEN_UPRIGHT else "plan" if face in RETURNS else "front"


SEEN_UPRIGHT = ("left return", "right return")
"""Faces whose places across are from the wall out, which the upright cut shows; of an underside or a top it is the
places up, which the cut from above shows. In both the wall is on the far side, so that on comes back."""


def step_nm(metric: bool, fine: bool) -> int:
    """How far one key moves: 1/2 in or 1/16 in; 10 mm or 1 mm."""
    if metric:
        return MM_NM if fine else 10 * MM_NM
    return SIXTEENTH_NM if fine else INCH_NM // 2


def moved(record: M, right_nm: int, up_nm: int) -> M:
    """The record at another place; never left of the corner nor below the floor.

    A shelf goes up and down inside its opening, a divider sideways.
    """
    if isinstance(record, ShelfBoard):
        if record.what == "divider":
            return msgspec.structs.replace(record, along=_gone(record.along, right_nm))
        return msgspec.structs.replace(record, up=_gone(record.up, up_nm))
    x, y = cast(Length, record.x), cast(Length, record.y)
    return msgspec.structs.replace(
        record, x=Length(max(0, x.nm + right_nm), x.metric), y=Length(max(0, y.nm + up_nm), y.metric)
    )


def stepped(job: Job, record: M, right_nm: int, up_nm: int) -> M:
    """The record a step further: where the wall ends, and another meets it there, round the corner onto that one."""
    if isinstance(record, ShelfBoard):
        return moved(record, right_nm, up_nm)
    if on_side(record):
        return _on_its_face(job, record, right_nm, up_nm)
    if not right_nm:
        return _under_ceiling(job, record, moved(record, right_nm, up_nm))
    left, right = _sides(record)
    onward, wide = next_walls(job), sizes(job).get((record.wall, "width"))
    other = ""
    if right_nm > 0 and wide is not None and right + right_nm > wide.least.nm:
        other, at = onward.get(record.wall, ""), 0
    elif right_nm < 0 and left + right_nm < 0:
        other = next((one for one, following in onward.items() if following == record.wall), "")
        beside = sizes(job).get((other, "width"))
        if beside is None:
            other = ""
        else:
            at = max(0, beside.least.nm - (right - left))
    if not other:
        return _under_ceiling(job, record, moved(record, right_nm, up_nm))
    x = cast(Length, record.x)
    there = {"wall": Ref(other), "x": Length(x.nm - left + at, x.metric), "face": "nearest", "on": Ref("")}
    return moved(msgspec.structs.replace(record, **there), 0, up_nm)


def _on_its_face(job: Job, record: P, right_nm: int, up_nm: int) -> P:
    """A step on a face seen from the side, as the drawing of it shows it; none off the build-out that it is on."""
    upright = view_for(record) == "section"
    new = moved(record, -right_nm, up_nm) if upright else moved(record, right_nm, -up_nm)
    face = face_of(job, record.tag)
    out = out_of(job, face.out) if face is not None else None
    if out is None:
        return new
    across, up = (0, out.depth_nm), (out.rect.y_nm, out.rect.top_nm)
    if not upright:
        across, up = (out.rect.x_nm, out.rect.right_nm), (0, out.depth_nm)
    ends = zip((_sides, _heights), (across, up), strict=True)
    past = sum(_past(side(new), most) - _past(side(record), most) for side, most in ends)
    return new if past <= 0 else record


def _past(ends: tuple[int, int], most: tuple[int, int]) -> int:
    """How far a stretch goes past another at either end."""
    return max(0, most[0] - ends[0]) + max(0, ends[1] - most[1])


def _under_ceiling(job: Job, record: P, new: P) -> P:
    """The thing at its new place, or as high as the ceiling lets it; where it is lower there already, no further."""
    line = ceilings(job).get(new.wall)
    if line is None or new.wall != record.wall:
        return new

    def over(one: Placed) -> int:
        return max(0, _heights(one)[1] - line.lowest(*_sides(one)))

    if over(new) <= over(record):
        return new
    low = moved(new, 0, -over(new))
    return low if new.x == record.x and _heights(low)[0] >= _heights(record)[0] else record


def _gone(place: Length | None, by_nm: int) -> Length | None:
    return None if place is None else Length(max(0, place.nm + by_nm), place.metric)


def snapped(job: Job, record: M, to: Target) -> M:
    """The record moved sideways to the nearest stud face, to the nearest neighbour's edge, or to the wall's middle.

    Raises BadValue when there is nothing of that sort.
    """
    if isinstance(record, ShelfBoard):
        return _snapped_inside(job, record, to)
    if on_side(record):
        raise BadValue(f"{record.tag} is on the {record.face}. Move it with the arrows, or = to type its place.")
    drawn = scene(job, record.wall)
    left, right = _sides(record)
    if to == "centre":
        return moved(record, drawn.width // 2 - (left + right) // 2, 0)
    edges = _stud_faces(job, record) if to == "stud" else _neighbour_edges(drawn, record.tag)
    shifts = [edge - side for edge in edges for side in (left, right)]
    if not shifts:
        raise BadValue(f"no {to} on {record.wall} to snap to. Move it with the arrows, or = to type its place.")
    # Nought first: a thing that already touches stays; else the shortest way.
    return moved(record, min(shifts, key=abs), 0)


def _snapped_inside(job: Job, board: S, to: Target) -> S:
    """A divider in the middle of its opening; an adjustable shelf on the nearest pins of its opening.

    Raises BadValue for everything else.
    """
    opening, there = job.of(Opening).get(board.opening), insides(job).get(board.opening)
    if board.what == "divider" and to == "centre" and there is not None and opening is not None:
        middle = (there.width_nm - thickness_nm(board, opening)) // 2
        return msgspec.structs.replace(board, along=Length(middle))
    first, step = (opening.pin_first, opening.pin_step) if opening is not None else (None, None)
    if board.up is None or opening is None or first is None or step is None or board.what != "adjustable shelf":
        raise BadValue(f"{board.tag} is inside a cabinet. Move it with the arrows.")
    thick = thickness_nm(board, opening)
    near = on_pins(board.up.nm - thick, first.nm, step.nm)
    if near is None:
        return board
    top = board.up.nm
    under = min(near, key=lambda at: abs(at + thick - top))
    return msgspec.structs.replace(board, up=Length(under + thick))


def _sides(record: Placed) -> tuple[int, int]:
    x = cast(Length, record.x).nm
    if isinstance(record, Equipment):
        half = record.width.nm // 2 if record.width else 0
        return x - half, x + half
    if isinstance(record, Box):
        return x - BOX_HALF_NM, x + BOX_HALF_NM
    return x, x + (record.width.nm if record.width else 0)


def _stud_faces(job: Job, record: Placed) -> list[int]:
    """Both faces of each upright at the height of a thing; of an opening those of the row, not what frames itself."""
    face = face_of(job, record.tag)
    out = face.out if face is not None and face.side == "front" else ""
    if isinstance(record, Opening):
        on = walls(job).get(record.wall)
        row = [(each.left_nm, each.right_nm) for each in on.studs] if on is not None else []
        front = [each for each in uprights(job, record.wall, out) if each.part in ("stud", "cripple")] if out else []
        return [edge for faces in ([(each.left_nm, each.right_nm) for each in front] or row) for edge in faces]
    low, high = _heights(record)
    there = studs_at(job, record.wall, low, high, out) or studs_at(job, record.wall, low, high)
    return [edge for each in there for edge in (each.left_nm, each.right_nm)]


def _heights(record: Placed) -> tuple[int, int]:
    y = cast(Length, record.y).nm
    high = 0 if isinstance(record, Box) or record.height is None else record.height.nm
    low = y - high // 2 if isinstance(record, Equipment) else y
    return low, low + high


def _neighbour_edges(drawn: Scene, tag: str) -> list[int]:
    others = [
        each
        for each in drawn.shapes
        if isinstance(each, Block) and each.layer in ("openings", "panels", "obstacles") and each.tag != tag
    ]
    return [edge for each in others for edge in (each.x, each.x + each.width)]


def move_words(before: Movable, after: Movable, metric: bool) -> str:
    """`right 2", up 1/2"`: how far a thing was moved; empty when it was not."""
    words = []
    if not isinstance(before, ShelfBoard) and not isinstance(after, ShelfBoard) and before.wall != after.wall:
        across, up = (show_length(each, metric) for each in _place(after) if each is not None)
        return f"to {after.wall}, {across} from left, {up} up"
    places = _place(before), _place(after)
    view = view_for(after)
    depth = ("out", "back")
    named = (depth if view == "section" else ("right", "left"), depth if view == "plan" else ("up", "down"))
    for was, now, ways in zip(*places, named, strict=True):
        if was is not None and now is not None and was != now:
            far = now - was
            words.append(f"{ways[far.nm < 0]} {show_length(Length(abs(far.nm)), metric)}")
    return ", ".join(words)


def _place(record: Movable) -> tuple[Length | None, Length | None]:
    """Its place across and up; of a board inside an opening, from the inside of that."""
    return (record.along, record.up) if isinstance(record, ShelfBoard) else (record.x, record.y)
