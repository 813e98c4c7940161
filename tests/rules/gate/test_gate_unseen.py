"""A way round the gate: a name, an evidence or a reason that nobody can see."""

from __future__ import annotations

from datetime import date

from store.records.gate import Closing
from store.rules.core.checks import RoughIn
from store.rules.core.proof import proof_missing
from tests.rows import rows

DAY = date(2026, 5, 4)
ITEM = RoughIn("Q1", "Blocks", "owner", "", "", ("Q1",), {})


@rows("unseen", ["\u200b", "\u3164", "\u2060 \u00ad"])
def test_a_closing_of_signs_that_nobody_sees_does_not_count(unseen: str) -> None:
    words = "both blocks nailed"
    assert "no name" in proof_missing(ITEM, Closing(tag="Q1", date=DAY, by=unseen, proof="seen", evidence=words))
    assert "no proof" in proof_missing(ITEM, Closing(tag="Q1", date=DAY, by="Ann", proof="seen", evidence=unseen))
    assert "no proof" in proof_missing(ITEM, Closing(tag="Q1", date=DAY, by="Ann", evidence=unseen))
    needless = Closing(tag="Q1", date=DAY, by="Ann", outcome="not needed", reason=unseen)
    assert "reason" in proof_missing(ITEM, needless)
