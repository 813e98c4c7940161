"""The facts about one record: one question for its page, for find, for a sheet and for its figures.

It stands on every room below it, so that whoever shows a record asks here and goes into no room alone.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import msgspec

from store.records.access import Panel, Photo
from store.records.base import Record
from store.records.equipment import Equipment
from store.records.wall import Opening
from store.records.whole import Job, references
from store.records.wiring import Box, Cable, Circuit, Raceway
from store.rules.access.steps import Reach, reach
from store.rules.core.checks import Item, items
from store.rules.core.figures import figures_on
from store.rules.core.findings import Finding, findings
from store.rules.core.memo import once
from store.rules.core.references import referring
from store.rules.photo.places import photos_by_tag

IN_PLACE = (Panel, Equipment, Box, Cable, Raceway, Opening, Circuit)
"""Kinds of record that are somewhere in the wall, so that there is an answer to how they are reached."""


class About(msgspec.Struct, frozen=True):
    """What is known of one record."""

    record: Record
    names: tuple[tuple[str, Record | None], ...]
    """What it names, in the order of its fields; None where there is no such record."""
    named_by: tuple[Record, ...]
    figures: Mapping[str, Any]
    """What was calculated for it, by name; lengths as they are."""
    access: Reach | None
    """How it is reached; None for what is nowhere in the wall."""
    photos: tuple[Photo, ...]
    """Photos that show it; of a photo, itself."""
    items: tuple[Item, ...]
    """Rough-in items that are about it."""
    findings: tuple[Finding, ...]
    """Problems that name it, the gravest first."""


def facts(job: Job, tag: str) -> About:
    """Everything known of a record that there is. Raises KeyError when there is none."""
    found = about(job, tag)
    if found is None:
        raise KeyError(tag)
    return found


@once
def about(job: Job, tag: str) -> About | None:
    """Everything known of a record by its tag; None where there is none. Never raises."""
    record = job.get(tag)
    if record is None:
        return None
    return About(
        record=record,
        names=tuple((name, job.get(name)) for _, name, _ in references(record)),
        named_by=tuple(referring(job, tag)),
        figures=figures_on(job, tag),
        access=reach(job, tag) if isinstance(record, IN_PLACE) else None,
        photos=photos_about(job, tag),
        items=tuple(each for each in items(job) if each.check.key == tag or each.check.key.startswith(f"{tag}/")),
        findings=tuple(each for each in findings(job) if tag in each.tags),
    )


def photos_about(job: Job, tag: str) -> tuple[Photo, ...]:
    """The photos that show a record, in the order of their table; of a photo, itself; none of what there is not."""
    record = job.get(tag)
    if record is None:
        return ()
    return (record,) if isinstance(record, Photo) else tuple(photos_by_tag(job).get(tag, ()))
