"""How the end of a cable or raceway is named, one way on the screen and on every sheet."""

from __future__ import annotations

from store.records.whole import Job
from store.records.wiring import Cable, Raceway
from store.rules.cable.kinds import is_power
from store.rules.core.wording import local, named

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
