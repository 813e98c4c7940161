"""Steps of the rough-in whose work is told done by the sign-offs, or by the stage, whatever the step itself says."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from operator import attrgetter

from store.records.gate import Passage
from store.records.people import Stage, Step
from store.records.whole import Job
from store.rules.core.checks import items
from store.rules.core.keyed import by_key
from store.rules.core.memo import once
from store.rules.gate.gate import STAGES
from store.rules.schedule.calendar import trade_of

ROUGH_IN: Stage = "Rough-in"


_TRADE, _OPEN = attrgetter("check.trade"), attrgetter("why_open")


@by_key
def left_to_do(job: Job) -> Mapping[str, tuple[int, int]]:
    """How many rough-in items each trade has, and how many of them are open."""
    total, still = Counter(map(_TRADE, items(job))), Counter(map(_TRADE, filter(_OPEN, items(job))))
    return {trade: (count, still[trade]) for trade, count in total.items()}


@once
def covered(job: Job) -> bool:
    """True once the job passed the rough-in."""
    return any(STAGES.index(each.stage) > STAGES.index(ROUGH_IN) for each in job.of(Passage).values())


def all_signed(job: Job, step: Step) -> bool:
    """True for a step of the rough-in that is not marked done, though the wall is covered, or though its trade has
    items and none of them is open."""
    if step.done is not None or step.stage != ROUGH_IN:
        return False
    total, still = left_to_do(job).get(trade_of(job, step)) or (0, 0)
    return covered(job) or bool(step.who and total and not still)
