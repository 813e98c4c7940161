"""A way round the gate: a name, an evidence or a reason that nobody can see."""

from __future__ import annotations

from datetime import date

import pytest

from store.records.gate import Closing
from store.rules.core.checks import what_is_missing

DAY = date(2026, 5, 4)


@pytest.mark.parametrize("unseen", ["\u200b", "\u3164", "\u2060 \u00ad"])
def test_a_closing_of_signs_that_nobody_sees_does_not_count(unseen: str) -> None:
    assert "nobody" in what_is_missing(Closing(tag="Q1", date=DAY, by=unseen, evidence="seen"))
    assert "evidence" in what_is_missing(Closing(tag="Q1", date=DAY, by="Ann", evidence=unseen))
    assert "reason" in what_is_missing(Closing(tag="Q1", date=DAY, by="Ann", outcome="not needed", reason=unseen))
