"""Where everything of a first plan goes on a wall of some size, or by how much it does not fit.

Sizes are common practice where nothing else is said: what a cabinet, a recess and the space round them usually take.
The manual of the fireplace and of the TV win over all of them.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

import msgspec

from store.measure.length import INCH_NM
from store.trade.screen.seat import centre_band
from store.trade.screen.viewing import picture_size

Sides = Literal["both", "left", "right", "none"]
MM_NM = 1_000_000


class Asked(msgspec.Struct, frozen=True):
    """The answers. Lengths in nanometres."""

    name: str = "My media wall"
    room: str = "living room"
    width_nm: int = 144 * INCH_NM
    height_nm: int = 96 * INCH_NM
    depth_nm: int = 22 * INCH_NM
    """Of what is built out in front of the wall, finished."""
    diagonal_in: float = 65.0
    fireplace_nm: int | None = 50 * INCH_NM
    """Width of the unit; None for no fireplace."""
    cabinets: Sides = "both"
    speakers: int = 3
    seat_nm: int = 120 * INCH_NM
    eye_nm: int = 42 * INCH_NM
    region: Literal["us", "metric"] = "us"

    @property
    def metric(self) -> bool:
        """True for millimetres and 230 V."""
        return self.region == "metric"


class Place(msgspec.Struct, frozen=True):
    """One opening, by its lower left corner; nanometres."""

    x: int
    y: int
    width: int
    height: int
    depth: int

    @property
    def right(self) -> int:
        """Its right edge."""
        return self.x + self.width

    @property
    def top(self) -> int:
        """Its upper edge."""
        return self.y + self.height

    @property
    def middle(self) -> int:
        """Its middle, from the left."""
        return self.x + self.width // 2


class Short(msgspec.Struct, frozen=True):
    """Something that does not fit."""

    what: str
    by_nm: int


Sizes = Callable[[float, int], int]
"""A length of the region: inches in one, millimetres in the other; nanometres."""


class Layout(msgspec.Struct, frozen=True):
    """Where the openings are."""

    places: dict[str, Place]
    """By role: `screen`, `fireplace`, cabinets `left` and `right`, and above each its shelves `... low`, `... high`."""
    spacing_nm: int
    """Of the studs of the front; the first is so far from the left end."""
    short: tuple[Short, ...]


def lay_out(asked: Asked) -> Layout:
    """The openings on the wall; where something does not fit, by how much. Raises ValueError for sizes of 0 or less."""
    picture = picture_size(round(asked.diagonal_in * INCH_NM))

    def size(inches: float, mm: int) -> int:
        return mm * MM_NM if asked.metric else round(inches * INCH_NM)

    step = size(0.5, 10)
    edge, gap = size(3, 75), size(2, 50)
    screen_w = _up(picture.width_nm + size(3, 75), step)
    screen_h = _up(picture.height_nm + size(3, 75), step)
    fire_w = None if asked.fireplace_nm is None else _up(asked.fireplace_nm + size(2, 50), step)
    column = max(screen_w, fire_w or 0)
    sides = {"both": ("left", "right"), "left": ("left",), "right": ("right",), "none": ()}[asked.cabinets]
    short: list[Short] = []

    free = asked.width_nm - column - 2 * edge - gap * len(sides)
    least = size(20, 500) * len(sides)
    if free < least:
        what = f"TV{' or fireplace' if fire_w else ''}{' and cabinets' if sides else ''}: wall too narrow"
        short.append(Short(what, least - free))
    cabinet_w = min(size(36, 900), free // len(sides) // step * step) if sides else 0
    left = edge + (cabinet_w + gap if "left" in sides else 0)
    right = asked.width_nm - edge - (cabinet_w + gap if "right" in sides else 0)
    middle = (left + right) // 2

    depths = _depths(asked, size, bool(sides), short)
    places: dict[str, Place] = {}
    low = size(24, 600)
    if fire_w is not None:
        fire_y, fire_h = size(8, 200), size(20, 500)
        places["fireplace"] = _at(middle - fire_w // 2, fire_y, fire_w, fire_h, depths["fireplace"], step)
        low = fire_y + fire_h + size(12, 300)
    places["screen"] = _screen(asked, (middle, low), (screen_w, screen_h), depths["screen"], size, step, short)
    for side in sides:
        x = edge if side == "left" else asked.width_nm - edge - cabinet_w
        places |= _side(asked, side, (x, cabinet_w), depths["cabinet"], size, step, short)
    return Layout(places, size(16, 400), tuple(short))


def _depths(asked: Asked, size: Sizes, sides: bool, short: list[Short]) -> dict[str, int]:
    """How deep each kind of opening is; the front needs two inches behind it for its framing and the wall's face."""
    spare = size(2, 50)
    needs = [("TV recess: build-out too shallow", size(6, 150))]
    if asked.fireplace_nm is not None:
        needs.append(("fireplace: build-out too shallow", size(8, 200)))
    if sides:
        needs.append(("cabinets: build-out too shallow", size(16, 400)))
    short += [Short(what, need - asked.depth_nm) for what, need in needs if asked.depth_nm < need]
    inside = max(size(1, 25), asked.depth_nm - spare)
    return {
        "screen": min(size(5, 130), inside),
        "fireplace": min(size(6, 150), inside),
        "cabinet": min(size(20, 500), inside),
    }


def _screen(
    asked: Asked, at: tuple[int, int], wide: tuple[int, int], depth: int, size: Sizes, step: int, short: list[Short]
) -> Place:
    """The recess of the TV: its middle at the height of the eye, or as near to it as there is room."""
    (middle, low), (width, height) = at, wide
    band = centre_band(asked.eye_nm, height, asked.seat_nm)
    wanted = min(max(band.level_nm, band.lowest_nm), band.highest_nm) - height // 2
    high = asked.height_nm - size(6, 150) - height
    if high < low:
        short.append(Short("TV above what is under it: wall too low", low - high))
    return _at(middle - width // 2, max(low, min(wanted, high)), width, height, depth, step)


def _side(
    asked: Asked, side: str, across: tuple[int, int], depth: int, size: Sizes, step: int, short: list[Short]
) -> dict[str, Place]:
    """A cabinet with a shelf or two above it."""
    x, width = across
    base = _at(x, size(6, 150), width, size(30, 750), depth, step)
    low = _at(x, size(38, 950), width, size(18, 450), min(depth, size(12, 300)), step)
    high = _at(x, size(58, 1450), width, size(24, 600), min(depth, size(12, 300)), step)
    found = {side: base}
    spare = size(4, 100)
    if low.top + spare <= asked.height_nm:
        found[f"{side} low"] = low
    else:
        short.append(Short(f"shelf above the {side} cabinet: wall too low", low.top + spare - asked.height_nm))
    if high.top + spare <= asked.height_nm:
        found[f"{side} high"] = high
    return found


def _at(x: int, y: int, width: int, height: int, depth: int, step: int) -> Place:
    return Place(x // step * step, -(-y // step) * step, width, height, depth)


def _up(size_nm: int, step: int) -> int:
    return -(-size_nm // step) * step


def off_studs(wanted: int, half: int, spacing: int, low: int, high: int, stud: int) -> int:
    """The place nearest to the wanted one, between two bounds, where a box of half a width clears every stud.

    Studs are at each multiple of the spacing, so thick; nanometres. The wanted place itself where none is free.
    """
    clear = half + stud // 2
    step = INCH_NM // 4

    def free(x: int) -> bool:
        near = round(x / spacing) * spacing
        return low <= x <= high and (near <= 0 or abs(x - near) >= clear)

    for away in range(0, spacing, step):
        for x in (wanted + away, wanted - away):
            if free(x):
                return x
    return wanted
