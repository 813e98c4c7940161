"""Which records name another."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from store.records.base import Record
from store.records.field import fields_of
from store.records.whole import KINDS, Job, references
from store.rules.core.keyed import said_by


def referring(job: Job, tag: str) -> Sequence[Record]:
    """The records that name a tag."""
    return _naming(job).get(tag, ())


_REFERRING = tuple(
    cls for cls in KINDS.values() if any(field.codec.name in ("ref", "refs") for field in fields_of(cls))
)


@said_by(*_REFERRING)
def _naming(record: Record) -> Iterator[tuple[str, Record]]:
    """The records that name each tag."""
    for named in dict.fromkeys(named for _, named, _ in references(record)):
        yield named, record
