"""Working days, with numpy's business days as the independent count."""

from __future__ import annotations

import sys
from datetime import date, timedelta
from subprocess import run
from typing import Literal

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.trade.schedule.working_days import (
    EVERY_DAY,
    WEEKEND,
    WorkWeek,
    add_working_days,
    count_working_days,
    days_by_rule,
    first_day_of,
    first_working,
    last_day_of,
    last_working,
    works_on,
)
from tests.rows import rows

days = st.dates(date(2020, 1, 1), date(2030, 12, 31))
near = st.dates(date(2024, 1, 1), date(2024, 12, 31))
weekdays = st.frozensets(st.integers(0, 6), min_size=1)
weeks = st.builds(lambda w, off: WorkWeek(weekdays=w, days_off=off), weekdays, st.frozensets(near, max_size=20))


def numpy_week(week: WorkWeek) -> tuple[list[bool], list[np.datetime64]]:
    """Return the same week as numpy takes it."""
    return [day in week.weekdays for day in range(7)], [np.datetime64(day) for day in week.days_off]


@given(weeks, near, st.integers(-60, 60))
def test_adding_as_numpy_does(week: WorkWeek, day: date, count: int) -> None:
    mask, off = numpy_week(week)
    roll: Literal["backward", "forward"] = "backward" if count < 0 else "forward"
    expected = np.busday_offset(np.datetime64(day), count, roll=roll, weekmask=mask, holidays=off)
    assert np.datetime64(add_working_days(week, day, count)) == expected


@given(weeks, near, near)
def test_counting_as_numpy_does(week: WorkWeek, one: date, two: date) -> None:
    mask, off = numpy_week(week)
    low, high = sorted((one, two))
    expected = int(np.busday_count(np.datetime64(low), np.datetime64(high), weekmask=mask, holidays=off))
    assert count_working_days(week, low, high) == expected
    assert count_working_days(week, high, low) == -expected


@given(weeks, st.frozensets(near, max_size=10), near, near)
def test_counting_is_looking_at_each_day(week: WorkWeek, on: frozenset[date], one: date, two: date) -> None:
    week = WorkWeek(week.weekdays, week.days_off, on)
    low, high = sorted((one, two))
    each = sum(works_on(week, low + timedelta(days=n)) for n in range((high - low).days))
    assert count_working_days(week, low, high) == each


@given(weeks, days, st.integers(1, 40))
def test_a_piece_of_work_fits_between_its_first_and_last_day(week: WorkWeek, day: date, length: int) -> None:
    start = first_working(week, day)
    last = last_day_of(week, start, length)
    assert first_day_of(week, last, length) == start
    assert count_working_days(week, start, last + timedelta(days=1)) == length


@given(weeks, days)
def test_nearest_working_days_skip_only_days_off(week: WorkWeek, day: date) -> None:
    after, before = first_working(week, day), last_working(week, day)
    assert before <= day <= after
    assert works_on(week, after)
    assert works_on(week, before)
    assert count_working_days(week, day, after) == 0
    assert count_working_days(week, before + timedelta(days=1), day + timedelta(days=1)) == 0


def test_one_day_of_work_ends_on_the_day_it_starts() -> None:
    week = WorkWeek()
    assert last_day_of(week, date(2024, 3, 1), 1) == date(2024, 3, 1)
    assert last_day_of(week, date(2024, 3, 1), 2) == date(2024, 3, 4)
    for work in (last_day_of, first_day_of):
        with pytest.raises(ValueError, match="one day"):
            work(week, date(2024, 3, 1), 0)


def test_a_day_named_as_worked_is_worked() -> None:
    saturday = date(2024, 3, 2)
    week = WorkWeek(days_off=frozenset({saturday}), days_on=frozenset({saturday}))
    assert works_on(week, saturday)
    assert not works_on(WorkWeek(), saturday)
    assert works_on(WorkWeek(weekdays=WEEKEND), saturday)


def test_a_week_without_days_is_an_error_and_no_endless_search() -> None:
    with pytest.raises(ValueError, match="no working day"):
        first_working(WorkWeek(weekdays=frozenset()), date(2024, 3, 1))


def test_every_other_friday_off() -> None:
    off = days_by_rule("FREQ=WEEKLY;INTERVAL=2;BYDAY=FR", date(2024, 3, 1), date(2024, 3, 31))
    assert off == {date(2024, 3, 1), date(2024, 3, 15), date(2024, 3, 29)}
    week = WorkWeek(days_off=off)
    assert last_day_of(week, date(2024, 3, 14), 2) == date(2024, 3, 18)


@rows("rule", ["", "every friday", "FREQ=OFTEN", "FREQ=HOURLY", "FREQ=DAILY;BYHOUR=9", "FREQ=DAILY;X=1"])
def test_a_rule_that_is_none_is_refused(rule: str) -> None:
    with pytest.raises(ValueError, match="rule"):
        days_by_rule(rule, date(2024, 3, 1), date(2024, 3, 31))


def test_the_recurrence_library_is_loaded_only_when_asked_for() -> None:
    code = "import sys, store.trade.schedule.working_days; sys.exit('dateutil' in sys.modules)"
    assert run([sys.executable, "-c", code], check=False).returncode == 0


def test_every_day_is_every_day() -> None:
    week = WorkWeek(weekdays=EVERY_DAY)
    assert count_working_days(week, date(2024, 2, 28), date(2024, 3, 1)) == 2
