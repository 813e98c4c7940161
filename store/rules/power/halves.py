"""Which half of a half-switched receptacle a thing gets its power from."""

from __future__ import annotations

from store.records.equipment import Equipment
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.power.plan import Feed, power


def half_it_gets(job: Job, one: Equipment) -> str:
    """`switched`, `always on`, or empty when that is not said, of the place a thing gets its power from."""
    feed = power(job).feeds.get(one.tag, Feed())
    box = job.of(Box).get(feed.box)
    if box is None:
        return ""
    if box.switched != "half":
        return "switched" if box.switched == "all" else "always on"
    plugged = job.of(Equipment)[feed.via[-1]] if feed.via else one
    return "" if plugged.half == "either" else plugged.half
