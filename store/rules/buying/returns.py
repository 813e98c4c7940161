"""How long a thing may go back."""

from __future__ import annotations

from store.records.equipment import Equipment
from store.records.whole import Job


def return_days_left(one: Equipment, job: Job) -> int | None:
    """Days until it can last be sent back; None when that does not matter (any more)."""
    if one.return_by is None or one.state == "to buy" or one.retired is not None:
        return None
    if one.tested is not None and one.tested <= job.today:
        return None
    return (one.return_by - job.today).days


NEAR_DAYS = 14
"""A return-by day is told this many days ahead (our own choice: two weekends to try it in place)."""
