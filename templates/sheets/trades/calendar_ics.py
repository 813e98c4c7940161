"""The job's days as an iCalendar file, written by hand.

Source: IETF RFC 5545, sections 3.1 (lines of 75 octets, folding), 3.3.11 (escaping of text), 3.6.1 (events of whole
days end on the day after), 3.6.6 (alarms), 3.8.1.11 (an entry that is called off), 3.8.4.7 (UID). The UID of an event
is made of the job's own sign, the tag and what the day is for, so that reading the file again changes the events
instead of doubling them; the sequence number is that of the last change of the job.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from datetime import date, timedelta
from typing import Any

import msgspec

from store.measure.dates import echo_date
from store.measure.text import clean
from store.records.equipment import Equipment
from store.records.people import Contact, Step
from store.records.whole import Job
from store.rules.buying.order_by import orders
from store.rules.buying.returns import return_days_left
from store.rules.schedule.calendar import calendar, who_words
from store.rules.trades.calls import paper_name

LINE_OCTETS = 75
MAKER = "-//Studbook//Studbook//EN"
HOW_TO_READ = (
    "Import it into a calendar of its own. Import it again when dates change: entries move, and dropped ones are "
    "canceled. If your calendar does not do that, empty it first."
)
NINE = 9
"""Alarms ring at this hour, where the calendar goes by the day of the place."""
ALARMS = {"order": 3, "return": 3, "inspection": 1}
"""Days before: the last day to order, the last day to send back, an inspection. Our own choice."""


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
    booked: bool = False
    """True for a step that somebody is booked for."""
    busy: bool = False
    """True for work on the wall; deadlines do not take up the day."""
    alarm: int = 0
    """Days before on which it rings; 0: not at all."""
    where: str = ""
    contact: str = ""
    off: bool = False
    """True for what was in the calendar once and is no more."""


def events(job: Job) -> list[Event]:
    """Bookings and planned steps, days to order by, deliveries, days to send back by, test fits, calls, papers."""
    return sorted([*_steps(job), *_things(job), *_people(job)], key=lambda one: (one.first, one.uid))


def _steps(job: Job) -> Iterator[Event]:
    for one in calendar(job).schedule.steps:
        step = job.of(Step)[one.key]
        if not one.done:
            firm = step.booked is not None and not one.misses_booking_days
            who = job.of(Contact).get(step.who)
            yield Event(
                f"{one.key}-work", one.start, one.finish, f"{one.key} {step.what}", who_words(job, step), firm,
                step.booked is not None, True,
                ALARMS["inspection"] if who is not None and who.trade == "inspector" else 0,
                job.settings.address,
                ", ".join(each for each in (who.name, who.phone) if each) if who is not None else "",
            )  # fmt: skip


def _things(job: Job) -> Iterator[Event]:
    for tag, order in orders(job).items():
        name = job.of(Equipment)[tag].name
        if order.order_by is not None:
            words = f"Needed on {order.needed_on.isoformat()}" + (f" for {order.step}" if order.step else "")
            yield Event(
                f"{tag}-order",
                order.order_by,
                order.order_by,
                f"Last day to order: {tag} {name}",
                words,
                False,
                alarm=ALARMS["order"],
            )
        if order.expected is not None:
            yield Event(f"{tag}-delivery", order.expected, order.expected, f"Expected: {tag} {name}", "", False)
    for tag, one in job.of(Equipment).items():
        if one.return_by is not None and return_days_left(one, job) is not None:
            title = f"Last day to send back: {tag} {one.name}"
            yield Event(f"{tag}-return", one.return_by, one.return_by, title, one.supplier, alarm=ALARMS["return"])
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
                yield Event(
                    f"{tag}-{paper}",
                    until,
                    until,
                    f"The {paper_name(paper).lower()} of {tag} {one.name} ends",
                    one.phone,
                )


DAYS = {
    "equipment": {"return": "return_by", "test-fit": "tested"},
    "contact": {"call": "call_on", "licence": "licence_until", "insurance": "insured_until"},
    "step": {"work": "booked"},
}
"""What an entry is for, and the field that holds its day, by kind."""
MET = {"order": "ordered", "delivery": "arrived"}
"""What an entry is for, and the field of equipment that ends it."""


def called_off(job: Job, entries: Iterable[Mapping[str, Any]], live: Collection[str]) -> list[Event]:
    """What the history shows to have been a day for the calendar, and is none now; `live` are the entries that are.

    A step that is done and a thing that was tried stay as they were: they happened.
    """
    past = list(entries)
    found = {each.uid: each for each in _plans_booked(job, given_up(past), live)}
    for entry in past:
        day = _date(str(entry.get("at", ""))[:10])
        for change in entry.get("changes", ()):
            for uid, was in _ended(job, change, day):
                if uid not in live:
                    title = f"Canceled: {change['tag']} {_called(change)}".strip()
                    found[uid] = Event(uid, was, was, title, off=True)
    return sorted(found.values(), key=lambda one: (one.first, one.uid))


def _ended(job: Job, change: Mapping[str, Any], day: date | None) -> Iterator[tuple[str, date]]:
    kind, tag = str(change.get("kind")), str(change.get("tag"))
    before, after = change.get("before") or {}, change.get("after") or {}
    for purpose, key in DAYS.get(kind, {}).items():
        was = _date(before.get(key)) or (day if kind == "step" and before and not after else None)
        happened = (
            after.get("done")
            or _is_done(job, kind, tag)
            or (purpose == "test-fit" and was is not None and was < job.today)
        )
        if was is not None and not after.get(key) and not happened:
            yield f"{tag}-{purpose}", was
    if kind == "equipment" and before and day is not None:
        for purpose, key in MET.items():
            if not before.get(key) and (after.get(key) or not after):
                yield f"{tag}-{purpose}", day


def _is_done(job: Job, kind: str, tag: str) -> bool:
    step = job.of(Step).get(tag) if kind == "step" else None
    return step is not None and step.done is not None


def given_up(entries: Iterable[Mapping[str, Any]]) -> set[str]:
    """The tags of steps whose booking was called off once, by the history."""
    return {
        str(change.get("tag"))
        for entry in entries
        for change in entry.get("changes", ())
        if change.get("kind") == "step"
        and (change.get("before") or {}).get("booked")
        and not (change.get("after") or {}).get("booked")
    }


def _replanned(one: Event, tags: Collection[str]) -> Event:
    """An entry; of a step whose booking was called off one of its own, as that of the booking has to say so."""
    tag = one.uid.removesuffix("-work")
    planned = one.busy and not one.booked and tag in tags
    return msgspec.structs.replace(one, uid=f"{tag}-plan") if planned else one


def _plans_booked(job: Job, tags: Collection[str], live: Collection[str]) -> Iterator[Event]:
    """The plans that took the place of a booking called off, where the step is booked again, done or deleted."""
    starts = {one.key: one.start for one in calendar(job).schedule.steps}
    for tag in sorted(tags):
        if f"{tag}-plan" not in live:
            day = starts.get(tag, job.today)
            yield Event(f"{tag}-plan", day, day, f"Called off: {tag}", off=True)


def _called(change: Mapping[str, Any]) -> str:
    before = change.get("before") or {}
    return str(before.get("name") or before.get("what") or "")


def _date(text: object) -> date | None:
    try:
        return date.fromisoformat(str(text))
    except ValueError:
        return None


def calendar_ics(job: Job, sign: str, entries: Iterable[Mapping[str, Any]] = ()) -> str:
    """The whole file; `sign` tells this job from others for its life, `entries` is the history as plain data."""
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
    past = list(entries)
    now = [_replanned(each, given_up(past)) for each in events(job)]
    for one in (*now, *called_off(job, past, {each.uid for each in now})):
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
        f"STATUS:{'CANCELLED' if one.off else 'CONFIRMED' if one.firm else 'TENTATIVE'}",
        f"TRANSP:{'OPAQUE' if one.busy else 'TRANSPARENT'}",
    ]
    for name, words in (("DESCRIPTION", one.words), ("LOCATION", one.where), ("CONTACT", one.contact)):
        if words:
            lines.append(f"{name}:{escaped(words)}")
    if one.alarm:
        trigger = f"TRIGGER:-PT{24 * one.alarm - NINE}H"
        lines += ["BEGIN:VALARM", "ACTION:DISPLAY", f"DESCRIPTION:{escaped(one.title)}", trigger, "END:VALARM"]
    return [*lines, "END:VEVENT"]


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
