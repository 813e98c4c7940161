"""Board on a wall: which sheets, where they join, and what goes on the joints.

Lengths in whole nanometres from the left end and the floor. Gypsum Association GA-216 as retold: long side across the
studs, ends on a stud, ends of neighbouring courses staggered, no joint in line with the edge of an opening nor within 6
in of its corner. A sheet hangs over an opening and is cut out after hanging, so an opening saves nothing; a joint over
the middle of one is allowed, and costs none.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from itertools import pairwise

import msgspec

from store.measure.length import FOOT_NM, INCH_NM
from store.trade.measured.plane import Rect
from store.trade.measured.profile import Profile

SOURCE = "GA-216, secondary copy"
SHEET_NM = 48 * INCH_NM
WIDE_SHEET_NM = 54 * INCH_NM
LENGTHS_NM = tuple(feet * FOOT_NM for feet in (8, 9, 10, 12, 14, 16))
"""Widths and lengths of sheets: ASTM C1396, from memory (high)."""
CORNER_NM = 6 * INCH_NM
"""A joint keeps this far from the corner of an opening."""
STAGGER_NM = 16 * INCH_NM
"""Ends of courses that touch are at least one bay apart."""
FLOOR_GAP_NM = INCH_NM // 2
"""Board stops this far off the floor: common practice."""


class Laid(msgspec.Struct, frozen=True):
    """One piece of board on the wall."""

    rect: Rect
    """Without the cut-outs."""


class Boarded(msgspec.Struct, frozen=True):
    """How a face is covered."""

    pieces: tuple[Laid, ...]
    level: bool
    """Whether the long sides run across the studs."""
    sheets: tuple[tuple[int, int, int], ...]
    """Width, length and number of the sheets to buy."""
    tapered_nm: int
    """Length of the joints between long edges."""
    butt_nm: int
    """Length of the joints between ends."""
    face_nm2: int
    """Area of the face without its openings."""
    bought_nm2: int

    @property
    def waste(self) -> float:
        """Share of what is bought that does not stay on the wall."""
        return 1 - self.face_nm2 / self.bought_nm2 if self.bought_nm2 else 0.0


class CannotBoard(ValueError):
    """No sheet fits: the text says why."""


def board(
    width_nm: int,
    height_nm: int,
    centres_nm: Sequence[int],
    holes: Sequence[Rect] = (),
    *,
    longest_nm: int | None = None,
    sheet_nm: int = SHEET_NM,
    lengths_nm: Sequence[int] = LENGTHS_NM,
    ceiling: Profile | None = None,
) -> Boarded:
    """The layout with the least length of joints, then the least board bought; level and upright are both tried.

    `centres_nm` are those of the studs; `longest_nm` the longest sheet that gets into the room. Under a `ceiling` that
    slopes or steps the height is that of its highest place, and each piece goes up to the highest that it meets.
    Raises CannotBoard when none does or no stud gives a joint, ValueError for a size not above 0.
    """
    if min(width_nm, height_nm, sheet_nm) <= 0:
        raise ValueError("a face and a sheet have sizes above 0")
    lengths = sorted(each for each in lengths_nm if longest_nm is None or each <= longest_nm)
    if not lengths:
        raise CannotBoard("no sheet is short enough to get in")
    over = ceiling if ceiling is not None and len(ceiling.points) > 1 else None
    tries = [_try(width_nm, height_nm, centres_nm, holes, sheet_nm, lengths, level, over) for level in (True, False)]
    good = [each for each in tries if each is not None]
    if not good:
        raise CannotBoard("no stud is where a joint may be")
    return min(good, key=lambda each: (each.tapered_nm + each.butt_nm, each.bought_nm2, not each.level))


def _try(
    width: int, height: int, centres: Sequence[int], holes: Sequence[Rect], sheet: int, lengths: list[int], level: bool,
    ceiling: Profile | None,
) -> Boarded | None:  # fmt: skip
    pieces: list[Rect] = []
    if level:
        before: tuple[int, ...] = ()
        for low, high in _courses(height, sheet):
            ends = _ends(width, centres, holes, (low, high), lengths, before)
            if ends is None:
                return None
            pieces += [Rect(left, low, right - left, high - low) for left, right in pairwise((0, *ends, width))]
            before = ends
    else:
        if height > lengths[-1]:
            return None
        columns = _columns(width, centres, holes, sheet)
        if columns is None:
            return None
        pieces = [Rect(left, 0, right - left, height) for left, right in pairwise((0, *columns, width))]
    made = _summed(_below(pieces, ceiling), width, height, holes, sheet, lengths, level)
    if ceiling is None:
        return made
    return msgspec.structs.replace(made, face_nm2=made.face_nm2 - width * height + _area_under(ceiling, width))


def _below(pieces: Sequence[Rect], ceiling: Profile | None) -> Sequence[Rect]:
    """The pieces no higher than the ceiling is over them, without those that are all above it."""
    if ceiling is None:
        return pieces
    tops = [min(each.top_nm, ceiling.highest(each.x_nm, each.right_nm)) for each in pieces]
    return [
        Rect(each.x_nm, each.y_nm, each.width_nm, top - each.y_nm)
        for each, top in zip(pieces, tops, strict=True)
        if top > each.y_nm
    ]


def _area_under(ceiling: Profile, width: int) -> int:
    """Area of a face under its ceiling, square nm."""
    return sum((x2 - x1) * (y1 + y2) // 2 for (x1, y1), (x2, y2) in pairwise(ceiling.corners(0, width)))


def strips(
    wanted: Iterable[tuple[int, int]], longest_nm: int | None = None, sheet_nm: int = SHEET_NM,
    lengths_nm: Sequence[int] = LENGTHS_NM,
) -> tuple[tuple[int, int, int], ...]:  # fmt: skip
    """The sheets that narrow faces are cut from, several beside one another: width, length and number of each.

    `wanted` are their widths and lengths; one wider than a sheet, or longer, is made of several. Longest first, each
    from the first sheet with room left: common practice. Raises CannotBoard where no sheet is short enough.
    """
    lengths = sorted(each for each in lengths_nm if longest_nm is None or each <= longest_nm)
    if not lengths:
        raise CannotBoard("no sheet is short enough to get in")
    pieces: list[tuple[int, int]] = []
    for wide, long in wanted:
        across, along = -(-wide // sheet_nm), -(-long // lengths[-1])
        pieces += [(-(-long // along), -(-wide // across))] * (across * along)
    sheets: list[list[int]] = []
    for long, wide in sorted(pieces, reverse=True):
        free = next((each for each in sheets if long <= each[0] and wide <= each[1]), None)
        if free is None:
            free = [_least(lengths, long), sheet_nm]
            sheets.append(free)
        free[1] -= wide
    counted = Counter(each[0] for each in sheets)
    return tuple((sheet_nm, long, count) for long, count in sorted(counted.items(), reverse=True))


def _courses(height: int, sheet: int) -> list[tuple[int, int]]:
    """Whole courses from the ceiling down, so that the ripped one is behind the base; GA-216 as retold."""
    edges = list(range(height, 0, -sheet))
    return [(max(0, top - sheet), top) for top in edges]


def _ends(
    width: int,
    centres: Sequence[int],
    holes: Sequence[Rect],
    course: tuple[int, int],
    lengths: Sequence[int],
    before: Sequence[int],
) -> tuple[int, ...] | None:
    """Where the sheets of one course end: the fewest joints, then the least bought; None when it cannot be."""
    longest = lengths[-1]
    low, high = course
    crossing = [hole for hole in holes if hole.y_nm < high and low < hole.top_nm]
    places = [at for at in centres if 0 < at < width and _may_end(at, crossing, before)]
    whole = [hole for hole in crossing if hole.y_nm <= low and high <= hole.top_nm]
    places += [hole.x_nm + hole.width_nm // 2 for hole in whole]
    best: dict[int, tuple[int, int, tuple[int, ...]]] = {0: (0, 0, ())}
    for at in sorted({*places, width}):
        reach = [
            (joints + 1, bought + _least(lengths, at - back), (*ends, at))
            for back, (joints, bought, ends) in best.items()
            if at - back <= longest
        ]
        if reach:
            best[at] = min(reach)
    return best[width][2][:-1] if width in best else None


def _may_end(at: int, crossing: Iterable[Rect], before: Sequence[int]) -> bool:
    near = any(abs(at - edge) < CORNER_NM for hole in crossing for edge in (hole.x_nm, hole.right_nm))
    return not near and all(abs(at - other) >= STAGGER_NM for other in before)


def _columns(width: int, centres: Sequence[int], holes: Sequence[Rect], sheet: int) -> tuple[int, ...] | None:
    """Where upright sheets meet: on studs, as far apart as a sheet is wide, clear of the corners of openings."""
    return _ends(width, centres, holes, (0, 1 << 60), [sheet], ()) if width > sheet else ()


def _least(lengths: Sequence[int], wanted: int) -> int:
    return next(each for each in lengths if each >= wanted)


def _summed(
    pieces: Sequence[Rect],
    width: int,
    height: int,
    holes: Sequence[Rect],
    sheet: int,
    lengths: list[int],
    level: bool,
) -> Boarded:
    counted: dict[tuple[int, int], int] = {}
    # A ripped course of half a sheet or less: two of its pieces come out of one sheet's width.
    for piece in pieces:
        long, wide = (piece.width_nm, piece.height_nm) if level else (piece.height_nm, piece.width_nm)
        key = (_least(lengths, long), 1 if 2 * wide <= sheet else 2)
        counted[key] = counted.get(key, 0) + 1
    sheets: dict[int, int] = {}
    for (long, halves), number in counted.items():
        sheets[long] = sheets.get(long, 0) + (number if halves == 2 else -(-number // 2))
    bought = sum(sheet * long * number for long, number in sheets.items())
    tapered, butt = _joints(pieces, holes, level)
    inside = (_clipped(hole, width, height) for hole in holes)
    face = width * height - sum(inside)
    shown = tuple((sheet, long, number) for long, number in sorted(sheets.items(), reverse=True))
    return Boarded(tuple(Laid(each) for each in pieces), level, shown, tapered, butt, face, bought)


def _clipped(hole: Rect, width: int, height: int) -> int:
    wide = min(hole.right_nm, width) - max(hole.x_nm, 0)
    high = min(hole.top_nm, height) - max(hole.y_nm, 0)
    return max(0, wide) * max(0, high)


def _joints(pieces: Sequence[Rect], holes: Sequence[Rect], level: bool) -> tuple[int, int]:
    """Length of the joints along the long edges and across the ends, without what lies in an opening."""
    across = upright = 0
    rows = sorted({(each.y_nm, each.top_nm) for each in pieces})
    for low, _high in rows[1:]:
        spans = [(each.x_nm, each.right_nm) for each in pieces if each.y_nm == low]
        start, end = min(left for left, _ in spans), max(right for _, right in spans)
        across += end - start - _covered([(h.x_nm, h.right_nm) for h in holes if h.y_nm < low < h.top_nm], start, end)
    for each in pieces:
        if any(other.x_nm == each.right_nm and other.y_nm == each.y_nm for other in pieces):
            cut = [(h.y_nm, h.top_nm) for h in holes if h.x_nm < each.right_nm < h.right_nm]
            upright += each.height_nm - _covered(cut, each.y_nm, each.top_nm)
    return (across, upright) if level else (upright, across)


def _covered(spans: Iterable[tuple[int, int]], start: int, end: int) -> int:
    """Length between start and end that the spans cover, each place once."""
    total, at = 0, start
    for low, high in sorted(spans):
        low, high = max(low, at), min(high, end)
        if high > low:
            total, at = total + high - low, high
    return total
