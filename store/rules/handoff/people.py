"""Who is who round a packet: the trade's own contacts and steps, and whoever comes before and after."""

from __future__ import annotations

from collections.abc import Sequence

from store.records.people import Contact, Stage, Step, Trade
from store.records.whole import Job
from store.rules.gate.gate import STAGES
from store.rules.schedule.calendar import trade_of

COVERING: dict[Trade, Stage] = {"drywall": "Drywall", "painter": "Finish"}
"""Trades that never come before a stage, whatever their steps say."""


def contacts_of(job: Job, trade: Trade) -> tuple[Contact, ...]:
    """The contacts of a trade that were chosen; all of them where none is booked or done."""
    found = [one for one in job.of(Contact).values() if one.trade == trade]
    hired = [one for one in found if one.state in ("booked", "done")]
    return tuple(hired or found)


def steps_of(job: Job, trade: Trade) -> tuple[Step, ...]:
    """The steps of a trade, in the order of their tags."""
    return tuple(step for step in job.of(Step).values() if trade_of(job, step) == trade)


def visit_of(job: Job, trade: Trade) -> tuple[Stage, tuple[Step, ...]]:
    """The next visit of a trade: the earliest stage in which it has a step that is not done, and those steps.

    Its last stage with all its steps there where everything is done; Rough-in without steps where it has none.
    The board is never hung before the stage of that name, whatever a step says.
    """
    steps = steps_of(job, trade)
    if not steps:
        return _least(trade, "Rough-in"), ()
    open_steps = [step for step in steps if step.done is None]
    stages = [STAGES.index(step.stage) for step in open_steps or steps]
    stage = STAGES[min(stages) if open_steps else max(stages)]
    return _least(trade, stage), tuple(step for step in open_steps or steps if step.stage == stage)


def _least(trade: Trade, stage: Stage) -> Stage:
    least = COVERING.get(trade, STAGES[0])
    return STAGES[max(STAGES.index(stage), STAGES.index(least))]


def before_and_after(job: Job, trade: Trade) -> tuple[tuple[Contact, ...], tuple[Contact, ...]]:
    """The contacts whose steps this visit waits for, and those whose steps wait for it."""
    _, visit = visit_of(job, trade)
    mine = {step.tag for step in visit}
    waits_for = {tag for step in visit for tag in step.after}
    before = [step.who for tag, step in job.of(Step).items() if tag in waits_for - mine]
    after = [step.who for step in job.of(Step).values() if mine & set(step.after) and step.tag not in mine]
    own = {one.tag for one in job.of(Contact).values() if one.trade == trade}
    return _people(job, before, own), _people(job, after, own)


def _people(job: Job, tags: Sequence[str], own: set[str]) -> tuple[Contact, ...]:
    known = job.of(Contact)
    return tuple(known[tag] for tag in dict.fromkeys(tags) if tag in known and tag not in own)


def mine_and_others(job: Job, trade: Trade) -> tuple[frozenset[str], frozenset[str]]:
    """Tags of the trade's own contacts, and of the contacts before and after it."""
    before, after = before_and_after(job, trade)
    own = frozenset(one.tag for one in job.of(Contact).values() if one.trade == trade)
    return own, frozenset(one.tag for one in (*before, *after))
