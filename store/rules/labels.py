"""What is written on the labels of cables and raceways: one for each end, the same tag on both."""

from __future__ import annotations

import msgspec

from store.records.whole import Job
from store.records.wiring import Cable, Raceway

SOURCE = "ANSI/TIA-606-C (2017): both ends, the same name in the record; within 300 mm of the end (from memory)"
WITHIN_MM = 300


class Label(msgspec.Struct, frozen=True):
    """One label."""

    tag: str
    end: str
    """`from` or `to`: the end it goes on."""
    here: str
    there: str
    """The other end."""
    name: str
    kind: str

    @property
    def lines(self) -> tuple[str, ...]:
        """What stands on it, the tag first."""
        way = f"{self.here or '?'} > {self.there or '?'}"
        return tuple(each for each in (self.tag, way, self.name, self.kind) if each)


def labels(job: Job, tags: tuple[str, ...] = ()) -> tuple[Label, ...]:
    """Two labels for every cable and raceway in use, cables first; only for `tags` where any are given."""
    found = []
    runs: list[Cable | Raceway] = [each for each in job.of(Cable).values() if each.retired is None]
    runs += [each for each in job.of(Raceway).values() if each.type != "grommet"]
    for one in runs:
        if not tags or one.tag in tags:
            found.append(Label(one.tag, "from", one.start, one.end, one.name, one.type))
            found.append(Label(one.tag, "to", one.end, one.start, one.name, one.type))
    return tuple(found)
