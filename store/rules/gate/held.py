"""How the gate refuses: with what holds, a line each."""

from __future__ import annotations

from collections.abc import Sequence

from store.measure.errors import StudbookError


class Held(StudbookError):
    """The gate holds; nothing was changed."""

    exit_status = 3


class NeedsReason(Held):
    """It may be done, but only with a written reason."""


def held_text(stage: str, lines: Sequence[str], most: int = 20) -> str:
    """What holds a stage, one line each, the first of many."""
    return told(f"{stage} is locked, {len(lines)} open:", lines, most)


def told(head: str, lines: Sequence[str], most: int = 20) -> str:
    """A head and some lines, the first of many."""
    more = [f"  and {len(lines) - most} more"] if len(lines) > most else []
    return "\n".join([head, *(f"  {line}" for line in lines[:most]), *more])
