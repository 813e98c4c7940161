"""Findings about furniture in front of the wall: what a door or a drawer runs into."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from store.records.equipment import Equipment
from store.records.room import Furniture
from store.records.wall import Opening, Wall
from store.records.whole import Job
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import at_least, listed, named, said, sized
from store.rules.fit.furniture import from_front, furniture_at, met
from store.rules.wall.hung import hung
from store.rules.wall.layout import walls
from store.rules.wall.pieces import is_drawer
from store.rules.wall.readings import sizes
from store.rules.wall.shape import build_outs, front_nm, spot, stands_in_front, stands_out_nm
from store.trade.measured.plane import Rect, overlap_rect


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


@rule
@from_each(Furniture)
def furniture_in_the_wall_work(job: Job, one: Furniture) -> Iterable[Finding]:
    """Furniture where a build-out, a cabinet, what hangs on the wall or other furniture is already."""
    own = from_front(one)
    met = [
        (tag, out - one.off.nm)
        for tag, rect, begins, out in _out_in_the_room(job, one)
        if overlap_rect(rect, own) is not None and one.off.nm < out and begins < one.off.nm + one.depth.nm
    ]
    if met:
        tags, by = [tag for tag, _ in met], max(by for _, by in met)
        yield Finding(
            "furniture_in_the_wall_work",
            "fix",
            (one.tag, *tags),
            f"In the place of {' '.join(tags[:3])}",
            f"Move {one.tag} {at_least(job, by)} farther from the wall, or beside {listed(tags)}.",
            "Plane geometry",
            {tag: said(job, deep) for tag, deep in met},
            why=f"{listed([named(job, tag) for tag in tags])} {'is' if len(tags) == 1 else 'are'} where "
            f"{named(job, one.tag)} is entered, {said(job, one.off.nm)} off the wall.",
            about=(one.tag,),
        )


def _out_in_the_room(job: Job, one: Furniture) -> Iterator[tuple[str, Rect, int, int]]:
    """What comes out of a wall: its outline, and from how far out to how far out it is."""
    on = walls(job).get(one.wall)
    for out in build_outs(job).get(one.wall, ()):
        yield out.tag, out.rect, 0, out.depth_nm
    for each in on.openings if on is not None else ():
        opening = job.of(Opening)[each.tag]
        if stands_in_front(job, opening) and opening.depth is not None:
            front = front_nm(job, opening)
            yield each.tag, each.rect, front - opening.depth.nm, front
    for each in hung(job).get(one.wall, ()):
        proud, place = stands_out_nm(job, job.of(Equipment)[each.tag]), spot(job, each.tag)
        if proud is not None and place is not None:
            yield each.tag, each.rect, place.out_nm, place.out_nm + proud
    for other in furniture_at(job).get(one.wall, ()):
        if other.tag < one.tag:  # of two the later one is told
            yield other.tag, from_front(other), other.off.nm, other.off.nm + other.depth.nm


@rule
@from_each(Furniture)
def furniture_past_the_corner(job: Job, one: Furniture) -> Iterable[Finding]:
    """Furniture that goes on past an inside corner: into the wall beside."""
    wall, wide = job.of(Wall).get(one.wall), sizes(job).get((one.wall, "width"))
    if wall is None or wide is None or wall.right_corner != "inside":
        return
    over = one.x.nm + one.width.nm - wide.least.nm
    if over > 0:
        yield Finding(
            "furniture_past_the_corner",
            "fix",
            (one.tag, one.wall),
            f"{sized(job, over)} past the right corner of {one.wall}",
            f"Move {one.tag} to the left, or correct its size or the reading of {one.wall}.",
            "Plane geometry",
            {"over": sized(job, over)},
            why=f"It ends {said(job, one.x.nm + one.width.nm)} from the left; {one.wall} ends at "
            f"{said(job, wide.least.nm)}, at an inside corner.",
            about=(one.tag,),
        )
