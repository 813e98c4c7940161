"""Findings about switches: what goes off with them, a dimmer on a receptacle, no neutral, too small a one."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from store.records.equipment import Equipment
from store.records.whole import Job
from store.records.wiring import Box, Cable, Circuit
from store.rules.core.code import METRIC_CODE, edition, is_us
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import ELECTRICIAN, few_of
from store.rules.power.box_contents import looks
from store.rules.power.halves import half_it_gets
from store.rules.power.plan import always_on, boxes_on, power
from store.rules.power.wires import MULTIWIRE, conductors_of
from store.trade.measured.citations import COMMON_PRACTICE, nec
from store.trade.power.devices import device_named

WAITS = ("screen", "receiver", "streamer", "console", "soundbar", "extender")
"""What keeps time, updates or listens for its remote while it is off, so that a switch spoils it. Common practice."""
SWITCHES = ("switch", "3-way switch", "dimmer")
DUPLEX = 2
LETTER_MOVED = 2023
"""A reader of that edition prints the letters of 404.14 moved on by one: the section alone is named there."""


def _section(job: Job, letter: str) -> str:
    return nec("404.14" if edition(job) >= LETTER_MOVED else f"404.14({letter})", edition(job))


def _things_behind(job: Job, box: str) -> Iterator[Equipment]:
    """All that gets its power from a box, through strips and drivers too."""
    things, users = job.of(Equipment), power(job).users
    waiting, seen = [box], {box}
    for at in waiting:  # grows while it is gone through
        for tag in users.get(at, ()):
            if tag not in seen:
                seen.add(tag)
                waiting.append(tag)
                yield things[tag]


@rule
@from_each(Box)
def may_lose_power(job: Job, box: Box) -> Iterable[Finding]:
    """Things that do not like to be switched off at the wall, on switched power or on a half that is not said."""
    if box.switched == "none":
        return
    there = [one for one in _things_behind(job, box.tag) if one.what in WAITS and not always_on(one)]
    gets = {one.tag: half_it_gets(job, one) for one in there}
    told = [one.tag for one in there if gets[one.tag] != "always on"]
    if told:
        cut = [tag for tag in told if gets[tag] == "switched"]
        yield Finding(
            "may_lose_power",
            "look",
            (*told, box.tag),
            "Goes off with the wall switch" if cut == told else "May go off with the wall switch",
            "Plug it into the always-on half or another receptacle; if it can go off with the lights, accept this with "
            "a reason.",
            COMMON_PRACTICE,
            {"on": box.tag, "switched": box.switched, "gets": few_of(f"{tag} {gets[tag] or 'either'}" for tag in told)},
            why=f"{few_of(told)} get{'s' if len(told) == 1 else ''} power from {box.tag}, which is "
            f"{'half' if box.switched == 'half' else 'all'} switched. It loses its clock, its updates and its remote.",
            about=tuple(told),
        )


@rule
@from_each(Box)
def dimmer_on_receptacle(job: Job, box: Box) -> Iterable[Finding]:
    """A dimmer that works a receptacle."""
    if not any(device_named(text) == "dimmer" for text in box.devices):
        return
    worked = _worked_by(job, box)
    if worked:
        yield Finding(
            "dimmer_on_receptacle",
            "fix",
            (box.tag, *worked),
            "Dimmer on a receptacle",
            f"Use a plain switch, or wire the lights to the dimmer without a receptacle. {ELECTRICIAN}",
            _section(job, "E") if is_us(job) else f"{METRIC_CODE} 134.1.1; the dimmer's instructions",
            {"receptacles": few_of(worked, 99)},
            why=f"It controls {few_of(worked)}. Whatever is plugged in there later gets dimmed power and can overheat.",
            about=(box.tag,),
        )


def _worked_by(job: Job, box: Box) -> tuple[str, ...]:
    """Switched receptacles that a switch box is joined to by a cable, or that nothing else of its circuit can work."""
    boxes = job.of(Box)
    joined = {str(end) for cable in power(job).mains.get(box.tag, ()) for end in (cable.start, cable.end)} - {box.tag}
    near = tuple(tag for tag in sorted(joined) if tag in boxes and _is_switched(boxes[tag]))
    if near or _is_switched(box):
        return near or (box.tag,)
    on = boxes_on(job).get(box.circuit, ()) if box.circuit else ()
    others = [one for one in on if one.tag != box.tag and any(device_named(each) in SWITCHES for each in one.devices)]
    return () if others else tuple(one.tag for one in on if _is_switched(one))


def _is_switched(box: Box) -> bool:
    return box.what == "receptacle" and box.switched != "none"


@rule
@from_each(Box)
def no_neutral_at_switch(job: Job, box: Box) -> Iterable[Finding]:
    """A new switch at the end of one cable of two wires: no neutral comes to it."""
    cables = power(job).mains.get(box.tag, ())
    if not is_us(job) or box.what != "switch" or not box.new or len(cables) != 1:
        return
    (cable,) = cables
    far = job.of(Box).get(cable.end if cable.start == box.tag else cable.start)
    look = looks(job).get(box.tag)
    # A box that lists more than that cable, or feeds its light from there, has its neutral by another.
    if (look is not None and len(look.contents.cables) > 1) or power(job).users.get(box.tag):
        return
    if far is None or conductors_of(cable) >= MULTIWIRE or _is_switched(far) or _by_raceway(cable):
        return
    yield Finding(
        "no_neutral_at_switch",
        "fix",
        (box.tag, cable.tag),
        "No neutral at the switch",
        f"Pull cable with three insulated wires, like nm-14-3, or bring the feed to the switch first. {ELECTRICIAN}",
        nec("404.2(C)", edition(job)),
        {"cable": cable.type, "from": far.tag},
        why=f"{cable.tag} brings two wires from {far.tag}: hot and switched hot. A dimmer or timer later needs a "
        "neutral.",
        about=(box.tag,),
    )


def _by_raceway(cable: Cable) -> bool:
    """True where another wire can be pulled in later: 404.2(C)(1)."""
    return cable.route == "raceway" and bool(cable.raceway)


@rule
@from_each(Box)
def switch_under_rated(job: Job, box: Box) -> Iterable[Finding]:
    """A 15 A switch that works a whole duplex on a 20 A circuit."""
    rated = [each.amps for each in power(job).gear[box.tag] if not each.places and each.amps is not None]
    circuit = job.of(Circuit).get(box.circuit) if rated and box.circuit else None
    if circuit is None or circuit.breaker is None or not is_us(job):
        return
    whole = [tag for tag in _worked_by(job, box) if job.of(Box)[tag].switched == "all"]
    whole = [tag for tag in whole if job.of(Box)[tag].receptacles != 1]
    if rated and whole and min(rated) < circuit.breaker:
        yield Finding(
            "switch_under_rated",
            "fix",
            (box.tag, *whole),
            f"{min(rated)} A switch for a {circuit.breaker:g} A receptacle circuit",
            f"Use a {circuit.breaker:g} A switch, or let it control only one half. {ELECTRICIAN}",
            _section(job, "F"),
            {"switch": f"{min(rated)} A", "circuit": f"{circuit.breaker:g} A"},
            why=f"It controls {DUPLEX} places or more at {few_of(whole)}; then it must be rated for the circuit.",
            about=(box.tag,),
        )
