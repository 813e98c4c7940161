"""The days a contact works: the usual week, and the days off as people write them."""

from __future__ import annotations

import re
from datetime import date, timedelta
from functools import cache

from store.measure.dates import parse_date
from store.measure.errors import BadValue, quoted
from store.measure.text import capital
from store.records.people import Contact
from store.trade.schedule.holidays import Kept, holidays
from store.trade.schedule.working_days import EVERY_DAY, MONDAY_TO_FRIDAY, WEEKEND, WorkWeek, days_by_rule

WEEKS: dict[str, frozenset[int]] = {
    "mon-fri": MONDAY_TO_FRIDAY,
    "mon-sat": frozenset(range(6)),
    "weekends": WEEKEND,
    "every day": EVERY_DAY,
}
HORIZON_DAYS = 3 * 366
"""How far ahead of the first day a repeated day off is worked out."""
LONGEST_HOLIDAY_DAYS = 366
HOLIDAY_YEARS = 3
"""How many years after the first public holidays are worked out for."""
HELP = "Write 2026-12-24, 2026-12-24 to 2027-01-02, every fri, or every other fri from 2026-10-16."
_DAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
_EVERY = re.compile(r"every (other )?(mon|tue|wed|thu|fri|sat|sun)[a-z]*(?: from (.+))?")


def public_days(contact: Contact, first: date, metric: bool, kept: Kept = "crew") -> frozenset[date]:
    """The public holidays that a contact keeps as crews do, or all of them, from the year of a day on."""
    if contact.trade == "owner" or contact.week in ("weekends", "every day"):
        return frozenset()
    return holidays("metric" if metric else "us", first.year, first.year + HOLIDAY_YEARS, kept)


def week_of(contact: Contact, first: date, metric: bool = False) -> WorkWeek:
    """The working week of a contact from a day on, public holidays of the region left out.

    Days off that cannot be read are left out; `unreadable` has them.
    """
    off: set[date] = set(public_days(contact, first, metric))
    for text in contact.days_off:
        try:
            off |= days_off(text, first)
        except BadValue:
            continue
    return WorkWeek(weekdays=WEEKS[contact.week], days_off=frozenset(off))


def unreadable(contact: Contact, first: date) -> list[str]:
    """What is wrong with each day off that cannot be read."""
    wrong = []
    for text in contact.days_off:
        try:
            days_off(text, first)
        except BadValue as error:
            wrong.append(str(error))
    return wrong


@cache
def days_off(text: str, first: date) -> frozenset[date]:
    """The days that one entry names: a date, `date to date`, `every fri`, or a rule of RFC 5545.

    A repeated day is worked out from `first` for three years; `every other fri` needs the day it is counted from.
    Raises BadValue.
    """
    plain = " ".join(text.lower().split())
    if "freq=" in plain:
        return _ruled(text.strip().upper(), first, first)
    if found := _EVERY.fullmatch(plain):
        if found[1] and not found[3]:
            raise BadValue(f"{quoted(text)} has no first day. Write the day it counts from. {HELP}")
        start = _day(found[3], text) if found[3] else first
        step = 2 if found[1] else 1
        return _ruled(f"FREQ=WEEKLY;INTERVAL={step};BYDAY={found[2][:2].upper()}", start, first)
    ends = re.split(r" (?:to|until|-|–) |\.\.", plain)
    if len(ends) > 2:
        raise BadValue(f"{quoted(text)} is not a day off. {HELP}")
    low, high = _day(ends[0], text), _day(ends[-1], text)
    if not 0 <= (high - low).days <= LONGEST_HOLIDAY_DAYS:
        raise BadValue(f"{quoted(text)} must end later, and within a year. {HELP}")
    return frozenset(low + timedelta(days=one) for one in range((high - low).days + 1))


def _ruled(rule: str, start: date, first: date) -> frozenset[date]:
    try:
        return days_by_rule(rule, start, max(start, first) + timedelta(days=HORIZON_DAYS))
    except ValueError as error:
        raise BadValue(f"{quoted(rule)} is not a rule of days. {capital(str(error))}. {HELP}") from error


def _day(text: str, whole: str) -> date:
    """A date that says its year: a day counted from today would wander."""
    if re.fullmatch(r"\d{4}-\d\d-\d\d", text, re.ASCII):
        return parse_date(text, date(2000, 1, 1))
    try:
        one, other = parse_date(text, date(2000, 1, 1)), parse_date(text, date(2001, 3, 5))
    except BadValue as error:
        raise BadValue(f"{quoted(whole)} is not a day off. {HELP}") from error
    if one != other:
        raise BadValue(f"{quoted(whole)} has no year. {HELP}")
    return one
