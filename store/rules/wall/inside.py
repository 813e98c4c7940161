"""What is inside each opening: its shelves and dividers, the spaces between them, and where gear stands.

Whole nanometres from the left side inside and the bottom inside of an opening. An opening that nobody entered a shelf
for, and whose gear names nothing it stands on, is left alone here: then only the size of the opening counts.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

import msgspec

from store.records.equipment import Equipment
from store.records.inside import ShelfBoard
from store.records.wall import Opening
from store.records.whole import Job
from store.rules.core.keyed import index, of_each
from store.rules.wall.layout import in_opening
from store.rules.wall.pieces import hangs, inside_of, is_hidden, nm_of
from store.trade.fit.inside import Asked, Gear, Laid, Space, arranged, lay, spaces, under
from store.trade.fit.pieces import Row

boards_in = index(ShelfBoard, lambda one: (one.opening,))
"""The shelves and dividers of each opening."""


class Stand(msgspec.Struct, frozen=True):
    """A thing where it stands, with what is under and over it."""

    tag: str
    floor: str
    """Tag of the shelf; empty for the bottom of the opening."""
    left_nm: int
    width_nm: int
    """Of all pieces of it, side by side; 0 while its width is not known."""
    bottom_nm: int
    height_nm: int
    below: tuple[str, ...]
    """What it stands on, down to the shelf, the nearest first; empty where it stands on the shelf itself."""
    space: Space
    ceiling_nm: int
    """Underside of what is over it: a board, or the top of the opening."""
    above: str
    """Tag of that board; empty for the top."""
    asked_nm: int | None
    """Room that the manuals ask for between it and the thing under it; None while they are not read, or with nothing
    under it."""
    has_nm: int | None
    """What its stand or spacers leave there; None with nothing under it."""

    @property
    def right_nm(self) -> int:
        """Its right edge."""
        return self.left_nm + self.width_nm

    @property
    def top_nm(self) -> int:
        """Its upper edge."""
        return self.bottom_nm + self.height_nm


class Shared(msgspec.Struct, frozen=True):
    """What stands side by side on the floor of one space."""

    space: Space
    tags: tuple[str, ...]
    row: Row


class Inside(msgspec.Struct, frozen=True):
    """One opening with shelves, or with gear that says what it stands on."""

    opening: str
    width_nm: int
    height_nm: int
    boards: tuple[Laid, ...]
    spaces: tuple[Space, ...]
    stands: dict[str, Stand]
    rows: tuple[Shared, ...]
    astray: tuple[str, ...]
    """Gear that stands on what is not in this opening, on a divider, or in the end on itself."""
    unsaid: tuple[str, ...]
    """Gear of which nobody said on which shelf it stands; what is out of sight, like a strip, may be anywhere."""

    def board(self, tag: str) -> Laid | None:
        """A shelf or a divider of it."""
        return next((each for each in self.boards if each.tag == tag), None)


@of_each(Opening)
def insides(job: Job, opening: Opening) -> Inside | None:
    """Every opening with shelves or with gear that says what it stands on, and whose clear size is known."""
    boards = [job.of(ShelfBoard)[one.tag] for one in boards_in(job).get(opening.tag, ())]
    gear = [one for one in in_opening(job).get(opening.tag, ()) if not hangs(one)]
    size = inside_of(opening)
    if not (boards or any(one.stands_on for one in gear)) or not size.width_nm or not size.height_nm:
        return None
    if min(size.width_nm, size.height_nm) <= 0:
        return None
    laid = lay(size.width_nm, size.height_nm, [_asked(one, opening) for one in boards])
    there = spaces(size.width_nm, size.height_nm, laid)
    floors = {one.tag: _floor(job, opening, one, laid) for one in gear if one.stands_on}
    stands: dict[str, Stand] = {}
    rows: list[Shared] = []
    for floor in ("", *(each.tag for each in laid if not each.divider)):
        mine = [one for one in gear if floors.get(one.tag) == (floor,)]
        for space, group in _shared_out(mine, [each for each in there if each.floor == floor]):
            lefts, row = arranged([_gear(one) for one in group], space.left_nm, space.right_nm)
            rows.append(Shared(space, tuple(sorted(lefts, key=lambda tag: lefts[tag])), row))
            for one in group:
                stands[one.tag] = _stand(one, space, laid, size.height_nm, lefts[one.tag])
    _stack(gear, floors, stands, laid, size.height_nm)
    astray = tuple(one.tag for one in gear if one.stands_on and one.tag not in stands)
    unsaid = tuple(one.tag for one in gear if not one.stands_on and not is_hidden(one))
    return Inside(
        opening.tag, size.width_nm, size.height_nm, laid, there, stands, tuple(rows), astray, unsaid if boards else ()
    )


def inside_at(job: Job, one: Equipment) -> tuple[Inside, Stand] | None:
    """Where a thing stands inside its opening; None where nobody said."""
    there = insides(job).get(one.opening) if one.opening and one.stands_on else None
    stand = there.stands.get(one.tag) if there is not None else None
    return None if there is None or stand is None else (there, stand)


def thickness_nm(board: ShelfBoard, opening: Opening) -> int:
    """Of a board inside an opening: its own, else that of the sides; 0 while neither was entered."""
    own = board.thickness or opening.thickness
    return own.nm if own is not None else 0


def shelf_depth_nm(board: ShelfBoard, opening: Opening) -> int | None:
    """Front to back of a shelf: as entered, else that of the opening less the gap behind it; None while not known."""
    if board.depth is not None:
        return board.depth.nm
    whole = inside_of(opening).depth_nm
    return None if whole is None else whole - (board.gap.nm if board.gap is not None else 0)


def _asked(one: ShelfBoard, opening: Opening) -> Asked:
    return Asked(
        one.tag, one.what == "divider", nm_of(one.up), nm_of(one.along), nm_of(one.height), thickness_nm(one, opening)
    )


def _floor(job: Job, opening: Opening, one: Equipment, laid: Sequence[Laid]) -> tuple[str, ...]:
    """The shelf a thing stands on, alone; on other gear that gear's chain down to it. Empty when there is none."""
    shelves = {each.tag for each in laid if not each.divider}
    chain: list[str] = []
    at: Equipment | None = one
    while at is not None:
        on = str(at.stands_on)
        if on == opening.tag or on in shelves:
            return (*chain, "" if on == opening.tag else on)
        after = job.of(Equipment).get(on)
        if after is None or on in chain or on == one.tag or after.opening != opening.tag:
            return ()
        if after.retired is not None or hangs(after):
            return ()
        chain.append(on)
        at = after
    return ()


def _gear(one: Equipment) -> Gear:
    return Gear(one.tag, _width(one), nm_of(one.clear_left), nm_of(one.clear_right), nm_of(one.offset))


def _width(one: Equipment) -> int | None:
    """The width of all pieces of it, side by side with their clearances between them."""
    if one.width is None:
        return None
    between = max(nm_of(one.clear_left) or 0, nm_of(one.clear_right) or 0)
    return one.count * one.width.nm + (one.count - 1) * between


def _shared_out(group: Sequence[Equipment], there: Sequence[Space]) -> Iterator[tuple[Space, list[Equipment]]]:
    """The gear of one floor by the spaces between its dividers: by its offset, else where it first has room."""
    taken: dict[int, list[Equipment]] = {}
    for one in group:
        at, middle = nm_of(one.offset), (_width(one) or 0) // 2
        fits = [
            number
            for number, space in enumerate(there)
            if (
                space.left_nm <= at + middle <= space.right_nm
                if at is not None
                else _has_room(space, taken.get(number, []), one)
            )
        ]
        widest = max(range(len(there)), key=lambda number: there[number].width_nm, default=None)
        if (number := next(iter(fits), widest)) is not None:
            taken.setdefault(number, []).append(one)
    for number in sorted(taken):
        yield there[number], taken[number]


def _has_room(space: Space, group: Sequence[Equipment], one: Equipment) -> bool:
    return arranged([_gear(each) for each in (*group, one)], space.left_nm, space.right_nm)[1].verdict != "does not fit"


def _stand(one: Equipment, space: Space, laid: Sequence[Laid], height: int, left: int) -> Stand:
    width, high = _width(one) or 0, nm_of(one.height) or 0
    low = space.bottom_nm + (nm_of(one.raised) or 0)
    ceiling, above = under(laid, height, left, left + max(1, width), space.bottom_nm)
    return Stand(one.tag, space.floor, left, width, low, high, (), space, ceiling, above, None, None)


def _stack(
    gear: Sequence[Equipment],
    floors: Mapping[str, tuple[str, ...]],
    stands: dict[str, Stand],
    laid: Sequence[Laid],
    height: int,
) -> None:
    """What stands on other gear: over its middle or at its offset, with the room that both ask for."""
    by_tag = {one.tag: one for one in gear}
    waiting = sorted((one for one in gear if len(floors.get(one.tag, ())) > 1), key=lambda one: len(floors[one.tag]))
    for one in waiting:
        base, lower = stands.get(str(one.stands_on)), by_tag.get(str(one.stands_on))
        if base is None or lower is None:
            continue
        width, asks = _width(one) or 0, (nm_of(lower.clear_top), nm_of(one.clear_bottom))
        left = base.left_nm + (base.width_nm - width) // 2 if one.offset is None else one.offset.nm
        has = nm_of(one.raised) or 0
        low = base.top_nm + max(has, *(each or 0 for each in asks))
        ceiling, above = under(laid, height, left, left + max(1, width), base.space.bottom_nm)
        asked = None if None in asks else max(each or 0 for each in asks)
        high, below = nm_of(one.height) or 0, (lower.tag, *base.below)
        stands[one.tag] = Stand(
            one.tag, base.floor, left, width, low, high, below, base.space, ceiling, above, asked, has
        )


def on_top_of(there: Inside, tag: str) -> tuple[str, ...]:
    """What stands on a thing, however far up, from below."""
    return tuple(each.tag for each in there.stands.values() if tag in each.below)
