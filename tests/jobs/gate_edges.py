"""Jobs in memory at a stage, and what the guard says to an action upon them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import msgspec

from store.book.changes import Step
from store.measure.length import INCH_NM, Length
from store.records.base import Record, to_doc
from store.records.gate import Check, Closing, Passage
from store.records.whole import KINDS, Job, Outside
from store.rules.core.checks import close, rough_in
from store.rules.gate.gate import STAGES
from store.rules.gate.guard import guard
from tests.book.build import TODAY, settings
from tests.jobs.proofs import SEEN

TEN = Length(10 * INCH_NM)
WHY = "as agreed with the crew"


def job_in(*records: Record, marks: Mapping[str, int] | None = None, outside: Sequence[Outside] = ()) -> Job:
    """A job of these records in memory; without settings among them it has its usual ones."""
    tables: dict[str, dict[str, Record]] = {kind: {} for kind in KINDS}
    for each in (settings(), *records):
        tables[each.kind][each.tag] = each
    return Job(tables, dict(marks or {}), tuple(outside), (), TODAY)


def passed(*stages: str, by: str = "Ann", **given: Any) -> list[Passage]:
    """The passages to some stages."""
    whole = {"date": TODAY, "reason": WHY, **given}
    return [Passage(tag=f"P{STAGES.index(each)}", stage=each, by=by, **whole) for each in stages]  # type: ignore[arg-type]


def covered_by(*checked: str) -> list[Passage]:
    """The passages up to Drywall, the last of them relying on these items."""
    return [*passed(*TO_ROUGH_IN), *passed("Drywall", checked=checked)]


TO_ROUGH_IN = ("Design", "Mock-up", "Rough-in")
TO_DRYWALL = (*TO_ROUGH_IN, "Drywall")


def doing(before: Job, *records: Record, drops: Sequence[Record] = ()) -> tuple[Job, list[Step]]:
    """The job after some records are put and others dropped, with what that does."""
    after, steps = before, []
    for each in records:
        old = before.tables[each.kind].get(each.tag)
        steps.append(Step(each.kind, each.tag, to_doc(old) if old else None, to_doc(each)))
        after = after.having(each)
    for each in drops:
        steps.append(Step(each.kind, each.tag, to_doc(each), None))
        left = {tag: one for tag, one in after.tables[each.kind].items() if tag != each.tag}
        after = msgspec.structs.replace(after, tables={**after.tables, each.kind: left})
    return after, steps


def done(before: Job, *records: Record, drops: Sequence[Record] = (), why: str = "", back: bool = False) -> Any:
    """What the guard says to an action; it raises where it refuses."""
    after, steps = doing(before, *records, drops=drops)
    return guard(before, after, steps, why, back=back)


def closed(job: Job, key: str, **given: Any) -> Closing:
    """A sound closing of a hand-written item."""
    check = next(each for each in rough_in(job) if each.key == key)
    return msgspec.structs.replace(close(check, "Ann", TODAY, SEEN), **given)


ITEM = Check(tag="Q1", what="Blocks nailed")
