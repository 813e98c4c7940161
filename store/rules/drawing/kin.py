"""What belongs together: the tags that light up beside the record under the cursor."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from store.records.access import Panel
from store.records.base import Record
from store.records.equipment import Equipment
from store.records.inside import ShelfBoard
from store.records.wall import Opening
from store.records.whole import Job, references
from store.records.wiring import Box, Cable, Circuit, Raceway
from store.rules.photo.places import photos_by_tag


def kin(job: Job, tag: str) -> frozenset[str]:
    """The tags of what belongs to a thing, its own left out; empty for an unknown tag.

    A panel: what is behind it or reached through it. A cable: both ends, its raceway and what gives access to it.
    A circuit: its boxes. A box: its cables, its circuit and what plugs in there. An opening: its equipment, its shelves
    and the cables that end in it. A shelf: its opening and what stands on it. Equipment: its opening, what it stands
    on, where it plugs in, its cables. Anything else: what it names. And of each thing its photos.
    """
    record = job.get(tag)
    if record is None:
        return frozenset()
    find = _FINDERS.get(record.kind, _named)
    photos = (photo.tag for photo in photos_by_tag(job).get(tag, ()))
    return frozenset(each for each in (*find(job, record), *photos) if each and each != tag)


def _named(job: Job, record: Record) -> Iterator[str]:
    for _, tag, kinds in references(record):
        if kinds != ("wall",):
            yield tag


def _of_panel(job: Job, record: Record) -> Iterator[str]:
    if isinstance(record, Panel):
        yield from record.behind
        yield record.part
        yield record.blocked_by
    for cls in (Box, Equipment, Cable):
        for tag, one in job.of(cls).items():
            if getattr(one, "reached", "") == record.tag:
                yield tag


def _of_cable(job: Job, record: Record) -> Iterator[str]:
    if isinstance(record, Cable):
        yield from (record.start, record.end, record.raceway, record.reached)


def _of_raceway(job: Job, record: Record) -> Iterator[str]:
    if isinstance(record, Raceway):
        yield from (record.start, record.end)
    yield from (tag for tag, one in job.of(Cable).items() if one.raceway == record.tag and one.retired is None)


def _of_circuit(job: Job, record: Record) -> Iterator[str]:
    if isinstance(record, Circuit):
        yield record.only_for
    yield from (tag for tag, one in job.of(Box).items() if one.circuit == record.tag)


def _of_box(job: Job, record: Record) -> Iterator[str]:
    if isinstance(record, Box):
        yield from (record.circuit, record.reached)
    yield from _ending_in(job, record.tag)
    yield from (tag for tag, one in job.of(Equipment).items() if one.plug == record.tag and one.retired is None)


def _of_opening(job: Job, record: Record) -> Iterator[str]:
    yield from _ending_in(job, record.tag)
    yield from (tag for tag, one in job.of(Equipment).items() if one.opening == record.tag and one.retired is None)
    yield from (tag for tag, one in job.of(ShelfBoard).items() if one.opening == record.tag)


def _of_shelf(job: Job, record: Record) -> Iterator[str]:
    if isinstance(record, ShelfBoard):
        yield record.opening
    yield from (tag for tag, one in job.of(Equipment).items() if one.stands_on == record.tag and one.retired is None)


def _of_equipment(job: Job, record: Record) -> Iterator[str]:
    if isinstance(record, Equipment):
        yield from (record.opening, record.stands_on, record.plug, record.reached)
    yield from _ending_in(job, record.tag)


def _ending_in(job: Job, tag: str) -> Iterator[str]:
    for cls in (Cable, Raceway):
        for each, one in job.of(cls).items():
            if tag in (getattr(one, "start", ""), getattr(one, "end", "")) and getattr(one, "retired", None) is None:
                yield each


_FINDERS: dict[str, Callable[[Job, Record], Iterator[str]]] = {
    Panel.kind: _of_panel,
    Cable.kind: _of_cable,
    Raceway.kind: _of_raceway,
    Circuit.kind: _of_circuit,
    Box.kind: _of_box,
    Opening.kind: _of_opening,
    Equipment.kind: _of_equipment,
    ShelfBoard.kind: _of_shelf,
}
