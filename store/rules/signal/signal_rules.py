"""Findings about the signal chain: what is not connected, what runs out of ports, what cannot be seen or sent."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from store.records.equipment import Equipment
from store.records.wall import Opening
from store.records.whole import Job
from store.records.wiring import Box, Cable
from store.rules.cable.kinds import kind_named
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import by_key, from_each
from store.rules.core.memo import once
from store.rules.core.wording import listed, named, plain, plural
from store.rules.signal.chain import (
    LINK_WORD,
    Misfit,
    breaks,
    devices_at,
    having,
    links,
    screens,
    sources,
    ways_to_screen,
)
from store.rules.signal.rates import asked_of, picture_gbit_s
from store.rules.wall.contents import opening_at, place_of
from store.rules.wall.layout import cables_at

PRACTICE = "common practice"
PORTS_NOTED = "Ports, as entered"
METAL = ("metal", "steel", "aluminium", "aluminum", "copper", "brass", "iron")


@by_key
def _misfits(job: Job) -> Mapping[str, tuple[Misfit, ...]]:
    """What finds no port, by the cable."""
    found: dict[str, tuple[Misfit, ...]] = {}
    for each in links(job).misfits:
        found[each.cable] = (*found.get(each.cable, ()), each)
    return found


@once
def _told_together(job: Job, port: str) -> tuple[str, ...]:
    """The devices of which it is told that all together have too few ports of a kind."""
    told = {"hdmi": too_few_inputs, "ethernet": too_few_network_ports}.get(port)
    return tuple(dict.fromkeys(tag for each in told(job) for tag in each.tags)) if told is not None else ()


@rule
@from_each(Cable)
def cable_without_port(job: Job, cable: Cable) -> Iterable[Finding]:
    """A cable that finds no port at one of its ends, or is the wrong way round."""
    for misfit in _misfits(job).get(cable.tag, ()):
        word = LINK_WORD.get(misfit.port, misfit.port)
        if misfit.why == "wrong way":
            buried = cable.in_wall and cable.route != "raceway"
            yield Finding(
                "cable_wrong_way_round",
                "stop" if buried else "fix",
                (cable.tag,),
                "One-way cable runs the wrong way",
                f"Turn it around: source end at {cable.end}, other end at {cable.start}. Mark both ends.",
                "the manufacturer's mark on the source end",
                {"from": cable.start, "to": cable.end},
                why=(
                    f"Its source end is at {cable.start}, where there is no {word} output. The outputs are at "
                    f"{cable.end}."
                ),
            )
            continue
        if misfit.why == "used" and (
            _for_guests(job, cable) or {*_told_together(job, misfit.port)} & {*devices_at(job, misfit.at)}
        ):
            continue  # told of the quick-connect, or of all the devices together
        there = listed([named(job, each) for each in devices_at(job, misfit.at)])
        if misfit.why in ("no output", "no input"):
            both = [named(job, each) for end in (cable.start, cable.end) for each in devices_at(job, end)]
            yield Finding(
                "no_port",
                "fix",
                (cable.tag,),
                f"No {word} {misfit.why[3:]} left",
                "Enter the port if it is there. Otherwise run the cable somewhere else.",
                PORTS_NOTED,
                {"port": misfit.port, "at": misfit.at},
                why=(
                    f"{cable.tag} needs an {misfit.why[3:]} for {word} at one end, and none is left at {listed(both)}."
                ),
            )
            continue
        says = (
            f"no equipment there has one ({there})" if misfit.why == "none" else f"all ports there are in use ({there})"
        )
        needed = f"an {misfit.way}put" if misfit.way else "a port"
        yield Finding(
            "no_port" if misfit.why == "none" else "ports_used_up",
            "fix",
            (cable.tag, misfit.at) if misfit.at != cable.tag and misfit.at else (cable.tag,),
            f"No {word} port for it" if misfit.why == "none" else f"No {word} port left for it",
            (
                "Enter the port if it is there. Otherwise run the cable somewhere else, add a switch, or "
                "make it a spare."
            ),
            PORTS_NOTED,
            {"port": misfit.port, "at": misfit.at},
            why=f"{cable.tag} needs {needed} for {word} at {misfit.at}, and {says}.",
            about=(cable.tag,),
        )


def _for_guests(job: Job, cable: Cable) -> bool:
    """True for a cable from a quick-connect."""
    ends = (job.of(Box).get(cable.start), job.of(Box).get(cable.end))
    return any(box is not None and box.what == "quick-connect" for box in ends)


@rule
@from_each(Equipment)
def source_without_way(job: Job, one: Equipment) -> Iterable[Finding]:
    """A source of pictures from which no cable leads to a screen, or a device where several come to an end."""
    if not screens(job):
        return
    at, made = one.tag, breaks(job).get(one.tag)
    if made is None:
        return
    alone = made == (at,)
    yield Finding(
        "source_without_way",
        "fix",
        (at, *(each for each in made if each != at)),
        "No cable to a TV",
        "Add its cable, in the wall or in the cabinet. Or delete the port if it is not used.",
        PORTS_NOTED,
        {"ports": ", ".join(job.of(Equipment)[at].ports), "sources": ", ".join(made)},
        why=(
            f"{at} has a picture output, and no cable runs from it to a TV."
            if alone
            else (
                f"{at} gets the pictures of {listed([named(job, each) for each in made])}, and no cable "
                "runs from it to a TV."
            )
        ),
        about=(at,),
    )


@rule
def too_few_inputs(job: Job) -> Iterable[Finding]:
    """More sources than inputs of the screen and of what switches for it."""
    shown, made = screens(job), sources(job)
    if not shown:
        return
    inputs, outputs = having(job, "hdmi", "in"), having(job, "hdmi", "out")
    fed = {**inputs, **having(job, "hdbaset", "in")}
    switching = [tag for tag in outputs if tag in fed and tag not in shown]
    # Each thing that switches takes up one input farther on.
    places = sum(inputs.values()) - len(switching)
    if made and len(made) > places:
        yield Finding(
            "too_few_inputs",
            "fix",
            (*made, *switching, *shown),
            f"Too few inputs: {plural(len(made), 'source')}, {plural(places, 'input')}",
            "Add a switch with enough inputs, pick a receiver with more, or leave a source out.",
            PORTS_NOTED,
            {"sources": str(len(made)), "inputs": str(places)},
            why=(
                f"Sources: {listed(made)}. {plural(places, 'input')} left for them at {listed([*switching, *shown])}."
            ),
            about=(),
        )


@rule
def too_few_network_ports(job: Job) -> Iterable[Finding]:
    """More devices to be wired to the network than ports of routers and switches."""
    have = having(job, "ethernet", "in")
    gear = [tag for tag in have if job.of(Equipment)[tag].what in ("router", "switch")]
    wired = [tag for tag in have if tag not in gear]
    if not gear or not wired:
        return
    # Routers and switches are joined to each other: every one beyond the first takes a port at both ends.
    places = sum(have[tag] for tag in gear) - 2 * (len(gear) - 1)
    if len(wired) > places:
        by_radio = [tag for tag in wired if job.of(Equipment)[tag].wireless]
        enough = len(wired) - len(by_radio) <= places
        yield Finding(
            "too_few_network_ports",
            "look" if enough else "fix",
            (*wired, *gear),
            f"Too few network ports: {len(wired)} wired, {plural(places, 'port')}",
            "Use a network switch with more ports, or leave those on Wi-Fi that can be.",
            PORTS_NOTED,
            {"devices": str(len(wired)), "ports": str(places)},
            why=f"With a network port: {listed(wired)}. {plural(places, 'port')} left for them at {listed(gear)}."
            + (f" {listed(by_radio)} can use Wi-Fi." if by_radio else ""),
            about=(),
        )


@rule
@from_each(Equipment)
def screen_shows_less(job: Job, record: Equipment) -> Iterable[Finding]:
    """A cable on the way of the picture that is noted for less than the screen can show."""
    screen = record.tag
    if record.what != "screen" or record.retired is not None:
        return
    asked = asked_of(job.of(Equipment)[screen])
    lines = (asked.words if asked else "") or f"{job.of(Equipment)[screen].lines or 0} lines"
    needs = asked.rate if asked else 0.0
    through: dict[str, list[str]] = {}
    for source, way in ways_to_screen(job).items():
        for link in way if way[-1].sink == screen else ():
            if link.port == "hdmi":
                through.setdefault(link.cable, []).append(source)
    for cable, made in through.items():
        rate = picture_gbit_s(job.of(Cable)[cable].carries)
        if rate is not None and rate < needs:
            yield Finding(
                "screen_shows_less",
                "fix" if asked is not None and asked.words else "look",
                (cable, *made, screen),
                f"Cable slower than the TV: {plain(rate)} of {plain(needs)} Gbit/s",
                "Use a higher-grade cable if a source makes such pictures. Otherwise accept this.",
                "HDMI specification 2.0 and 2.1, data rates",
                {"rate": f"{rate:g}", "needs": f"{needs:g}"},
                why=(
                    f"On the way from {listed([named(job, each) for each in made])}. {lines} of "
                    f"{named(job, screen)} in full color need {plain(needs)} Gbit/s."
                ),
                about=(cable,),
            )


@rule
def remote_behind_door(job: Job) -> Iterable[Finding]:
    """A device with an infrared remote behind a door that light does not pass, and no eye for it."""
    eyes = _emitters(job)
    by_place: dict[str, list[str]] = {}
    for tag, one in job.of(Equipment).items():
        if one.remote == "infrared" and one.retired is None:
            by_place.setdefault(place_of(one), []).append(tag)
    for place, opening in job.of(Opening).items():
        blind = by_place.get(place, [])
        if opening.door != "solid" or len(blind) <= max(0, eyes.get(place, 0)):
            continue
        yield Finding(
            "remote_behind_door",
            "fix",
            (place, *blind),
            "Infrared remote behind a solid door",
            "Plan an infrared extender with its eye in front of the door, or a glass door.",
            PRACTICE,
            {"remotes": str(len(blind)), "emitters": str(max(0, eyes.get(place, 0)))},
            why=(
                f"{listed([named(job, each) for each in blind])} {'needs' if len(blind) == 1 else 'need'} "
                f"infrared behind the door of {place}, with "
                f"{plural(max(0, eyes.get(place, 0)), 'emitter')}."
            ),
            about=(place,),
        )


def _emitters(job: Job) -> dict[str, int]:
    """Infrared emitters by opening: outputs of what is there, less leads that go elsewhere, more those that come."""
    eyes: dict[str, int] = {}
    for tag, count in having(job, "infrared", "out").items():
        place = place_of(job.of(Equipment)[tag])
        eyes[place] = eyes.get(place, 0) + count
    for cable in job.of(Cable).values():
        kind = kind_named(cable.type)
        if cable.retired is not None or cable.spare or kind is None or kind.family != "infrared":
            continue
        near, far = opening_at(job, cable.start), opening_at(job, cable.end)
        if near != far:
            eyes[near] = eyes.get(near, 0) - 1
            eyes[far] = eyes.get(far, 0) + 1
    return eyes


@rule
def wireless_in_metal(job: Job) -> Iterable[Finding]:
    """A device that sends or receives by radio in a metal box with a door."""
    metal = {
        tag: one
        for tag, one in job.of(Opening).items()
        if one.door != "none" and any(word in one.material.lower().split() for word in METAL)
    }
    by_place: dict[str, list[str]] = {}
    for tag, one in job.of(Equipment).items():
        if (one.wireless or one.remote == "radio") and one.retired is None and place_of(one) in metal:
            by_place.setdefault(place_of(one), []).append(tag)
    for place, opening in metal.items():
        if inside := by_place.get(place, []):
            yield Finding(
                "wireless_in_metal",
                "fix",
                (place, *inside),
                "Wireless inside a metal cabinet",
                "Put it outside, run its antennas out, or wire it. A metal box blocks radio.",
                PRACTICE,
                {"material": opening.material, "door": opening.door},
                why=(
                    f"{listed([named(job, each) for each in inside])} "
                    f"{'is' if len(inside) == 1 else 'are'} wireless inside {named(job, place)}: "
                    f"{opening.material} with a {opening.door} door."
                ),
                about=(place,),
            )


@rule
@from_each(Box)
def quick_connect_without_input(job: Job, box: Box) -> Iterable[Finding]:
    """A quick-connect that no cable leads from, or whose cable finds no input left."""
    if box.what == "quick-connect":
        tag, misfits = box.tag, {each.cable for each in links(job).misfits}
        cables = [each.tag for each in cables_at(job).get(tag, ()) if each.retired is None]
        stuck = [each for each in cables if each in misfits]
        if cables and not stuck:
            return
        says = f"{listed(stuck)} from it has no input left" if stuck else "no cable runs from it"
        yield Finding(
            "quick_connect_without_input",
            "fix",
            (tag, *stuck),
            "Recessed inlet has no input",
            "Keep an input of the TV or the receiver free for it, and run a cable there.",
            PORTS_NOTED,
            {"cables": ", ".join(cables)},
            why=f"{tag} is for what is plugged in now and then, and {says}.",
            about=(tag,),
        )
