"""Public holidays against the printed lists of years."""

from __future__ import annotations

from datetime import date

import pytest

from store.trade.schedule.holidays import holidays
from tests.rows import rows


def of(year: int, *days: str) -> set[date]:
    return {date(year, *map(int, each.split("/"))) for each in days}


@pytest.mark.parametrize(
    ("year", "days"),
    [
        # 5 USC 6103, as the federal calendars print it: in 2026 July 4 is a Saturday; in 2027 June 19 and Dec 25 are,
        # July 4 is a Sunday, and New Year 2028 is observed on Dec 31.
        (2026, "1/1 1/19 2/16 5/25 6/19 7/3 9/7 10/12 11/11 11/26 12/25"),
        (2027, "1/1 1/18 2/15 5/31 6/18 7/5 9/6 10/11 11/11 11/25 12/24 12/31"),
    ],
)
def test_federal_days(year: int, days: str) -> None:
    assert {each for each in holidays("us", year, year, "official") if each.year == year} == of(year, *days.split())


def test_what_crews_keep() -> None:
    kept = {each for each in holidays("us", 2026, 2026) if each.year == 2026}
    assert kept == of(2026, "1/1", "5/25", "7/3", "9/7", "11/26", "11/27", "12/25")


@rows(
    ("year", "days"),
    [
        # England and Wales, as the government prints them.
        (2026, "1/1 4/3 4/6 5/4 5/25 8/31 12/25 12/28"),
        (2027, "1/1 3/26 3/29 5/3 5/31 8/30 12/27 12/28"),
        (2028, "1/3 4/14 4/17 5/1 5/29 8/28 12/25 12/26"),
    ],
)
def test_bank_holidays(year: int, days: str) -> None:
    assert holidays("metric", year, year) == of(year, *days.split())
