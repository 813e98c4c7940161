"""The framing of each wall: its sticks, what is bought and how it is cut."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from functools import lru_cache

import msgspec

from store.measure.length import FOOT_NM
from store.records.wall import BuildOut, Wall
from store.records.whole import Job
from store.rules.build.backing import DEEP_NM, backing
from store.rules.core.keyed import of_each
from store.rules.wall.layout import WallLayout, walls
from store.rules.wall.lines import ceilings, floors
from store.rules.wall.shape import Out, build_outs
from store.rules.wall.uprights import framed_as, front_to_build, holes, wall_frame
from store.trade.build.lumber import METRIC_STOCK_NM, STOCK_NM, Bought, cut_from, nails
from store.trade.build.takeoff import FIRE_BLOCK_EVERY_NM, Framing, Hole, Part, Stick

AROUND = ("king stud", "trimmer", "header", "sill", "blocking", "fire block")
"""What is added to a wall that stands already."""
PLATES: tuple[Part, Part] = ("bottom plate", "top plate")
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
    extra = (*_blocking(job, wall), *_fire_blocks(on, found))
    fronts = [each for each in build_outs(job).get(wall.tag, ()) if front_to_build(job, each.tag) is not None]
    sides = tuple(stick for each in fronts for stick in _sides(job, on, each))
    bought = found if wall.framing == "existing" else whole
    new = [each for each in fronts if job.of(BuildOut)[each.tag].new]
    wanted = (*_wanted(wall, (*bought.sticks, *extra)), *(stick for each in new for stick in _front(job, each)), *sides)
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
    if out.rect.y_nm > 0:
        joists = out.rect.width_nm // one.spacing.nm + 1
        yield from (Stick("blocking", back, 0, out.rect.y_nm, out.tag) for _ in range(joists))


def too_large(on: WallLayout) -> bool:
    """True of a size that no room has: a mistyped reading, of which nothing is taken off."""
    return (on.width_nm or 0) > WIDEST_NM or (on.height_nm or 0) > HIGHEST_NM


def _wanted(wall: Wall, sticks: tuple[Stick, ...]) -> tuple[Stick, ...]:
    """All of a new wall. Of one that stands: what openings and blocking add; nothing of openings while it may carry."""
    if wall.framing != "existing":
        return sticks
    parts = AROUND if wall.bearing == "no" else ("blocking", "fire block")
    return tuple(one for one in sticks if one.part in parts)


def _blocking(job: Job, wall: Wall) -> list[Stick]:
    found = [wood for wood in backing(job).values() if wood.wall == wall.tag]
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
    stock = METRIC_STOCK_NM if job.settings.metric else STOCK_NM
    by_face: dict[int, list[int]] = {}
    for stick in one.wanted:
        if stick.part == "header" and set(stick.of.split()) & set(" ".join(one.unsized).split()):
            continue
        by_face.setdefault(stick.face_nm, []).append(stick.length_nm)
    return {face: _cut(tuple(sorted(pieces)), stock, one.wall.spacing.nm) for face, pieces in by_face.items()}


@lru_cache(256)
def _cut(pieces: tuple[int, ...], stock: tuple[int, ...], joint: int) -> Bought:
    return cut_from(pieces, stock, joint_nm=joint)


def counted(sticks: tuple[Stick, ...]) -> dict[tuple[str, int], int]:
    """How many sticks of each part and length, the longest of a part first."""
    found: Counter[tuple[str, int]] = Counter((one.part, one.length_nm) for one in sticks)
    order: list[str] = list(dict.fromkeys(one.part for one in sticks))
    return dict(sorted(found.items(), key=lambda each: (order.index(each[0][0]), -each[0][1])))


def nails_for(one: Framed) -> dict[str, int]:
    """Nails of what is bought; of steel framing there are none."""
    return {} if one.steel else nails(one.wanted)


def feet_text(nm: int) -> str:
    """A stock length in feet, as it is sold."""
    return f"{nm / FOOT_NM:g} ft"
