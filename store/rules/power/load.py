"""What each circuit carries against what it may: amperes, room left, and the drop to its farthest box."""

from __future__ import annotations

import msgspec

from store.measure.errors import BadValue
from store.measure.length import FOOT_NM, Length
from store.records.whole import Job
from store.records.wiring import Box, Cable, Circuit
from store.rules.cable.routes import routes
from store.rules.core.code import edition, is_us
from store.rules.core.keyed import of_each
from store.rules.power.box_text import Size, read_size
from store.rules.power.plan import OnCircuit, power
from store.rules.power.wires import Wire, carries_a, fits_ring, is_ring, wire_of_cable, wire_of_circuit, wires
from store.trade.measured.citations import Note, cite
from store.trade.power import circuit_load, circuit_metric, tables_metric
from store.trade.power.conductors import ohm_per_kft, ohm_per_km
from store.trade.power.metals import Metal, aluminum_ohm_per_kft
from store.trade.power.tables_us import AMPACITY_60C_A, THINNEST_AWG
from store.trade.power.voltage_drop import ORIGIN, Stretch, drops_v, two_wire_drop_v

METRE_NM = 1_000_000_000


class Drop(msgspec.Struct, frozen=True):
    """Volts lost on the way to the farthest box, with every load on."""

    volts: float
    percent: float
    to: str
    """The box where it is greatest; empty where the boxes are not joined by cables of the plan."""
    length: Length
    """One way, panel to that place."""
    lines: tuple[str, ...]
    """The sum, a line a stretch of cable."""
    wire: str = ""
    """What the circuit is wired in, as it is printed."""


class State(msgspec.Struct, frozen=True):
    """One circuit, worked out as far as what is known allows."""

    on: OnCircuit
    connected_a: float
    design_a: float
    """With what is continuous, and fixed heating, at 125 % in the United States; plain elsewhere."""
    carries_a: float | None
    """What the conductor carries; None when its size is not known, or not in the tables of the region."""
    limit_a: float | None
    """The lesser of the breaker and of what the conductor carries; of one, where the other is not noted."""
    notes: tuple[Note, ...]
    drop: Drop | None
    why_no_size: str
    """Why nothing can be told of the conductor that is noted; empty when something can."""

    @property
    def missing(self) -> list[str]:
        """What is to be noted before limits and drop can be told, in words; titles as the form has them."""
        circuit = self.on.circuit
        found = [] if circuit.breaker is not None else ["breaker, like 20 A"]
        if not circuit.conductor:
            found.append("conductor, like 12 (AWG) or 2.5 mm2")
        elif self.why_no_size:
            found.append(f"conductor: {self.why_no_size}")
        if self.drop is None and self.on.size is not None and not self.why_no_size:
            found.append("length to the panel, one way along the cable")
        if self.on.no_watts:
            found.append(f"watts of {', '.join(self.on.no_watts)}")
        return found

    @property
    def room_a(self) -> float | None:
        """What is left, A; below zero when it is overloaded."""
        return None if self.limit_a is None else self.limit_a - self.design_a


@of_each(Circuit)
def states(job: Job, circuit: Circuit) -> State:
    """Every circuit of the job, worked out."""
    on = power(job).circuits[circuit.tag]
    connected = on.watts / on.volts
    heavy = sum(load.watts for load in on.loads if load.at_125) / on.volts if is_us(job) else 0.0
    design = circuit_load.design_current_a(max(0.0, connected - heavy), heavy)
    carries = _carries(job, on)
    known = [each for each in (on.circuit.breaker, carries) if each is not None]
    notes = _us_notes(job, on) if is_us(job) else _metric_notes(on, connected, carries)
    unread = _why_no_size(job, on, carries)
    limit = min(known) if known and not unread else None
    return State(on, connected, design, carries, limit, notes, _drop(job, on), unread)


def _why_no_size(job: Job, on: OnCircuit, carries: float | None) -> str:
    if carries is not None or not on.circuit.conductor:
        return ""
    try:
        size = read_size(on.circuit.conductor, not is_us(job))
    except BadValue as error:
        return str(error)
    return f"{size.text} is not in the tables in force, which have sizes like {'12 AWG' if is_us(job) else '2.5 mm2'}"


def _carries(job: Job, on: OnCircuit) -> float | None:
    """What the thinnest wire of the circuit carries, wherever it lies; None while its own conductor is not known."""
    own = wire_of_circuit(job, on.circuit)
    if own is None or (here := carries_a(job, on.circuit, own)) is None:
        return None
    if is_ring(job, on.circuit):
        return on.circuit.breaker if fits_ring(job, on.circuit, own) else here
    others = (carries_a(job, on.circuit, wire) for wire in wires(job)[on.circuit.tag].values())
    return min([here, *(each for each in others if each is not None)])


def receptacle_a(job: Job, on: OnCircuit) -> int:
    """The rating of the receptacles: the least that their devices name, else 15 A, or the breaker's for a single one.

    A single receptacle whose rating is not written is taken as right; the sheet asks for it.
    """
    gear = power(job).gear
    named = [each.amps for box in on.boxes for each in gear[box] if each.places and each.amps is not None]
    if named:
        return min(named)
    return int(on.circuit.breaker or 15) if on.places == 1 else 15


def as_trade(job: Job, on: OnCircuit) -> circuit_load.Circuit | None:
    """The circuit as the arithmetic wants it, its wire where it is one of the table; None while there is no breaker."""
    breaker = on.circuit.breaker
    if breaker is None:
        return None
    return circuit_load.Circuit(
        on.volts,
        breaker,
        on.size.awg if on.size is not None and on.size.awg in AMPACITY_60C_A else None,
        on.places,
        receptacle_a(job, on),
        on.circuit.lighting,
        max(0.0, on.circuit.load) / on.volts,
    )


def _us_notes(job: Job, on: OnCircuit) -> tuple[Note, ...]:
    circuit = as_trade(job, on)
    if circuit is None:
        return ()
    too_thin: tuple[Note, ...] = ()
    if on.size is not None and on.size.awg is not None and on.size.awg > THINNEST_AWG:
        text = (
            f"its wire, {on.size.text}, is thinner than {THINNEST_AWG} AWG, the least of any house circuit, "
            f"and its breaker is {circuit.breaker_a:g} A: the wire could overheat before the breaker trips"
        )
        too_thin = (Note("fail", text, cite("small conductors", edition(job))),)
    try:
        return (*too_thin, *circuit_load.circuit_figures(circuit, on.loads, edition(job)).notes)
    except ValueError:
        return too_thin


def _metric_notes(on: OnCircuit, connected_a: float, carries_a: float | None) -> tuple[Note, ...]:
    device, mm2 = on.circuit.breaker, on.size.mm2 if on.size is not None else None
    if device is None or device <= 0:
        return ()
    return circuit_metric.circuit_notes(connected_a, device, carries_a, mm2 or 0.0, on.circuit.lies)


# --- the drop to the farthest box ---


def ohms_per_mm(size: Size, *, stranded: bool, metal: Metal = "copper") -> float:
    """Resistance of one conductor of a size, ohm per millimetre: Chapter 9, Table 8 (75 °C), or Table 4D5 (70 °C).

    Table 4D5 gives the drop of both conductors together, so half of it is one. It is of fixed cable: what is noted as
    stranded in a metric size is taken as flexible, IEC 60228 class 5 at 70 °C. ValueError for a size not listed.
    """
    if size.awg is not None:
        table = ohm_per_kft if metal == "copper" else aluminum_ohm_per_kft
        return table(size.awg, stranded=stranded) / (1000 * 304.8)
    if stranded and size.mm2 is not None:
        return ohm_per_km(size.mm2, flexible=True) / 1e6
    if size.mm2 not in tables_metric.MV_PER_A_M:
        raise ValueError(f"{size.text} is not in Table 4D5")
    return tables_metric.MV_PER_A_M[size.mm2] / 2 / 1e6


def run_of(job: Job, cable: Cable) -> Length | None:
    """One-way length of a cable, as measured or by its way through the wall; None while neither is known."""
    path = routes(job)[cable.tag].path
    return None if path is None else Length(path)


class _Branch(msgspec.Struct, frozen=True):
    """A stretch of the tree of cables, as it is laid out."""

    box: str
    cable: str
    after: int
    length: Length
    wire: Wire


def _drop(job: Job, on: OnCircuit) -> Drop | None:
    wire = wire_of_circuit(job, on.circuit)
    if wire is None:
        return None
    tree = _tree(job, on, wire)
    try:
        found = _tree_drop(on, tree) if tree else _plain_drop(on, wire)
        return None if found is None else msgspec.structs.replace(found, wire=wire.text)
    except ValueError:
        return None  # a size without a resistance in the table: `circuit_not_known` tells the person


def _plain_drop(on: OnCircuit, wire: Wire) -> Drop | None:
    """All of the load at the end of the circuit's length: where no cable of the plan says more."""
    length = on.circuit.length
    if length is None:
        return None
    amps = on.watts / on.volts
    mm = length.mm
    lost = two_wire_drop_v(amps, mm, ohms_per_mm(wire.size, stranded=on.stranded, metal=wire.metal) * 1000)
    line = f"panel to the far end: {_feet_or_m(length, wire.size)} of {wire.text}, {amps:.2f} A: {lost:.3f} V"
    return Drop(lost, lost / on.volts * 100, "", length, (line,))


def _tree_drop(on: OnCircuit, tree: list[_Branch]) -> Drop:
    """Each cable carries what its own box and all beyond it draw (Kirchhoff); the load already there is at the first.

    What stands at a box that no cable of the plan reaches is taken at the first box too.
    """
    reached = {branch.box for branch in tree}
    amps = [on.at_box.get(branch.box, 0.0) / on.volts for branch in tree]
    elsewhere = sum(watts for box, watts in on.at_box.items() if box not in reached)
    amps[0] += (max(0.0, on.circuit.load) + elsewhere) / on.volts
    stretches = [
        Stretch(
            branch.length.mm,
            ohms_per_mm(branch.wire.size, stranded=on.stranded, metal=branch.wire.metal),
            drawn,
            branch.after,
        )
        for branch, drawn in zip(tree, amps, strict=True)
    ]
    lost = drops_v(stretches)
    away = [0] * len(tree)
    for at, branch in enumerate(tree):
        away[at] = branch.length.nm + (away[branch.after] if branch.after != ORIGIN else 0)
    far = max(range(len(tree)), key=lambda at: (lost[at], away[at]))
    lines = []
    at = far
    while at != ORIGIN:
        branch = tree[at]
        here = lost[at] - (lost[branch.after] if branch.after != ORIGIN else 0.0)
        way = f"{branch.cable} " if branch.cable else ""
        start = tree[branch.after].box if branch.after != ORIGIN else "panel"
        lines.append(f"{way}{start} to {branch.box}: {_feet_or_m(branch.length, branch.wire.size)}, {here:.3f} V")
        at = branch.after
    return Drop(lost[far], lost[far] / on.volts * 100, tree[far].box, Length(away[far]), tuple(reversed(lines)))


def _feet_or_m(length: Length, size: Size) -> str:
    return f"{length.nm / FOOT_NM:.1f} ft" if size.awg is not None else f"{length.nm / METRE_NM:.1f} m"


def _tree(job: Job, on: OnCircuit, own: Wire) -> list[_Branch]:
    """The cables of the circuit from the panel outwards, nearest first; empty where the plan has no feed for it.

    The feed is a mains cable with one end at a box of the circuit and the other left open, at the panel. Where none
    is drawn, the length to the panel is taken to lead to the box that was there already, else to the first that a
    cable joins to another: what lies beyond it is on top of that.
    """
    mains = power(job).mains
    boxes = set(on.boxes)
    feed = next(((box, each) for box in on.boxes for each in mains.get(box, ()) if _is_feed(each)), None)
    first, cable = feed or (_first_joined(job, on), None)
    length = on.circuit.length or (cable.measured if cable else None)
    if length is None or not first:
        return []
    wire = wire_of_cable(job, cable) if cable else None
    tree = [_Branch(first, cable.tag if cable else "", ORIGIN, length, wire or own)]
    seen = {first}
    at = 0
    while at < len(tree):
        here = tree[at].box
        for each in mains.get(here, ()):
            other = str(each.end if each.start == here else each.start)
            run = run_of(job, each) if other in boxes and other not in seen else None
            if run is not None:
                seen.add(other)
                tree.append(_Branch(other, each.tag, at, run, wire_of_cable(job, each) or own))
        at += 1
    return tree


def _first_joined(job: Job, on: OnCircuit) -> str:
    """The box that a circuit without a drawn feed is taken to begin at; empty where no cable joins two of its boxes."""
    boxes, mains, here = job.of(Box), power(job).mains, set(on.boxes)
    joined = [box for box in on.boxes if any({each.start, each.end} <= here for each in mains.get(box, ()))]
    return next((box for box in joined if not boxes[box].new), joined[0] if joined else "")


def _is_feed(cable: Cable) -> bool:
    return bool(cable.start) != bool(cable.end)


def half_a(circuit: Circuit) -> float | None:
    """Half of the rating of a 15 or 20 A circuit: what is fastened in place may take where it is shared (210.23)."""
    if circuit.breaker is None or circuit.breaker > circuit_load.SHARED_RULES_UP_TO_A:
        return None
    return circuit_load.FIXED_SHARE * circuit.breaker


def standard_device_a(amps: float) -> int | None:
    """Smallest stock breaker of metric practice for a current; None beyond the table."""
    try:
        return circuit_metric.standard_device_a(amps)
    except ValueError:
        return None
