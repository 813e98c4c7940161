"""Dates as typed, counted from a fixed day."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.measure.dates import echo_date, parse_date, show_date
from store.measure.errors import BadValue
from tests.rows import rows

TODAY = date(2026, 11, 25)  # a Wednesday
DAYS = st.dates(date(1950, 1, 1), date(2150, 12, 31))


@rows(
    ("typed", "wanted"),
    [
        ("2026-12-04", date(2026, 12, 4)),
        ("20261204", date(2026, 12, 4)),
        ("4 dec 2026", date(2026, 12, 4)),
        ("4 Dec", date(2026, 12, 4)),
        ("dec 4", date(2026, 12, 4)),
        ("December 4, 2026", date(2026, 12, 4)),
        ("fri 4 dec", date(2026, 12, 4)),
        ("12 march", date(2027, 3, 12)),
        ("12 june", date(2026, 6, 12)),
        ("1 jan", date(2027, 1, 1)),
        ("12/13", date(2026, 12, 13)),
        ("today", TODAY),
        (" Tomorrow ", date(2026, 11, 26)),
        ("yesterday", date(2026, 11, 24)),
        ("fri", date(2026, 11, 27)),
        ("Friday", date(2026, 11, 27)),
        ("this fri", date(2026, 11, 27)),
        ("next fri", date(2026, 12, 4)),
        ("next friday", date(2026, 12, 4)),
        ("wed", date(2026, 12, 2)),
        ("next wed", date(2026, 12, 2)),
        ("mon", date(2026, 11, 30)),
        ("next mon", date(2026, 11, 30)),
        ("next sun", date(2026, 12, 6)),
        ("in 3 days", date(2026, 11, 28)),
        ("+2w", date(2026, 12, 9)),
        ("in 1 week", date(2026, 12, 2)),
        ("12 days ago", date(2026, 11, 13)),
    ],
)
def test_dates_as_typed(typed: str, wanted: date) -> None:
    assert parse_date(typed, TODAY) == wanted


def test_the_month_comes_first_or_second() -> None:
    assert parse_date("3/4/26", TODAY) == date(2026, 3, 4)
    assert parse_date("3/4/26", TODAY, day_first=True) == date(2026, 4, 3)
    assert parse_date("3.4.2026", TODAY, day_first=True) == date(2026, 4, 3)
    # A form that can mean one thing only is read as that.
    for typed in ("2026-04-03", "2026/04/03", "2026.4.3"):
        for day_first in (False, True):
            assert parse_date(typed, TODAY, day_first=day_first) == date(2026, 4, 3)
    assert parse_date("25/12/26", TODAY) == date(2026, 12, 25)


def test_a_leap_day_needs_a_leap_year_near() -> None:
    with pytest.raises(BadValue, match="Add the year"):
        parse_date("29 feb", TODAY)
    assert parse_date("29 feb", date(2027, 11, 1)) == date(2028, 2, 29)
    assert parse_date("29 feb 2028", TODAY) == date(2028, 2, 29)


@rows(("typed", "year"), [("3/4/26", 2026), ("3/4/75", 2075), ("3/4/99", 1999)])
def test_a_short_year_is_the_one_near_the_given_day(typed: str, year: int) -> None:
    assert parse_date(typed, TODAY).year == year
    assert parse_date("3/4/99", date(2090, 1, 1)).year == 2099


@rows(
    ("typed", "says"),
    [
        ("", "no date entered"),
        ("12", "no day or no month"),
        ("Mar", "no day or no month"),
        ("march 2026", "no day or no month"),
        ("2026", "no day or no month"),
        ("2026-12", "no day or no month"),
        ("10:30", "no day or no month"),
        ("10 am", "no day or no month"),
        ("1030", "no day or no month"),
        ("12 march 10:30", "time of day"),
        ("12 march 5pm", "time of day"),
        ("31 feb", "is not a date"),
        ("2026-02-30", "not in the calendar"),
        ("2027-02-29", "not in the calendar"),
        ("0026-12-04", "in the year 26"),
        ("2926-12-04", "in the year 2926"),
        ("4 dec 2926", "in the year 2926"),
        ("soon", "is not a date"),
        ("9" * 20, "is not a date"),
        ("9" * 60, "too long"),
        ("next week", "is not a date"),
    ],
)
def test_what_lacks_something_is_refused_with_what_would_be_right(typed: str, says: str) -> None:
    with pytest.raises(BadValue) as caught:
        parse_date(typed, TODAY)
    assert says in str(caught.value)
    assert "year" in says or "2026-12-04" in str(caught.value)


@given(DAYS, DAYS)
def test_what_is_shown_or_echoed_reads_back(day: date, today: date) -> None:
    for text in (day.isoformat(), show_date(day), echo_date(day)):
        assert parse_date(text, today) == day


@given(st.sampled_from(["mon", "tue", "wed", "thu", "fri", "sat", "sun"]), DAYS)
def test_weekdays(name: str, today: date) -> None:
    plain, following = parse_date(name, today), parse_date(f"next {name}", today)
    assert show_date(plain) != show_date(today)
    assert 1 <= (plain - today).days <= 7
    assert echo_date(plain).lower().startswith(name)
    monday = today - timedelta(days=today.weekday())
    assert 7 <= (following - monday).days <= 13
    assert following.weekday() == plain.weekday()


@given(DAYS, st.integers(-150, 150))
def test_without_a_year_the_nearest_is_taken(today: date, away: int) -> None:
    day = today + timedelta(days=away)
    if (day.month, day.day) != (2, 29):
        assert parse_date(f"{day.day} {show_date(day).split()[0]}", today) == day


@given(st.text(max_size=45), st.booleans())
def test_random_text_is_read_or_refused(text: str, day_first: bool) -> None:
    try:
        found = parse_date(text, TODAY, day_first=day_first)
    except BadValue as error:
        assert str(error)  # noqa: PT017 - the sentence is what is asserted
    else:
        assert isinstance(found, date)


WORDS = "12,4,26,2026,99,0,31,feb,march,fri,next,in,ago,days,am,pm,:,/,-,.,T,Z,+05,UTC,w37,1st"


@given(st.lists(st.sampled_from([*WORDS.split(","), ","]), max_size=7), st.sampled_from(["", " "]))
def test_text_that_looks_like_a_date_is_read_or_refused(parts: list[str], between: str) -> None:
    try:
        found = parse_date(between.join(parts), TODAY)
    except BadValue:
        return
    assert 1900 <= found.year <= 2151


@rows("typed", ["12' 1/2", "6' 3", '75 1/2"', "75 1/2", "6 3/4", "6' 3-1/2", "12’ 1/2"])
def test_a_length_in_the_line_of_a_date_is_no_date(typed: str) -> None:
    with pytest.raises(BadValue, match="is not a date"):
        parse_date(typed, TODAY)


@rows("typed", ["4 dec '26", "4/dec/2026", "fri 12/4/26", "Friday, 12/4/2026"])
def test_signs_that_do_belong_in_a_date(typed: str) -> None:
    assert parse_date(typed, TODAY) == date(2026, 12, 4)
