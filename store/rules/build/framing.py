"""The framing of each wall: its sticks, what is bought and how it is cut."""

from __future__ import annotations

from collections import Counter
from functools import lru_cache

import msgspec

from store.measure.length import FOOT_NM, INCH_NM
from store.records.wall import Opening, Wall
from store.records.whole import Job
from store.rules.build.backing import DEEP_NM, backing
from store.rules.core.keyed import of_each
from store.rules.wall.layout import Placed, WallLayout, walls
from store.rules.wall.shape import into_wall_nm
from store.trade.build.lumber import METRIC_STOCK_NM, STOCK_NM, Bought, cut_from, nails
from store.trade.build.takeoff import FIRE_BLOCK_EVERY_NM, Framing, Hole, Stick, frame
from store.trade.measured.framing import notch_limit, studs_cut
from store.trade.measured.plane import Rect

AROUND = ("king stud", "trimmer", "header", "sill", "blocking", "fire block")
"""What is added to a wall that stands already."""
WIDEST_NM, HIGHEST_NM = 60 * FOOT_NM, 30 * FOOT_NM
NEAR_NM = 3 * INCH_NM
"""Openings nearer than this to each other are framed as one: two members do not go between. Our own."""


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

    @property
    def steel(self) -> str:
        """The steel, in mils; empty for wood."""
        return self.wall.framing.removeprefix("new ") if "steel" in self.wall.framing else ""


@of_each(Wall)
def framed(job: Job, wall: Wall) -> Framed | None:
    """Every wall whose size and layout are known."""
    on = walls(job).get(wall.tag)
    if on is None or on.width_nm is None or on.height_nm is None or wall.first_stud is None:
        return None
    if too_large(on):
        return None
    holes = tuple(_holes(job, on))
    found = _frame(
        on.width_nm,
        on.height_nm,
        wall.spacing.nm,
        wall.first_stud.nm,
        holes,
        wall.stud_width.nm,
        int(wall.top_plates),
        wall.bearing != "no",
    )
    if found is None:
        return None
    extra = (*_blocking(job, wall), *_fire_blocks(on, found))
    sticks = (*found.sticks, *extra)
    return Framed(wall, sticks, _wanted(wall, sticks, found), holes, found.unsized)


@lru_cache(256)
def _frame(
    width: int, height: int, spacing: int, first: int, holes: tuple[Hole, ...], thick: int, plates: int, bearing: bool
) -> Framing | None:
    try:
        return frame(width, height, spacing, first, holes, thick_nm=thick, top_plates=plates, bearing=bearing)
    except ValueError:
        return None


def too_large(on: WallLayout) -> bool:
    """True of a size that no room has: a mistyped reading, of which nothing is taken off."""
    return (on.width_nm or 0) > WIDEST_NM or (on.height_nm or 0) > HIGHEST_NM


def _wanted(wall: Wall, sticks: tuple[Stick, ...], found: Framing) -> tuple[Stick, ...]:
    """All of a new wall. Of one that stands: what openings and blocking add; nothing of openings while it may carry."""
    if wall.framing != "existing":
        return sticks
    parts = AROUND if wall.bearing == "no" else ("blocking", "fire block")
    return tuple(one for one in sticks if one.part in parts)


def _holes(job: Job, on: WallLayout) -> list[Hole]:
    """The openings that go through studs, those too near to each other as one."""
    through = [each for each in on.openings if _cuts(job, on, each)]
    groups = [([each.tag], each.rect) for each in through]
    merged = True
    while merged:
        merged = False
        for at, (tags, rect) in enumerate(groups):
            near = next((other for other in range(at + 1, len(groups)) if _near(rect, groups[other][1])), None)
            if near is not None:
                more, other = groups.pop(near)
                groups[at] = ([*tags, *more], _around(rect, other))
                merged = True
                break
    return [_hole(job, on, tags, rect) for tags, rect in groups]


def _cuts(job: Job, on: WallLayout, each: Placed) -> bool:
    into = into_wall_nm(job, job.of(Opening)[each.tag])
    deep = None if into is None else into - job.settings.finish.nm
    limit = notch_limit(on.wall.stud_depth.nm, False if on.wall.bearing == "no" else None)
    inside = on.width_nm is not None and each.rect.x_nm >= 0 and each.rect.right_nm <= on.width_nm
    cut = studs_cut(on.studs, each.rect.x_nm, each.rect.right_nm)
    return bool(cut) and inside and (deep is None or deep > limit)


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


def _hole(job: Job, on: WallLayout, tags: list[str], rect: Rect) -> Hole:
    given = [header.nm for tag in tags if (header := job.of(Opening)[tag].header) and header.nm > 0]
    y = max(0, rect.y_nm)
    return Hole(" ".join(tags), Rect(rect.x_nm, y, rect.width_nm, rect.top_nm - y), max(given, default=None))


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
