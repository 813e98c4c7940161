"""Findings about buying: days on which something can last be sent back."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from store.measure.dates import show_date
from store.records.equipment import Equipment
from store.records.whole import Job
from store.rules.buying.order_by import orders
from store.rules.buying.returns import NEAR_DAYS, return_days_left
from store.rules.core.findings import Finding, rule


@rule
def return_by_near(job: Job) -> Iterable[Finding]:
    """The last day to send something back is near, and it was not yet tried in place."""
    for tag, one in job.of(Equipment).items():
        left = return_days_left(one, job)
        if left is None or left > NEAR_DAYS or one.return_by is None:
            continue
        when = f"in {left} days, on" if left > 1 else "tomorrow," if left == 1 else "today," if left == 0 else "on"
        says = "could last be sent back" if left < 0 else "can last be sent back"
        yield Finding(
            "return_by_near",
            "look",
            (tag,),
            f"{one.name} {says} {when} {show_date(one.return_by)}, and {_not_tried(job, one, one.return_by)}.",
            "Try it in place, and note the day as its test fit; or send it back.",
            "the seller's terms, as you noted them",
            {"return by": one.return_by.isoformat()},
        )


def _not_tried(job: Job, one: Equipment, return_by: date) -> str:
    """Why it was not tried in place yet: it comes too late, its day is to come, or nobody noted one."""
    order = orders(job).get(one.tag)
    if order is not None and order.expected is not None and order.expected > return_by:
        return f"it is expected only on {show_date(order.expected)}"
    return f"its test fit is to be on {show_date(one.tested)}" if one.tested else "its test fit is not noted"
