"""What is connected to what: ports of devices, and the cables that join them.

A cable ends in a box, in an opening or at a device. A box and an opening stand for the devices in that place; which
of them a cable serves follows from their ports: a picture runs from an output to an input, and no port is used twice.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Mapping

import msgspec

from store.records.equipment import Equipment
from store.records.whole import Job
from store.records.wiring import Box, Cable
from store.rules.cable.kinds import kind_named
from store.rules.core.keyed import by_key
from store.rules.core.memo import once
from store.rules.wall.contents import opening_at, places
from store.rules.wall.hung import hidden_by
from store.trade.signal.ports import port_key

PORTS_OF = {
    "hdmi": ("hdmi",),
    "displayport": ("displayport",),
    "category": ("ethernet", "hdbaset"),
    "coax": ("coax", "line"),
    "speaker": ("speaker",),
    "line": ("line",),
    "usb": ("usb",),
    "fibre": ("optical", "fibre"),
    "infrared": ("infrared",),
}
"""The ports that a family of cable joins, in order of likelihood."""

PICTURE = ("hdmi", "hdbaset")
"""Ports that a picture goes over: an extender sends it on over category cable."""
_EXTENDS = re.compile(r"hd ?base ?t|extender", re.IGNORECASE)
"""A category cable that is said to be for an extender goes to one first."""
LINK_WORD = {"hdmi": "HDMI", "hdbaset": "HDBaseT", "ethernet": "network", "usb": "USB"}
"""How a port is written where its own word will not do."""

UNKNOWN_PORT = "unknown"
"""The kind of a port of which a text says no more than its way."""
MOST_PORTS = 64
"""So many ports of one kind are read at most."""

TALKERS = (
    "screen", "receiver", "player", "streamer", "console", "recorder", "router", "switch", "speaker", "subwoofer",
    "soundbar",
)  # fmt: skip
"""Sorts of device that have signal ports; with none noted, nothing is said of their place."""


class Port(msgspec.Struct, frozen=True):
    """One port of a device."""

    kind: str
    way: str
    """`in`, `out` or `both`."""
    returns: bool = False
    """Sends sound back along a picture cable (ARC, eARC)."""


class Link(msgspec.Struct, frozen=True):
    """A cable with the devices it joins; an empty tag where a side is not known."""

    cable: str
    port: str
    source: str
    sink: str


class Misfit(msgspec.Struct, frozen=True):
    """A cable that finds no port at one of its ends."""

    cable: str
    at: str
    port: str
    why: str
    """`none` of its kind there, all `used`, the cable turned the `wrong way` for one that works one way round, or two
    inputs (`no output`) or two outputs (`no input`) at its ends."""
    way: str = ""
    """`in` or `out`, where a port of the other way would not do."""


class Links(msgspec.Struct, frozen=True):
    """All connections, and what was left over."""

    made: tuple[Link, ...]
    misfits: tuple[Misfit, ...]
    free: dict[tuple[str, str, str], int]
    """Ports left free, by device, kind and way."""


_COUNT = re.compile(r"[x×]?(\d{1,2})[x×]?", re.ASCII)
_MINI_JACK = re.compile(r"\b3\.5 ?mm\b(?: (?:mini ?)?jack)?")
"""Its 3 is no count."""
_TIMES = re.compile(r"(?<!\S)[x×] (\d{1,2})\b")
_NO_NAMES = ("in", "out", "input", "output", "inputs", "outputs", "arc", "earc", "x", "port", "ports")


def read_ports(text: str) -> tuple[Port, ...]:
    """Ports as typed: `hdmi in`, `hdmi arc out`, `HDMI 2 in (eARC)`, `ethernet`; `3x hdmi in` are three.

    A number in front, or one with an x, is how many; one elsewhere is the maker's number of the port.
    """
    plain = _MINI_JACK.sub("minijack", text.lower())
    words = _TIMES.sub(r"x\1", re.sub(r"[^\w×]+", " ", plain)).split()
    count, names = 1, []
    for at, word in enumerate(words):
        number = _COUNT.fullmatch(word)
        if number and (at == 0 or word != number[1]):
            count = min(int(number[1]), MOST_PORTS)
        elif not number and word not in _NO_NAMES:
            names.append(word)
    if not words:
        return ()
    way = "in" if {"in", "input", "inputs"} & {*words} else "out" if {"out", "output", "outputs"} & {*words} else "both"
    name = port_key(text) or (names[0] if names else UNKNOWN_PORT)
    return (Port(name, way, bool({"arc", "earc"} & {*words})),) * count


@by_key
def ports(job: Job) -> Mapping[str, tuple[Port, ...]]:
    """The ports of every device in use, by tag."""
    return {
        tag: tuple(port for text in one.ports for port in read_ports(text)) * one.count
        for tag, one in job.of(Equipment).items()
        if one.retired is None
    }


@once
def devices_at(job: Job, tag: str) -> tuple[str, ...]:
    """The devices that an end of a cable may serve: itself, those of its opening, or what hangs in front of its box."""
    if isinstance(job.get(tag), Equipment):
        return (tag,) if tag in ports(job) else ()
    if opening := opening_at(job, tag):
        return places(job).get(opening, ())
    return tuple(each for each in hidden_by(job).get(tag, ()) if ports(job).get(each))


@once
def links(job: Job) -> Links:
    """Every cable that carries a signal, with the devices it joins. Spare cables join nothing."""
    return _Joining(job).run()


@once
def _for_guests(job: Job, end: str) -> bool:
    """What is plugged in now and then takes what the rest leaves free."""
    box = job.of(Box).get(end)
    return box is not None and box.what == "quick-connect"


class _Joining:
    """Gives each cable its ports: those with the least choice first."""

    def __init__(self, job: Job) -> None:
        self.job = job
        self.free: Counter[tuple[str, str, str]] = Counter()
        for tag, each in ports(job).items():
            self.free.update((tag, port.kind, port.way) for port in each)
        self.made: list[Link] = []
        self.misfits: list[Misfit] = []

    def run(self) -> Links:
        waiting = []
        for tag, cable in self.job.of(Cable).items():
            kind = kind_named(cable.type)
            if cable.retired is None and not cable.spare and kind is not None and kind.family in PORTS_OF:
                ends = (devices_at(self.job, cable.start), devices_at(self.job, cable.end))
                if any(ends):
                    guest = any(_for_guests(self.job, each) for each in (cable.start, cable.end))
                    choice = len(ends[0] or "x") * len(ends[1] or "x")
                    waiting.append((guest, choice, tag, ends, kind.family, kind.directional))
        waiting.sort(key=lambda each: each[:2])
        for _, _, tag, ends, family, one_way in waiting:
            self._join(self.job.of(Cable)[tag], ends, family, one_way or self.job.of(Cable)[tag].directional)
        return Links(tuple(self.made), tuple(self.misfits), dict(self.free))

    def _join(self, cable: Cable, ends: tuple[tuple[str, ...], ...], family: str, one_way: bool) -> None:
        ports_of = PORTS_OF[family]
        if family == "category" and _EXTENDS.search(f"{cable.name} {cable.type} {cable.carries}"):
            ports_of = ports_of[::-1]
        for port in ports_of:
            straight = self._pair(port, ends[0], ends[1])
            found = straight or self._pair(port, ends[1], ends[0])
            if found is None:
                continue
            for device, way in ((found[0], "out"), (found[1], "in")):
                self._take(device, port, way)
            # A cable that only has to be turned round joins its devices all the same: what is wrong is told once.
            self.made.append(Link(cable.tag, port, *found))
            if straight is None and one_way:
                self.misfits.append(Misfit(cable.tag, cable.start, port, "wrong way"))
            return
        self._note_misfit(cable, ends, family, one_way)

    def _pair(self, port: str, sources: tuple[str, ...], sinks: tuple[str, ...]) -> tuple[str, str] | None:
        source, sink = self._best(port, sources, "out"), self._best(port, sinks, "in")
        if port == "infrared" and (source or sink):
            return source, sink  # the lead itself is the emitter or the eye at its other end
        if (sources and not source) or (sinks and not sink):
            return None
        return source, sink

    def _best(self, port: str, devices: tuple[str, ...], way: str) -> str:
        """The device there with the most free ports of the kind; a tie goes to the first."""
        return max(
            (each for each in devices if self._left(each, port, way)),
            key=lambda each: self._left(each, port, way),
            default="",
        )

    def _left(self, device: str, port: str, way: str) -> int:
        return self.free[device, port, way] + self.free[device, port, "both"]

    def _take(self, device: str, port: str, way: str) -> None:
        if device:
            self.free[device, port, way if self.free[device, port, way] else "both"] -= 1

    def _note_misfit(self, cable: Cable, ends: tuple[tuple[str, ...], ...], family: str, one_way: bool) -> None:
        port = PORTS_OF[family][0]
        found = []
        for tag, devices, way in zip((cable.start, cable.end), ends, ("out", "in"), strict=True):
            ways = ("in", "out", "both") if not one_way else (way, "both")
            if not devices or any(self._silent(each) for each in devices):
                continue
            if any(self.free[each, port, each_way] for each in devices for each_way in ways):
                continue
            had = any(one.kind == port for each in devices for one in ports(self.job)[each])
            found.append(Misfit(cable.tag, tag, port, "used" if had else "none"))
        if not found and all(ends) and not any(self._silent(each) for side in ends for each in side):
            found.append(self._both_alike(cable, ends, port))
        # An end that has no such port at all says more than one whose ports are in use.
        self.misfits += sorted(found, key=lambda each: each.why)[:1]

    def _both_alike(self, cable: Cable, ends: tuple[tuple[str, ...], ...], port: str) -> Misfit:
        """A cable with an output left at its ends and no input, or the other way about."""
        way = "in" if any(self._best(port, side, "out") for side in ends) else "out"
        for tag, devices in ((cable.end, ends[1]), (cable.start, ends[0])):
            if any(one.kind == port and one.way in (way, "both") for each in devices for one in ports(self.job)[each]):
                return Misfit(cable.tag, tag, port, "used", way)
        return Misfit(cable.tag, cable.end, port, f"no {way}put")

    def _silent(self, device: str) -> bool:
        """True when nothing is known of the ports of a device that should have some."""
        return not ports(self.job)[device] and self.job.of(Equipment)[device].what in TALKERS


def splitter_outputs(job: Job, device: str) -> int:
    """How many outputs a coax splitter has; 1 for a device that is none."""
    coax = [port.way for port in ports(job).get(device, ()) if port.kind == "coax"]
    return coax.count("out") if "in" in coax and coax.count("out") > 1 else 1


def having(job: Job, kind: str, way: str) -> dict[str, int]:
    """The devices that have ports of a kind and way, and how many, before any cable is plugged in."""
    counts: Counter[str] = Counter()
    for tag, each in ports(job).items():
        counts[tag] += sum(port.kind == kind and port.way in (way, "both") for port in each)
    return {tag: count for tag, count in counts.items() if count}


def screens(job: Job) -> tuple[str, ...]:
    """The screens in use."""
    return tuple(tag for tag, one in job.of(Equipment).items() if one.what == "screen" and one.retired is None)


def sources(job: Job) -> tuple[str, ...]:
    """Devices that make a picture: an HDMI output and no input for one."""
    outs, ins = having(job, "hdmi", "out"), {**having(job, "hdmi", "in"), **having(job, "hdbaset", "in")}
    return tuple(tag for tag in outs if tag not in ins and job.of(Equipment)[tag].what != "screen")


def feeders(job: Job, device: str) -> Iterable[Link]:
    """The links that bring pictures to a device."""
    return (link for link in links(job).made if link.sink == device and link.port in PICTURE)


@by_key
def ways_to_screen(job: Job) -> Mapping[str, tuple[Link, ...]]:
    """For every source that gets to a screen, the cables on its way, the first one at the source."""
    onward: dict[str, list[Link]] = {}
    for link in links(job).made:
        if link.port in PICTURE and link.source:
            onward.setdefault(link.source, []).append(link)
    shown = set(screens(job))
    found = {}
    for source in sources(job):
        if way := _way(source, onward, shown, frozenset()):
            found[source] = way
    return found


@by_key
def breaks(job: Job) -> Mapping[str, tuple[str, ...]]:
    """Where pictures go no farther: a device with the sources that get to it and to no screen; a source by itself.

    A break that a cable without a port explains is left out.
    """
    onward = {link.source: link.sink for link in links(job).made if link.port in PICTURE and link.source and link.sink}
    explained = {
        device
        for misfit in links(job).misfits
        if misfit.port in PICTURE
        for end in (job.of(Cable)[misfit.cable].start, job.of(Cable)[misfit.cable].end)
        for device in devices_at(job, end)
    }
    found: dict[str, list[str]] = {}
    for source in sources(job):
        if source in ways_to_screen(job):
            continue
        at, seen = source, {source}
        while (following := onward.get(at)) and following not in seen:
            at = following
            seen.add(at)
        if at not in explained:
            found.setdefault(at, []).append(source)
    return {at: tuple(each) for at, each in found.items()}


def _way(at: str, onward: dict[str, list[Link]], shown: set[str], seen: frozenset[str]) -> tuple[Link, ...]:
    for link in onward.get(at, ()):
        if link.sink in shown:
            return (link,)
        if link.sink and link.sink not in seen and (rest := _way(link.sink, onward, shown, seen | {at})):
            return (link, *rest)
    return ()
