"""The years after: what is due, what comes up on a known day, and what the wall is ready for later."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from typing import Literal, get_args

import msgspec

from store.records.access import Panel, Visit
from store.records.equipment import Equipment
from store.records.people import Wish
from store.records.whole import Job
from store.rules.core.findings import Finding
from store.rules.core.keyed import index
from store.rules.core.wording import few_of, named
from store.rules.service.upgrades import ready_text, upgrades
from store.rules.service.upkeep import upkeep

Kind = Literal["due", "service", "warranty", "panel", "later"]
KINDS: tuple[Kind, ...] = get_args(Kind)
DUE = {"service": "service_due", "warranty": "warranty_ends"}
"""The rule that tells a day once it is near."""


class Later(msgspec.Struct, frozen=True):
    """One thing of the years after."""

    kind: Kind
    key: str
    """Stable name, unique among all."""
    tag: str
    """The record that it is about."""
    what: str
    do: str
    day: date | None = None


visits_of = index(Visit, lambda one: (one.panel,))


def years_after(job: Job, found: Sequence[Finding]) -> list[Later]:
    """What is due first, then by the day; panels by the day they were opened last; then what is wanted later."""
    told = {(each.rule, tag) for each in upkeep(found) for tag in each.tags}
    dated = sorted(
        (each for each in _dated(job) if (DUE[each.kind], each.tag) not in told),
        key=lambda each: (each.day or date.max, each.key),
    )
    return [*_due(found), *dated, *_panels(job), *_later(job)]


def _due(found: Sequence[Finding]) -> Iterator[Later]:
    for each in upkeep(found):
        yield Later("due", each.key, each.tags[0], each.headline or each.head, each.do)


def _dated(job: Job) -> Iterator[Later]:
    for tag, one in job.of(Equipment).items():
        if one.retired is not None or one.state != "owned":
            continue
        if one.service is not None:
            yield Later(
                "service", f"service:{tag}", tag, f"Service {named(job, tag)}", "Clean it, check its fan", one.service
            )
        if one.warranty is not None and one.warranty >= job.today:
            do = "Try every port and function once before that day"
            yield Later("warranty", f"warranty:{tag}", tag, f"Warranty ends, {named(job, tag)}", do, one.warranty)


def _panels(job: Job) -> Iterator[Later]:
    """Each panel that is in, with the day it was opened last."""
    last = {tag: max((each.date for each in visits_of(job).get(tag, ())), default=None) for tag in job.of(Panel)}
    for tag, panel in job.of(Panel).items():
        if panel.fitted is not None:
            day = last[tag]
            what = f"Last opened, {named(job, tag)}" if day else f"Not opened since it was installed, {named(job, tag)}"
            yield Later("panel", f"panel:{tag}", tag, what, "Open it once: dry, clean, card right", day or panel.fitted)


def _later(job: Job) -> Iterator[Later]:
    """What is wanted in some years, and how far the wall is ready for it."""
    for one in upgrades(job):
        wish = job.of(Wish)[one.wish]
        missing = f"Missing: {few_of(one.missing, 3)}" if one.missing else f"Ready: {ready_text(job, one)}"
        years = "in a year" if wish.years == 1 else f"in {wish.years} years" if wish.years else "now"
        yield Later("later", f"later:{one.wish}", one.wish, f"{wish.what}, {years}", missing)
