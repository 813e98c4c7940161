"""Steps over the weeks as a line of signs each: the picture of the schedule where there are only letters."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta

import msgspec

from store.measure.dates import short_date
from store.records.people import Step
from store.records.whole import Job
from store.rules.schedule.calendar import calendar
from store.trade.schedule.critical_path import Dated

DONE, WORK, DECIDES, WAIT, TODAY, BOOKED = "░", "▒", "█", "·", "│", "◆"
LEGEND = (
    f"{DECIDES} decides the end  {WORK} has time to spare  {DONE} done  {WAIT} waiting  {BOOKED} booked  {TODAY} today"
)
MOST_PAST_DAYS = 366
"""Nothing longer ago is drawn."""


class Bars(msgspec.Struct, frozen=True):
    """The span that is drawn, and how many days a sign takes."""

    first: date
    """A Monday."""
    last: date
    days: int
    """Of one sign."""
    today: date
    dated: Mapping[str, Dated]
    booked: Mapping[str, date]
    day_first: bool = False

    @property
    def width(self) -> int:
        """Signs of a line."""
        return -(-((self.last - self.first).days + 1) // self.days)

    def at(self, day: date) -> int:
        """The sign in which a day falls."""
        return (day - self.first).days // self.days


def bars(job: Job, room: int, *, since: date | None = None) -> Bars:
    """The bars of a job in a line of at most so many signs (at least one), from `since` or the first day on."""
    found = calendar(job)
    steps = found.schedule.steps
    begin = min((one.start for one in steps), default=job.today)
    end = max([job.today, *(max(one.ready, one.finish) for one in steps)])
    begin = max(begin, since or begin, job.today - timedelta(days=MOST_PAST_DAYS))
    first = begin - timedelta(days=begin.weekday())
    days = max(1, -(-((end - first).days + 1) // max(1, room)))
    if days > 1 and room > 1:
        days = next((each for each in (2, 7, 14, 28) if each >= days), days)
    booked = {tag: one.booked for tag, one in job.of(Step).items() if one.booked is not None and one.done is None}
    return Bars(first, end, days, job.today, found.dated, booked, job.manner.day_first)


def text_bar(shape: Bars, tag: str) -> str:
    """The line of a step; empty when it has no dates."""
    one = shape.dated.get(tag)
    if one is None:
        return ""
    line = [" "] * shape.width
    if 0 <= shape.at(shape.today) < len(line):
        line[shape.at(shape.today)] = TODAY
    sign = DONE if one.done else DECIDES if one.critical else WORK
    _fill(line, shape, one.finish + timedelta(days=1), one.ready - timedelta(days=1), WAIT)
    _fill(line, shape, one.start, one.finish, sign)
    booked = shape.booked.get(tag)
    if booked is not None and 0 <= shape.at(booked) < len(line):
        line[shape.at(booked)] = BOOKED
    return "".join(line)


def _fill(line: list[str], shape: Bars, start: date, finish: date, sign: str) -> None:
    if finish < start or finish < shape.first:
        return
    for at in range(max(0, shape.at(start)), min(len(line) - 1, shape.at(finish)) + 1):
        line[at] = sign


def week_line(shape: Bars) -> str:
    """The days on which weeks begin, as far apart as they can be read: `Oct 5   Oct 19`."""
    line = [" "] * (shape.width + 8)
    at_least = 0
    day = shape.first
    while day <= shape.last:
        at, text = shape.at(day), short_date(day, day, shape.day_first)
        if at >= at_least:
            line[at : at + len(text)] = text
            at_least = at + len(text) + 1
        day += timedelta(days=7)
    return "".join(line).rstrip()
