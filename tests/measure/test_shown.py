"""Figures as the trade writes them: shown forms, rounding that never contradicts a verdict, dates by region, counts."""

from __future__ import annotations

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from store.measure.compare import (
    ceiling_number,
    compare,
    compare_numbers,
    floor_number,
    limit_length,
    need_length,
)
from store.measure.counts import plural, some, some_of, verb
from store.measure.dates import due_day, echo_date, parse_date, relative_day, short_date, show_date, week_date
from store.measure.length import (
    INCH_NM,
    LONGEST_NM,
    MM_NM,
    SIXTEENTH_NM,
    SIXTY_FOURTH_NM,
    Length,
    from_file,
    kept_length,
    parse_length,
    show_length,
    show_pair,
    show_size,
    typed_length,
)
from store.measure.numbers import parse_number, with_unit
from tests.rows import rows

LENGTHS = st.one_of(
    st.integers(0, LONGEST_NM),
    st.integers(0, LONGEST_NM // SIXTEENTH_NM).map(lambda count: count * SIXTEENTH_NM),
    st.integers(0, LONGEST_NM // MM_NM).map(lambda count: count * MM_NM),
)
CLOSE = st.integers(-3 * MM_NM, 3 * MM_NM)
TODAY = date(2026, 11, 30)
DAYS = st.dates(date(1950, 1, 1), date(2150, 12, 31))
NEAR = st.integers(-1000, 1000).map(lambda days: TODAY + timedelta(days=days))


@rows(
    ("text", "place", "size"),
    [
        ("96 1/16 in", "8'-0 1/16\"", "8'-0 1/16\""),
        ("151 in", "12'-7\"", "12'-7\""),
        ("7 1/8 in", '7-1/8"', '7-1/8"'),
        ("17 1/8 in", "1'-5 1/8\"", '17-1/8"'),
        ("12 in", "1'-0\"", '12"'),
        ("72 in", "6'-0\"", '72"'),
        ("72 1/16 in", "6'-0 1/16\"", "6'-0 1/16\""),
        ("3/8 in", '3/8"', '3/8"'),
        ("0 in", '0"', '0"'),
        ("-17 1/8 in", "-1'-5 1/8\"", '-17-1/8"'),
        ("1 1/64 in", '~1"', '~1"'),
    ],
)
def test_inches_as_drawings_and_shops_write_them(text: str, place: str, size: str) -> None:
    length = from_file(text)
    assert (show_length(length), show_size(length)) == (place, size)


def test_millimeters_and_pairs() -> None:
    assert show_length(from_file("1918 mm"), metric=True) == show_size(from_file("1918 mm"), metric=True) == "1918 mm"
    assert show_pair(from_file("12 in"), from_file("10 in")) == '12" x 10"'
    assert show_pair(from_file("300 mm"), from_file("250 mm"), metric=True) == "300 x 250 mm"


@given(LENGTHS, st.booleans(), st.booleans())
def test_every_shown_length_reads_back(nm: int, metric: bool, size: bool) -> None:
    shown = (show_size if size else show_length)(Length(nm, metric), metric)
    read = parse_length(shown.removeprefix("~"), metric).nm
    if shown.startswith("~"):
        assert 0 < abs(read - nm) * 2 <= (MM_NM if metric else SIXTEENTH_NM)
    else:
        assert read == nm


@given(LENGTHS, st.booleans(), st.booleans(), st.booleans())
def test_what_a_form_shows_is_exact(nm: int, metric: bool, job_metric: bool, size: bool) -> None:
    assert parse_length(typed_length(Length(nm, metric), job_metric, size=size), job_metric).nm == nm


def test_kept_texts_keep_their_form() -> None:
    assert kept_length(from_file("75 1/2 in")) == "6' 3 1/2\""
    assert kept_length(from_file("72 in")) == "6'"
    assert kept_length(from_file("1917.7 mm"), metric=True) == "~1918 mm"


@given(LENGTHS, CLOSE, st.booleans())
def test_two_lengths_never_read_against_their_verdict(nm: int, apart: int, metric: bool) -> None:
    nm = min(nm, LONGEST_NM - 10 * MM_NM)
    have, need = Length(nm, metric), Length(max(0, nm + apart), metric)
    shown = compare(have, need, metric)
    low, high = parse_length(shown.have, metric).nm, parse_length(shown.need, metric).nm
    assert low <= have.nm
    assert high >= need.nm
    assert (low >= high) == (have.nm >= need.nm)
    assert (shown.have == shown.need) == (have.nm == need.nm)
    if have.nm < need.nm:
        assert parse_length(shown.short, metric).nm == high - low
    else:
        assert shown.short == ""


def test_the_next_digit_is_shown_where_two_figures_would_read_the_same() -> None:
    assert compare(from_file("16 in"), from_file("20 1/16 in")) == ('16"', '20-1/16"', '4-1/16"')
    # 0.0630 in of sag fits no limit of 1/16 in, which is 0.0625 in.
    assert compare(from_file("1/16 in"), from_file("0.063 in")).need != '1/16"'
    # Enough, by less than a tape shows: rounded down and up, the two would say the opposite.
    assert compare(from_file("2.1 in"), from_file("2.09 in")) == ('2.1"', '2.09"', "")
    assert compare(from_file("300.2 mm"), from_file("300.4 mm"), metric=True) == ("300 mm", "301 mm", "1 mm")
    assert compare(from_file("300.4 mm"), from_file("300.2 mm"), metric=True) == ("300.4 mm", "300.2 mm", "")


@given(st.floats(0, 1e6), st.floats(-2, 2))
def test_two_numbers_never_read_against_their_verdict(have: float, apart: float) -> None:
    need = max(0.0, have + apart)
    shown = compare_numbers(have, need, "W")
    low, high = parse_number(shown.have, "W"), parse_number(shown.need, "W")
    if shown.have != shown.need:
        assert (low >= high) == (have >= need)
    else:
        assert abs(have - need) <= 1e-9 * max(1.0, have)


def test_a_limit_goes_down_and_a_need_goes_up() -> None:
    assert limit_length(from_file("2.1 in")) == '2-1/16"'
    assert need_length(from_file("2.1 in")) == '2-1/8"'
    assert limit_length(from_file("53.9 mm"), metric=True) == "53 mm"
    assert need_length(from_file("53.1 mm"), metric=True) == "54 mm"
    assert (floor_number(2.39, 1), ceiling_number(2.31, 1)) == (2.3, 2.4)
    assert (floor_number(2.3, 1), ceiling_number(2.3, 1)) == (2.3, 2.3)
    assert compare_numbers(18, 24, "in³") == ("18 in³", "24 in³", "6 in³")
    assert compare_numbers(2.96, 3, "%") == ("2%", "3%", "1%")
    assert compare_numbers(3.2, 3, "%") == ("3.2%", "3%", "")


def test_numbers_have_their_unit() -> None:
    assert [with_unit(420.0, "W"), with_unit(12.5, "A"), with_unit(18.0, "in³")] == ["420 W", "12.5 A", "18 in³"]
    assert with_unit(3.2, "%") == "3.2%"
    assert with_unit(3.2, "%", metric=True) == "3.2 %"
    assert with_unit(9 / 7, "A", places=1) == "1.3 A"
    assert with_unit(270, "°") == "270°"
    assert with_unit(3, "") == "3"


@given(st.integers(0, 10**9), st.sampled_from(["W", "A", "V", "in³", "in²", "cfm", "%", "h", "d"]), st.booleans())
def test_a_number_with_its_unit_reads_back(thousandths: int, unit: str, metric: bool) -> None:
    assert parse_number(with_unit(thousandths / 1000, unit, metric=metric), unit) == thousandths / 1000


def test_dates_by_region() -> None:
    day = date(2026, 12, 9)
    assert (show_date(day), show_date(day, day_first=True)) == ("Dec 9, 2026", "9 Dec 2026")
    assert (short_date(day, TODAY), short_date(day, TODAY, day_first=True)) == ("Dec 9", "9 Dec")
    assert short_date(date(2027, 1, 4), TODAY) == "Jan 4, 2027"
    assert (week_date(date(2026, 12, 28), TODAY), week_date(date(2026, 12, 4), TODAY, day_first=True)) == (
        "Mon Dec 28",
        "Fri 4 Dec",
    )
    assert week_date(date(2027, 1, 4), TODAY) == "Mon Jan 4"
    assert week_date(date(2027, 11, 1), TODAY) == "Mon Nov 1, 2027"
    assert echo_date(date(2026, 12, 4)) == "Friday, December 4, 2026"
    assert echo_date(date(2026, 12, 4), day_first=True) == "Friday 4 December 2026"


@given(DAYS, st.booleans())
def test_every_shown_date_reads_back(day: date, day_first: bool) -> None:
    for text in (show_date(day, day_first), echo_date(day, day_first)):
        assert parse_date(text, TODAY, day_first=day_first) == day


@given(NEAR, st.booleans())
def test_every_short_date_reads_back(day: date, day_first: bool) -> None:
    assert parse_date(week_date(day, TODAY, day_first), TODAY, day_first=day_first) == day
    if day.year != TODAY.year or abs((day - TODAY).days) < 180:
        assert parse_date(short_date(day, TODAY, day_first), TODAY, day_first=day_first) == day


@given(NEAR)
def test_every_relative_day_reads_back(day: date) -> None:
    if abs((day - TODAY).days) <= 999:
        assert parse_date(relative_day(day, TODAY), TODAY) == day
        assert parse_date(due_day(day, TODAY), TODAY) == day


def test_relative_days() -> None:
    days = [relative_day(TODAY + timedelta(days=each), TODAY) for each in (-3, -1, 0, 1, 9)]
    assert days == ["3 days ago", "yesterday", "today", "tomorrow", "in 9 days"]
    assert [due_day(TODAY + timedelta(days=each), TODAY) for each in (-3, -1, 0, 9)] == [
        "3 days late",
        "1 day late",
        "today",
        "in 9 days",
    ]


def test_counts_have_the_right_noun() -> None:
    assert [plural(each, "rough-in item") for each in (1, 2)] == ["1 rough-in item", "2 rough-in items"]
    assert [plural(2, each) for each in ("box", "day", "body", "switch", "access panel")] == [
        "2 boxes",
        "2 days",
        "2 bodies",
        "2 switches",
        "2 access panels",
    ]
    assert plural(1200, "cable") == "1,200 cables"
    assert some(0, "cable") == "No cables"
    assert some(3, "cable") == "3 cables"
    assert plural(2, "visit to", "visits to") == "2 visits to"
    assert (verb(1), verb(2), verb(2, "needs", "need")) == ("is", "are", "need")
    assert some_of(12, 184, "signed off") == "12 of 184 signed off"


def test_an_inch_has_as_many_sixteenths_as_a_tape() -> None:
    assert INCH_NM == 16 * SIXTEENTH_NM == 64 * SIXTY_FOURTH_NM
