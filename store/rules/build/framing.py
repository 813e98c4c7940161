"""The framing of each wall: its sticks, what is bought and how it is cut."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from functools import lru_cache

import msgspec

from store.measure.length import FOOT_NM, INCH_NM
from store.records.wall import BuildOut, Wall
from store.records.whole import Job
from store.rules.build.backing import DEEP_NM, backing
from store.rules.build.way_in import way_in
from store.rules.core.keyed import of_each
from store.rules.wall.layout import WallLayout, walls
from store.rules.wall.lines import ceilings, floors
from store.rules.wall.shape import Out, build_outs
from store.rules.wall.uprights import framed_as, front_to_build, holes, wall_frame
from store.trade.build.lumber import (
    METRIC_STOCK_NM,
    METRIC_TRACKS_NM,
    NAIL_SOURCE,
    STEEL_SOURCE,
    STEEL_STUDS_NM,
    STOCK_NM,
    TRACKS_NM,
    Bought,
    cut_from,
    furring_screws,
    nails,
    steel_screws,
)
from store.trade.build.takeoff import FIRE_BLOCK_EVERY_NM, Framing, Hole, Part, Stick
from store.trade.measured.profile import Profile

AROUND = ("king stud", "trimmer", "header", "sill", "blocking", "fire block")
"""What is added to a wall that stands already."""
PLATES: tuple[Part, Part] = ("bottom plate", "top plate")
JOINED = (*PLATES, "fire block")
"""What is joined end to end where no stock is as long."""
TRACK, WOOD = -1, -2
"""Sections of a steel wall beside its studs: its track, and the wooden blocking that lies in it."""
FURRING_SOURCE = "16 in apart: common practice"
FLAT_NM = 3 * INCH_NM // 2
WIDEST_NM, HIGHEST_NM = 60 * FOOT_NM, 30 * FOOT_NM


class Framed(msgspec.Struct, frozen=True):
    """The take-off of one wall."""

    wall: Wall
    sticks: tuple[Stick, ...]
    """Of the whole wall, with blocking."""
    wanted: tuple[Stick, ...]
    """Of these what has to be bought."""
    holes: tuple[Hole, ...]
    unsized: tuple[str, ...]
    """Openings whose header a licensed person, or the table of the code, has to size."""
    sides: tuple[Stick, ...] = ()
    """Of the returns and undersides of the build-outs in front of it, which are not seen from the front."""
    laid_out: tuple[str, ...] = ()
    """Build-outs whose studs are taken from their left end on."""

    @property
    def all(self) -> tuple[Stick, ...]:
        """Every stick, to be counted."""
        return (*self.sticks, *self.sides)

    @property
    def flat(self) -> bool:
        """True of furring so thin that it lies flat on what is behind it: 1-1/2 in at the most, our own line."""
        return self.wall.framing == "furred out" and self.wall.stud_depth.nm <= FLAT_NM

    @property
    def steel(self) -> str:
        """The steel, in mils; empty for wood."""
        return self.wall.framing.removeprefix("new ") if "steel" in self.wall.framing else ""


@of_each(Wall)
def framed(job: Job, wall: Wall) -> Framed | None:
    """Every wall whose size and layout are known."""
    on, ceiling = walls(job).get(wall.tag), ceilings(job).get(wall.tag)
    if on is None or on.width_nm is None or ceiling is None or not on.studs or too_large(on):
        return None
    through, floor, high = tuple(holes(job, on)), floors(job).get(wall.tag), ceiling.highest(0, on.width_nm)
    found = framed_as(wall, on.width_nm, high, through, on.studs, ceiling, floor)
    # With the windows and doors that are there: in a wall that stands they were framed when they went in.
    whole = wall_frame(job, wall.tag)
    if found is None or whole is None or high > HIGHEST_NM:
        return None
    extra = (*_blocking(job, wall, sides=False), *_fire_blocks(on, found), *_corner_studs(job, wall, whole))
    fronts = [each for each in build_outs(job).get(wall.tag, ()) if front_to_build(job, each.tag) is not None]
    sides = (*(stick for each in fronts for stick in _sides(job, on, each)), *_blocking(job, wall, sides=True))
    bought = found if wall.framing == "existing" else whole
    new = [each for each in fronts if job.of(BuildOut)[each.tag].new]
    old = [each for each in fronts if not job.of(BuildOut)[each.tag].new and job.of(BuildOut)[each.tag].bearing == "no"]
    wanted = (
        *_wanted(wall, (*bought.sticks, *extra)),
        *(stick for each in new for stick in _front(job, each)),
        *(stick for each in old for stick in _front(job, each) if stick.part in AROUND),
        *sides,
    )
    sticks = (*whole.sticks, *extra, *(stick for each in fronts for stick in _front(job, each)))
    unsized = (*bought.unsized, *(tag for each in fronts for tag in _unsized(job, each)))
    laid_out = tuple(each.tag for each in fronts if job.of(BuildOut)[each.tag].first_stud is None)
    return Framed(wall, sticks, wanted, through, unsized, sides, laid_out)


def _front(job: Job, out: Out) -> Iterator[Stick]:
    """The sticks of the front of a build-out, in places of its wall."""
    found = front_to_build(job, out.tag)
    for each in found.sticks if found is not None else ():
        place = {"x_nm": each.x_nm + out.rect.x_nm, "y_nm": each.y_nm + out.rect.y_nm}
        yield msgspec.structs.replace(each, of=each.of or out.tag, **place)


def _unsized(job: Job, out: Out) -> tuple[str, ...]:
    found = front_to_build(job, out.tag)
    return found.unsized if found is not None else ()


def _sides(job: Job, on: WallLayout, out: Out) -> Iterator[Stick]:
    """What ties a new build-out back to the wall: each of its returns, and an open underside.

    Of a return two plates and a stud at the wall and at each spacing between; of an underside a joist at each spacing.
    Common practice.
    """
    one = job.of(BuildOut)[out.tag]
    if not one.new:
        return
    back, thick = out.depth_nm - one.stud_depth.nm, one.stud_width.nm
    if back <= thick:
        return
    line = ceilings(job).get(out.wall)
    ends = [out.rect.x_nm] if out.rect.x_nm > 0 else []
    ends += [out.rect.right_nm] if on.width_nm is not None and out.rect.right_nm < on.width_nm else []
    for at, x in enumerate(ends):
        yield from (Stick(part, back, 0, 0, out.tag) for part in PLATES)
        top = out.rect.top_nm if line is None else min(out.rect.top_nm, line.at(x))
        high = top - out.rect.y_nm - 2 * thick
        yield from (Stick("stud", high, at, 0, out.tag) for _ in range(back // one.spacing.nm + 1) if high > 0)
    yield from _fire_blocks_of(out, line, back)
    if out.rect.y_nm > 0:
        joists = out.rect.width_nm // one.spacing.nm + 1
        yield from (Stick("blocking", back, 0, out.rect.y_nm, out.tag) for _ in range(joists))


def _fire_blocks_of(out: Out, line: Profile | None, back: int) -> Iterator[Stick]:
    """Of the hollow behind the front of a build-out that goes from floor to ceiling: level at the ceiling, and upright
    so that no stretch of it is over 10 ft (IRC R302.11, parallel rows of studs)."""
    top = None if line is None else line.lowest(out.rect.x_nm, out.rect.right_nm)
    if out.rect.y_nm > 0 or top is None or out.rect.top_nm < top or back <= 0:
        return
    yield Stick("fire block", out.rect.width_nm, out.rect.x_nm, top, out.tag)
    stops = -(-out.rect.width_nm // FIRE_BLOCK_EVERY_NM) - 1
    yield from (Stick("fire block", top, out.rect.x_nm, 0, out.tag) for _ in range(stops))


def _corner_studs(job: Job, wall: Wall, found: Framing) -> Iterator[Stick]:
    """One more stud at each inside corner with another wall, for the board to end on: carpentry texts."""
    if not wall.framing.startswith("new"):
        return
    ends = [one for one in found.sticks if one.part in ("stud", "king stud")]
    if not ends:
        return
    first, last, thick = min(ends, key=_left), max(ends, key=_left), wall.stud_width.nm
    if wall.meets_left in job.of(Wall) and wall.left_corner == "inside":
        yield Stick("corner stud", first.length_nm, first.x_nm + thick, first.y_nm)
    if wall.meets_right in job.of(Wall) and wall.right_corner == "inside":
        yield Stick("corner stud", last.length_nm, last.x_nm - thick, last.y_nm)


def _left(one: Stick) -> int:
    return one.x_nm


def too_large(on: WallLayout) -> bool:
    """True of a size that no room has: a mistyped reading, of which nothing is taken off."""
    return (on.width_nm or 0) > WIDEST_NM or (on.height_nm or 0) > HIGHEST_NM


def _wanted(wall: Wall, sticks: tuple[Stick, ...]) -> tuple[Stick, ...]:
    """All of a new wall. Of one that stands: what openings and blocking add; nothing of openings while it may carry."""
    if wall.framing != "existing":
        return sticks
    parts = AROUND if wall.bearing == "no" else ("blocking", "fire block")
    return tuple(one for one in sticks if one.part in parts)


def _blocking(job: Job, wall: Wall, *, sides: bool) -> list[Stick]:
    """The blocking of a wall and its fronts; or that in the returns and undersides, which the front does not show."""
    found = [wood for wood in backing(job).values() if wood.wall == wall.tag and bool(wood.side) == sides]
    return [
        Stick("blocking", each.length_nm, each.left_nm, each.at_nm, wood.fixing, DEEP_NM)
        for wood in found
        for each in wood.blocks
    ]


def _fire_blocks(on: WallLayout, found: Framing) -> list[Stick]:
    """Of a furred space: level at floor and ceiling, upright so that no level stretch is over 10 ft (IRC R302.11)."""
    if on.wall.framing != "furred out" or on.width_nm is None:
        return []
    high = max((one.length_nm for one in found.sticks if one.part in ("stud", "king stud")), default=0)
    stops = -(-on.width_nm // FIRE_BLOCK_EVERY_NM) - 1
    level = [Stick("fire block", on.width_nm, 0, at) for at in (0, high)]
    upright = [Stick("fire block", high, on.width_nm * at // (stops + 1), 0) for at in range(1, stops + 1)]
    return level + upright if high else []


def lumber(job: Job, one: Framed) -> dict[int, Bought]:
    """What is bought of each section, by the height of its face; 0 is that of the studs. Nothing unsized is in it."""
    metric = job.settings.metric
    stock = METRIC_STOCK_NM if metric else STOCK_NM
    sold = {0: STEEL_STUDS_NM, TRACK: TRACKS_NM} if one.steel and not metric else {}
    sold |= {TRACK: METRIC_TRACKS_NM} if one.steel and metric else {}
    by_face: dict[int, list[int]] = {}
    whole: dict[int, int] = {}
    for stick in one.wanted:
        if stick.part == "header" and set(stick.of.split()) & set(" ".join(one.unsized).split()):
            continue
        face = _section(one, stick)
        by_face.setdefault(face, []).append(stick.length_nm)
        if stick.part not in JOINED:
            whole[face] = max(whole.get(face, 0), stick.length_nm)
    most = way_in(job).stick_nm
    return {
        face: _cut(
            tuple(sorted(pieces)), _gets_in(sold.get(face, stock), most, whole.get(face, 0)), one.wall.spacing.nm
        )
        for face, pieces in by_face.items()
    }


def _gets_in(stock: tuple[int, ...], most: int | None, whole: int) -> tuple[int, ...]:
    """The lengths that get into the room, and the shortest that gives the longest piece that is not joined."""
    if most is None:
        return stock
    least = min((each for each in stock if each >= whole), default=max(stock))
    return tuple(each for each in stock if each <= max(most, least))


def _section(one: Framed, stick: Stick) -> int:
    """Which section a stick is cut from: of steel, what lies level is track, and build-outs in front are of wood."""
    if not one.steel or stick.face_nm:
        return stick.face_nm
    if stick.part in ("blocking", "fire block") or stick.of.startswith(BuildOut.letter):
        return WOOD
    return TRACK if stick.part in ("bottom plate", "top plate", "header", "sill") else 0


@lru_cache(256)
def _cut(pieces: tuple[int, ...], stock: tuple[int, ...], joint: int) -> Bought:
    return cut_from(pieces, stock, joint_nm=joint)


def counted(sticks: tuple[Stick, ...]) -> dict[tuple[str, int], int]:
    """How many sticks of each part and length, the longest of a part first."""
    found: Counter[tuple[str, int]] = Counter((one.part, one.length_nm) for one in sticks)
    order: list[str] = list(dict.fromkeys(one.part for one in sticks))
    return dict(sorted(found.items(), key=lambda each: (order.index(each[0][0]), -each[0][1])))


def fasteners(one: Framed) -> list[tuple[str, int, str]]:
    """What joins what is bought: name, number, and the schedule that it is by."""
    if one.steel:
        steel = [stick for stick in one.wanted if _section(one, stick) in (0, TRACK)]
        wood = nails([stick for stick in one.wanted if _section(one, stick) not in (0, TRACK)])
        found = [(name, count, STEEL_SOURCE) for name, count in steel_screws(steel).items()]
        return found + [(f"nails {size}", count, NAIL_SOURCE) for size, count in wood.items()]
    if one.flat:
        flat = [stick for stick in one.wanted if not stick.of.startswith(BuildOut.letter)]
        rest = nails([stick for stick in one.wanted if stick.of.startswith(BuildOut.letter)])
        screws = [("furring screws", furring_screws(flat), FURRING_SOURCE)] if flat else []
        return screws + [(f"nails {size}", count, NAIL_SOURCE) for size, count in rest.items()]
    return [(f"nails {size}", count, NAIL_SOURCE) for size, count in nails(one.wanted).items()]


def feet_text(nm: int) -> str:
    """A stock length in feet, as it is sold."""
    return f"{nm / FOOT_NM:g} ft"
