"""Days counted back from today, as people say them of work that is done."""

from __future__ import annotations

from datetime import date

import pytest

from store.measure.dates import parse_date
from store.measure.errors import BadValue
from tests.rows import rows

TODAY = date(2026, 3, 1)


@rows(
    ("typed", "meant"),
    [
        ("1 day ago", date(2026, 2, 28)),
        ("12 days ago", date(2026, 2, 17)),
        ("12 d ago", date(2026, 2, 17)),
        ("  12  Days  AGO ", date(2026, 2, 17)),
        ("1 week ago", date(2026, 2, 22)),
        ("3 weeks ago", date(2026, 2, 8)),
        ("9w ago", date(2025, 12, 28)),
        ("0 days ago", TODAY),
        ("in 3 weeks", date(2026, 3, 22)),
        ("+2 d", date(2026, 3, 3)),
    ],
)
def test_days_are_counted_from_today_either_way(typed: str, meant: date) -> None:
    assert parse_date(typed, TODAY) == meant


@rows("days", [1, 28, 365, 999])
def test_ahead_and_ago_undo_each_other(days: int) -> None:
    assert parse_date(f"{days} days ago", parse_date(f"in {days} days", TODAY)) == TODAY


def test_a_leap_day_is_counted() -> None:
    assert parse_date("1 day ago", date(2028, 3, 1)) == date(2028, 2, 29)


@rows("typed", ["ago", "days ago", "-3 days ago", "in 3 days ago", "1.5 weeks ago", "a week ago"])
def test_what_could_be_meant_otherwise_is_refused(typed: str) -> None:
    with pytest.raises(BadValue, match=r"not a date|lacks"):
        parse_date(typed, TODAY)
