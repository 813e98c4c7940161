"""Changing a thing through a panel: what gives up its place, what takes it, and every record that has to follow."""

from __future__ import annotations

from datetime import date
from typing import Any

import msgspec

from store.measure.counts import a_one
from store.measure.errors import BadValue
from store.records.access import Panel, Visit
from store.records.base import Record
from store.records.equipment import Equipment
from store.records.field import Note, Ref, fields_of
from store.records.people import Wish
from store.records.whole import Job, references, serial_of
from store.records.wiring import Cable, Circuit
from store.rules.access.means import best_means
from store.rules.core.references import referring
from store.rules.wall.pieces import in_use

Thing = Equipment | Cable
"""What is changed for another."""

PLACE: dict[type[Record], tuple[str, ...]] = {
    Equipment: ("opening", "offset", "wall", "x", "y", "reached", "plug", "half"),
    Cable: ("start", "end", "in_wall", "route", "level", "raceway", "points", "reached", "carries", "name"),
}
"""What the new thing takes over from the old one, where it says nothing of its own."""
FOLLOWING = (Cable, Equipment, Circuit, Panel, Wish)
"""Kinds whose records name the new thing from now on. Photos, checks and money stay with the old one."""


class Exchange(msgspec.Struct, frozen=True):
    """Everything that one change of a thing takes, as records."""

    old: Record
    """The old thing, retired."""
    new: Record
    """The new thing, with the tag that it will have."""
    following: tuple[Record, ...]
    """Records that name the new thing instead of the old one."""
    visit: Visit | None
    """The entry of the panel's log; without a tag. None when no panel is opened for it."""


def exchange(job: Job, old_tag: str, new: Record, who: str, why: str = "", found: str = "") -> Exchange:
    """What it takes to put a new thing in the place of an old one, today, through the way that reaches it.

    The old one stays, retired, and is found by its tag; the new one takes its place, what it plugs into, and whoever
    named it. Raises BadValue when the old thing is no equipment and no cable in use, or the new one is of another kind.
    """
    old = job.get(old_tag)
    if not isinstance(old, Equipment | Cable):
        raise BadValue(f"can't replace {old_tag}. Choose a piece of equipment or a cable.")
    if not in_use(old):
        raise BadValue(f"{old_tag} is already retired. Choose the one that is in use.")
    if type(new) is not type(old):
        raise BadValue(
            f"can't replace {old_tag} by another kind of record. Choose {a_one(old.one)}, not {a_one(new.one)}."
        )
    tag = next_tag(job, type(old))
    taken = msgspec.structs.replace(_taking_over(old, new), tag=tag, retired=None, replaced_by=Ref(""))
    gone = msgspec.structs.replace(old, retired=job.today, replaced_by=Ref(tag))
    following = tuple(
        _following(each, old_tag, tag)
        for each in referring(job, old_tag)
        if isinstance(each, FOLLOWING) and in_use(each) and each.tag != old_tag
    )
    changed = f"{old_tag} taken out, {tag} {getattr(taken, 'name', '')} put in its place".replace("  ", " ")
    return Exchange(gone, taken, following, _visit(job, old_tag, job.today, who, why, found, changed))


def next_tag(job: Job, cls: type[Record]) -> str:
    """The tag that a new record of a kind will get: one that was never given, also not to what is gone."""
    used = [serial_of(cls.kind, tag) for tag in (*job.of(cls), *job.marks)]
    return f"{cls.letter}{max(used, default=0) + 1}"


def successor(job: Job, old: Thing) -> Thing:
    """What the form of the new thing starts with: the old one's place, and nothing that was true of it alone."""
    values = {key: getattr(old, key) for key in PLACE[type(old)]}
    if isinstance(old, Equipment):
        values |= {"what": old.what, "power": old.power, "name": old.name, "count": old.count, "state": "owned"}
    else:
        values |= {"type": old.type, "state": "connected"}
    return type(old)(tag=next_tag(job, type(old)), **values)


def _taking_over(old: Record, new: Record) -> Record:
    """The new thing with the place of the old one where it has none of its own."""
    fields = {field.key: field for field in fields_of(type(old))}
    values: dict[str, Any] = {}
    for key in PLACE[type(old)]:
        mine = getattr(new, key)
        if mine in (fields[key].empty, ""):
            values[key] = getattr(old, key)
    return msgspec.structs.replace(new, **values)


def _following(record: Record, old: str, new: str) -> Record:
    """A record that names the new thing wherever it named the old one."""
    values: dict[str, Any] = {}
    for key, tag, _ in references(record):
        if tag != old or key == "replaced_by":
            continue
        now = getattr(record, key)
        values[key] = new if isinstance(now, str) else tuple(new if each == old else each for each in now)
    return msgspec.structs.replace(record, **values)


def _visit(job: Job, old: str, day: date, who: str, why: str, found: str, changed: str) -> Visit | None:
    """The log entry of the panel through which it is changed."""
    panel = panel_for(job, old)
    if not panel:
        return None
    return Visit(
        tag="", panel=Ref(panel), date=day, who=who, why=why or f"to replace {old}", found=Note(found),
        changed=Note(changed),
    )  # fmt: skip


def panel_for(job: Job, tag: str) -> str:
    """The panel that is opened to change a thing: its own way, else the way to an end of a cable; empty for none."""
    record = job.get(tag)
    ends = (str(record.start), str(record.end)) if isinstance(record, Cable) else ()
    for each in (tag, *ends):
        way = best_means(job, each, wires=isinstance(record, Cable)) if each else None
        if way is not None and way.kind == "panel":
            return way.by
    return ""
