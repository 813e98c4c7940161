"""The calendar of a job: when each step starts and ends, which have time to spare, and what a slip moves.

All from the Step records. Work is counted in the working days of the contact who does it (Monday to Friday where
nobody is named), waiting in calendar days. A part of a day takes the whole of it. Days really begun and done win
over everything computed, and what is not begun never starts before today.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from datetime import date

import msgspec

from store.records.people import Contact, Step, Trade
from store.records.whole import Job
from store.rules.core.keyed import by_key
from store.rules.core.memo import once
from store.rules.core.wording import date_text, plural
from store.rules.schedule.days_off import week_of
from store.trade.schedule import critical_path as path
from store.trade.schedule.critical_path import BadNetwork, CycleError, Dated, Schedule, Slip
from store.trade.schedule.working_days import WorkWeek, count_working_days

SOURCE = path.SOURCE
SLIP_DAYS = 4
"""The slip that figures and paper tell as an example, working days."""
MOST_SLIPS = 60
"""Steps up to which the slip of each is worked out without being asked for: each dates the whole job anew."""


class Calendar(msgspec.Struct, frozen=True):
    """The steps with their dates; or why they have none."""

    schedule: Schedule
    plans: tuple[path.Step, ...]
    """The steps as the arithmetic takes them, in the order of their tags."""
    start: date
    """The day before which nothing is counted."""
    today: date
    dated: Mapping[str, Dated] = {}
    """The dated steps by tag."""
    wrong: str = ""
    """Why no dates can be given; then `schedule` is empty."""
    wrong_tags: tuple[str, ...] = ()


@once
def calendar(job: Job) -> Calendar:
    """The calendar of a job as of its today."""
    steps = list(job.of(Step).values())
    start = min([job.today, *(day for one in steps for day in (one.began, one.done) if day is not None)])
    nothing = Schedule(steps=(), start=start, finish=start, chain=())
    weeks = {tag: week_of(one, start, job.settings.region != "us") for tag, one in job.of(Contact).items()}
    plans = tuple(_plan_of(job, one, weeks.get(one.who, WorkWeek())) for one in steps)
    try:
        schedule = path.plan(plans, start, job.today)
        return Calendar(schedule, plans, start, job.today, {one.key: one for one in schedule.steps})
    except CycleError as error:
        return Calendar(nothing, plans, start, job.today, {}, str(error), tuple(dict.fromkeys(error.keys)))
    except (BadNetwork, ValueError) as error:
        tags = tuple(one.tag for one in steps if f"step {one.tag} " in str(error) or f"step {one.tag}:" in str(error))
        return Calendar(nothing, plans, start, job.today, {}, str(error), tags)


def _plan_of(job: Job, one: Step, week: WorkWeek) -> path.Step:
    began, done = one.began, one.done
    if began is not None and done is not None and done < began:
        began = done  # a slip of the pen; a finding tells it
    return path.Step(
        key=one.tag,
        days=math.ceil(one.days),
        after=tuple(tag for tag in one.after if tag in job.of(Step)),
        wait_days=one.wait,
        week=week,
        booked=one.booked,
        started=began,
        finished=done,
    )


def trade_of(job: Job, step: Step) -> Trade:
    """The trade of whoever does a step; the owner where nobody is named."""
    contact = job.of(Contact).get(step.who)
    return contact.trade if contact else "owner"


def slip_of(job: Job, tag: str, days: int) -> Slip:
    """What moves when a step takes so many working days longer. Raises BadNetwork, or KeyError on an unknown tag."""
    found = calendar(job)
    if found.wrong:
        raise BadNetwork(found.wrong)
    return path.slip(_as_they_look(found), tag, days, found.start, found.today)


@by_key
def slips(job: Job) -> Mapping[str, Slip]:
    """What SLIP_DAYS more of each step that is not done move, by tag; nothing where there are too many or no dates."""
    found = calendar(job)
    if found.wrong or len(found.plans) > MOST_SLIPS:
        return {}
    return path.slips(_as_they_look(found), SLIP_DAYS, found.start, found.today)


def _as_they_look(found: Calendar) -> list[path.Step]:
    return [_as_long_as_it_looks(one, found.dated[one.key]) for one in found.plans]


def _as_long_as_it_looks(step: path.Step, dated: Dated) -> path.Step:
    """A step that is under way and over its days already is as long as that: it slips from there."""
    if step.started is None or step.finished is not None:
        return step
    week = msgspec.structs.replace(step.week, days_on=step.week.days_on | {step.started})
    taken = count_working_days(week, dated.start, dated.finish) + 1
    return msgspec.structs.replace(step, days=max(step.days, taken))


def slip_words(job: Job, tag: str, days: int) -> list[str]:
    """What a slip of a step moves, a line each: first the sum, then the steps, the bookings to change, the end."""
    found, steps = slip_of(job, tag, days), job.of(Step)
    late = plural(abs(days), "working day") + (" late" if days >= 0 else " less")
    bookings = bookings_to_change(job, found)
    sums = [
        f"{plural(len(found.moved), 'step')} moved" if found.moved else "no other step moves",
        f"{plural(len(bookings), 'booking')} to change" if bookings else "no bookings to change",
    ]
    lines = [f"{tag} {steps[tag].what}, {late}: {', '.join(sums)}."]
    for one in found.moved:
        lines.append(
            f"{one.key} {steps[one.key].what} moves from {span(job, one.start, one.finish)} "
            f"to {span(job, one.new_start, one.new_finish)}."
        )
    for one in bookings:
        booked = steps[one.key].booked
        lines.append(
            f"Booking to change: {who_words(job, steps[one.key])} for {one.key}, "
            f"booked {date_text(job, booked) if booked else ''}, now {date_text(job, one.new_start)}."
        )
    if found.end_moves_days:
        way = "later" if found.end_moves_days > 0 else "earlier"
        moves = plural(abs(found.end_moves_days), "day")
        lines.append(f"The job ends {moves} {way}, on {date_text(job, found.finish)}.")
    else:
        lines.append(f"The end of the job stays on {date_text(job, found.finish)}.")
    return lines


def bookings_to_change(job: Job, found: Slip) -> list[path.Moved]:
    """The steps that are booked for a day on which a slip does not let them start any more."""
    booked = {one.key: job.of(Step)[one.key].booked for one in found.moved}
    return [one for one in found.moved if (day := booked[one.key]) is not None and one.new_start > day]


def span(job: Job, start: date, finish: date) -> str:
    """`Dec 4, 2026`, or `Dec 4, 2026 - Dec 9, 2026`."""
    return date_text(job, start) if start == finish else f"{date_text(job, start)} - {date_text(job, finish)}"


def who_words(job: Job, step: Step) -> str:
    """`T4 Jo, drywall (555-0104)`, or `no name entered`."""
    contact = job.of(Contact).get(step.who)
    if contact is None:
        return "no name entered"
    return f"{contact.tag} {contact.name}" + (f" ({contact.phone})" if contact.phone else "")
