"""Receptacles along a finished wall: which points of the floor line are too far from one.

NEC 210.52(A). Positions run along the floor line, round corners too, in inches from the left end; a wall
that goes on round a corner is given with the part around the corner, since a receptacle there counts for
this side as well.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil
from typing import Literal

from msgspec import Struct

from store.trade.measured.bounds import exceeds, positive
from store.trade.measured.citations import Note, nec

REACH_IN = 72.0  # 210.52(A)(1): no point farther than 6 ft
LEAST_SPACE_IN = 24.0  # 210.52(A)(2)(1): spaces of 2 ft or more count
HIGHEST_IN = 66.0  # 210.52 opening list: above 5-1/2 ft does not count
FLOOR_BOX_FROM_WALL_IN = 18.0  # 210.52(A)(3)
SLACK_IN = 1e-6  # far below what a tape reads: a point exactly at the reach is within it

# What breaks a wall space at the floor line, 210.52(A)(2)(1). A cabinet with a countertop is under another
# rule.
Break = Literal["doorway", "fireplace", "fixed cabinet without countertop"]


class Gap(Struct, frozen=True):
    """A part of the floor line, from `start_in` to `end_in`, taken up by `what` (for an opening) or left over."""

    start_in: float
    end_in: float
    what: Break | None = None

    @property
    def width_in(self) -> float:
        """Its width along the floor line."""
        return self.end_in - self.start_in


class Receptacle(Struct, frozen=True):
    """A receptacle at `at_in` along the floor line, `height_in` above the floor.

    `switched_for_light`: the whole of it is switched and serves as the room's lighting outlet; a
    half-switched duplex is not that. `from_wall_in` is for a floor box.
    """

    name: str
    at_in: float
    height_in: float
    in_cabinet: bool = False
    part_of_equipment: bool = False
    switched_for_light: bool = False
    from_wall_in: float = 0.0


class Space(Struct, frozen=True):
    """A wall space that counts: who serves it, the parts out of reach, and places that would serve them."""

    start_in: float
    end_in: float
    serving: tuple[str, ...]
    out_of_reach: tuple[Gap, ...]
    add_at_in: tuple[float, ...]


class Spacing(Struct, frozen=True):
    """The spaces of a wall line, the receptacles that do not count, and the rule in words for both."""

    spaces: tuple[Space, ...]
    not_counted: tuple[Note, ...]

    @property
    def within_reach(self) -> bool:
        """Whether every counted space is served along its whole floor line."""
        return not any(space.out_of_reach for space in self.spaces)


def why_not_counted(receptacle: Receptacle) -> str | None:
    """Why a receptacle does not count for spacing (NEC 210.52, opening list, and (A)(3)); None if it does."""
    if exceeds(receptacle.height_in, HIGHEST_IN):
        return "it is more than 5-1/2 ft above the floor"
    if receptacle.in_cabinet:
        return "it is inside a cabinet or cupboard"
    if receptacle.part_of_equipment:
        return "it is part of a luminaire or an appliance"
    if receptacle.switched_for_light:
        return "it is switched and serves as the lighting outlet"
    if exceeds(receptacle.from_wall_in, FLOOR_BOX_FROM_WALL_IN):
        return "it is a floor receptacle more than 18 in from the wall"
    return None


def wall_spaces(length_in: float, openings: Sequence[Gap]) -> tuple[Gap, ...]:
    """Parts of the floor line, 2 ft or wider, between what breaks it. A narrower part needs no receptacle.

    Raises ValueError for an opening that ends before it starts.
    """
    positive("the length of the wall", length_in)
    spaces = []
    at = 0.0
    for opening in sorted(openings, key=lambda gap: gap.start_in):
        if opening.end_in < opening.start_in:
            raise ValueError(f"an opening ends at {opening.end_in} in, before its start at {opening.start_in} in")
        spaces.append(Gap(at, min(length_in, opening.start_in)))
        at = max(at, opening.end_in)
    spaces.append(Gap(at, length_in))
    return tuple(space for space in spaces if space.width_in >= LEAST_SPACE_IN - SLACK_IN)


def spacing(length_in: float, openings: Sequence[Gap], receptacles: Sequence[Receptacle], edition: int) -> Spacing:
    """Find every point of a wall's floor line that is more than 6 ft from a receptacle that counts.

    NEC 210.52(A), for living rooms and the like. Each wall space is served by receptacles within its own
    ends; a doorway or a fireplace is not reached across. One exactly at the end of a space serves it.
    Raises ValueError for a length that cannot be, an opening the wrong way round or an unknown edition.
    """
    refused = []
    counted = []
    for receptacle in receptacles:
        reason = why_not_counted(receptacle)
        if reason is None:
            counted.append(receptacle)
        else:
            text = f"{receptacle.name} does not count for spacing: {reason}"
            refused.append(Note("note", text, nec("210.52", edition)))
    nec("210.52", edition)
    spaces = tuple(_space(space, counted) for space in wall_spaces(length_in, openings))
    return Spacing(spaces, tuple(refused))


def _space(space: Gap, counted: Sequence[Receptacle]) -> Space:
    within = [
        receptacle for receptacle in counted if space.start_in - SLACK_IN <= receptacle.at_in <= space.end_in + SLACK_IN
    ]
    within.sort(key=lambda receptacle: receptacle.at_in)
    gaps = _out_of_reach(space, [receptacle.at_in for receptacle in within])
    places = [place for gap in gaps for place in _even_places(gap)]
    names = tuple(receptacle.name for receptacle in within)
    return Space(space.start_in, space.end_in, names, gaps, tuple(places))


def _out_of_reach(space: Gap, served_at: Sequence[float]) -> tuple[Gap, ...]:
    gaps = []
    reached = space.start_in
    for at in served_at:
        if at - REACH_IN > reached + SLACK_IN:
            gaps.append(Gap(reached, at - REACH_IN))
        reached = max(reached, at + REACH_IN)
    if space.end_in > reached + SLACK_IN:
        gaps.append(Gap(reached, space.end_in))
    return tuple(gaps)


def _even_places(gap: Gap) -> list[float]:
    """As few places as reach all of the gap, spread evenly over it."""
    count = ceil((gap.width_in - SLACK_IN) / (2 * REACH_IN))
    each = gap.width_in / count
    return [gap.start_in + each * (at + 0.5) for at in range(count)]
