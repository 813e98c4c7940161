"""Figures of what stands warm behind a shut door."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.whole import Job
from store.rules.core.figures import Figure, figures_of
from store.rules.heat.cooling import ROOM_C, Cooling, cooling
from store.trade.heat.enclosure import AIR_FACTOR, F_PER_C, airflow_needed, btu_per_hour, rise_with_fan
from store.trade.heat.fans import noise_at


@figures_of("opening")
def of_cabinets(job: Job) -> Iterable[Figure]:
    """Heat, the air that would carry it off with the rise to keep to, the rise to expect (°F and °C), and the sum.

    `heat_w` and `air_wanted_cfm` are `watts` and `air_needed_cfm` under their older names.
    """
    for tag, one in cooling(job).items():
        air = airflow_needed(one.watts + one.passed_w, one.good_rise_c)
        yield tag, "watts", round(one.watts, 3)
        yield tag, "heat_w", round(one.watts, 3)
        if one.idle_w != one.watts:
            yield tag, "idle_w", round(one.idle_w, 3)
        yield tag, "air_needed_cfm", round(air.cfm, 2)
        yield tag, "air_wanted_cfm", round(air.cfm, 2)
        yield tag, "air_wanted_m3h", round(air.m3_per_h, 2)
        yield tag, "cooled_by", one.way
        if one.flow_cfm is not None:
            yield tag, "air_moved_cfm", round(one.flow_cfm, 2)
        if one.rise_c is not None:
            yield tag, "rise_f", round(one.rise_c * F_PER_C, 2)
            yield tag, "rise_c", round(one.rise_c, 2)
        if one.fan_wanted_cfm is not None:
            yield tag, "fan_wanted_cfm", round(one.fan_wanted_cfm, 1)
        if (noise := _noise(one, air.cfm)) is not None:
            yield tag, "fan_noise_db", round(noise, 1)
        yield tag, "heat_lines", list(_sum(one, air.cfm))


def _noise(one: Cooling, needed_cfm: float) -> float | None:
    """Noise of its own fan, turned down as far as the heat allows."""
    noise, flow = one.opening.fan_noise, one.flow_cfm
    if noise is None or flow is None or one.way != "fan":
        return None
    return noise_at(noise, min(1.0, needed_cfm / flow))


def _sum(one: Cooling, needed_cfm: float) -> Iterable[str]:
    yield f"{one.watts:.0f} W x 3.412 = {btu_per_hour(one.watts):.0f} Btu/h"
    if one.passed_w:
        yield f"and {one.passed_w:.0f} W of the cabinet that its air passes first"
    rise_f = one.good_rise_c * F_PER_C
    heat = btu_per_hour(one.watts + one.passed_w)
    yield f"needs {heat:.0f} / ({AIR_FACTOR:g} x {rise_f:.0f} °F) = {needed_cfm:.1f} cfm"
    if one.low_in2 is not None and one.high_in2 is not None:
        yield f"free area: {one.low_in2:.0f} in² low, {one.high_in2:.0f} in² high"
    if one.flow_cfm is not None and one.rise_c is not None:
        rise = f"{one.rise_c * F_PER_C:.0f} °F ({one.rise_c:.0f} °C)"
        yield f"{one.way} moves {one.flow_cfm:.1f} cfm: {rise} above the room"
        if one.idle_w and one.way == "fan" and one.idle_w < one.watts:
            yield f"idle, {one.idle_w:.0f} W: {rise_with_fan(one.idle_w, one.flow_cfm) * F_PER_C:.0f} °F"
    limit, room = (f"{each * F_PER_C + 32:.0f} °F ({each:.0f} °C)" for each in (one.limit_c, ROOM_C))
    yield f"made for {limit} at most; room taken as {room}"
