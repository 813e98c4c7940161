"""A share of a whole as a bar of plain blocks, which every terminal has."""

from __future__ import annotations

FULL, EMPTY, OVER = "█", "░", "▓"


def bar(part: float, whole: float, cells: int = 10) -> str:
    """A bar of so many cells: `████░░░░░░`. Only a whole that is reached fills it, and whatever was begun
    shows; what is over is told by its last cell, since a bar has no more room."""
    if whole <= 0:
        return EMPTY * cells
    if part > whole:
        return FULL * (cells - 1) + OVER
    filled = cells if part >= whole else min(cells - 1, max(int(part > 0), int(part * cells / whole)))
    return FULL * filled + EMPTY * (cells - filled)
