"""Taking over what was edited outside of the program: by a person, field by field, on record."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from store.book.book import Book
from store.book.changes import Doc, Step
from store.book.outside.edits import with_word
from store.book.taken import GATE_KINDS, Taken
from store.book.writing import Noted
from store.measure.errors import BadValue
from store.measure.text import is_junk, is_no_name
from store.records.base import from_doc
from store.records.job import Settings
from store.records.whole import KINDS, Job, Outside
from store.rules.core.taken_off import changed_list
from store.rules.gate.guard import Held, guard_permit

Words = Mapping[tuple[str, str], Doc | None]


def confirm(book: Book, outside: Outside, fields: Sequence[str], by: str, why: str) -> None:
    """Take over an edit that was made outside of the program: who changed it, and why; field by field.

    `fields` are those of a changed record that are taken over; of one that was added or is gone all is. What the gate
    stands on is not taken over: that is put back, and done in the program. Raises BadValue or Held.
    """

    def work_out(taken: Taken, job: Job) -> Noted:
        step = _confirmed(job, taken.words, taken.docs, outside, fields, by, why)
        # What goes with it goes by the plan as the history has it: other edits may have hidden items already.
        before = _as_history_has_it(job, taken.words)
        after = with_word(before, step.kind, step.tag, step.after)
        off = [(each.key, each.what) for each in changed_list(before, after, []).off]
        what = f"Kept an outside edit of {step.tag}"
        return Noted("confirm", what, f"changed outside by {by}: {why}", [step], more={"off": off})

    book.note(work_out)


def _confirmed(
    job: Job,
    words: Words,
    docs: Mapping[str, Mapping[str, Doc]],
    outside: Outside,
    fields: Sequence[str],
    by: str,
    why: str,
) -> Step:
    """What the history is to say of a record from now on.

    Raises BadValue where it is not told who and why, or nothing was changed there; Held for what the gate stands on.
    """
    kind, tag = outside.kind, outside.tag
    now = next((each for each in job.outside if (each.kind, each.tag) == (kind, tag)), None)
    if now is None or kind not in KINDS:
        raise BadValue(f"nothing in {tag} was changed outside of Studbook. Look at the list again.")
    if kind in GATE_KINDS:
        raise Held(
            f"can't keep {tag}, {now.done} outside of Studbook. The gate depends on it: restore it, and make "
            "the change in Studbook."
        )
    if is_no_name(by) or is_junk(why):
        raise BadValue(f"no name or reason for keeping {tag}. Enter who changed it, and why.")
    said, doc = words.get((kind, tag)), docs.get(kind, {}).get(tag)
    if now.what != "changed" or said is None or doc is None:
        word = doc
    else:
        if unknown := [each for each in fields if each not in now.fields]:
            raise BadValue(
                f"not changed outside of Studbook: {tag} {' '.join(unknown)}. Enter one of: {', '.join(now.fields)}."
            )
        if not fields:
            raise BadValue(f"no fields to keep, {tag}. Enter one or more of: {', '.join(now.fields)}.")
        merged = {**said, **{key: doc.get(key) for key in fields}}
        word = {key: value for key, value in merged.items() if value is not None}
    if word is not None and kind == Settings.kind:
        guard_permit(Step(kind, tag, said, word), from_doc(word, Settings))
    return Step(kind, tag, said, word)


def _as_history_has_it(job: Job, words: Words) -> Job:
    """The job without any edit that was made outside of the program."""
    for each in job.outside:
        if each.kind in KINDS and each.kind not in GATE_KINDS:
            job = with_word(job, each.kind, each.tag, words.get((each.kind, each.tag)))
    return job
