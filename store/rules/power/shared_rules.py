"""Findings about what two circuits share: a cable that ties them, a neutral, a box; a circuit that is fed twice."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from store.records.whole import Job
from store.records.wiring import Box, Cable, Circuit
from store.rules.core.code import METRIC_CODE, edition, is_us
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import filed, from_each, index, of_each
from store.rules.core.wording import ELECTRICIAN, few_of, named
from store.rules.power.plan import power
from store.rules.power.wires import (
    MULTIWIRE,
    Joint,
    boxes_with,
    circuits_in,
    conductors_of,
    most_breaker_a,
    reaches,
    wire_of_cable,
)
from store.trade.measured.citations import nec


@filed(Circuit)
def _joints(job: Job, circuit: Circuit) -> Iterator[tuple[str, tuple[str, Joint]]]:
    """The joints of every circuit, by their cable."""
    for joint in reaches(job)[circuit.tag].joints:
        yield joint.cable, (circuit.tag, joint)


@of_each(Circuit)
def _joined_to(job: Job, circuit: Circuit) -> tuple[str, ...]:
    """The other circuits that each is joined to."""
    return tuple(dict.fromkeys(joint.other for joint in reaches(job)[circuit.tag].joints))


@rule
@from_each(Cable)
def circuits_joined(job: Job, cable: Cable) -> Iterable[Finding]:
    """A cable from a box of one circuit to a box of another: it ties two breakers, or they share a neutral."""
    for one, joint in _joints(job).get(cable.tag, ()):
        # Two circuits may see each other by different cables: it is told from one of them.
        if one < joint.other or one not in _joined_to(job).get(joint.other, ()):
            circuit = job.of(Circuit)[one]
            yield _shared_neutral(job, circuit, joint) if _multiwire(job, joint) else _tied(job, circuit, joint)


def _multiwire(job: Job, joint: Joint) -> bool:
    """True where the cable between, or a feed of either circuit, has three wires: two hots and one neutral."""
    feeds = {feed for one in joint_circuits(job, joint) for feed, _ in reaches(job)[one].feeds}
    cables = (job.of(Cable).get(tag) for tag in {joint.cable, *feeds})
    return any(cable is not None and conductors_of(cable) >= MULTIWIRE for cable in cables)


def joint_circuits(job: Job, joint: Joint) -> tuple[str, ...]:
    """The circuits of both ends of a joint, those that are on the list."""
    boxes = (job.of(Box).get(tag) for tag in (joint.near, joint.far))
    return tuple(str(box.circuit) for box in boxes if box is not None and box.circuit in job.of(Circuit))


def _tied(job: Job, circuit: Circuit, joint: Joint) -> Finding:
    cable, other = job.of(Cable)[joint.cable], job.of(Circuit).get(joint.other)
    wire = wire_of_cable(job, cable)
    breakers = [each for each in (circuit.breaker, other.breaker if other else None) if each is not None]
    most = most_breaker_a(job, circuit, wire) if wire is not None else None
    thin = ""
    if wire is not None and most is not None and breakers and max(breakers) > most:
        thin = f" Its {wire.text} wire can be behind {most:g} A at most; a {max(breakers):g} A breaker would feed it."
    return Finding(
        "circuits_joined",
        "stop",
        (joint.cable, circuit.tag, joint.other),
        f"Joins two circuits, {circuit.tag} and {joint.other}",
        f"Put {joint.near} and {joint.far} on one circuit, or run {joint.cable} to a box of its own circuit. "
        f"{ELECTRICIAN}",
        f"{nec('210.3', edition(job))}; {nec('240.4', edition(job))}" if is_us(job) else f"{METRIC_CODE} 314.4",
        {
            "joins": f"{joint.near} on {circuit.tag}, {joint.far} on {joint.other}",
            "breakers": few_of(f"{each:g} A" for each in breakers) or "not entered",
        },
        why=f"It runs from {named(job, joint.near)} to {named(job, joint.far)}: one breaker off would leave the other "
        f"feeding both.{thin}",
        about=(joint.cable,),
    )


def _shared_neutral(job: Job, circuit: Circuit, joint: Joint) -> Finding:
    us = is_us(job)
    return Finding(
        "shared_neutral",
        "fix",
        (joint.cable, circuit.tag, joint.other),
        f"Shared neutral, {circuit.tag} and {joint.other}",
        (
            "Ask for a two-pole breaker or a handle tie, the two hots on opposite legs, and the wires grouped in the "
            f"electrical panel; or give each circuit its own neutral. {ELECTRICIAN}"
            if us
            else f"Give each circuit a neutral of its own. {ELECTRICIAN}"
        ),
        f"{nec('210.4(B)', edition(job))} and 210.4(D)" if us else f"{METRIC_CODE} 314.4",
        {"joins": f"{joint.near} on {circuit.tag}, {joint.far} on {joint.other}"},
        why=f"A cable of three wires serves {named(job, joint.near)} and {named(job, joint.far)}. Both breakers "
        "must go off together, or the neutral stays live; on one leg it carries both loads.",
        about=(joint.cable,),
    )


_by_breaker = index(Circuit, lambda one: (one.slot.strip().lower(),) if one.slot.strip() else ())
"""The circuits by the number of their breaker."""


@rule
@from_each(Circuit)
def breaker_entered_twice(job: Job, circuit: Circuit) -> Iterable[Finding]:
    """Two circuits at one breaker number, though no box has both: one of the numbers is a slip."""
    same = [one for one in _by_breaker(job).get(circuit.slot.strip().lower(), ()) if one.tag != circuit.tag]
    mine = {*boxes_with(job).get(circuit.tag, ())}
    apart = [one.tag for one in same if not mine & {*boxes_with(job).get(one.tag, ())}]
    if apart and circuit.tag < min(apart):
        yield Finding(
            "breaker_entered_twice",
            "look",
            (circuit.tag, *apart),
            f"One breaker no. for {' and '.join((circuit.tag, *apart))}",
            "Read the directory of the electrical panel, and correct the number of one. Before work, test that wires "
            "are dead.",
            "common practice",
            {"breaker": circuit.slot},
            why=f"Breaker {circuit.slot} is entered for {few_of((circuit.tag, *apart))}. Whoever turns it off counts "
            "on both being dead.",
            about=(),
        )


def _shared_in_box(job: Job, box: Box, cable: Cable, circuits: tuple[str, ...]) -> Finding:
    """Two circuits that come to a box in one cable of three wires."""
    return Finding(
        "shared_neutral",
        "fix",
        (cable.tag, *circuits),
        f"Shared neutral, {' and '.join(circuits)}",
        "Ask for a two-pole breaker or a handle tie and enter one breaker no. for both. Pigtail the neutral: no device "
        f"carries it on. {ELECTRICIAN}",
        f"{nec('210.4(B)', edition(job))} and 300.13(B)",
        {"at": box.tag, "circuits": few_of(circuits, 99)},
        why=f"{cable.tag} brings {few_of(circuits)} to {named(job, box.tag)} with one neutral. Both breakers must go "
        "off together.",
        about=(cable.tag,),
    )


@rule
@from_each(Circuit)
def circuit_fed_twice(job: Job, circuit: Circuit) -> Iterable[Finding]:
    """More than one cable from the electrical panel on one circuit: two circuits in a box, or two breakers tied."""
    # A cable that leaves a box and ends nowhere is told as that.
    feeds = [each for each in reaches(job)[circuit.tag].feeds if is_us(job) and not job.of(Cable)[each[0]].start]
    if len(feeds) < 2:
        return
    cables = tuple(cable for cable, _ in feeds)
    boxes = dict.fromkeys(box for _, box in feeds)
    one_box = f"{few_of(cables)} come from the electrical panel to {few_of(named(job, box) for box in boxes)}."
    yield Finding(
        "circuit_fed_twice",
        "fix",
        (circuit.tag, *cables),
        f"Fed by {len(feeds)} home runs",
        f"Leave one home run on {circuit.tag}. If two circuits share a box or a receptacle, list both, and ask for "
        f"breakers that go off together. {ELECTRICIAN}",
        f"{nec('210.7', edition(job))} and 240.4",
        {"home runs": few_of(cables, 99), "boxes": few_of(boxes, 99)},
        why=f"{one_box} A circuit has one breaker; two on one receptacle must go off together.",
        about=(circuit.tag,),
    )


@rule
@from_each(Box)
def circuits_in_one_box(job: Job, box: Box) -> Iterable[Finding]:
    """Two circuits on one yoke, which must go off together; or in one box, which whoever opens it must know."""
    several = circuits_in(box)
    known = {tag: one for tag in several if (one := job.of(Circuit).get(tag)) is not None} if len(several) > 1 else {}
    if len(known) < 2:
        return
    us = is_us(job)
    yokes = [
        each for gear in power(job).gear[box.tag] if len(each := [tag for tag in gear.circuits if tag in known]) > 1
    ]
    # Two circuits at one breaker number are a two-pole breaker: they go off together.
    apart = [each for each in yokes if len({known[tag].slot.strip() or tag for tag in each}) > 1]
    numbers = {
        "circuits": few_of(known, 99),
        "breakers": few_of((one.slot or "not entered" for one in known.values()), 99),
    }
    if apart:
        tags = tuple(dict.fromkeys(tag for each in apart for tag in each))
        yield Finding(
            "two_circuits_on_one_yoke",
            "fix",
            (box.tag, *tags),
            f"{' and '.join(tags)} on one receptacle",
            "Ask for a two-pole breaker or a handle tie and enter one breaker no. for both, or put both halves on one "
            f"circuit. {ELECTRICIAN}"
            if us
            else f"Use one circuit for both halves, or two socket-outlets. {ELECTRICIAN}",
            nec("210.7", edition(job)) if us else f"{METRIC_CODE} 314.4 and 537.2",
            numbers,
            why="One breaker off leaves the other half live. Both must go off together.",
            about=(box.tag,),
        )
    shares = [cable for cable in power(job).mains.get(box.tag, ()) if conductors_of(cable) >= MULTIWIRE]
    tied = len({one.slot.strip() or tag for tag, one in known.items()}) == 1
    if us and shares and not tied:
        yield _shared_in_box(job, box, shares[0], tuple(known))
    if not apart and not yokes:
        yield Finding(
            "two_circuits_in_box",
            "look",
            (box.tag, *known),
            f"{len(known)} circuits in one box: {' '.join(known)}",
            f"Turn off every one before it is opened, and write their breakers inside the plate. {ELECTRICIAN}",
            "Common practice" if us else f"{METRIC_CODE} 514.11.1",
            numbers,
            why=f"{few_of(known, 99)} end in it; turning one breaker off leaves it live.",
            about=(box.tag,),
        )
