"""Findings about cords and cables inside an opening that have to get past a shelf or a divider."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from store.records.equipment import Equipment
from store.records.inside import ShelfBoard
from store.records.wall import Opening
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import listed, named, plural, sized
from store.rules.wall.contents import opening_of_box
from store.rules.wall.inside import Inside, insides
from store.rules.wall.layout import cables_at
from store.rules.wall.pieces import nm_of
from store.rules.wall.places import Point, point_of, rect_of
from store.trade.fit.inside import Laid, plug_gap_nm


@rule
@from_each(Opening)
def cord_past_shelf(job: Job, opening: Opening) -> Iterable[Finding]:
    """Gear whose plug or cable is on the other side of a shelf or a divider that leaves no way for it."""
    there, around = insides(job).get(opening.tag), rect_of(opening)
    if there is None or around is None:
        return
    side = nm_of(opening.thickness) or 0
    passes = plug_gap_nm(job.settings.metric)
    passed: dict[str, list[str]] = {}
    for tag, stand in there.stands.items():
        here = stand.left_nm + stand.width_nm // 2, stand.bottom_nm + stand.height_nm // 2
        for end in _ends(job, opening, there, tag):
            at = (end[0] - around.x - side, end[1] - around.y - side)
            for laid in there.boards:
                gap = nm_of(job.of(ShelfBoard)[laid.tag].gap) or 0
                if gap < passes and _between(laid, here, at):
                    passed.setdefault(laid.tag, []).append(tag)
    for board, tags in passed.items():
        gear = list(dict.fromkeys(tags))
        yield Finding(
            "cord_past_shelf",
            "look",
            (board, *gear, opening.tag),
            f"{plural(len(gear), 'cord')} must get past it",
            f"Leave {sized(job, passes)} behind it, or bore a hole of {sized(job, passes)} near its back edge "
            "before it is finished, and enter the gap.",
            "Common practice",
            {"past it": ", ".join(gear)},
            why=f"In {named(job, opening.tag)} what {listed(gear)} connects to is on the other side of {board}, which "
            "has no gap behind it.",
            about=(board,),
        )


def _ends(job: Job, opening: Opening, there: Inside, tag: str) -> Iterator[Point]:
    """Where the cord and the cables of a thing go inside its opening: boxes in its back, gear on other shelves."""
    one = job.of(Equipment)[tag]
    others = [str(one.plug)] if one.power != "none" else []
    others += [
        str(end) for cable in cables_at(job).get(tag, ()) if not cable.in_wall for end in (cable.start, cable.end)
    ]
    for other in dict.fromkeys(others):
        box = job.of(Box).get(other)
        mine = box is not None and opening_of_box(job).get(other) == opening.tag
        if (mine or (other in there.stands and other != tag)) and (at := point_of(job, other)) is not None:
            yield at


def _between(laid: Laid, here: Point, there: Point) -> bool:
    """Whether a straight way from one place to another meets a board, seen from the front."""
    axis = 0 if laid.divider else 1
    low, high = (laid.left_nm, laid.right_nm) if laid.divider else (laid.bottom_nm, laid.top_nm)
    if not min(here[axis], there[axis]) < low or not high < max(here[axis], there[axis]):
        return False
    share = ((low + high) // 2 - here[axis]) / (there[axis] - here[axis])
    other = 1 - axis
    cross = here[other] + share * (there[other] - here[other])
    ends = (laid.bottom_nm, laid.top_nm) if laid.divider else (laid.left_nm, laid.right_nm)
    return ends[0] <= cross <= ends[1]
