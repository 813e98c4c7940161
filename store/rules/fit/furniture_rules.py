"""Findings about furniture in front of the wall: what a door or a drawer runs into."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.wall import Opening
from store.records.whole import Job
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import at_least, named, said
from store.rules.fit.furniture import met
from store.rules.wall.pieces import is_drawer


@rule
@from_each(Opening)
def door_meets_furniture(job: Job, opening: Opening) -> Iterable[Finding]:
    """A door, a flap or a drawer that cannot open because furniture stands before it."""
    for one, free in met(job, opening):
        what = "Drawer" if is_drawer(opening) else "Door"
        more = at_least(job, free - one.off.nm)
        other = "" if is_drawer(opening) or opening.hinge not in ("left", "right") else ", or make the door slide"
        yield Finding(
            "door_meets_furniture",
            "fix",
            (opening.tag, one.tag),
            f"{what} runs into {one.tag}",
            f"Move {one.tag} {more} farther from the wall, or beside {opening.tag}{other}.",
            "Plane geometry",
            {"free": said(job, free), "stands": said(job, one.off.nm)},
            why=f"To open it needs {said(job, free)} free from the wall; {named(job, one.tag)} is "
            f"{said(job, one.off.nm)} from it.",
            about=(opening.tag,),
        )
