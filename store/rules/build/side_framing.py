"""The framing in the sides of a build-out that is built: the studs of its returns and the joists of its underside.

Of a return places are from the wall out, of an underside along the wall, as they are of what hangs there. Whole
nanometres. Common practice; of a build-out that stands already nobody can know them.
"""

from __future__ import annotations

from itertools import pairwise

from store.records.wall import BuildOut
from store.records.whole import Job
from store.rules.wall.shape import Face, out_of
from store.trade.measured.framing import Bay

SIDES = ("left return", "right return", "underside")


def side_bays(job: Job, face: Face | None) -> tuple[Bay, ...]:
    """The clear spaces between the members in that side, the first from the wall or from its left end on."""
    edges = sorted(side_members(job, face))
    found = [(one[1], other[0]) for one, other in pairwise(edges) if other[0] > one[1]]
    return tuple(Bay(number, left, right) for number, (left, right) in enumerate(found, 1))


def side_members(job: Job, face: Face | None) -> tuple[tuple[int, int], ...]:
    """Both faces of each stud or joist of a side of new framing; none of any other face.

    Of a return: one at the wall and at each spacing, and the end stud of the front. Of an underside: a joist at each
    spacing from its left end, and the plate of the return at its right one.
    """
    out = out_of(job, face.out) if face is not None and face.out and face.side in SIDES else None
    one = job.of(BuildOut).get(out.tag) if out is not None else None
    if face is None or out is None or one is None or not one.new or one.work != "framing":
        return ()
    thick, step = one.stud_width.nm, max(one.stud_width.nm, one.spacing.nm)
    if face.side == "underside":
        return _members(out.rect.x_nm, out.rect.right_nm - thick, thick, step, out.rect.right_nm)
    back = out.depth_nm - one.stud_depth.nm
    return _members(0, back, thick, step, out.depth_nm)


def _members(start: int, last: int, thick: int, step: int, end: int) -> tuple[tuple[int, int], ...]:
    """One at the start, one about each step from there that ends before the last one, and that one."""
    if last < start + thick:
        return ()
    lefts = [start, *(at - thick // 2 for at in range(start + step, last - thick // 2, step))]
    return (*((left, left + thick) for left in lefts if left + thick <= last), (last, end))


def side_name(face: Face | None) -> str:
    """`left return of U1`; empty for a face that is seen from the front."""
    return f"{face.side} of {face.out}" if face is not None and face.side in SIDES and face.out else ""
