"""What a run loses on its way, told with the lengths that stand elsewhere too."""

from __future__ import annotations

from store.rules.cable.lengths import needs
from store.rules.core.findings import findings
from store.rules.core.wording import said
from tests.jobs.cable_jobs import cable, plain


def test_a_picture_cable_that_is_sold_longer_than_its_way_says_both_lengths() -> None:
    job = plain(cable(kind="hdmi", measured="23'", carries="18 Gbit/s"))
    (one,) = (each for each in findings(job) if each.rule == "picture_cable_long")
    assert "HDMI cable of 30'-0\"" in one.head
    assert "it is sold 30'-0\" long" in one.why
    (need,) = needs(job).values()
    assert need.cut is not None
    assert f"Its way needs {said(job, need.cut)};" in one.why
