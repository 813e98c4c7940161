"""Findings about the electric fireplace or another heater: its own circuit, never a strip, and who has to be asked."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.numbers import with_unit
from store.records.equipment import Equipment
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.core.code import METRIC_CODE, edition, is_us
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import ELECTRICIAN, MAKER, few_of, plain, plural
from store.rules.core.wording import named as called
from store.rules.heat.heater import HeaterLook, heaters, volts_of
from store.rules.power.load import standard_device_a, states
from store.rules.power.plan import Feed, OnCircuit, drawn_w, has_plug, in_use, is_heater, power
from store.trade.measured.citations import cite, nec
from store.trade.power.circuit_load import is_continuous
from store.trade.power.conductors import smallest_nm_gauge


@rule
@from_each(Equipment)
def heater_on_strip(job: Job, one: Equipment) -> Iterable[Finding]:
    """A heater plugged into a strip, or into anything but a receptacle of the wall."""
    if not in_use(one):
        return
    if is_heater(one) and one.plug in job.of(Equipment):
        yield Finding(
            "heater_on_strip",
            "stop",
            (one.tag, str(one.plug)),
            f"Heater on a power strip, {one.plug}",
            f"Give it its own receptacle or wiring, as its manual says. {MAKER} {ELECTRICIAN}",
            f"manufacturer's instructions; {nec('110.3(B)', edition(job))}; UL 1363"
            if is_us(job)
            else "manufacturer's instructions",
            {"plugged into": str(one.plug), "heater": f"{plain(drawn_w(one) or 0.0)} W"},
            why=(f"It is plugged into {called(job, one.plug)}, not into the wall. Such a plug can overheat and burn."),
            about=(one.tag,),
        )


@rule
@from_each(Equipment)
def heater_shares_circuit(job: Job, one: Equipment) -> Iterable[Finding]:
    """A heater on a circuit that something else is on, or that feeds lights."""
    on = _heats_on(job, one)
    if on is None:
        return
    others = [load.name for load in on.loads if load.name != one.tag]
    others += [tag for tag in on.no_watts if tag != one.tag]
    others += [tag for tag in on.direct if job.of(Equipment)[tag].what == "strip" and not power(job).users.get(tag)]
    shares = ([f"{plain(on.circuit.load)} W existing load"] if on.circuit.load else []) + (
        ["lighting"] if on.circuit.lighting else []
    )
    if others or shares:
        yield Finding(
            "heater_shares_circuit",
            "fix",
            (one.tag, on.circuit.tag),
            f"Heater shares {on.circuit.tag}",
            f"Plan a circuit for it alone, as its manual asks. {MAKER} {ELECTRICIAN}",
            f"manufacturer's instructions; {cite('fixed 50 %', edition(job))}"
            if is_us(job)
            else "manufacturer's instructions",
            {"with": few_of([*others, *shares], 99), "heater": f"{plain(one.watts or 0.0)} W"},
            why=(
                f"Also on {called(job, on.circuit.tag)}: {few_of([*(called(job, each) for each in others), *shares])}."
            ),
            about=(one.tag,),
        )


def _heats_on(job: Job, one: Equipment) -> OnCircuit | None:
    """The circuit that a heater in use ends on; None for anything else."""
    if not in_use(one) or not is_heater(one):
        return None
    plan = power(job)
    box = job.of(Box).get(plan.feeds.get(one.tag, Feed()).box)
    return plan.circuits.get(box.circuit) if box is not None else None


@rule
@from_each(Equipment)
def heater_open_place(job: Job, one: Equipment) -> Iterable[Finding]:
    """A heater alone on a circuit that has a free place for something else."""
    on = _heats_on(job, one)
    if on is None:
        return
    free = on.places - (1 if has_plug(one) else 0)
    if on.direct == (one.tag,) and not on.circuit.load and not on.circuit.lighting and free > 0:
        single = "a single receptacle" if has_plug(one) else "no receptacle"
        yield Finding(
            "heater_open_place",
            "look",
            (one.tag, on.circuit.tag),
            f"Open receptacle on the heater's circuit {on.circuit.tag}",
            f"Plan {single} on this circuit, so that nothing else gets plugged in. {ELECTRICIAN}",
            f"{cite('single receptacle', edition(job))}, {cite('individual circuit', edition(job))}"
            if is_us(job)
            else "common practice",
            {"open places": str(free)},
            why=(
                f"It is alone on {called(job, on.circuit.tag)}, and {plural(free, 'more receptacle')} "
                f"{'is' if free == 1 else 'are'} open there."
            ),
            about=(one.tag,),
        )


@rule
@from_each(Equipment)
def heater_circuit_too_small(job: Job, record: Equipment) -> Iterable[Finding]:
    """A heater's circuit below the one to plan for: certain where 125 % applies, to be asked where it may not."""
    if not is_us(job):
        return
    tag, look = record.tag, heaters(job).get(record.tag)
    if look is None:
        return
    state = states(job).get(look.circuit)
    one = job.of(Equipment)[tag]
    if state is None or state.on.circuit.breaker is None or look.breaker_a is None:
        return
    have, wire = state.on.circuit.breaker, state.on.size
    if have >= look.breaker_a and (wire is None or wire.awg is None or _carries(look, wire.awg)):
        return
    certain = one.power == "hard-wired" or (one.hours is not None and is_continuous(one.hours))
    yield Finding(
        "heater_circuit_too_small",
        "fix" if certain else "look",
        (tag, look.circuit),
        f"Heater circuit too small: {have:g} A, plan {look.breaker_a} A",
        (f"Plan its own circuit of {look.breaker_a} A in {look.wire}. {MAKER} {INSPECTOR_SAYS} {ELECTRICIAN}"),
        f"{cite('fixed heating 125 %', edition(job))}, {cite('continuous breaker', edition(job))}",
        {
            "heater": f"{plain(look.amps, 2)} A",
            "planned": f"{look.breaker_a} A in {look.wire}",
            "circuit": f"{have:g} A",
            "wire": wire.text if wire else "not known",
        },
        why=(
            f"{tag} draws {plain(look.amps)} A; planned at 125% as heating, "
            f"{plain(look.amps_at_125 or 0.0)} A: a {look.breaker_a} A breaker and {look.wire}. "
            f"{called(job, look.circuit)} has {have:g} A"
        )
        + (f" in {wire.text}." if wire else "."),
        about=(tag,),
    )


INSPECTOR_SAYS = 'Ask the inspector: "Is it fixed heating or an appliance?"'


def _carries(look: HeaterLook, gauge: int) -> bool:
    """True when the wire is no thinner than the heater's own circuit wants."""
    return gauge <= smallest_nm_gauge(look.amps_at_125 or look.amps, look.breaker_a or 15)


@rule
@from_each(Equipment)
def metric_heater_too_large(job: Job, record: Equipment) -> Iterable[Finding]:
    """A heater on a plug at 230 V that draws more than the fuse of a plug carries."""
    if is_us(job):
        return
    tag, look = record.tag, heaters(job).get(record.tag)
    if look is None:
        return
    one = job.of(Equipment)[tag]
    if has_plug(one) and look.amps > 13:
        yield Finding(
            "metric_heater_too_large",
            "fix",
            (tag,),
            f"{with_unit(look.amps, 'A', places=2)} is too much for a plug",
            (
                f"Have it wired on its own circuit of {standard_device_a(look.amps) or 'a larger'} A. "
                f"{MAKER} {ELECTRICIAN}"
            ),
            f"BS 1362; {METRIC_CODE}",
            {"draws": f"{plain(look.amps, 2)} A"},
            why=f"{tag} draws {plain(look.amps, 2)} A; a fused plug carries 13 A.",
        )


@rule
@from_each(Equipment)
def heater_watts_unknown(job: Job, one: Equipment) -> Iterable[Finding]:
    """A heater whose watts are not noted."""
    if not in_use(one):
        return
    if is_heater(one) and not drawn_w(one):
        yield Finding(
            "heater_watts_unknown",
            "look",
            (one.tag,),
            "No heater watts entered",
            "Read the watts, the volts and the circuit it asks for in its manual before you buy it.",
            "manufacturer's instructions",
            {"watts": "not entered"},
            why="Its circuit can't be planned.",
        )


@rule
@from_each(Equipment)
def heater_beyond_tables(job: Job, one: Equipment) -> Iterable[Finding]:
    """A heater that no cable and breaker of the tables would do for: a slip of the hand, or work for an engineer."""
    if not in_use(one):
        return
    watts = drawn_w(one)
    if is_heater(one) and watts and one.tag not in heaters(job):
        volts = volts_of(job, one)
        yield Finding(
            "heater_beyond_tables",
            "look",
            (one.tag,),
            f"Heater draws {plain(watts / volts)} A: more than the tables",
            (
                "Read the watts and the volts on its nameplate again, and enter the volts on its "
                f"circuit. {MAKER} {ELECTRICIAN}"
            ),
            f"{nec('Table 310.16', edition(job))}, {nec('240.6(A)', edition(job))}",
            {"heater": f"{plain(watts)} W", "volts": plain(volts)},
            why=(
                f"{plain(watts)} W at {plain(volts)} V is {plain(watts / volts)} A. The house-wiring tables here do "
                "not cover that, so its circuit is not calculated."
            ),
        )


@rule
@from_each(Equipment)
def heater_to_ask(job: Job, one: Equipment) -> Iterable[Finding]:
    """What only the inspector or the maker can settle about each heater."""
    tag, look = one.tag, heaters(job).get(one.tag)
    if look is None:
        return
    yield Finding(
        "heater_to_ask",
        "look",
        (tag,),
        "Settle these before the heater is wired",
        ("Ask the inspector or the electrician, with the manual in hand, and enter here who answered what."),
        "NEC Articles 422 and 424; manufacturer's instructions" if is_us(job) else "manufacturer's instructions",
        {"draws": f"{plain(look.amps, 2)} A", "circuit": look.circuit},
        why=f"{plain(look.amps)} A. To ask: {'; '.join(look.to_ask)}.",
    )
