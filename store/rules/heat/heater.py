"""Each heater of the job, worked out: what is settled, and what only an inspector or the maker can say."""

from __future__ import annotations

from collections.abc import Mapping

import msgspec

from store.records.equipment import Equipment
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.core.code import METRIC_CODE, edition, is_us
from store.rules.core.keyed import by_key
from store.rules.core.wording import plain
from store.rules.power.load import standard_device_a
from store.rules.power.plan import (
    VOLTS_METRIC,
    VOLTS_US,
    Feed,
    OnCircuit,
    drawn_w,
    has_plug,
    in_use,
    is_heater,
    power,
)
from store.trade.heat.heater import BTU_PER_H_PER_W, Branch, Connection, heater_figures, metric_heater
from store.trade.measured.citations import Note, nec
from store.trade.power.tables_metric import PLUG_FUSES_A

MANUAL = "Manufacturer's manual; its listing and instructions govern"
"""Where every clearance of a heater comes from."""


def manual(job: Job) -> str:
    """The source of what a heater's manual decides; in a US job with the section that says so."""
    return f"{MANUAL}, {nec('110.3(B)', edition(job))}" if is_us(job) else MANUAL


class HeaterLook(msgspec.Struct, frozen=True):
    """One heater."""

    tag: str
    circuit: str
    """The circuit it ends on; empty when there is none."""
    volts: float
    amps: float
    amps_at_125: float | None
    """None where no 125 % rule is in force."""
    btu_per_h: float
    breaker_a: int | None
    """The breaker to plan for, own circuit; None beyond the tables."""
    wire: str
    receptacle: str
    settled: tuple[str, ...]
    to_ask: tuple[str, ...]


@by_key
def heaters(job: Job) -> Mapping[str, HeaterLook]:
    """Every heater in use whose watts are noted, by tag."""
    found = {}
    for tag, one in job.of(Equipment).items():
        if in_use(one) and is_heater(one) and drawn_w(one):
            look = _look(job, one)
            if look is not None:
                found[tag] = look
    return found


def _circuit(job: Job, one: Equipment) -> OnCircuit | None:
    plan = power(job)
    box = job.of(Box).get(plan.feeds.get(one.tag, Feed()).box)
    return plan.circuits.get(box.circuit) if box is not None else None


def volts_of(job: Job, one: Equipment) -> float:
    """The volts of the circuit that a thing ends on, else those that are usual where the job is."""
    on = _circuit(job, one)
    return on.volts if on is not None else VOLTS_US if is_us(job) else VOLTS_METRIC


def _look(job: Job, one: Equipment) -> HeaterLook | None:
    on, volts = _circuit(job, one), volts_of(job, one)
    circuit = on.circuit.tag if on is not None else ""
    watts = drawn_w(one) or 0.0
    if not is_us(job):
        return _metric(one, circuit, volts, watts)
    connection: Connection = "wired" if one.power == "hard-wired" else "plug"
    try:
        figures = heater_figures(watts, volts=volts, connection=connection, edition=edition(job))
    except ValueError:
        return None  # beyond what one house cable carries: `heater_beyond_tables` tells the person
    return HeaterLook(
        one.tag,
        circuit,
        volts,
        figures.amps,
        figures.amps_at_125,
        figures.btu_per_h,
        figures.planned.breaker_a,
        f"{figures.planned.gauge} AWG copper",
        figures.receptacle or "",
        tuple(map(_text, figures.settled)),
        tuple(_text(note) for note in figures.for_inspector if not _settled_by(on, figures.planned, note.text)),
    )


SMALLER = "is accepted for a unit that is plugged in"
"""What is asked of a heater on the smaller circuit."""


def _settled_by(on: OnCircuit | None, planned: Branch, question: str) -> bool:
    """True for the question about a smaller circuit where the one that is planned is as large as the larger choice."""
    breaker, size = (on.circuit.breaker, on.size) if on is not None else (None, None)
    if breaker is None or size is None or size.awg is None:
        return False
    return SMALLER in question and breaker >= planned.breaker_a and size.awg <= planned.gauge


def _metric(one: Equipment, circuit: str, volts: float, watts: float) -> HeaterLook:
    drawn = watts / volts
    device = standard_device_a(drawn)
    figures = metric_heater(watts, volts) if device is not None else None
    fuse = figures.plug_fuse_a if figures else None
    settled = [f"{plain(watts, 0)} W at {plain(volts, 0)} V is {plain(drawn, 2)} A"]
    if fuse is not None:
        settled.append(f"on a plug or a fused connection unit: a {fuse} A fuse (BS 1362)")
    else:
        settled.append(f"more than the {PLUG_FUSES_A[-1]} A of a plug or fused unit: its own circuit, wired")
    asked = [f"which circuit, protection and means of isolation it gets (whoever certifies the work, {METRIC_CODE})"]
    if has_plug(one):
        asked.insert(0, "if it can stay on a plug once it is fastened in place (manufacturer's instructions)")
    return HeaterLook(
        one.tag, circuit, volts, drawn, None, watts * BTU_PER_H_PER_W, device, "", "", tuple(settled), tuple(asked)
    )


def _text(note: Note) -> str:
    return f"{note.text} ({note.source})"
