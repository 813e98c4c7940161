"""Findings about steps that the sign-offs or the stage of the job contradict."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.people import Step
from store.records.whole import Job
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import date_text, plural
from store.rules.schedule.calendar import trade_of
from store.rules.trades.all_signed import all_signed, asked_of, covered

PRACTICE = "common practice"


@rule
@from_each(Step)
def step_behind_its_items(job: Job, step: Step) -> Iterable[Finding]:
    """A step of the rough-in that is planned or booked still, though every item of its trade is signed off, or though
    the job passed that stage."""
    if not all_signed(job, step):
        return
    total = asked_of(job).get(trade_of(job, step)) or 0
    if covered(job):
        head, why = "The job is past Rough-in, step still open", f"The wall is covered, and {step.tag} is not done."
    else:
        head = "All items signed off, step still open"
        why = f"Every rough-in item of this trade is signed off ({plural(total, 'item')}), and {step.tag} is not done."
    if step.booked is not None:
        why += f" It is booked for {date_text(job, step.booked)}."
    yield Finding(
        "step_behind_its_items",
        "look",
        (step.tag,),
        head,
        "Enter the day it was done. If work is left, add it as a rough-in item.",
        PRACTICE,
        {"items": str(total), "booked": step.booked.isoformat() if step.booked else ""},
        why=why,
    )
