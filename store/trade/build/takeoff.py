"""The sticks of a framed wall, from its size, its layout and its openings: what stands where and how long each is.

Whole nanometres from the left end and the floor. Studs on the layout, king studs the full height beside each opening,
trimmers under the header, cripples on the layout above the header and below the sill, plates the length of the wall.
What carries the house is not sized here: header size and number of trimmers of a bearing wall come from the tables of
IRC R602.7 with snow load and building width, or from an engineer. Wood or steel: the same places, other names.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Literal

import msgspec

from store.measure.length import FOOT_NM, INCH_NM
from store.trade.measured.framing import STUD_THICKNESS_NM, Stud, studs
from store.trade.measured.plane import Rect

Part = Literal[
    "bottom plate",
    "top plate",
    "stud",
    "corner stud",
    "king stud",
    "trimmer",
    "header",
    "sill",
    "cripple",
    "blocking",
    "fire block",
]
FLAT_HEADER_MOST_NM = 8 * FOOT_NM
FLAT_HEADER_ABOVE_NM = 24 * INCH_NM
FLAT_HEADER_SOURCE = "IRC R602.7.4"
"""A wall that carries nothing: one flat two-by as header up to 8 ft wide, where the plate is within 24 in above it."""
SHORTEST_NM = INCH_NM
"""A gap smaller than this is packed, not framed; our own."""
FIRE_BLOCK_EVERY_NM = 10 * FOOT_NM
FIRE_BLOCK_SOURCE = "IRC R302.11"


class Stick(msgspec.Struct, frozen=True):
    """One piece of framing, and where it is."""

    part: Part
    length_nm: int
    x_nm: int
    """Left face, or left end of a level piece."""
    y_nm: int
    """Lower end, or lower face of a level piece."""
    of: str = ""
    """The opening or the load that it is for."""
    face_nm: int = 0
    """Height of a header on edge; 0 for what lies or stands flat as the studs do."""
    rise_nm: int = 0
    """How much higher its right end is than its left: of a plate along a slope."""


class Hole(msgspec.Struct, frozen=True):
    """One rough opening to be framed."""

    tag: str
    rect: Rect
    header_nm: int | None = None
    """Height of the header as given; None takes a flat two-by where it may, and else is not known."""
    plies: int = 2
    """Of a header on edge, side by side."""


class Framing(msgspec.Struct, frozen=True):
    """All the sticks of a wall, and what has to be asked."""

    sticks: tuple[Stick, ...]
    unsized: tuple[str, ...]
    """Openings whose header nobody has sized: its depth is for a licensed person to say."""


def frame(
    width_nm: int,
    height_nm: int,
    spacing_nm: int,
    first_centre_nm: int,
    holes: Sequence[Hole] = (),
    *,
    thick_nm: int = STUD_THICKNESS_NM,
    plate_nm: int | None = None,
    top_plates: int = 2,
    bearing: bool = False,
    line: Sequence[Stud] | None = None,
) -> Framing:
    """The sticks of one wall, plates first, then from left to right.

    `height_nm` is from the floor to the underside of what is above, so a stud is that less the plates. An opening
    that reaches the bottom plate has no sill. `line` gives the studs where they are not the plain row; `plate_nm` how
    thick plates, sills and flat headers are, where not as the studs. Raises ValueError as `framing.studs` does, and
    when the height leaves no stud between the plates.
    """
    flat = thick_nm if plate_nm is None else plate_nm
    clear = height_nm - (1 + top_plates) * flat
    if clear <= 0 or top_plates < 0:
        raise ValueError("a wall needs a height above its plates")
    low, high = flat, flat + clear
    wall = _Wall(low, high, thick_nm, width_nm, flat)
    made = [_made(each, wall, bearing) for each in holes]
    sticks = [Stick("bottom plate", width_nm, 0, 0)]
    sticks += [Stick("top plate", width_nm, 0, high + at * flat) for at in range(top_plates)]
    row = studs(width_nm, spacing_nm, first_centre_nm, thick_nm) if line is None else line
    sticks += sorted(_uprights(wall, made, row), key=_place)
    sticks += [stick for each in made for stick in _level(each, wall)]
    return Framing(tuple(sticks), tuple(each.hole.tag for each in made if each.header_nm is None))


class _Wall(msgspec.Struct, frozen=True):
    low: int
    high: int
    thick: int
    width: int
    flat: int


class _Made(msgspec.Struct, frozen=True):
    """An opening with the framing about it."""

    hole: Hole
    header_nm: int | None
    block: Rect
    """All that is not free for other uprights: trimmers, header, sill and the opening."""
    sill: bool


def _made(hole: Hole, wall: _Wall, bearing: bool) -> _Made:
    rect, t = hole.rect, wall.thick
    header = hole.header_nm
    above = wall.high - rect.top_nm
    flat = not bearing and rect.width_nm <= FLAT_HEADER_MOST_NM and above <= FLAT_HEADER_ABOVE_NM
    if header is None and flat:
        header = wall.flat
    header = None if header is None else min(header, max(0, above))
    sill = rect.y_nm - wall.flat > wall.low
    bottom = rect.y_nm - wall.flat if sill else wall.low
    top = min(wall.high, rect.top_nm + (header or wall.flat))
    block = Rect(rect.x_nm - t, bottom, rect.width_nm + 2 * t, max(0, top - bottom))
    return _Made(hole, header, block, sill)


def _uprights(wall: _Wall, made: Sequence[_Made], line: Iterable[Stud]) -> Iterator[Stick]:
    t = wall.thick
    kings = {x for each in made for x in (each.block.x_nm - t, each.block.right_nm) if 0 <= x <= wall.width - t}
    kept: list[int] = []
    for x in sorted(kings):
        if not kept or x >= kept[-1] + t:
            kept.append(x)
    taken = [(x, x + t) for x in kept]
    for x in kept:
        yield from _pieces(wall, made, x, "king stud")
    for stud in line:
        x = stud.left_nm
        if any(left < x + t and x < right for left, right in taken):
            continue
        yield from _pieces(wall, made, x, "stud")
    for each in made:
        others = [one.block for one in made if one is not each]
        for post in _posts(each, wall):
            for low, high in _free(others, post.x_nm, t, post.y_nm, post.top_nm):
                yield Stick("trimmer", high - low, post.x_nm, low, each.hole.tag)


def _pieces(wall: _Wall, made: Sequence[_Made], x: int, part: Part) -> Iterator[Stick]:
    # Where a stud of the layout falls half into a trimmer, the trimmer stands in its place.
    taken = [rect for each in made for rect in (each.block, *_posts(each, wall))]
    for low, high in _free(taken, x, wall.thick, wall.low, wall.high):
        whole = (low, high) == (wall.low, wall.high)
        yield Stick(part if whole else "cripple", high - low, x, low)


def _posts(each: _Made, wall: _Wall) -> tuple[Rect, Rect]:
    """The places of its two trimmers, from the plate to its header."""
    high = max(0, min(wall.high, each.hole.rect.top_nm) - wall.low)
    left, right = each.block.x_nm, each.block.right_nm - wall.thick
    return Rect(left, wall.low, wall.thick, high), Rect(right, wall.low, wall.thick, high)


def _free(taken: Sequence[Rect], x: int, t: int, low: int, high: int) -> Iterator[tuple[int, int]]:
    """What is left of an upright between what it would run through."""
    at = low
    for block in sorted(taken, key=lambda each: each.y_nm):
        if block.x_nm < x + t and x < block.right_nm and block.height_nm:
            if min(block.y_nm, high) - at >= SHORTEST_NM:
                yield at, min(block.y_nm, high)
            at = max(at, block.top_nm)
    if high - at >= SHORTEST_NM:
        yield at, high


def _level(each: _Made, wall: _Wall) -> Iterator[Stick]:
    rect, t, tag = each.hole.rect, wall.thick, each.hole.tag
    if each.header_nm is None or each.header_nm >= min(SHORTEST_NM, wall.flat):
        face = 0 if each.header_nm in (None, wall.flat) else each.header_nm or 0
        for _ in range(each.hole.plies if face else 1):
            yield Stick("header", rect.width_nm + 2 * t, rect.x_nm - t, rect.top_nm, tag, face)
    if each.sill:
        yield Stick("sill", rect.width_nm, rect.x_nm, rect.y_nm - wall.flat, tag)


def _place(stick: Stick) -> tuple[int, int]:
    return stick.x_nm, stick.y_nm
