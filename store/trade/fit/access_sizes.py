"""How large an access opening must be: for a hand, two hands, an arm, or a part that is swapped through it.

Whole nanometres. Two figures stand for each task. The least is what a body passes at all: MIL-STD-1472 (figure "Arm
and hand access dimensions", editions D to F), from memory, for a bare hand or light clothing. The usual is what trades
cut so that the work can also be seen and done: common practice, no source. Where even the least is not sure it is
marked as common practice too. Local code and the manufacturer's instructions win.
"""

from __future__ import annotations

from typing import Literal

import msgspec

from store.measure.length import INCH_NM, MM_NM
from store.trade.fit.pieces import Passage, Size, passes

Task = Literal["one hand", "two hands", "an arm", "a part"]
PRACTICE = "common practice"
MIL = "MIL-STD-1472, arm and hand access dimensions (from memory)"


class Way(msgspec.Struct, frozen=True):
    """A clear opening for a task; it may be turned on its side."""

    width_nm: int
    height_nm: int
    source: str

    @property
    def sure(self) -> bool:
        """True where a printed source is named for it."""
        return self.source != PRACTICE


def _inches(width: float, height: float, source: str) -> Way:
    return Way(round(width * INCH_NM), round(height * INCH_NM), source)


LEAST: dict[Task, Way] = {
    "one hand": _inches(3.5, 5.0, MIL),  # clenched hand to the wrist
    "two hands": _inches(8.0, 5.0, PRACTICE),
    "an arm": _inches(5.0, 5.0, MIL),  # arm to the shoulder
    "a part": _inches(3.5, 5.0, MIL),  # the hand that holds it; the part itself comes on top
}
"""What a body passes at all."""
USUAL: dict[Task, Way] = {
    "one hand": _inches(6, 9, PRACTICE),
    "two hands": _inches(12, 12, PRACTICE),
    "an arm": _inches(8, 8, PRACTICE),
    "a part": _inches(6, 9, PRACTICE),
}
"""What is usually cut for a task near the face of the wall."""
METRIC_MM = {3.5: 90, 5.0: 125, 6.0: 150, 8.0: 200, 9.0: 225, 12.0: 300}
"""Sides of common practice as metric trades cut them: 12 in is a door of 300 mm."""


def least(task: Task, metric: bool = False) -> Way:
    """The least opening for a task, as the trades of the region cut it."""
    return _in_region(LEAST[task], metric)


def usual(task: Task, metric: bool = False) -> Way:
    """The usual opening for a task, as the trades of the region cut it."""
    return _in_region(USUAL[task], metric)


def _in_region(way: Way, metric: bool) -> Way:
    """A way of common practice in whole millimetres of the trade; one of a printed source stays as it is."""
    if not metric or way.sure:
        return way
    width, height = (METRIC_MM[side / INCH_NM] * MM_NM for side in (way.width_nm, way.height_nm))
    return Way(width, height, way.source)


BOX_COVER_IN, GANG_IN = 4.0, 1.8125
"""Side of the cover of a usual junction box, and how much wider each gang beyond two makes it: trade sizes of metal
boxes, common practice. In metric trades the cover is 100 mm."""


def box_way(gangs: int, metric: bool = False) -> Way:
    """The least opening through which the wires of a box can be got at: a hand goes in, and its cover comes out.

    A hand: MIL-STD-1472, from memory; the cover: common practice. `gangs` is the box's width in gangs.
    """
    hand = LEAST["one hand"]
    cover = (100 * MM_NM if metric else round(BOX_COVER_IN * INCH_NM)) + max(gangs - 2, 0) * round(GANG_IN * INCH_NM)
    return Way(max(hand.width_nm, cover), max(hand.height_nm, round(BOX_COVER_IN * INCH_NM)), f"{MIL}; {PRACTICE}")


REACH_NM: dict[Task, int] = {
    "one hand": 12 * INCH_NM,
    "two hands": 18 * INCH_NM,
    "an arm": 24 * INCH_NM,
    "a part": 18 * INCH_NM,
}
"""How far from the edge of its opening a thing may lie and still be worked on. Common practice, no source."""
OPEN_FRONT_REACH_NM = 24 * INCH_NM
"""The same for an open cabinet, where a whole arm goes in. Common practice, no source."""
SHOULDERS = _inches(20, 16, PRACTICE)
"""An opening that head and shoulders go into, so that one works at its back from inside: common practice, no source."""
HELD_SIDES_NM = 9 * INCH_NM // 2
HELD_TOP_NM = INCH_NM // 2
HELD_LEAST_NM = 5 * INCH_NM
"""Hands at both sides of a box: its width and 4 1/2 in; its height and 1/2 in, 5 in at least. MIL-STD-1472, from
memory."""

DOORS_IN = (
    (6, 6), (6, 9), (8, 8), (10, 10), (12, 12), (14, 14), (14, 29), (16, 16), (18, 18), (22, 22), (24, 24), (24, 36),
)  # fmt: skip
"""Access doors as sold, width and height, in. Trade lists, from memory."""
DOORS_MM = (150, 200, 300, 400, 450, 500, 600)
"""Square access doors as sold by the metre countries, mm. Common practice, from memory."""
FRAME_NM = INCH_NM // 4
"""The framed hole is larger than the door by 1/8 to 1/4 in; the larger is taken. Common practice: the maker's figure
wins."""


def doors(metric: bool) -> tuple[Way, ...]:
    """The doors as sold, the smallest first."""
    if metric:
        return tuple(Way(side * MM_NM, side * MM_NM, PRACTICE) for side in DOORS_MM)
    return tuple(_inches(width, height, PRACTICE) for width, height in DOORS_IN)


def door_for(width_nm: int, height_nm: int, metric: bool = False) -> Way | None:
    """The smallest door as sold that gives so much, turned where that is smaller; None when none is large enough.

    The clear size of a door is a little less than its name: ask the manufacturer.
    """
    turned = [
        way
        for each in doors(metric)
        for way in (each, Way(each.height_nm, each.width_nm, each.source))
        if way.width_nm >= width_nm and way.height_nm >= height_nm
    ]
    return min(turned, key=lambda way: (way.width_nm * way.height_nm, way.width_nm), default=None)


def framed_nm(clear_nm: int) -> int:
    """Side of the framed hole for a door of a size, nm. Common practice: the manufacturer's figure wins."""
    return clear_nm + FRAME_NM


def lets_through(width_nm: int, height_nm: int, way: Way) -> bool:
    """Whether a clear opening gives a way, upright or on its side."""
    return (width_nm >= way.width_nm and height_nm >= way.height_nm) or (
        width_nm >= way.height_nm and height_nm >= way.width_nm
    )


def part_through(part: Size, width_nm: int, height_nm: int) -> Passage:
    """Whether a part goes straight through a clear opening in some turn; no hand beside it is counted."""
    return passes(part, Size(width_nm, height_nm))


def held_through(part: Size, width_nm: int, height_nm: int) -> bool | None:
    """Whether a part goes through with hands at two of its sides, in some turn; None while a size is not known.

    Width of the part and 4 1/2 in, by its height and 1/2 in, 5 in at least: MIL-STD-1472, from memory.
    """
    sides = (part.width_nm, part.height_nm, part.depth_nm)
    if None in sides:
        return None
    known = [side for side in sides if side is not None]
    for ahead in range(3):
        one, other = (side for at, side in enumerate(known) if at != ahead)
        for held, upright in ((one, other), (other, one)):
            way = Way(held + HELD_SIDES_NM, max(upright + HELD_TOP_NM, HELD_LEAST_NM), MIL)
            if lets_through(width_nm, height_nm, way):
                return True
    return False
