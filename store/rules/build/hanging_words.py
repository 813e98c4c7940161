"""The sum of what hangs, and its blocking, in words."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.length import INCH_NM
from store.records.whole import Job
from store.rules.build.backing import Backing
from store.rules.build.hanging import Hanging
from store.rules.core.amounts import NEWTON_PER_LBF, fine, force, heavy
from store.rules.core.wording import plural, said, sized
from store.trade.build.bracket import HANDLED_FACTOR
from store.trade.build.screws import GRAVITY, SCREWS, UNKNOWN_GRAVITY, lag_withdrawal, wood_screw_withdrawal


def blocking_lines(job: Job, one: Backing) -> list[str]:
    """The pieces of blocking, by height and length."""
    counted: dict[tuple[int, int], int] = {}
    for each in one.blocks:
        counted[each.at_nm, each.length_nm] = counted.get((each.at_nm, each.length_nm), 0) + 1
    off = "out from the wall" if one.side.startswith("underside") else "off the floor"
    return [
        f"{plural(count, 'piece')} {sized(job, long)} long, middle {said(job, at)} {off}"
        for (at, long), count in counted.items()
    ]


def hold_lines(job: Job, one: Hanging) -> Iterable[str]:
    """The sum, line by line, ending with who decides."""
    fixing, load = one.fixing, one.load
    for tag, hung in one.hung:
        away = f", {sized(job, round(hung.out_in * INCH_NM))} from the wall" if not one.straight else ""
        yield f"{tag}: {heavy(job, hung.lbf)}{away}"
    if load is not None and one.straight:
        yield f"straight out: {force(job, one.weight_lb)} / {fixing.count} = {force(job, load.pull_lbf)} a screw"
    elif load is not None and fixing.apart is not None:
        upper = max(1, max(fixing.count, int(fixing.rows)) // int(fixing.rows))
        apart = sized(job, fixing.apart.nm)
        yield f"pull: weight x distance / {apart} / {upper} upper = {force(job, load.pull_lbf)}"
        yield f"down: weight / {fixing.count} = {force(job, load.shear_lbf)}"
    if one.held is not None:
        yield from _thread(job, one)
        yield f"{fixing.what} into {fixing.into}: holds {force(job, one.held.pull_lbf)} out, " + (
            f"{force(job, one.held.shear_lbf)} down"
        )
    if one.margin is not None:
        wanted = f"; on an arm {HANDLED_FACTOR:g} times is common practice" if one.arm else ""
        yield f"both together: holds {one.margin:.1f} times the load{wanted}"
    yield from (f"not entered: {each}" for each in one.missing)
    yield "the mount's manual decides and, for a load-bearing wall, a licensed person"


def _thread(job: Job, one: Hanging) -> Iterable[str]:
    """How much of a screw bites in wood, and what an inch of it holds."""
    screw = SCREWS.get(one.fixing.what)
    if screw is None or one.fixing.length is None or one.ground != "wood":
        return
    long, bite = one.fixing.length.nm, round(one.thread_in * INCH_NM)
    yield (
        f"screw {sized(job, long)} less board, plate and tip, at most two thirds of it threaded: "
        f"{fine(job, bite)} bites"
    )
    gravity = UNKNOWN_GRAVITY if one.fixing.wood == "unknown" else GRAVITY[one.fixing.wood]
    each = lag_withdrawal if screw.family == "lag" else wood_screw_withdrawal
    form = "1800 G^1.5 D^0.75" if screw.family == "lag" else "2850 G² D"
    across = f"{screw.shank_in:g} in"
    wood = f"{one.fixing.wood}, taken as SPF" if one.fixing.wood == "unknown" else one.fixing.wood
    an_inch = f"{each(gravity, screw.shank_in):.0f} lb an inch"
    if job.settings.metric:
        # The same two formulas with D in millimeters, for newtons a millimeter.
        form = "27.86 G^1.5 D^0.75" if screw.family == "lag" else "19.65 G² D"
        across = f"{screw.shank_in * 25.4:.2f} mm"
        an_inch = f"{each(gravity, screw.shank_in) * NEWTON_PER_LBF / 25.4:.1f} N a millimeter"
    yield f"{wood}, G {gravity:g}, D {across}: {form} = {an_inch} of thread"
