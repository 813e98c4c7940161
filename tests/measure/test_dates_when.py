"""The year that is left out: of what has happened it is over, of what is to come it is not."""

from __future__ import annotations

from datetime import date

from store.measure.dates import When, parse_date
from store.records.equipment import Equipment
from store.records.field import Manner, fields_of
from store.records.people import Contact, Step
from store.records.wall import Reading
from tests.rows import rows

TODAY = date(2026, 12, 1)
"""A Tuesday."""


@rows(
    ("typed", "when", "day"),
    [
        ("Apr 1", "", date(2027, 4, 1)),  # nearest: 121 days ahead, 244 ago
        ("Apr 1", "past", date(2026, 4, 1)),
        ("Dec 1", "past", date(2026, 12, 1)),  # today
        ("Dec 2", "past", date(2025, 12, 2)),
        ("Feb 29", "past", date(2024, 2, 29)),
        ("Aug 1", "", date(2026, 8, 1)),  # 122 days ago, 243 ahead
        ("Aug 1", "ahead", date(2027, 8, 1)),
        ("Nov 1", "ahead", date(2026, 11, 1)),  # a license that ended a month ago
        ("Aug 1 2026", "ahead", date(2026, 8, 1)),  # a year that is typed counts
        ("Apr 1 2027", "past", date(2027, 4, 1)),
        ("fri", "past", date(2026, 11, 27)),
        ("tue", "past", TODAY),
        ("fri", "", date(2026, 12, 4)),
        ("fri", "ahead", date(2026, 12, 4)),
        ("2 weeks ago", "past", date(2026, 11, 17)),
    ],
)
def test_the_year_and_the_week_of_a_day(typed: str, when: When, day: date) -> None:
    assert parse_date(typed, TODAY, when=when) == day


def test_fields_say_on_which_side_of_today_they_are() -> None:
    manner = Manner(TODAY)

    def read(cls: type, key: str, text: str) -> date:
        found: date = next(each for each in fields_of(cls) if each.key == key).read(text, manner)
        return found

    assert read(Reading, "date", "4/1") == date(2026, 4, 1)
    assert read(Step, "done", "fri") == date(2026, 11, 27)
    assert read(Equipment, "ordered", "Mar 3") == date(2026, 3, 3)
    assert read(Equipment, "warranty", "Aug 1") == date(2027, 8, 1)
    assert read(Contact, "insured_until", "Jul 15") == date(2027, 7, 15)
    assert read(Step, "booked", "fri") == date(2026, 12, 4)
