"""The power of a job, indexed once: what plugs in where, which circuit feeds it, and what each circuit carries.

A thing is on a circuit when its plug leads there: it names a box of that circuit, or a strip or driver that does.
A hard-wired thing names the box it is wired in. Lights on a driver are within the driver's own watts: the greater
of the two counts. Things that were retired count nowhere.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

import msgspec

from store.measure.errors import BadValue
from store.records.base import Record
from store.records.equipment import Equipment
from store.records.whole import Job
from store.records.wiring import Box, Cable, Circuit
from store.rules.cable.kinds import POWER, kind_named
from store.rules.core.code import is_us
from store.rules.core.keyed import by_key, index, of_each, said_by
from store.rules.power.box_text import (
    Gear,
    Size,
    is_cord,
    is_mains_word,
    read_device,
    read_mains,
    read_size,
    says_stranded,
)
from store.rules.wall.layout import cables_at
from store.rules.wall.places import POWER_BOXES
from store.trade.power.circuit_load import Load, is_continuous
from store.trade.power.tables_us import SOLID_OHM_PER_KFT, STRANDED_OHM_PER_KFT

LEAST_VOLTS = 1.0
"""A circuit of less is a slip of the hand, and its amperes have no end."""
VOLTS_US, VOLTS_METRIC = 120.0, 230.0
"""Taken where a circuit has no voltage: NEC 220.5(A); IEC 60038."""
PLACES_OF_WART, PLACES_OF_PLUG = 2, 1
"""A plug-in transformer covers the place beside it: common practice, no source."""


PLUG_BOXES = ("receptacle", "quick-connect")
"""Boxes that a cord can be plugged into."""
ALWAYS_ON = ("router", "recorder", "switch")
ALL_DAY_HOURS = 24.0


class Feed(msgspec.Struct, frozen=True):
    """How one thing gets its power."""

    box: str = ""
    """The box at the end of the chain; empty when it leads to none."""
    via: tuple[str, ...] = ()
    """The strips, drivers or other things on the way, the nearest first."""
    loop: bool = False
    """The chain comes back to itself."""

    @property
    def ended(self) -> bool:
        """True when there is no box at its end."""
        return not self.box


class OnCircuit(msgspec.Struct, frozen=True):
    """One circuit with all that is on it."""

    circuit: Circuit
    volts: float
    size: Size | None
    """Of its conductor; None when it is not given or cannot be read."""
    stranded: bool
    """Which column of the table of resistance is taken."""
    boxes: tuple[str, ...]
    direct: tuple[str, ...]
    """What is plugged or wired straight into its boxes."""
    loads: tuple[Load, ...]
    at_box: Mapping[str, float]
    """Watts by box."""
    no_watts: tuple[str, ...]
    """Things on it whose watts are not noted."""
    no_hours: tuple[str, ...]
    places: int

    @property
    def watts(self) -> float:
        """All that is on it, with the load it had already, W."""
        return sum(load.watts for load in self.loads) + max(0.0, self.circuit.load)


class Power:
    """Everything about power that more than one rule asks, each looked at by its key."""

    def __init__(self, job: Job) -> None:
        self._job = job

    @property
    def feeds(self) -> Mapping[str, Feed]:
        """By the tag of each thing in use that names a plug."""
        return _feeds(self._job)

    @property
    def users(self) -> Mapping[str, tuple[str, ...]]:
        """Things by the box, strip or driver they plug or are wired into."""
        return _users(self._job)

    @property
    def circuits(self) -> Mapping[str, OnCircuit]:
        """Each circuit with what is on it."""
        return _circuits(self._job)

    @property
    def mains(self) -> Mapping[str, tuple[Cable, ...]]:
        """Mains cables of the plan by each box at their ends."""
        return _mains(self._job)

    @property
    def gear(self) -> Mapping[str, tuple[Gear, ...]]:
        """Devices by box, those that could be read."""
        return _gear(self._job)


def power(job: Job) -> Power:
    """The power of the job."""
    return Power(job)


def in_use(one: Equipment) -> bool:
    """True unless it left the wall."""
    return one.retired is None


def things(job: Job) -> Iterator[Equipment]:
    """Everything in use."""
    return (one for one in job.of(Equipment).values() if in_use(one))


def always_on(one: Equipment) -> bool:
    """True for what must not lose power with the lights: network, recorder, and whatever runs all day."""
    return one.what in ALWAYS_ON or (one.hours or 0.0) >= ALL_DAY_HOURS


def is_heater(one: Equipment) -> bool:
    """True for what is made to heat the room."""
    return one.heats or one.what in ("fireplace", "heater")


def is_light(one: Equipment) -> bool:
    """True for a luminaire or the driver of some."""
    return one.what in ("light", "driver")


def has_plug(one: Equipment) -> bool:
    """True when it is plugged in rather than wired; one that is not known is taken as plugged in once it has a plug."""
    return one.power in ("cord", "wall-wart") or (one.power == "unknown" and bool(one.plug))


def is_fixed(one: Equipment) -> bool:
    """True when it is fastened in place: wired, built in, or a heater on its bracket.

    A screen that lifts off its bracket and a box on a shelf are not: our reading of NEC 210.23.
    """
    if one.power == "hard-wired" or one.mounting == "made to be recessed":
        return True
    return is_heater(one) and one.mounting == "wall bracket"


def places_needed(one: Equipment, at: Record | None = None) -> int:
    """Plug places that it takes at a box or strip; on a driver, outputs."""
    wart = one.power == "wall-wart" and not (isinstance(at, Equipment) and at.what == "driver")
    return one.count * (PLACES_OF_WART if wart else PLACES_OF_PLUG)


def places_of(box: Box, gear: tuple[Gear, ...] = ()) -> int:
    """Places to plug in at a box: as noted, else as its devices say, else a duplex a gang for a receptacle box."""
    if box.receptacles:
        return box.receptacles
    if offered := sum(each.places for each in gear):
        return offered
    return 2 * box.gangs if box.what == "receptacle" else 0


@by_key
def _users(job: Job) -> Mapping[str, tuple[str, ...]]:
    users: dict[str, list[str]] = {}
    for tag, one in job.of(Equipment).items():
        if in_use(one) and one.plug and one.power != "none":
            users.setdefault(one.plug, []).append(tag)
    return {tag: tuple(each) for tag, each in users.items()}


@by_key
def _feeds(job: Job) -> Mapping[str, Feed]:
    known = {one.tag: one for one in things(job)}
    boxes = job.of(Box)
    return {tag: _feed(tag, known, boxes) for each in _users(job).values() for tag in each}


@of_each(Circuit)
def _circuits(job: Job, circuit: Circuit) -> OnCircuit:
    boxes = list(_tags_on(job).get(circuit.tag, ()))
    return _on_circuit(job, circuit, boxes, job.of(Equipment), _users(job))


@said_by(Box)
def _tags_on(box: Box) -> Iterator[tuple[str, str]]:
    """The tags of the boxes of each circuit: the same however they are moved about."""
    if box.circuit:
        yield box.circuit, box.tag


@of_each(Box)
def _places(job: Job, box: Box) -> int:
    """Places to plug in at every box."""
    return places_of(box, _gear(job)[box.tag])


boxes_on = index(Box, lambda box: (box.circuit,) if box.circuit else ())
"""The boxes of each circuit."""


def _feed(tag: str, things: Mapping[str, Equipment], boxes: Mapping[str, Box]) -> Feed:
    via: list[str] = []
    seen = {tag}
    at = str(things[tag].plug)
    while at in things:
        if at in seen:
            return Feed(via=tuple(via), loop=True)
        seen.add(at)
        via.append(at)
        at = str(things[at].plug)
    return Feed(at if at in boxes else "", tuple(via))


@of_each(Box)
def _gear(job: Job, box: Box) -> tuple[Gear, ...]:
    found = []
    for text in box.devices:
        try:
            found.append(read_device(text))
        except BadValue:
            continue  # `box_text_unreadable` tells the person
    return tuple(found)


def mains_size(job: Job, cable: Cable) -> Size | None:
    """The wire size of a mains cable of the plan; None for any other cable, or one whose size cannot be read."""
    read = read_mains(cable.type)
    if read is None:
        return None
    return read[0] if is_mains(job, cable) else None


def is_mains(job: Job, cable: Cable) -> bool:
    """True for fixed mains wiring: its type says so, or it is a power size and an end of it is a power box."""
    kind = kind_named(cable.type)
    if is_cord(cable.type) or (kind is not None and kind.family != POWER):
        return False
    if is_mains_word(cable.type) or re.search(r"mm(?:2|²)", cable.type.lower()):
        return True
    if read_mains(cable.type) is None:
        return False
    ends = (job.of(Box).get(cable.start), job.of(Box).get(cable.end))
    return any(box is not None and box.what in POWER_BOXES for box in ends)


@of_each(Box)
def _mains(job: Job, box: Box) -> tuple[Cable, ...] | None:
    """One with both of its ends here counts twice."""
    found = [each for each in cables_at(job).get(box.tag, ()) if is_mains(job, each)]
    return tuple(each for each in found for end in (each.start, each.end) if end == box.tag) or None


def _size(circuit: Circuit, metric: bool) -> Size | None:
    try:
        return read_size(circuit.conductor, metric) if circuit.conductor else None
    except BadValue:
        return None


def _stranded(circuit: Circuit, size: Size | None) -> bool:
    """As noted on the circuit or in the text of its conductor; and for a size that the table lists stranded only."""
    if circuit.strands == "stranded" or says_stranded(circuit.conductor):
        return True
    return size is not None and size.awg in STRANDED_OHM_PER_KFT and size.awg not in SOLID_OHM_PER_KFT


def _on_circuit(
    job: Job,
    circuit: Circuit,
    boxes: list[str],
    things: Mapping[str, Equipment],
    users: Mapping[str, tuple[str, ...]],
) -> OnCircuit:
    loads: list[Load] = []
    at_box: dict[str, float] = {}
    direct: list[str] = []
    no_watts: list[str] = []
    for box in boxes:
        for tag in users.get(box, ()):
            direct.append(tag)
            for one in _leaves(tag, things, users):
                load = _load(one, things, users)
                if load is None:
                    no_watts.append(one.tag)
                    continue
                loads.append(load)
                at_box[box] = at_box.get(box, 0.0) + load.watts
    return OnCircuit(
        circuit,
        volts if (volts := circuit.volts or 0.0) >= LEAST_VOLTS else VOLTS_US if is_us(job) else VOLTS_METRIC,
        (size := _size(circuit, not is_us(job))),
        _stranded(circuit, size),
        tuple(boxes),
        tuple(direct),
        tuple(loads),
        at_box,
        tuple(no_watts),
        tuple(load.name for load in loads if things[load.name].hours is None and not load.at_125),
        sum(_places(job)[box] for box in boxes),
    )


def _leaves(tag: str, things: Mapping[str, Equipment], users: Mapping[str, tuple[str, ...]]) -> list[Equipment]:
    """What a plug brings: the thing itself, or all that hangs on a strip; a driver stands for its lights."""
    found: list[Equipment] = []
    seen: set[str] = set()
    stack = [tag]
    while stack:
        at = stack.pop()
        if at in seen:
            continue
        seen.add(at)
        one = things[at]
        if one.what != "strip":  # what is printed on a strip is what it can feed, and no load
            found.append(one)
        if one.what != "driver":
            stack.extend(reversed(users.get(at, ())))
    return found


def _load(one: Equipment, things: Mapping[str, Equipment], users: Mapping[str, tuple[str, ...]]) -> Load | None:
    """What one thing draws; None when its watts are not noted."""
    watts = drawn_w(one)
    hours = one.hours
    if one.what == "driver":
        lamps = [things[tag] for tag in users.get(one.tag, ())]
        known = [drawn for lamp in lamps if (drawn := drawn_w(lamp)) is not None]
        watts = max([watts or 0.0, sum(known)]) if watts is not None or known else None
        hours = max((each.hours for each in (one, *lamps) if each.hours is not None), default=None)
    if watts is None:
        return None
    return Load(
        one.tag,
        watts,
        continuous=hours is not None and is_continuous(max(0.0, hours)),
        fixed=is_fixed(one),
        plugged=one.power != "hard-wired",
        heating=is_heater(one),
        lighting=is_light(one),
        pieces=one.count if one.what != "driver" else 1,
    )


def drawn_w(one: Equipment) -> float | None:
    """Watts of all pieces of a thing; None when they are not noted."""
    return None if one.watts is None else max(0.0, one.watts) * max(0, one.count)


def strip_w(job: Job, tag: str) -> float:
    """Watts of all that hangs on a strip or driver, itself left out, as far as they are noted."""
    things = job.of(Equipment)
    users = power(job).users
    total = 0.0
    for child in users.get(tag, ()):
        if child == tag:
            continue
        for one in _leaves(child, things, users):
            load = _load(one, things, users)
            total += load.watts if load else 0.0
    return total
