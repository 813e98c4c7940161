"""What a cable or a raceway is on a drawing, and the stretches of its way; for every view of a wall the same."""

from __future__ import annotations

import msgspec

from store.records.whole import Job
from store.records.wiring import Cable, Raceway
from store.rules.cable.courses import raceway_course
from store.rules.cable.kinds import is_power
from store.rules.cable.legs import Leg
from store.rules.cable.routes import routes
from store.rules.drawing.shapes import Layer


class Led(msgspec.Struct, frozen=True):
    """A cable or a raceway as it is drawn."""

    layer: Layer
    kind: str
    """`power` or `signal`; of a raceway its type."""
    label: str
    legs: tuple[Leg, ...]
    """Empty while its way is not known, or where it was given up."""


def led(job: Job, one: Raceway | Cable) -> Led:
    """How a cable or a raceway is led, and what it is called on a drawing."""
    if isinstance(one, Raceway):
        way = raceway_course(job, one)
        return Led("raceways", one.type, one.name or one.type, () if isinstance(way, str) else way.legs)
    route = routes(job).get(one.tag)
    kind = "power" if is_power(job, one) else "signal"
    return Led("cables", kind, one.name or one.type, route.legs if route is not None else ())
