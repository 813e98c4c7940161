"""Rough-in checks: what must be done and seen before the wall is covered, and whether it has been.

Some are written by hand (`Q4`), others follow from the plan (`K3/tested`). Only a closing is ever stored. A closing
vouches for what was true of its subject; when that changes, the check is open again.
"""

from __future__ import annotations

from collections.abc import Callable, Container, Iterable, Iterator
from datetime import date
from itertools import chain
from typing import Generic, Literal, TypeVar

import msgspec

from store.measure.changed import changed_words
from store.measure.dates import show_date
from store.measure.kept import same_kept
from store.measure.length import Length, to_file
from store.records.base import Record
from store.records.gate import Check, Closing, Proof
from store.records.whole import Job
from store.rules.core.keyed import Each, FromEach
from store.rules.core.memo import once, put_together
from store.rules.core.proof import BEFORE, inspection_in, kind_meant, proof_missing
from store.rules.core.registry import CHECKS, Register
from store.rules.core.tested import Test

PICTURE = "picture"
"""The kind under which `job.outside` lists a picture that a closing rests on and that is gone or was changed."""


class RoughIn(msgspec.Struct, frozen=True):
    """One thing to be done and seen."""

    key: str
    """Stable name: the tag of a hand-written item, or `tag/aspect` of one that follows from the plan."""
    what: str
    trade: str
    where: str
    wants: str
    """The evidence asked for, in words."""
    tags: tuple[str, ...]
    """Records that it is about. What opens it again is told by `vouches` alone."""
    vouches: dict[str, str]
    """What a closing of it vouches for: by content, everything that it was made from."""
    proof: Proof = ""
    """The kind of proof that somebody picked for it; see `core.proof.kinds_for`."""
    test: Test | None = None
    """What a test of it is judged against, where that is known."""
    more: str = ""
    """What belongs to it beside its headline `what`: sizes, limits, loads."""

    @property
    def full(self) -> str:
        """The headline and what belongs to it."""
        return f"{self.what}. {self.more}" if self.more else self.what


class Item(msgspec.Struct, frozen=True):
    """A check with how it stands."""

    check: RoughIn
    closing: Closing | None
    why_open: str
    """Empty when it is closed."""

    @property
    def open(self) -> bool:
        """True while it holds the gate."""
        return bool(self.why_open)

    @property
    def key(self) -> str:
        """The check's key."""
        return self.check.key


Source = Callable[[Job], Iterable[RoughIn]]


_SOURCES: Register[Source] = Register(CHECKS)


S = TypeVar("S", bound=Source)
T = TypeVar("T")


def checks_of(function: S) -> S:
    """Mark a function that yields checks; one that follows from the plan stands in a module named `..._checks`."""
    _SOURCES.add(function)
    return function


@checks_of
def hand_written(job: Job) -> Iterable[RoughIn]:
    """The checks that somebody wrote on the list."""
    for tag, one in job.of(Check).items():
        about = (one.about_tag,) if one.about_tag else ()
        vouches = {"what": one.what, "where": one.where, "evidence wanted": one.wants, "belongs to": one.about_tag}
        if one.proof:
            vouches["kind of proof"] = one.proof
        yield RoughIn(tag, one.what, one.trade, one.where, one.wants, (tag, *about), vouches, one.proof)


@put_together
def rough_in(job: Job) -> list[RoughIn]:
    """Every rough-in check of the job."""
    return list(chain.from_iterable(_listed_by(job, number) for number in range(len(_SOURCES.all()))))


@put_together
def _listed_by(job: Job, number: int) -> tuple[RoughIn, ...]:
    """The checks of one source."""
    return tuple(_SOURCES.all()[number](job))


class OfItems(Generic[T]):
    """What a function says of each item of the list, where it says anything; of those that changed it is asked again.

    A closing, or a change of the plan, bears on few items: all that is told of items goes by the record that they are
    of.
    """

    def __init__(self, function: Callable[[Item], T | None]) -> None:
        self._function = function
        self._parts: list[Callable[[Job], Iterable[tuple[T, ...]]]] = []
        self._whole = put_together(self._joined)

    def __call__(self, job: Job) -> list[T]:
        """All of it, in the order of the list."""
        return self._whole(job)

    def _joined(self, job: Job) -> list[T]:
        if not self._parts:
            self._parts = [part for source in _SOURCES.all() for part in self._parts_of(source)]
        return list(chain.from_iterable(chain.from_iterable(part(job) for part in self._parts)))

    def _parts_of(self, source: Source) -> Iterator[Callable[[Job], Iterable[tuple[T, ...]]]]:
        if isinstance(source, FromEach):
            yield from (self._of_records(cls, each) for cls, each in zip(source.kinds, source.by_kind, strict=True))
        else:
            whole = once(lambda job: self._told(job, source(job)))
            yield lambda job: (whole(job),)

    def _of_records(
        self, cls: type[Record], listed: Each[Record, tuple[RoughIn, ...]]
    ) -> Callable[[Job], Iterable[tuple[T, ...]]]:
        each = Each(cls, lambda job, record: self._told(job, listed.one(job, record.tag) or ()) or None)
        return lambda job: each.whole(job).values()

    def _told(self, job: Job, checks: Iterable[RoughIn]) -> tuple[T, ...]:
        told = (self._function(_standing(job, check)) for check in checks)
        return tuple(each for each in told if each is not None)


def _standing(job: Job, check: RoughIn) -> Item:
    """A check with how it stands."""
    closing = job.of(Closing).get(check.key)
    forged = closing is not None and check.key in _forged(job)
    return _item(check, closing, forged, _lost(job), job.settings.metric)


items = OfItems(lambda item: item)
"""Every rough-in check with how it stands."""


@once
def _forged(job: Job) -> tuple[str, ...]:
    return tuple(each.tag for each in job.outside if each.kind == "closing")


@once
def _lost(job: Job) -> tuple[str, ...]:
    return tuple(each.tag for each in job.outside if each.kind == PICTURE)


def _item(check: RoughIn, closing: Closing | None, forged: bool, lost: Container[str], metric: bool) -> Item:
    if closing is None:
        return Item(check, None, "open")
    if forged:
        return Item(check, closing, "its sign-off was not recorded by Studbook")
    was, now = closing.vouches, as_vouched(check, closing)
    if not same_kept(was, now):
        return Item(check, closing, f"changed since {closing.by} signed it off: {changed_words(was, now, metric)}")
    return Item(check, closing, proof_missing(check, closing, lost))


def as_vouched(check: RoughIn, closing: Closing) -> dict[str, str]:
    """What a check vouches for now, as far as the closing speaks of it.

    Of an older closing only what was asked for in its day; every other one speaks of all.
    """
    if not closing.proof and closing.vouches:
        return {key: value for key, value in check.vouches.items() if key in closing.vouches}
    return check.vouches


def close(
    check: RoughIn,
    by: str,
    day: date,
    evidence: str = "",
    reason: str = "",
    *,
    proof: Proof = "",
    office: str = "",
    reference: str = "",
    inspected: date | None = None,
) -> Closing:
    """The closing of a check: `closed` on evidence, or `not needed` for a reason when there is no evidence.

    Without a kind of proof it is the one that is meant by what was entered. The pictures of a photo are looked at, and
    their content noted, when it is saved.
    """
    outcome: Literal["closed", "not needed"] = "not needed" if reason and not (evidence or office) else "closed"
    if not proof:
        proof = kind_meant(check, evidence, office) if outcome == "closed" else "reason"
    if proof == "inspection" and evidence and not office:
        office, reference, inspected = inspection_in(evidence, day)
    return Closing(
        tag=check.key, outcome=outcome, date=day, by=by, evidence=evidence, reason=reason, vouches=check.vouches,
        proof=proof, office=office, reference=reference, inspected=inspected,
    )  # fmt: skip


def closed_line(closing: Closing, day_first: bool = False) -> str:
    """One line that says who signed a check off and on what ground; `day_first` as this owner writes days."""
    ground = closing.evidence if closing.outcome == "closed" else closing.reason
    if closing.proof == "inspection" and closing.inspected is not None:
        inspected = f"{closing.office}, {closing.reference}, {show_date(closing.inspected, day_first)}"
        ground = f"{inspected}: {ground}" if ground else inspected
    old = "" if closing.proof else f" ({BEFORE})"
    outcome = "signed off" if closing.outcome == "closed" else closing.outcome
    return f"{outcome} {show_date(closing.date, day_first)} by {closing.by}: {ground}{old}"


Inputs = tuple[Record | None, ...]


def tags_of(inputs: Inputs) -> tuple[str, ...]:
    return tuple(dict.fromkeys(each.tag for each in inputs if each is not None))


def length_text(length: Length | None) -> str:
    return to_file(length) if length is not None else ""
