"""The faces that sheets go on: a wall where nothing hides it, and fronts, returns, undersides and tops of build-outs.

Each is flat, so no sheet runs past its edge: a sheet does not go round the corner of a build-out. Whole nanometres from
the lower left corner of the face.
"""

from __future__ import annotations

from collections.abc import Iterator

import msgspec

from store.records.wall import BuildOut, Obstacle, Opening, Wall
from store.records.whole import Job
from store.rules.wall.finishes import ZoneOn, zones
from store.rules.wall.layout import WallLayout, walls
from store.rules.wall.lines import ceilings
from store.rules.wall.shape import Face, Out, Side, build_outs, face_of, into_wall_nm, rect_on
from store.rules.wall.uprights import FRAMED, front_to_build
from store.trade.measured.plane import Rect, inside, overlap_rect
from store.trade.measured.profile import Profile, profile

OTHER_SHEETS = ("cement board", "plywood")
"""What a finish is fixed to that comes in sheets of its own, in place of drywall."""
SUPPORT = ("stud", "king stud", "cripple")


class Backed(msgspec.Struct, frozen=True):
    """A zone on a face whose finish is fixed to other sheets than drywall, or to none."""

    zone: str
    sheets: str
    """`cement board`, `plywood`; `masonry` has none."""
    rect: Rect


class Cover(msgspec.Struct, frozen=True):
    """One flat face, and what is in it."""

    side: Side
    out: str
    hung: bool
    """Whether it gets drywall; where not, only its zones are looked at."""
    at: Rect
    """Its size, and its place on the drawing of the wall."""
    centres: tuple[int, ...]
    holes: tuple[Rect, ...]
    gone: tuple[Rect, ...]
    """Where a build-out stands before it."""
    backed: tuple[Backed, ...]
    under: Profile | None
    """A ceiling that slopes or steps over it."""
    bare: tuple[Rect, ...]
    """Openings with drywall returns, whose edges take bead."""

    @property
    def beaded(self) -> tuple[Rect, ...]:
        """Openings whose edges take bead: not those that lie in other sheets."""
        return tuple(one for one in self.bare if not any(inside(one, each.rect) for each in self.backed))

    @property
    def shown(self) -> bool:
        """Whether it is seen from the front."""
        return self.side in ("wall", "front")

    @property
    def name(self) -> str:
        """`wall`, `front of U1`."""
        return f"{self.side} of {self.out}" if self.out else "wall"


def to_board(wall: Wall) -> bool:
    """Whether drywall is hung on a wall: as noted, and else on new framing."""
    return wall.to_board == "yes" or (wall.to_board == "unknown" and wall.framing != "existing")


def covers(job: Job, wall: Wall) -> Iterator[Cover]:
    """Every face of a wall that gets drywall, or other sheets in a zone, the wall's own first."""
    on = walls(job).get(wall.tag)
    if on is None:
        return
    own = _of_wall(job, wall, on)
    if own is not None:
        yield own
    for out in build_outs(job).get(wall.tag, ()):
        record = job.of(BuildOut)[out.tag]
        if out.work == "framing" and (record.new or wall.to_board == "yes"):
            yield from _of_build_out(job, wall, on, out)


def _of_wall(job: Job, wall: Wall, on: WallLayout) -> Cover | None:
    ceiling = ceilings(job).get(wall.tag)
    if on.width_nm is None or ceiling is None or not on.studs:
        return None
    at = Rect(0, 0, on.width_nm, ceiling.highest(0, on.width_nm))
    gone = tuple(each.rect for each in build_outs(job).get(wall.tag, ()) if each.work != "cabinet")
    openings = [each for each in on.openings if _into(job, each.tag)]
    there = [each.rect for each in on.obstacles if job.of(Obstacle)[each.tag].what in FRAMED]
    centres = tuple(one.centre_nm for one in on.studs)
    return Cover(
        "wall", "", to_board(wall), at, centres, (*(each.rect for each in openings), *there), gone,
        _backed(job, Face(wall.tag, "wall"), at), ceiling if len(ceiling.points) > 1 else None,
        tuple(each.rect for each in openings if _bare(job, each.tag)),
    )  # fmt: skip


def _into(job: Job, tag: str) -> bool:
    """Whether an opening goes through the face of the wall: not so cabinet work in front of it, or in a build-out."""
    face, into = face_of(job, tag), into_wall_nm(job, job.of(Opening)[tag])
    return (face is None or not face.out) and into != 0


def _bare(job: Job, tag: str) -> bool:
    return job.of(Opening)[tag].thickness is None


def _of_build_out(job: Job, wall: Wall, on: WallLayout, out: Out) -> Iterator[Cover]:
    hung = wall.to_board != "no"
    line = ceilings(job).get(wall.tag)
    if line is None:
        return
    high = min(out.rect.top_nm, line.highest(out.rect.x_nm, out.rect.right_nm))
    front = Rect(out.rect.x_nm, out.rect.y_nm, out.rect.width_nm, high - out.rect.y_nm)
    centres = tuple(_row(job, out.tag))
    if front.height_nm <= 0:
        return
    over = None
    if len(line.points) > 1 and line.lowest(front.x_nm, front.right_nm) < front.top_nm:
        over = profile([(x - front.x_nm, y - front.y_nm) for x, y in line.corners(front.x_nm, front.right_nm)])
    yield _cover(job, out, "front", hung, front, centres, over)
    sides: list[tuple[Side, int]] = [("left return", front.x_nm)] if front.x_nm > 0 else []
    sides += [("right return", front.right_nm)] if on.width_nm is not None and front.right_nm < on.width_nm else []
    for side, x in sides:
        tall = min(out.rect.top_nm, line.at(x)) - out.rect.y_nm
        if tall > 0:
            yield _cover(job, out, side, hung, Rect(0, out.rect.y_nm, out.depth_nm, tall), (), None)
    if out.rect.y_nm > 0:
        yield _cover(job, out, "underside", hung, Rect(front.x_nm, 0, front.width_nm, out.depth_nm), centres, None)
    if out.rect.top_nm < line.lowest(front.x_nm, front.right_nm):
        yield _cover(job, out, "top", hung, Rect(front.x_nm, 0, front.width_nm, out.depth_nm), centres, None)


def _row(job: Job, out: str) -> Iterator[int]:
    """The centers of what is upright in a front, from its left edge."""
    found, thick = front_to_build(job, out), job.of(BuildOut)[out].stud_width.nm
    for each in found.sticks if found is not None else ():
        if each.part in SUPPORT:
            yield each.x_nm + thick // 2


def _cover(
    job: Job, out: Out, side: Side, hung: bool, at: Rect, centres: tuple[int, ...], under: Profile | None
) -> Cover:
    face = Face(out.wall, side, out.tag)
    mine = [tag for tag, one in job.of(Opening).items() if one.wall == out.wall and face_of(job, tag) == face]
    rects = {tag: _moved(rect, at) for tag in mine if (rect := rect_on(job, tag)) is not None}
    bare = tuple(rect for tag, rect in rects.items() if _bare(job, tag))
    return Cover(
        side, out.tag, hung, at, centres, tuple(rects.values()), (), _backed(job, face, at), under, bare
    )  # fmt: skip


def _moved(rect: Rect, at: Rect) -> Rect:
    """A place on a face, from the lower left corner of the face."""
    return Rect(rect.x_nm - at.x_nm, rect.y_nm - at.y_nm, rect.width_nm, rect.height_nm)


def _backed(job: Job, face: Face, at: Rect) -> tuple[Backed, ...]:
    """The zones on a face that take the place of drywall, the smallest first; where two meet the smaller one counts."""
    found = []
    for each in zones(job).get(face.wall, ()):
        if each.zone.backing not in (*OTHER_SHEETS, "masonry") or not _on(each, face):
            continue
        shared = overlap_rect(each.rect, at)
        if shared is not None and shared.width_nm and shared.height_nm:
            found.append(Backed(each.zone.tag, each.zone.backing, _moved(shared, at)))
    return tuple(found)


def _on(each: ZoneOn, face: Face) -> bool:
    """A zone that names no face goes over the wall and the fronts of its build-outs; of these the one nearest counts,
    which hides what is behind it."""
    if each.zone.face == "nearest" and not each.zone.on:
        return face.side in ("wall", "front")
    return each.face == face
