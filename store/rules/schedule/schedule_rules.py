"""Findings about time: steps in a circle, bookings that cannot hold, things to order, days to send back."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import timedelta

from store.measure.dates import echo_date, show_date
from store.records.equipment import Equipment
from store.records.people import Contact, Step
from store.records.whole import Job
from store.rules.buying.order_by import needing, orders
from store.rules.buying.return_rules import NEAR_DAYS, return_days_left
from store.rules.core.findings import Finding, rule
from store.rules.core.wording import plural
from store.rules.schedule.calendar import SOURCE, calendar, who_words
from store.rules.schedule.days_off import unreadable, week_of
from store.trade.schedule.working_days import works_on

PRACTICE = "common practice"
ORDER_NEAR_DAYS = 7
"""An order is told this many days ahead (our own choice: one weekend to decide)."""


@rule
def steps_without_order(job: Job) -> Iterable[Finding]:
    """Steps that wait for each other, or figures that make no calendar."""
    found = calendar(job)
    if found.wrong:
        yield Finding(
            "steps_without_order",
            "fix",
            found.wrong_tags,
            f"No date can be given: {found.wrong}.",
            "Change what one of them comes after, or its days.",
            SOURCE,
            {"why": found.wrong},
        )


@rule
def step_days_do_not_fit(job: Job) -> Iterable[Finding]:
    """Days begun and done that cannot both be so."""
    for tag, one in job.of(Step).items():
        wrong = ""
        if one.began is not None and one.done is not None and one.done < one.began:
            wrong = f"is done on {show_date(one.done)} and begun only on {show_date(one.began)}"
        elif one.done is not None and one.done > job.today:
            wrong = f"is noted as done on {show_date(one.done)}, which has not come"
        elif one.began is not None and one.began > job.today:
            wrong = f"is noted as begun on {show_date(one.began)}, which has not come"
        if wrong:
            yield Finding(
                "step_days_do_not_fit", "look", (tag,), f"{tag} {one.what} {wrong}.", "Mend the day.", PRACTICE,
                {"began": str(one.began or ""), "done": str(one.done or "")},
            )  # fmt: skip


@rule
def booking_cannot_hold(job: Job) -> Iterable[Finding]:
    """A day that was booked, and on which the step cannot start."""
    found = calendar(job)
    for one in found.schedule.steps:
        step = job.of(Step)[one.key]
        if not one.misses_booking_days or step.booked is None or one.done:
            continue
        past = step.booked < job.today
        why = f" ({one.driver} {job.of(Step)[one.driver].what} comes first)" if one.driver and not past else ""
        says = "was booked for" if past else "is booked for"
        then = "it has not begun, and can start on" if past else "it cannot start before"
        yield Finding(
            "booking_cannot_hold",
            "fix",
            (one.key, *((step.who,) if step.who in job.of(Contact) else ())),
            f"{one.key} {step.what} {says} {show_date(step.booked)}; {then} {show_date(one.start)}{why}.",
            f"Call {who_words(job, step)} and book {show_date(one.start)} or later, or note the day it began.",
            SOURCE,
            {"booked": step.booked.isoformat(), "start": one.start.isoformat()},
        )


@rule
def booking_on_a_day_off(job: Job) -> Iterable[Finding]:
    """A day still to come that was booked and is none of the working days of who is booked: perhaps a slip."""
    for tag, one in job.of(Step).items():
        contact = job.of(Contact).get(one.who)
        if contact is None or one.booked is None or one.booked < job.today or one.began or one.done:
            continue
        if not works_on(week_of(contact, calendar(job).start), one.booked):
            yield Finding(
                "booking_on_a_day_off", "look", (tag, contact.tag),
                f"{tag} {one.what} is booked for {echo_date(one.booked)}, on which {contact.name} does not work "
                f"({', '.join((contact.week, *contact.days_off))[:120]}).",
                "Mend the day; or leave it, if they said that they come: a booked day counts as worked.",
                PRACTICE, {"booked": one.booked.isoformat(), "week": contact.week},
            )  # fmt: skip


@rule
def days_off_unreadable(job: Job) -> Iterable[Finding]:
    """Days off that do not count, because they cannot be read."""
    for tag, one in job.of(Contact).items():
        for wrong in unreadable(one, calendar(job).start):
            yield Finding(
                "days_off_unreadable", "look", (tag,), f"A day off of {one.name} does not count: {wrong}.",
                "Write it in one of these forms.", PRACTICE, {"why": wrong},
            )  # fmt: skip


@rule
def order_now(job: Job) -> Iterable[Finding]:
    """Things whose last day to order is near or gone, and ordered ones that will not come in time."""
    for tag, one in orders(job).items():
        thing = job.of(Equipment)[tag]
        needed = f"{one.step} {job.of(Step)[one.step].what}" if one.step else "its test fit"
        on = show_date(one.needed_on)
        if one.order_by is not None and one.order_by < job.today:
            late = plural((job.today - one.order_by).days, "day")
            yield _buying(
                "order_day_gone", "fix", tag,
                f"{thing.name} had to be ordered by {show_date(one.order_by)}, {late} ago, to be there for {needed} "
                f"on {on}.",
                "Order it today and ask for a shorter delivery, take another that is in stock, or move the step.",
                {"order by": one.order_by.isoformat(), "needed": one.needed_on.isoformat()},
            )  # fmt: skip
        elif one.order_by is not None and one.order_by <= job.today + timedelta(days=ORDER_NEAR_DAYS):
            yield _buying(
                "order_day_near", "look", tag,
                f"{thing.name} must be ordered by {show_date(one.order_by)} to be there for {needed} on {on}.",
                "Order it, once its sizes are proved to fit.",
                {"order by": one.order_by.isoformat(), "needed": one.needed_on.isoformat()},
            )  # fmt: skip
        elif one.late_days and one.expected is not None:
            yield _buying(
                "ordered_too_late", "fix", tag,
                f"{thing.name} is expected on {show_date(one.expected)}, {plural(one.late_days, 'day')} after {needed} "
                f"needs it on {on}.",
                "Ask the seller for an earlier day, or move the step.",
                {"expected": one.expected.isoformat(), "needed": one.needed_on.isoformat()},
            )  # fmt: skip
        elif one.expected is not None and one.expected < job.today:
            yield _buying(
                "delivery_overdue", "look", tag,
                f"{thing.name} was expected on {show_date(one.expected)} and is not noted as arrived.",
                "Ask the seller where it is, or note the day it arrived.",
                {"expected": one.expected.isoformat()},
            )  # fmt: skip


def _buying(name: str, severity: str, tag: str, says: str, remedy: str, numbers: dict[str, str]) -> Finding:
    return Finding(
        name, "fix" if severity == "fix" else "look", (tag,), says, remedy, "the lead days you noted", numbers
    )


@rule
def return_ends_before_fit(job: Job) -> Iterable[Finding]:
    """Things that can be sent back only until before they are tried in place."""
    for tag, one in job.of(Equipment).items():
        left = return_days_left(one, job)
        if left is None or left < 0 or one.return_by is None:
            continue
        step = needing(job, one)
        if one.tested is not None and one.tested > one.return_by:
            tried = f"its test fit on {show_date(one.tested)}"
        elif one.tested is None and step is not None and step.start > one.return_by and left > NEAR_DAYS:
            tried = f"{step.key}, which puts it in place on {show_date(step.start)}; no test fit is planned"
        else:
            continue
        yield Finding(
            "return_ends_before_fit",
            "look",
            (tag,),
            f"{one.name} can be sent back until {show_date(one.return_by)}, before {tried}.",
            f"Try it in place by {show_date(one.return_by)} and note the day as its test fit.",
            "the seller's terms, as you noted them",
            {"return by": one.return_by.isoformat()},
        )
