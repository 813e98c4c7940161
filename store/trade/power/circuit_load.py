"""What a branch circuit carries, what it may carry, and what is left.

The United States part follows NEC 210.19 to 210.23, 240.4 and 424.4; the metric part BS 7671. A breaker
listed for 100 % continuous use (210.20(A) Exception) is rare in houses and is not allowed for. Watts are
taken as they stand on the rating plate; where a plate gives amperes, volts × amperes is the figure to
enter.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from store.trade.measured.bounds import exceeds, not_negative, past, positive
from store.trade.measured.citations import Note, cite
from store.trade.power import tables_us as us
from store.trade.power.conductors import max_breaker_a, nm_ampacity_a

CONTINUOUS_HOURS = 3.0  # NEC Article 100
CONTINUOUS_FACTOR = 1.25  # NEC 210.19(A)(1), 210.20(A); fixed heating 424.4(B)
PLUG_IN_SHARE = 0.80  # NEC 210.23: one cord-and-plug appliance not fastened in place
FIXED_SHARE = 0.50  # NEC 210.23: all equipment fastened in place, on a shared circuit
SHARED_RULES_UP_TO_A = 20  # the two shares above are written for 15 and 20 A circuits


class Load(Struct, frozen=True):
    """One thing the circuit feeds.

    `fixed`: fastened in place (a recessed fireplace is, a television on a shelf is not). `plugged`: by cord
    and plug. `heating`: makes heat for the room. `lighting`: a luminaire or its driver.
    """

    name: str
    watts: float
    continuous: bool = False
    fixed: bool = False
    plugged: bool = True
    heating: bool = False
    lighting: bool = False
    pieces: int = 1
    """How many like things `watts` are of, each with a plug of its own."""

    @property
    def at_125(self) -> bool:
        """Whether this load is calculated at 125 %: continuous, or fixed electric space heating."""
        return self.continuous or (self.heating and self.fixed)


class Circuit(Struct, frozen=True):
    """A two-wire branch circuit in copper NM cable.

    `receptacles` counts places to plug in: a duplex is two. `other_a` is load already on it elsewhere,
    taken as plug-in and not continuous unless `other_continuous`. `bundled` is how many current-carrying
    conductors lie together for more than 24 in. Without a `gauge` nothing is said of the wire, and all that
    follows from the breaker still is.
    """

    volts: float
    breaker_a: float
    gauge: int | None
    receptacles: int = 2
    receptacle_a: int = 15
    lighting: bool = False
    other_a: float = 0.0
    other_continuous: bool = False
    bundled: int = 2


class CircuitFigures(Struct, frozen=True):
    """Amperes and watts of one circuit; a negative room is an overload."""

    connected_w: float
    connected_a: float
    continuous_a: float
    """The part of `connected_a` that is calculated at 125 %."""
    design_a: float
    """What is not continuous, plus 125 % of what is: the breaker and the conductor must reach it."""
    rating_a: float
    """The lesser of the breaker and of what the conductor carries, where its size is known."""
    room_a: float
    """What may still be added if it is not continuous; 1/1.25 of it if it is."""
    room_continuous_a: float
    room_w: float
    fixed_a: float
    fixed_limit_a: float | None
    """Half of the rating where the circuit is shared (see `is_shared`), else None."""
    notes: tuple[Note, ...]


def is_continuous(hours: float) -> bool:
    """Whether a load that runs this long at its most is continuous: three hours or more (NEC Article 100)."""
    return not_negative("the hours", hours) >= CONTINUOUS_HOURS


def amps(watts: float, volts: float, power_factor: float = 1.0) -> float:
    """Current in A of a single-phase load: watts ÷ volts ÷ power factor. Nominal voltages (NEC 220.5(A)) are meant."""
    if not 0 < power_factor <= 1:
        raise ValueError(f"a power factor is above 0 and at most 1, not {power_factor!r}")
    return not_negative("the power", watts) / positive("the voltage", volts) / power_factor


def design_current_a(steady_a: float, continuous_a: float) -> float:
    """Current that breaker and conductor must reach: NEC 210.19(A)(1) and 210.20(A)."""
    return not_negative("the current", steady_a) + CONTINUOUS_FACTOR * not_negative("the current", continuous_a)


def is_individual(circuit: Circuit, loads: Sequence[Load]) -> bool:
    """Whether the circuit feeds one piece of equipment and can feed no other (an individual branch circuit).

    A duplex receptacle makes two places to plug in, so an individual plug-in circuit has a single receptacle.
    """
    alone = len(loads) == 1 and loads[0].pieces <= 1 and not (circuit.lighting or circuit.other_a or loads[0].lighting)
    return alone and circuit.receptacles <= (1 if loads[0].plugged else 0)


def is_shared(circuit: Circuit, loads: Sequence[Load]) -> bool:
    """Whether lighting or plug-in things not fastened in place are, or can be, on the circuit too.

    One open half of a duplex is not counted as sharing here, but is warned about; two open places are.
    """
    movable = any(load.lighting or (load.plugged and not load.fixed) for load in loads)
    return circuit.lighting or circuit.other_a > 0 or movable or _open_places(circuit, loads) > 1


def circuit_figures(circuit: Circuit, loads: Sequence[Load], edition: int) -> CircuitFigures:
    """Work out a circuit with all its loads on, by the NEC of `edition` (2017, 2020 or 2023).

    Raises ValueError for a negative figure, an unknown size or an unknown edition.
    """
    not_negative("the number of receptacles", circuit.receptacles)
    carried = {load.name: amps(load.watts, circuit.volts) for load in loads}
    if len(carried) != len(loads):
        raise ValueError("every load on a circuit needs its own name")
    other = not_negative("the existing load", circuit.other_a)
    continuous = sum(carried[load.name] for load in loads if load.at_125)
    continuous += other if circuit.other_continuous else 0.0
    connected = sum(carried.values()) + other
    design = design_current_a(max(0.0, connected - continuous), continuous)
    breaker = positive("the breaker", circuit.breaker_a)
    rating = breaker if circuit.gauge is None else min(breaker, nm_ampacity_a(circuit.gauge, circuit.bundled))
    shared_rules = is_shared(circuit, loads) and circuit.breaker_a <= SHARED_RULES_UP_TO_A
    fixed = sum(carried[load.name] for load in loads if load.fixed and not load.lighting)
    limit = FIXED_SHARE * breaker if shared_rules else None
    notes = [
        *_wire_notes(circuit, design, edition),
        *_breaker_notes(circuit, design, edition),
        *_heater_notes(circuit, loads, design, edition),
        *_fixed_notes(circuit, loads, fixed, limit, edition),
        *_plug_notes(circuit, loads, edition),
        *_receptacle_notes(circuit, loads, edition),
    ]
    room = rating - design
    return CircuitFigures(
        connected_w=sum(load.watts for load in loads) + other * circuit.volts,
        connected_a=connected,
        continuous_a=continuous,
        design_a=design,
        rating_a=rating,
        room_a=room,
        room_continuous_a=room / CONTINUOUS_FACTOR,
        room_w=room * circuit.volts,
        fixed_a=fixed,
        fixed_limit_a=limit,
        notes=tuple(notes),
    )


def _open_places(circuit: Circuit, loads: Sequence[Load]) -> int:
    return circuit.receptacles - sum(load.plugged * max(1, load.pieces) for load in loads)


def _wire_notes(circuit: Circuit, design_a: float, edition: int) -> list[Note]:
    """The wire against its breaker, and against what is on it; nothing where its size is not known."""
    if circuit.gauge is None:
        return []
    notes = []
    largest = max_breaker_a(circuit.gauge, circuit.bundled)
    if circuit.breaker_a > largest:
        text = (
            f"its wire, {circuit.gauge} AWG copper, can have a breaker of {largest} A at most, and this one is "
            f"{circuit.breaker_a:g} A: the wire could overheat before the breaker trips"
        )
        notes.append(Note("fail", text, cite("small conductors", edition)))
    carries = nm_ampacity_a(circuit.gauge, circuit.bundled)
    if exceeds(design_a, carries):
        text = (
            f"{past(design_a, carries)} A, with heaters and 3-hour loads counted at 125%, is more than its "
            f"wire, {circuit.gauge} AWG, carries ({carries:g} A)"
        )
        notes.append(Note("fail", text, cite("continuous conductor", edition)))
    return notes


def _breaker_notes(circuit: Circuit, design_a: float, edition: int) -> list[Note]:
    if not exceeds(design_a, circuit.breaker_a):
        return []
    text = (
        f"{past(design_a, circuit.breaker_a)} A, with heaters and 3-hour loads counted at 125%, is more "
        f"than its {circuit.breaker_a:g} A breaker"
    )
    return [Note("fail", text, cite("continuous breaker", edition))]


def _heater_notes(circuit: Circuit, loads: Sequence[Load], design_a: float, edition: int) -> list[Note]:
    """A movable heater is not fixed heating, yet runs for hours in winter: say when 125 % would not be reached."""
    movable = sum(amps(load.watts, circuit.volts) for load in loads if load.heating and not load.at_125)
    would_be = design_a + (CONTINUOUS_FACTOR - 1) * movable
    if not movable or exceeds(design_a, circuit.breaker_a) or not exceeds(would_be, circuit.breaker_a):
        return []
    text = (
        f"if the heater on it counts as fixed, or runs for three hours or more, {past(would_be, circuit.breaker_a)} A "
        f"are needed; the breaker is {circuit.breaker_a:g} A"
    )
    return [Note("warn", text, cite("fixed heating 125 %", edition))]


def _fixed_notes(
    circuit: Circuit, loads: Sequence[Load], fixed_a: float, limit_a: float | None, edition: int
) -> list[Note]:
    """The half-rating rule for what is fastened in place on a circuit that also feeds other things."""
    half = FIXED_SHARE * circuit.breaker_a
    if not exceeds(fixed_a, half):
        return []
    source = cite("fixed 50 %", edition)
    if limit_a is not None:
        names = ", ".join(load.name for load in loads if load.fixed and not load.lighting)
        text = (
            f"fixed loads draw {past(fixed_a, half)} A ({names}); "
            f"on a circuit that also feeds lights or plug-in loads they can draw half its rating, {limit_a:g} A"
        )
        return [Note("fail", text, source)]
    if circuit.breaker_a <= SHARED_RULES_UP_TO_A and _open_places(circuit, loads) > 0:
        text = f"with {fixed_a:.1f} A of fixed load, nothing else should use the open receptacle on this circuit"
        return [Note("warn", text, source)]
    return []


def _plug_notes(circuit: Circuit, loads: Sequence[Load], edition: int) -> list[Note]:
    """Limits on one cord-and-plug load: 80 % of the circuit, and what one receptacle may give."""
    if circuit.receptacles < 2 or is_individual(circuit, loads):
        return []
    notes = []
    share_a = PLUG_IN_SHARE * circuit.breaker_a
    receptacle_a = us.RECEPTACLE_MAX_LOAD_A.get(circuit.receptacle_a)
    for load in loads:
        drawn = amps(load.watts / max(1, load.pieces), circuit.volts)
        if load.plugged and receptacle_a is not None and exceeds(drawn, receptacle_a):
            text = (
                f"{load.name} draws {past(drawn, receptacle_a)} A; on a circuit with two or more receptacles, a "
                f"{circuit.receptacle_a} A receptacle gives {receptacle_a} A at most"
            )
            notes.append(Note("fail", text, cite("receptacle load", edition)))
        applies = load.plugged and not load.fixed and circuit.breaker_a <= SHARED_RULES_UP_TO_A
        if applies and exceeds(drawn, share_a):
            text = (
                f"{load.name} draws {past(drawn, share_a)} A; one plug-in load can draw 80% of the circuit, "
                f"{share_a:g} A"
            )
            notes.append(Note("fail", text, cite("plug-in 80 %", edition)))
    return notes


def _receptacle_notes(circuit: Circuit, loads: Sequence[Load], edition: int) -> list[Note]:
    """Whether the rating of the receptacles suits the breaker. One alone with nothing on it yet is alone as well."""
    bare = not (loads or circuit.lighting or circuit.other_a)
    if circuit.receptacles == 1 and (bare or is_individual(circuit, loads)):
        if circuit.receptacle_a >= circuit.breaker_a:
            return []
        text = (
            f"its single receptacle is entered as {circuit.receptacle_a} A; alone on a {circuit.breaker_a:g} A circuit "
            f"it is rated {circuit.breaker_a:g} A or more"
        )
        return [Note("fail", text, cite("single receptacle", edition))]
    allowed = us.RECEPTACLES_ON_BREAKER_A.get(round(circuit.breaker_a))
    if circuit.receptacles < 2 or allowed is None or circuit.receptacle_a in allowed:
        return []
    ratings = " or ".join(map(str, allowed))
    text = (
        f"its receptacles are entered as {circuit.receptacle_a} A; on a {circuit.breaker_a:g} A circuit they are "
        f"rated {ratings} A"
    )
    return [Note("fail", text, cite("receptacle rating", edition))]
