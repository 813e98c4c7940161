"""What a photo can be put to, the likeliest first, and what putting it there changes."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

import msgspec

from store.book.changes import Change, add
from store.records.access import Panel, Photo
from store.records.base import Record
from store.records.equipment import Equipment
from store.records.wall import Opening, Wall
from store.records.whole import Job
from store.records.wiring import Box, Cable, Raceway
from store.rules.core.checks import Item, close, items
from store.rules.core.proof import kinds_for
from store.rules.core.wording import name_of
from tui.acts.closings import closing_changes

KINDS: tuple[type[Record], ...] = (Panel, Box, Opening, Equipment, Cable, Raceway, Wall)


class Target(msgspec.Struct, frozen=True):
    """One thing that a photo may be of."""

    key: str
    """A tag, or the key of a rough-in item, which the photo then signs off."""
    label: str


def targets(job: Job) -> list[Target]:
    """Open items that only a photo signs off, then panels, then open items that a photo will do for, then the rest."""
    standing = items(job)
    found = [_item(job, each) for each in standing if each.open and kinds_for(each.check) == ("photo",)]
    found += [of_thing(job, tag) for tag in job.of(Panel)]
    found += [_item(job, each) for each in standing if each.open and _also_by_photo(each)]
    for cls in KINDS[1:]:
        found += [of_thing(job, tag) for tag in job.of(cls)]
    return found


def changes_of(job: Job, target: str, file: str, day: date | None, by: str) -> Sequence[Change]:
    """What putting a photo there does: the photo is of that thing, and signs off the item where it is one."""
    item = next((each for each in items(job) if each.key == target), None)
    tag = target.partition("/")[0]
    shows = item.check.what if item is not None else name_of(job, tag)
    made: list[Change] = [add(Photo(tag="", **photo_values(file, day, of=(tag,), shows=shows)))]
    if item is not None and item.open and "photo" in kinds_for(item.check):
        made += closing_changes(job, [close(item.check, by, job.today, file)])
    return made


def photo_values(file: str, day: date | None, **more: Any) -> dict[str, Any]:
    """The fields of the record of a photo."""
    return {"file": file, "date": day, **more}


def found_as(job: Job, typed: str) -> str:
    """The key that a typed tag or key of an item means; empty where there is none."""
    key = typed.strip()
    head, slash, rest = key.partition("/")
    key = f"{head.upper()}{slash}{rest.lower()}"
    if job.get(key) is not None and not isinstance(job.get(key), Photo):
        return key
    return key if any(each.key == key for each in items(job)) else ""


def of_thing(job: Job, tag: str) -> Target:
    """A thing that a photo shows, whatever is signed off by it."""
    record = job.get(tag)
    return Target(tag, f"photo of {tag} {name_of(job, tag)} ({record.one if record is not None else 'deleted'})")


def _item(job: Job, item: Item) -> Target:
    tag, slash, _ = item.key.partition("/")
    return Target(item.key, f"sign off {item.key} {name_of(job, tag) if slash else item.check.what}")


def _also_by_photo(item: Item) -> bool:
    kinds = kinds_for(item.check)
    return "photo" in kinds and len(kinds) > 1
