"""Changes: what an action does to records, in the form of the file, and how they meet the newest state."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

import msgspec

from store.book.errors import Clash, Conflict
from store.records.base import Record, to_doc
from store.records.whole import KINDS

Doc = dict[str, Any]


class Put(msgspec.Struct, frozen=True):
    """Set fields of a record; make it when `new`."""

    kind: str
    tag: str
    """Empty for a new record that takes the next free tag."""
    fields: Mapping[str, Any]
    """File form by key; None takes the field back to its default."""
    seen: Mapping[str, Any] = {}
    """What the same fields were when they were read."""
    new: bool = False


class Drop(msgspec.Struct, frozen=True):
    """Remove a record."""

    kind: str
    tag: str
    seen: Doc | None = None
    """The whole document when it was read; None does not care."""


class Restore(msgspec.Struct, frozen=True):
    """Put a whole record back to what it was, or away: what undo is made of."""

    kind: str
    tag: str
    doc: Doc | None
    seen: Doc | None


Change = Put | Drop | Restore


class Step(msgspec.Struct, frozen=True):
    """What a change did to one record: its document before and after (None: not there)."""

    kind: str
    tag: str
    before: Doc | None
    after: Doc | None


def add(record: Record, *, keep_tag: bool = False) -> Put:
    """The change that makes this record; its tag is given on saving unless `keep_tag`."""
    doc = to_doc(record)
    tag = doc.pop("tag")
    return Put(record.kind, tag if keep_tag else "", doc, new=True)


def edit(old: Record, new: Record) -> Put:
    """The change from one version of a record to another: only the fields that differ."""
    before, after = to_doc(old), to_doc(new)
    differing = [key for key in {**before, **after} if before.get(key) != after.get(key)]
    return Put(
        old.kind,
        old.tag,
        {key: after.get(key) for key in differing},
        {key: before.get(key) for key in differing},
    )


def drop(record: Record) -> Drop:
    """The change that removes this record, if it is still what it was."""
    return Drop(record.kind, record.tag, to_doc(record))


class Ledger:
    """The documents of a job while an action's changes are worked out on the newest state."""

    def __init__(self, docs: Mapping[str, Mapping[str, Doc]], serials: Mapping[str, int]) -> None:
        self._docs = docs
        self._changed: dict[tuple[str, str], Doc | None] = {}
        self.serials = dict(serials)
        """Last number given, by kind; numbers are never given again."""

    def now(self, kind: str, tag: str) -> Doc | None:
        """The newest document of a tag, within this action."""
        if (kind, tag) in self._changed:
            return self._changed[kind, tag]
        return self._docs.get(kind, {}).get(tag)

    def apply(self, changes: Iterable[Change]) -> list[Step]:
        """Apply changes in order. Raises Conflict, with every field that clashes."""
        steps: list[Step] = []
        clashes: list[Clash] = []
        for change in changes:
            step = self._apply(change, clashes)
            if step is not None and step.before != step.after:
                self._changed[step.kind, step.tag] = step.after
                steps.append(step)
        if clashes:
            names = ", ".join(sorted({f"{each.tag} {each.field}" for each in clashes}))
            raise Conflict(f"changed by somebody else meanwhile: {names}. Nothing was saved.", tuple(clashes))
        return _merged(steps)

    def _apply(self, change: Change, clashes: list[Clash]) -> Step | None:
        if isinstance(change, Put):
            if change.new:
                return self._make(change)
            return self._set(change, clashes)
        before = self.now(change.kind, change.tag)
        if isinstance(change, Drop):
            if before is None or (change.seen is not None and before != change.seen):
                raise Conflict(f"{change.tag} was changed or removed by somebody else meanwhile. Nothing was removed.")
            return Step(change.kind, change.tag, before, None)
        if before != change.seen:
            raise Conflict(f"{change.tag} was changed since; take back that later change first.")
        return Step(change.kind, change.tag, before, change.doc)

    def _make(self, change: Put) -> Step:
        tag = change.tag or self._next_tag(change.kind)
        if self.now(change.kind, tag) is not None:
            raise Conflict(f"{tag} is there already: somebody else made it meanwhile. Nothing was saved.")
        letter = KINDS[change.kind].letter
        if letter and tag[1:].isdigit():
            self.serials[change.kind] = max(self.serials.get(change.kind, 0), int(tag[1:]))
        after = {"tag": tag, **{key: value for key, value in change.fields.items() if value is not None}}
        return Step(change.kind, tag, None, after)

    def _next_tag(self, kind: str) -> str:
        self.serials[kind] = self.serials.get(kind, 0) + 1
        return f"{KINDS[kind].letter}{self.serials[kind]}"

    def _set(self, change: Put, clashes: list[Clash]) -> Step | None:
        before = self.now(change.kind, change.tag)
        if before is None:
            raise Conflict(f"{change.tag} was removed by somebody else meanwhile. Nothing was saved.")
        for key, mine in change.fields.items():
            now = before.get(key)
            if key in change.seen and now != change.seen[key] and now != mine:
                clashes.append(Clash(change.kind, change.tag, key, change.seen[key], now, mine))
        merged = {**before, **change.fields}
        return Step(change.kind, change.tag, before, {key: value for key, value in merged.items() if value is not None})


def _merged(steps: list[Step]) -> list[Step]:
    """One step a record: the first `before`, the last `after`."""
    merged: dict[tuple[str, str], Step] = {}
    for step in steps:
        first = merged.get((step.kind, step.tag), step)
        merged[step.kind, step.tag] = Step(step.kind, step.tag, first.before, step.after)
    return [step for step in merged.values() if step.before != step.after]
