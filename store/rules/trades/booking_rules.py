"""Findings about the trades: papers that end before their work, nobody booked for what comes soon."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import timedelta

from store.records.people import Contact, Step
from store.records.whole import Job
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each, index
from store.rules.core.wording import date_text, day_short
from store.rules.schedule.calendar import calendar
from store.rules.trades.calls import open_steps, paper_name, papers_short

PRACTICE = "common practice"
BOTH_AT_ONCE = ("owner", "supplier")
"""Who can have two things on one day: the owner waits for paper, a supplier brings two boxes."""
NEAR_DAYS = 7
"""A step that starts within so many days and has nobody booked is told (our own choice: a week)."""


@rule
@from_each(Contact)
def papers_end_before_work(job: Job, one: Contact) -> Iterable[Finding]:
    """A licence or an insurance that is good today and ends before the last step of its owner does."""
    tag = one.tag
    for paper, until, step in papers_short(job, one):
        finish = calendar(job).dated[step].finish
        yield Finding(
            f"{paper}_ends_before_work", "look", (tag, step),
            f"{paper_name(paper)} ends {day_short(job, until)}, before {step} ends",
            f"Ask for the new {paper_name(paper).lower()} before that day, and enter its date.",
            PRACTICE, {"until": until.isoformat(), "step ends": finish.isoformat()},
why=(
f"The {paper_name(paper).lower()} of {one.name} ends on {date_text(job, until)}; {step} "
f"{job.of(Step)[step].what} ends on {date_text(job, finish)}."
),
about=(tag,),
        )  # fmt: skip


@rule
@from_each(Contact)
def nobody_booked(job: Job, one: Contact) -> Iterable[Finding]:
    """A step that can start soon, and whose contact is only asked or quoted."""
    tag = one.tag
    if one.state not in ("to ask", "quoted"):
        return
    for step, dated in open_steps(job, one):
        soon = dated.start <= job.today + timedelta(days=NEAR_DAYS)
        if soon and step.booked is None and step.began is None:
            yield Finding(
                "nobody_booked", "look", (step.tag, tag),
                f"Not booked, can start {day_short(job, dated.start)}",
                "Call and book, and enter the day in the step. Or let the step wait.",
                PRACTICE, {"start": dated.start.isoformat(), "state": one.state},
why=f"{one.name} is not booked, and the step can start on {date_text(job, dated.start)}.",
about=(step.tag,),
            )  # fmt: skip


@rule
@from_each(Contact)
def call_after_booking(job: Job, one: Contact) -> Iterable[Finding]:
    """A call that is planned for after the day that its contact is booked for."""
    booked = [(step.booked, step.tag) for step, _ in open_steps(job, one) if step.booked is not None and not step.began]
    if one.call_on is None or not booked or one.call_on <= min(booked)[0]:
        return
    day, step = min(booked)
    yield Finding(
        "call_after_booking",
        "look",
        (one.tag, step),
        f"Call {day_short(job, one.call_on)}, after {step} starts",
        f"Call before {date_text(job, day)}, or change the day of the call.",
        PRACTICE,
        {"call": one.call_on.isoformat(), "booked": day.isoformat()},
        why=f"{one.name} is booked for {step} on {date_text(job, day)}.",
        about=(one.tag,),
    )


by_contact = index(Step, lambda one: (one.who,) if one.who and one.done is None else ())
"""The steps that each contact still has to do."""


@rule
@from_each(Contact)
def twice_on_one_day(job: Job, one: Contact) -> Iterable[Finding]:
    """One trade at two steps on one day, though neither waits for the other."""
    if one.trade in BOTH_AT_ONCE:
        return
    dated_steps = calendar(job).dated
    there = [dated_steps[step.tag] for step in by_contact(job).get(one.tag, ()) if step.tag in dated_steps]
    there = sorted((each for each in there if not each.done), key=lambda each: (each.start, each.key))
    # Where the one before lasts longest tells whether the next begins within it.
    last = there[0] if there else None
    for each in there[1:]:
        assert last is not None
        if each.start <= last.finish:
            whole = job.of(Step)[each.key].days + job.of(Step)[last.key].days > 1
            if whole or each.start != last.start:
                yield Finding(
                    "twice_on_one_day",
                    "look",
                    (last.key, each.key, one.tag),
                    f"{last.key} and {each.key} on one day, {one.tag}",
                    f"Ask {one.name} if two crews come; or let one wait for the other (after).",
                    PRACTICE,
                    {"day": each.start.isoformat(), "until": last.finish.isoformat()},
                    why=f"{job.of(Step)[last.key].what} ends on {date_text(job, last.finish)}, and "
                    f"{job.of(Step)[each.key].what} starts on {date_text(job, each.start)}.",
                    about=(one.tag,),
                )
        if each.finish > last.finish:
            last = each
