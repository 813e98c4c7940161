"""A currency with another smallest part would make another amount of every amount that is kept."""

from __future__ import annotations

from pathlib import Path

import pytest
from msgspec.structs import replace

from store.book.changes import add, edit
from store.measure.errors import BadValue
from store.measure.money import Money
from store.records.equipment import Equipment
from tests.book.build import TODAY
from tests.jobs.begun import begun


def test_the_currency_is_changed_only_where_amounts_stay_what_they_are(tmp_path: Path) -> None:
    book = begun(tmp_path / "j.json", "empty", TODAY, "Ann")

    def count_in(currency: str) -> None:
        book.act("Change", [edit(book.job.settings, replace(book.job.settings, currency=currency))])

    count_in("KWD")
    count_in("USD")
    book.act("Buy", [add(Equipment(tag="", name="Fan", price=Money(1999)))])
    count_in("EUR")
    with pytest.raises(BadValue, match="amounts here have 2 decimals, KWD has 3"):
        count_in("KWD")
    assert book.job.settings.currency == "EUR"
