"""The framing that is there once the openings are framed: what is upright at a height, and the stud bays between.

An opening that goes through studs takes them away and brings king studs, trimmers and cripples. Of a build-out of
framing the same in its front, of its own studs. Whole nanometres from the wall's left end and the finished floor.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache

import msgspec

from store.measure.length import INCH_NM
from store.records.wall import BuildOut, Obstacle, Opening, Wall
from store.records.whole import Job
from store.rules.core.memo import once
from store.rules.wall.finishes import finish_at
from store.rules.wall.layout import Placed, WallLayout, walls
from store.rules.wall.lines import ceilings, floors
from store.rules.wall.places import Point
from store.rules.wall.shape import HIGHEST_NM, Out, build_outs, face_of, into_wall_nm, out_at, out_of, rect_on
from store.trade.build.slope import under
from store.trade.build.takeoff import Framing, Hole, frame
from store.trade.measured.framing import Bay, Stud, bays, notch_limit, studs, studs_cut
from store.trade.measured.plane import Rect
from store.trade.measured.profile import Profile, level, profile

NEAR_NM = 3 * INCH_NM
"""Openings nearer than this to each other are framed as one: two members do not go between. Our own."""
STEEL_END_NM = INCH_NM // 8
"""What a steel stud is shorter at each end: the track, and the gap to its web; ASTM C754, from memory (medium)."""
FRAMED = ("window", "door")
"""Obstacles that studs make way for."""
UPRIGHT = ("stud", "king stud", "trimmer", "cripple")


class Upright(msgspec.Struct, frozen=True):
    """A stud, king stud, trimmer or cripple: its faces and its ends."""

    part: str
    left_nm: int
    right_nm: int
    low_nm: int
    high_nm: int
    of: str = ""
    """The opening that it is for."""


# --- holes ---


def holes(job: Job, on: WallLayout) -> list[Hole]:
    """The openings that go through studs of the wall, those too near to each other as one."""
    through = [each for each in on.openings if cuts(job, on, each)]
    return merged(job, [(each.tag, each.rect) for each in through])


def cuts(job: Job, on: WallLayout, each: Placed) -> bool:
    """True for an opening that goes farther into studs of the wall than a notch may."""
    into = into_wall_nm(job, job.of(Opening)[each.tag])
    deep = None if into is None else into - finish_at(job, each.tag).thickness_nm
    limit = notch_limit(on.wall.stud_depth.nm, False if on.wall.bearing == "no" else None)
    inside = on.width_nm is not None and each.rect.x_nm >= 0 and each.rect.right_nm <= on.width_nm
    cut = studs_cut(on.studs, each.rect.x_nm, each.rect.right_nm)
    return bool(cut) and inside and (deep is None or deep > limit)


def merged(job: Job, openings: Sequence[tuple[str, Rect]]) -> list[Hole]:
    """Holes of openings, those too near to each other as one."""
    groups = [([tag], rect) for tag, rect in openings]
    again = True
    while again:
        again = False
        for at, (tags, rect) in enumerate(groups):
            near = next((other for other in range(at + 1, len(groups)) if _near(rect, groups[other][1])), None)
            if near is not None:
                more, other = groups.pop(near)
                groups[at] = ([*tags, *more], _around(rect, other))
                again = True
                break
    return [_hole(job, tags, rect) for tags, rect in groups]


def _near(one: Rect, other: Rect) -> bool:
    return (
        one.x_nm - NEAR_NM < other.right_nm
        and other.x_nm - NEAR_NM < one.right_nm
        and one.y_nm - NEAR_NM < other.top_nm
        and other.y_nm - NEAR_NM < one.top_nm
    )


def _around(one: Rect, other: Rect) -> Rect:
    x, y = min(one.x_nm, other.x_nm), min(one.y_nm, other.y_nm)
    return Rect(x, y, max(one.right_nm, other.right_nm) - x, max(one.top_nm, other.top_nm) - y)


def _hole(job: Job, tags: list[str], rect: Rect) -> Hole:
    openings = [one for tag in tags if (one := job.of(Opening).get(tag)) is not None]
    given = [header.nm for one in openings if (header := one.header) and header.nm > 0]
    y = max(0, rect.y_nm)
    return Hole(" ".join(tags), Rect(rect.x_nm, y, rect.width_nm, rect.top_nm - y), max(given, default=None))


# --- uprights ---


@once
def wall_frame(job: Job, wall: str) -> Framing | None:
    """Every stick of the wall itself; None while its width or its studs are not known, or they cannot be so."""
    on = walls(job).get(wall)
    if on is None or on.width_nm is None or not on.studs:
        return None
    line = ceilings(job).get(wall)
    high = HIGHEST_NM if line is None else line.highest(0, on.width_nm)
    through = [(each.tag, each.rect) for each in on.openings if cuts(job, on, each)]
    open_at = tuple(merged(job, [*through, *those_there(job, on)]))
    return framed_as(on.wall, on.width_nm, high, open_at, on.studs, line, floors(job).get(wall))


def those_there(job: Job, on: WallLayout) -> Iterator[tuple[str, Rect]]:
    """The windows and doors of a wall that cut studs of the row: they were framed when they went in."""
    for each in on.obstacles:
        rect, framed = each.rect, job.of(Obstacle)[each.tag].what in FRAMED
        within = on.width_nm is not None and rect.x_nm >= 0 and rect.right_nm <= on.width_nm
        if framed and within and rect.height_nm and studs_cut(on.studs, rect.x_nm, rect.right_nm):
            yield each.tag, rect


@lru_cache(256)
def framed_as(
    wall: Wall, width_nm: int, height_nm: int, open_at: tuple[Hole, ...], line: tuple[Stud, ...],
    ceiling: Profile | None = None, floor: Profile | None = None,
) -> Framing | None:  # fmt: skip
    """The sticks of a wall of a size with its openings, cut to its ceiling and floor; None where it cannot be so."""
    steel = "steel" in wall.framing
    thick, plates = wall.stud_width.nm, 1 if steel else int(wall.top_plates)
    plate = STEEL_END_NM if steel else thick
    try:
        found = frame(
            width_nm, height_nm, wall.spacing.nm, 0, open_at, thick_nm=thick, plate_nm=plate, top_plates=plates,
            bearing=wall.bearing != "no", line=line,
        )  # fmt: skip
    except ValueError:
        return None
    if ceiling is None:
        return found
    return under(
        found, ceiling, floor or level(0), width_nm=width_nm, thick_nm=thick, top_plates=plates, plate_nm=plate
    )


@once
def uprights(job: Job, wall: str, out: str = "") -> tuple[Upright, ...]:
    """What is upright in a wall, or in the front of a build-out of it; empty while that is not known."""
    if out:
        return tuple(_of_build_out(job, out))
    found, record = wall_frame(job, wall), job.of(Wall).get(wall)
    if found is None or record is None:
        return ()
    return tuple(
        Upright(each.part, each.x_nm, each.x_nm + record.stud_width.nm, each.y_nm, each.y_nm + each.length_nm, each.of)
        for each in found.sticks
        if each.part in UPRIGHT
    )


@once
def front_frame(job: Job, tag: str) -> Framing | None:
    """Every stick of the front of a build-out of framing, from its own lower left corner; None while not known."""
    record = job.of(BuildOut).get(tag)
    return None if record is None or record.first_stud is None else _front_from(job, record, record.first_stud.nm)


@once
def front_to_build(job: Job, tag: str) -> Framing | None:
    """The same of a build-out that is to be built, its studs from its left end on where nobody entered one."""
    record = job.of(BuildOut).get(tag)
    if record is None or not record.new or record.first_stud is not None:
        return front_frame(job, tag)
    return _front_from(job, record, record.x.nm)


def _front_from(job: Job, record: BuildOut, stud_nm: int) -> Framing | None:
    out = out_of(job, record.tag)
    line = _laid_out(record, stud_nm)
    if out is None or record.work != "framing" or not line:
        return None
    try:
        found = frame(
            out.rect.width_nm, out.rect.height_nm, record.spacing.nm, 0, _in_front(job, out),
            thick_nm=record.stud_width.nm, top_plates=1, bearing=record.bearing == "yes", line=line,
        )  # fmt: skip
    except ValueError:
        return None
    over = ceilings(job).get(out.wall)
    if over is None or over.lowest(out.rect.x_nm, out.rect.right_nm) >= out.rect.top_nm:
        return found
    cut = over.clipped(out.rect.x_nm, out.rect.right_nm, out.rect.top_nm)
    ceiling = profile([(x - out.rect.x_nm, y - out.rect.y_nm) for x, y in cut])
    wide, thick = out.rect.width_nm, record.stud_width.nm
    return under(found, ceiling, level(0), width_nm=wide, thick_nm=thick, top_plates=1)


def _of_build_out(job: Job, tag: str) -> Iterator[Upright]:
    record, out, found = job.of(BuildOut).get(tag), out_of(job, tag), front_frame(job, tag)
    for each in found.sticks if record is not None and out is not None and found is not None else ():
        if record is not None and out is not None and each.part in UPRIGHT:
            x, y = each.x_nm + out.rect.x_nm, each.y_nm + out.rect.y_nm
            yield Upright(each.part, x, x + record.stud_width.nm, y, y + each.length_nm, each.of)


def _in_front(job: Job, out: Out) -> list[Hole]:
    """The openings in the front of a build-out, in places of its own framing."""
    found = []
    for tag, one in job.of(Opening).items():
        face = face_of(job, tag) if one.wall == out.wall else None
        rect = rect_on(job, tag) if face is not None and face.out == out.tag and face.side == "front" else None
        if rect is not None and rect.width_nm and rect.height_nm:
            found.append(
                (tag, Rect(rect.x_nm - out.rect.x_nm, rect.y_nm - out.rect.y_nm, rect.width_nm, rect.height_nm))
            )
    return merged(job, found)


@once
def studs_at(job: Job, wall: str, low_nm: int, high_nm: int, out: str = "") -> tuple[Stud, ...]:
    """The uprights that are there between two heights, or at one, left to right; each place once."""
    there = {
        (each.left_nm, each.right_nm)
        for each in uprights(job, wall, out)
        if (each.low_nm < high_nm and low_nm < each.high_nm) or each.low_nm <= low_nm == high_nm < each.high_nm
    }
    return tuple(Stud(left, right) for left, right in sorted(there))


@once
def bays_at(job: Job, wall: str, low_nm: int, high_nm: int, out: str = "") -> tuple[Bay, ...]:
    """The clear spaces between what is upright between two heights; empty while the studs are not known."""
    line = studs_at(job, wall, low_nm, high_nm, out)
    on = walls(job).get(wall)
    if not line or on is None or on.width_nm is None:
        return ()
    return bays_of_front(job, out, line) if out else bays(on.width_nm, line)


@once
def bays_to_build(job: Job, wall: str, low_nm: int, high_nm: int, out: str) -> tuple[Bay, ...]:
    """The same of the front of a build-out that is to be built, its studs laid out from its left end where need be."""
    if uprights(job, wall, out):
        return bays_at(job, wall, low_nm, high_nm, out)
    found, front, record = front_to_build(job, out), out_of(job, out), job.of(BuildOut).get(out)
    if found is None or front is None or record is None:
        return ()
    low, high, left = low_nm - front.rect.y_nm, high_nm - front.rect.y_nm, front.rect.x_nm
    there = sorted(
        {
            each.x_nm + left
            for each in found.sticks
            if each.part in UPRIGHT and each.y_nm < high and low < each.y_nm + each.length_nm
        }
    )
    return bays_of_front(job, out, [Stud(x, x + record.stud_width.nm) for x in there])


def bays_of_front(job: Job, out: str, line: Sequence[Stud]) -> tuple[Bay, ...]:
    """The clear spaces between studs of the front of a build-out, counted from its left return."""
    front = out_of(job, out)
    if front is None:
        return ()
    left = front.rect.x_nm
    found = bays(front.rect.width_nm, [Stud(each.left_nm - left, each.right_nm - left) for each in line])
    return tuple(Bay(each.number, each.left_nm + left, each.right_nm + left) for each in found)


@once
def row_of(job: Job, wall: str, out: str = "") -> tuple[Stud, ...]:
    """The studs of a wall, or of the front of a build-out, as laid out, whatever opening takes some away."""
    if not out:
        on = walls(job).get(wall)
        return on.studs if on is not None else ()
    record, front = job.of(BuildOut).get(out), out_of(job, out)
    if record is None or front is None or record.first_stud is None or record.work != "framing":
        return ()
    left = front.rect.x_nm
    return tuple(Stud(each.left_nm + left, each.right_nm + left) for each in _laid_out(record, record.first_stud.nm))


@once
def studs_seen(job: Job, wall: str) -> tuple[Rect, ...]:
    """The studs that a box or a panel would meet, as laid out: of the build-outs, and of the wall beside them."""
    outs, line = build_outs(job).get(wall, ()), ceilings(job).get(wall)
    top = HIGHEST_NM if line is None else max(y for _, y in line.points)
    found = []
    for each in row_of(job, wall):
        over = [(out.rect.y_nm, out.rect.top_nm) for out in outs
                if out.rect.x_nm < each.right_nm and each.left_nm < out.rect.right_nm]  # fmt: skip
        at = 0
        for low, high in [*sorted(over), (top, top)]:
            if low > at:
                found.append(Rect(each.left_nm, at, each.right_nm - each.left_nm, low - at))
            at = max(at, high)
    for out in outs:
        found += [Rect(each.left_nm, out.rect.y_nm, each.right_nm - each.left_nm, out.rect.height_nm)
                  for each in row_of(job, wall, out.tag)]  # fmt: skip
    return tuple(found)


def _laid_out(record: BuildOut, stud_nm: int) -> tuple[Stud, ...]:
    """The studs of a front from its left return on; none for figures that cannot be so."""
    if record.spacing.nm <= 0:  # only a file that was edited by hand has that
        return ()
    first = (stud_nm - record.x.nm) % record.spacing.nm
    try:
        return studs(record.width.nm, record.spacing.nm, min(first, record.width.nm), record.stud_width.nm)
    except ValueError:
        return ()


FREE_NM = 2 * INCH_NM
"""Room behind the studs of a build-out's front in which cables and raceways run past them, unbored; our own."""


def through_front(job: Job, wall: str, start: Point, end: Point) -> tuple[Stud, ...] | None:
    """The studs of a build-out that a level run within it is bored through; None for a run that is not within one.

    Where there is room behind its framing, and in cabinet work, there are none; those of the wall are behind it all.
    """
    out = out_at(job, wall, *start)
    if out is None or out.work == "masonry" or out != out_at(job, wall, *end):
        return None
    one = job.of(BuildOut)[out.tag]
    if out.work == "cabinet" or out.depth_nm - job.settings.finish.nm - one.stud_depth.nm >= FREE_NM:
        return ()
    return studs_at(job, wall, start[1], start[1], out.tag)
