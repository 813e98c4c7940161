"""Figures of fixings: what the hardest-loaded screw must take and what it holds, and the sum."""

from __future__ import annotations

from collections.abc import Iterable

from store.records.whole import Job
from store.rules.build.backing import Backing, backing
from store.rules.build.hanging import Hanging, hanging
from store.rules.core.amounts import force, heavy, newtons
from store.rules.core.figures import Figure, figures_of
from store.rules.core.wording import plural, said, sized


@figures_of("fixing")
def of_fixings(job: Job) -> Iterable[Figure]:
    """Newtons on the screw that is loaded hardest, what it holds that way, how many times, and how it is summed."""
    for tag, one in hanging(job).items():
        if one.load is not None:
            yield tag, "needed_n", round(newtons(one.load.both_lbf), 2)
        if one.allowed_lbf is not None:
            yield tag, "allowed_n", round(newtons(one.allowed_lbf), 2)
        if one.margin is not None:
            yield tag, "margin", round(one.margin, 2)
        if (count := one.needed_for(1.0)) is not None:
            yield tag, "screws_needed", count
        yield tag, "hold_lines", list(_sum(job, one))
        if (wood := backing(job).get(tag)) is not None:
            yield tag, "blocking", blocking_lines(job, wood)


def blocking_lines(job: Job, one: Backing) -> list[str]:
    """The pieces of blocking, by height and length."""
    counted: dict[tuple[int, int], int] = {}
    for each in one.blocks:
        counted[each.at_nm, each.length_nm] = counted.get((each.at_nm, each.length_nm), 0) + 1
    return [
        f"{plural(count, 'piece')} {sized(job, long)} long, middle {said(job, at)} off the floor"
        for (at, long), count in counted.items()
    ]


def _sum(job: Job, one: Hanging) -> Iterable[str]:
    fixing = one.fixing
    for tag, hung in one.hung:
        yield f"{tag}: {heavy(job, hung.lbf)}, {sized(job, round(hung.out_in * 25_400_000))} from the wall"
    if one.load is not None and fixing.apart is not None:
        upper = max(1, max(fixing.count, int(fixing.rows)) // int(fixing.rows))
        apart = sized(job, fixing.apart.nm)
        yield f"pull: weight x distance / {apart} / {upper} upper = {force(job, one.load.pull_lbf)}"
        yield f"down: weight / {fixing.count} = {force(job, one.load.shear_lbf)}"
    if one.held is not None:
        thread = f", {one.thread_in:.2f} in of thread in it" if one.thread_in else ""
        yield f"{fixing.what} into {fixing.into}{thread}: holds {force(job, one.held.pull_lbf)} out, " + (
            f"{force(job, one.held.shear_lbf)} down"
        )
    if one.margin is not None:
        yield f"both together: holds {one.margin:.1f} times the load"
    yield from (f"not entered: {each}" for each in one.missing)
    yield "the mount's manual and, for what carries the house, a licensed person decide"
