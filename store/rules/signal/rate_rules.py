"""Findings about the rate of pictures and data: the weakest part of a chain, and cords too long for their rate."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.equipment import Equipment
from store.records.whole import Job
from store.records.wiring import Box, Cable
from store.rules.cable.kinds import kind_named
from store.rules.cable.lengths import gbit_s, needs
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import named, plain, run_at_most, said
from store.rules.signal.chain import PORTS_OF, devices_at, ways_to_screen
from store.rules.signal.rates import asked_of, parts_of
from store.trade.measured.bounds import exceeds
from store.trade.signal.links import (
    TOSLINK_MOST_NM,
    TOSLINK_PLAN_NM,
    TOSLINK_SOURCE,
    USB_SOURCE,
    usb_gbit_s,
    usb_limit_nm,
)
from store.trade.signal.ports import port_key
from store.trade.signal.video import SOURCE, version_gbit_s

PRACTICE = "common practice"
_HDCP_OLD = ("hdcp 1", "hdcp1")
FOUR_K_LINES = 2160
OLD_EXTENDER_GBIT_S = 10.2
"""What extenders over category cable carried before those of 18 Gbit/s (from memory, medium)."""
MAKES_SURE = ("receiver", "soundbar", "screen")
"""Made to pass pictures on whole; of anything else it is asked."""


@rule
@from_each(Equipment)
def chain_too_slow(job: Job, record: Equipment) -> Iterable[Finding]:
    """A device on the way of a picture whose ports carry less than the screen is to show; the weakest is named."""
    screen = record.tag
    if record.what != "screen" or record.retired is not None:
        return
    asked = asked_of(job.of(Equipment)[screen])
    weakest: dict[str, tuple[float, list[str]]] = {}
    for source, way in ways_to_screen(job).items():
        if asked is None or way[-1].sink != screen or not (parts := parts_of(job, way)):
            continue
        weak = min(parts, key=lambda part: (part.rate, part.tag in job.of(Cable)))
        # A cable that is the weakest is told by the rule of cables.
        if weak.rate < asked.rate and exceeds(asked.rate, weak.rate) and weak.tag in job.of(Equipment):
            weakest.setdefault(weak.tag, (weak.rate, []))[1].append(source)
    for tag, (rate, made) in weakest.items():
        assert asked is not None
        shows = asked.words or f"{job.of(Equipment)[screen].lines} lines"
        yield Finding(
            "chain_too_slow",
            "fix" if asked.words else "look",
            (tag, *(each for each in made if each != tag), *(() if tag == screen else (screen,))),
            f"{rate:g} Gbit/s, {screen} needs {plain(asked.rate)}",
            f"Choose one with ports for {plain(asked.rate)} Gbit/s"
            + (
                ", or run the picture around it and its sound back by eARC; or accept less."
                if tag != screen and tag not in made
                else "; or accept less."
            ),
            SOURCE,
            {"has": f"{rate:g} Gbit/s", "needs": f"{plain(asked.rate, 2)} Gbit/s", "shows": shows},
            why=f"{shows} needs {plain(asked.rate)} Gbit/s. {named(job, tag)} is the weakest part of the way from "
            f"{', '.join(made)} to {screen}.",
            about=(tag,),
        )


@rule
@from_each(Equipment)
def hdcp_too_old(job: Job, one: Equipment) -> Iterable[Finding]:
    """A device between a source and a 4K screen whose HDMI ports pass on old copy protection only."""
    old = [text for text in one.ports if any(each in " ".join(text.lower().split()) for each in _HDCP_OLD)]
    if one.retired is not None or not old:
        return
    on = [
        way[-1].sink
        for way in ways_to_screen(job).values()
        if any(one.tag in (link.source, link.sink) for link in way)
        and (job.of(Equipment)[way[-1].sink].lines or 0) >= FOUR_K_LINES
    ]
    if on:
        yield Finding(
            "hdcp_too_old",
            "fix",
            (one.tag, *dict.fromkeys(each for each in on if each != one.tag)),
            "HDCP 1.x in a 4K chain",
            "Choose one with HDCP 2.2 or newer on every HDMI port, or run the picture around it.",
            "Common practice: HDCP 2.2 for 4K discs and streams",
            {"ports": ", ".join(old)},
            why="4K discs and streams need HDCP 2.2 in every device on the way. Without it the picture is 1080 or "
            "black.",
            about=(one.tag,),
        )


@rule
@from_each(Equipment)
def between_passes_on(job: Job, one: Equipment) -> Iterable[Finding]:
    """A switch, splitter or extender on the way of a picture of which nobody entered what else it passes on."""
    if one.retired is not None or one.what in MAKES_SURE:
        return
    ways = [way for way in ways_to_screen(job).values() if any(one.tag == link.sink for link in way[:-1])]
    if not ways:
        return
    words = " ".join(text.lower() for text in one.ports if port_key(text) in ("hdmi", "hdbaset"))
    deep = any((job.of(Equipment)[way[-1].sink].lines or 0) >= FOUR_K_LINES for way in ways)
    missing = [] if "hdcp" in words else ["HDCP 2.2" if deep else "HDCP"]
    missing += [] if "cec" in words else ["CEC"]
    if missing:
        yield Finding(
            "between_passes_on",
            "look",
            (one.tag,),
            f"Passes on {' and '.join(missing)}?",
            "Read its data sheet and enter it in the ports, like hdmi in HDCP 2.2 CEC. Without HDCP the picture is "
            "black; without CEC one remote does not turn everything on.",
            "Common practice: what is between passes on HDCP, and CEC if asked for",
            {"ports": ", ".join(one.ports)},
            why=f"It is between {', '.join(dict.fromkeys(way[0].source for way in ways))} and "
            f"{named(job, ways[0][-1].sink)}, and its ports do not say.",
        )


@rule
@from_each(Equipment)
def extender_too_slow(job: Job, one: Equipment) -> Iterable[Finding]:
    """The sending end of an extender of which no rate is entered, for pictures that old ones do not carry whole."""
    if one.retired is not None or one.what == "screen":
        return
    for way in ways_to_screen(job).values():
        link = next((each for each in way if each.port == "hdbaset" and each.source == one.tag), None)
        asked = asked_of(job.of(Equipment)[way[-1].sink])
        if link is None or asked is None or not exceeds(asked.rate, OLD_EXTENDER_GBIT_S):
            continue
        if any((gbit_s(text) or version_gbit_s(text)) for text in one.ports if port_key(text) == "hdbaset"):
            return  # what its link says is judged with the rest of the chain
        yield Finding(
            "extender_too_slow",
            "look",
            (one.tag, way[-1].sink),
            f"Does the extender carry {plain(asked.rate)} Gbit/s?",
            "Read its data sheet. Enter the rate in its ports, like hdbaset out 18 Gbit/s. Older ones carry 4K at 60 "
            "Hz only compressed or with less color.",
            PRACTICE,
            {"needs": f"{plain(asked.rate, 2)} Gbit/s", "ports": ", ".join(one.ports)},
            why=f"{named(job, way[-1].sink)} shows {asked.words or 'its lines in full color'}: {plain(asked.rate)} "
            "Gbit/s. Ask for 18 Gbit/s, not for a version number.",
            about=(one.tag,),
        )
        return


def _usb_rate(job: Job, cable: Cable) -> float | None:
    """What a USB cable is to carry, Gbit/s: as it must, else by the name of its kind; None where neither says."""
    return gbit_s(cable.carries) or usb_gbit_s(f"{cable.carries} {cable.type}") or usb_gbit_s(cable.name)


@rule
@from_each(Cable)
def cord_too_long_for_rate(job: Job, cable: Cable) -> Iterable[Finding]:
    """A passive USB cord at a rate that goes less far, or an optical sound cord beyond what is planned."""
    need = needs(job).get(cable.tag)
    if need is None or need.kind is None or need.cut is None or need.kind.key not in ("usb", "toslink"):
        return
    length = need.sold or need.cut
    if need.kind.key == "usb":
        rate = _usb_rate(job, cable)
        if rate is None or rate <= 0.48 or length <= (limit := usb_limit_nm(rate)):
            return
        at, source, most = f" at {rate:g} Gbit/s", USB_SOURCE, limit
        remedy = "Use an active or optical USB cable, or an extender over category cable; or lower the rate."
    else:
        if length <= TOSLINK_PLAN_NM:
            return
        at, source, most = "", TOSLINK_SOURCE, TOSLINK_PLAN_NM
        remedy = "Use HDMI with eARC or a digital coax cable, or try it before the wall is covered."
    sure = need.kind.key == "usb" or length > TOSLINK_MOST_NM
    yield Finding(
        "cord_too_long_for_rate",
        "fix" if sure else "look",
        (cable.tag,),
        f"Too long{at}: {said(job, length)}, {run_at_most(job, most)} works",
        remedy,
        source,
        {"length": said(job, length), "most": run_at_most(job, most), "rate": cable.carries},
        why=f"{need.kind.name} carries that to about {run_at_most(job, most)}.",
    )


@rule
@from_each(Cable)
def cable_goes_nowhere(job: Job, cable: Cable) -> Iterable[Finding]:
    """A signal cable from a thing to itself. One with an end that is left open is told where ways to ends are."""
    kind = kind_named(cable.type)
    if cable.retired is not None or kind is None or kind.family not in PORTS_OF:
        return
    if cable.start and cable.start == cable.end:
        devices = devices_at(job, cable.start)
        if isinstance(job.get(cable.start), Box) or len(devices) < 2:
            yield Finding(
                "cable_goes_nowhere",
                "fix",
                (cable.tag,),
                f"Both ends at {cable.start}",
                "Enter where its other end goes, or delete it.",
                PRACTICE,
                {"from": cable.start, "to": cable.end},
                why=f"It starts and ends at {named(job, cable.start)}, so it joins nothing.",
            )
