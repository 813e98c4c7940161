"""Findings about sound: speakers and subwoofers without a run, and the way of the TV's own sound to the receiver."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from store.records.equipment import Equipment
from store.records.whole import Job
from store.records.wiring import Cable
from store.rules.cable.kinds import kind_named
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import of_each
from store.rules.core.wording import listed, named
from store.rules.signal.chain import Link, breaks, devices_at, feeders, having, links, ports, screens

PRACTICE = "common practice"
PORTS_NOTED = "Ports, as entered"
OPTICAL = "hdmi-optical"
MOST_BETWEEN = 4
"""Boxes between a screen and a receiver that are followed; more is no chain of a house."""


@rule
def speaker_not_connected(job: Job) -> Iterable[Finding]:
    """A speaker to which no cable leads, where something drives speakers."""
    made = links(job).made
    joined = {link.sink for link in made}
    if not having(job, "speaker", "out"):
        return
    # A run that ends at a plate with nothing placed there may be for any of them.
    open_ends = sum(link.port == "speaker" and not link.sink for link in made)
    alone = [tag for tag, count in having(job, "speaker", "in").items() if tag not in joined and count]
    alone = [tag for tag in alone if not job.of(Equipment)[tag].wireless]
    for tag in alone if len(alone) > open_ends else ():
        one = job.of(Equipment)[tag]
        yield Finding(
            "speaker_not_connected",
            "fix",
            (tag,),
            "No speaker cable",
            "Add its cable, and check that the amplifier has an output left.",
            PORTS_NOTED,
            {"ports": ", ".join(one.ports)},
            why="It has a speaker input, and no speaker cable runs to it.",
        )


@of_each(Cable)
def _without_ports(job: Job, cable: Cable) -> tuple[str, ...] | None:
    """The devices that a cable ends at and whose ports are not entered."""
    ends = (cable.start, cable.end) if cable.retired is None else ()
    return tuple(device for end in ends for device in devices_at(job, end) if not ports(job)[device]) or None


@rule
def subwoofer_not_connected(job: Job) -> Iterable[Finding]:
    """A subwoofer to which no line runs, where something gives it one."""
    made = links(job).made
    joined = {link.sink for link in made}.union(*_without_ports(job).values())
    subs = [tag for tag, one in job.of(Equipment).items() if one.what == "subwoofer" and one.retired is None]
    givers = [tag for tag in having(job, "line", "out") if tag not in subs]
    # A run that ends at a plate with nothing placed there may be its.
    open_ends = sum(link.port == "line" and not link.sink for link in made)
    alone = [tag for tag in subs if tag not in joined and not job.of(Equipment)[tag].wireless]
    for tag in alone if givers and len(alone) > open_ends else ():
        yield Finding(
            "subwoofer_not_connected",
            "fix",
            (tag, *givers),
            "No run to the subwoofer",
            "Add its line cable: coax with RCA ends from the sub output. Or enter that it is wireless.",
            PORTS_NOTED,
            {"ports": ", ".join(job.of(Equipment)[tag].ports), "from": ", ".join(givers)},
            why=f"{listed([named(job, each) for each in givers])} has a line output, and no cable runs to here.",
            about=(tag,),
        )


def _ways_from(job: Job, screen: str, gear: list[str]) -> Iterator[tuple[Link, ...]]:
    """The picture cables from a receiver or a soundbar to a screen, back from the screen through what is between."""
    waiting: list[tuple[Link, ...]] = [(link,) for link in feeders(job, screen)]
    while waiting:
        way = waiting.pop()
        if way[-1].source in gear:
            yield way
        elif way[-1].source and len(way) <= MOST_BETWEEN:
            waiting += [(*way, link) for link in feeders(job, way[-1].source) if link not in way]


def _returns(job: Job, way: tuple[Link, ...]) -> bool:
    """True where every device on a way has a port that sends sound back."""
    tags = [way[0].sink, *(link.source for link in way)]
    return all(any(port.returns for port in ports(job)[tag]) for tag in tags)


@rule
def no_sound_return(job: Job) -> Iterable[Finding]:
    """A screen with pictures of its own, and sound gear that it has no way to send their sound to."""
    gear = [
        tag
        for tag, one in job.of(Equipment).items()
        if one.what in ("receiver", "soundbar") and one.retired is None and ports(job)[tag]
    ]
    if not gear:
        return
    made = links(job).made
    for screen in screens(job):
        own = job.of(Equipment)[screen].wireless or any(
            port.kind in ("coax", "ethernet") for port in ports(job)[screen]
        )
        returns = any(_returns(job, way) for way in _ways_from(job, screen, gear))
        sent = any(link.source == screen and link.port in ("optical", "line", "hdmi") for link in made)
        explained = bool(breaks(job)) or any(each.port == "hdmi" for each in links(job).misfits)
        cut_off = explained and not list(feeders(job, screen))
        if own and ports(job)[screen] and not returns and not sent and not cut_off:
            yield Finding(
                "no_sound_return",
                "look",
                (screen, *gear),
                "No TV audio to the receiver",
                (
                    "If both have an HDMI port with ARC, enter hdmi arc in and hdmi arc out. Otherwise add "
                    "an optical or line cable."
                ),
                PRACTICE,
                {"screen": ", ".join(job.of(Equipment)[screen].ports)},
                why=(
                    f"{screen} plays antenna or network sound, and no ARC, optical or line link brings it to "
                    f"{listed([named(job, each) for each in gear])}."
                ),
                about=(screen,),
            )


@rule
def sound_return_over_optical(job: Job) -> Iterable[Finding]:
    """The TV's sound back through an optical HDMI cable that is not entered as one that passes it."""
    gear = [tag for tag, one in job.of(Equipment).items() if one.what in ("receiver", "soundbar")]
    for screen in screens(job):
        for way in _ways_from(job, screen, gear):
            for link in way if _returns(job, way) else ():
                cable = job.of(Cable)[link.cable]
                kind = kind_named(cable.type)
                said = f"{cable.type} {cable.name} {cable.carries} {cable.rating}".lower()
                if kind is None or kind.key != OPTICAL or "arc" in said:
                    continue
                yield Finding(
                    "sound_return_over_optical",
                    "look",
                    (link.cable, screen, way[-1].source),
                    "Does this optical cable pass eARC?",
                    "Read its data sheet. If it passes eARC, enter it under must carry, like 48 Gbit/s eARC. If not, "
                    "choose one that does, or add an optical sound cable.",
                    PRACTICE,
                    {"cable": cable.type, "carries": cable.carries},
                    why=f"{named(job, screen)} sends its own sound back through it, and many optical cables pass the "
                    "picture only.",
                    about=(link.cable,),
                )
