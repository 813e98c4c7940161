"""Steps of the rough-in whose work is told done by the sign-offs, or by the stage, whatever the step itself says."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping

from store.records.gate import Passage
from store.records.people import Stage, Step
from store.records.whole import Job
from store.rules.core.checks import OfItems
from store.rules.core.keyed import by_key
from store.rules.core.memo import once
from store.rules.gate.gate import STAGES
from store.rules.schedule.calendar import trade_of

ROUGH_IN: Stage = "Rough-in"


_trades = OfItems(lambda item: item.check.trade)
_trades_of_open = OfItems(lambda item: item.check.trade if item.why_open else None)
"""Of each rough-in item, and of each that is open."""


@once
def left_to_do(job: Job) -> frozenset[str]:
    """The trades that have rough-in items open."""
    return frozenset(_trades_of_open(job))


@by_key
def asked_of(job: Job) -> Mapping[str, int]:
    """How many rough-in items each trade has."""
    return Counter(_trades(job))


@once
def covered(job: Job) -> bool:
    """True once the job passed the rough-in."""
    return any(STAGES.index(each.stage) > STAGES.index(ROUGH_IN) for each in job.of(Passage).values())


def all_signed(job: Job, step: Step) -> bool:
    """True for a step of the rough-in that is not marked done, though the wall is covered, or though its trade has
    items and none of them is open."""
    if step.done is not None or step.stage != ROUGH_IN:
        return False
    if covered(job):
        return True
    trade = trade_of(job, step)
    return bool(step.who) and trade not in left_to_do(job) and bool(asked_of(job).get(trade))
