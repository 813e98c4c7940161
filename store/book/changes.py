"""Changes: what an action does to records, in the form of the file, and how they meet the newest state."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from typing import Any

import msgspec

from store.book.errors import Clash, Conflict
from store.measure.counts import a_one
from store.measure.errors import BadValue, quoted
from store.measure.text import clean
from store.records.base import Record, from_doc, to_doc
from store.records.whole import KINDS, Job, serial_of

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
    """The change from one version of a record to another: only the fields whose values differ."""
    before, after = to_doc(old), to_doc(new)
    # By value: `72 in` typed again as `1828.8 mm` is no change, and a default may stand in the one document only.
    differing = [key for key in {**before, **after} if getattr(old, key) != getattr(new, key)]
    return Put(
        old.kind,
        old.tag,
        {key: after.get(key) for key in differing},
        {key: before.get(key) for key in differing},
    )


def set_down(job: Job, record: Record) -> Put:
    """The change that writes a record under its own key (a closing, an answer), over the one that is there, if any."""
    old = job.tables.get(record.kind, {}).get(record.tag)
    return edit(old, record) if old is not None else add(record, keep_tag=True)


def drop(record: Record) -> Drop:
    """The change that removes this record, if it is still what it was."""
    return Drop(record.kind, record.tag, to_doc(record))


class Ledger:
    """The documents of a job while an action's changes are calculated on the newest state."""

    def __init__(
        self,
        docs: Mapping[str, Mapping[str, Doc]],
        serials: Mapping[str, int],
        given: Collection[tuple[str, str]] = (),
    ) -> None:
        self._docs = docs
        self._given = given
        """Every kind and tag that was ever given, also those that are gone."""
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
            tags = " ".join(sorted({each.tag for each in clashes})[:6])
            raise Conflict(
                f"someone else changed {tags} meanwhile. Nothing was saved. Open it again: {names}.", tuple(clashes)
            )
        return _merged(steps)

    def _apply(self, change: Change, clashes: list[Clash]) -> Step | None:
        if isinstance(change, Put):
            if change.new:
                return self._make(change)
            return self._set(change, clashes)
        before = self.now(change.kind, change.tag)
        if isinstance(change, Drop):
            if before is None or (change.seen is not None and not _same(change.kind, before, change.seen)):
                raise Conflict(
                    f"someone else changed or deleted {change.tag} meanwhile. Nothing was deleted. Look at it again."
                )
            return Step(change.kind, change.tag, before, None)
        if before != change.seen:
            raise Conflict(f"{change.tag} was changed since. Undo that later change first.")
        return Step(change.kind, change.tag, before, change.doc)

    def _make(self, change: Put) -> Step:
        cls = KINDS[change.kind]
        tag = change.tag or (self._next_tag(change.kind) if cls.letter else "")
        if self.now(change.kind, tag) is not None:
            raise Conflict(f"someone else added {tag} meanwhile. Nothing was saved. Try again.")
        if cls.letter:
            self._number(change.kind, tag)
        elif not tag or (change.kind == "job" and tag != "job"):
            raise BadValue(f"wrong tag for {cls.one}: {quoted(tag)}. Leave it as it was exported.")
        return Step(change.kind, tag, None, _with({"tag": tag}, change.fields))

    def _number(self, kind: str, tag: str) -> None:
        """Take the number of a tag that is given now. Raises BadValue when it is none, or was given before."""
        serial = serial_of(kind, tag)
        if not serial:
            raise BadValue(
                f"{quoted(clean(tag))} is not the tag of {a_one(KINDS[kind].one)}. Write {KINDS[kind].letter}1."
            )
        if (kind, tag) in self._given:
            raise BadValue(f"{tag} was used before. A tag is never used twice: leave it blank for the next one.")
        self.serials[kind] = max(self.serials.get(kind, 0), serial)

    def _next_tag(self, kind: str) -> str:
        while True:
            self.serials[kind] = self.serials.get(kind, 0) + 1
            tag = f"{KINDS[kind].letter}{self.serials[kind]}"
            # A tag that only a hand wrote into the file is in no counter, and is not given either.
            if (kind, tag) not in self._given and self.now(kind, tag) is None:
                return tag

    def _set(self, change: Put, clashes: list[Clash]) -> Step | None:
        before = self.now(change.kind, change.tag)
        if before is None:
            raise Conflict(
                f"someone else deleted {change.tag} meanwhile. Nothing was saved. Undo that, or add it anew."
            )
        for key, mine in change.fields.items():
            now = before.get(key)
            if key not in change.seen or now == mine or now == change.seen[key]:
                continue
            # The file may write the same value otherwise: `75.5 in`, or a default that need not be there.
            if not _same(change.kind, before, _with(before, {key: change.seen[key]})):
                clashes.append(Clash(change.kind, change.tag, key, change.seen[key], now, mine))
        return Step(change.kind, change.tag, before, _with(before, change.fields))


def _with(doc: Mapping[str, Any], fields: Mapping[str, Any]) -> Doc:
    """A document with fields set, and those set to None left out. Raises BadValue for another tag."""
    if fields.get("tag", doc.get("tag")) != doc.get("tag"):
        raise BadValue(
            f"the tag {doc.get('tag')} can't be changed. It is on the wall: delete the record and add another."
        )
    merged = {**doc, **{key: _clean(value) for key, value in fields.items()}}
    return {key: value for key, value in merged.items() if value is not None}


def _clean(value: Any) -> Any:
    """Text without control characters, whoever hands it in; line breaks stay."""
    if isinstance(value, str):
        return clean(value, lines=True)
    if isinstance(value, Mapping):
        return {_clean(key): _clean(each) for key, each in value.items()}
    return [_clean(each) for each in value] if isinstance(value, list | tuple) else value


def _same(kind: str, one: Doc, other: Doc) -> bool:
    """True when two documents say the same, be it in other words."""
    if one == other:
        return True
    try:
        return from_doc(one, KINDS[kind]) == from_doc(other, KINDS[kind])
    except BadValue:
        return False


def _merged(steps: list[Step]) -> list[Step]:
    """One step a record: the first `before`, the last `after`."""
    merged: dict[tuple[str, str], Step] = {}
    for step in steps:
        first = merged.get((step.kind, step.tag), step)
        merged[step.kind, step.tag] = Step(step.kind, step.tag, first.before, step.after)
    return [step for step in merged.values() if step.before != step.after]
