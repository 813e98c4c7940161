"""The blocking that fixings ask for: where, how many pieces, how long; and whether a stud is behind what needs one."""

from __future__ import annotations

from collections.abc import Sequence

import msgspec

from store.measure.length import INCH_NM
from store.records.build import Fixing
from store.records.equipment import Equipment
from store.records.wall import BuildOut, Opening, Wall
from store.records.whole import Job
from store.rules.build.side_framing import side_bays, side_members, side_name
from store.rules.core.keyed import of_each
from store.rules.wall.hung import paired
from store.rules.wall.layout import in_opening, walls
from store.rules.wall.places import Rect, equipment_rect, rect_of, wall_of
from store.rules.wall.shape import Face, face_of
from store.rules.wall.uprights import bays_at, bays_to_build, studs_at, uprights
from store.trade.build.blocking import Block, blocks
from store.trade.measured.framing import Bay, studs_cut

DEEP_NM = 11 * INCH_NM // 2
"""Height of a piece of blocking, a two-by-six laid flat against the board: room to miss by an inch. Common practice."""


class Backing(msgspec.Struct, frozen=True):
    """The blocking of one fixing."""

    fixing: str
    of: str
    wall: str
    blocks: tuple[Block, ...]
    side: str = ""
    """`left return of U1`, where it is not in a wall or a front: its places are then from the wall out, or along it."""


@of_each(Fixing)
def backing(job: Job, fixing: Fixing) -> Backing | None:
    """The pieces behind a fixing that is to go into blocking; None while its place or the studs are not known."""
    rect, wall = _place(job, fixing)
    face = face_of(job, fixing.of)
    # A box of boards or masonry has no stud bays, nor has a face of which nobody knows the framing.
    if work_of(job, fixing) in ("cabinet", "masonry") or fixing.into != "blocking":
        return None
    if rect is None or wall not in walls(job):
        return None
    if face is not None and face.side not in ("wall", "front"):
        return _in_side(job, fixing, rect, wall, face)
    found = tuple(
        piece for at in _rows(fixing, rect) for piece in blocks(_bays(job, fixing, wall, at), rect.x, rect.right, [at])
    )
    return Backing(fixing.tag, fixing.of, wall, found) if found else None


def _in_side(job: Job, fixing: Fixing, rect: Rect, wall: str, face: Face) -> Backing | None:
    """The pieces in a return or an underside that is built."""
    found = blocks(side_bays(job, face), rect.x, rect.right, _rows(fixing, rect))
    return Backing(fixing.tag, fixing.of, wall, found, side_name(face)) if found else None


def work_of(job: Job, fixing: Fixing) -> str:
    """What the build-out that holds a thing is made of: framing, cabinet, masonry; empty for the wall itself."""
    face = face_of(job, fixing.of)
    out = job.of(BuildOut).get(face.out) if face is not None and face.out else None
    return out.work if out is not None else ""


def no_stud_behind(job: Job, fixing: Fixing) -> bool:
    """True where place and studs are known and none of them is behind what is held."""
    rect, wall = _place(job, fixing)
    on, face = walls(job).get(wall), face_of(job, fixing.of)
    if work_of(job, fixing) in ("cabinet", "masonry"):
        return True
    if face is not None and face.side not in ("wall", "front"):
        there = side_members(job, face)
        return rect is not None and bool(there) and not any(a < rect.right and rect.x < b for a, b in there)
    if rect is None or on is None or not on.studs:
        return False
    out = _build_out(job, fixing)
    if out and not uprights(job, wall, out):
        return False  # of its own framing nothing is known yet
    rows = [on.studs] if _beyond(job, fixing) else [studs_at(job, wall, at, at, out) for at in _rows(fixing, rect)]
    return not any(studs_cut(line, rect.x, rect.right) for line in rows)


def _bays(job: Job, fixing: Fixing, wall: str, at: int) -> Sequence[Bay]:
    """The stud bays behind a row of screws; of the front of a build-out whose studs nobody can know, those of the wall
    behind it."""
    out, low, high = _build_out(job, fixing), at - DEEP_NM // 2, at + DEEP_NM // 2
    if _beyond(job, fixing):
        return walls(job)[wall].bays
    if not out:
        return bays_at(job, wall, low, high)
    return bays_to_build(job, wall, low, high, out) or walls(job)[wall].bays


def _beyond(job: Job, fixing: Fixing) -> bool:
    """True for what hangs in a recess deeper than the studs: what is behind its back is laid out as the row is."""
    of = job.get(fixing.of)
    around = job.of(Opening).get(of.opening) if isinstance(of, Equipment) else None
    wall = job.of(Wall).get(around.wall) if around is not None else None
    if around is None or wall is None or around.depth is None:
        return around is not None
    return around.depth.nm > wall.stud_depth.nm + job.settings.finish.nm


def _build_out(job: Job, fixing: Fixing) -> str:
    """The build-out of framing whose front holds it; empty for the wall itself."""
    face = face_of(job, fixing.of)
    return face.out if face is not None and face.side == "front" else ""


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
        beside = None if of.opening else paired(job, of)
        screens += [beside] if beside is not None else []
        rect = next((found for one in screens if (found := equipment_rect(job, one)) is not None), rect)
    return rect, wall_of(job, fixing.of)


def _rows(fixing: Fixing, rect: Rect) -> list[int]:
    """Heights of the rows: about the middle of what is held; an upper row under the top of a cabinet."""
    middle = rect.centre[1]
    apart = 0 if fixing.apart is None or fixing.rows == "1" else fixing.apart.nm
    # One piece behind both rows where they are close.
    return [middle] if apart <= DEEP_NM - 2 * INCH_NM else [middle - apart // 2, middle + apart - apart // 2]
