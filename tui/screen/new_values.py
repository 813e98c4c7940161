"""What a new record may name, and what it starts with because there is no choice."""

from __future__ import annotations

from typing import Any

from store.records.base import Record
from store.records.field import Field, fields_of
from store.records.whole import KINDS, Job
from tui.view.view import name_of


def candidates(job: Job, field: Field) -> list[tuple[str, str]]:
    """Tags and names that a reference may take."""
    kinds = field.says.kinds or tuple(kind for kind, cls in KINDS.items() if cls.letter and kind != "passage")
    return [(tag, f"{tag} {name_of(record)}") for kind in kinds for tag, record in job.tables.get(kind, {}).items()]


def lone_values(job: Job, cls: type[Record]) -> dict[str, Any]:
    """The references that have one record to name, as the wall has in a job of one wall."""
    found = {}
    for field in fields_of(cls):
        named = candidates(job, field) if field.says.alone else []
        if len(named) == 1:
            found[field.key] = named[0][0]
    return found
