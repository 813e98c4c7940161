"""The electric fireplace or other built-in heater: current, breaker, cable, receptacle; what is settled and what not.

The code has no article for an electric fireplace by name. What follows gives both readings where they
differ and says who decides. Nothing here allows a heater to be altered, or recessed unless its maker made
it for that.
"""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

from store.trade.measured.bounds import exceeds, not_negative, positive
from store.trade.measured.citations import COMMON_PRACTICE, Note, cite, nec
from store.trade.power import circuit_metric
from store.trade.power.circuit_load import CONTINUOUS_FACTOR, FIXED_SHARE, amps
from store.trade.power.conductors import smallest_nm_gauge, standard_breaker_a

BTU_PER_H_PER_W = 3.412142  # international table BTU
GENERAL_CIRCUIT_A = 20  # the largest general-purpose circuit of a living room
ARC_FAULT_V = 120.0  # 210.12 covers 120 V circuits of 15 and 20 A
ARC_FAULT_UP_TO_A = 20
SUPPLY_V_LIMIT = 250.0
RECEPTACLE_RATINGS_A = (15, 20, 30, 50, 60)  # straight-blade and locking ratings of NEMA WD 6

Connection = Literal["wired", "plug"]


class Branch(Struct, frozen=True):
    """A breaker and the copper NM cable that may stand behind it; `poles` is 2 above 120 V."""

    breaker_a: int
    gauge: int
    poles: int


class HeaterFigures(Struct, frozen=True):
    """The figures of one heater, with what is settled and what the inspector or the manufacturer settles."""

    amps: float
    amps_at_125: float
    btu_per_h: float
    at_125: Branch
    """Own circuit where the 125 % rule is applied."""
    at_100: Branch
    """Own circuit where it is not: plugged in, not continuous, and the manufacturer and the inspector agree."""
    planned: Branch
    """The one to plan for: `at_125`, or the manufacturer's breaker where the manufacturer asks for more."""
    receptacle: str | None
    """What to plug into, None when wired."""
    settled: tuple[Note, ...]
    for_inspector: tuple[Note, ...]


def heater_figures(
    watts: float,
    *,
    volts: float = 120.0,
    connection: Connection = "wired",
    blower_a: float = 0.0,
    maker_breaker_a: int | None = None,
    edition: int = 2020,
) -> HeaterFigures:
    """Work out the own circuit of a single-phase heater (NEC 424.4(B), 210.20(A), 240.4, 240.6, 210.21).

    `watts` is the plate figure at `volts` (120, 208 or 240); `blower_a` a motor not included in it.
    Planning takes 125 %, which is required for fixed heating and for three hours or more, and prudent
    otherwise. Raises ValueError above 250 V, and for a heater too large for 6 AWG.
    """
    if positive("the voltage", volts) > SUPPLY_V_LIMIT:
        raise ValueError(f"a house circuit for a heater is at most {SUPPLY_V_LIMIT:g} V, not {volts!r} V")
    drawn = amps(positive("the power", watts), volts) + not_negative("the blower current", blower_a)
    full = CONTINUOUS_FACTOR * drawn
    at_125 = _branch(full, standard_breaker_a(full), volts)
    at_100 = _branch(drawn, standard_breaker_a(drawn), volts)
    asked = at_125.breaker_a if maker_breaker_a is None else max(at_125.breaker_a, maker_breaker_a)
    planned = _branch(full, standard_breaker_a(asked), volts)
    return HeaterFigures(
        amps=drawn,
        amps_at_125=full,
        btu_per_h=watts * BTU_PER_H_PER_W,
        at_125=at_125,
        at_100=at_100,
        planned=planned,
        receptacle=_receptacle(volts, planned) if connection == "plug" else None,
        settled=tuple(_settled(drawn, full, planned, volts, connection, edition)),
        for_inspector=tuple(_open(at_125, at_100, maker_breaker_a, connection, edition)),
    )


def _branch(design_a: float, breaker_a: int, volts: float) -> Branch:
    return Branch(breaker_a, smallest_nm_gauge(design_a, breaker_a), 1 if volts <= ARC_FAULT_V else 2)


def _receptacle(volts: float, branch: Branch) -> str:
    """One single receptacle, rated as its circuit: 210.21(B)(1).

    A duplex would make two places to plug in, and Table 210.21(B)(2) then holds a 15 A one to 12 A.
    """
    rating = next(size for size in RECEPTACLE_RATINGS_A if size >= branch.breaker_a)
    return f"one single receptacle rated {rating} A, {volts:g} V, alone on the circuit; its own plug must fit"


def _settled(
    drawn_a: float, full_a: float, planned: Branch, volts: float, connection: Connection, edition: int
) -> list[Note]:
    """What the code says plainly, whoever inspects."""
    notes = [
        Note(
            "note",
            f"fixed heating, or heating for three hours or more, is planned at 125%: {drawn_a:.1f} A becomes "
            f"{full_a:.1f} A, so {planned.breaker_a} A in {planned.gauge} AWG copper",
            f"{cite('fixed heating 125 %', edition)}, {cite('continuous breaker', edition)}",
        ),
        Note("note", "follow the manufacturer's listed instructions for wiring and breaker", nec("110.3(B)", edition)),
        Note(
            "note",
            "never on a power strip or an extension cord",
            f"manufacturer's instructions, {nec('110.3(B)', edition)}",
        ),
    ]
    half = FIXED_SHARE * GENERAL_CIRCUIT_A
    if exceeds(drawn_a, half):
        text = (
            f"own circuit: on a circuit that also feeds lights or plug-in loads, fixed loads can draw {half:g} A of "
            f"{GENERAL_CIRCUIT_A} A, and this draws {drawn_a:.1f} A"
        )
        notes.append(Note("note", text, cite("fixed 50 %", edition)))
    if volts <= ARC_FAULT_V and planned.breaker_a <= ARC_FAULT_UP_TO_A:
        text = "a 120 V circuit of 15 or 20 A in a living room or the like is protected against arc faults"
        notes.append(Note("note", text, cite("afci", edition)))
    elif volts > ARC_FAULT_V:
        notes.append(Note("note", "the arc-fault rule is for 120 V circuits only", cite("afci", edition)))
    if connection == "plug":
        cord = "the cord is not run through or hidden in a wall, and the plug stays within reach"
        notes.append(Note("note", cord, f"{cite('cords', edition)}, {nec('422.33', edition)}"))
    return notes


def _open(
    at_125: Branch, at_100: Branch, maker_breaker_a: int | None, connection: Connection, edition: int
) -> list[Note]:
    """What one inspector or maker answers one way and another otherwise."""
    notes = [
        Note(
            "ask",
            "whether this unit is read as fixed heating or as an appliance",
            f"{nec('Article 424', edition)} or {nec('Article 422', edition)}",
        )
    ]
    if connection == "plug" and at_100.breaker_a < at_125.breaker_a:
        text = (
            f"whether {at_100.breaker_a} A in {at_100.gauge} AWG is accepted for a unit that is plugged in, alone on "
            f"its circuit and not run for three hours; plan for {at_125.breaker_a} A"
        )
        notes.append(Note("ask", text, f"{cite('individual circuit', edition)}; {COMMON_PRACTICE} differs"))
    if maker_breaker_a is not None and maker_breaker_a < at_125.breaker_a:
        text = f"the manual asks for {maker_breaker_a} A and 125% gives {at_125.breaker_a} A: ask which applies"
        notes.append(Note("ask", text, nec("110.3(B)", edition)))
    if connection == "plug":
        text = "whether a cord is allowed on this unit once it is fastened in place"
        notes.append(Note("ask", text, nec("422.16(A)", edition)))
    else:
        notes.append(Note("ask", "which means of disconnect is in reach", nec("424.19", edition)))
    return notes


class MetricHeater(Struct, frozen=True):
    """A heater at 230 V: current, plug fuse (None: not on a plug), and the smallest device of an own circuit."""

    amps: float
    btu_per_h: float
    plug_fuse_a: int | None
    device_a: int


def metric_heater(watts: float, volts: float = circuit_metric.NOMINAL_V) -> MetricHeater:
    """Work out a heater at 230 V (BS 1362 fuses, BS EN 60898 devices). The manufacturer's instructions win."""
    drawn = amps(positive("the power", watts), volts)
    return MetricHeater(
        drawn,
        watts * BTU_PER_H_PER_W,
        circuit_metric.plug_fuse_a(watts, volts),
        circuit_metric.standard_device_a(drawn),
    )
