"""The job's days as an iCalendar file, written by hand.

Source: IETF RFC 5545, sections 3.1 (lines of 75 octets, folding), 3.3.11 (escaping of text), 3.6.1 (events of whole
days end on the day after), 3.8.4.7 (UID). The UID of an event is made of the job's own sign, the tag and what the
day is for, so that reading the file again changes the events instead of doubling them; the sequence number is that
of the last change of the job.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

import msgspec

from store.measure.dates import echo_date
from store.measure.text import clean
from store.records.equipment import Equipment
from store.records.people import Contact, Step
from store.records.whole import Job
from store.rules.buying.order_by import orders
from store.rules.buying.returns import return_days_left
from store.rules.schedule.calendar import calendar, who_words

LINE_OCTETS = 75
MAKER = "-//Studbook//Studbook//EN"
HOW_TO_READ = (
    "Read it into a calendar of its own. What moved moves when it is read again; what was done or dropped meanwhile "
    "stays, so empty that calendar first."
)
"""What was printed before is not kept, so an entry that is no more cannot be called off (STATUS:CANCELLED)."""


class Event(msgspec.Struct, frozen=True):
    """One entry of the calendar, whole days."""

    uid: str
    """Tag and what the day is for."""
    first: date
    last: date
    title: str
    words: str = ""
    firm: bool = True
    """False for what is only worked out."""
    busy: bool = False
    """True for work on the wall; deadlines do not take up the day."""


def events(job: Job) -> list[Event]:
    """Bookings and planned steps, days to order by, deliveries, days to send back by, test fits, calls, papers."""
    return sorted([*_steps(job), *_things(job), *_people(job)], key=lambda one: (one.first, one.uid))


def _steps(job: Job) -> Iterator[Event]:
    for one in calendar(job).schedule.steps:
        step = job.of(Step)[one.key]
        if not one.done:
            firm = step.booked is not None and not one.misses_booking_days
            yield Event(
                f"{one.key}-work", one.start, one.finish, f"{one.key} {step.what}", who_words(job, step), firm, True
            )


def _things(job: Job) -> Iterator[Event]:
    for tag, order in orders(job).items():
        name = job.of(Equipment)[tag].name
        if order.order_by is not None:
            words = f"Needed on {order.needed_on.isoformat()}" + (f" for {order.step}" if order.step else "")
            yield Event(
                f"{tag}-order", order.order_by, order.order_by, f"Last day to order: {tag} {name}", words, False
            )
        if order.expected is not None:
            yield Event(f"{tag}-delivery", order.expected, order.expected, f"Expected: {tag} {name}", "", False)
    for tag, one in job.of(Equipment).items():
        if one.return_by is not None and return_days_left(one, job) is not None:
            title = f"Last day to send back: {tag} {one.name}"
            yield Event(f"{tag}-return", one.return_by, one.return_by, title, one.supplier)
        if one.tested is not None and one.tested >= job.today and one.retired is None:
            yield Event(f"{tag}-test-fit", one.tested, one.tested, f"Test fit: {tag} {one.name}")


def _people(job: Job) -> Iterator[Event]:
    for tag, one in job.of(Contact).items():
        if one.state == "done":
            continue
        if one.call_on is not None:
            yield Event(f"{tag}-call", one.call_on, one.call_on, f"Call {tag} {one.name}", one.phone)
        for paper, until in (("licence", one.licence_until), ("insurance", one.insured_until)):
            if until is not None:
                yield Event(f"{tag}-{paper}", until, until, f"The {paper} of {tag} {one.name} ends", one.phone)


def calendar_ics(job: Job, sign: str) -> str:
    """The whole file; `sign` tells this job from others and stays the same for its life."""
    lines = [
        "BEGIN:VCALENDAR",
        f"PRODID:{MAKER}",
        "VERSION:2.0",
        "CALSCALE:GREGORIAN",
        "METHOD:PUBLISH",
        f"X-WR-CALNAME:{escaped(job.settings.name)}",
        f"X-WR-CALDESC:{escaped(f'As of {echo_date(job.today, job.manner.day_first)}. {HOW_TO_READ}')}",
    ]
    stamp = f"{job.today:%Y%m%d}T000000Z"
    sequence = max(job.marks.values(), default=0)
    for one in events(job):
        lines += _event(one, sign, stamp, sequence)
    lines.append("END:VCALENDAR")
    return "".join(f"{folded(line)}\r\n" for line in lines)


def _event(one: Event, sign: str, stamp: str, sequence: int) -> list[str]:
    lines = [
        "BEGIN:VEVENT",
        f"UID:{one.uid}@{sign}.studbook.invalid",
        f"DTSTAMP:{stamp}",
        f"SEQUENCE:{sequence}",
        f"DTSTART;VALUE=DATE:{one.first:%Y%m%d}",
        f"DTEND;VALUE=DATE:{one.last + timedelta(days=1):%Y%m%d}",
        f"SUMMARY:{escaped(one.title)}",
        f"STATUS:{'CONFIRMED' if one.firm else 'TENTATIVE'}",
        f"TRANSP:{'OPAQUE' if one.busy else 'TRANSPARENT'}",
    ]
    return [*lines, *([f"DESCRIPTION:{escaped(one.words)}"] if one.words else []), "END:VEVENT"]


def escaped(text: str) -> str:
    """Text as a value (RFC 5545, 3.3.11), control signs made visible."""
    plain = clean(text, lines=True).replace("\\", "\\\\").replace(";", "\\;").replace(",", "\\,")
    return plain.replace("\n", "\\n")


def folded(line: str) -> str:
    """A line broken after at most 75 octets, each following one begun with a space (RFC 5545, 3.1).

    No character is broken in two.
    """
    parts, room, part = [], LINE_OCTETS, ""
    for sign in line:
        size = len(sign.encode("utf-8", "replace"))
        if size > room:
            parts.append(part)
            part, room = "", LINE_OCTETS - 1
        part += sign
        room -= size
    return "\r\n ".join([*parts, part])
