"""A share of a whole as a bar of plain blocks, which every terminal has."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

FULL, EMPTY, OVER = "█", "░", "▓"
MOST_DROP_PCT = 3.0
"""A drop in voltage up to which the far end of a branch circuit is well served (NEC 210.19(A), informational note)."""
SHARES = {
    "box fill": ("fill_in3", "volume_in3"),
    "load": ("design_a", "limit_a"),
    "voltage drop": ("drop_pct", MOST_DROP_PCT),
    "fill": ("fill_pct", "limit_pct"),
}
"""What is shown as a bar, by the names of the figures: how much there is, and how much there may be."""


def bar(part: float, whole: float, cells: int = 10) -> str:
    """A bar of so many cells: `████░░░░░░`. Only a whole that is reached fills it, and whatever was begun
    shows; what is over is told by its last cell, since a bar has no more room."""
    if whole <= 0:
        return EMPTY * cells
    if part > whole:
        return FULL * (cells - 1) + OVER
    filled = cells if part >= whole else min(cells - 1, max(int(part > 0), int(part * cells / whole)))
    return FULL * filled + EMPTY * (cells - filled)


def share(found: Mapping[str, Any], name: str) -> tuple[float, float] | None:
    """How much there is of something and how much there may be; None where a figure is not known."""
    part, whole = SHARES[name]
    have, most = found.get(part), found.get(whole) if isinstance(whole, str) else whole
    if isinstance(have, int | float) and isinstance(most, int | float) and most > 0:
        return float(have), float(most)
    return None
