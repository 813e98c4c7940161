"""Days: a booking that can hold, a step booked for the day on which it can start, an order placed today."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from msgspec.structs import replace

from store.records.equipment import Equipment
from store.records.field import Ref
from store.records.people import Step
from store.records.whole import Job
from store.rules.core.findings import Finding
from store.rules.core.wording import date_text
from store.rules.fixes.fix import Fix, fixes
from store.rules.schedule.calendar import calendar

TRIED_DAYS = 21
"""Days after the first possible one that are tried."""


@fixes("booking_cannot_hold", "nobody_booked", "booking_on_a_day_off", "office_closed")
def booked(job: Job, finding: Finding) -> Iterator[Fix]:
    """The first day on which the step can start and its trade works."""
    step = job.of(Step).get(finding.tags[0])
    dated = calendar(job).dated.get(finding.tags[0])
    if step is None or dated is None:
        return
    first = max(dated.start, job.today)
    for later in range(TRIED_DAYS):
        day = first + timedelta(days=later)
        yield Fix(f"Call, and book {step.tag} for {date_text(job, day)}", (replace(step, booked=day),))


@fixes("twice_on_one_day")
def one_after_the_other(job: Job, finding: Finding) -> Iterator[Fix]:
    """The second step after the first."""
    first, second = (job.of(Step).get(tag) for tag in finding.tags[:2])
    if first is not None and second is not None:
        for one, other in ((second, first), (first, second)):
            after = (*one.after, Ref(other.tag))
            yield Fix(f"Start {one.tag} after {other.tag}", (replace(one, after=after),))


@fixes("order_day_near", "order_day_gone")
def ordered(job: Job, finding: Finding) -> Iterator[Fix]:
    """Ordered today."""
    one = job.of(Equipment).get(finding.tags[0])
    if one is not None:
        yield Fix(f"Order {one.tag} today", (replace(one, state="ordered", ordered=job.today),))


@fixes("return_ends_before_fit")
def tried_in_time(job: Job, finding: Finding) -> Iterator[Fix]:
    """The test fit a few days before it can no longer go back."""
    one = job.of(Equipment).get(finding.tags[0])
    if one is not None and one.return_by is not None:
        for days in (3, 1, 0):
            day = max(job.today, one.return_by - timedelta(days=days))
            yield Fix(f"Plan the test fit for {date_text(job, day)}", (replace(one, tested=day),))
