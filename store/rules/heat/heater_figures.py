"""Figures of heaters."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.whole import Job
from store.rules.core.figures import Figure, figures_of
from store.rules.heat.heater import heaters


@figures_of("equipment")
def heaters_figures(job: Job) -> Iterable[Figure]:
    """Current, 125 %, heat, and the circuit to plan for, of each heater; what is settled and what is not."""
    for tag, look in heaters(job).items():
        yield tag, "amps", round(look.amps, 6)
        if look.amps_at_125 is not None:
            yield tag, "amps_at_125", round(look.amps_at_125, 6)
        if look.breaker_a is not None:
            yield tag, "planned_breaker_a", look.breaker_a
        if look.wire:
            yield tag, "planned_wire", look.wire
        if look.receptacle:
            yield tag, "receptacle", look.receptacle
        yield tag, "btu_per_h", round(look.btu_per_h, 1)
        yield tag, "settled", list(look.settled)
        yield tag, "to_ask", list(look.to_ask)
