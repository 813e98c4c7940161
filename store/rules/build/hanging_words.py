"""The sum of what hangs, and its blocking, in words."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.whole import Job
from store.rules.build.backing import Backing
from store.rules.build.hanging import Hanging
from store.rules.core.amounts import force, heavy
from store.rules.core.wording import plural, said, sized


def blocking_lines(job: Job, one: Backing) -> list[str]:
    """The pieces of blocking, by height and length."""
    counted: dict[tuple[int, int], int] = {}
    for each in one.blocks:
        counted[each.at_nm, each.length_nm] = counted.get((each.at_nm, each.length_nm), 0) + 1
    return [
        f"{plural(count, 'piece')} {sized(job, long)} long, middle {said(job, at)} off the floor"
        for (at, long), count in counted.items()
    ]


def hold_lines(job: Job, one: Hanging) -> Iterable[str]:
    """The sum, line by line, ending with who decides."""
    fixing = one.fixing
    for tag, hung in one.hung:
        yield f"{tag}: {heavy(job, hung.lbf)}, {sized(job, round(hung.out_in * 25_400_000))} from the wall"
    if one.load is not None and fixing.apart is not None:
        upper = max(1, max(fixing.count, int(fixing.rows)) // int(fixing.rows))
        apart = sized(job, fixing.apart.nm)
        yield f"pull: weight x distance / {apart} / {upper} upper = {force(job, one.load.pull_lbf)}"
        yield f"down: weight / {fixing.count} = {force(job, one.load.shear_lbf)}"
    if one.held is not None:
        length = f"{(one.thread_in or 0) * 25.4:.0f} mm" if job.settings.metric else f"{one.thread_in or 0:.2f} in"
        thread = f", {length} of thread in it" if one.thread_in else ""
        yield f"{fixing.what} into {fixing.into}{thread}: holds {force(job, one.held.pull_lbf)} out, " + (
            f"{force(job, one.held.shear_lbf)} down"
        )
    if one.margin is not None:
        yield f"both together: holds {one.margin:.1f} times the load"
    yield from (f"not entered: {each}" for each in one.missing)
    yield "the mount's manual decides and, for a load-bearing wall, a licensed person"
