"""Findings about what is retired on a day to come: most rules pass it over at once, and it is still in the wall."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.equipment import Equipment
from store.records.whole import Job
from store.records.wiring import Cable
from store.rules.access.means import PRACTICE
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import date_text


@rule
@from_each(Cable, Equipment)
def retired_too_early(job: Job, record: Cable | Equipment) -> Iterable[Finding]:
    """A cable or a piece of equipment whose retirement is dated after today."""
    if record.retired is None or record.retired <= job.today or (isinstance(record, Cable) and not record.in_wall):
        return
    day = date_text(job, record.retired)
    yield Finding(
        "retired_too_early",
        "stop",
        (record.tag,),
        "Retired date is in the future",
        "Clear the date, and enter it again on the day it leaves the wall. Until then it is checked like everything "
        "else.",
        PRACTICE,
        {"retired": day},
        why=f"It is entered as out of use from {day}, but it is still there, so its other problems are not shown.",
    )
