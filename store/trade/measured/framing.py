"""Studs, bays and holes of a framed wall.

Whole nanometres from the left corner and from the floor. Where studs really are is measured; a layout only
says where they should be. Sections of the International Residential Code (IRC) and the National Electrical
Code (NEC) as in their 2015 to 2020 editions; local code decides.
"""

from __future__ import annotations

from collections.abc import Sequence

import msgspec

from store.measure.length import INCH_NM

STUD_THICKNESS_NM = 3 * INCH_NM // 2
"""Thickness of a two-by stud: NIST PS 20, from memory (high)."""
MOST_STUDS = 2_000
"""More studs than any wall of a house has: a layout beyond it is a mistyped spacing."""

NOTCH_PERCENT_BEARING, NOTCH_PERCENT_OTHER = 25, 40
BORE_PERCENT_BEARING, BORE_PERCENT_DOUBLED, BORE_PERCENT_OTHER = 40, 60, 60
BORE_EDGE_NM = 5 * INCH_NM // 8
BORE_SOURCE = "IRC R602.6 (2018)"
PLATE_DISTANCE_NM = 5 * INCH_NM // 4
PLATE_SOURCE = "NEC 300.4(A) and (D)"


class Stud(msgspec.Struct, frozen=True):
    """One stud: its left and right face, from the left corner of the wall."""

    left_nm: int
    right_nm: int

    @property
    def centre_nm(self) -> int:
        """Its centre line."""
        return (self.left_nm + self.right_nm) // 2


class Bay(msgspec.Struct, frozen=True):
    """The clear space between two neighbouring studs, or between a stud and an end of the wall."""

    number: int
    """Counted from 1 at the left corner."""
    left_nm: int
    right_nm: int

    @property
    def clear_nm(self) -> int:
        """Its clear width."""
        return self.right_nm - self.left_nm


PLATE_TIE_PERCENT = 50
PLATE_TIE_SOURCE = "IRC R602.6.1 (2018)"
"""A top plate of an exterior or a bearing wall cut more than half of its width takes a tie: galvanized steel, at least
0.054 in thick and 1-1/2 in wide, across and past the opening."""
METRIC_PERCENT_BEARING = 25
METRIC_BORE_SOURCE = "On-Site Guide 7.3.1 (a summary): a quarter of the depth, on the centre line; BS 7671 522.6.201"
"""Holes and notches in timber that carries, metric practice; local code decides."""


class BoreLook(msgspec.Struct, frozen=True):
    """A bored hole against the limits. Every spare is what is left of a limit, below 0 when it is broken."""

    allowed: bool
    only_doubled: bool
    """Allowed because the stud is doubled, and then in no more than two doubled studs in a row."""
    limit_nm: int
    diameter_spare_nm: int
    edge_spare_nm: int
    """Of the 5/8 in between hole and edge of stud, on the nearer side."""
    plate_front: bool
    plate_back: bool
    """Whether the hole comes nearer to that face than 1-1/4 in, so that a steel plate has to shield the
    cable."""


def studs(
    width_nm: int, spacing_nm: int, first_centre_nm: int, thickness_nm: int = STUD_THICKNESS_NM, ends: bool = True
) -> tuple[Stud, ...]:
    """The studs of a straight wall laid out from its left corner, left to right.

    Any stud of the row will do as the first centre: the row goes on from it to both sides. With
    `ends` a stud stands at each end of the wall; one of the layout that would overlap it is left out. Raises
    ValueError when the wall is narrower than a stud, the spacing smaller than a stud, the first centre off
    the wall or the studs too many.
    """
    if not 0 < thickness_nm <= min(width_nm, spacing_nm) or not 0 <= first_centre_nm <= width_nm:
        raise ValueError("a wall needs room for a stud, a spacing of a stud or more, and its first stud on it")
    if width_nm // spacing_nm > MOST_STUDS:
        raise ValueError(f"a wall with more than {MOST_STUDS} studs has a mistyped spacing")
    half = thickness_nm // 2
    lefts = [centre - half for centre in range(first_centre_nm % spacing_nm, width_nm + 1, spacing_nm)]
    if not ends:
        return tuple(Stud(left, left + thickness_nm) for left in lefts if left + half >= 0)
    last = width_nm - thickness_nm
    between = [left for left in lefts if thickness_nm <= left <= last - thickness_nm]
    edges = sorted({0, last}) if last >= thickness_nm else [0]
    lefts = sorted({*edges, *between})
    return tuple(Stud(left, left + thickness_nm) for left in lefts)


def with_odd(row: Sequence[Stud], odd: Sequence[Stud], missing_nm: Sequence[int], near_nm: int) -> tuple[Stud, ...]:
    """A row of studs less those that were not found, and with those that stand off it, left to right.

    A missing one is the stud of the row whose centre is nearest to the place, where that is closer than `near_nm`.
    A stud of the row that would share room with an odd one is that odd one.
    """
    left = list(row)
    for place in missing_nm:
        nearest = min(left, key=lambda each: abs(each.centre_nm - place), default=None)
        if nearest is not None and abs(nearest.centre_nm - place) < near_nm:
            left.remove(nearest)
    kept = [one for one in left if not any(o.left_nm < one.right_nm and one.left_nm < o.right_nm for o in odd)]
    return tuple(sorted({*kept, *odd}, key=lambda each: each.left_nm))


def bays(wall_width_nm: int, line: Sequence[Stud]) -> tuple[Bay, ...]:
    """The clear spaces of a wall, left to right; studs that touch leave none between them."""
    found: list[Bay] = []
    start = 0
    for stud in sorted(line, key=lambda each: each.left_nm):
        if stud.left_nm > start:
            found.append(Bay(len(found) + 1, start, stud.left_nm))
        start = max(start, stud.right_nm)
    if start < wall_width_nm:
        found.append(Bay(len(found) + 1, start, wall_width_nm))
    return tuple(found)


def bay_of(spaces: Sequence[Bay], left_nm: int, right_nm: int) -> Bay | None:
    """The bay that holds a whole stretch from left to right; None when a stud or an end of the wall is in the
    way."""
    return next((bay for bay in spaces if bay.left_nm <= left_nm and right_nm <= bay.right_nm), None)


def studs_cut(line: Sequence[Stud], left_nm: int, right_nm: int) -> tuple[Stud, ...]:
    """The studs that an opening from left to right runs into, left to right. One that it only touches is not
    cut."""
    return tuple(stud for stud in line if stud.left_nm < right_nm and left_nm < stud.right_nm)


def studs_crossed(line: Sequence[Stud], from_nm: int, to_nm: int) -> tuple[Stud, ...]:
    """The studs that a level cable from one place to another is bored through: their centres lie between
    both."""
    low, high = sorted((from_nm, to_nm))
    return tuple(stud for stud in line if low < stud.centre_nm < high)


def notch_limit(depth_nm: int, bearing: bool | None) -> int:
    """Deepest notch in a stud of a depth (3-1/2 in for a two-by-four), nanometres, rounded down.

    25 % of the depth in an exterior or bearing wall, 40 % elsewhere: IRC R602.6. `None`, not known, counts as
    bearing. Metric practice has the same quarter for timber that carries (METRIC_BORE_SOURCE).
    """
    return depth_nm * (NOTCH_PERCENT_OTHER if bearing is False else NOTCH_PERCENT_BEARING) // 100


def bore_limit(depth_nm: int, bearing: bool | None, doubled: bool = False, *, metric: bool = False) -> int:
    """Largest hole in a stud of a depth, nanometres, rounded down.

    40 % of the depth in an exterior or bearing wall, 60 % there in a doubled stud, 60 % elsewhere: IRC
    R602.6. In metric practice a quarter in timber that carries (METRIC_BORE_SOURCE). `None`, not known, counts as
    bearing.
    """
    if metric and bearing is not False:
        return depth_nm * METRIC_PERCENT_BEARING // 100
    if bearing is False:
        return depth_nm * BORE_PERCENT_OTHER // 100
    return depth_nm * (BORE_PERCENT_DOUBLED if doubled else BORE_PERCENT_BEARING) // 100


def look_at_bore(
    depth_nm: int,
    hole_nm: int,
    bearing: bool | None,
    centre_nm: int | None = None,
    doubled: bool = False,
    plate_distance_nm: int = PLATE_DISTANCE_NM,
    *,
    metric: bool = False,
) -> BoreLook:
    """A bored hole against IRC R602.6 (size, 5/8 in to the edge) and NEC 300.4(A) (1-1/4 in to the edge, else
    a plate).

    `centre_nm` is from the front face of the stud, the middle when left out. Raises ValueError unless depth
    and hole are above 0. It does not cover a notch beside the hole, which is not allowed, nor steel studs,
    nor plates.
    """
    if depth_nm <= 0 or hole_nm <= 0:
        raise ValueError("a bored stud needs a depth and a hole above 0")
    # Doubled, so that the edges of a hole of odd width, or centred in an odd depth, stay whole numbers.
    twice_centre = depth_nm if centre_nm is None else 2 * centre_nm
    twice_front = twice_centre - hole_nm
    twice_back = 2 * depth_nm - twice_centre - hole_nm
    edge_spare = (min(twice_front, twice_back) - 2 * BORE_EDGE_NM) // 2
    limit = bore_limit(depth_nm, bearing, doubled, metric=metric)
    allowed = hole_nm <= limit and edge_spare >= 0
    return BoreLook(
        allowed,
        allowed and hole_nm > bore_limit(depth_nm, bearing, metric=metric),
        limit,
        limit - hole_nm,
        edge_spare,
        twice_front < 2 * plate_distance_nm,
        twice_back < 2 * plate_distance_nm,
    )


def largest_hole_without_plate(depth_nm: int, plate_distance_nm: int = PLATE_DISTANCE_NM) -> int:
    """The largest centred hole that needs no plate, nanometres, 0 in a stud too thin for any: NEC
    300.4(A)."""
    return max(0, depth_nm - 2 * plate_distance_nm)
