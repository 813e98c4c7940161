"""The wires of a circuit wherever they lie: in its boxes, in the cables between, and to what is wired beyond."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

import msgspec

from store.measure.errors import BadValue
from store.records.whole import Job
from store.records.wiring import Box, Cable, Circuit
from store.rules.core.code import is_us
from store.rules.core.keyed import of_each, said_by
from store.rules.power.box_contents import looks
from store.rules.power.box_text import Size, device_circuits, read_mains, read_size
from store.rules.power.plan import is_mains, mains_size, power
from store.trade.power.conductors import flat_cable_capacity_a, max_breaker_a, nm_ampacity_a
from store.trade.power.devices import device_named
from store.trade.power.grouping import ring_ok
from store.trade.power.metals import Metal, aluminum_ampacity_a, aluminum_max_breaker_a, metal_of, without_metal

MULTIWIRE = 3
"""Insulated conductors of a cable that can bring two hots with one neutral."""
ON_THE_CIRCUIT = frozenset(
    {
        "single receptacle", "quad receptacle", "GFCI receptacle", "receptacle", "recessed inlet", "3-way switch",
        "switch", "dimmer", "thermostat", "USB charger",
    }
)  # fmt: skip
"""Devices whose wires are of the circuit, so as thick as its breaker asks; a luminaire may be tapped with thinner."""


class Wire(msgspec.Struct, frozen=True):
    """The thinnest wire at one place of a circuit."""

    size: Size
    metal: Metal = "copper"

    @property
    def text(self) -> str:
        """As it is printed: `12 AWG`, `12 AWG aluminum`, `2.5 mm²`."""
        return self.size.text if self.metal == "copper" else f"{self.size.text} {self.metal}"


class Joint(msgspec.Struct, frozen=True):
    """A cable that joins a circuit to a box of another one."""

    cable: str
    near: str
    far: str
    other: str
    """The other circuit."""


class Reach(msgspec.Struct, frozen=True):
    """How far the wires of a circuit go."""

    boxes: tuple[str, ...]
    """Its own, and those without a circuit that its cables lead to."""
    cables: tuple[str, ...]
    feeds: tuple[tuple[str, str], ...]
    """Cables with one end left open, at the electrical panel, each with its box."""
    joints: tuple[Joint, ...]
    ring: bool
    """The plan leads it back to where it began: two cables come from the panel, or it goes round from box to box."""


def circuits_in(box: Box) -> tuple[str, ...]:
    """The circuits of a box: its own, and those that its devices name."""
    named = (tag for text in box.devices for tag in device_circuits(text))
    return tuple(dict.fromkeys(each for each in (str(box.circuit), *named) if each))


@of_each(Box)
def circuits_at(job: Job, box: Box) -> tuple[str, ...]:
    """The circuits of every box."""
    return circuits_in(box)


@said_by(Box)
def boxes_with(box: Box) -> Iterator[tuple[str, str]]:
    """The tags of the boxes of each circuit, those among them that are of another one too."""
    for circuit in circuits_in(box):
        yield circuit, box.tag


@of_each(Circuit)
def reaches(job: Job, circuit: Circuit) -> Reach:
    """The boxes and cables that each circuit makes live, followed from box to box."""
    circuits, mains = circuits_at(job), power(job).mains
    found = [*boxes_with(job).get(circuit.tag, ())]
    seen, cables = set(found), {}
    feeds: list[tuple[str, str]] = []
    joints: list[Joint] = []
    inside: set[tuple[str, ...]] = set()
    for here in found:  # grows while it is gone through
        own = circuits[here]
        for cable in _of_this(mains.get(here, ()), own, circuit.tag):
            other = str(cable.end if cable.start == here else cable.start)
            if cable.tag in cables or other == here:
                continue
            cables[cable.tag] = cable
            theirs = circuits.get(other)
            if not other:
                feeds.append((cable.tag, here))
            elif theirs and circuit.tag not in theirs:
                # From a box of two circuits a cable to a box of the other is the other's.
                if not {*theirs} & {*own}:
                    joints.append(Joint(cable.tag, here, other, theirs[0]))
            elif theirs is not None:
                inside.add(_stretch(cable))
                if other not in seen:
                    seen.add(other)
                    found.append(other)
    joined = len({end for each in cables.values() for end in (each.start, each.end) if end in seen})
    circle = bool(inside) and len(inside) >= joined
    from_panel = {_stretch(cables[tag]) for tag, _ in feeds if not cables[tag].start}
    return Reach(tuple(found), tuple(cables), tuple(feeds), tuple(joints), circle or len(from_panel) > 1)


def _stretch(cable: Cable) -> tuple[str, ...]:
    """What tells one leg of a circuit from another: single conductors from box to box are one leg together."""
    if conductors_of(cable) > 1:
        return (cable.tag,)
    return tuple(sorted((str(cable.start), str(cable.end))))


def _of_this(cables: tuple[Cable, ...], circuits: tuple[str, ...], tag: str) -> list[Cable]:
    """The cables of a box without the feeds of the other circuits in it: each has one, in the order of both lists."""
    if len(circuits) < 2 or tag not in circuits:
        return list(cables)
    feeds = [cable for cable in cables if not (cable.start and cable.end)]
    at = circuits.index(tag)
    others = {cable.tag for cable in (*feeds[:at], *feeds[at + 1 : len(circuits)])}
    return [cable for cable in cables if cable.tag not in others]


def is_ring(job: Job, circuit: Circuit) -> bool:
    """True for a ring final circuit of metric practice: noted so, or led so in the plan."""
    return not is_us(job) and (circuit.wiring == "ring" or reaches(job)[circuit.tag].ring)


def wire_of_cable(job: Job, cable: Cable) -> Wire | None:
    """The wire of a mains cable of the plan; None for any other, or one whose size cannot be read."""
    size = mains_size(job, cable)
    return None if size is None else Wire(size, metal_of(f"{cable.type} {cable.rating}"))


def conductors_of(cable: Cable) -> int:
    """Insulated conductors of a mains cable of the plan; two where its text does not say."""
    read = read_mains(cable.type)
    return 2 if read is None else read[1]


def wire_of_circuit(job: Job, circuit: Circuit) -> Wire | None:
    """The conductor that is noted for a circuit, of whatever metal; None where its size cannot be read."""
    text = circuit.conductor
    try:
        return Wire(read_size(without_metal(text), not is_us(job)), metal_of(text)) if text.strip() else None
    except BadValue:
        return None


@of_each(Circuit)
def noted_wires(job: Job, circuit: Circuit) -> Wire | None:
    """The conductor that is noted for each circuit."""
    return wire_of_circuit(job, circuit)


@of_each(Cable)
def _own_wire(job: Job, cable: Cable) -> Wire | None:
    """The wire of each mains cable of the plan."""
    return wire_of_cable(job, cable) if is_mains(job, cable) else None


@of_each(Box)
def _listed_gauges(job: Job, box: Box) -> tuple[tuple[str, int], ...] | None:
    """The sizes of wire, AWG, that a box lists or that its devices are noted with, each with the circuit that it is on;
    empty for that of the box."""
    look = looks(job).get(box.tag)
    listed = look.contents.cables if look is not None and not look.from_plan else ()
    own = [("", each.gauge) for each in listed]
    return (*own, *_device_gauges(job, box)) or None


@of_each(Circuit)
def wires(job: Job, circuit: Circuit) -> Mapping[str, Wire]:
    """The thinnest wire by the tag of each cable of the plan on a circuit, and of each box that lists its own, or
    whose devices do. NFPA 70 210.19(A)(4) Exception 1 lets short wires to a luminaire be thinner; to no other device.

    A cable that joins it to another circuit is left out: a finding of its own tells of that.
    """
    reach, own, listed = reaches(job)[circuit.tag], _own_wire(job), _listed_gauges(job)
    joining = {each.cable for each in reach.joints}
    found = {tag: wire for tag in reach.cables if tag not in joining and (wire := own.get(tag)) is not None}
    for tag in reach.boxes:
        gauges = [gauge for on, gauge in listed.get(tag) or () if on in ("", circuit.tag)]
        if gauges:
            found[tag] = Wire(Size(awg=max(gauges)))
    return found


def _device_gauges(job: Job, box: Box) -> Iterator[tuple[str, int]]:
    """The sizes of wire, AWG, that the devices of a box are noted with, by circuit."""
    for each in power(job).gear[box.tag] if is_us(job) else ():
        if each.device.gauge is not None and device_named(each.device.name) in ON_THE_CIRCUIT:
            yield from ((on, each.device.gauge) for on in each.circuits or (str(box.circuit),))


def most_breaker_a(job: Job, circuit: Circuit, wire: Wire) -> float | None:
    """The largest breaker for a wire, A, by the tables of the region; None where they do not have its size: 18 and 16
    AWG, and sizes that no house circuit is wired in, are told by other rules."""
    return _by_table(job, circuit, wire, max_breaker_a, aluminum_max_breaker_a)


def carries_a(job: Job, circuit: Circuit, wire: Wire) -> float | None:
    """What a wire carries, A: Table 310.16 with 334.80, or BS 7671 Table 4D5; None for a size they do not have, which
    `circuit_not_known` tells the person."""
    return _by_table(job, circuit, wire, nm_ampacity_a, aluminum_ampacity_a)


def _by_table(
    job: Job,
    circuit: Circuit,
    wire: Wire,
    copper: Callable[[int], float | None],
    aluminum: Callable[[int], float | None],
) -> float | None:
    """Amperes of a wire by the US table of its metal, or by the one table of a metric job; None where it has no row."""
    size = wire.size
    try:
        if not is_us(job):
            return None if size.mm2 is None else flat_cable_capacity_a(size.mm2, circuit.lies)
        if size.awg is None:
            return None
        return copper(size.awg) if wire.metal == "copper" else aluminum(size.awg)
    except ValueError:
        return None


def fits_ring(job: Job, circuit: Circuit, wire: Wire) -> bool:
    """True where a wire may be the ring of a ring final behind the circuit's breaker."""
    carries = carries_a(job, circuit, wire)
    if carries is None or wire.size.mm2 is None or circuit.breaker is None or not is_ring(job, circuit):
        return False
    return ring_ok(circuit.breaker, wire.size.mm2, carries)
