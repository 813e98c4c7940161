"""Records of one kind as csv that import takes back unchanged: every field, in the exact form of its editing."""

from __future__ import annotations

from collections import Counter

from store.measure.errors import BadValue
from store.records.base import Record
from store.records.field import Field, fields_of
from store.records.whole import KINDS, Job
from templates.spreadsheet.text import csv_text

NOT_IN_CSV = ("job", "closing", "answer", "passage")
"""Kinds that are the gate's own record, or the one of the job: they come and go by their own keys."""
KIND_NAMES = tuple(kind for kind in KINDS if kind not in NOT_IN_CSV)


def kind_named(name: str) -> type[Record]:
    """The kind of a word: its name, or what one or many of it are called. Raises BadValue."""
    plain = name.strip().lower()
    for kind in KIND_NAMES:
        if plain in (kind, KINDS[kind].one, KINDS[kind].many):
            return KINDS[kind]
    raise BadValue(f"{name!r} is no kind of record to write or read as csv; there are: {', '.join(KIND_NAMES)}")


def headings(cls: type[Record]) -> list[str]:
    """The column names: `tag`, and the title of each field; its key where two have the same title."""
    fields = fields_of(cls)
    count = Counter(field.says.title for field in fields)
    return ["tag", *(field.key if count[field.says.title] > 1 else field.says.title for field in fields)]


def export_csv(job: Job, cls: type[Record]) -> str:
    """The records of a kind as csv, in the order of their tags."""
    fields = fields_of(cls)
    rows = [headings(cls)]
    for record in job.of(cls).values():
        rows.append([record.tag, *(exact(field, getattr(record, field.key), job) for field in fields)])
    return csv_text(rows)


def exact(field: Field, value: object, job: Job) -> str:
    """A value as the form edits it; reading it gives the same value back."""
    return field.edit(value, job.manner)
