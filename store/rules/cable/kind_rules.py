"""Findings about what a cable is and where it runs by the plan: what is not known may not go into a wall."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.whole import Job
from store.records.wiring import Cable, Raceway
from store.rules.cable.in_wall import cord_of, in_the_wall, told_by_places, told_by_raceway
from store.rules.cable.kinds import PRACTICE, kind_named
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.trade.cable.kinds import IN_RACEWAY_ONLY, SINGLE

IN_WALL = "NFPA 70 (NEC) 300, 334, 722 and 800, 2020 and 2023: only listed cable is run inside a wall"
IN_WALL_METRIC = "IEC 60364-5-52 and the national rules: only cable made for it is run inside a wall (from memory)"
SINGLE_METRIC = "IEC 60364-5-52, table of wiring methods (from memory)"


def _ends(cable: Cable) -> dict[str, str]:
    """What an answer about a cable is about: its words and its way."""
    way = f"{cable.start or 'not entered'} to {cable.end or 'not entered'}"
    return {"type": cable.type, "way": way, "raceway": str(cable.raceway)}


def _places(job: Job, cable: Cable) -> str:
    """The two places between which the plan leads a cable through the wall."""
    raceway = job.of(Raceway).get(cable.raceway)
    if raceway is not None and told_by_raceway(job, cable):
        return f"{raceway.tag} runs in the wall: {raceway.start} and {raceway.end}"
    return f"{cable.start} and {cable.end}"


@rule
@from_each(Cable)
def cable_unknown_in_wall(job: Job, cable: Cable) -> Iterable[Finding]:
    """A cable in the wall whose type is none of the list: nobody can say that it may be there."""
    if cable.retired is not None or not cable.in_wall:
        return
    if kind_named(cable.type) is not None or cord_of(job, cable):
        return
    yield Finding(
        "cable_unknown_in_wall",
        "stop",
        (cable.tag,),
        "Unknown cable in the wall",
        "Read the jacket and pick its type from the list, like cat6, speaker-14-2 or nm-12-2. If none fits, ask "
        'the inspector: "May this cable run in the wall?" Enter the answer.',
        IN_WALL if job.settings.region == "us" else IN_WALL_METRIC,
        _ends(cable),
        why=f"{cable.type[:60]!r} is not a type on the list. It is not known if it can run in a wall.",
    )


@rule
@from_each(Cable)
def cable_out_of_wall_by_word(job: Job, cable: Cable) -> Iterable[Finding]:
    """A cable that is said to stay out of the wall, and that the plan leads through it."""
    if cable.retired is not None or cable.in_wall or cord_of(job, cable) or not told_by_places(job, cable):
        return
    yield Finding(
        "cable_out_of_wall_by_word",
        "stop",
        (cable.tag,),
        "The plan runs it in the wall",
        "Enter it as in the wall, with a cable rated for that. Or end both ends in one cabinet.",
        PRACTICE,
        _ends(cable),
        why=f"Entered as not in the wall, but {_places(job, cable)} share no cabinet.",
    )


@rule
@from_each(Cable)
def conductor_without_raceway(job: Job, cable: Cable) -> Iterable[Finding]:
    """Single conductors in the wall that no raceway holds."""
    kind = kind_named(cable.type)
    if kind is None or kind.key not in IN_RACEWAY_ONLY or not in_the_wall(job, cable):
        return
    if cable.route != "raceway" or not cable.raceway:
        yield Finding(
            "conductor_without_raceway",
            "stop",
            (cable.tag,),
            "Single conductors loose in the wall",
            "Run it in a raceway and enter that. Or use cable, like NM-B.",
            SINGLE if job.settings.region == "us" else SINGLE_METRIC,
            _ends(cable),
            why=f"{kind.name} is not a cable. It needs a raceway from box to box.",
        )
