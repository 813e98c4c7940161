"""What is written on the labels of cables and raceways: one for each end, the same tag on both."""

from __future__ import annotations

import msgspec

from store.records.whole import Job
from store.records.wiring import Cable, Raceway
from store.rules.cable.ends import end_text

SOURCE = "ANSI/TIA-606-C (2017): both ends, the same name in the record; within 300 mm of the end (from memory)"
WITHIN_MM = 300


class Label(msgspec.Struct, frozen=True):
    """One label."""

    tag: str
    end: str
    """`from` or `to`: the end it goes on."""
    here: str
    """Where that end is: the tag of a box, a device or an opening, or words for one that is on no list."""
    there: str
    """The other end."""
    name: str
    kind: str

    @property
    def lines(self) -> tuple[str, ...]:
        """What stands on it, the tag first."""
        way = f"at {self.here}, to {self.there}"
        return tuple(each for each in (self.tag, way, self.name, self.kind) if each)


def labels(job: Job, tags: tuple[str, ...] = ()) -> tuple[Label, ...]:
    """Two labels for every cable and raceway in use, cables first; only for `tags` where any are given."""
    found = []
    runs: list[Cable | Raceway] = [each for each in job.of(Cable).values() if each.retired is None]
    runs += [each for each in job.of(Raceway).values() if each.type != "grommet"]
    for one in runs:
        if not tags or one.tag in tags:
            start, end = (end_text(job, one, str(each)) for each in (one.start, one.end))
            found.append(Label(one.tag, "from", start, end, one.name, one.type))
            found.append(Label(one.tag, "to", end, start, one.name, one.type))
    return tuple(found)
