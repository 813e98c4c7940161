"""The sums for marking a plan on the wall full size with tape: where every edge falls, and how much tape it
takes.

Distances across are from one marked corner, distances up from one level line; both may be negative.
Whole nanometres throughout.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence

import msgspec

from store.measure.length import FOOT_NM
from store.trade.measured.plane import nearest_root

ROLL_NM = 180 * FOOT_NM
"""A roll of 60 yd: common practice."""


class Outline(msgspec.Struct, frozen=True):
    """One thing to mark: its tag, left and bottom edge, width and height, nanometres."""

    tag: str
    x_nm: int
    y_nm: int
    width_nm: int
    height_nm: int


class Marks(msgspec.Struct, frozen=True):
    """Where to put the tape for one outline, and the diagonal that proves it square, nanometres."""

    tag: str
    left_nm: int
    right_nm: int
    bottom_nm: int
    top_nm: int
    centre_x_nm: int
    centre_y_nm: int
    diagonal_nm: int


class Stop(msgspec.Struct, frozen=True):
    """One mark on a running line: its distance from the corner, and the edges that fall on it (tag, edge)."""

    at_nm: int
    edges: tuple[tuple[str, str], ...]


class Line(msgspec.Struct, frozen=True):
    """One level line and the marks on it, left to right, so that the tape is walked across once."""

    level_nm: int
    stops: tuple[Stop, ...]


def marks(outline: Outline) -> Marks:
    """Edges, centre and diagonal of an outline. A centre between two nanometres goes to the lower one.

    Raises ValueError unless width and height are above 0.
    """
    _check(outline)
    return Marks(
        outline.tag,
        outline.x_nm,
        outline.x_nm + outline.width_nm,
        outline.y_nm,
        outline.y_nm + outline.height_nm,
        outline.x_nm + outline.width_nm // 2,
        outline.y_nm + outline.height_nm // 2,
        nearest_root(outline.width_nm**2 + outline.height_nm**2),
    )


def running(outlines: Iterable[Outline]) -> tuple[Line, ...]:
    """The marks of all outlines by level, lowest level first, each level from left to right.

    Every bottom and top edge is a level; edges that fall on one point share a stop. Raises ValueError unless
    widths and heights are above 0.
    """
    levels: defaultdict[int, defaultdict[int, list[tuple[str, str]]]] = defaultdict(lambda: defaultdict(list))
    for outline in outlines:
        at = marks(outline)
        for level in (at.bottom_nm, at.top_nm):
            levels[level][at.left_nm].append((at.tag, "left"))
            levels[level][at.right_nm].append((at.tag, "right"))
    return tuple(
        Line(level, tuple(Stop(at_nm, tuple(sorted(edges))) for at_nm, edges in sorted(levels[level].items())))
        for level in sorted(levels)
    )


def tape_length(outlines: Sequence[Outline]) -> int:
    """Tape round every outline, nanometres. A side that two outlines share is taped for each of them.

    Raises ValueError unless widths and heights are above 0.
    """
    for outline in outlines:
        _check(outline)
    return sum(2 * (outline.width_nm + outline.height_nm) for outline in outlines)


def rolls(length_nm: int, roll_nm: int = ROLL_NM, spare_percent: int = 0) -> int:
    """Whole rolls for a length of tape and so many parts in a hundred more.

    Raises ValueError unless the roll is above 0 and the rest at least 0.
    """
    if roll_nm <= 0 or length_nm < 0 or spare_percent < 0:
        raise ValueError("rolls need a roll length above 0, and a length and spare of at least 0")
    return -(-length_nm * (100 + spare_percent) // (100 * roll_nm))


def _check(outline: Outline) -> None:
    if outline.width_nm <= 0 or outline.height_nm <= 0:
        raise ValueError(f"{outline.tag} needs a width and a height above 0")
