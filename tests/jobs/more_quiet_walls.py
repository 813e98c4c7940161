"""Six more ordinary walls, well made: what was thought of after the first ten.

`MORE` is by name; each is one of the first with something changed or added.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import msgspec

from store.records.base import Record
from store.records.equipment import Equipment
from store.records.wall import Obstacle, Wall
from store.records.whole import Job
from store.records.wiring import Box, Cable, Circuit
from tests.jobs.quiet_walls import bearing, device, fireplace, made, metric, plain_tv, run


def put(job: Job, *records: Record) -> Job:
    """The job with these records in the place of those of their tags, or new."""
    tables = {kind: dict(table) for kind, table in job.tables.items()}
    for each in records:
        tables[each.kind][each.tag] = each
    return Job(tables, today=job.today)


def changed(job: Job, cls: type[Record], tag: str, **values: Any) -> Job:
    """The job with some values of one record changed."""
    return put(job, msgspec.structs.replace(job.of(cls)[tag], **values))


def half_switched() -> Job:
    """A lamp on the switched half of a receptacle that was there, worked by a switch with a neutral."""
    lamp = device("E9", "Lamp", "light", opening="", plug="B98", half="switched", watts=12.0)
    switch = made(Box, "B97", what="switch", wall="W1", x="4", y="46", circuit="C9", new=False, volume=18.0,
                  devices=("switch 14",), conductors=("14-3 G", "14-2 G"))  # fmt: skip
    return put(changed(plain_tv(), Box, "B98", switched="half"), lamp, switch)


def plugged_fireplace() -> Job:
    """The fireplace on a plug of its own, on a single receptacle of 20 A."""
    job = changed(fireplace(), Equipment, "E5", power="cord", cord=made(Equipment, "E0", name="", cord="6'").cord)
    single = ("single receptacle TR 20 A 12",)
    return changed(job, Box, "B5", what="receptacle", receptacles=1, devices=single)


def beside_a_return() -> Job:
    """The plain wall with a return grille in a stud bay that no cable runs in."""
    return put(plain_tv(), made(Obstacle, "O1", wall="W1", what="vent", x="4", y="8", width="12", height="6"))


def ring() -> Job:
    """The metric wall on a ring of 32 A, with both legs to the consumer unit."""
    job = metric()
    ringed = changed(job, Circuit, "C1", breaker=32.0, wiring="ring")
    return put(ringed, run("K9", "2.5 mm2 twin and earth", "", start="B1", name="leg back"))


def insulated() -> Job:
    """The bearing wall with batts in its bays: one power cable to a bay is none too many."""
    return changed(bearing(), Wall, "W1", insulation="batts")


def gaming() -> Job:
    """4K at 120 Hz from a console through optical cable, all HDMI 2.1."""
    console = device(
        "E5", "Console", "console", ports=("hdmi 2.1 out",), watts=200.0, height="4", depth="12", offset="14"
    )
    job = changed(plain_tv(), Equipment, "E1", shows="4K 120", ports=("4x hdmi 2.1 in", "ethernet"))
    job = changed(job, Box, "B3", receptacles=4, gangs=2, devices=("2 x receptacle TR 12",), volume=34.0)
    job = changed(job, Cable, "K3", type="hdmi-optical", directional=True, carries="48 Gbit/s")
    second = run("K9", "hdmi-optical", "CL3", "B4", "B2", route="raceway", raceway="R1", carries="48 Gbit/s")
    return put(job, console, msgspec.structs.replace(second, directional=True))


MORE: dict[str, Callable[[], Job]] = {
    "half switched": half_switched, "plugged fireplace": plugged_fireplace, "beside a return": beside_a_return,
    "ring": ring, "insulated": insulated, "gaming": gaming,
}  # fmt: skip
