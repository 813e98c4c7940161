"""Public holidays by rule, so that no list goes stale: of the United States, and of England and Wales.

Nth weekdays by RFC 5545, Easter by the Western computus. A day on a weekend is observed on a working day beside it.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from functools import cache
from typing import Literal

Country = Literal["us", "metric"]
Kept = Literal["crew", "official"]
"""By whom: what most crews keep, common practice; or all days of the law, as offices, inspectors and carriers do."""

US_SOURCE = "5 USC 6103 (federal days, observed); what crews keep is common practice"
METRIC_SOURCE = "Banking and Financial Dealings Act 1971: England and Wales; other countries differ"
_SATURDAY, _SUNDAY = 5, 6


def _nth(year: int, month: int, weekday: int, nth: int) -> date:
    """The nth such weekday of a month (Monday 0), from its end where `nth` is negative."""
    from datetime import datetime, time

    from dateutil.rrule import MONTHLY, rrule
    from dateutil.rrule import weekday as day_of

    first = datetime.combine(date(year, month, 1), time())

    (found,) = rrule(MONTHLY, dtstart=first, count=1, bymonth=month, byweekday=day_of(weekday, nth))
    return found.date()


def _us_observed(day: date) -> date:
    """Saturday goes to the Friday before, Sunday to the Monday after."""
    return day + timedelta(days={_SATURDAY: -1, _SUNDAY: 1}.get(day.weekday(), 0))


def _us(year: int, kept: Kept) -> Iterator[date]:
    for month, day in ((1, 1), (7, 4), (12, 25)):
        yield _us_observed(date(year, month, day))
    yield _us_observed(date(year + 1, 1, 1))  # on Dec 31 where the next New Year is a Saturday
    yield _nth(year, 5, 0, -1)
    yield _nth(year, 9, 0, 1)
    thanksgiving = _nth(year, 11, 3, 4)
    yield thanksgiving
    if kept == "crew":
        yield thanksgiving + timedelta(days=1)
        return
    yield from (_nth(year, 1, 0, 3), _nth(year, 2, 0, 3), _nth(year, 10, 0, 2))
    yield from (_us_observed(date(year, 6, 19)), _us_observed(date(year, 11, 11)))


def _metric(year: int) -> Iterator[date]:
    from dateutil.easter import easter

    sunday = easter(year)
    yield from (sunday - timedelta(days=2), sunday + timedelta(days=1))
    yield from (_nth(year, 5, 0, 1), _nth(year, 5, 0, -1), _nth(year, 8, 0, -1))
    new_year = date(year, 1, 1)
    yield new_year + timedelta(days={_SATURDAY: 2, _SUNDAY: 1}.get(new_year.weekday(), 0))
    # Christmas and the day after: what falls on a weekend goes to the next working day that is not taken.
    christmas = date(year, 12, 25)
    moved = {4: (0, 3), _SATURDAY: (2, 3), _SUNDAY: (1, 2)}.get(christmas.weekday(), (0, 1))
    yield from (christmas + timedelta(days=each) for each in moved)


@cache
def holidays(country: Country, first_year: int, last_year: int, kept: Kept = "crew") -> frozenset[date]:
    """The days observed from one year to another, both in. US_SOURCE, METRIC_SOURCE."""
    years = range(first_year, last_year + 1)
    return frozenset(day for year in years for day in (_us(year, kept) if country == "us" else _metric(year)))
