"""The days by which to order, and those until which a thing may go back."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import timedelta

from store.measure.dates import relative_day
from store.records.equipment import Equipment
from store.records.people import Step
from store.records.whole import Job
from store.rules.buying.order_by import needing, orders
from store.rules.buying.returns import NEAR_DAYS, return_days_left
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import date_text, day_short, plural

ORDER_NEAR_DAYS = 7
"""An order is told this many days ahead (our own choice: one weekend to decide)."""


@rule
@from_each(Equipment)
def order_now(job: Job, record: Equipment) -> Iterable[Finding]:
    """Things whose last day to order is near or gone, and ordered ones that will not come in time."""
    tag, one = record.tag, orders(job).get(record.tag)
    if one is None:
        return
    needed = f"{one.step} {job.of(Step)[one.step].what}" if one.step else "its test fit"
    on = date_text(job, one.needed_on)
    if one.order_by is not None and one.order_by < job.today:
        late = plural((job.today - one.order_by).days, "day")
        yield _buying(
            "order_day_gone", "fix", tag,
            f"Order by {day_short(job, one.order_by)}: {late} late",
            f"It had to be ordered by {date_text(job, one.order_by)} to be here for {needed} on {on}.",
            "Order it today and ask for faster delivery, pick one that is in stock, or move the step.",
            {"order by": one.order_by.isoformat(), "needed": one.needed_on.isoformat()},
        )  # fmt: skip
    elif one.order_by is not None and one.order_by <= job.today + timedelta(days=ORDER_NEAR_DAYS):
        yield _buying(
            "order_day_near", "look", tag,
            f"Order by {day_short(job, one.order_by)}, {relative_day(one.order_by, job.today)}",
            f"It must be ordered by {date_text(job, one.order_by)} to be here for {needed} on {on}.",
            "Order it once you know that it fits.",
            {"order by": one.order_by.isoformat(), "needed": one.needed_on.isoformat()},
        )  # fmt: skip
    elif one.late_days and one.expected is not None:
        yield _buying(
            "ordered_too_late", "fix", tag,
            f"Delivery {day_short(job, one.expected)}, {plural(one.late_days, 'day')} too late",
            f"It is expected on {date_text(job, one.expected)}; {needed} needs it on {on}.",
            "Ask the seller for an earlier day, or move the step.",
            {"expected": one.expected.isoformat(), "needed": one.needed_on.isoformat()},
        )  # fmt: skip
    elif one.expected is not None and one.expected < job.today:
        yield _buying(
            "delivery_overdue", "look", tag,
            f"Delivery overdue since {day_short(job, one.expected)}",
            f"It was expected on {date_text(job, one.expected)}, and no arrival is entered.",
            "Ask the seller where it is, or enter the day it arrived.",
            {"expected": one.expected.isoformat()},
        )  # fmt: skip


def _buying(name: str, severity: str, tag: str, head: str, says: str, remedy: str, numbers: dict[str, str]) -> Finding:
    return Finding(
        name, "fix" if severity == "fix" else "look", (tag,), head, remedy, "Lead days, as entered", numbers, why=says
    )


@rule
@from_each(Equipment)
def return_ends_before_fit(job: Job, one: Equipment) -> Iterable[Finding]:
    """Things that can be sent back only until before they are tried in place."""
    tag = one.tag
    left = return_days_left(one, job)
    if left is None or left < 0 or one.return_by is None:
        return
    step = needing(job, one)
    if one.tested is not None and one.tested > one.return_by:
        tried = f"its test fit on {date_text(job, one.tested)}"
    elif one.tested is None and step is not None and step.start > one.return_by and left > NEAR_DAYS:
        tried = f"{step.key}, which puts it in place on {date_text(job, step.start)}; no test fit is planned"
    else:
        return
    yield Finding(
        "return_ends_before_fit",
        "look",
        (tag,),
        f"Return window closes {day_short(job, one.return_by)}, before the test fit",
        f"Try it in place by {date_text(job, one.return_by)} and enter the day as its test fit.",
        "Seller's terms, as entered",
        {"return by": one.return_by.isoformat()},
        why=f"You can send it back until {date_text(job, one.return_by)}, before {tried}.",
    )
