"""Figures of the wall as measured: what governs, what a scribed edge must cover, and how far it leans."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.length import Length
from store.records.wall import Wall
from store.records.whole import Job
from store.rules.core.figures import Figure, figures_of
from store.rules.wall.readings import sizes
from store.rules.wall.squareness import corners, squareness

READ = ("width", "height", "depth")


@figures_of("wall")
def measured(job: Job) -> Iterable[Figure]:
    """The least reading of each size, which governs, the spread of its readings, and the scribe at the sides."""
    for (wall, what), size in sizes(job).items():
        if what in READ:
            yield wall, f"{what}_to_build", size.least
            yield wall, f"{what}_spread", size.spread
            yield wall, f"{what}_readings", len(size.tags)
        if what == "width":
            yield wall, "scribe", size.spread


@figures_of("wall")
def corner_angles(job: Job) -> Iterable[Figure]:
    """The angle of each corner of a wall that was read."""
    for wall in job.of(Wall):
        for one in corners(job).get(wall, ()):
            if one.found is not None:
                yield wall, f"{one.side}_corner_deg", round(one.found.angle_deg, 2)


@figures_of("wall")
def square(job: Job) -> Iterable[Figure]:
    """How far the top of the wall stands to one side of its bottom, and the angle of that."""
    for wall in job.of(Wall):
        found = squareness(job).get(wall)
        if found is not None and found.lean_nm is not None:
            yield wall, "out_of_square", Length(found.lean_nm)
            yield wall, "out_of_square_deg", round(found.off_deg, 3)
            if found.differ_nm is not None:
                yield wall, "diagonals_differ", Length(found.differ_nm)
