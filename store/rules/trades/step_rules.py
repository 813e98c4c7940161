"""Findings about steps that the sign-offs or the stage of the job contradict."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from store.records.gate import Passage
from store.records.people import Stage, Step, Trade
from store.records.whole import Job
from store.rules.core.checks import items
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import by_key, from_each
from store.rules.core.memo import once
from store.rules.core.wording import date_text, plural
from store.rules.gate.gate import STAGES
from store.rules.schedule.calendar import trade_of

PRACTICE = "common practice"
ROUGH_IN: Stage = "Rough-in"


@by_key
def left_to_do(job: Job) -> Mapping[str, tuple[int, int]]:
    """How many rough-in items each trade has, and how many of them are open."""
    found: dict[str, tuple[int, int]] = {}
    for each in items(job):
        total, still = found.get(each.check.trade, (0, 0))
        found[each.check.trade] = (total + 1, still + each.open)
    return found


@once
def covered(job: Job) -> bool:
    """True once the job passed the rough-in."""
    return any(STAGES.index(each.stage) > STAGES.index(ROUGH_IN) for each in job.of(Passage).values())


@rule
@from_each(Step)
def step_behind_its_items(job: Job, step: Step) -> Iterable[Finding]:
    """A step of the rough-in that is planned or booked still, though every item of its trade is signed off, or though
    the job passed that stage."""
    if step.done is not None or step.stage != ROUGH_IN:
        return
    trade: Trade = trade_of(job, step)
    total, still = left_to_do(job).get(trade) or (0, 0)
    if covered(job):
        head, why = "The job is past Rough-in, step still open", f"The wall is covered, and {step.tag} is not done."
    elif step.who and total and not still:
        head = "All items signed off, step still open"
        why = f"Every rough-in item of this trade is signed off ({plural(total, 'item')}), and {step.tag} is not done."
    else:
        return
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
