"""Findings about time: steps in a circle, bookings that cannot hold, things to order, days to send back."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.dates import echo_date
from store.records.people import Contact, Step
from store.records.whole import Job
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import date_text, day_in_week, day_short, sentence
from store.rules.schedule.calendar import SOURCE, calendar, who_words
from store.rules.schedule.days_off import public_days, unreadable, week_of
from store.trade.schedule.holidays import METRIC_SOURCE, US_SOURCE
from store.trade.schedule.working_days import works_on

PRACTICE = "common practice"
OFFICES = ("inspector", "supplier")
"""Who keeps all public holidays. Common practice."""


@rule
def steps_without_order(job: Job) -> Iterable[Finding]:
    """Steps that wait for each other, or figures that make no calendar."""
    found = calendar(job)
    if found.wrong:
        yield Finding(
            "steps_without_order",
            "fix",
            found.wrong_tags,
            "No dates: the steps have no order",
            "Change what one of them comes after, or its days.",
            SOURCE,
            {"why": found.wrong},
            why=f"{found.wrong[0].upper()}{found.wrong[1:]}.",
        )


@rule
@from_each(Step)
def step_days_do_not_fit(job: Job, one: Step) -> Iterable[Finding]:
    """Days begun and done that cannot both be so."""
    tag = one.tag
    wrong = ""
    if one.began is not None and one.done is not None and one.done < one.began:
        wrong = f"is done {date_text(job, one.done)} but begun {date_text(job, one.began)}"
    elif one.done is not None and one.done > job.today:
        wrong = f"is entered as done {date_text(job, one.done)}, which is still to come"
    elif one.began is not None and one.began > job.today:
        wrong = f"is entered as begun {date_text(job, one.began)}, which is still to come"
    if wrong:
        yield Finding(
            "step_days_do_not_fit", "look", (tag,), "Step dates contradict", "Correct the date.", PRACTICE,
            {"began": str(one.began or ""), "done": str(one.done or "")},
why=f"{tag} {wrong}.",
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
        then = "it has not begun and can start" if past else "it can't start before"
        yield Finding(
            "booking_cannot_hold",
            "fix",
            (one.key, *((step.who,) if step.who in job.of(Contact) else ())),
            f"Booked {day_short(job, step.booked)}, can't start before {day_short(job, one.start)}"
            if not past
            else f"Booked {day_short(job, step.booked)}, not begun",
            (f"Call {who_words(job, step)} and book {date_text(job, one.start)} or later, or enter the day it began."),
            SOURCE,
            {"booked": step.booked.isoformat(), "start": one.start.isoformat()},
            why=f"It {says} {date_text(job, step.booked)}; {then} {date_text(job, one.start)}{why}.",
            about=(one.key,),
        )


@rule
@from_each(Step)
def booking_on_a_day_off(job: Job, one: Step) -> Iterable[Finding]:
    """A day still to come that was booked and is none of the working days of who is booked: perhaps a slip."""
    metric = job.settings.region != "us"
    tag = one.tag
    contact = job.of(Contact).get(one.who)
    if contact is None or one.booked is None or one.booked < job.today or one.began or one.done:
        return
    if not works_on(week_of(contact, calendar(job).start, metric), one.booked):
        yield Finding(
            "booking_on_a_day_off", "look", (tag, contact.tag),
            f"Booked on a day off, {day_in_week(job, one.booked)}",
            (
"Correct the day. Or leave it if they said they'll come: a booked day counts as a working "
"day."
),
            PRACTICE, {"booked": one.booked.isoformat(), "week": contact.week},
why=(
f"{contact.name} does not work on {echo_date(one.booked, job.manner.day_first)} "
f"({', '.join((contact.week, *contact.days_off))[:120]})."
),
about=(tag,),
        )  # fmt: skip


@rule
@from_each(Contact)
def days_off_unreadable(job: Job, one: Contact) -> Iterable[Finding]:
    """Days off that do not count, because they cannot be read."""
    tag = one.tag
    for wrong in unreadable(one, calendar(job).start):
        yield Finding(
            "days_off_unreadable", "look", (tag,), "Can't read a day off",
            "Write it in one of these forms.", PRACTICE, {"why": wrong},
why=sentence(wrong),
        )  # fmt: skip


@rule
def office_closed(job: Job) -> Iterable[Finding]:
    """An inspection or a delivery that would start on a public holiday, which crews may work and offices do not."""
    found = calendar(job)
    for one in found.schedule.steps:
        step = job.of(Step)[one.key]
        contact = job.of(Contact).get(step.who)
        if contact is None or contact.trade not in OFFICES or one.done or step.began is not None:
            continue
        if one.start in public_days(contact, found.start, job.settings.region != "us", "official"):
            yield Finding(
                "office_closed",
                "look",
                (one.key, contact.tag),
                "Starts on a public holiday",
                f"Call {contact.name} and ask for the next working day.",
                METRIC_SOURCE if job.settings.region != "us" else US_SOURCE,
                {"start": one.start.isoformat()},
                why=f"{date_text(job, one.start)} is a public holiday, on which inspectors and carriers are often off.",
                about=(one.key,),
            )
