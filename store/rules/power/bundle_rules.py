"""Findings about power cables that lie together: what each may still carry against its breaker."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from store.records.wall import Wall
from store.records.whole import Job
from store.records.wiring import Cable, Circuit, Raceway
from store.rules.core.code import edition, is_us
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.memo import once
from store.rules.core.wording import ELECTRICIAN, few_of, listed, plain, said
from store.rules.power.bundles import Bundle, bundles, circuit_of_cable, in_insulation, in_one_raceway
from store.rules.power.load import states
from store.rules.power.wires import Wire, carries_a, conductors_of, is_ring, reaches, wire_of_cable, wire_of_circuit
from store.trade.measured.citations import cite
from store.trade.power.grouping import (
    IGNORED_SHARE,
    INSULATED_SOURCE,
    METRIC_SOURCE,
    RING_LEAST_CAPACITY_A,
    bunched_factor,
    current_carrying,
    grouped_ampacity_a,
    grouped_breaker_ok,
    insulated_capacity_a,
)
from store.trade.power.tables_us import AMPACITY_60C_A

MANY = 3
"""From so many on a group is no question any more: two may be spaced as they are stapled."""


@rule
def cables_bundled(job: Job) -> Iterable[Finding]:
    """Power cables through one row of holes, or down one stud, that may not carry what their breakers let through."""
    for bundle in bundles(job).values():
        yield from _bundled(job, bundle)


@once
def _bundled(job: Job, bundle: Bundle) -> tuple[Finding, ...]:
    way = "one row of holes" if bundle.level else "one stud"
    at = f"{said(job, bundle.at)} {'off the floor' if bundle.level else 'from left'} on {bundle.where}"
    return tuple(_judged(job, bundle, way, at))


@rule
@from_each(Circuit)
def cable_in_insulation(job: Job, circuit: Circuit) -> Iterable[Finding]:
    """A 230 V circuit whose cable carries less in the insulation of its wall than the way it is entered as."""
    wire, breaker = wire_of_circuit(job, circuit), circuit.breaker
    if is_us(job) or wire is None or wire.size.mm2 is None or breaker is None:
        return
    alone = carries_a(job, circuit, wire)
    needed = RING_LEAST_CAPACITY_A if is_ring(job, circuit) else breaker
    found = [
        (carried, tag, wall, length)
        for tag in reaches(job)[circuit.tag].cables
        for wall, length in in_insulation(job).get(tag, {}).items()
        if (carried := insulated_capacity_a(wire.size.mm2, job.of(Wall)[wall].insulation, length, circuit.lies))
        is not None
    ]
    if alone is None or alone < needed or not found or (least := min(found))[0] >= needed:
        return
    carried, _, wall, _ = least
    cables = tuple(dict.fromkeys(tag for amps, tag, *_ in found if amps < needed))
    yield Finding(
        "cable_in_insulation",
        "stop",
        (*cables, circuit.tag, wall),
        f"Overheats in the insulation of {wall}",
        "Keep it out of the insulation, against the plasterboard; or plan thicker cable, or a smaller breaker. "
        f"{ELECTRICIAN}",
        INSULATED_SOURCE,
        {
            "carries": f"{plain(carried)} A",
            "needs": f"{needed:g} A",
            "insulation": job.of(Wall)[wall].insulation,
            "entered as": circuit.lies,
        },
        why=f"In {job.of(Wall)[wall].insulation}, {wire.text} carries {plain(carried)} A; {circuit.tag} needs "
        f"{needed:g} A of it. It is entered as method {circuit.lies}, {plain(alone)} A.",
        about=cables,
    )


@rule
@from_each(Raceway)
def cables_bundled_in_raceway(job: Job, raceway: Raceway) -> Iterable[Finding]:
    """Power cables in one raceway that may not carry what their breakers let through."""
    bundle = in_one_raceway(job).get(raceway.tag)
    if bundle is not None:
        yield from _judged(job, bundle, "one raceway", f"in {raceway.tag}")


def _judged(job: Job, bundle: Bundle, way: str, at: str) -> Iterator[Finding]:
    there = [
        (cable, circuit, wire)
        for cable in (job.of(Cable)[tag] for tag in bundle.cables)
        if (circuit := circuit_of_cable(job, cable)) is not None
        and (wire := wire_of_cable(job, cable)) is not None
        and wire.metal == "copper"
    ]
    yield from (_by_us if is_us(job) else _by_metric)(job, bundle, there, way, at)


Laid = tuple[Cable, Circuit, Wire]


def _by_us(job: Job, bundle: Bundle, there: list[Laid], way: str, at: str) -> Iterator[Finding]:
    live = sum(current_carrying(conductors_of(job.of(Cable)[tag])) for tag in bundle.cables)
    short: list[str] = []
    wrong: list[str] = []
    for cable, circuit, wire in there:
        gauge, breaker = wire.size.awg, circuit.breaker
        if gauge not in AMPACITY_60C_A or breaker is None:
            continue
        state = states(job)[circuit.tag]
        if not grouped_breaker_ok(gauge, live, breaker, state.design_a, several=state.on.places > 1):
            most = grouped_ampacity_a(gauge, live)
            wrong.append(cable.tag)
            short.append(f"{cable.tag}, {wire.text}, {plain(most)} A behind {breaker:g} A")
    if wrong:
        yield Finding(
            "cables_bundled",
            "stop",
            (*wrong, bundle.where),
            f"Overheats: {len(bundle.cables)} power cables in {way}",
            f"Split them between two rows of holes, or run one another way. Thicker wire also works. {ELECTRICIAN}"
            if way != "one raceway"
            else f"Use a second raceway, or thicker wire. {ELECTRICIAN}",
            f"{cite('nm ampacity', edition(job))} and {cite('bundling', edition(job)).split(' ', 2)[2]}",
            {"together": f"{few_of(bundle.cables, 99)} {at}", "live wires": str(live), "short": "; ".join(short)},
            why=f"{listed(bundle.cables)} lie together for {said(job, bundle.length)}, {at}: {live} live wires. "
            f"{_CLOSE[bundle.close]}Then they carry: {few_of(short, 3)}.",
            about=tuple(wrong),
        )


_CLOSE = {
    "": "",
    "insulation": "More than two in insulation count at any length. ",
    "sealed holes": "More than two through one sealed hole count at any length. ",
}


def _by_metric(job: Job, bundle: Bundle, there: list[Laid], way: str, at: str) -> Iterator[Finding]:
    there = [each for each in there if not _hardly_loaded(job, each, len(there))]
    # Both legs of one ring in a group are one circuit.
    rings = {circuit.tag for _, circuit, _ in there if is_ring(job, circuit)}
    count = len(rings) + sum(circuit.tag not in rings for _, circuit, _ in there)
    if count < 2:
        return
    factor = bunched_factor(count)
    short, wrong = [], []
    for cable, circuit, wire in there:
        alone = carries_a(job, circuit, wire)
        needed = RING_LEAST_CAPACITY_A if circuit.tag in rings else circuit.breaker
        if alone is not None and needed is not None and alone * factor < needed <= alone:
            wrong.append(cable.tag)
            short.append(f"{cable.tag}, {wire.text}, {plain(alone * factor)} A of {needed:g} A")
    if wrong:
        yield Finding(
            "cables_bundled",
            "fix" if count >= MANY else "look",
            (*wrong, bundle.where),
            f"Grouped: {count} loaded cables in {way}",
            "Keep a clear gap of two cable diameters between them, give each its own holes, or plan thicker cable. "
            f"{ELECTRICIAN}",
            METRIC_SOURCE,
            {"together": f"{few_of(bundle.cables, 99)} {at}", "factor": f"{factor:.2f}", "short": "; ".join(short)},
            why=f"{listed(bundle.cables)} lie together for {said(job, bundle.length)}, {at}: factor {factor:.2f}. "
            f"Then they carry: {few_of(short, 3)}.",
            about=tuple(wrong),
        )


def _hardly_loaded(job: Job, laid: Laid, count: int) -> bool:
    """True where all on its circuit is known, and is no more than 30 % of what its wire carries in the group."""
    _, circuit, wire = laid
    state, alone = states(job)[circuit.tag], carries_a(job, circuit, wire)
    known = state.connected_a > 0 and not state.on.no_watts
    return known and alone is not None and state.connected_a <= IGNORED_SHARE * alone * bunched_factor(max(1, count))
