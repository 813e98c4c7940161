"""How the ends of cables and raceways are named, one way on the screen and on every sheet, and what is written on their
labels: one for each end, the same tag on both."""

from __future__ import annotations

import msgspec

from store.records.whole import Job
from store.records.wiring import Cable, Raceway
from store.rules.cable.kinds import is_power
from store.rules.core.wording import local, named

SOURCE = "ANSI/TIA-606-C (2017): both ends, the same name in the record; within 300 mm of the end (from memory)"
WITHIN_MM = 300
NO_END = "end not entered"


def end_text(job: Job, one: Cable | Raceway, end: str, *, full: bool = False) -> str:
    """The tag of an end, with its name where it is asked for in full; the electrical panel where a power cable has one
    end alone; else that none is entered."""
    if end:
        return named(job, end) if full else end
    if isinstance(one, Cable) and (one.start or one.end) and is_power(job, one):
        return local(job, "electrical panel")
    return NO_END


def ends_text(job: Job, one: Cable | Raceway) -> str:
    """`B6 to B2`."""
    return f"{end_text(job, one, str(one.start))} to {end_text(job, one, str(one.end))}"


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
