"""Dates as people type and read them. The echo (`Friday, December 4, 2026`) is shown before anything is saved."""

from __future__ import annotations

import re
from datetime import date, datetime, timedelta
from functools import lru_cache
from typing import Literal

from store.measure.errors import BadValue, quoted

_DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_MONTHS = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip
_WEEKDAY = r"(next |this )?(" + "|".join(f"{day[:3]}(?:{day[3:]})?" for day in _DAYS) + r")\.?"
_AHEAD = r"(?:in |\+)(\d{1,3}) ?(d|days?|w|weeks?)"
_AGO = r"(\d{1,3}) ?(d|days?|w|weeks?) (?:ago|late)"
_PART = r"(?:\d+|[a-z]+)"
_SLASHED = rf"(?:[a-z]+[.,]* )?{_PART}/{_PART}(?:/{_PART})?"
When = Literal["", "past", "ahead"]
"""Whether a day is of what has happened, or of what is to come; else it may be either."""
LATELY_DAYS = 90
"""A day of what is to come may have gone by as lately as this, like the end of a license; our own choice."""
_HELP = "Write Dec 4, 2026-12-04, tomorrow, fri or next fri."


def parse_date(text: str, today: date, *, day_first: bool = False, when: When = "") -> date:
    """Read a date as typed, counted from `today`.

    A day and a month without a year take the year that puts them nearest to today; of what has happened (`past`) the
    last that is not to come, of what is to come (`ahead`) the next, or one that went by lately. `fri` is the first
    Friday after today, of what has happened the last one up to today; `next fri` is the Friday of next week (weeks
    begin on Monday). `3/4/26` is read month first unless `day_first`.

    Raises BadValue when a day or a month is missing or the date does not exist.
    """
    plain = " ".join(text.lower().split())
    if not plain:
        raise BadValue(f"no date entered. {_HELP}")
    if len(plain) > 40:
        raise BadValue(f"too long for a date. {_HELP}")
    # A year that stands first has the month behind it, whatever the owner does with `3/4/26`.
    if found := re.fullmatch(r"(\d{4})([-/.])(\d\d?)\2(\d\d?)", plain, re.ASCII):
        try:
            day = date(int(found[1]), int(found[3]), int(found[4]))
        except ValueError as error:
            raise BadValue(f"{quoted(plain)} is not in the calendar. {_HELP}") from error
        return _sane(day, plain)
    near = _near(plain, today, when)
    return near if near is not None else _far(plain, today, day_first, text.strip(), when)


def _near(plain: str, today: date, when: When) -> date | None:
    """Days counted from today: today, tomorrow, fri, next fri, in 2 weeks, 12 days ago."""
    fixed = {"today": 0, "tomorrow": 1, "yesterday": -1}
    if plain in fixed:
        return today + timedelta(days=fixed[plain])
    for form, way in ((_AHEAD, 1), (_AGO, -1)):
        if found := re.fullmatch(form, plain):
            return today + timedelta(days=way * int(found[1]) * (7 if found[2].startswith("w") else 1))
    if found := re.fullmatch(_WEEKDAY, plain):
        wanted = [day[:3] for day in _DAYS].index(found[2][:3])
        if (found[1] or "").strip() == "next":
            return today + timedelta(days=7 - today.weekday() + wanted)
        if when == "past":
            return today - timedelta(days=(today.weekday() - wanted) % 7)
        return today + timedelta(days=(wanted - today.weekday() - 1) % 7 + 1)
    return None


@lru_cache(maxsize=1024)
def _far(plain: str, today: date, day_first: bool, typed: str, when: When) -> date:
    """A written-out date, through dateutil, refusing what it would fill in by itself."""
    # dateutil takes nearly any three numbers for a date; a length that slipped into the wrong line is none.
    if ("/" in plain and not re.fullmatch(_SLASHED, plain)) or re.search(r"\d['\"]", plain):
        raise BadValue(f"{quoted(typed)} is not a date. {_HELP}")
    from dateutil import parser  # heavy, and only typed dates need it

    class Years(parser.parserinfo):
        """Years of two digits are those around `today`; dateutil itself would look at the clock."""

        def convertyear(self, year: int, century_specified: bool = False) -> int:
            if year > 99 or century_specified:
                return year
            return min(
                (today.year // 100 * 100 + year + each for each in (-100, 0, 100)), key=lambda y: abs(y - today.year)
            )

    seen: list[datetime] = []
    # Two different defaults: whatever differs between the answers was not in the text.
    for default in (datetime(2000, 1, 1, 1), datetime(2004, 2, 2, 2)):  # noqa: DTZ001 - only its date is used
        try:
            seen.append(parser.parse(plain, Years(dayfirst=day_first), default=default, ignoretz=True))
        except (ValueError, OverflowError) as error:
            raise BadValue(f"{quoted(typed)} is not a date. {_HELP}") from error
    first, second = seen
    if (first.month, first.day) != (second.month, second.day):
        raise BadValue(f"{quoted(typed)} has no day or no month. {_HELP}")
    if first.hour == second.hour:
        raise BadValue(f"{quoted(typed)} has a time of day in it. {_HELP}")
    if first.year != second.year:
        return _its_year(first.date(), today, typed, when)
    return _sane(first.date(), typed)


def _sane(day: date, typed: str) -> date:
    """The day, if it can be one of this job. Raises BadValue."""
    if not 1950 <= day.year <= 2150:
        raise BadValue(f"{quoted(typed)} would be in the year {day.year}. {_HELP}")
    return day


def _its_year(day: date, today: date, typed: str, when: When) -> date:
    """The same day and month in the year that puts it nearest to today, or on the side of it where it has to be."""
    found = []
    for year in range(today.year - 4 if when == "past" else today.year - 1, today.year + 2):
        try:
            found.append(day.replace(year=year))
        except ValueError:  # 29 February in a common year
            continue
    if not found:
        raise BadValue(f"{quoted(typed)} is not in the calendar near this year. Add the year.")
    if when == "past":
        return max((each for each in found if each <= today), default=found[0])
    if when == "ahead":
        lately = today - timedelta(days=LATELY_DAYS)
        return min((each for each in found if each >= lately), default=found[-1])
    return min(found, key=lambda each: abs((each - today).days))


# --- the text on the screen: `day_first` in a metric job, month first in a US one ---


def show_date(day: date, day_first: bool = False) -> str:
    """`Dec 9, 2026`; day first `9 Dec 2026`."""
    return _dated("", day, day_first, year=True)


def short_date(day: date, today: date, day_first: bool = False) -> str:
    """For a table: `Dec 9` or `9 Dec`; with its year when that is not this year."""
    return _dated("", day, day_first, year=day.year != today.year)


def week_date(day: date, today: date, day_first: bool = False) -> str:
    """For a schedule: `Mon Dec 28` or `Mon 28 Dec`; with its year when that could be taken for another."""
    return _dated(f"{_DAYS[day.weekday()][:3].title()} ", day, day_first, year=abs((day - today).days) > _HALF_YEAR)


def echo_date(day: date, day_first: bool = False) -> str:
    """`Friday, December 4, 2026`, day first `Friday 4 December 2026`: what is read back before it is saved."""
    name, month = _DAYS[day.weekday()].title(), _MONTHS[day.month - 1]
    return f"{name} {day.day} {month} {day.year}" if day_first else f"{name}, {month} {day.day}, {day.year}"


def relative_day(day: date, today: date) -> str:
    """`today`, `tomorrow`, `in 9 days`; past days as `yesterday`, `3 days ago`."""
    days = (day - today).days
    if abs(days) <= 1:
        return ("yesterday", "today", "tomorrow")[days + 1]
    return f"in {days} days" if days > 0 else f"{-days} days ago"


def due_day(day: date, today: date) -> str:
    """The same of a day by which something must be done: a past one is `3 days late`."""
    days = (today - day).days
    return f"{days} day{'' if days == 1 else 's'} late" if days > 0 else relative_day(day, today)


_HALF_YEAR = 180
"""Days; a day and month without a year is read as the nearest one, so up to here the year can be left out."""


def _dated(front: str, day: date, day_first: bool, *, year: bool) -> str:
    month = _MONTHS[day.month - 1][:3]
    if day_first:
        return f"{front}{day.day} {month}{f' {day.year}' if year else ''}"
    return f"{front}{month} {day.day}{f', {day.year}' if year else ''}"
