"""Figures of the studs for whoever bores them, and of where a cable is first held at each box."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.length import Length, inches
from store.records.wall import Wall
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.core.code import is_us
from store.rules.core.figures import Figure, figures_of
from store.rules.core.keyed import from_each
from store.rules.core.wording import tape_limit
from store.rules.power.wall_wiring import first_support
from store.rules.wall.pieces import bearing
from store.rules.wall.places import POWER_BOXES
from store.trade.cable.install import (
    FREE_CONDUCTOR_IN,
    FREE_OUTSIDE_IN,
)
from store.trade.measured.framing import bore_limit, largest_hole_without_plate, notch_limit


@figures_of("wall")
def studs(job: Job) -> Iterable[Figure]:
    """Largest hole, largest hole that needs no plate, and deepest notch, by wall (IRC R602.6, NEC 300.4).

    Each is rounded down to what a tape shows: 60 % of a 2x4 is 2.1 in, and a bit of 2-1/8 in is beyond it.
    """
    for tag, wall in job.of(Wall).items():
        depth = wall.stud_depth.nm
        for name, limit in (
            ("largest_hole", bore_limit(depth, bearing(wall), metric=not is_us(job))),
            ("hole_without_plate", largest_hole_without_plate(depth)),
            ("deepest_notch", notch_limit(depth, bearing(wall))),
        ):
            yield tag, name, tape_limit(Length(limit), job)


@figures_of("box")
@from_each(Box)
def supports(job: Job, box: Box) -> Iterable[Figure]:
    """How far from each new power box its cable is first held, and how much wire is left free there (300.14)."""
    if box.new and box.what in POWER_BOXES and is_us(job):
        yield box.tag, "first_support", first_support(box)
        yield box.tag, "free_conductor", inches(FREE_CONDUCTOR_IN)
        yield box.tag, "free_outside", inches(FREE_OUTSIDE_IN)
