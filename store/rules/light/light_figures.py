"""Figures of lights and drivers."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.length import Length
from store.records.whole import Job
from store.rules.build.channels import channels
from store.rules.core.figures import Figure, figures_of
from store.rules.light.light_words import channel_lines, driver_lines, light_lines
from store.rules.light.lights import drivers, lights
from store.rules.light.sight import seen
from store.trade.light.driver import wanted


@figures_of("equipment")
def of_lights(job: Job) -> Iterable[Figure]:
    """What a light draws and loses on its wire and along its tape, the driver it wants, its channel, and the sum."""
    for tag, one in lights(job).items():
        yield tag, "light_w", round(one.watts, 2)
        yield tag, "light_a", round(one.watts / one.volts, 3)
        yield tag, "driver_w", round(wanted(one.watts, one.volts).watts, 2)
        if one.feeder is not None:
            yield tag, "drop_v", round(one.feeder.drop.volts, 3)
            if one.feeder.would_do is not None:
                yield tag, "wire_mm2" if job.settings.metric else "wire_gauge", one.feeder.would_do
        if one.drop_pct is not None:
            yield tag, "drop_pct", round(one.drop_pct, 2)
        if one.along is not None:
            yield tag, "tape_drop_pct", round(one.along.percent, 2)
        yield tag, "light_lines", list(light_lines(job, one))
    for tag, run in channels(job).items():
        yield tag, "channel_lengths", run.lengths
        yield tag, "channel_corners", run.corners
        yield tag, "channel_lines", list(channel_lines(job, run))
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
        yield tag, "light_lines", list(driver_lines(job, one))
