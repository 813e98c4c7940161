"""The wood between studs that a load is screwed to: which bays, how long each piece."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from store.trade.measured.framing import Bay


class Block(NamedTuple):
    """One piece, tight between two studs, nanometres: its left end, its length, and the middle of its height."""

    left_nm: int
    length_nm: int
    at_nm: int


def blocks(bays: Sequence[Bay], left_nm: int, right_nm: int, heights_nm: Sequence[int]) -> tuple[Block, ...]:
    """The pieces behind a stretch of wall: one in every bay that it reaches, for each height, low to high.

    Plane geometry. A stretch that a stud covers alone needs none.
    """
    reached = [bay for bay in bays if bay.left_nm < right_nm and left_nm < bay.right_nm]
    return tuple(Block(bay.left_nm, bay.clear_nm, at) for at in sorted(heights_nm) for bay in reached)
