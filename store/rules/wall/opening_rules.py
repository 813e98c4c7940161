"""Findings about where openings are: on each other, off the wall, on what is there already."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.wall import Obstacle, Opening, Wall
from store.records.whole import Job
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import listed, named, said, sized
from store.rules.wall.hung import hung
from store.rules.wall.layout import WallLayout, overlapping, walls
from store.rules.wall.lines import ceilings, floors
from store.rules.wall.shape import face_of, into_wall_nm
from store.trade.measured.plane import Rect, overlap_rect

PRACTICE = "common practice"
TRIMMED = ("baseboard", "crown")
"""Obstacles that are trim: cut back or scribed to, as a matter of course."""


@rule
@from_each(Wall)
def openings_overlap(job: Job, record: Wall) -> Iterable[Finding]:
    """Two openings that take the same place on a wall."""
    wall = walls(job).get(record.tag)
    if wall is None:
        return
    for one, other in overlapping(wall.openings):
        shared = overlap_rect(one.rect, other.rect)
        if shared is None or _one_behind_the_other(job, one.tag, other.tag):
            continue
        first, second = sorted((one.tag, other.tag), key=lambda tag: int(tag[1:] or 0))
        across, up = said(job, shared.width_nm), said(job, shared.height_nm)
        yield Finding(
            "openings_overlap",
            "fix",
            (first, second),
            "Openings overlap",
            (f"Move one by the smaller of the two, or make one smaller. Mark {first} and {second} on the wall again."),
            PRACTICE,
            {"across": across, "up": up},
            why=(
                f"{named(job, first)} and {named(job, second)} overlap by {sized(job, shared.width_nm)} "
                f"across and {sized(job, shared.height_nm)} up."
            ),
        )


def _one_behind_the_other(job: Job, one: str, other: str) -> bool:
    """True where one is in a build-out and does not reach the wall, and the other is in the wall behind it."""
    for front, back in ((one, other), (other, one)):
        there, behind = face_of(job, front), face_of(job, back)
        if there is not None and there.out and behind is not None and not behind.out:
            return into_wall_nm(job, job.of(Opening)[front]) == 0
    return False


@rule
@from_each(Wall)
def outside_wall(job: Job, record: Wall) -> Iterable[Finding]:
    """An opening, an access panel or a thing on the face that reaches past an edge of its wall."""
    wall = walls(job).get(record.tag)
    if wall is None:
        return
    for each in (*wall.openings, *wall.panels, *hung(job).get(wall.wall.tag, ())):
        over = _over(job, wall, each.rect)
        if over:
            yield Finding(
                "outside_wall",
                "fix",
                (each.tag, wall.wall.tag),
                f"Past the edge of {wall.wall.tag}",
                "Move it or make it smaller. It must stay within the smallest reading of the wall.",
                "the readings of the wall",
                over,
                why=f"It goes past the wall {listed(list(over.values()))}.",
                about=(each.tag,),
            )


def _over(job: Job, wall: WallLayout, rect: Rect) -> dict[str, str]:
    floor, ceiling = floors(job).get(wall.wall.tag), ceilings(job).get(wall.wall.tag)
    left, right = rect.x_nm, rect.right_nm
    edges = {
        "left": -left,
        "bottom": -rect.y_nm if floor is None else floor.highest(left, right) - rect.y_nm,
        "right": 0 if wall.width_nm is None else right - wall.width_nm,
        "top": 0 if ceiling is None else rect.top_nm - ceiling.lowest(left, right),
    }
    return {edge: f"by {said(job, over)} at the {edge}" for edge, over in edges.items() if over > 0}


@rule
@from_each(Wall)
def on_obstacle(job: Job, record: Wall) -> Iterable[Finding]:
    """An opening or an access panel on something that is on the wall already."""
    wall = walls(job).get(record.tag)
    if wall is None:
        return
    for each, there in overlapping((*wall.openings, *wall.panels), wall.obstacles):
        what = job.of(Obstacle)[there.tag].what
        shared = overlap_rect(each.rect, there.rect)
        if shared is None:
            continue
        by = f"{said(job, shared.width_nm)} by {said(job, shared.height_nm)}"
        trim = what in TRIMMED
        yield Finding(
            "on_obstacle",
            "look" if trim else "fix",
            (each.tag, there.tag),
            f"Covers the {what} {there.tag}",
            (
                f"Cut the {what} back, or scribe to it. Show the carpenter."
                if trim
                else f"Move {each.tag}, or have the {what} moved first by someone who may. Never cover a vent."
            ),
            PRACTICE,
            {"what": what, "covers": by},
            why=f"It covers {by} of the {what}.",
            about=(each.tag,),
        )
