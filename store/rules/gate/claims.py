"""Stages that a job claims which is made whole at once: only those that it could have got to step by step."""

from __future__ import annotations

import msgspec

from store.measure.errors import BadValue
from store.measure.text import capital, is_junk, is_no_name
from store.records.gate import Passage
from store.records.whole import Job
from store.rules.core.memo import cold
from store.rules.core.wording import date_text
from store.rules.gate.gate import CLOSED, STAGES, locked_text, standing
from store.rules.gate.held import Held, held_text


def guard_signature(passage: Passage, job: Job) -> None:
    """A passage is signed by somebody, on a day that has come."""
    if is_no_name(passage.by):
        raise BadValue("no name for the move. Enter who moves the job on.")
    if passage.date > job.today:
        raise BadValue(
            f"can't move to {passage.stage}: {date_text(job, passage.date)} is still to come. Enter today or earlier."
        )


def guard_claims(job: Job, nothing_done: str = "No file was made.") -> None:
    """A job that is made whole at once stands only where it could have got to step by step. Raises BadValue, Held."""
    passed: dict[str, Passage] = {}
    for each in job.of(Passage).values():
        if each.stage in passed:
            raise Held(f"{each.stage} is recorded twice. Leave one of the two. {nothing_done}")
        guard_signature(each, job)
        passed[each.stage] = each
    there = standing(cold(job), [])
    if there.claimed:
        raise Held(f"{there.claimed} is recorded, not earned. {capital(there.unearned)}. {nothing_done}")
    earlier: dict[str, Passage] = {}
    for stage in STAGES[1 : STAGES.index(there.stage) + 1]:
        _guard_claim(job, passed[stage], earlier, nothing_done)
        earlier[passed[stage].tag] = passed[stage]


def _guard_claim(job: Job, passage: Passage, earlier: dict[str, Passage], nothing_done: str) -> None:
    """One passage of a job that is made whole at once, with the passages before it."""
    if any(each.date > passage.date for each in earlier.values()):
        raise BadValue(f"{passage.stage} is dated before the stage before it. Correct the dates. {nothing_done}")
    then = standing(cold(msgspec.structs.replace(job, tables={**job.tables, "passage": dict(earlier)})))
    lines = [hold.what for hold in then.holds]
    if any(hold.strict for hold in then.holds):
        raise Held(f"{passage.stage} is recorded, not earned. {locked_text(passage.stage, then.holds)}\n{nothing_done}")
    if lines and is_junk(passage.reason):
        raise Held(
            f"{passage.stage} is recorded without a reason. {held_text(passage.stage, lines)}\n"
            f"You can move on with these open if you write down why. {nothing_done}"
        )
    if passage.stage == CLOSED and set(passage.checked) != {item.key for item in then.items}:
        raise Held(f"{CLOSED} is recorded with another list of items. Move to it in the program. {nothing_done}")
