"""Rough-in items as a grid for the wall: a row for each thing, from the left, with what is to be done side by side.

What is told of one thing at one place stands together, so a person walks along the wall once.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from store.records.wall import Wall
from store.records.whole import Job
from store.records.wiring import Cable, Raceway
from store.rules.cable.labels import ends_text
from store.rules.core.checks import Item
from store.rules.core.wording import local, named, said
from store.rules.wall.places import Point, point_of, wall_of
from templates.sheets.layout.page import Block, Grid, GridRow, Heading

DONE, OPEN = "☑", "☐"
ASPECTS = {
    "pulled": "pulled", "labelled": "labeled at both ends", "tested": "tested", "photographed": "photo",
    "in": "in", "string": "pull string", "plates": "nail plates", "set": "set", "depth": "flush with the finish",
    "located": "place measured", "framed": "framed", "backing": "blocking in", "blocking": "blocking in",
    "fireblocking": "fireblocking in", "inspection": "inspected",
}  # fmt: skip
"""What is to be done, by the second part of an item's key, in few words."""
ANYWHERE = "No place on a wall"


def grids(job: Job, items: Iterable[Item]) -> Iterator[Block]:
    """A heading and a grid for each wall, and one for what has no place."""
    rows: dict[tuple[str, str], list[Item]] = {}
    for item in items:
        rows.setdefault((_wall(job, item), _thing(item)), []).append(item)
    walls = [*job.of(Wall), ""]
    for wall in walls:
        here = {thing: mine for (at, thing), mine in rows.items() if at == wall}
        if here:
            yield Heading(f"{named(job, wall)}, from the left" if wall else local(job, ANYWHERE))
            order = sorted(here, key=lambda thing: (_point(job, here[thing][0]) or (0, 0), thing))
            yield Grid(tuple(_row(job, thing, here[thing]) for thing in order))


def _thing(item: Item) -> str:
    """What an item is told of: the thing of an item of the plan, a hand-written item itself."""
    return item.key.partition("/")[0]


def _about(item: Item) -> str:
    """The thing whose place is the place of an item."""
    return next((tag for tag in item.check.tags if tag != item.key), _thing(item))


def _wall(job: Job, item: Item) -> str:
    for tag in _places(job, item):
        if tag in job.of(Wall):
            return tag
        if wall := wall_of(job, tag):
            return str(wall)
    return ""


def _point(job: Job, item: Item) -> Point | None:
    return next((point for tag in _places(job, item) if (point := point_of(job, tag)) is not None), None)


def _places(job: Job, item: Item) -> tuple[str, ...]:
    record = job.get(_about(item))
    if isinstance(record, Cable | Raceway):
        return tuple(str(each) for each in (record.start, record.end) if each)
    return (_about(item),)


def _row(job: Job, thing: str, mine: list[Item]) -> GridRow:
    ticks = tuple(_tick(job, item) for item in mine)
    if len(mine) == 1 and mine[0].key == thing:
        return GridRow(thing, mine[0].check.what, mine[0].check.where, ticks)
    if job.get(thing) is None or thing == "job":
        return GridRow("", "; ".join(item.check.what for item in mine), mine[0].check.where, ticks)
    return GridRow(thing, named(job, thing).removeprefix(thing).strip(), _where(job, thing, mine[0]), ticks)


def _where(job: Job, thing: str, item: Item) -> str:
    record = job.get(thing)
    if isinstance(record, Cable | Raceway):
        return ends_text(job, record)
    point = _point(job, item)
    return f"{said(job, point[0])} from left, {said(job, point[1])} up" if point is not None else item.check.where


def _tick(job: Job, item: Item) -> str:
    """A box to tick with what is to be done, and what shows it."""
    _, slash, aspect = item.key.partition("/")
    sign = OPEN if item.open else DONE
    if not slash:
        return f"{sign} {item.check.wants or local(job, 'seen')}"
    words = local(job, ASPECTS.get(aspect, item.check.what))
    again = " (reopened)" if item.why_open not in ("", "open") else ""
    reading = (
        f": {item.check.test.example.partition(', or')[0].replace('`', '')}"
        if item.open and aspect == "tested" and item.check.test
        else ""
    )
    return f"{sign} {words}{f', like{reading[1:]}' if reading else ''}{again}"
