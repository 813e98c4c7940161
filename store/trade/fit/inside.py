"""The inside of a cabinet: where its shelves and dividers are, the spaces between them, and how gear stands in a space.

Whole nanometres from the left side inside and from the bottom inside. Plane geometry. Dividers are laid first, and a
shelf runs from its left end to the first divider in its way: so what was entered says one arrangement and no other.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

import msgspec

from store.measure.length import INCH_NM, MM_NM
from store.trade.fit.pieces import TIGHT_NM, Row, Verdict, side_by_side

PIN_OFF_NM = INCH_NM // 16
"""A shelf this near to the height of its pins is on them: what a tape is read to, common practice."""


def plug_gap_nm(metric: bool) -> int:
    """Free behind a shelf, or a hole through it, that a plug gets past, nm: 2 in or 50 mm, common practice."""
    return 50 * MM_NM if metric else 2 * INCH_NM


class Asked(msgspec.Struct, frozen=True):
    """A board as it was entered; None is blank."""

    tag: str
    divider: bool
    up_nm: int | None
    """Top of a shelf, foot of a divider."""
    along_nm: int | None
    height_nm: int | None
    thick_nm: int


class Laid(msgspec.Struct, frozen=True):
    """A board where it is, seen from the front."""

    tag: str
    divider: bool
    left_nm: int
    right_nm: int
    bottom_nm: int
    top_nm: int

    def over(self, left_nm: int, right_nm: int) -> bool:
        """Whether it is over some of a stretch."""
        return self.left_nm < right_nm and left_nm < self.right_nm

    def crosses(self, bottom_nm: int, top_nm: int) -> bool:
        """Whether it takes some of a height."""
        return self.bottom_nm < top_nm and bottom_nm < self.top_nm


class Space(msgspec.Struct, frozen=True):
    """A space that gear stands in: over a shelf or over the bottom, between dividers."""

    floor: str
    """Tag of the shelf; empty for the bottom of the opening."""
    left_nm: int
    right_nm: int
    bottom_nm: int
    top_nm: int
    above: str
    """Tag of the board over it; empty for the top of the opening."""

    @property
    def width_nm(self) -> int:
        """Its clear width."""
        return self.right_nm - self.left_nm


class Gear(msgspec.Struct, frozen=True):
    """What stands on the floor of a space, with the room that its manual asks for beside it; None is not known."""

    tag: str
    width_nm: int | None
    left_nm: int | None = 0
    right_nm: int | None = 0
    offset_nm: int | None = None
    """From the left side inside of the opening; None: nobody said where."""


def lay(width_nm: int, height_nm: int, asked: Sequence[Asked]) -> tuple[Laid, ...]:
    """The boards of an opening of a clear width and height, dividers first; one without its height or place is left
    out."""
    laid: list[Laid] = []
    for one in asked:
        if one.divider and one.along_nm is not None:
            foot = one.up_nm or 0
            top = height_nm if one.height_nm is None else foot + one.height_nm
            laid.append(Laid(one.tag, True, one.along_nm, one.along_nm + one.thick_nm, foot, top))
    dividers = tuple(laid)
    for one in asked:
        if not one.divider and one.up_nm is not None:
            left, low = one.along_nm or 0, one.up_nm - one.thick_nm
            ends = [each.left_nm for each in dividers if each.left_nm >= left and each.crosses(low, one.up_nm)]
            laid.append(Laid(one.tag, False, left, min(ends, default=width_nm), low, one.up_nm))
    return tuple(laid)


def under(laid: Sequence[Laid], height_nm: int, left_nm: int, right_nm: int, from_nm: int) -> tuple[int, str]:
    """Height of the first board over a stretch, looked up from a height, and its tag; else the top of the opening."""
    over = [(each.bottom_nm, each.tag) for each in laid if each.bottom_nm >= from_nm and each.over(left_nm, right_nm)]
    return min([*over, (height_nm, "")])


def spaces(width_nm: int, height_nm: int, laid: Sequence[Laid]) -> tuple[Space, ...]:
    """The spaces of an opening: over its bottom first, then over each shelf, each from left to right."""
    floors = [
        ("", 0, width_nm, 0),
        *((one.tag, one.left_nm, one.right_nm, one.top_nm) for one in laid if not one.divider),
    ]
    return tuple(space for floor in floors for space in _over(height_nm, laid, *floor))


def _over(height_nm: int, laid: Sequence[Laid], tag: str, left: int, right: int, level: int) -> Iterator[Space]:
    cut = sorted(
        (one.left_nm, one.right_nm)
        for one in laid
        if one.divider and one.bottom_nm <= level < one.top_nm and one.over(left, right)
    )
    ends = [left, *(edge for pair in cut for edge in pair), right]
    for start, end in zip(ends[::2], ends[1::2], strict=True):
        if start < end:
            top, above = under(laid, height_nm, start, end, level)
            yield Space(tag, start, end, level, top, above)


# --- gear on the floor of a space ---


def arranged(group: Sequence[Gear], left_nm: int, right_nm: int) -> tuple[dict[str, int], Row]:
    """Left edge of each thing side by side between two places, and how they fit.

    Where nobody said where any of it stands, what is spare is shared between all gaps; a thing with an offset stands
    there, and the others in the first gap beside it that has room. Between two the larger of their clearances serves
    both. A width that is not known counts as nothing, and the verdict then is not known.
    """
    if all(one.offset_nm is None for one in group):
        row = side_by_side(
            [one.width_nm for one in group], right_nm - left_nm, [(one.left_nm, one.right_nm) for one in group]
        )
        places = row.offsets_nm or _packed(group)
        return {one.tag: left_nm + at for one, at in zip(group, places, strict=True)}, row
    lefts = {one.tag: one.offset_nm for one in group if one.offset_nm is not None}
    fixed = sorted((one for one in group if one.tag in lefts), key=lambda one: lefts[one.tag])
    gaps = _edges(fixed, lefts, left_nm, right_nm)
    members: list[list[Gear]] = [[] for _ in gaps]
    for one in (each for each in group if each.tag not in lefts):
        free = [_spread([*there, one], gap)[1] for there, gap in zip(members, gaps, strict=True)]
        place = next(
            (at for at, spare in enumerate(free) if spare >= 0), max(range(len(free)), key=lambda at: free[at])
        )
        members[place].append(one)
    placed: list[Gear] = []
    for number, (there, gap) in enumerate(zip(members, gaps, strict=True)):
        for one, at in zip(there, _spread(there, gap)[0], strict=True):
            lefts[one.tag] = at
        placed += there + fixed[number : number + 1]
    return lefts, _as_placed(placed, lefts, left_nm, right_nm)


Gap = tuple[int, int, int, int]
"""Where a gap begins and ends, and the clearances asked for at both sides of it."""


def _spread(there: Sequence[Gear], gap: Gap) -> tuple[list[int], int]:
    """Places of things in a gap, what is spare shared evenly, and the spare; below 0 they are packed from its left."""
    start, end, before, after = gap
    asked = [before, *(side or 0 for one in there for side in (one.left_nm, one.right_nm)), after]
    apart = [max(pair) for pair in zip(asked[::2], asked[1::2], strict=True)]
    spare = end - start - sum(apart) - sum(one.width_nm or 0 for one in there)
    places, at = [], start
    for number, (one, least) in enumerate(zip(there, apart, strict=False)):
        share = max(0, spare)
        at += least + share * (number + 1) // len(apart) - share * number // len(apart)
        places.append(at)
        at += one.width_nm or 0
    return places, spare


def _packed(group: Sequence[Gear]) -> tuple[int, ...]:
    """Places from the left, the clearances that are known kept: for a row that is too wide, or has a width missing."""
    places, at, last = [], 0, 0
    for one in group:
        at += max(last, one.left_nm or 0)
        places.append(at)
        at, last = at + (one.width_nm or 0), one.right_nm or 0
    return tuple(places)


def _edges(placed: Sequence[Gear], lefts: dict[str, int], left: int, right: int) -> list[Gap]:
    """The gaps of a row: each with where it begins and ends, and the clearances asked for at both sides of it."""
    ends = [(left, left, 0, 0)]
    ends += [
        (lefts[one.tag], lefts[one.tag] + (one.width_nm or 0), one.left_nm or 0, one.right_nm or 0) for one in placed
    ]
    ends.append((right, right, 0, 0))
    return [(before[1], after[0], before[3], after[2]) for before, after in pairwise(ends)]


def _as_placed(placed: Sequence[Gear], lefts: dict[str, int], left: int, right: int) -> Row:
    """A row with places: what is spare is the least gap beyond the clearance that is asked for there."""
    spares = [end - start - max(asked) for start, end, *asked in _edges(placed, lefts, left, right)]
    least = min(spares)
    missing = [f"width of {one.tag}" for one in placed if one.width_nm is None]
    missing += [f"clearances at the sides of {one.tag}" for one in placed if None in (one.left_nm, one.right_nm)]
    verdict: Verdict = (
        "does not fit" if least < 0 else "not known" if missing else "tight" if least < TIGHT_NM else "fits"
    )
    return Row(verdict, None, least, tuple(lefts[one.tag] for one in placed), tuple(missing))


# --- rows of pin holes ---


def on_pins(under_nm: int, first_nm: int, step_nm: int) -> tuple[int, int] | None:
    """The heights of pins below and above the underside of a shelf; None where it is on its pins, within a sixteenth.

    Below the lowest pins both are that height. Raises ValueError for a step that is not above 0.
    """
    if step_nm <= 0:
        raise ValueError("rows of holes are some way apart")
    if under_nm < first_nm:
        return (first_nm, first_nm) if first_nm - under_nm > PIN_OFF_NM else None
    low = first_nm + (under_nm - first_nm) // step_nm * step_nm
    if min(under_nm - low, low + step_nm - under_nm) <= PIN_OFF_NM:
        return None
    return low, low + step_nm
