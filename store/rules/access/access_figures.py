"""Figures of access: the way to each thing and what must be off; for a panel, its sizes and what is behind it."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.length import Length
from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.access.means import best_means, blocked_panels, needs_access
from store.rules.access.panel_contents import panel_contents
from store.rules.access.steps import breaker_text, circuits_of, in_front, log_by_panel, off_behind
from store.rules.core.figures import Figure, figures_of
from store.rules.core.keyed import from_each
from store.trade.fit.access_sizes import Way, door_for, framed_nm, least, usual


@figures_of("panel")
@from_each(Panel)
def of_panels(job: Job, panel: Panel) -> Iterable[Figure]:
    """What each panel must be, is, and has behind it."""
    tag, metric = panel.tag, job.settings.metric
    for name, way in (("least", least(panel.passes, metric)), ("usual", usual(panel.passes, metric))):
        yield from _way(tag, name, way, metric)
        yield tag, f"{name}_source", way.source
    if panel.width is not None and panel.height is not None:
        yield tag, "framed_width", Length(framed_nm(panel.width.nm), metric)
        yield tag, "framed_height", Length(framed_nm(panel.height.nm), metric)
        if (door := door_for(panel.width.nm, panel.height.nm, metric)) is not None:
            yield from _way(tag, "door_sold", door, metric)
    one = panel_contents(job)[tag]
    yield tag, "behind", list(one.all)
    yield tag, "in_reach", list(one.near)
    yield tag, "stands_in_front", list(in_front(job, tag))
    yield tag, "off_first", list(off_behind(job, tag))
    if tag in blocked_panels(job):
        yield tag, "blocked_by", blocked_panels(job)[tag]
    if log := log_by_panel(job).get(tag):
        yield tag, "last_opened", log[0].date.isoformat()


@figures_of("box", "equipment")
@from_each(Box, Equipment)
def of_ways(job: Job, one: Box | Equipment) -> Iterable[Figure]:
    """The way to each box and to what is hidden."""
    if isinstance(one, Equipment) and not (needs_access(one) or one.reached):
        return
    way = best_means(job, one.tag)
    if way is not None:
        yield one.tag, "reached_through", "its own plate" if way.kind == "plate" else way.by
        yield one.tag, "way_counts", way.counts
        if way.far_nm is not None:
            yield one.tag, "from_its_way", Length(way.far_nm, job.settings.metric)
    if off := circuits_of(job, one.tag):
        yield one.tag, "off_first", [breaker_text(job, each) for each in off]


def _way(tag: str, name: str, way: Way, metric: bool) -> Iterable[Figure]:
    yield tag, f"{name}_width", Length(way.width_nm, metric)
    yield tag, f"{name}_height", Length(way.height_nm, metric)
