"""Rough-in checks of access panels."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.access import Panel
from store.records.wall import Wall
from store.records.whole import Job
from store.rules.core.checks import RoughIn, checks_of, length_text, tags_of
from store.rules.core.headline import with_name
from store.rules.core.keyed import from_each
from store.rules.wall.places import spot_of


@checks_of
@from_each(Panel)
def of_panels(job: Job, panel: Panel) -> Iterable[RoughIn]:
    """Every access panel: its opening framed."""
    inputs = (panel, job.of(Wall).get(panel.wall))
    size = {"clear width": length_text(panel.width), "clear height": length_text(panel.height)}
    what = with_name("Rough opening framed", panel.tag, panel.name)
    vouches = {"place": spot_of(job, panel.tag), **size}
    yield RoughIn(
        f"{panel.tag}/framed", what, "carpenter", panel.name, "clear size, measured", tags_of(inputs), vouches
    )
