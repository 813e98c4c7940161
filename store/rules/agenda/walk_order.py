"""The order in which rough-in items are walked: along the wall from its left corner, or trade after trade.

At one place the items come as the work is done there: set the box before the cable is pulled, test it at the end.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal, get_args

from store.records.wall import Wall
from store.records.whole import Job
from store.records.wiring import Cable, Raceway
from store.rules.core.checks import Item, items
from store.rules.core.memo import once
from store.rules.gate.by_trade import aspect_of
from store.rules.wall.places import point_of, wall_of

Order = Literal["along the wall", "by trade"]
ORDERS: tuple[Order, ...] = get_args(Order)
WORK = (
    "set", "located", "depth", "framed", "backing", "in", "string", "plates", "pulled", "labelled", "",
    "photographed", "tested", "fireblocking", "inspection",
)  # fmt: skip
"""Aspects in the order of the work (common practice): the inspection sees everything else done."""
NOWHERE = 1 << 62
"""Beyond every place on a wall."""


@once
def walk_order(job: Job, by: Order) -> tuple[str, ...]:
    """The keys of all rough-in items, in the order in which they are walked."""
    listed = items(job)
    at = {each.key: _at(job, each) for each in listed}
    if by == "by trade":
        return tuple(each.key for each in sorted(listed, key=lambda each: (each.check.trade, at[each.key])))
    return tuple(each.key for each in sorted(listed, key=lambda each: at[each.key]))


def _at(job: Job, item: Item) -> tuple[int, int, str, int]:
    """Wall, place along it, subject and turn of an item; what has no place comes last, an inspection after all."""
    aspect = aspect_of(item.key)
    turn = WORK.index(aspect) if aspect in WORK else len(WORK)
    walls = list(job.of(Wall))
    wall, along = _place(job, item.check.tags)
    place = walls.index(wall) if wall in walls else len(walls)
    subject = subject_of(job, item)
    last = len(walls) + 1 if aspect == "inspection" else place
    return (last, along, f"{subject[:1]}{subject[1:]:0>6}", turn)


def _place(job: Job, tags: Sequence[str]) -> tuple[str, int]:
    """The wall of the first thing that is on one, and how far along: of what runs, its leftmost end."""
    for tag in tags:
        record = job.get(tag)
        ends = (str(record.start), str(record.end)) if isinstance(record, Cable | Raceway) else (tag,)
        spots = [(wall, point_of(job, end)) for end in ends if end and (wall := wall_of(job, end))]
        placed = [(wall, point[0]) for wall, point in spots if point is not None]
        if placed:
            return placed[0][0], min(along for wall, along in placed if wall == placed[0][0])
        if spots:
            return spots[0][0], NOWHERE
        if isinstance(record, Wall):
            return tag, NOWHERE
    return "", NOWHERE


def subject_of(job: Job, item: Item) -> str:
    """The thing that an item is about, which lights up on the drawing; empty for none."""
    own = item.key.partition("/")[0]
    tags = (own, *item.check.tags)
    return next((tag for tag in tags if job.get(tag) is not None and not tag.startswith("Q")), "")
