"""The wall as measured: several readings of one thing, their spread, and the one that governs."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

import msgspec

from store.measure.length import Length
from store.records.wall import Reading, Wall
from store.records.whole import Job
from store.rules.core.keyed import by_key
from store.rules.core.proposed import rough_sizes


class Size(msgspec.Struct, frozen=True):
    """What the readings of one thing on one wall come to."""

    wall: str
    what: str
    tags: tuple[str, ...]
    least: Length
    """What governs: nothing wider than this goes in."""
    greatest: Length
    least_tag: str

    @property
    def spread(self) -> Length:
        """Greatest less least: what a scribed edge must cover."""
        return self.greatest - self.least


def that_count(job: Job) -> Iterable[Reading]:
    """The readings but for rough sizes that were measured since."""
    rough = rough_sizes(job)
    return (each for each in job.of(Reading).values() if each.tag not in rough)


@by_key
def sizes(job: Job) -> Mapping[tuple[str, str], Size]:
    """The governing sizes, by wall and by what was read; a rough one of a first plan only until it is measured."""
    groups: dict[tuple[str, str], list[Reading]] = {(wall, ""): [] for wall in job.of(Wall)}
    for reading in that_count(job):
        groups.setdefault((reading.wall, reading.what), []).append(reading)
    found = {}
    for (wall, what), group in groups.items():
        if group:
            least = min(group, key=lambda each: each.value.nm)
            greatest = max(group, key=lambda each: each.value.nm)
            tags = tuple(each.tag for each in group)
            found[wall, what] = Size(wall, what, tags, least.value, greatest.value, least.tag)
    return found
