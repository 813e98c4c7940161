"""The last day to order each thing: its lead days counted back from the step that needs it.

A thing names its step in `needed for`. Where that is empty it is needed for the first step of the hook-up that is
not done, or, where there is none, for the first of the finish: a device goes in last. A day noted for its test fit
that comes earlier wins. It must be in the house on that day at the latest.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta

import msgspec

from store.records.equipment import Equipment
from store.records.people import Step
from store.records.whole import Job
from store.rules.core.keyed import by_key
from store.rules.core.memo import once
from store.rules.schedule.calendar import calendar
from store.trade.schedule.critical_path import Dated

INSTALLING = ("Hook-up", "Finish")
"""Stages whose first step needs a device that names none."""

LONGEST_LEAD_DAYS = 3660
"""Ten years: longer lead days are a slip of the hand, and would count back to before there were dates."""


class Order(msgspec.Struct, frozen=True):
    """One thing that is not in the house yet."""

    tag: str
    step: str
    """The step that needs it; empty when its test fit comes first and no step is known."""
    needed_on: date
    order_by: date | None
    """None when its lead days are not noted, or when it is ordered already."""
    expected: date | None
    """The day it comes, for a thing that is ordered and whose lead days are noted."""

    @property
    def late_days(self) -> int:
        """Days by which what is ordered comes too late; 0 when it comes in time or nothing is known."""
        return max(0, (self.expected - self.needed_on).days) if self.expected else 0


@by_key
def orders(job: Job) -> Mapping[str, Order]:
    """Every thing that is not owned, by tag, as far as a step or a test fit needs it on a known day."""
    found = {}
    for tag, one in job.of(Equipment).items():
        if one.state == "owned" or one.retired is not None:
            continue
        if order := _order(job, one):
            found[tag] = order
    return found


def _order(job: Job, one: Equipment) -> Order | None:
    step = needing(job, one)
    days = [step.start] if step else []
    if one.tested is not None and one.tested >= job.today:
        days.append(one.tested)
    if not days:
        return None
    needed = min(days)
    order_by = expected = None
    lead = timedelta(days=min(one.lead or 0, LONGEST_LEAD_DAYS))
    if one.lead is not None and one.state == "to buy":
        order_by = needed - lead
    if one.lead is not None and one.state == "ordered" and one.ordered is not None:
        expected = one.ordered + lead
    return Order(one.tag, step.key if step else "", needed, order_by, expected)


def needing(job: Job, one: Equipment) -> Dated | None:
    """The step that needs a thing, with its dates; None when there is none or it is done."""
    if one.needed_for:
        step = calendar(job).dated.get(one.needed_for)
        return step if step is not None and not step.done else None
    return first_installing(job)


@once
def first_installing(job: Job) -> Dated | None:
    """The first step, not done, of the stages in which devices go in."""
    dated = calendar(job).dated
    for stage in INSTALLING:
        open_steps = [dated[tag] for tag, step in job.of(Step).items() if step.stage == stage and tag in dated]
        open_steps = [each for each in open_steps if not each.done]
        if open_steps:
            return min(open_steps, key=lambda each: each.start)
    return None
