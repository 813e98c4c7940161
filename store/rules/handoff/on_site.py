"""What a trade works with: what is in the house already, and what is still to be bought for it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import msgspec

from store.records.equipment import Equipment
from store.records.people import Trade
from store.records.wall import Opening, Wall
from store.records.whole import Job
from store.records.wiring import Box, Cable, Raceway
from store.rules.buying.buying_list import buying_list
from store.rules.buying.line import Line
from store.rules.buying.materials import DRYWALL
from store.rules.cable.kinds import holds_power, is_power
from store.rules.core.was_done import cable_state
from store.rules.core.wording import named

MOST_FOR = 8
"""Tags of what a line is for that are named one by one."""


class OnSite(msgspec.Struct, frozen=True):
    """One line: a thing, how many, what it is for, whether it is there."""

    what: str
    count: int
    used_for: str
    there: bool


def on_site(job: Job, trade: Trade) -> tuple[OnSite, ...]:
    """What a trade needs at hand: what is still to buy first, then what is there."""
    return (*_to_buy(job, trade), *_there(job, trade))


def _to_buy(job: Job, trade: Trade) -> Iterator[OnSite]:
    for line in buying_list(job):
        if _whose(job, line) == trade:
            more = f" and {len(line.tags) - MOST_FOR} more" if len(line.tags) > MOST_FOR else ""
            yield OnSite(line.what, line.count, ", ".join(line.tags[:MOST_FOR]) + more, there=False)


def _there(job: Job, trade: Trade) -> Iterator[OnSite]:
    for tag, cable in job.of(Cable).items():
        mine = "electrician" if is_power(job, cable) else "low-voltage"
        if mine == trade and cable.retired is None and cable_state(job, cable) == "bought":
            yield OnSite(cable.type, 1, named(job, tag), there=True)
    for tag, one in job.of(Equipment).items():
        if one.retired is None and one.state == "owned" and _who_fits(one) == trade:
            yield OnSite(one.name, one.count, tag, there=True)


def _who_fits(one: Equipment) -> Trade:
    """Who works with a device before the owner plugs it in."""
    if one.power == "hard-wired" or one.what in ("light", "driver", "heater"):
        return "electrician"
    return "low-voltage" if one.what in ("speaker", "extender", "switch", "router") else "owner"


def _whose(job: Job, line: Line) -> Trade:
    """The trade that uses what is on a line, by the first thing that it is for."""
    record = job.get(line.tags[0]) if line.tags else None
    if isinstance(record, Box):
        return "electrician" if holds_power(record) else "low-voltage"
    if isinstance(record, Cable):
        return "electrician" if is_power(job, record) else "low-voltage"
    if isinstance(record, Equipment):
        return _who_fits(record)
    by_kind: Mapping[type, Trade] = {Raceway: "low-voltage", Opening: "carpenter"}
    if isinstance(record, Wall):
        return "drywall" if line.group == DRYWALL else "carpenter"
    return by_kind.get(type(record), "carpenter")
