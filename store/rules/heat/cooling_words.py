"""The heat of a closed cabinet in words: the sum a person can follow, for screen and paper, in the job's own units."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from store.measure.numbers import show_number
from store.records.whole import Job
from store.rules.core.wording import listed, named
from store.rules.heat.cooling import ROOM_C, Cooling
from store.rules.heat.fan import FAN_SHARE
from store.trade.heat.enclosure import (
    AIR_FACTOR,
    BTUH_PER_WATT,
    F_PER_C,
    M3H_PER_CFM,
    airflow_needed,
    btu_per_hour,
)
from store.trade.heat.fans import noise_at

CM2_PER_IN2 = 2.54**2
"""An inch is 25.4 mm exactly: NIST SP 811, appendix B.8."""
PASCAL_OF_INH2O = 249.0889
"""NIST SP 811 (2008), appendix B.8: water at 4 °C."""
METRIC_FACTOR = BTUH_PER_WATT * M3H_PER_CFM / (AIR_FACTOR * F_PER_C)
"""Cubic meters an hour for each watt and °C: the same sum in other units, 2.98."""
ASK = (
    "A planning figure: watch a thermometer above the warmest thing with the door shut. The manufacturers' limits and "
    "clearances win; a fan that is wired to the house, and its outlet, are for a licensed electrician."
)

MOVES = {
    "": "draft",
    "curve": "fan, where its manufacturer's curve meets these openings,",
    "line": "fan, where a straight line between its two figures meets these openings,",
    "share": f"fan, its pressure not entered, at {FAN_SHARE:.0%} of its free flow or less,",
}
"""What moves the air, and how that is known."""


def flow_text(job: Job, cfm: float) -> str:
    """`32 cfm`, or `54 m³/h`."""
    return f"{cfm * M3H_PER_CFM:.0f} m³/h" if job.settings.metric else f"{cfm:.0f} cfm"


def pressure_text(job: Job, inh2o: float) -> str:
    """`0.1 inH2O`, or `25 Pa`."""
    return f"{inh2o * PASCAL_OF_INH2O:.0f} Pa" if job.settings.metric else f"{show_number(inh2o)} inH2O"


def degrees_text(job: Job, celsius: float, *, rise: bool = False) -> str:
    """A temperature or, with `rise`, a difference of two: `10 °F`, `6 °C`."""
    if job.settings.metric:
        return f"{celsius:.0f} °C"
    return f"{celsius * F_PER_C + (0 if rise else 32):.0f} °F"


def open_text(job: Job, square_inches: float) -> str:
    """`24 in²`, or `155 cm²`."""
    return f"{square_inches * CM2_PER_IN2:.0f} cm²" if job.settings.metric else f"{square_inches:.0f} in²"


def fan_noise(one: Cooling) -> float | None:
    """Noise of its own fan in dB, turned down as far as the heat allows; None without a fan or its figure."""
    noise, flow = one.opening.fan_noise, one.flow_cfm
    if noise is None or flow is None or one.way != "fan":
        return None
    return noise_at(noise, min(1.0, airflow_needed(one.watts + one.passed_w, one.good_rise_c).cfm / flow))


def fan_text(job: Job, one: Cooling) -> str:
    """Which fan would do, and how loud it is as far as that is entered."""
    fan = one.fan_wanted_cfm
    if fan is None:
        vents = one.vents_wanted_in2
        if vents is None:
            return "No fan of this pressure moves that through these vents. Make them and what comes first larger."
        flow = 2 * airflow_needed(one.watts + one.passed_w, one.good_rise_c).cfm
        return (
            "No fan of this pressure moves that through these vents. Make the vents larger: with "
            f"{open_text(job, ceil(vents))} free low and high a fan sold as {flow_text(job, ceil(flow))} works."
        )
    at, pressure = one.opening.fan_shut, ""
    if one.curve:
        pressure = " with a curve of this shape"
    elif at is not None and at > 0:
        pressure = f" and {pressure_text(job, at)} at no flow"
    return f"A fan sold as {flow_text(job, fan)}{pressure} works; its noise is in its data sheet."


def heat_lines(job: Job, one: Cooling) -> Iterator[str]:
    """The sum: heat, air that it needs, free area, what moves it, idle, noise, the limit, and what a person checks."""
    air = airflow_needed(one.watts + one.passed_w, one.good_rise_c)
    watts = show_number(round(one.watts + one.passed_w))
    yield f"{show_number(round(one.watts))} W from {listed(one.warm)}"
    if one.passed_w:
        yield f"and {one.passed_w:.0f} W of {named(job, one.opening.air_through)}, which its air passes first"
    if job.settings.metric:
        yield f"needs {watts} W x {METRIC_FACTOR:.2f} / {one.good_rise_c:.1f} °C = {air.m3_per_h:.0f} m³/h"
    else:
        heat, rise_f = btu_per_hour(one.watts + one.passed_w), one.good_rise_c * F_PER_C
        yield f"{watts} W x {BTUH_PER_WATT:.3f} = {heat:.0f} Btu/h"
        yield f"needs {heat:.0f} / ({AIR_FACTOR:g} x {rise_f:.0f} °F) = {air.cfm:.1f} cfm"
    if one.low_in2 is not None and one.high_in2 is not None:
        yield f"free area: {open_text(job, one.low_in2)} low, {open_text(job, one.high_in2)} high"
    yield from _moved(job, one)
    limit, room = degrees_text(job, one.limit_c), degrees_text(job, ROOM_C)
    yield f"made for {limit} at most; room taken as {room}"
    yield ASK


def _moved(job: Job, one: Cooling) -> Iterator[str]:
    if one.asks:
        yield f"free area of {named(job, one.asks)} not entered: its air passes there first"
    if one.flow_cfm is None or one.rise_c is None:
        yield {"shut in": "no air goes through", "not known": "what moves the air is not known"}.get(one.way, one.way)
        yield fan_text(job, one)
        return
    if one.pipe:
        yield f"its air comes through {named(job, one.pipe)}, whose bore and length resist it too"
    rise = degrees_text(job, one.rise_c, rise=True)
    yield f"{MOVES[one.fan_by]} moves {flow_text(job, one.flow_cfm)}: {rise} above the room"
    if one.idle_rise_c is not None and one.idle_w < one.watts:
        yield f"idle, {one.idle_w:.0f} W: {degrees_text(job, one.idle_rise_c, rise=True)} above the room"
    if one.rise_c > one.good_rise_c:
        yield fan_text(job, one)
    noise = fan_noise(one)
    if noise is not None:
        share = min(1.0, airflow_needed(one.watts + one.passed_w, one.good_rise_c).cfm / one.flow_cfm)
        full = show_number(one.opening.fan_noise or 0)
        slower = f", {noise:.0f} dB at the {share:.0%} that the heat needs" if share < 1 else ", which the heat needs"
        yield f"its fan makes {full} dB at full speed{slower}"
