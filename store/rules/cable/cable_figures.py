"""Figures of the cables: path, cut, what to buy, studs, and what the run loses."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.length import Length
from store.records.whole import Job
from store.records.wiring import Cable
from store.rules.cable.lengths import Need, bend_radius_nm, buy_text, needs
from store.rules.core.figures import Figure, figures_of
from store.rules.core.keyed import from_each


@figures_of("cable")
@from_each(Cable)
def of_cables(job: Job, cable: Cable) -> Iterable[Figure]:
    """The figures of every cable in use."""
    metric = job.settings.metric
    tag, need = cable.tag, needs(job).get(cable.tag)
    if need is None:
        return
    if need.route.path is not None and need.cut is not None:
        yield tag, "path", Length(need.route.path, metric)
        yield tag, "path_from", need.route.found
        yield tag, "waste_pct", float(need.waste.percent)
        yield tag, "waste_from", need.waste.source
        for side, slack in zip(("start", "end"), need.slack, strict=True):
            yield tag, f"slack_{side}", Length(slack.nm, metric)
            yield tag, f"slack_{side}_from", slack.source
        yield tag, "cut", Length(need.cut, metric)
    yield tag, "buy", buy_text(need, metric)
    yield from _bored(tag, need)
    if (radius := bend_radius_nm(need)) is not None:
        yield tag, "bend_radius", Length(radius, metric)


def _bored(tag: str, need: Need) -> Iterable[Figure]:
    if need.route.studs is None:
        return
    yield tag, "studs_crossed", need.route.studs
    yield tag, "plates_crossed", need.route.plates_bored
    yield tag, "holes", need.route.studs + need.route.plates_bored
