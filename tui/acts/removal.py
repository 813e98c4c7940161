"""Taking a record away together with what would be left naming nothing."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import msgspec

from store.book.changes import Change, drop, edit
from store.records.base import Record
from store.records.field import fields_of
from store.records.gate import Closing, Passage
from store.records.whole import Job, references
from store.rules.core.references import referring


class Removal(msgspec.Struct, frozen=True):
    """What taking a record away takes."""

    changes: Sequence[Change]
    gone: tuple[str, ...]
    """Tags of other records that cannot be without it and go too."""
    cleared: tuple[str, ...]
    """Tags of records that only stop naming it."""


def removal(job: Job, record: Record) -> Removal:
    """The changes that take a record away, with everything that hangs on it."""
    gone: dict[str, Record] = {record.tag: record}
    queue = [record]
    while queue:
        for user in referring(job, queue.pop().tag):
            if user.tag not in gone and _needs(user, gone):
                gone[user.tag] = user
                queue.append(user)
    left: dict[str, Record] = {}
    for tag in gone:
        for user in referring(job, tag):
            if user.tag not in gone:
                left[user.tag] = user
    changes: list[Change] = [edit(user, _without(user, set(gone))) for user in left.values()]
    changes += [drop(each) for each in reversed(gone.values())]
    # What a stage was passed on stays on record: it was signed off then, whatever became of the thing.
    relied = {key for passage in job.of(Passage).values() for key in passage.checked}
    signed = {key: each for key, each in job.of(Closing).items() if key.split("/")[0] in gone}
    changes += [drop(each) for key, each in signed.items() if key not in relied]
    others = tuple(tag for tag in gone if tag != record.tag)
    return Removal(changes, others, tuple(left))


def _needs(user: Record, gone: dict[str, Record]) -> bool:
    """True when a record cannot be without one that goes."""
    required = {field.key for field in fields_of(type(user)) if field.says.must}
    return any(key in required and tag in gone for key, tag, _ in references(user))


def _without(user: Record, gone: set[str]) -> Record:
    """The record without the tags that go."""
    values: dict[str, Any] = {}
    for key, tag, _ in references(user):
        if tag in gone:
            now = values.get(key, getattr(user, key))
            values[key] = "" if isinstance(now, str) else tuple(each for each in now if each not in gone)
    return msgspec.structs.replace(user, **values)
