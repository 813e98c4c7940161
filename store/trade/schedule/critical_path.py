"""The order of the work in time: when each step can start, which steps have time to spare, what a slip moves.

Forward and backward pass of the critical path method over real dates. Work is counted in the working days of
whoever does it; drying, delivery and waiting for an inspector are counted in calendar days after it.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date, timedelta

import msgspec

from store.trade.schedule.working_days import (
    WorkWeek,
    count_working_days,
    first_day_of,
    first_working,
    last_day_of,
    last_working,
)

SOURCE = "critical path method: early and late dates, total and free float, as in project management textbooks"

MOST_DAYS = 3_660
"""Ten years: a longer step or wait in one wall is a slip of the hand."""


class Step(msgspec.Struct, frozen=True, kw_only=True):
    """One step of the work."""

    key: str
    days: int
    """Working days it takes; 0 for a mere event."""
    after: tuple[str, ...] = ()
    """Keys of the steps that must be done first."""
    wait_days: int = 0
    """Calendar days after its last day before a following step may start: drying, delivery, inspection."""
    week: WorkWeek = WorkWeek()
    """The days that whoever does it works."""
    booked: date | None = None
    """The day they said they would come: it starts no earlier, and that day is worked whatever their week."""
    started: date | None = None
    finished: date | None = None
    """Days on which it really started and finished; they win over everything computed."""


class Dated(msgspec.Struct, frozen=True, kw_only=True):
    """A step with its dates. A day is worked on `finish` too: one day's work starts and finishes on one date."""

    key: str
    start: date
    finish: date
    ready: date
    """The first day on which a following step may start."""
    late_start: date
    late_finish: date
    """The latest dates that do not move the end of the job."""
    total_float: int
    """Working days it may slip without moving the end of the job; negative when that is lost already."""
    free_float: int
    """Working days it may slip without moving any other step."""
    critical: bool
    """Not finished, and with no float."""
    done: bool
    driver: str | None
    """The step before it that decides its start; None when a date does, or nothing."""
    misses_booking_days: int
    """Calendar days by which its booked day comes before it can start; 0 when the booking holds."""


class Schedule(msgspec.Struct, frozen=True, kw_only=True):
    """All the steps in an order in which they can be done, and what the whole comes to."""

    steps: tuple[Dated, ...]
    start: date
    finish: date
    """The last day of work or of waiting."""
    chain: tuple[str, ...]
    """The critical chain: from the first step to the last, each deciding the start of the next."""

    def step(self, key: str) -> Dated:
        """Return a step by key. Raises KeyError if there is none."""
        for one in self.steps:
            if one.key == key:
                return one
        raise KeyError(key)


class Moved(msgspec.Struct, frozen=True):
    """A step that a slip moves: start and finish before and after."""

    key: str
    start: date
    finish: date
    new_start: date
    new_finish: date


class Slip(msgspec.Struct, frozen=True):
    """What a slip does: the other steps it moves, the bookings it breaks, and the end of the job."""

    moved: tuple[Moved, ...]
    broken_bookings: tuple[str, ...]
    finish: date
    end_moves_days: int
    """Calendar days by which the end of the job moves."""


class BadNetwork(ValueError):
    """The steps do not make an order of work; the text says why."""


class CycleError(BadNetwork):
    """Steps wait for each other; `keys` names them in order, the first once more at the end."""

    def __init__(self, keys: Sequence[str]) -> None:
        self.keys = tuple(keys)
        super().__init__(f"these steps wait for each other: {' after '.join(self.keys)}")


def in_order(steps: Iterable[Step]) -> tuple[Step, ...]:
    """Return the steps so that each comes after those it waits for, otherwise near the order given.

    Raises BadNetwork on a key used twice, an unknown predecessor or impossible figures, CycleError on a circle.
    """
    by_key: dict[str, Step] = {}
    for step in steps:
        if step.key in by_key:
            raise BadNetwork(f"step {step.key} is there twice")
        by_key[step.key] = step
    for step in by_key.values():
        _refuse_nonsense(step, by_key)

    waits_for = {key: set(step.after) for key, step in by_key.items()}
    followers = _followers(by_key.values())
    ready = [key for key, before in waits_for.items() if not before]
    ordered: list[Step] = []
    for key in ready:
        ordered.append(by_key[key])
        for after in followers[key]:
            waits_for[after].discard(key)
            if not waits_for[after]:
                ready.append(after)
    if len(ordered) < len(by_key):
        raise CycleError(_circle({key: before for key, before in waits_for.items() if before}))
    return tuple(ordered)


def _refuse_nonsense(step: Step, by_key: Mapping[str, Step]) -> None:
    unknown = [key for key in step.after if key not in by_key]
    if unknown:
        raise BadNetwork(f"step {step.key} comes after {unknown[0]}, and there is no such step")
    if not (0 <= step.days <= MOST_DAYS and 0 <= step.wait_days <= MOST_DAYS):
        raise BadNetwork(f"step {step.key}: days of work and of waiting run from 0 to {MOST_DAYS}")
    if step.finished and step.started and step.finished < step.started:
        raise BadNetwork(f"step {step.key} is finished before it is started")


def _followers(steps: Iterable[Step]) -> dict[str, list[str]]:
    steps = list(steps)
    followers: dict[str, list[str]] = {step.key: [] for step in steps}
    for step in steps:
        for before in dict.fromkeys(step.after):
            followers[before].append(step.key)
    return followers


def _circle(waits_for: Mapping[str, set[str]]) -> list[str]:
    """Walk back through steps that all wait for another one of them until one comes round again."""
    at = min(waits_for)
    path: list[str] = []
    while at not in path:
        path.append(at)
        at = min(before for before in waits_for[at] if before in waits_for)
    circle = path[path.index(at) :]
    return [*circle, at]


def plan(steps: Iterable[Step], start: date, today: date | None = None) -> Schedule:
    """Date every step; the job may start on `start`.

    Early: the first working day on which all steps before it are done and have dried, no earlier than its
    booked day, and, if `today` is given, not in the past unless it really started there. Late: as late as it
    can without moving the end. Source: SOURCE; with one week of seven working days and no waits this is the
    textbook method. Working weeks that differ can leave a step of the chain a day of float, as it may use a
    day off of the next. Raises BadNetwork or CycleError as `in_order` does, ValueError on a week without days.
    """
    ordered = in_order(steps)
    if not ordered:
        return Schedule(steps=(), start=start, finish=start, chain=())
    early = _all_forward(ordered, start, today)
    end = max(one.ready for one in early.values())
    followers = _followers(ordered)
    dated: dict[str, Dated] = {}
    for step in reversed(ordered):
        dated[step.key] = _backward(step, early, [dated[key] for key in followers[step.key]], end)
    result = tuple(dated[step.key] for step in ordered)
    return Schedule(
        steps=result,
        start=min(one.start for one in result),
        finish=_last_day(early.values()),
        chain=_chain(result, end),
    )


class _Early(msgspec.Struct, frozen=True):
    start: date
    finish: date
    ready: date
    driver: str | None
    misses: int


def _all_forward(ordered: Sequence[Step], start: date, today: date | None) -> dict[str, _Early]:
    early: dict[str, _Early] = {}
    for step in ordered:
        early[step.key] = _forward(step, early, start, today)
    return early


def _week(step: Step) -> WorkWeek:
    """A day they were booked for, or began on, is worked whatever their usual week."""
    named = frozenset(day for day in (step.booked, step.started) if day is not None)
    return msgspec.structs.replace(step.week, days_on=step.week.days_on | named) if named else step.week


def _forward(step: Step, early: Mapping[str, _Early], start: date, today: date | None) -> _Early:
    if step.finished is not None:
        begins = step.started or min(step.finished, first_day_of(_week(step), step.finished, max(1, step.days)))
        return _Early(begins, step.finished, _ready(step, step.finished), None, 0)
    week = _week(step)
    floor = start if today is None else max(start, today)
    driver = max(step.after, key=lambda key: early[key].ready, default=None)
    earliest = max(floor, early[driver].ready) if driver is not None else floor
    if driver is not None and early[driver].ready < floor:
        driver = None
    if step.started is not None:
        begins, driver, misses = step.started, None, 0
    elif step.booked is not None and step.booked > earliest:
        begins, driver, misses = step.booked, None, 0
    else:
        begins = first_working(week, earliest)
        misses = 0 if step.booked is None else (begins - step.booked).days
    ends = begins if step.days == 0 else last_day_of(week, begins, step.days)
    if today is not None and ends < today:
        ends = first_working(week, today)
    return _Early(begins, ends, _ready(step, ends), driver, misses)


def _ready(step: Step, ends: date) -> date:
    """An event takes no day: what follows may start on the same one."""
    return ends + timedelta(days=(step.days > 0) + step.wait_days)


def _backward(step: Step, early: Mapping[str, _Early], after: Sequence[Dated], end: date) -> Dated:
    mine, week = early[step.key], _week(step)
    gap = mine.ready - mine.finish
    # The last day on which it may finish, so that what follows may start on its latest, and on its early, date.
    by_end = min((one.late_start for one in after), default=end) - gap
    by_next = min((one.start for one in after), default=end) - gap
    if step.finished is not None:
        late_finish, total, free = mine.finish, 0, 0
    else:
        late_finish = last_working(week, by_end)
        total = _slack(week, mine.finish, late_finish)
        free = max(0, _slack(week, mine.finish, last_working(week, by_next)))
    fixed = step.started is not None or step.finished is not None
    late_start = late_finish if step.days == 0 else first_day_of(week, late_finish, step.days)
    return Dated(
        key=step.key,
        start=mine.start,
        finish=mine.finish,
        ready=mine.ready,
        late_start=mine.start if fixed else late_start,
        late_finish=late_finish,
        total_float=total,
        free_float=free,
        critical=step.finished is None and total <= 0,
        done=step.finished is not None,
        driver=mine.driver,
        misses_booking_days=mine.misses,
    )


def _slack(week: WorkWeek, finish: date, late: date) -> int:
    """Count the working days after `finish` up to and with `late`; negative when it is earlier."""
    one = timedelta(days=1)
    return count_working_days(week, finish + one, late + one)


def _chain(steps: Sequence[Dated], end: date) -> tuple[str, ...]:
    by_key = {one.key: one for one in steps}
    # Of several that end last, the one given last: the hand-over rather than a wait beside it.
    at: str | None = next(one.key for one in reversed(steps) if one.ready == end)
    chain: list[str] = []
    while at is not None:
        chain.append(at)
        at = by_key[at].driver
    return tuple(reversed(chain))


def slip(steps: Sequence[Step], key: str, days: int, start: date, today: date | None = None) -> Slip:
    """Return what moves when a step takes `days` working days longer (fewer, if negative).

    Raises KeyError on an unknown key, BadNetwork if the step is finished or would take less than no time, and
    as `plan` does.
    """
    step = {one.key: one for one in steps}[key]
    ordered = in_order(steps)
    return _slip(ordered, _all_forward(ordered, start, today), step, days, start, today)


def slips(steps: Sequence[Step], days: int, start: date, today: date | None = None) -> dict[str, Slip]:
    """Return what `slip` does for each step that is not finished, by key; the dates before are calculated once."""
    ordered = in_order(steps)
    was = _all_forward(ordered, start, today)
    return {step.key: _slip(ordered, was, step, days, start, today) for step in ordered if step.finished is None}


def _slip(
    ordered: Sequence[Step], was: Mapping[str, _Early], step: Step, days: int, start: date, today: date | None
) -> Slip:
    if step.finished is not None:
        raise BadNetwork(f"step {step.key} is finished: it cannot slip")
    longer = msgspec.structs.replace(step, days=step.days + days)
    _refuse_nonsense(longer, {one.key: one for one in ordered})
    now: dict[str, _Early] = {}
    for one in ordered:
        same = one.key != step.key and all(now[before] is was[before] for before in one.after)
        again = longer if one.key == step.key else one
        now[one.key] = was[one.key] if same else _forward(again, now, start, today)
    moved = tuple(
        Moved(key, was[key].start, was[key].finish, one.start, one.finish)
        for key, one in now.items()
        if key != step.key and (one.start, one.finish) != (was[key].start, was[key].finish)
    )
    broken = tuple(key for key, one in now.items() if one.misses and not was[key].misses)
    finish = _last_day(now.values())
    return Slip(moved, broken, finish, (finish - _last_day(was.values())).days)


def _last_day(steps: Iterable[_Early]) -> date:
    """The last day of work or of waiting."""
    rows = list(steps)
    return max(max(one.ready for one in rows) - timedelta(days=1), max(one.finish for one in rows))
