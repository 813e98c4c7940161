"""Whether each piece of equipment goes where it is meant to go: room inside its opening, beside its neighbours, and in.

Whole nanometres. A figure that nobody noted stays not known and is named; nothing is assumed in its place. What a
piece needs is the maker's size with the maker's clearances, and behind it the larger of the clearance there and
the deepest plug with its bend.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise

import msgspec

from store.records.equipment import Equipment
from store.records.wall import Opening
from store.records.whole import Job
from store.rules.core.keyed import by_key
from store.rules.fit.on_shelf import Room, room_of
from store.rules.fit.plug_room import turn_room_nm
from store.rules.wall.inside import insides
from store.rules.wall.layout import cables_at, in_opening
from store.rules.wall.pieces import gives_heat, hangs, inside_of, nm_of
from store.trade.fit.pieces import (
    TIGHT_NM,
    Clearances,
    Passage,
    Row,
    Size,
    Verdict,
    fit,
    passes,
    side_by_side,
    space_needed,
)

VERDICTS: tuple[Verdict, ...] = ("does not fit", "not known", "tight", "fits")
"""The worst first."""


class Piece(msgspec.Struct, frozen=True):
    """One piece of equipment in its opening. Spares are beyond every clearance; below 0 that much is missing."""

    tag: str
    opening: str
    needs: Size
    at_least: Size
    """The same with every figure that is not known counted as nothing."""
    inside: Size
    verdict: Verdict
    missing: tuple[str, ...]
    left_nm: int | None
    right_nm: int | None
    top_nm: int | None
    bottom_nm: int | None
    width_spare_nm: int | None
    height_spare_nm: int | None
    depth_spare_nm: int | None
    way_in: Passage | None
    """Through the door of its opening; None where no door narrows the way."""
    deepest_cable: str = ""
    """The cable whose plug and bend take most room behind it, where that is more than the clearance asked for."""
    cable_takes_nm: int = 0
    """How much more."""
    floor: str = ""
    """The shelf that it is said to stand on; empty for the bottom of its opening, or where nobody said."""
    above: str = ""
    """The shelf over it."""
    stack: tuple[str, ...] = ()
    """What it stands on, the nearest first, where that is other gear."""
    standing: bool = False
    """Somebody said what it stands on, so that its room is that space and not the whole opening."""


class Shared(msgspec.Struct, frozen=True):
    """Several pieces side by side in one opening."""

    opening: str
    tags: tuple[str, ...]
    row: Row
    missing: tuple[str, ...]


def clearances_of(one: Equipment, open_front: bool = False) -> Clearances:
    """The maker's clearances. In front of a heater without a door the room must be clear, not the opening."""
    front = 0 if open_front and gives_heat(one) else nm_of(one.clear_front)
    return Clearances(
        nm_of(one.clear_left),
        nm_of(one.clear_right),
        nm_of(one.clear_top),
        nm_of(one.clear_bottom),
        front,
        nm_of(one.clear_back),
    )


@by_key
def pieces(job: Job) -> Mapping[str, Piece]:
    """Every piece that is meant for an opening, by its tag."""
    rows = shared(job)
    found = {}
    for opening_tag, group in in_opening(job).items():
        opening = job.of(Opening).get(opening_tag)
        if opening is not None:
            for one in group:
                found[one.tag] = _piece(job, one, opening, rows.get(opening_tag))
    return found


@by_key
def shared(job: Job) -> Mapping[str, Shared]:
    """The openings that hold more than one piece, by tag; those with shelves are judged shelf by shelf."""
    found = {}
    for tag, group in in_opening(job).items():
        opening = job.of(Opening).get(tag)
        if insides(job).get(tag) is not None:
            continue
        if opening is not None and sum(one.count for one in group) > 1:
            found[tag] = _shared(opening, group)
    return found


def needs_of(job: Job, one: Equipment, open_front: bool = False) -> Size:
    """The space that a piece needs, whether or not it has an opening."""
    return space_needed(_size(one), clearances_of(one, open_front), [room for _, room in turns_behind(job, one)])


def turns_behind(job: Job, one: Equipment) -> list[tuple[str, int | None]]:
    """Each cable that ends at a piece, and the depth that its plug and bend take."""
    return [(cable.tag, turn_room_nm(job, cable)) for cable in cables_at(job).get(one.tag, ())]


def _piece(job: Job, one: Equipment, opening: Opening, beside: Shared | None) -> Piece:
    open_front = opening.door == "none"
    clear, inside, turns = clearances_of(one, open_front), inside_of(opening), turns_behind(job, one)
    rooms, size = [room for _, room in turns], _size(one)
    room = room_of(job, one, inside.depth_nm)
    if room is not None:
        inside, size, clear = _on_shelf(room, size, clear)
    found = fit(size, clear, inside, rooms, TIGHT_NM, nm_of(one.offset) if room is None else None)
    left, right, width_spare = found.left_spare_nm, found.right_spare_nm, found.width_spare_nm
    verdict, missing = found.verdict, _named(found.missing, opening.tag, turns)
    if room is not None:
        left, right = room.left_nm, room.right_nm
        verdict = min((verdict, room.row.verdict if room.row is not None else verdict), key=VERDICTS.index)
        if room.missing:
            missing += room.missing
            verdict = min((verdict, VERDICTS[1]), key=VERDICTS.index)
    if beside is not None:
        verdict = min(verdict, beside.row.verdict, key=VERDICTS.index)
        missing += tuple(each for each in beside.missing if not each.endswith(f" of {one.tag}"))
        width_spare = beside.row.spare_nm
        if one.offset is None:
            gaps = sum(each.count for each in in_opening(job).get(opening.tag, ())) + 1
            left = right = None if width_spare is None else width_spare // gaps
    bottom = None if found.height_spare_nm is None else found.height_spare_nm // 2 if hangs(one) else 0
    where = room.stand if room is not None else None
    top = None if found.height_spare_nm is None or bottom is None else found.height_spare_nm - bottom
    deepest = max(turns, key=lambda turn: turn[1] or 0, default=("", 0))
    more = (deepest[1] or 0) - (clear.back_nm or 0)
    return Piece(
        one.tag,
        opening.tag,
        space_needed(size, clear, rooms),
        _at_least(size, clear, rooms),
        inside,
        verdict,
        missing,
        left,
        right,
        top,
        bottom,
        width_spare,
        found.height_spare_nm,
        found.depth_spare_nm,
        _way_in(one, opening, inside_of(opening)),
        deepest[0] if more > 0 else "",
        max(0, more),
        where.floor if where is not None else "",
        where.above if where is not None and (room is None or room.topmost) else "",
        where.below if where is not None else (),
        where is not None,
    )


def _on_shelf(room: Room, size: Size, clear: Clearances) -> tuple[Size, Size, Clearances]:
    """The space a thing stands in, its size with what is under it, and the clearances that are then still to keep.

    Under what carries other gear nothing more is asked for above: the gear on it is judged with all that is under it.
    """
    high = room.needs_height_nm if room.topmost else size.height_nm
    top = clear.top_nm if room.topmost else 0
    whole = Size(size.width_nm, high, size.depth_nm)
    bottom = None if clear.bottom_nm is None and not room.stand.below else 0
    return room.inside, whole, msgspec.structs.replace(clear, top_nm=top, bottom_nm=bottom)


def _at_least(size: Size, clear: Clearances, rooms: Sequence[int | None]) -> Size:
    filled = Clearances(*(getattr(clear, name) or 0 for name in clear.__struct_fields__))
    known = Size(size.width_nm or 0, size.height_nm or 0, size.depth_nm or 0)
    return space_needed(known, filled, [room or 0 for room in rooms])


def _way_in(one: Equipment, opening: Opening, inside: Size) -> Passage | None:
    if opening.door == "none" and opening.door_width is None and opening.door_height is None:
        return None
    across = nm_of(opening.door_width) if opening.door_width or opening.door != "none" else inside.width_nm
    up = nm_of(opening.door_height) if opening.door_height or opening.door != "none" else inside.height_nm
    return passes(_size(one), Size(across, up))


def _named(missing: Sequence[str], opening: str, turns: Sequence[tuple[str, int | None]]) -> tuple[str, ...]:
    """The figures not known, each with what it belongs to."""
    found = []
    for each in missing:
        if each == "room for plug and bend behind":
            found += [f"kind of cable {tag}, for its bend" for tag, room in turns if room is None]
        elif each.endswith(" of opening"):
            found.append(each.replace("clear ", "").replace("of opening", f"of {opening}"))
        else:
            found.append(each.replace(" of equipment", ""))
    return tuple(found)


def _shared(opening: Opening, group: Sequence[Equipment]) -> Shared:
    """All pieces of an opening side by side; where every offset is given they stand as placed."""
    inside = inside_of(opening).width_nm
    placed = all(one.offset is not None for one in group)
    order = sorted(group, key=lambda one: one.offset.nm if one.offset is not None else 0) if placed else group
    row = _as_placed(order, inside) if placed else _packed(order, inside)
    missing = [f"width of {one.tag}" for one in group if one.width is None]
    missing += [f"clearances at the sides of {one.tag}" for one in group if None in (one.clear_left, one.clear_right)]
    missing += [] if inside is not None else [f"width of {opening.tag}"]
    return Shared(opening.tag, tuple(one.tag for one in order), row, tuple(missing))


def _packed(group: Sequence[Equipment], inside: int | None) -> Row:
    each = [one for one in group for _ in range(min(one.count, 100))]
    return side_by_side(
        [nm_of(one.width) for one in each], inside, [(nm_of(one.clear_left), nm_of(one.clear_right)) for one in each]
    )


def _as_placed(order: Sequence[Equipment], inside: int | None) -> Row:
    """A row whose pieces all have their offset: what is spare is the least gap between two neighbours."""
    gaps: list[int | None] = []
    for one, after in pairwise(order):
        apart = (one.clear_right, after.clear_left)
        if one.width is None or None in apart or one.offset is None or after.offset is None:
            gaps.append(None)
            continue
        asked = max(side.nm for side in apart if side is not None)
        gaps.append(after.offset.nm - one.offset.nm - one.width.nm * one.count - asked)
    known = [gap for gap in gaps if gap is not None]
    least = min(known, default=None)
    missing = ("a gap between two pieces",) if None in gaps else ()
    verdict: Verdict = "not known" if missing else "tight" if least is not None and least < TIGHT_NM else "fits"
    if least is not None and least < 0:
        verdict = "does not fit"
    offsets = tuple(one.offset.nm for one in order if one.offset is not None)
    return Row(verdict, None, None if missing and verdict != "does not fit" else least, offsets, missing)


def _size(one: Equipment) -> Size:
    return Size(nm_of(one.width), nm_of(one.height), nm_of(one.depth))
