"""Figures of what stands warm behind a shut door."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.whole import Job
from store.rules.core.figures import Figure, figures_of
from store.rules.heat.cooling import cooling
from store.rules.heat.cooling_words import fan_noise, heat_lines
from store.trade.heat.enclosure import F_PER_C, airflow_needed


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
        if one.idle_rise_c is not None and one.idle_w != one.watts:
            yield tag, "idle_rise_c", round(one.idle_rise_c, 2)
        if one.fan_wanted_cfm is not None:
            yield tag, "fan_wanted_cfm", round(one.fan_wanted_cfm, 1)
        if (noise := fan_noise(one)) is not None:
            yield tag, "fan_noise_db", round(noise, 1)
        yield tag, "heat_lines", list(heat_lines(job, one))
