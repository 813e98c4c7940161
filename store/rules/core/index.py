"""Looking up backwards: the records of a kind by what they name."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from operator import is_
from typing import Generic, TypeVar, cast

from store.records.base import Record
from store.records.whole import Job
from store.rules.core.memo import looked_at
from store.rules.core.view import BITS, RUNNING, View

S = TypeVar("S", bound=Record)


class Index(Generic[S]):
    """The records of a kind by what they name, for looking up backwards: the cables that end at a box.

    `ENDS = Index(Cable, lambda cable: (cable.start, cable.end))`, then `ENDS.of(job, "B3")`. A query that asks for
    one name stands on the records that name it, and on no others.
    """

    def __init__(self, cls: type[S], names: Callable[[S], Iterable[str]]) -> None:
        self.kind = cls.kind
        self.bit = BITS[cls.kind]
        self._names = names

    def of(self, job: Job | View, name: str) -> tuple[S, ...]:
        """The records that name it, in the order of their table, each once."""
        found = self.groups(looked_at(job)).get(name, ())
        if RUNNING.reads is not None and isinstance(job, View):
            RUNNING.reads.note((self, name), self.bit, found)
        return cast("tuple[S, ...]", found)

    def groups(self, view: View) -> Mapping[str, tuple[Record, ...]]:
        """All groups; one whose members are the same as before is the same object. Nothing is noted."""
        records = view.records(self.kind)
        kept = view.engine.groups.get(self)
        if kept is None or kept[0] is not records:
            kept = view.engine.groups[self] = (records, self._grouped(records, kept[1] if kept else {}))
        return kept[1]

    def _grouped(
        self, records: Mapping[str, Record], before: Mapping[str, tuple[Record, ...]]
    ) -> dict[str, tuple[Record, ...]]:
        found: dict[str, list[Record]] = {}
        for record in records.values():
            for name in dict.fromkeys(self._names(cast(S, record))):
                found.setdefault(name, []).append(record)
        return {name: _as_before(before.get(name, ()), now) for name, now in found.items()}


def _as_before(before: tuple[Record, ...], now: list[Record]) -> tuple[Record, ...]:
    return before if len(before) == len(now) and all(map(is_, before, now)) else tuple(now)
