"""Figures of lights and drivers."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.length import Length
from store.records.whole import Job
from store.rules.core.figures import Figure, figures_of
from store.rules.core.wording import said
from store.rules.light.lights import Driver, Light, drivers, feet, lights
from store.rules.light.sight import seen
from store.trade.light.driver import HEADROOM, wanted


@figures_of("equipment")
def of_lights(job: Job) -> Iterable[Figure]:
    """Watts and amperes of a light, volts lost on its wire, the driver it wants, and the sum."""
    for tag, one in lights(job).items():
        yield tag, "light_w", round(one.watts, 2)
        yield tag, "light_a", round(one.watts / one.volts, 3)
        yield tag, "driver_w", round(wanted(one.watts, one.volts).watts, 2)
        if one.feeder is not None:
            yield tag, "drop_v", round(one.feeder.drop.volts, 3)
            yield tag, "drop_pct", round(one.feeder.drop.percent, 2)
            if one.feeder.would_do is not None:
                yield tag, "wire_gauge", one.feeder.would_do
        yield tag, "light_lines", list(_of_light(job, one))
    for tag, look in seen(job).items():
        if look.mirrored is not None:
            yield tag, "mirror_up", Length(look.mirrored[1], job.settings.metric)


@figures_of("equipment")
def of_drivers(job: Job) -> Iterable[Figure]:
    """The driver that all its lights want, its outputs, and the sum."""
    for tag, one in drivers(job).items():
        yield tag, "light_w", round(one.watts, 2)
        yield tag, "driver_w", round(one.wanted.watts, 2)
        if one.wanted.size_w is not None:
            yield tag, "driver_size_w", one.wanted.size_w
        yield tag, "class_2_outputs", one.wanted.outputs
        yield tag, "light_lines", list(_of_driver(job, one))


def _of_light(job: Job, one: Light) -> Iterable[str]:
    if one.by_tape and one.tape_nm is not None:
        each = one.drawn.watts / feet(one.tape_nm)
        yield f"{feet(one.tape_nm):.1f} ft x {each:g} W/ft = {one.drawn.watts:.1f} W"
    volts = "" if one.volts_known else ", not entered: assumed"
    times = f" x {one.count}" if one.count > 1 else ""
    yield f"{one.drawn.watts:.1f} W{times} / {one.volts:g} V{volts} = {one.watts / one.volts:.2f} A"
    if one.longest_nm is not None:
        yield f"longest run fed so: {said(job, one.longest_nm)}"
    if one.feeder is not None:
        wire = one.feeder
        yield (
            f"{wire.cable}: 2 x {said(job, wire.length_nm)} of {wire.gauge} AWG at {one.drawn.amps:.2f} A loses "
            f"{wire.drop.volts:.2f} V, {wire.drop.percent:.1f}%"
        )


def _of_driver(job: Job, one: Driver) -> Iterable[str]:
    yield f"{', '.join(one.lights)}: {one.watts:.1f} W / {HEADROOM:g} = {one.wanted.watts:.1f} W"
    if one.rating_w is not None:
        yield f"its rating: {one.rating_w:g} W"
    yield "keep the driver where a hand and air reach it; line-voltage wiring is for a licensed electrician"
