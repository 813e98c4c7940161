"""Every sheet of a job in which a run is longer than any length that may be typed."""

from __future__ import annotations

import msgspec
import pytest

from store.measure.length import FOOT_NM, LONGEST_NM, Length
from store.records.whole import Job
from store.records.wiring import Box, Cable
from store.rules.cable.lengths import needs
from store.rules.core.findings import findings
from templates.sheets.catalogue import SHEETS, Context, make
from tests.rules.core.edits import starter, with_records


@pytest.fixture(scope="module")
def far() -> Job:
    """The demo with every box that a cable starts at as far off as the form lets it be: a slip of the hand."""
    job = starter()
    starts = {each.start: None for each in job.of(Cable).values() if each.in_wall and each.start in job.of(Box)}
    at = {"x": Length(990 * FOOT_NM), "y": Length(900 * FOOT_NM)}
    return with_records(job, *(msgspec.structs.replace(job.of(Box)[tag], **at) for tag in starts))


def test_a_run_is_told_however_long_it_is(far: Job) -> None:
    assert max(need.route.path or 0 for need in needs(far).values()) > LONGEST_NM
    assert any("1335' 1 1/4\"" in text for each in findings(far) for text in each.numbers.values())


@pytest.mark.parametrize("name", [name for name, sheet in SHEETS.items() if "html" in sheet.makers])
def test_every_sheet_comes_out(far: Job, name: str) -> None:
    out = make(name, "html", far, Context())
    assert str(out if isinstance(out, str) else out.decode()).count("</html>") == 1
