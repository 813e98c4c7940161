"""Findings about circuits: breaker and wire, what they carry, and the drop."""

from __future__ import annotations

import re
from collections.abc import Iterable

from store.records.whole import Job
from store.records.wiring import Circuit
from store.rules.core.code import edition, is_us
from store.rules.core.findings import Finding, Severity, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import ELECTRICIAN, MAKER, all_called, few_of, plain, sentence, shown, were
from store.rules.core.wording import named as called
from store.rules.power.load import Drop, State, states
from store.rules.power.plan import power
from store.rules.power.wires import fits_ring, most_breaker_a, wire_of_circuit, wires
from store.trade.measured.bounds import exceeds, past
from store.trade.measured.citations import Note, cite, nec
from store.trade.power.circuit_metric import CABLE_SOURCE
from store.trade.power.voltage_drop import US_BRANCH_PERCENT, metric_advice, metric_limit_percent, us_advice

# A note of the arithmetic is told by the rule it cites: what it is called here, how grave, and what to do.
_TOLD: dict[str, tuple[str, Severity, str]] = {
    "small conductors": (
        "breaker_over_wire",
        "stop",
        "Plan the smaller breaker, or thicker wire for the whole circuit. If the house is wired this way now, have an "
        "electrician look at it now.",
    ),
    "continuous breaker": (
        "circuit_overloaded",
        "fix",
        "Take a load off this circuit, or plan another circuit. A larger breaker alone is not allowed: the "
        "wire decides.",
    ),
    "continuous conductor": (
        "wire_overloaded",
        "fix",
        "Take a load off this circuit, or plan another circuit in thicker wire.",
    ),
    "fixed heating 125 %": (
        "heater_near_limit",
        "look",
        'Ask the inspector: "Is this heater fixed or continuous?" Plan for the larger figure if you can.',
    ),
    "fixed 50 %": (
        "fixed_over_half",
        "fix",
        "Plan a separate circuit for the fixed load, with nothing else on it.",
    ),
    "receptacle load": (
        "receptacle_overloaded",
        "fix",
        "Plan a separate circuit for it, with one single receptacle that its plug fits.",
    ),
    "plug-in 80 %": (
        "plug_in_over_80",
        "fix",
        "Plan a separate circuit for it, or a larger circuit with the wire for it.",
    ),
    "single receptacle": (
        "receptacle_rating",
        "fix",
        "Use a receptacle with the circuit's own rating that fits the manufacturer's plug.",
    ),
    "receptacle rating": (
        "receptacle_rating",
        "fix",
        "Use receptacles with a rating that the breaker allows.",
    ),
}


_HEADS = {
    "breaker_over_wire": "Breaker too large for the wire",
    "circuit_overloaded": "Circuit overloaded",
    "wire_overloaded": "Wire overloaded",
    "heater_near_limit": "Heater near the circuit's limit",
    "fixed_over_half": "Fixed load over half of a shared circuit",
    "receptacle_overloaded": "Load too large for the receptacle",
    "plug_in_over_80": "Plug-in load over 80% of the circuit",
    "receptacle_rating": "Wrong receptacle rating for the circuit",
}
"""Headlines by the name of the finding."""


LEAST_RECEPTACLE_A = 15.0
"""NFPA 70 210.3; the 10 A circuits of 2023 feed no receptacles, 210.23(A) (secondary copies)."""
TEN_AMPS_SINCE = 2023


def _drop_text(job: Job, state: State, drop: Drop) -> str:
    """The share that is lost, in as many digits as the sentence below it has."""
    if is_us(job):
        return f"{past(drop.percent, US_BRANCH_PERCENT)}%"
    limit = metric_limit_percent(drop.length.mm / 1000, lighting=state.on.circuit.lighting)
    return f"{past(drop.percent, limit)} %"


@rule
@from_each(Circuit)
def circuit_limits(job: Job, circuit: Circuit) -> Iterable[Finding]:
    """Everything that the arithmetic of a circuit says of it: one finding a rule of the code."""
    if not is_us(job):
        return
    by_source = {cite(name, edition(job)): told for name, told in _TOLD.items()}
    tag, state = circuit.tag, states(job).get(circuit.tag)
    if state is None:
        return
    groups: dict[tuple[str, Severity], list[Note]] = {}
    for note in state.notes:
        if note.source in by_source and not _told_of_breaker(state, by_source[note.source][0]):
            name, severity, _ = by_source[note.source]
            groups.setdefault((name, severity if note.level == "fail" else "look"), []).append(note)
    for (name, severity), notes in groups.items():
        remedy = by_source[notes[0].source][2]
        yield Finding(
            name,
            severity,
            (tag,),
            _HEADS.get(name, "Circuit over its limit"),
            f"{remedy} {ELECTRICIAN}",
            notes[0].source,
            _numbers(state),
            why=sentence(_named(job, state, "; ".join(note.text for note in notes))),
        )


def _told_of_breaker(state: State, name: str) -> bool:
    """True for an overloaded wire that carries what its breaker is rated for: the breaker's own finding says it all."""
    breaker, carries = state.on.circuit.breaker, state.carries_a
    return name == "wire_overloaded" and breaker is not None and carries is not None and carries >= breaker


def _named(job: Job, state: State, text: str) -> str:
    """A note with the names of things in place of their tags alone."""
    names = {load.name for load in state.on.loads}
    return re.sub(r"\b[A-Z]\d+\b", lambda found: called(job, found[0]) if found[0] in names else found[0], text)


def _numbers(state: State) -> dict[str, str]:
    on = state.on
    return {
        "breaker": f"{on.circuit.breaker or 0:g} A",
        "wire": on.size.text if on.size else "not known",
        "carries": f"{plain(state.connected_a, 2)} A",
        "with 125 %": f"{plain(state.design_a, 2)} A",
        "on it": few_of(load.name for load in on.loads),
    }


@rule
@from_each(Circuit)
def metric_circuit_limits(job: Job, circuit: Circuit) -> Iterable[Finding]:
    """A 230 V circuit: what it carries within the breaker, the breaker within the wire."""
    if is_us(job):
        return
    tag, state = circuit.tag, states(job).get(circuit.tag)
    if state is None:
        return
    for note in state.notes:
        wire = note.source == CABLE_SOURCE
        own = wire_of_circuit(job, state.on.circuit)
        if wire and own is not None and fits_ring(job, state.on.circuit, own):
            continue
        yield Finding(
            "breaker_over_wire" if wire else "circuit_overloaded",
            "stop" if wire else "fix",
            (tag,),
            "Breaker too large for the wire" if wire else "Circuit overloaded",
            (
                "A radial circuit needs a smaller breaker or thicker wire. Enter on the circuit how the cable is "
                f"installed. A ring has its own rules. {ELECTRICIAN}"
                if wire
                else f"Take a load off this circuit, or plan another circuit. {ELECTRICIAN}"
            ),
            note.source,
            _numbers(state),
            why=sentence(note.text),
        )


@rule
@from_each(Circuit)
def thin_wire_on_breaker(job: Job, circuit: Circuit) -> Iterable[Finding]:
    """A cable on a circuit, in the plan or in a box, that is thinner than its breaker allows."""
    spur = "" if is_us(job) else " A fused spur, or a spur on a ring, has its own rules."
    tag, on = circuit.tag, power(job).circuits.get(circuit.tag)
    if on is None:
        return
    breaker = on.circuit.breaker
    if breaker is None:
        return
    for where, wire in wires(job)[tag].items():
        most = most_breaker_a(job, on.circuit, wire)
        if most is not None and breaker > most and not fits_ring(job, on.circuit, wire):
            yield Finding(
                "thin_wire_on_breaker",
                "stop",
                (tag, where),
                f"Wire too thin for its {breaker:g} A breaker",
                f"Plan thicker cable there, or the smaller breaker for the whole circuit.{spur} {ELECTRICIAN}",
                cite("small conductors", edition(job)) if is_us(job) else CABLE_SOURCE,
                {"wire": wire.text, "breaker": f"{breaker:g} A", "most": f"{most:g} A"},
                why=(
                    f"{called(job, where)} has {wire.text} wire on {called(job, tag)}. Such wire can be "
                    f"on {most:g} "
                    "A at most, or it can overheat before the breaker trips."
                ),
                about=(where,),
            )


@rule
@from_each(Circuit)
def voltage_drop(job: Job, circuit: Circuit) -> Iterable[Finding]:
    """More volts lost at the farthest box than is advised."""
    tag, state = circuit.tag, states(job).get(circuit.tag)
    if state is None:
        return
    drop = state.drop
    if drop is None:
        return
    if is_us(job):
        note = us_advice(drop.volts, state.on.volts, edition(job))
    else:
        lighting, metres = state.on.circuit.lighting, drop.length.mm / 1000
        note = metric_advice(drop.volts, metres, lighting=lighting, volts=state.on.volts)
    if note is not None:
        at = f"at {called(job, drop.to) if drop.to else 'the far end'}, {shown(drop.length, job)} from the panel"
        text = note.text.replace("at the far end", at)
        strands = ", stranded" if state.on.stranded else ", solid" if is_us(job) else ""
        metric = ", IEC 60228 class 5" if state.on.stranded else ", Table 4D5"
        yield Finding(
            "voltage_drop",
            "look",
            (tag,),
            f"Voltage drop {_drop_text(job, state, drop)} at the far end",
            (f"Use thicker wire or a shorter run. This is advice; an inspector does not fail it. {ELECTRICIAN}"),
            note.source + ("; Chapter 9, Table 8" if is_us(job) else metric),
            {
                "lost": f"{drop.volts:.2f} V",
                "share": f"{drop.percent:.1f} %",
                "wire": f"{drop.wire}{strands}",
            },
            why=(f"{text[0].upper()}{text[1:]}."),
        )


@rule
@from_each(Circuit)
def breaker_too_small(job: Job, circuit: Circuit) -> Iterable[Finding]:
    """A breaker of less than 15 A on a circuit with receptacles."""
    on, breaker = power(job).circuits.get(circuit.tag), circuit.breaker
    if not is_us(job) or on is None or breaker is None or breaker >= LEAST_RECEPTACLE_A or not on.places:
        return
    yield Finding(
        "breaker_too_small",
        "fix",
        (circuit.tag,),
        f"{breaker:g} A breaker on receptacles",
        f"Use 15 or 20 A with the wire for it. A {breaker:g} A circuit is for lights only. {ELECTRICIAN}",
        nec("210.23(A)", edition(job)) if edition(job) >= TEN_AMPS_SINCE else nec("210.3", edition(job)),
        {"breaker": f"{breaker:g} A", "places": str(on.places)},
        why=f"It feeds {on.places} places to plug in; circuits for them start at {LEAST_RECEPTACLE_A:g} A.",
    )


@rule
@from_each(Circuit)
def circuit_not_known(job: Job, circuit: Circuit) -> Iterable[Finding]:
    """A circuit in use whose breaker or wire is not noted, or not in the tables of the region."""
    tag, state = circuit.tag, states(job).get(circuit.tag)
    if state is None:
        return
    on = state.on
    if not (on.boxes or on.circuit.load):
        return
    missing = [] if on.circuit.breaker is not None else ["breaker"]
    if not on.circuit.conductor:
        missing.append("wire size")
    elif state.why_no_size:
        missing.append(f"a wire size in the code tables ({state.why_no_size})")
    if missing:
        yield Finding(
            "circuit_not_known",
            "look",
            (tag,),
            "Circuit incomplete",
            "Read the breaker's handle and the cable's jacket, or ask the electrician, and enter them.",
            "common practice",
            {"breaker": f"{on.circuit.breaker or 0:g} A", "conductor": on.circuit.conductor},
            why=f"Not entered: {' and '.join(missing)}. Overload and wire size can't be checked in full.",
        )


@rule
@from_each(Circuit)
def watts_not_known(job: Job, circuit: Circuit) -> Iterable[Finding]:
    """Things on a circuit whose watts are not noted: the circuit carries more than is shown."""
    tag, on = circuit.tag, power(job).circuits.get(circuit.tag)
    if on is None:
        return
    if on.no_watts:
        yield Finding(
            "watts_not_known",
            "look",
            (tag, *on.no_watts),
            "No watts entered for some loads",
            "Read the nameplate. If it gives amps, enter volts times amps.",
            "common practice",
            {"shown": f"{plain(on.watts)} W"},
            why=(
                f"The circuit carries more than shown: {all_called(job, on.no_watts)} "
                f"{were(len(on.no_watts), 'has', 'have')} "
                "no watts."
            ),
            about=(tag,),
        )


@rule
@from_each(Circuit)
def hours_matter(job: Job, circuit: Circuit) -> Iterable[Finding]:
    """Things whose hours are not noted, on a circuit that would be too small if they ran for three hours."""
    if not is_us(job):
        return
    tag, state = circuit.tag, states(job).get(circuit.tag)
    if state is None:
        return
    unknown = sum(load.watts for load in state.on.loads if load.name in state.on.no_hours) / state.on.volts
    would_be = state.design_a + 0.25 * unknown
    if state.limit_a is None or exceeds(state.design_a, state.limit_a) or not exceeds(would_be, state.limit_a):
        return
    yield Finding(
        "hours_matter",
        "look",
        (tag, *state.on.no_hours),
        "Overloaded if it runs 3 hours or more",
        f"Enter how long each runs at a stretch. {ELECTRICIAN}",
        cite("continuous breaker", edition(job)),
        {"limit": f"{plain(state.limit_a)} A", "would need": f"{plain(would_be, 2)} A"},
        why=(
            f"The circuit has {plain(state.limit_a)} A. If {all_called(job, state.on.no_hours)} "
            f"{were(len(state.on.no_hours), 'runs', 'run')} "
            f"3 hours or more, it needs {past(would_be, state.limit_a)} A."
        ),
        about=(tag,),
    )


@rule
@from_each(Circuit)
def not_the_only_one(job: Job, circuit: Circuit) -> Iterable[Finding]:
    """Something else on a circuit that is kept for one thing."""
    tag, on = circuit.tag, power(job).circuits.get(circuit.tag)
    if on is None:
        return
    others = [each for each in on.direct if each != on.circuit.only_for]
    if on.circuit.only_for and others:
        yield Finding(
            "not_the_only_one",
            "fix",
            (tag, *others),
            f"Other loads on a circuit for {on.circuit.only_for} only",
            f"Plug the others in somewhere else, or change what the circuit is for. {MAKER}",
            cite("individual circuit", edition(job)) if is_us(job) else "common practice",
            {"on it": few_of(others)},
            why=(
                f"It is for {called(job, on.circuit.only_for)} only, and {all_called(job, others)} "
                f"{were(len(others))} "
                "on it too."
            ),
            about=(tag,),
        )
