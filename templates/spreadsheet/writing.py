"""Records of one kind as csv that import takes back unchanged: every field, in the exact form of its editing."""

from __future__ import annotations

import re
from collections import Counter

import msgspec

from store.measure.numbers import commaed
from store.measure.terms import regional
from store.records.base import Record
from store.records.field import NUMERIC, Field
from store.records.whole import Job
from templates.spreadsheet.fields import KIND_NAMES, columns_for, kind_named
from templates.spreadsheet.text import csv_text

__all__ = ["KIND_NAMES", "exact", "export_csv", "headings", "kind_named", "rows_of"]

_EITHER = re.compile(r"(?<![\d.])([1-9]\d{0,2}\.\d{3})(?!\d)", re.ASCII)
"""A number that could be thousands to a reader who has a comma before the fraction."""


EARLIER_NAMES = {
    "visit": ("visit", "visits"),
    "contact": ("trade contact", "trade contacts"),
    "handoff": ("handoffs",),
}
"""Other names that a list may be asked for by."""


def headings(cls: type[Record], metric: bool = False) -> list[str]:
    """The column names: `tag`, and the title of each field in the words of the region; its key where two are alike."""
    titles = {field.key: regional(field.says.title, metric) for field in columns_for(cls)}
    count = Counter(titles.values())
    return ["tag", *(key if count[title] > 1 else title for key, title in titles.items())]


def rows_of(job: Job, cls: type[Record]) -> list[list[str]]:
    """The headings, and the records of a kind in the order of their making."""
    fields = columns_for(cls)
    rows = [headings(cls, job.settings.region != "us")]
    for record in job.of(cls).values():
        rows.append([record.tag, *(exact(field, getattr(record, field.key), job) for field in fields)])
    return rows


def export_csv(job: Job, cls: type[Record]) -> str:
    """The records of a kind as csv.

    A job whose owner writes a comma before the fraction gets its numbers so, and semicolons between the cells, which
    is what a spreadsheet expects there.
    """
    return csv_text(rows_of(job, cls), job.manner.comma)


def exact(field: Field, value: object, job: Job) -> str:
    """A value as the form edits it, without marks for thousands; reading it gives the same value back, in any job."""
    # A number is kept in its field's unit, and goes out so in every job.
    plain = msgspec.structs.replace(job.manner, comma=False, metric=job.manner.metric and field.codec.name != "number")
    text = field.file(value, plain) if field.choices else field.edit(value, plain)
    if field.codec.name not in NUMERIC:
        return text
    text = _EITHER.sub(r"\g<1>0", text.replace(",", ""))
    return commaed(text) if job.manner.comma else text
