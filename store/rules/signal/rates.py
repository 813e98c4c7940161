"""The data rate that pictures take: what a screen is to show, and what each part of the way to it carries."""

from __future__ import annotations

from collections.abc import Mapping

import msgspec

from store.records.equipment import Equipment
from store.records.whole import Job
from store.records.wiring import Cable
from store.rules.cable.lengths import gbit_s
from store.rules.core.keyed import by_key
from store.rules.signal.chain import PICTURE, Link, ways_to_screen
from store.trade.signal.ports import port_key
from store.trade.signal.video import format_gbit_s, version_gbit_s

NEEDS_GBIT_S = {2160: 18.0, 4320: 48.0}
"""Rate for full color at 60 Hz, by picture lines: HDMI 2.0 (2160); HDMI 2.1 with compression (4320)."""


class Asked(msgspec.Struct, frozen=True):
    """What a screen is to show."""

    rate: float
    """Gbit/s."""
    words: str
    """As entered: `4K 120`; empty where only its lines are."""


class Part(msgspec.Struct, frozen=True):
    """A cable or a device on the way of a picture, with the most that it carries."""

    tag: str
    rate: float


def asked_of(one: Equipment) -> Asked | None:
    """The rate of what a screen is to show, else of its lines in full color at 60 Hz; None where neither says one."""
    stated = picture_gbit_s(one.shows)
    if stated is not None:
        return Asked(stated, one.shows.strip())
    lines = max((rate for line, rate in NEEDS_GBIT_S.items() if line <= (one.lines or 0)), default=0.0)
    return Asked(lines, "") if lines else None


def picture_gbit_s(text: str) -> float | None:
    """A rate as written, or that of a format: `48 Gbit/s`, `4K 120`; None where it names neither."""
    return gbit_s(text) or format_gbit_s(text)


def port_gbit_s(one: Equipment, *, least: bool = True) -> float | None:
    """The most that the HDMI ports of a device carry, by a rate or a version in their words; the least of them."""
    rates = [
        rate
        for text in one.ports
        if port_key(text) in PICTURE and (rate := gbit_s(text) or version_gbit_s(text)) is not None
    ]
    return (min if least else max)(rates, default=None)


@by_key
def wanted_of_cable(job: Job) -> Mapping[str, Asked]:
    """By the tag of each picture cable on the way to a screen, the most that is asked of it."""
    found: dict[str, Asked] = {}
    for way in ways_to_screen(job).values():
        asked = asked_of(job.of(Equipment)[way[-1].sink])
        for link in way if asked is not None else ():
            if link.cable not in found or (asked is not None and found[link.cable].rate < asked.rate):
                assert asked is not None
                found[link.cable] = asked
    return found


def parts_of(job: Job, way: tuple[Link, ...]) -> tuple[Part, ...]:
    """What is known of each cable and device on a way, the source and the screen among them, in turn."""
    things, found = job.of(Equipment), []
    for at, link in enumerate(way):
        for tag in (link.source, link.cable, link.sink) if at == len(way) - 1 else (link.source, link.cable):
            one = things.get(tag)
            # Of the ends their best port counts, the one that will be used; of what is between the least.
            between = tag != way[0].source and tag != way[-1].sink
            # What a category cable is noted for is the rate of its network.
            carried = picture_gbit_s(job.of(Cable)[link.cable].carries) if link.port == "hdmi" else None
            rate = carried if one is None else port_gbit_s(one, least=between)
            if rate is not None:
                found.append(Part(tag, rate))
    return tuple(found)
