"""Random edits of a job, one after another from a seed: each gives the job after it, as an action of the book would."""

from __future__ import annotations

import random
from collections.abc import Callable, Collection
from datetime import date, timedelta
from functools import cache
from typing import Any

import msgspec

from store.measure.length import INCH_NM, Length
from store.records.base import Record, from_doc
from store.records.equipment import Equipment
from store.records.field import Field, Ref, fields_of
from store.records.gate import Closing, Passage
from store.records.job import Settings
from store.records.wall import Opening
from store.records.whole import KINDS, LETTERS, Job, Outside, serial_of
from store.records.wiring import Cable
from store.rules.core.checks import close, rough_in
from store.rules.core.memo import cold
from store.rules.gate.gate import CLOSED, STAGES
from templates.starters.load import load

TODAY = date(2026, 11, 25)
SHAPING = tuple(kind for kind, cls in KINDS.items() if cls.letter and kind != "passage")


@cache
def starter(name: str = "demo") -> Job:
    """The job of a starter, as a book would have it: made once, since an edit leaves it as it is."""
    tables: dict[str, dict[str, Record]] = {kind: {} for kind in KINDS}
    for put in load(name, TODAY):
        doc = {key: value for key, value in put.fields.items() if value is not None}
        tables[put.kind][put.tag] = from_doc({**doc, "tag": put.tag}, KINDS[put.kind])
    marks = {tag: number for number, tag in enumerate((tag for table in tables.values() for tag in table), 1)}
    return Job(tables, marks, today=TODAY)


def with_records(job: Job, *records: Record, gone: tuple[Record, ...] = ()) -> Job:
    """The job after an action that put these records and took others away; each bears the number of that change."""
    tables = dict(job.tables)
    marks, number = dict(job.marks), max(job.marks.values(), default=0) + 1
    for record in records:
        tables[record.kind] = {**tables[record.kind], record.tag: record}
        marks[record.tag] = number
    for record in gone:
        tables[record.kind] = {tag: each for tag, each in tables[record.kind].items() if tag != record.tag}
        marks[record.tag] = number
    return msgspec.structs.replace(job, tables=tables, marks=marks)


class Edits:
    """Edits of one seed. `next` tells what was done and gives the job after it."""

    def __init__(self, seed: int, job: Job, only: Collection[str] = ()) -> None:
        self._random = random.Random(seed)
        self._former = [job]
        self._ways: tuple[Callable[[Job], Job], ...] = (
            self.fields, self.fields, self.fields, self.link, self.link, self.add, self.remove, self.to_the_end,
            self.other_unit, self.widen_a_neighbour, self.lead_a_cable_to_it, self.settings, self.day_or_outside,
            self.close_well_or_badly, self.close_nearly_all, self.marks_only, self.back,
        )  # fmt: skip
        self._ways = tuple(each for each in self._ways if not only or each.__name__ in only)

    def next(self, job: Job) -> tuple[str, Job]:
        """One more edit."""
        way = self._random.choice(self._ways)
        after = way(job)
        self._former = [*self._former[-20:], after]
        return way.__name__, after

    # --- records ---

    def _one(self, job: Job, *kinds: str) -> Record | None:
        kinds = kinds or tuple(kind for kind in SHAPING if job.tables[kind])
        records = list(job.tables[self._random.choice(kinds)].values())
        return self._random.choice(records) if records else None

    def _field(self, record: Record, fits: Callable[[Field, Any], bool]) -> Field | None:
        fields = [each for each in fields_of(type(record)) if fits(each, getattr(record, each.key))]
        return self._random.choice(fields) if fields else None

    def fields(self, job: Job) -> Job:
        """One to three fields of a record taken from another of its kind, or put back to nothing."""
        one = self._one(job)
        other = self._one(job, one.kind) if one else None
        if one is None or other is None:
            return job
        names = [each.key for each in fields_of(type(one))]
        taken: dict[str, Any] = {}
        for name in self._random.sample(names, min(len(names), self._random.randint(1, 3))):
            taken[name] = getattr(other, name)
        return with_records(job, msgspec.structs.replace(one, **taken))

    def link(self, job: Job) -> Job:
        """An end, plug, opening, wall or circuit set to something else that it may name, or to nothing."""
        one = self._one(job)
        field = self._field(one, lambda each, _: each.codec.name in ("ref", "refs")) if one else None
        if one is None or field is None:
            return job
        kinds = field.says.kinds or tuple(LETTERS[letter].kind for letter in LETTERS)
        named = self._one(job, self._random.choice(kinds)) if self._random.random() < 0.85 else None
        tag = Ref(named.tag if named else "")
        value: Any = tag if field.codec.name == "ref" else ((tag,) if tag else ())
        return with_records(job, msgspec.structs.replace(one, **{field.key: value}))

    def add(self, job: Job) -> Job:
        """One more record, like one that there is."""
        one = self._one(job)
        if one is None:
            return job
        last = max(serial_of(one.kind, tag) for tag in job.tables[one.kind])
        return with_records(job, msgspec.structs.replace(one, tag=f"{one.letter}{last + 1}"))

    def remove(self, job: Job) -> Job:
        """A record taken away, whoever names it."""
        one = self._one(job)
        return with_records(job, gone=(one,)) if one else job

    def to_the_end(self, job: Job) -> Job:
        """A record at the end of its table, as one that was taken away and brought back stands."""
        one = self._one(job)
        return with_records(with_records(job, gone=(one,)), one) if one else job

    def other_unit(self, job: Job) -> Job:
        """A length written in the other unit, as long as before."""
        one = self._one(job, "opening", "box", "panel", "reading", "equipment", "obstacle", "job")
        field = self._field(one, lambda _, value: isinstance(value, Length)) if one else None
        if one is None or field is None:
            return job
        length = getattr(one, field.key)
        return with_records(job, msgspec.structs.replace(one, **{field.key: Length(length.nm, not length.metric)}))

    # --- what was seen to go wrong ---

    def _in_openings(self, job: Job) -> list[Equipment]:
        return [each for each in job.of(Equipment).values() if each.opening in job.of(Opening)]

    def widen_a_neighbour(self, job: Job) -> Job:
        """A device that stands with others in an opening is wider, and moves them."""
        devices = self._in_openings(job)
        if not devices:
            return job
        one = self._random.choice(devices)
        width = Length((one.width.nm if one.width else 0) + self._random.randint(1, 4) * INCH_NM)
        return with_records(job, msgspec.structs.replace(one, width=width, offset=None))

    def lead_a_cable_to_it(self, job: Job) -> Job:
        """A cable in the wall ends at a device in an opening, or at a panel."""
        cable = self._one(job, "cable")
        ends: list[Record] = [*self._in_openings(job), *job.tables["panel"].values()]
        if not isinstance(cable, Cable) or not ends:
            return job
        end = self._random.choice(("start", "end"))
        led = {end: Ref(self._random.choice(ends).tag), "in_wall": True, "retired": None}
        return with_records(job, msgspec.structs.replace(cable, **led))

    # --- the whole job ---

    def settings(self, job: Job) -> Job:
        """Units, region, edition, permit or finish."""
        key, value = self._random.choice(
            (
                ("units", "millimetres"), ("units", "feet-inches"), ("region", "metric"), ("region", "us"),
                ("edition", "2023"), ("edition", "2017"), ("permit", "not needed"), ("permit", "needed"),
                ("finish", Length(INCH_NM)), ("waste", 12.5), ("seat", None),
            )
        )  # fmt: skip
        changed: Settings = msgspec.structs.replace(job.settings, **{key: value})
        return with_records(job, changed)

    def day_or_outside(self, job: Job) -> Job:
        """Another day; or something that was done to the file outside of the program."""
        if self._random.random() < 0.5:
            return msgspec.structs.replace(job, today=job.today + timedelta(days=self._random.randint(-3, 40)))
        one = self._one(job, *(kind for kind in ("closing", "passage", "cable", "answer") if job.tables[kind]))
        outside = (Outside(one.kind, one.tag, "changed"),) if one and not job.outside else ()
        return msgspec.structs.replace(job, outside=outside)

    # --- the gate ---

    def close_well_or_badly(self, job: Job) -> Job:
        """A check closed on evidence, without any, for a reason, or for what it vouched for yesterday."""
        checks = rough_in(cold(job))
        if not checks:
            return job
        check = self._random.choice(checks)
        well = close(check, "Ann", job.today, "photo 12")
        ways: tuple[Closing, ...] = (
            well,
            close(check, "Ann", job.today, "", "the inspector wants none"),
            msgspec.structs.replace(well, evidence=""),
            msgspec.structs.replace(well, vouches={**check.vouches, "place": "elsewhere"}),
        )
        return with_records(job, self._random.choice(ways))

    def close_nearly_all(self, job: Job) -> Job:
        """Every check closed but one or none, and every stage passed up to Drywall."""
        checks = rough_in(cold(job))
        left = self._random.choice(checks).key if checks and self._random.random() < 0.3 else ""
        closings = [close(each, "Ann", job.today, "photo 12") for each in checks if each.key != left]
        passages = [
            Passage(
                tag=f"P{number}", stage=stage, date=job.today, by="Ann",
                checked=tuple(each.key for each in checks) if stage == CLOSED else (),
            )
            for number, stage in enumerate(STAGES[1 : STAGES.index(CLOSED) + 1], 1)
        ]  # fmt: skip
        return with_records(job, *closings, *passages)

    def marks_only(self, job: Job) -> Job:
        """Records written again as they were: nothing but the numbers of their changes is another."""
        tags = [tag for check in rough_in(cold(job)) for tag in check.tags]
        marks = {
            **job.marks,
            **{tag: max(job.marks.values()) + 1 for tag in self._random.sample(tags, min(3, len(tags)))},
        }
        return msgspec.structs.replace(job, marks=marks)

    def back(self, job: Job) -> Job:
        """A former job, as undo and redo give it."""
        return self._random.choice(self._former)
