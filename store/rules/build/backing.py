"""The blocking that fixings ask for: where, how many pieces, how long; and whether a stud is behind what needs one."""

from __future__ import annotations

import msgspec

from store.measure.length import INCH_NM
from store.records.build import Fixing
from store.records.equipment import Equipment
from store.records.wall import Opening
from store.records.whole import Job
from store.rules.core.keyed import of_each
from store.rules.wall.layout import in_opening, walls
from store.rules.wall.places import Rect, equipment_rect, rect_of, wall_of
from store.trade.build.blocking import Block, blocks
from store.trade.measured.framing import studs_cut

DEEP_NM = 11 * INCH_NM // 2
"""Height of a piece of blocking, a two-by-six laid flat against the board: room to miss by an inch. Common practice."""


class Backing(msgspec.Struct, frozen=True):
    """The blocking of one fixing."""

    fixing: str
    of: str
    wall: str
    blocks: tuple[Block, ...]


@of_each(Fixing)
def backing(job: Job, fixing: Fixing) -> Backing | None:
    """The pieces behind a fixing that is to go into blocking; None while its place or the studs are not known."""
    rect, wall = _place(job, fixing)
    if fixing.into != "blocking" or rect is None or wall not in walls(job):
        return None
    found = blocks(walls(job)[wall].bays, rect.x, rect.right, _rows(fixing, rect))
    return Backing(fixing.tag, fixing.of, wall, found) if found else None


def no_stud_behind(job: Job, fixing: Fixing) -> bool:
    """True where place and studs are known and none of them is behind what is held."""
    rect, wall = _place(job, fixing)
    on = walls(job).get(wall)
    return rect is not None and on is not None and bool(on.studs) and not studs_cut(on.studs, rect.x, rect.right)


def _place(job: Job, fixing: Fixing) -> tuple[Rect | None, str]:
    of = job.get(fixing.of)
    if isinstance(of, Opening):
        return rect_of(of), of.wall
    if not isinstance(of, Equipment):
        return None, ""
    rect = equipment_rect(job, of)
    if rect is None or of.what == "mount":
        # A mount stands where its TV does.
        screens = [one for one in in_opening(job).get(of.opening, ()) if one.what == "screen"] if of.opening else []
        rect = next((found for one in screens if (found := equipment_rect(job, one)) is not None), rect)
    return rect, wall_of(job, fixing.of)


def _rows(fixing: Fixing, rect: Rect) -> list[int]:
    """Heights of the rows: about the middle of what is held; an upper row under the top of a cabinet."""
    middle = rect.centre[1]
    apart = 0 if fixing.apart is None or fixing.rows == "1" else fixing.apart.nm
    # One piece behind both rows where they are close.
    return [middle] if apart <= DEEP_NM - 2 * INCH_NM else [middle - apart // 2, middle + apart - apart // 2]
