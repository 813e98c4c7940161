"""The list of a cabinet for the carpenter, in words."""

from __future__ import annotations

from collections.abc import Iterator

from store.records.inside import ShelfBoard
from store.records.wall import Opening
from store.records.whole import Job
from store.rules.build.cabinets import Cabinet, standing
from store.rules.core.amounts import force, heavy, moment
from store.rules.core.wording import sized
from store.rules.wall.inside import insides, shelf_depth_nm
from store.trade.build.cabinet import CHILD_LBF, EDGE_HINGE_NM, shelf_play_nm

DECIDES = (
    "the manufacturers of hinges and slides rate them; a bearing wall, and a floor under all of it, are for a licensed "
    "person"
)


def cabinet_lines(job: Job, one: Cabinet) -> Iterator[str]:
    """Boards, doors, drawer and hardware, with sizes."""
    for name, long, wide, count in one.boards:
        yield f"{count} x {name}: {sized(job, long)} x {sized(job, wide)}"
    yield from inside_lines(job, one.opening)
    if one.door is not None:
        size = f"{sized(job, one.door.width_nm)} x {sized(job, one.door.height_nm)}"
        yield f"{one.leaves} x door, {one.opening.door_laid}: {size}, {heavy(job, one.door_lb)} each"
    if one.hinges is not None:
        away = sized(job, EDGE_HINGE_NM)
        yield f"{one.hinges} hinges a door by its height and weight, the outer ones {away} from its ends"
    if one.drawer_nm is not None:
        yield f"drawer box {sized(job, one.drawer_nm)} wide on side-mount slides"
        yield f"slides carry {heavy(job, one.load_lb)} in it and {heavy(job, one.drawer_lb)} of drawer"
    yield from (f"{count} x {what}" for what, count in one.hardware)
    yield from _standing(job, one.opening)
    yield DECIDES


def _standing(job: Job, opening: Opening) -> Iterator[str]:
    """What tips it and what ties it back."""
    one = standing(job).get(opening.tag)
    if one is None:
        return
    if one.tip is not None:
        tips, holds = (moment(job, each) for each in (one.tip.tips, one.tip.holds))
        yield f"drawer {one.drawer} out, a child of {heavy(job, CHILD_LBF)} on it: tips {tips}, holds down {holds}"
    if one.wants_tie:
        pull, high = force(job, max(one.pull_lbf, CHILD_LBF)), sized(job, one.top_nm)
        screws = f": {', '.join(one.fixings)}" if one.fixings else ""
        yield f"tie it to studs or blocking near its top, {high} off the floor, for {pull}{screws}"


def inside_lines(job: Job, opening: Opening) -> Iterator[str]:
    """Each shelf and divider inside an opening: its size to cut, and where it goes."""
    there = insides(job).get(opening.tag)
    for laid in there.boards if there is not None else ():
        board = job.of(ShelfBoard)[laid.tag]
        across, up = laid.right_nm - laid.left_nm, laid.top_nm - laid.bottom_nm
        long = (
            up
            if laid.divider
            else across - (shelf_play_nm(job.settings.metric) if board.what == "adjustable shelf" else 0)
        )
        deep = shelf_depth_nm(board, opening)
        size = f"{sized(job, long)} x {sized(job, deep)}" if deep is not None else f"{sized(job, long)} long"
        if laid.divider:
            where = f"left face {sized(job, laid.left_nm)} from the left inside"
            where += f", foot {sized(job, laid.bottom_nm)} above the bottom" if laid.bottom_nm else ""
        else:
            where = f"top {sized(job, laid.top_nm)} above the bottom inside"
            where += f", from {sized(job, laid.left_nm)} from the left inside" if laid.left_nm else ""
        yield f"1 x {board.what} {laid.tag}: {size}; {where}"
    if opening.pin_first is not None and opening.pin_step is not None and there is not None:
        yield f"pin holes: the lowest for an underside at {sized(job, opening.pin_first.nm)}, then every " + sized(
            job, opening.pin_step.nm
        )
