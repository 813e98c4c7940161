"""What no action may do, whoever asks for it: keys, the command line, import, undo or another process.

Every action passes here on the newest state, under the lock, before anything is written. A passage is judged on what
is worked out anew, not on answers that were kept.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta
from typing import Any, Protocol

from store.measure.errors import BadValue, StudbookError
from store.measure.money import decimals_of
from store.measure.text import is_blank
from store.records.base import Record
from store.records.field import fields_of
from store.records.gate import Answer, Check, Closing, Passage
from store.records.job import Settings
from store.records.whole import KINDS, Job, references
from store.rules.core.checks import items, rough_in, what_is_missing
from store.rules.core.memo import cold
from store.rules.core.references import referring
from store.rules.gate.gate import CLOSED, STAGES, standing
from store.rules.gate.mock_up import AGREED


class Held(StudbookError):
    """The gate holds; nothing was changed."""

    exit_status = 3


class NeedsReason(Held):
    """It may be done, but only with a written reason."""


class Step(Protocol):
    """What an action does to one record."""

    @property
    def kind(self) -> str:
        """Its table."""

    @property
    def tag(self) -> str:
        """Its tag."""

    @property
    def before(self) -> dict[str, Any] | None:
        """The document before; None when it was not there."""

    @property
    def after(self) -> dict[str, Any] | None:
        """The document after; None when it is gone."""


def guard(before: Job, after: Job, steps: Sequence[Step], why: str = "", *, undo: bool = False) -> None:
    """Refuse what must not be. Raises BadValue, Held or NeedsReason with a sentence that says what to do."""
    passed = [step for step in steps if step.kind == "passage" and step.after is not None]
    if len(steps) > len(passed) > 0 and _is_bare(before):
        # A whole job put into an empty one stands where it could have got to, like one that is made whole.
        _guard_whole(after, passed)
        steps = [step for step in steps if step not in passed]
    elif len(passed) > 1:
        raise Held("one stage is passed at a time")
    elif undo and _is_bare(after):
        # And it is taken back whole: nothing is left that could stand at any stage.
        steps = [step for step in steps if step.kind != "passage"]
    for step in steps:
        record = after.tables.get(step.kind, {}).get(step.tag)
        if record is None:
            _guard_drop(before, after, step, why, undo)
        else:
            _guard_record(after, record)
            _guard_put(before, after, step, record, why, undo)


def _is_bare(job: Job) -> bool:
    """True for a job in which there is nothing yet but its own record."""
    return not any(table for kind, table in job.tables.items() if kind != Settings.kind)


def _guard_whole(after: Job, passed: Sequence[Step]) -> None:
    """Passages that come with everything else. Raises BadValue or Held."""
    for step in passed:
        each = after.of(Passage)[step.tag]
        if is_blank(each.by) or each.date > after.today + timedelta(days=1):
            raise BadValue(f"{each.stage} cannot be passed by nobody, or on a day that has not come")
    guard_claims(after, "Nothing was saved.")


def _guard_record(job: Job, record: Record) -> None:
    """A record must have what it needs, and name only what exists."""
    name = f"{record.one} {record.tag}"
    for field in fields_of(type(record)):
        value = getattr(record, field.key)
        if field.says.must and (is_blank(value) if isinstance(value, str) else not value):
            raise BadValue(f"{name}: {field.says.title} is needed")
        if field.says.above_zero and field.is_nothing(value):
            raise BadValue(f"{name}: {field.says.title} must be more than zero")
    for key, tag, kinds in references(record):
        named = job.get(tag)
        if named is None:
            raise BadValue(f"{name}: {key} names {tag}, and there is no {tag}")
        if kinds and named.kind not in kinds:
            wanted = " or ".join(KINDS[kind].one for kind in kinds)
            raise BadValue(f"{name}: {key} names {tag}, which is not a {wanted}")
        if tag == record.tag:
            raise BadValue(f"{name}: {key} names {tag} itself")


def _guard_put(before: Job, after: Job, step: Step, record: Record, why: str, undo: bool) -> None:
    if isinstance(record, Passage):
        _guard_passage(before, after, step, record)
    elif isinstance(record, Closing):
        _guard_closing(before, after, step, record)
    elif isinstance(record, Answer) and record.date > after.today + timedelta(days=1):
        raise BadValue(f"{record.tag} cannot be answered on a day that has not come")
    elif isinstance(record, Settings) and step.before is not None:
        _guard_currency(before, record)


def _guard_currency(before: Job, settings: Settings) -> None:
    """Amounts are whole numbers of the smallest part: with another part, each would be another amount."""
    old = before.settings.currency
    if decimals_of(old) == decimals_of(settings.currency):
        return
    if any(_has_money(record) for record in before.each()):
        raise BadValue(
            f"amounts of this job are kept with {decimals_of(old)} decimals, and {settings.currency} has "
            f"{decimals_of(settings.currency)}: clear them before the currency is changed"
        )


def _has_money(record: Record) -> bool:
    return any(
        field.codec.name == "money" and getattr(record, field.key) is not None for field in fields_of(type(record))
    )


def _guard_closing(before: Job, after: Job, step: Step, closing: Closing) -> None:
    if wrong := what_is_missing(closing):
        raise BadValue(f"{closing.tag} cannot be closed: {wrong}")
    if closing.date > after.today + timedelta(days=1):
        raise BadValue(f"{closing.tag} cannot be closed on a day that has not come")
    if step.before is not None:
        _guard_sealed(before, after, closing.tag)
    if closing.tag != AGREED and all(check.key != closing.tag for check in rough_in(after)):
        raise BadValue(f"there is no check {closing.tag} to close")


def _guard_sealed(before: Job, after: Job, key: str) -> None:
    """A closing that a passage relies on stays, unless the check itself was opened again since."""
    for tag, passage in before.of(Passage).items():
        if (
            tag in after.of(Passage)
            and key in passage.checked
            and not any(each.key == key and each.open for each in items(before))
        ):
            raise Held(
                f"{key} was closed when {passage.stage} was passed, so its closing stays. "
                f"If it is not so, write a new rough-in item: it will hold the next stage."
            )


def _guard_passage(before: Job, after: Job, step: Step, passage: Passage) -> None:
    if step.before is not None:
        raise Held(f"the passage to {passage.stage} is on record and is not rewritten")
    if is_blank(passage.by):
        raise BadValue("a passage needs the name of who passes")
    if passage.date > after.today + timedelta(days=1):
        raise BadValue(f"{passage.stage} cannot be passed on a day that has not come")
    now = standing(cold(before))
    if passage.stage != now.next:
        raise Held(f"the job is at {now.stage}; the stage that follows is {now.next or 'none'}, not {passage.stage}")
    # What the same action closes or adds counts too: the holds are those of the state after it.
    there = standing(cold(_without(after, passage)))
    strict = [hold for hold in there.holds if hold.strict]
    if strict:
        raise Held(held_text(passage.stage, [f"{hold.key}: {hold.what}" for hold in strict]))
    if there.holds and is_blank(passage.reason):
        lines = [f"{hold.key}: {hold.what}" for hold in there.holds]
        raise NeedsReason(held_text(passage.stage, lines) + "\nIt may be passed with a written reason.")
    if passage.stage == CLOSED and set(passage.checked) != {item.key for item in there.items}:
        raise Held("the list of checks changed meanwhile; look at it again")


def _without(job: Job, passage: Passage) -> Job:
    """The job without a passage."""
    left = {tag: each for tag, each in job.of(Passage).items() if tag != passage.tag}
    return Job({**job.tables, "passage": left}, job.marks, job.outside, job.removed, job.today)


def guard_claims(job: Job, nothing_done: str = "No file was made.") -> None:
    """A job that is made whole at once stands only where it could have got to step by step. Raises Held."""
    there = standing(cold(job))
    if there.claimed:
        raise Held(f"{there.claimed} is claimed and not earned: {there.unearned}. {nothing_done}")
    at = STAGES.index(CLOSED)
    if STAGES.index(there.stage) >= at:
        early = {tag: each for tag, each in job.of(Passage).items() if STAGES.index(each.stage) < at}
        open_wall = Job({**job.tables, "passage": early}, job.marks, job.outside, job.removed, job.today)
        if strict := [f"{hold.key}: {hold.what}" for hold in standing(cold(open_wall)).holds if hold.strict]:
            raise Held(f"{there.stage} is claimed and not earned. {held_text(CLOSED, strict)}\n{nothing_done}")


def held_text(stage: str, lines: Sequence[str], most: int = 20) -> str:
    """What holds a stage, one line each, the first of many."""
    more = [f"  ... and {len(lines) - most} more"] if len(lines) > most else []
    return "\n".join([f"{stage} is held by {len(lines)}:", *(f"  {line}" for line in lines[:most]), *more])


def _guard_drop(before: Job, after: Job, step: Step, why: str, undo: bool) -> None:
    if step.kind == "passage":
        _guard_step_back(before, step, why, undo)
        return
    if step.kind == "closing":
        _guard_sealed(before, after, step.tag)
        return
    if step.kind == "job":
        raise BadValue("the job's own record stays")
    if step.kind == "check" and is_blank(why):
        what = before.of(Check)[step.tag].what
        raise NeedsReason(f"{step.tag} ({what}) is a rough-in item: it is removed only with a reason")
    if users := [each.tag for each in referring(after, step.tag)]:
        raise BadValue(f"{step.tag} is named by {', '.join(users[:8])}: change those first, or clear them together")


def _guard_step_back(before: Job, step: Step, why: str, undo: bool) -> None:
    """Only the last passage can be taken back: the wall is open again."""
    passage = before.of(Passage)[step.tag]
    now = standing(cold(before))
    reached = now.claimed or now.stage
    if STAGES.index(passage.stage) < STAGES.index(reached):
        raise Held(f"{reached} was reached since; the passage to {passage.stage} stays")
    if not undo and is_blank(why):
        raise NeedsReason(f"going back from {passage.stage} needs a reason")
