"""Figures of what stands warm behind a shut door."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.whole import Job
from store.rules.core.figures import Figure, figures_of
from store.rules.heat.cooling import cooling
from store.trade.heat.enclosure import F_PER_C, GOOD_RISE_C, airflow_needed


@figures_of("opening")
def of_cabinets(job: Job) -> Iterable[Figure]:
    """Heat, the air that would carry it off with 10 °F of rise, and the rise to expect (°F and °C)."""
    for tag, one in cooling(job).items():
        air = airflow_needed(one.watts, GOOD_RISE_C)
        yield tag, "heat_w", round(one.watts, 3)
        yield tag, "air_wanted_cfm", round(air.cfm, 2)
        yield tag, "air_wanted_m3h", round(air.m3_per_h, 2)
        yield tag, "cooled_by", one.way
        if one.rise_c is not None:
            yield tag, "rise_f", round(one.rise_c * F_PER_C, 2)
            yield tag, "rise_c", round(one.rise_c, 2)
