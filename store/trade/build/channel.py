"""The channel (profile) that tape lies in: its pieces round the corners, how it is cut, and the tape to go in.

Whole nanometres. A piece is measured along its outside, the long side of a mitered end. Tape is cut only at its marks
and does not bend sideways, so at a corner in the plane of the wall it is cut and joined: common practice; the
manufacturer's sheet wins.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

import msgspec

from store.measure.length import FOOT_NM, MM_NM
from store.trade.build.lumber import Bought, cut_from

Joined = Literal["mitered", "corner connectors", "apart"]
KERF_NM = 2 * MM_NM
"""What a fine saw takes of aluminum: common practice."""
STOCK_NM = 78 * FOOT_NM // 12
METRIC_STOCK_NM = 2000 * MM_NM
"""Channel is sold by two meters, in the US told as 6'-6": common practice."""


class Channel(msgspec.Struct, frozen=True):
    """One run of channel."""

    pieces_nm: tuple[int, ...]
    tape_nm: tuple[int, ...]
    """The tape in each piece, cut at a mark."""
    stock_nm: int
    bought: Bought
    corners: int
    miters: int
    """Ends to be cut at 45 degrees."""
    caps: int
    """End caps."""

    @property
    def lengths(self) -> int:
        """How many lengths to buy."""
        return len(self.bought.cuts)


def to_mark_nm(length_nm: int, step_nm: int | None) -> int:
    """The longest tape within a length that ends on a cut mark. Raises ValueError for a length below 0 or a step not
    above 0."""
    if length_nm < 0 or (step_nm is not None and step_nm <= 0):
        raise ValueError("tape has a length of at least 0 and marks a step above 0 apart")
    return length_nm if step_nm is None else length_nm // step_nm * step_nm


def channel(pieces_nm: Sequence[int], joined: Joined, stock_nm: int, step_nm: int | None = None) -> Channel:
    """The channel of a run. A piece longer than the stock is butted end to end.

    Corners are between pieces that follow each other, unless they stand apart. Raises ValueError for no piece, or for
    lengths, stock and marks not above 0.
    """
    if not pieces_nm or min(pieces_nm) <= 0:
        raise ValueError("a run of channel has pieces longer than 0")
    corners = 0 if joined == "apart" else len(pieces_nm) - 1
    return Channel(
        tuple(pieces_nm),
        tuple(to_mark_nm(each, step_nm) for each in pieces_nm),
        stock_nm,
        cut_from(pieces_nm, (stock_nm,), KERF_NM),
        corners,
        2 * corners if joined == "mitered" else 0,
        2 * (len(pieces_nm) - corners),
    )


def led_pitch_nm(leds_per_ft: float) -> int:
    """From one LED to the next, nanometres. Raises ValueError unless above 0."""
    if leds_per_ft <= 0:
        raise ValueError("tape has LEDs, more than 0 a foot")
    return round(FOOT_NM / leds_per_ft)
