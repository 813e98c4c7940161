"""What only a licensed person can answer about the power of a job, and what holds in every box and stud."""

from __future__ import annotations

from collections.abc import Iterator

from store.measure.length import Length
from store.records.equipment import Equipment
from store.records.wall import Wall, Zone
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.core.code import METRIC_CODE, edition, is_us
from store.rules.core.wording import at_most, few_of, listed, plain, shown
from store.rules.core.wording import named as called
from store.rules.heat.heater import heaters
from store.rules.power.load import states
from store.rules.power.plan import drawn_w, in_use, is_heater, power
from store.rules.wall.pieces import bearing
from store.trade.cable.install import FREE_CONDUCTOR_IN, FREE_OUTSIDE_IN, SUPPORT_APART_IN
from store.trade.measured.citations import cite, nec
from store.trade.measured.framing import (
    BORE_SOURCE,
    PLATE_SOURCE,
    bore_limit,
    largest_hole_without_plate,
    notch_limit,
)


def questions(job: Job) -> list[str]:
    """Questions for the electrician and the inspector, as this job raises them."""
    return [*_of_circuits(job), *_of_heaters(job), *_of_boxes(job), *_of_walls(job), *_of_the_office(job)]


def _of_circuits(job: Job) -> Iterator[str]:
    boxes = job.of(Box)
    found = power(job).circuits
    new = [tag for tag, on in found.items() if on.boxes and all(boxes[box].new for box in on.boxes)]
    old = [tag for tag, on in found.items() if any(not boxes[box].new for box in on.boxes) or on.circuit.load]
    added = [tag for tag in new if tag not in old]
    if added:
        yield (
            f"Has the electrical panel room and capacity for {few_of([called(job, tag) for tag in added])}, by a load "
            "calculation of the house?"
        )
    for tag in old:
        load = found[tag].circuit.load
        noted = f"{plain(load)} W entered" if load else "no load entered"
        yield f"What else does the breaker of {called(job, tag)} feed, and is its wire as entered here? Now: {noted}."
    for tag, state in states(job).items():
        if state.on.boxes and (state.on.circuit.breaker is None or state.carries_a is None):
            yield f"Which breaker and wire does {called(job, tag)} have, or should it have?"
    if is_us(job) and any(on.circuit.afci for on in found.values()):
        yield (
            "Which arc-fault protection suits this electrical panel, and does the town change the rule? "
            f"({cite('afci', edition(job))})"
        )


def _of_heaters(job: Job) -> Iterator[str]:
    for tag, look in heaters(job).items():
        for text in look.to_ask:
            yield f"{called(job, tag)}: {text}?"
    for tag, one in job.of(Equipment).items():
        if is_heater(one) and in_use(one) and tag not in heaters(job):
            why = "They are more than the tables here cover." if drawn_w(one) else "No watts entered yet."
            yield f"{called(job, tag)}: how many watts, and which circuit do its instructions ask for? {why}"


def _of_boxes(job: Job) -> Iterator[str]:
    boxes = job.of(Box)
    inlets = [tag for tag, box in boxes.items() if box.what == "quick-connect"]
    if inlets:
        yield f"Does the inspector accept a recessed inlet fed by a cord, as at {few_of(inlets)}? Opinions differ."
    old = [tag for tag, box in boxes.items() if not box.new and box.what in ("receptacle", "switch", "junction")]
    if old:
        yield f"Are the boxes that stay ({few_of(old, 12)}) grounded, and large enough for what is added to them?"
    half = [tag for tag, box in boxes.items() if box.switched == "half"]
    if half and is_us(job):
        yield f"One circuit or two on the halves of {few_of(half)}? Two on one yoke must switch off together."


def _of_walls(job: Job) -> Iterator[str]:
    for tag, wall in job.of(Wall).items():
        if bearing(wall) is None:
            yield f"Is {called(job, tag)} load-bearing? It counts as load-bearing until someone licensed says no."


def _of_the_office(job: Job) -> Iterator[str]:
    if job.settings.permit == "unknown":
        yield "Is a permit needed, who takes it out, and which inspections come before the wall is covered?"
    yield (
        f"Is the {edition(job)} edition of the electrical code the one in force here, and what does the town add?"
        if is_us(job)
        else f"Which national rules are in force here? The figures are by {METRIC_CODE}."
    )


def in_every_box(job: Job) -> list[str]:
    """What holds for every box and every stud, each with its section; empty where other rules are in force."""
    if not is_us(job):
        return []
    year = edition(job)
    free, outside, apart = (_inches(job, each) for each in (FREE_CONDUCTOR_IN, FREE_OUTSIDE_IN, SUPPORT_APART_IN))
    return [
        f"{free} of free wire at each box, {outside} of it outside a box with a small opening ({nec('300.14', year)}).",
        f"Staple cable near each box as the schedule says, and at most {apart} apart; bored holes support a level run "
        f"({nec('334.30', year)}, {nec('314.17', year)}).",
        f"Every splice is in a box, and every box stays accessible ({nec('300.15', year)}, {nec('314.29', year)}).",
        f"New receptacles are tamper-resistant, with the exceptions in that section ({nec('406.12', year)}).",
        f"Box fronts for a finish of {shown(job.settings.finish, job)}{_zones(job)}: at most 1/4 in behind drywall, "
        f"flush in wood ({nec('314.20', year)}).",
        f"A nail plate wherever a hole or a cable is less than 1-1/4 in from the face of a stud ({PLATE_SOURCE}).",
        f"Low voltage never shares a box or raceway with power ({cite('power apart, class 2', year)}).",
        *(_studs(job, wall) for wall in job.of(Wall).values()),
    ]


def _zones(job: Job) -> str:
    """The finishes that are thicker or thinner than the drywall, each with its thickness."""
    own = [f"{shown(each.thickness, job)} in {tag} {each.name}" for tag, each in job.of(Zone).items()]
    return f" ({listed(own)})" if own else ""


def _inches(job: Job, inches: float) -> str:
    return shown(Length(round(inches * 25_400_000)), job)


def _studs(job: Job, wall: Wall) -> str:
    depth, carries = wall.stud_depth.nm, bearing(wall)
    hole, free, notch = (
        at_most(job, each)
        for each in (bore_limit(depth, carries), largest_hole_without_plate(depth), notch_limit(depth, carries))
    )
    return (
        f"Studs of {called(job, wall.tag)}, {shown(wall.stud_depth, job)} deep: holes to {hole}, without plates to "
        f"{free}, notches to {notch} and always with a plate ({BORE_SOURCE})."
    )
