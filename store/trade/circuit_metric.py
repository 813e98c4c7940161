"""A 230 V final circuit by BS 7671: load, device and cable in the order Ib ≤ In ≤ Iz.

There is no 125 % rule in this practice: devices and cables carry their rating continuously. Diversity is not
applied, so the figure is the highest likely. Radial circuits only; a ring final has its own rules.
"""

from __future__ import annotations

from msgspec import Struct

from store.trade import tables_metric as metric
from store.trade.bounds import exceeds, not_negative, positive
from store.trade.circuit_load import amps
from store.trade.citations import Note
from store.trade.conductors import flat_cable_capacity_a

NOMINAL_V = 230.0  # IEC 60038
BREAKER_SOURCE = "BS 7671:2018 433.1"


class MetricFigures(Struct, frozen=True):
    """Design current, device rating, cable capacity and what is left, in A; watts at the nominal voltage."""

    design_a: float
    device_a: float
    capacity_a: float
    room_a: float
    room_w: float
    notes: tuple[Note, ...]


def standard_device_a(current_a: float) -> int:
    """Smallest stock circuit-breaker in A that is not below `current_a` (BS EN 60898, 6 to 63 A)."""
    not_negative("the current", current_a)
    for size in metric.STANDARD_BREAKERS_A:
        if not exceeds(current_a, size):
            return size
    raise ValueError(f"{current_a} A is beyond the {metric.STANDARD_BREAKERS_A[-1]} A this table reaches")


def plug_fuse_a(watts: float, volts: float = NOMINAL_V) -> int | None:
    """Stock plug fuse in A (3 or 13, BS 1362) for an appliance on a plug or a fused spur; None when none reaches."""
    drawn = amps(watts, volts)
    return next((fuse for fuse in metric.PLUG_FUSES_A if not exceeds(drawn, fuse)), None)


def metric_figures(
    watts: float,
    device_a: float,
    mm2: float,
    method: metric.Method,
    *,
    buried_mm: float = 0.0,
    volts: float = NOMINAL_V,
) -> MetricFigures:
    """Work out a radial circuit in flat twin-and-earth cable (BS 7671 433.1, Table 4D5).

    `buried_mm` is the length wholly inside insulation, for method "C". Raises ValueError for a size or
    method that is not listed or a figure that cannot be.
    """
    design = amps(watts, volts)
    rated = positive("the device", device_a)
    capacity = flat_cable_capacity_a(mm2, method, buried_mm)
    notes = []
    if exceeds(design, rated):
        notes.append(Note("fail", f"{design:.1f} A is more than the {rated:g} A device", BREAKER_SOURCE))
    if exceeds(rated, capacity):
        text = f"a {rated:g} A device is more than {mm2:g} mm² carries {metric.METHODS[method]} ({capacity:g} A)"
        notes.append(Note("fail", text, BREAKER_SOURCE))
    room = min(rated, capacity) - design
    return MetricFigures(design, rated, capacity, room, room * volts, tuple(notes))
