"""Findings about where boxes are: on a window or a door, on a stud."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.wall import Obstacle, Wall
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each, index
from store.rules.core.wording import listed, said
from store.rules.wall.layout import walls

PRACTICE = "common practice"
NO_BOX_IN = ("window", "door", "vent")
_boxes_on = index(Box, lambda box: (box.wall,) if box.wall and box.new else ())
"""The new boxes of each wall."""


@rule
@from_each(Box)
def box_on_obstacle(job: Job, box: Box) -> Iterable[Finding]:
    """A new box in the place of a window, a door or a vent."""
    wall = walls(job).get(box.wall)
    if wall is None or not box.new or box.x is None or box.y is None:
        return
    for each in wall.obstacles:
        what = job.of(Obstacle)[each.tag].what
        rect = each.rect
        if what in NO_BOX_IN and rect.x_nm < box.x.nm < rect.right_nm and rect.y_nm < box.y.nm < rect.top_nm:
            yield Finding(
                "box_on_obstacle",
                "fix",
                (box.tag, each.tag),
                f"Overlaps the {what} {each.tag}",
                f"Move {box.tag} clear of it, or correct where one of them is.",
                PRACTICE,
                {"at": f"{said(job, box.x.nm)}, {said(job, box.y.nm)} up", "what": what},
                why=f"Its center is {said(job, box.x.nm)} from left and {said(job, box.y.nm)} up, inside the {what}.",
                about=(box.tag,),
            )


@rule
@from_each(Wall)
def box_on_stud(job: Job, record: Wall) -> Iterable[Finding]:
    """New boxes whose center is on a stud of a wall that stands; one finding a wall."""
    wall = walls(job).get(record.tag)
    if wall is None or record.framing != "existing":
        return
    on = tuple(
        box.tag
        for box in _boxes_on(job).get(record.tag, ())
        if box.face in ("nearest", "wall")
        and box.x is not None
        and any(stud.left_nm < box.x.nm < stud.right_nm for stud in wall.studs)
    )
    if on:
        yield Finding(
            "box_on_stud",
            "look",
            (*on, record.tag),
            f"On a stud of {record.tag}",
            "Move each beside the stud, so that it can be nailed to its side. Find the stud first.",
            PRACTICE,
            {tag: said(job, x.nm) for tag in on if (x := job.of(Box)[tag].x) is not None},
            why=f"By the layout of the studs the center of {listed(on)} is on one.",
            about=on,
        )
