"""What changed since a packet was given: exactly what its trade is told of, and no more.

The history comes in as plain data: a list of entries with `n` and `changes`, each change with `kind`, `tag`,
`before` and `after` in the form of the file. What was changed and changed back is no change.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

import msgspec

from store.measure.errors import BadValue
from store.records.base import Record, from_doc
from store.records.field import Field, fields_of
from store.records.people import Handoff
from store.records.whole import KINDS, Job
from store.rules.handoff.people import mine_and_others
from store.rules.handoff.scope import SCHEDULES, Schedule, also

Entry = Mapping[str, Any]
"""One action of the history as plain data."""


class Changed(msgspec.Struct, frozen=True):
    """One change that the trade must be told of."""

    tag: str
    what: str
    """`new`, `gone` or the title of the field."""
    says: str


def changes_since(job: Job, handoff: Handoff, entries: Iterable[Entry]) -> tuple[Changed, ...]:
    """What changed for a trade after the point of history at which its packet was given, by tag and field."""
    entries = list(entries)
    point = handoff.point or _point_by_day(handoff, entries)
    net: dict[tuple[str, str], tuple[Any, Any]] = {}
    for entry in entries:
        if entry["n"] <= point:
            continue
        for change in entry["changes"]:
            key = change["kind"], change["tag"]
            before = net[key][0] if key in net else change.get("before")
            net[key] = before, change.get("after")
    mine, others = mine_and_others(job, handoff.trade)
    schedules = (*SCHEDULES[handoff.trade], *also(handoff.trade, mine, others))
    found: list[Changed] = []
    for (kind, tag), (before, after) in net.items():
        if before != after and kind in KINDS:
            found += _told(job, schedules, _record(kind, before), _record(kind, after), tag)
    return tuple(found)


def _point_by_day(handoff: Handoff, entries: Sequence[Entry]) -> int:
    """The last change on the day of a packet that somebody wrote down by hand, or the one that wrote it down."""
    day, point = str(handoff.given), 0
    for entry in entries:
        if entry["at"][:10] <= day:
            point = entry["n"]
        if any(one["tag"] == handoff.tag and (one.get("after") or {}).get("given") == day for one in entry["changes"]):
            return point or int(entry["n"])
    return point


def _record(kind: str, doc: Any) -> Record | None:
    if doc is None:
        return None
    try:
        return from_doc(doc, KINDS[kind])
    except BadValue:
        return None  # a form that an older version wrote and nobody can read: told as new or gone


def _told(
    job: Job, schedules: Sequence[Schedule], before: Record | None, after: Record | None, tag: str
) -> list[Changed]:
    """What is told of one record: that it is new or gone, or each field that a schedule of the trade prints."""
    was = {key for each in schedules if before is not None and _on(job, each, before) for key in each.fields}
    now = {key for each in schedules if after is not None and _on(job, each, after) for key in each.fields}
    if not was and not now:
        return []
    if before is None or not was:
        return [Changed(tag, "new", f"{_name(after, tag)} is new: {_summary(job, after, now)}")] if after else []
    if after is None or not now:
        gone = "was removed" if after is None else "is no longer on your list"
        return [Changed(tag, "gone", f"{_name(before, tag)} {gone}.")]
    found = []
    for field in fields_of(type(after)):
        one, other = getattr(before, field.key), getattr(after, field.key)
        if one != other and field.key in was | now:
            shown = [_shown(job, field, each) or "empty" for each in (one, other)]
            says = f"{_name(after, tag)}: {field.says.title} was {shown[0]}, is {shown[1]}."
            found.append(Changed(tag, field.says.title, says))
    return found


def _shown(job: Job, field: Field, value: object) -> str:
    """A value as the lists have it, with its unit; empty for nothing."""
    text = field.show(value, job.manner)
    return text


def _on(job: Job, schedule: Schedule, record: Record) -> bool:
    return isinstance(record, schedule.cls) and schedule.wanted(job, record)


def _name(record: Record | None, tag: str) -> str:
    name = next((str(getattr(record, key)) for key in ("name", "what") if getattr(record, key, "")), "")
    one = record.one if record is not None else ""
    return f"{tag} {name}" if name else f"{one} {tag}".strip()


def _summary(job: Job, record: Record, keys: set[str]) -> str:
    """The fields that are filled in, in one line."""
    parts = []
    for field in fields_of(type(record)):
        value = getattr(record, field.key)
        if field.key in keys and field.key not in ("name", "notes") and value not in (field.empty, "", ()):
            parts.append(f"{field.says.title} {_shown(job, field, value)}".strip())
    return "; ".join(parts) + "." if parts else "nothing entered yet."
