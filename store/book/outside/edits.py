"""What in a record was not done by the program: which fields, and which action would make an edit its own unseen."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

import msgspec

from store.book.changes import Doc, Step
from store.measure.errors import BadValue
from store.records.base import Record, from_doc
from store.records.whole import KINDS, Job, Outside
from store.rules.gate.held import Held

Words = Mapping[tuple[str, str], Doc | None]


def outside_of(kind: str, tag: str, said: Doc | None, doc: Doc | None) -> Outside:
    """What differs between a record and what the history says of it."""
    if said is None or doc is None:
        return Outside(kind, tag, "added" if said is None else "vanished")
    return Outside(kind, tag, "changed", tuple(key for key in {**said, **doc} if said.get(key) != doc.get(key)))


def refuse_laundering(words: Words, steps: Iterable[Step]) -> None:
    """Raises Held where an action would write over what was changed outside of the program."""
    if fields := [f"{tag} {key}" for tag, key in laundered(words, steps)]:
        raise Held(
            f"changed outside of Studbook: {fields[0]}{f' +{len(fields) - 1}' if fields[1:] else ''}. Keep or restore "
            "that first (g = gate). Nothing was changed."
        )


def as_said(job: Job, words: Words, steps: Iterable[Step]) -> Job | None:
    """The job with the records as the history has them of which an action puts back what was edited outside; None where
    it does no such thing."""
    edited = [step for step in steps if _puts_back(words.get((step.kind, step.tag)), step)]
    for step in edited:
        job = with_word(job, step.kind, step.tag, words.get((step.kind, step.tag)))
    return job if edited else None


def _puts_back(said: Doc | None, step: Step) -> bool:
    if said is None or step.before is None or step.after is None or said == step.before:
        return False
    before, after = step.before, step.after
    return any(before.get(key) != said.get(key) and before.get(key) != after.get(key) for key in {**said, **before})


def with_word(job: Job, kind: str, tag: str, said: Doc | None) -> Job:
    """The job with one record as the history has it."""
    table: dict[str, Record] = dict(job.tables.get(kind, {}))
    table.pop(tag, None)
    if said is not None:
        table[tag] = from_doc(said, KINDS[kind])
    return msgspec.structs.replace(job, tables={**job.tables, kind: table})


def laundered(words: Words, steps: Iterable[Step]) -> Iterator[tuple[str, str]]:
    """The fields that an action would write over although they were changed outside of the program: tag and field.

    To put one back to what the history says of it is no such thing, nor is what says the same in other words.
    """
    for step in steps:
        said = words.get((step.kind, step.tag))
        if said is None or step.before is None or said == step.before:
            continue
        after = step.after or {}
        for key in {**said, **step.before, **after}:
            was, now, word = step.before.get(key), after.get(key), said.get(key)
            over = was != now and now != word if step.after is not None else True  # to delete it writes over all of it
            if was != word and over and not _means(step.kind, said, key, was):
                yield step.tag, key


def _means(kind: str, said: Doc, key: str, value: Any) -> bool:
    """True where a value written otherwise says the same as the history's word: `406.4 mm` for `16 in`."""
    cls = KINDS[kind]
    try:
        other = {name: each for name, each in {**said, key: value}.items() if each is not None}
        return from_doc(said, cls) == from_doc(other, cls)
    except BadValue:
        return False
