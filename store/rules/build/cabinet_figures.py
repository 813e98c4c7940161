"""Figures of cabinets: the boards and doors to cut, hinges, slides, and the tie-back."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.length import Length
from store.records.whole import Job
from store.rules.build.cabinet_words import cabinet_lines
from store.rules.build.cabinets import cabinets, standing
from store.rules.core.amounts import newtons
from store.rules.core.figures import Figure, figures_of


@figures_of("opening")
def of_cabinets(job: Job) -> Iterable[Figure]:
    """Sizes for the carpenter, hinges a door, slide, and the pull on a tie-back."""
    metric = job.settings.metric
    for tag, one in cabinets(job).items():
        if one.door is not None:
            yield tag, "each_door_width", Length(one.door.width_nm, metric)
            yield tag, "each_door_height", Length(one.door.height_nm, metric)
            yield tag, "each_door_lb", round(one.door_lb, 2)
        if one.hinges is not None:
            yield tag, "hinges_a_door", one.hinges
        if one.slide_nm is not None:
            yield tag, "slide_length", Length(one.slide_nm, metric)
        if one.slide_lb is not None:
            yield tag, "slide_class_lb", one.slide_lb
        if (there := standing(job).get(tag)) is not None and there.tip is not None:
            yield tag, "tie_back_n", round(newtons(there.pull_lbf), 1)
        yield tag, "cabinet_lines", list(cabinet_lines(job, one))
