"""Which records name another."""

from __future__ import annotations

from collections.abc import Sequence

from store.records.base import Record
from store.records.field import fields_of
from store.records.whole import KINDS, Job, references
from store.rules.core.memo import once


def referring(job: Job, tag: str) -> Sequence[Record]:
    """The records that name a tag."""
    return _naming(job).get(tag, ())


@once
def _naming(job: Job) -> dict[str, list[Record]]:
    """The records that name each tag: one look through the job serves a whole page, or the removal of many."""
    found: dict[str, list[Record]] = {}
    for kind, table in job.tables.items():
        if any(field.codec.name in ("ref", "refs") for field in fields_of(KINDS[kind])):
            for record in table.values():
                for named in dict.fromkeys(named for _, named, _ in references(record)):
                    found.setdefault(named, []).append(record)
    return found
