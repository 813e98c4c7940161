"""Whether a cable runs in the wall: as the owner says, or as the places of its ends tell, which no flag overrules."""

from __future__ import annotations

from store.records.whole import Job
from store.records.wiring import Cable, Raceway
from store.rules.cable.kinds import kind_named
from store.rules.wall.cabinets import through_the_wall
from store.trade.cable.cords import cord_named


def cord_of(job: Job, cable: Cable) -> str:
    """The name of a flexible cord that a cable goes by; empty when it is none.

    Its type says so, or what is printed on its jacket. Where the type is judged by its jacket, that finding tells.
    """
    kind = kind_named(cable.type)
    judged = kind is not None and kind.needs and job.settings.region == "us"
    return cord_named(cable.type) or ("" if judged else cord_named(cable.rating))


def told_by_raceway(job: Job, cable: Cable) -> bool:
    """True when the raceway of a cable is in the wall: it leads from a place of it to another."""
    raceway = job.of(Raceway).get(cable.raceway) if cable.route == "raceway" else None
    return raceway is not None and raceway.type != "grommet" and through_the_wall(job, raceway.start, raceway.end)


def told_by_places(job: Job, cable: Cable) -> bool:
    """True when the plan leads a cable through the wall, by its ends or by a raceway that is in the wall."""
    return told_by_raceway(job, cable) or through_the_wall(job, cable.start, cable.end)


def in_the_wall(job: Job, cable: Cable) -> bool:
    """True for a cable in use that runs in the wall, whatever its own flag says."""
    return cable.retired is None and (cable.in_wall or told_by_places(job, cable))
