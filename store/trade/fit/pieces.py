"""Whether things go where they are meant to go: clear sizes, room to breathe and bend cables, and the way in.

A size that is not known stays not known: the verdict then names the figure to look up. Whole nanometres.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from itertools import pairwise
from typing import Literal

import msgspec

from store.measure.length import INCH_NM

Verdict = Literal["fits", "tight", "does not fit", "not known"]
Side = Literal["left", "right", "top", "bottom", "front", "back"]
Turn = Literal["upright", "on its side", "on its back"]

ALL_TURNS: tuple[Turn, ...] = ("upright", "on its side", "on its back")
CARCASS: tuple[Side, ...] = ("left", "right", "top", "bottom")
"""Sides that a plain open cabinet box has: no back, no front."""
TIGHT_NM = INCH_NM // 8
"""Less to spare than this is tight: 1/8 in, common practice."""


class Size(msgspec.Struct, frozen=True):
    """Width, height and depth, nanometres; None is not known."""

    width_nm: int | None = None
    height_nm: int | None = None
    depth_nm: int | None = None


class Clearances(msgspec.Struct, frozen=True):
    """Free space the manufacturer asks for on each side, nanometres; None is not known, 0 is none asked for."""

    left_nm: int | None = None
    right_nm: int | None = None
    top_nm: int | None = None
    bottom_nm: int | None = None
    front_nm: int | None = None
    back_nm: int | None = None


class Fit(msgspec.Struct, frozen=True):
    """How one thing fits a space. Spares are what is left beyond every clearance; below 0 it is that much too
    big."""

    verdict: Verdict
    width_spare_nm: int | None
    height_spare_nm: int | None
    depth_spare_nm: int | None
    left_spare_nm: int | None
    right_spare_nm: int | None
    """Spare at each side: halves of the whole when centred, else as placed."""
    missing: tuple[str, ...]
    """Figures that are not known, in words."""


class Passage(msgspec.Struct, frozen=True):
    """Whether a box passes an opening, and how to hold it."""

    verdict: Verdict
    turn: Turn | None
    """How it passes with most to spare; None when it does not, or is not known to."""
    ahead: Side | None
    """The face of the box that goes in first."""
    spare_nm: int | None
    """The smaller spare of the two directions, in that turn."""
    missing: tuple[str, ...]


class Row(msgspec.Struct, frozen=True):
    """How several pieces stand side by side."""

    verdict: Verdict
    needed_nm: int | None
    spare_nm: int | None
    offsets_nm: tuple[int, ...]
    """Left edge of each piece when the spare is shared evenly between all gaps; empty when not known or too
    wide."""
    missing: tuple[str, ...]


def clear_size(outer: Size, thickness_nm: int | None, sides: Collection[Side] = CARCASS) -> Size:
    """The clear inside of a box from its outside, the thickness of its material and the sides that it has.

    A direction without sides keeps its outer size also when the thickness is not known. A result below 0
    stays as it is: then the box is thicker than it is wide. Raises ValueError for a thickness below 0.
    """
    if thickness_nm is not None and thickness_nm < 0:
        raise ValueError("a thickness is at least 0")

    def within(size: int | None, *across: Side) -> int | None:
        walls = sum(side in sides for side in across)
        if walls == 0:
            return size
        return None if size is None or thickness_nm is None else size - walls * thickness_nm

    return Size(
        within(outer.width_nm, "left", "right"),
        within(outer.height_nm, "top", "bottom"),
        within(outer.depth_nm, "front", "back"),
    )


def space_needed(size: Size, clear: Clearances, turns_behind_nm: Iterable[int | None] = ()) -> Size:
    """The space a thing takes with its clearances; behind it the larger of clearance and the deepest cable
    turn.

    Each turn is the depth of a plug and the bend after it (`bends.room_for_turn_nm`); None is a turn not
    known.
    """
    behind = _largest((clear.back_nm, *turns_behind_nm))
    return Size(
        _sum(size.width_nm, clear.left_nm, clear.right_nm),
        _sum(size.height_nm, clear.top_nm, clear.bottom_nm),
        _sum(size.depth_nm, clear.front_nm, behind),
    )


def fit(
    size: Size,
    clear: Clearances,
    space: Size,
    turns_behind_nm: Sequence[int | None] = (),
    tight_nm: int = TIGHT_NM,
    offset_nm: int | None = None,
) -> Fit:
    """Whether a thing fits a clear space with its clearances and cable turns.

    `offset_nm` is from the left inside of the space to the thing itself; left out, it stands in the middle of
    what is spare. One spare below 0 is "does not fit", whatever else is not known; then a figure not known is
    "not known"; then a spare below `tight_nm` is "tight". A plain box test: feet, knobs and domed backs are
    in the manufacturer's sizes or they are not counted.
    """
    needed = space_needed(size, clear, turns_behind_nm)
    width, height, depth = (
        _difference(space.width_nm, needed.width_nm),
        _difference(space.height_nm, needed.height_nm),
        _difference(space.depth_nm, needed.depth_nm),
    )
    left, right = _side_spares(size, clear, space, width, offset_nm)
    missing = _missing(size, clear, space, turns_behind_nm)
    spares = (width, height, depth) if offset_nm is None else (width, height, depth, left, right)
    too_big = _too_big(size, clear, space, turns_behind_nm, offset_nm)
    verdict = "does not fit" if too_big else _verdict(spares, bool(missing), tight_nm)
    return Fit(verdict, width, height, depth, left, right, missing)


def passes(box: Size, opening: Size, turns: Collection[Turn] = ALL_TURNS, tight_nm: int = TIGHT_NM) -> Passage:
    """Whether a box goes straight through an opening (its width and height) in one of the allowed turns.

    The box keeps its faces parallel to the opening: a box that only passes tilted is "does not fit" here. "On
    its side" its width stands upright, "on its back" its depth. Raises ValueError when no turn is allowed.
    """
    if not turns:
        raise ValueError("a box needs at least one way to be held")
    missing = _unknown("", box, "box") + _unknown("", Size(opening.width_nm, opening.height_nm, 0), "opening")
    ways = []
    for turn in ALL_TURNS:
        if turn in turns:
            ways += [(turn, *way) for way in _faces(box, turn)]
    spares = [
        (_difference(opening.width_nm, across), _difference(opening.height_nm, up), turn, ahead)
        for turn, across, up, ahead in ways
    ]
    known = [
        (min(across, up), turn, ahead) for across, up, turn, ahead in spares if across is not None and up is not None
    ]
    best = max(known, key=lambda way: way[0], default=None)
    if best is not None and best[0] >= 0:
        return Passage("tight" if best[0] < tight_nm else "fits", best[1], best[2], best[0], missing)
    shut = all((across is not None and across < 0) or (up is not None and up < 0) for across, up, _, _ in spares)
    if shut:
        return Passage("does not fit", None, None, best[0] if best else None, missing)
    return Passage("not known", None, None, None, missing)


def side_by_side(
    widths_nm: Sequence[int | None],
    clear_nm: int | None,
    gaps_nm: Sequence[tuple[int | None, int | None]] = (),
    tight_nm: int = TIGHT_NM,
) -> Row:
    """Whether pieces fit side by side in a clear width, each with the clearance it asks for (left, right).

    Between two neighbours the larger of their clearances serves both. Left out, no clearance is asked for.
    Raises ValueError when clearances are given for some pieces only.
    """
    asked = list(gaps_nm) if gaps_nm else [(0, 0)] * len(widths_nm)
    if len(asked) != len(widths_nm):
        raise ValueError("clearances are needed for every piece or for none")
    missing = [f"width of piece {at}" for at, width in enumerate(widths_nm, 1) if width is None]
    missing += [f"clearances of piece {at}" for at, pair in enumerate(asked, 1) if None in pair]
    missing += ["clear width"] if clear_nm is None else []
    edges = (0, *(side for pair in asked for side in pair), 0)
    gaps = [_largest(edges[at : at + 2]) for at in range(0, len(edges), 2)] if asked else [0]
    known = sum(part or 0 for part in (*widths_nm, *gaps))
    whole = None if any(part is None for part in (*widths_nm, *gaps)) else known
    spare = _difference(clear_nm, whole)
    too_wide = clear_nm is not None and known > clear_nm
    verdict = "does not fit" if too_wide else _verdict((spare,), bool(missing), tight_nm)
    return Row(verdict, whole, spare, _offsets(widths_nm, gaps, spare), tuple(missing))


def _offsets(widths_nm: Sequence[int | None], gaps: Sequence[int | None], spare: int | None) -> tuple[int, ...]:
    if spare is None or spare < 0:
        return ()
    shares = [spare * at // len(gaps) for at in range(len(gaps) + 1)]
    places, at_nm = [], 0
    for (before, after), gap, width in zip(pairwise(shares), gaps, widths_nm, strict=False):
        at_nm += (gap or 0) + after - before
        places.append(at_nm)
        at_nm += width or 0
    return tuple(places)


def _faces(box: Size, turn: Turn) -> tuple[tuple[int | None, int | None, Side], ...]:
    """What a box shows to an opening (across, up) in a turn, and the face that goes first."""
    width, height, depth = box.width_nm, box.height_nm, box.depth_nm
    if turn == "upright":
        return (width, height, "front"), (depth, height, "left")
    if turn == "on its side":
        return (height, width, "front"), (depth, width, "top")
    return (width, depth, "top"), (height, depth, "left")


def _side_spares(
    size: Size, clear: Clearances, space: Size, width_spare: int | None, offset_nm: int | None
) -> tuple[int | None, int | None]:
    if offset_nm is None:
        return (None, None) if width_spare is None else (width_spare // 2, width_spare - width_spare // 2)
    left = _difference(offset_nm, clear.left_nm)
    right = _difference(space.width_nm, _sum(offset_nm, size.width_nm, clear.right_nm))
    return left, right


def _too_big(size: Size, clear: Clearances, space: Size, turns: Sequence[int | None], offset_nm: int | None) -> bool:
    """Whether the figures that are known are too much already, each one not known counted as 0."""
    across = (offset_nm, size.width_nm, clear.right_nm)
    behind = max(part or 0 for part in (clear.back_nm, *turns))
    asked = (
        (space.width_nm, (size.width_nm, clear.left_nm, clear.right_nm)),
        (space.width_nm, across if offset_nm is not None else ()),
        (offset_nm, (clear.left_nm,)),
        (space.height_nm, (size.height_nm, clear.top_nm, clear.bottom_nm)),
        (space.depth_nm, (size.depth_nm, clear.front_nm, behind)),
    )
    return any(room is not None and sum(part or 0 for part in parts) > room for room, parts in asked)


def _verdict(spares: Iterable[int | None], missing: bool, tight_nm: int) -> Verdict:
    known = [spare for spare in spares if spare is not None]
    if any(spare < 0 for spare in known):
        return "does not fit"
    if missing:
        return "not known"
    return "tight" if any(spare < tight_nm for spare in known) else "fits"


def _missing(size: Size, clear: Clearances, space: Size, turns: Sequence[int | None]) -> tuple[str, ...]:
    sides = (
        ("left", clear.left_nm),
        ("right", clear.right_nm),
        ("above", clear.top_nm),
        ("below", clear.bottom_nm),
        ("in front", clear.front_nm),
        ("behind", clear.back_nm),
    )
    named = [f"clearance {word}" for word, value in sides if value is None]
    named += ["room for plug and bend behind"] if None in turns else []
    return _unknown("", size, "equipment") + tuple(named) + _unknown("clear ", space, "opening")


def _unknown(prefix: str, size: Size, of: str) -> tuple[str, ...]:
    parts = (("width", size.width_nm), ("height", size.height_nm), ("depth", size.depth_nm))
    return tuple(f"{prefix}{word} of {of}" for word, value in parts if value is None)


def _sum(*parts: int | None) -> int | None:
    total = 0
    for part in parts:
        if part is None:
            return None
        total += part
    return total


def _largest(parts: Iterable[int | None]) -> int | None:
    largest = 0
    for part in parts:
        if part is None:
            return None
        largest = max(largest, part)
    return largest


def _difference(whole: int | None, part: int | None) -> int | None:
    return None if whole is None or part is None else whole - part
