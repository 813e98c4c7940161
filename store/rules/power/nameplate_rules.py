"""Findings about what the nameplate and the manual ask of a circuit, and about wire that is not copper."""

from __future__ import annotations

import re
from collections.abc import Iterable

from store.records.equipment import Equipment
from store.records.whole import Job
from store.records.wiring import Box, Cable, Circuit
from store.rules.core.code import METRIC_CODE, edition, is_us
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import ELECTRICIAN, MAKER, plain
from store.rules.power.plan import VOLTS_US, Feed, OnCircuit, has_plug, in_use, is_heater, is_mains, power
from store.rules.power.wires import Wire, most_breaker_a, noted_wires, reaches, wire_of_circuit
from store.trade.measured.citations import cite, nec
from store.trade.power.metals import metal_of

OTHER_VOLTS = 1.25
"""Nominal voltages of one system are nearer than this: 110 to 127, 208 to 240 (ANSI C84.1, from memory)."""
LEAST_LINE_VOLTS = 100.0
"""Less than this is what a driver or a transformer gives."""
LEAST_ALUMINUM_MM2 = 16.0
LEAST_ALUMINUM_SOURCE = f"{METRIC_CODE} Table 52.3 (from memory)"
_SAYS_VOLTS = re.compile(r"(?<![/\w-])(1[12]\d|2[0-4]\d|277)\s*(?:v|volts?|vac)\b", re.IGNORECASE)


def _plate_source(job: Job) -> str:
    return f"{nec('110.3(B)', edition(job))}; the nameplate" if is_us(job) else f"{METRIC_CODE} 134.1.1; the nameplate"


@rule
@from_each(Equipment)
def wrong_volts(job: Job, one: Equipment) -> Iterable[Finding]:
    """A thing made for another voltage than the circuit that it is plugged or wired into has."""
    box = job.of(Box).get(power(job).feeds.get(one.tag, Feed()).box)
    on = power(job).circuits.get(box.circuit) if box is not None else None
    if box is None or on is None or not in_use(one) or job.of(Equipment).get(one.plug) is not None:
        return
    said = _SAYS_VOLTS.findall(f"{one.name} {one.source}")
    typed = one.plate_volts or (one.volts if (one.volts or 0.0) >= LEAST_LINE_VOLTS else None)
    made_for = typed if typed is not None else float(said[0]) if len(set(said)) == 1 else None
    if made_for is None and is_us(job) and on.volts >= OTHER_VOLTS * VOLTS_US and not is_heater(one) and has_plug(one):
        yield _volts_to_read(job, one, box, on)
    if made_for is None or max(made_for, on.volts) < OTHER_VOLTS * min(made_for, on.volts):
        return
    known = typed is not None
    yield Finding(
        "wrong_volts",
        "look" if not known else "stop" if made_for < on.volts else "fix",
        (one.tag, box.tag, on.circuit.tag),
        f"{made_for:g} V equipment on a {on.volts:g} V circuit",
        (
            f"Plan a {made_for:g} V circuit with the receptacle that its plug fits, or choose a {on.volts:g} V model. "
            if known
            else "Read the volts on its nameplate and enter them. "
        )
        + f"Never change its plug. {ELECTRICIAN}",
        _plate_source(job),
        {"made for": f"{made_for:g} V", "circuit": f"{on.volts:g} V"},
        why=f"{'The nameplate says' if known else 'Its name or source says'} {made_for:g} V; {on.circuit.tag} at "
        f"{box.tag} is {on.volts:g} V.",
        about=(one.tag,),
    )


def _volts_to_read(job: Job, one: Equipment, box: Box, on: OnCircuit) -> Finding:
    """Of a thing on a plug nobody said that it is made for the volts of a circuit that few are made for."""
    return Finding(
        "wrong_volts",
        "look",
        (one.tag, box.tag, on.circuit.tag),
        f"On a {on.volts:g} V circuit, its volts not entered",
        f"Read the volts on its nameplate and enter them. Never change its plug. {ELECTRICIAN}",
        _plate_source(job),
        {"made for": "not entered", "circuit": f"{on.volts:g} V"},
        why=f"{on.circuit.tag} at {box.tag} is {on.volts:g} V; most equipment with a plug is made for {VOLTS_US:g} V.",
        about=(one.tag,),
    )


@rule
@from_each(Equipment)
def not_the_makers_breaker(job: Job, one: Equipment) -> Iterable[Finding]:
    """A circuit with another breaker than the manual asks for."""
    box = job.of(Box).get(power(job).feeds.get(one.tag, Feed()).box)
    on = power(job).circuits.get(box.circuit) if box is not None else None
    has = on.circuit.breaker if on is not None else None
    if on is None or has is None or one.breaker is None or has == one.breaker or not in_use(one):
        return
    plan = "wire and breaker for it" if has < one.breaker else "a breaker of that size"
    yield Finding(
        "not_the_makers_breaker",
        "fix",
        (one.tag, on.circuit.tag),
        f"Manual asks for {one.breaker:g} A, breaker is {has:g} A",
        f"Plan {plan}, or choose a model for a {has:g} A circuit. {MAKER} {ELECTRICIAN}",
        f"{nec('110.3(B)', edition(job))}; the manual" if is_us(job) else "the manual",
        {"manual": f"{one.breaker:g} A", "breaker": f"{has:g} A"},
        why=f"{on.circuit.tag} feeds it through {box.tag if box else ''} with a {has:g} A breaker.",
        about=(one.tag,),
    )


@rule
@from_each(Circuit)
def wire_not_copper(job: Job, circuit: Circuit) -> Iterable[Finding]:
    """Aluminum or copper-clad wire: its breaker is smaller, and its devices and joints are made for it."""
    wire = wire_of_circuit(job, circuit)
    if wire is None or wire.metal == "copper":
        return
    if not is_us(job):
        yield _metric_metal(circuit, wire)
        return
    most = most_breaker_a(job, circuit, wire)
    if most is not None and circuit.breaker is not None and circuit.breaker > most:
        allowed = f"{most:g} A at most" if most else "no breaker at all: it isn't made for house circuits"
        yield Finding(
            "breaker_over_wire",
            "stop",
            (circuit.tag,),
            f"{circuit.breaker:g} A breaker on {wire.text}",
            "Plan the smaller breaker, or copper of the size for this one. If the house is wired so already, have an "
            f"electrician look at it now. {ELECTRICIAN}",
            cite("small conductors", edition(job)) if most else nec("310.3(A)", edition(job)),
            {"breaker": f"{circuit.breaker:g} A", "wire": wire.text, "most": f"{plain(most)} A"},
            why=f"{wire.text} can be on {allowed}. The wire could overheat before the breaker trips.",
        )
    yield Finding(
        "wire_not_copper",
        "look",
        (circuit.tag,),
        f"{wire.metal.capitalize()} wire",
        "Have an electrician make every joint. Switches and receptacles on it must be marked CO/ALR, and a splice to "
        f"copper needs a connector listed for both. {ELECTRICIAN}",
        f"{nec('110.14', edition(job))}, 404.14(C) and 406.3(C)",
        {"wire": wire.text},
        why="Ordinary devices and connectors work loose on it and heat up."
        if wire.metal == "aluminum"
        else "Devices and connectors have to be marked for it.",
    )


def _metric_metal(circuit: Circuit, wire: Wire) -> Finding:
    """Wire that is not copper in a metric job: thinner than it is made for fixed wiring, or beyond the tables here."""
    thin = wire.size.mm2 is not None and wire.size.mm2 < LEAST_ALUMINUM_MM2
    return Finding(
        "wire_not_copper",
        "stop" if thin else "look",
        (circuit.tag,),
        f"{wire.metal.capitalize()} wire" + (f" under {LEAST_ALUMINUM_MM2:g} mm²" if thin else ""),
        f"Use copper of the size for this circuit. {ELECTRICIAN}"
        if thin
        else f"Have an electrician choose breaker and joints for it: the tables here are of copper. {ELECTRICIAN}",
        LEAST_ALUMINUM_SOURCE,
        {"wire": wire.text},
        why=f"{wire.text}: aluminum for fixed wiring starts at {LEAST_ALUMINUM_MM2:g} mm²."
        if thin
        else "It carries less than copper, and needs joints made for it.",
    )


@rule
@from_each(Cable)
def copper_on_aluminum(job: Job, cable: Cable) -> Iterable[Finding]:
    """A cable of one metal joined in a box to a circuit of the other."""
    if cable.retired is not None or not is_us(job) or not is_mains(job, cable):
        return
    own = metal_of(f"{cable.type} {cable.rating}")
    for end in (cable.start, cable.end):
        box = job.of(Box).get(end)
        circuit = str(box.circuit) if box is not None else ""
        wire = noted_wires(job).get(circuit)
        if wire is None or "aluminum" not in {own, wire.metal} or own == wire.metal:
            continue
        if cable.tag not in reaches(job)[circuit].cables:
            continue
        yield Finding(
            "copper_on_aluminum",
            "fix",
            (cable.tag, str(end), circuit),
            f"{own.capitalize()} spliced to {wire.metal}",
            f"Use a connector listed for both metals, or start {cable.tag} at the electrical panel. {ELECTRICIAN}",
            nec("110.14(B)", edition(job)),
            {"cable": own, "circuit": wire.text, "at": str(end)},
            why=f"{cable.tag} is {own}; {circuit} is {wire.text}. The two must not touch in one joint.",
            about=(cable.tag,),
        )
        return
