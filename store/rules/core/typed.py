"""What people typed, where a word of it would be said otherwise in the region of the job: it stays as typed."""

from __future__ import annotations

from store.measure.terms import holds_term
from store.records.base import Record
from store.records.field import fields_of
from store.records.whole import KINDS, Job
from store.rules.core.keyed import Each, of_each
from store.rules.core.memo import once

_FREE = ("text", "note", "words")
"""Codecs of the fields in which people write what they like."""
_GROUPS = ("parts",)
"""Fields that hold names of groups of the buying list, which the program gives."""


def _of_a_record(job: Job, record: Record) -> frozenset[str] | None:
    found: set[str] = set()
    for field in fields_of(type(record)):
        if field.codec.name in _FREE and field.key not in _GROUPS:
            value = getattr(record, field.key)
            found.update(each for each in ([value] if isinstance(value, str) else value or ()) if holds_term(each))
    return frozenset(found) or None


_OF_EACH: tuple[Each[Record, frozenset[str]], ...] = tuple(of_each(cls)(_of_a_record) for cls in KINDS.values())


@once
def typed_terms(job: Job) -> frozenset[str]:
    """What people typed in which a US word of the table of terms stands."""
    return frozenset().union(*(words for each in _OF_EACH for words in each(job).values()))
