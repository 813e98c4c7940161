"""What no action may do, whoever asks for it: keys, the command line, import, undo or another process.

Every action passes here on the newest state, under the lock, before anything is written. A passage is judged on what
is worked out anew, not on answers that were kept.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Protocol

from store.measure.counts import a_one, plural
from store.measure.errors import BadValue
from store.measure.money import decimals_of
from store.measure.text import capital, is_blank, is_junk, is_no_name, is_no_office, same_name
from store.records.base import Record
from store.records.field import fields_of
from store.records.gate import Answer, Check, Closing, Passage
from store.records.job import Settings
from store.records.people import Stage
from store.records.whole import KINDS, Job, references
from store.rules.core.checks import RoughIn, items, rough_in
from store.rules.core.findings import answer_missing, findings
from store.rules.core.headline import with_name, with_tags
from store.rules.core.memo import cold
from store.rules.core.proof import kinds_for, proof_missing, says_not_done, wanted
from store.rules.core.references import referring
from store.rules.core.taken_off import Listed, changed_list, reopened
from store.rules.core.wording import local, name_of
from store.rules.gate.claims import guard_claims, guard_signature
from store.rules.gate.days import guard_closing_days, guard_day
from store.rules.gate.gate import CLOSED, STAGES, locked_text, out_of_turn, standing
from store.rules.gate.held import Held, NeedsReason, held_text, told
from store.rules.gate.mock_up import AGREED, agreement

__all__ = ["Held", "NeedsReason", "Step", "guard", "guard_permit"]

ROUGH_IN: Stage = "Rough-in"
"""From this stage on work is done in the wall."""


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


def guard(
    before: Job, after: Job, steps: Sequence[Step], why: str = "", *, back: bool = False, said: Job | None = None
) -> Listed:
    """Refuse what must not be; gives what the action does to the list of rough-in items.

    `back` is true for undo and redo, which bring back what passed here before; `said` is the job before as its history
    has it, where a record that is acted on was edited outside of the program. Raises BadValue, Held or NeedsReason
    with a sentence that says what to do.
    """
    passed = [step for step in steps if step.kind == "passage" and step.after is not None]
    if len(steps) > len(passed) > 0 and _is_bare(before):
        # A whole job put into an empty one stands where it could have got to, like one that is made whole.
        guard_claims(after, "Nothing was saved.")
        steps = [step for step in steps if step not in passed]
    elif len(passed) > 1:
        raise Held("only one stage at a time. Move to the next stage first.")
    elif back and _is_bare(after):
        # And it is taken back whole: nothing is left that could stand at any stage.
        steps = [step for step in steps if step.kind != "passage"]
    for step in steps:
        record = after.tables.get(step.kind, {}).get(step.tag)
        if record is None:
            _guard_drop(before, after, step, why, back)
        else:
            _guard_record(after, record)
            _guard_put(before, after, step, record, back)
    if "job" not in before.tables:
        return Listed()  # a job that is made now has nothing to lose
    listed = _off_the_list(said or before, after, steps)
    if is_junk(why) and (asked := _what_reopens(before, after) + _what_leaves(listed)):
        raise NeedsReason("\n".join(asked))
    return listed


def _is_bare(job: Job) -> bool:
    """True for a job in which there is nothing yet but its own record."""
    return not any(table for kind, table in job.tables.items() if kind != Settings.kind)


def _is_covered(job: Job) -> bool:
    return any(each.stage == CLOSED for each in job.of(Passage).values())


def _what_reopens(before: Job, after: Job) -> list[str]:
    """What opens an item behind drywall is told before it is saved, and is done for a reason only."""
    opened = reopened(before, after) if _is_covered(before) and _is_covered(after) else []
    if not opened:
        return []
    lines = [f"{each.key}: {each.why_open}" for each in opened]
    return [
        told(f"This reopens {plural(len(opened), 'item')} behind drywall:", lines),
        "Write down why to go ahead.",
    ]


def _off_the_list(before: Job, after: Job, steps: Sequence[Step]) -> Listed:
    """What leaves the list of rough-in items, and what comes back: kept on record from the first work in the wall on,
    and before that what was signed off or written by hand."""
    listed = changed_list(before, after, steps)
    if not listed.off:
        return listed
    stage = STAGES.index(standing(before, []).stage)
    working = stage >= STAGES.index(ROUGH_IN) or _is_covered(before)
    closed = before.of(Closing)
    off = tuple(each for each in listed.off if working or each.key in closed or "/" not in each.key)
    return Listed(off, listed.on)


def _what_leaves(listed: Listed) -> list[str]:
    """Nothing leaves the list unseen: it takes a reason, signed off or not, before the wall is covered and after."""
    if not listed.off:
        return []
    head = f"This takes {plural(len(listed.off), 'rough-in item')} off the list:"
    lines = [f"{each.key}: {each.what}" for each in listed.off]
    return [told(head, lines), "Write down why to go ahead: nothing comes off the list without a reason."]


def _guard_record(job: Job, record: Record) -> None:
    """A record must have what it needs, and name only what exists."""

    def on(problem: str) -> str:
        return with_name(local(job, problem), record.tag, name_of(job, record.tag))

    titles = {}
    for field in fields_of(type(record)):
        titles[field.key] = field.title(job.manner)
        value = getattr(record, field.key)
        if field.says.must and (is_blank(value) if isinstance(value, str) else not value):
            raise BadValue(f"{on(f'“{titles[field.key]}” is blank')}. Fill it in.")
        if field.says.above_zero and field.is_nothing(value):
            raise BadValue(f"{on(f'“{titles[field.key]}” must be more than zero')}. Correct it.")
    for key, tag, kinds in references(record):
        named = job.get(tag)
        if named is None:
            raise BadValue(f"{on(f'no {tag} in this job, for “{titles[key]}”')}. Enter a tag that is there.")
        if kinds and named.kind not in kinds:
            kind = " or ".join(KINDS[kind].one for kind in kinds)
            raise BadValue(f"{on(f'{tag} is the wrong kind for “{titles[key]}”')}. Enter the tag of {a_one(kind)}.")
        if tag == record.tag:
            raise BadValue(f"{tag} can't be its own “{titles[key]}”. Enter another tag.")


def _guard_put(before: Job, after: Job, step: Step, record: Record, back: bool) -> None:
    if isinstance(record, Passage):
        _guard_passage(before, after, step, record)
    elif isinstance(record, Closing):
        _guard_closing(before, after, step, record, back)
    elif isinstance(record, Answer):
        _guard_answer(after, record, back)
    elif isinstance(record, Check):
        _guard_words(before, record, back)
    elif isinstance(record, Settings):
        guard_permit(step, record)
        if step.before is not None:
            _guard_currency(before, record)


def _guard_words(before: Job, check: Check, back: bool) -> None:
    """An item that said what is to be done goes on saying something: worded away it would be off the list unseen."""
    was = before.of(Check).get(check.tag)
    if was is not None and not back and is_junk(check.what) and not is_junk(was.what):
        raise BadValue(
            f"{check.tag} would not say what to do any more. It says “{was.what}”. Word the item in two words or more, "
            "or delete it with a reason."
        )


def _guard_currency(before: Job, settings: Settings) -> None:
    """Amounts are whole numbers of the smallest part: with another part, each would be another amount."""
    old = before.settings.currency
    if decimals_of(old) == decimals_of(settings.currency):
        return
    if any(_has_money(record) for record in before.each()):
        raise BadValue(
            f"amounts here have {decimals_of(old)} decimals, {settings.currency} has {decimals_of(settings.currency)}. "
            "Clear the amounts before you change the currency."
        )


def _has_money(record: Record) -> bool:
    return any(
        field.codec.name == "money" and getattr(record, field.key) is not None for field in fields_of(type(record))
    )


def _guard_answer(after: Job, answer: Answer, back: bool) -> None:
    """An answer is by somebody who may give it, on what is found now."""
    if back:
        return
    subject = answer.tag.partition(":")[2].replace(",", " ") or "this problem"
    guard_day(after, answer.date, f"can't accept {subject}")
    found = next((each for each in findings(after) if each.key == answer.tag), None)
    if found is None:
        raise BadValue(f"there is no such problem any more: {subject}. Look at the list of problems again.")
    if wrong := answer_missing(found, answer):
        raise BadValue(f"can't accept {subject}. {capital(wrong).removesuffix('.')}.")


def guard_permit(step: Step, settings: Settings) -> None:
    """That no permit is needed, an office says, by somebody's name."""
    was = step.before or {}
    asked = ("permit", "permit_by", "permit_office")
    if settings.permit != "not needed" or (step.before and all(was.get(k) == (step.after or {}).get(k) for k in asked)):
        return
    if is_no_name(settings.permit_by) or is_no_office(settings.permit_office):
        raise BadValue(
            "no name or office for a permit “not needed”. "
            "Ask the building department, and enter who said so and the office."
        )


def _guard_closing(before: Job, after: Job, step: Step, closing: Closing, back: bool) -> None:
    check = agreement(after) if closing.tag == AGREED else _check_of(after, closing.tag)
    if step.before is not None:
        _guard_sealed(before, after, closing.tag)
    if back:
        return
    if check is None:
        raise BadValue(f"there is no rough-in item {closing.tag}. Look at the list again: it has changed.")
    if not closing.proof:
        raise BadValue(f"can't sign off {closing.tag}: no kind of proof. Enter {wanted(kinds_for(check))}.")
    if wrong := proof_missing(check, closing) or says_not_done(closing):
        raise BadValue(f"can't sign off {closing.tag}. {capital(wrong).removesuffix('.')}.")
    guard_closing_days(after, closing)
    if closing.proof == "inspection" and same_name(closing.office, after.settings.owner):
        raise BadValue(f"can't sign off {closing.tag}. The owner can't inspect: enter the office, or who came from it.")


def _check_of(job: Job, key: str) -> RoughIn | None:
    return next((each for each in rough_in(job) if each.key == key), None)


def _guard_sealed(before: Job, after: Job, key: str) -> None:
    """A closing that a passage relies on stays, unless the check itself was opened again since."""
    for tag, passage in before.of(Passage).items():
        if (
            tag in after.of(Passage)
            and key in passage.checked
            and not any(each.key == key and each.open for each in items(before))
        ):
            raise Held(
                f"{key} stays signed off. The move to {passage.stage} relied on it: if it is wrong, add a new rough-in "
                "item, which locks the next stage."
            )


def _guard_passage(before: Job, after: Job, step: Step, passage: Passage) -> None:
    if step.before is not None:
        raise Held(f"the move to {passage.stage} can't be changed. It is on record: undo it, or go back a stage.")
    guard_signature(passage, after)
    if later := [each.stage for each in before.of(Passage).values() if each.date > passage.date]:
        raise Held(
            f"wrong date: before the move to {later[0]}. Correct the date on this computer. Nothing was changed."
        )
    now = standing(cold(before))
    if passage.stage != now.next:
        raise Held(out_of_turn(now, passage.stage))
    # What the same action closes or adds counts too: the holds are those of the state after it.
    there = standing(cold(_without(after, passage)))
    strict = [hold for hold in there.holds if hold.strict]
    if strict:
        raise Held(locked_text(passage.stage, strict))
    if there.holds and is_junk(passage.reason):
        lines = [hold.what for hold in there.holds]
        raise NeedsReason(held_text(passage.stage, lines) + "\nYou can move on with these open if you write down why.")
    if passage.stage == CLOSED and set(passage.checked) != {item.key for item in there.items}:
        raise Held("the list of rough-in items changed meanwhile. Look at it again.")


def _without(job: Job, passage: Passage) -> Job:
    """The job without a passage."""
    left = {tag: each for tag, each in job.of(Passage).items() if tag != passage.tag}
    return Job({**job.tables, "passage": left}, job.marks, job.outside, job.removed, job.today)


def _guard_drop(before: Job, after: Job, step: Step, why: str, back: bool) -> None:
    if step.kind == "passage":
        _guard_step_back(before, step, why, back)
        return
    if step.kind == "closing":
        _guard_sealed(before, after, step.tag)
        return
    if step.kind == "job":
        raise BadValue("the job's settings can't be deleted. Change them instead.")
    if step.kind == "check" and is_junk(why):
        what = before.of(Check)[step.tag].what
        raise NeedsReason(f"{with_name('no reason to delete a rough-in item', step.tag, what)}. Write down why.")
    if users := [each.tag for each in referring(after, step.tag)]:
        raise BadValue(
            f"{with_tags(f'{step.tag} is still in use', users)}. Change those first, or delete them together."
        )


def _guard_step_back(before: Job, step: Step, why: str, back: bool) -> None:
    """Only the last passage can be taken back: the wall is open again."""
    passage = before.of(Passage)[step.tag]
    now = standing(cold(before))
    reached = now.claimed or now.stage
    if STAGES.index(passage.stage) < STAGES.index(reached):
        raise Held(f"the move to {passage.stage} stays. The job is at {reached} by now: go back from there first.")
    if not back and is_junk(why):
        raise NeedsReason(f"no reason to go back from {passage.stage}. Write down why.")
