"""Findings about buying: days on which something can last be sent back."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from store.measure.dates import due_day
from store.records.equipment import Equipment
from store.records.whole import Job
from store.rules.buying.order_by import orders
from store.rules.buying.returns import NEAR_DAYS, return_days_left
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import date_text, day_short


@rule
@from_each(Equipment)
def return_by_near(job: Job, one: Equipment) -> Iterable[Finding]:
    """The last day to send something back is near, and it was not yet tried in place."""
    tag = one.tag
    left = return_days_left(one, job)
    if left is None or left > NEAR_DAYS or one.return_by is None:
        return
    yield Finding(
        "return_by_near",
        "look",
        (tag,),
        f"Return window {'closed' if left < 0 else 'closes'} {day_short(job, one.return_by)}",
        "Try it in place and enter the date, or send it back.",
        "Seller's terms, as entered",
        {"return by": one.return_by.isoformat()},
        why=(
            f"{due_day(one.return_by, job.today)[0].upper()}{due_day(one.return_by, job.today)[1:]}; "
            f"{_not_tried(job, one, one.return_by)}."
        ),
    )


def _not_tried(job: Job, one: Equipment, return_by: date) -> str:
    """Why it was not tried in place yet: it comes too late, its day is to come, or nobody noted one."""
    order = orders(job).get(one.tag)
    if order is not None and order.expected is not None and order.expected > return_by:
        return f"it does not arrive until {date_text(job, order.expected)}"
    return f"its test fit is planned for {date_text(job, one.tested)}" if one.tested else "no test fit yet"
