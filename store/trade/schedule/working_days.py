"""Working days: which days a trade works, and counting forwards and backwards in them.

Dates go in and dates come out; nobody asks what day it is now.
"""

from __future__ import annotations

from datetime import date, timedelta

import msgspec

MONDAY_TO_FRIDAY = frozenset(range(5))
EVERY_DAY = frozenset(range(7))
WEEKEND = frozenset({5, 6})
LONGEST_GAP_DAYS = 3 * 366
"""How far to look for a working day before saying there is none, days."""


class WorkWeek(msgspec.Struct, frozen=True):
    """The days a trade works: weekdays (Monday 0 to Sunday 6), days off, and days worked all the same."""

    weekdays: frozenset[int] = MONDAY_TO_FRIDAY
    days_off: frozenset[date] = frozenset()
    days_on: frozenset[date] = frozenset()


def works_on(week: WorkWeek, day: date) -> bool:
    """Tell whether the day is worked. A day that is both off and on is worked: it was named on purpose."""
    return day in week.days_on or (day.weekday() in week.weekdays and day not in week.days_off)


def first_working(week: WorkWeek, day: date) -> date:
    """Return the day itself if it is worked, or the next one that is. ValueError if none comes in three years."""
    return _seek(week, day, 1)


def last_working(week: WorkWeek, day: date) -> date:
    """Return the day itself if it is worked, or the one before it that is. ValueError if there is none."""
    return _seek(week, day, -1)


def _seek(week: WorkWeek, day: date, step: int) -> date:
    for ahead in range(LONGEST_GAP_DAYS):
        one = day + timedelta(days=step * ahead)
        if works_on(week, one):
            return one
    raise ValueError(f"no working day within three years of {day.isoformat()}: look at the weekdays and days off")


def add_working_days(week: WorkWeek, day: date, count: int) -> date:
    """Return the working day `count` working days after (before, if negative) the given one.

    A day that is not worked is first moved on to the next working one (back, if counting back). 0 gives that day.
    """
    step = -1 if count < 0 else 1
    at = _seek(week, day, step)
    for _ in range(abs(count)):
        at = _seek(week, at + timedelta(days=step), step)
    return at


def count_working_days(week: WorkWeek, start: date, stop: date) -> int:
    """Count the working days from `start` up to but not with `stop`; negative when `stop` comes first."""
    low, high = min(start, stop), max(start, stop)
    span = (high - low).days
    weeks, rest = divmod(span, 7)
    count = weeks * len(week.weekdays & EVERY_DAY)
    count += sum((low + timedelta(days=one)).weekday() in week.weekdays for one in range(rest))
    count += sum(low <= one < high and one.weekday() not in week.weekdays for one in week.days_on)
    count -= sum(
        low <= one < high and one.weekday() in week.weekdays and one not in week.days_on for one in week.days_off
    )
    return count if start <= stop else -count


def last_day_of(week: WorkWeek, start: date, days: int) -> date:
    """Return the last day of a piece of work that starts on `start` and takes so many working days.

    One day ends on the day it starts. Raises ValueError below one day.
    """
    if days < 1:
        raise ValueError("work takes at least one day")
    return add_working_days(week, start, days - 1)


def first_day_of(week: WorkWeek, last: date, days: int) -> date:
    """Return the day to start so that work of so many working days ends on `last`. ValueError below one day."""
    if days < 1:
        raise ValueError("work takes at least one day")
    return add_working_days(week, last, -(days - 1))


def days_by_rule(rule: str, first: date, last: date) -> frozenset[date]:
    """Return the days from `first` to `last` (both in) that a recurrence rule names, as days off or on.

    `rule` is the RRULE of RFC 5545, such as `FREQ=WEEKLY;INTERVAL=2;BYDAY=FR`, counted from `first`. Raises
    ValueError if it does not read as one, or names times of day.
    """
    from datetime import datetime, time

    from dateutil.rrule import rrulestr

    start, end = datetime.combine(first, time()), datetime.combine(last, time())
    if "FREQ=" not in rule.upper() or "\n" in rule:
        raise ValueError(f"not a recurrence rule: {rule!r}")
    if any(word in rule.upper() for word in ("HOURLY", "MINUTELY", "SECONDLY", "BYHOUR", "BYMINUTE", "BYSECOND")):
        raise ValueError("a rule for days off names days, not hours")
    try:
        found = rrulestr(rule, dtstart=start)
        return frozenset(one.date() for one in found.between(start, end, inc=True))
    except (ValueError, KeyError, TypeError, AttributeError) as error:
        raise ValueError(f"not a recurrence rule: {rule!r}") from error
