"""The calls to make, the most pressing first: who, why, and by when."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, timedelta

import msgspec

from store.records.people import Contact, Step
from store.records.whole import Job
from store.rules.core.keyed import by_key
from store.rules.core.memo import once
from store.rules.core.wording import date_text
from store.rules.schedule.calendar import calendar
from store.rules.trades.all_signed import all_signed
from store.trade.schedule.critical_path import Dated

BOOK_DAYS = 21
"""A trade is booked this many days before its step (our own choice: three weeks)."""
PAPERS = (("licence", "licence_until"), ("insurance", "insured_until"))


class Call(msgspec.Struct, frozen=True):
    """One call to make."""

    day: date
    contact: str
    why: str


@once
def calls(job: Job) -> tuple[Call, ...]:
    """Every call, by day; one that is overdue stands first."""
    found = [call for one in job.of(Contact).values() for call in _calls(job, one)]
    return tuple(sorted(found, key=lambda call: (call.day, call.contact)))


def _calls(job: Job, one: Contact) -> Iterator[Call]:
    if one.state == "done":
        return
    if one.call_on is not None and (open_steps(job, one) or one.tag not in _signed_off(job)):
        yield Call(one.call_on, one.tag, "the day you entered")
    for step, dated in open_steps(job, one):
        if dated.misses_booking_days:
            yield Call(
                job.today, one.tag, f"{step.tag} cannot start before {date_text(job, dated.start)}: change the day"
            )
        elif step.booked is None and step.began is None and _to_book(job, one):
            ask = "ask and book" if one.state == "to ask" else "book"
            day = max(job.today, dated.start - timedelta(days=BOOK_DAYS))
            yield Call(day, one.tag, f"{ask} {step.tag}, which can start on {date_text(job, dated.start)}")
    for paper, until in papers_ended(job, one):
        yield Call(
            job.today,
            one.tag,
            f"their {paper_name(paper).lower()} ended on {date_text(job, until)}, and they still have work here",
        )
    for paper, until, step_tag in papers_short(job, one):
        yield Call(
            job.today,
            one.tag,
            f"their {paper_name(paper).lower()} ends on {date_text(job, until)}, before {step_tag} is done",
        )


def _to_book(job: Job, one: Contact) -> bool:
    """True for one who is not booked yet, or whose days are in their steps: then a step without one is not booked."""
    return one.state in ("to ask", "quoted") or any(step.booked for step, _ in open_steps(job, one))


def open_steps(job: Job, one: Contact) -> Sequence[tuple[Step, Dated]]:
    """The steps of a contact that are not done, and not signed off item by item either, with their dates."""
    return _open_steps(job).get(one.tag, ())


@by_key
def _open_steps(job: Job) -> Mapping[str, Sequence[tuple[Step, Dated]]]:
    found: dict[str, list[tuple[Step, Dated]]] = {}
    dated = calendar(job).dated
    for tag, step in job.of(Step).items():
        if step.who and tag in dated and not dated[tag].done and not all_signed(job, step):
            found.setdefault(step.who, []).append((step, dated[tag]))
    return found


@once
def _signed_off(job: Job) -> frozenset[str]:
    """The contacts with a step that only waits to be marked done."""
    return frozenset(step.who for step in job.of(Step).values() if step.who and all_signed(job, step))


def papers_ended(job: Job, one: Contact) -> Iterator[tuple[str, date]]:
    """Papers that ended although a contact has a step that is not done: paper, day."""
    for paper, key in PAPERS:
        until = getattr(one, key)
        if until is not None and until < job.today and open_steps(job, one):
            yield paper, until


def paper_name(paper: str) -> str:
    """`License` or `Insurance`, by the name it has in the records."""
    return {"licence": "License"}.get(paper, paper.capitalize())


def papers_short(job: Job, one: Contact) -> Iterator[tuple[str, date, str]]:
    """Papers that are good today and end before the last step of a contact does: paper, day, step."""
    # A step that is not done says that there is work left, whatever the contact's own state says.
    last = max(open_steps(job, one), key=lambda each: each[1].finish, default=None)
    if last is None:
        return
    for paper, key in PAPERS:
        until = getattr(one, key)
        if until is not None and job.today <= until < last[1].finish:
            yield paper, until, last[0].tag
