"""A 230 V final circuit by BS 7671: load, device and cable in the order Ib ≤ In ≤ Iz.

There is no 125 % rule in this practice: devices and cables carry their rating continuously. Diversity is not
applied, so the figure is the highest likely. Radial circuits only; a ring final has its own rules.
"""

from __future__ import annotations

from store.trade.measured.bounds import exceeds, not_negative, past, positive
from store.trade.measured.citations import Note
from store.trade.power import tables_metric as metric
from store.trade.power.circuit_load import amps

NOMINAL_V = 230.0  # IEC 60038
LOAD_SOURCE = "BS 7671:2018 433.1"
CABLE_SOURCE = f"{LOAD_SOURCE} and Table 4D5"


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


def circuit_notes(
    design_a: float, device_a: float, capacity_a: float | None, mm2: float, method: metric.Method
) -> tuple[Note, ...]:
    """What is wrong of Ib ≤ In ≤ Iz in a radial circuit of flat twin-and-earth cable (BS 7671 433.1, Table 4D5).

    `capacity_a` is what the cable of `mm2` carries as `method` says; None where its size is not known, and then only
    the load is held against the device. Raises ValueError for a current that cannot be.
    """
    notes = []
    device = positive("the device", device_a)
    if exceeds(not_negative("the current", design_a), device):
        text = f"{past(design_a, device)} A is more than the {device:g} A breaker"
        notes.append(Note("fail", text, LOAD_SOURCE))
    if capacity_a is not None and exceeds(device, capacity_a):
        text = f"a {device:g} A breaker is more than {mm2:g} mm² carries {metric.METHODS[method]} ({capacity_a:g} A)"
        notes.append(Note("fail", text, CABLE_SOURCE))
    return tuple(notes)
