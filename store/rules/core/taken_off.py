"""What an action does to the list before it is saved: items that leave it, and items behind drywall that open again."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from operator import attrgetter
from typing import Any, Protocol

import msgspec

from store.records.gate import Closing
from store.records.whole import Job, Removed
from store.rules.core.checks import Item, RoughIn, items, rough_in
from store.rules.core.same import not_among


class Listed(msgspec.Struct, frozen=True):
    """What an action does to the list of rough-in items."""

    off: tuple[RoughIn, ...] = ()
    """Items that leave it."""
    on: tuple[str, ...] = ()
    """Keys of those that were taken off before and are back."""


class Change(Protocol):
    """What an action does to one record."""

    @property
    def kind(self) -> str:
        """Its table."""

    @property
    def after(self) -> dict[str, Any] | None:
        """The document after; None when it is gone."""


def changed_list(before: Job, after: Job, steps: Sequence[Change]) -> Listed:
    """What leaves the list by an action, and what comes back to it.

    What is retired on a day to come stays on the list until that day; it is told and asked for now all the same, since
    nobody acts on the day itself.
    """
    was, now = rough_in(before), rough_in(after)
    day = _retired_on(steps)
    then = now if day <= after.today else rough_in(msgspec.structs.replace(after, today=day))
    gone = {each.tag for each in before.removed}
    # What is to leave on a day to come was told when that was entered; what leaves before that day is told again.
    told = gone if then is not now else ()
    changed = set(map(_KEY, not_among(then, was)))
    off = tuple(each for each in not_among(was, then) if each.key not in told and each.key not in changed)
    kept = set(map(_KEY, then)) if off or gone else set()
    back = gone & kept if then is now else gone & kept & set(map(_KEY, now))
    return Listed(tuple(each for each in off if each.key not in kept), tuple(key for key in gone if key in back))


_KEY = attrgetter("key")


def _retired_on(steps: Sequence[Change]) -> date:
    days = [step.after["retired"] for step in steps if step.after is not None and step.after.get("retired")]
    return max((date.fromisoformat(str(each)) for each in days), default=date.min)


def taken_off(job: Job) -> tuple[Removed, ...]:
    """What was taken off the list and is not on it."""
    if not job.removed:
        return ()
    listed = {each.key for each in rough_in(job)}
    return tuple(each for each in job.removed if each.tag not in listed)


def reopened(before: Job, after: Job) -> list[Item]:
    """Items that were closed before an action, and that it opens although their closing stays."""
    closed = {each.key for each in items(before) if not each.open}
    closings = after.of(Closing)
    return [each for each in items(after) if each.open and each.key in closed and each.key in closings]
