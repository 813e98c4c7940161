"""Findings about doors, flaps and drawers: what bars their way, and what they are under."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from store.measure.length import INCH_NM
from store.records.equipment import Equipment
from store.records.wall import Opening, Wall
from store.records.whole import Job
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import at_least, listed, named, said, sized
from store.rules.fit.facing import meeting
from store.rules.fit.furniture import SIDES, leaf_swing
from store.rules.fit.in_front import standing_out
from store.rules.wall.layout import Neighbours, Placed, WallLayout, overlapping, walls
from store.rules.wall.pieces import is_drawer
from store.trade.measured.plane import Rect, swing_hits

PRACTICE = "common practice"
GEOMETRY = "plane geometry"
FREE_OVER_NM = 12 * INCH_NM
"""With so much over it a drawer is seen into and reached into; our own choice."""
SIDE_WALL_GAP_NM = 7 * INCH_NM // 8
"""A side-hung door turns square only so far from a side wall: 3/4 in of door and 1/8 in (common practice)."""


@rule
@from_each(Wall)
def door_swings_into(job: Job, record: Wall) -> Iterable[Finding]:
    """A door, flap or drawer front whose way is barred by what stands proud of the wall, or by a side wall."""
    wall = walls(job).get(record.tag)
    if wall is None:
        return
    movers = [each for each in wall.openings if _moves(job.of(Opening)[each.tag])]
    ahead = {each.tag: (each, out) for each, out in standing_out(job, wall)} if movers else {}
    for door, thing in overlapping(movers, [each for each, _ in ahead.values()]):
        opening = job.of(Opening)[door.tag]
        out = ahead[thing.tag][1]
        if job.of(Equipment)[thing.tag].opening != door.tag and _meets(opening, door.rect, thing.rect, out):
            yield Finding(
                "door_swings_into",
                "fix",
                (door.tag, thing.tag),
                f"{_mover(opening).capitalize()} hits {thing.tag}",
                "Hang the door on the other side, make it slide, or move one of them.",
                PRACTICE,
                {"proud": said(job, out), "hinge": opening.hinge},
                why=(f"It moves into {named(job, thing.tag)}, which is {sized(job, out)} in front of the wall."),
                about=(door.tag,),
            )
    yield from _at_side_wall(job, wall, movers)


def _at_side_wall(job: Job, wall: WallLayout, movers: list[Placed]) -> Iterator[Finding]:
    for door in movers:
        opening = job.of(Opening)[door.tag]
        room = door.rect.x_nm if opening.hinge == "left" and wall.wall.left_corner == "inside" else None
        if opening.hinge == "right" and wall.wall.right_corner == "inside" and wall.width_nm is not None:
            room = wall.width_nm - door.rect.right_nm
        if room is None or not 0 <= room < SIDE_WALL_GAP_NM:
            continue
        gap, wants = sized(job, room), at_least(job, SIDE_WALL_GAP_NM)
        yield Finding(
            "door_at_side_wall",
            "look",
            (door.tag, wall.wall.tag),
            "Door too close to the side wall",
            "Hinge it on the other side, or leave a filler strip at the wall.",
            PRACTICE,
            {"gap": gap, "hinge": opening.hinge},
            why=(
                f"It is hinged {gap} from the side wall. To open square it needs about {wants} if a wall "
                "or trim is there."
            ),
            about=(door.tag,),
        )


def _moves(one: Opening) -> bool:
    return is_drawer(one) or (one.door != "none" and one.hinge in SIDES)


def _mover(one: Opening) -> str:
    if is_drawer(one):
        return "drawer"
    return "flap" if one.hinge in ("top", "bottom") else "door"


def _meets(opening: Opening, door: Rect, thing: Rect, out: int) -> bool:
    """Whether a front on its way open meets what stands proud: seen from above, or from the side for a flap."""
    if is_drawer(opening):
        return True
    if opening.hinge in ("left", "right"):
        ahead = Rect(thing.x_nm, 0, thing.width_nm, out)
    else:
        ahead = Rect(thing.y_nm, 0, thing.height_nm, out)
    return opening.hinge in SIDES and swing_hits(leaf_swing(door, 0, opening.hinge), ahead)


@rule
@from_each(Opening)
def door_meets_round_corner(job: Job, opening: Opening) -> Iterable[Finding]:
    """A door, flap or drawer that runs into what stands before another wall of the room, or into what opens there."""
    met = meeting(job).get(opening.tag, ())
    standing = list(dict.fromkeys(each.tag for each in met if not each.moves))
    opens = [each for each in dict.fromkeys(each.tag for each in met if each.moves) if each not in standing]
    what = _mover(opening)
    if standing:
        yield Finding(
            "door_meets_round_corner",
            "fix",
            (opening.tag, *standing),
            f"{what.capitalize()} hits {' '.join(standing[:3])} round the corner",
            "Hang the door on its other side, leave a filler at the corner, or move one of them.",
            GEOMETRY,
            {"hits": " ".join(standing), "hinge": opening.hinge},
            why=f"As it opens it hits {listed([named(job, each) for each in standing])}, in front of the wall "
            "beside it.",
            about=(opening.tag,),
        )
    # Of two that open into each other, the first by its tag tells it.
    for other in (each for each in opens if opening.tag < each):
        yield Finding(
            "doors_meet",
            "look",
            (opening.tag, other),
            _both(what, _mover(job.of(Opening)[other])),
            f"Open one at a time, or hang one on its other side, or leave a filler between {opening.tag} and {other}.",
            GEOMETRY,
            {"with": other, "hinge": opening.hinge},
            why=f"{named(job, opening.tag)} and {named(job, other)} need the same part of the room to open.",
            about=(opening.tag,),
        )


def _both(one: str, other: str) -> str:
    return f"{one.capitalize()}s open into each other" if one == other else f"{one.capitalize()} and {other} meet open"


@rule
@from_each(Wall)
def flap_overis_drawer(job: Job, record: Wall) -> Iterable[Finding]:
    """A flap that hinges at its bottom and, open, lies over a drawer that nobody can then look into."""
    wall = walls(job).get(record.tag)
    kinds = {} if wall is None else {each.tag: job.of(Opening)[each.tag] for each in wall.openings}
    flaps = [tag for tag, one in kinds.items() if one.door != "none" and one.hinge == "bottom" and not is_drawer(one)]
    if wall is None or not flaps or not any(is_drawer(one) for one in kinds.values()):
        return
    around = Neighbours(wall.openings)
    for flap in (each for each in wall.openings if each.tag in flaps):
        for each in around.facing(flap.rect, "bottom"):
            gap = flap.rect.y_nm - each.rect.top_nm
            if not is_drawer(kinds[each.tag]) or gap >= FREE_OVER_NM:
                continue
            reach = sized(job, flap.rect.height_nm)
            yield Finding(
                "flap_over_drawer",
                "look",
                (flap.tag, each.tag),
                f"Open flap covers the drawer {each.tag}",
                "Hinge the flap at its top, make it slide, or use the drawer for what is taken out with the flap shut.",
                PRACTICE,
                {"gap": said(job, gap), "flap": reach},
                why=f"Open, {named(job, flap.tag)} comes out {reach}, {said(job, gap)} above {named(job, each.tag)}.",
                about=(flap.tag,),
            )


@rule
@from_each(Wall)
def drawer_under_screen(job: Job, record: Wall) -> Iterable[Finding]:
    """A drawer with nothing between it and the screen above."""
    wall = walls(job).get(record.tag)
    if wall is None:
        return
    kinds = {each.tag: job.of(Opening)[each.tag] for each in wall.openings}
    screens = [each for each in wall.openings if kinds[each.tag].use == "screen"]
    if not screens or not any(is_drawer(one) for one in kinds.values()):
        return
    around = Neighbours(wall.openings)
    for screen in screens:
        for each in around.facing(screen.rect, "bottom"):
            if not is_drawer(kinds[each.tag]):
                continue
            gap = sized(job, screen.rect.y_nm - each.rect.top_nm)
            yield Finding(
                "drawer_under_screen",
                "look",
                (each.tag, screen.tag),
                f"Drawer {gap} under the TV {screen.tag}",
                (
                    "Check that cables and boxes below the TV clear the drawer and its slides, and that no "
                    "one hits the TV when rising from the drawer."
                ),
                PRACTICE,
                {"gap": gap},
                why=f"{named(job, each.tag)} is {gap} under {named(job, screen.tag)}.",
                about=(each.tag,),
            )
