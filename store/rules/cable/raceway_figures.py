"""Figures of the raceways: fill, room for more, plugs, bends, holes."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.length import Length, inches
from store.records.whole import Job
from store.records.wiring import Raceway
from store.rules.cable.courses import bends_of, raceway_length
from store.rules.cable.raceway_plugs import worst_plug
from store.rules.cable.raceways import grommet_in, insides, outside_in
from store.rules.core.figures import Figure, figures_of
from store.rules.core.keyed import from_each
from store.trade.cable.raceway_fill import bends_left_deg


@figures_of("raceway")
@from_each(Raceway)
def of_raceways(job: Job, raceway: Raceway) -> Iterable[Figure]:
    """The figures of every raceway."""
    metric = job.settings.metric
    tag, inside = raceway.tag, insides(job).get(raceway.tag)
    if inside is None:
        return
    one = inside.raceway
    yield tag, "cables", [need.cable.tag for need in inside.cables]
    if (length := raceway_length(job, one)) is not None:
        yield tag, "path", Length(length, metric)
    if inside.fill is not None and inside.bore_in is not None:
        yield tag, "inside", Length(inches(inside.bore_in).nm, metric)
        yield tag, "fill_pct", round(inside.fill.percent, 2)
        yield tag, "limit_pct", inside.fill.limit_percent
        if inside.later and inside.fill_later is not None:
            yield tag, "later_fill_pct", round(inside.fill_later.percent, 2)
        yield tag, "more_cables", inside.more
        yield tag, "more_of", inside.more_of
    bends = bends_of(job, one)
    if bends is not None and bends >= 0:
        yield tag, "bends_left", bends_left_deg([bends])
    if (wide := outside_in(one)) is not None:
        yield tag, "hole", Length(inches(wide).nm, metric)
    if inside.studs is not None:
        yield tag, "studs_crossed", inside.studs
    if inside.hole_in:
        yield tag, "bundle_hole", Length(inches(inside.hole_in).nm, metric)
        if (grommet := grommet_in(inside.hole_in)) is not None:
            yield tag, "grommet", Length(inches(grommet).nm, metric)
    if (plug := worst_plug(inside.now, grip=False)) is not None:
        yield tag, "plug_hole", Length(inches(plug.needs_in).nm, metric)
