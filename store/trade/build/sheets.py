"""Board on a wall: which sheets, where they join, and what goes on the joints.

Lengths in whole nanometres from the left end and the floor. Gypsum Association GA-216 as retold: long side across the
studs, ends on a stud, ends of neighbouring courses staggered, no joint in line with the edge of an opening nor within 6
in of its corner. A sheet hangs over an opening and is cut out after hanging, so an opening saves nothing; a joint over
the middle of one is allowed, and costs none.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

import msgspec

from store.measure.length import FOOT_NM, INCH_NM
from store.trade.build.nest import Piece, sheets_for
from store.trade.measured.plane import Rect, overlap_rect
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
    cuts: tuple[Piece, ...] = ()
    """Every piece as it lies in its sheet: along it, and across it."""

    @property
    def waste(self) -> float:
        """Share of what is bought that does not stay on the wall."""
        return 1 - self.face_nm2 / self.bought_nm2 if self.bought_nm2 else 0.0


class CannotBoard(ValueError):
    """No sheet fits: the text says why."""


class _Face(msgspec.Struct, frozen=True):
    """What there is to cover."""

    width: int
    height: int
    centres: Sequence[int]
    holes: Sequence[Rect]
    gone: Sequence[Rect]
    under: Profile | None

    @property
    def open(self) -> tuple[Rect, ...]:
        """All that carries no board in the end."""
        return (*self.holes, *self.gone)


def board(
    width_nm: int,
    height_nm: int,
    centres_nm: Sequence[int],
    holes: Sequence[Rect] = (),
    *,
    gone: Sequence[Rect] = (),
    ceiling: Profile | None = None,
    longest_nm: int | None = None,
    sheet_nm: int = SHEET_NM,
    lengths_nm: Sequence[int] = LENGTHS_NM,
) -> Boarded:
    """The layout with the least length of joints, then the least board bought; level and upright are both tried.

    `centres_nm` are those of the studs; `longest_nm` the longest sheet that gets into the room. `gone` is what gets no
    board at all, hidden or covered by other sheets: pieces end at it. Under a `ceiling` that slopes or steps the height
    is that of its highest place, and each piece goes up to the highest that it meets. Raises CannotBoard when no sheet
    gets in or no stud gives a joint, ValueError for a size not above 0.
    """
    if min(width_nm, height_nm, sheet_nm) <= 0:
        raise ValueError("a face and a sheet have sizes above 0")
    lengths = sorted(each for each in lengths_nm if longest_nm is None or each <= longest_nm)
    if not lengths:
        raise CannotBoard("no sheet is short enough to get in")
    over = ceiling if ceiling is not None and len(ceiling.points) > 1 else None
    face = _Face(width_nm, height_nm, centres_nm, holes, gone, over)
    found = [_moved(_best(part, sheet_nm, lengths), at) for at, part in _parts(face)]
    return _merged(found, sheet_nm, lengths)


def _best(face: _Face, sheet: int, lengths: list[int]) -> Boarded:
    tries = [_try(face, sheet, lengths, level) for level in (True, False)]
    good = [each for each in tries if each is not None]
    if not good:
        raise CannotBoard("no stud is where a joint may be")
    return min(good, key=lambda each: (each.tapered_nm + each.butt_nm, each.bought_nm2, not each.level))


def _parts(face: _Face) -> Iterator[tuple[Rect, _Face]]:
    """The face in pieces that lie apart: what gets no board from edge to edge of it parts it in two."""
    places = [Rect(0, 0, face.width, face.height)]
    again = True
    while again:
        again = False
        for at, each in enumerate(places):
            halves = next((found for cut in face.gone if (found := _without(each, cut)) is not None), None)
            if halves is not None:
                places[at : at + 1] = halves
                again = True
                break
    for place in places:
        yield (
            place,
            _Face(
                place.width_nm,
                place.height_nm,
                [each - place.x_nm for each in face.centres if place.x_nm < each < place.right_nm],
                [_back(each, place) for each in face.holes if overlap_rect(each, place)],
                [_back(each, place) for each in face.gone if overlap_rect(each, place)],
                _under(face.under, place),
            ),
        )


def _without(piece: Rect, cut: Rect) -> list[Rect] | None:
    """What is left of a piece of what goes right across it; None where it does not."""
    shared = overlap_rect(piece, cut)
    if shared is None:
        return None
    if shared.height_nm == piece.height_nm:
        sides = [(piece.x_nm, shared.x_nm), (shared.right_nm, piece.right_nm)]
        return [Rect(left, piece.y_nm, right - left, piece.height_nm) for left, right in sides if right > left]
    if shared.width_nm == piece.width_nm:
        ends = [(piece.y_nm, shared.y_nm), (shared.top_nm, piece.top_nm)]
        return [Rect(piece.x_nm, low, piece.width_nm, high - low) for low, high in ends if high > low]
    return None


def _back(one: Rect, place: Rect) -> Rect:
    return Rect(one.x_nm - place.x_nm, one.y_nm - place.y_nm, one.width_nm, one.height_nm)


def _under(ceiling: Profile | None, place: Rect) -> Profile | None:
    if ceiling is None:
        return None
    points = ceiling.corners(place.x_nm, place.right_nm)
    return Profile(tuple((x - place.x_nm, y - place.y_nm) for x, y in points))


def _moved(one: Boarded, place: Rect) -> Boarded:
    pieces = tuple(
        Laid(Rect(each.rect.x_nm + place.x_nm, each.rect.y_nm + place.y_nm, each.rect.width_nm, each.rect.height_nm))
        for each in one.pieces
    )
    return msgspec.structs.replace(one, pieces=pieces)


def _merged(found: Sequence[Boarded], sheet: int, lengths: list[int]) -> Boarded:
    """Parts as one to be bought; a face that is hidden altogether has none."""
    if len(found) == 1:
        return found[0]
    cuts = tuple(cut for each in found for cut in each.cuts)
    sheets = sheets_for(cuts, sheet, lengths)
    return Boarded(
        tuple(piece for each in found for piece in each.pieces),
        found[0].level if found else True,
        tuple((sheet, long, count) for long, count in sheets.items()),
        sum(each.tapered_nm for each in found),
        sum(each.butt_nm for each in found),
        sum(each.face_nm2 for each in found),
        sum(sheet * long * count for long, count in sheets.items()),
        cuts,
    )


def _try(face: _Face, sheet: int, lengths: list[int], level: bool) -> Boarded | None:
    pieces: list[Rect] = []
    width, height = face.width, face.height
    if level:
        before: tuple[int, ...] = ()
        for low, high in _courses(height, sheet):
            ends = _ends(width, face.centres, face.open, (low, high), lengths, before)
            if ends is None:
                return None
            pieces += [Rect(left, low, right - left, high - low) for left, right in pairwise((0, *ends, width))]
            before = ends
    else:
        columns = _columns(width, face.centres, face.open, sheet)
        if columns is None:
            return None
        pieces = [Rect(left, 0, right - left, height) for left, right in pairwise((0, *columns, width))]
    pieces = [part for piece in pieces for part in _kept(piece, face)]
    if not level and any(each.height_nm > lengths[-1] for each in pieces):
        return None
    return _summed(pieces, face, sheet, lengths, level)


def _kept(piece: Rect, face: _Face) -> Iterator[Rect]:
    """What is hung of a piece: less what gets no board from edge to edge of it, and under the ceiling."""
    for each in face.gone:
        parts = _without(piece, each)
        if parts is not None:
            for part in parts:
                yield from _kept(part, face)
            return
    top = piece.top_nm
    if face.under is not None:
        top = min(top, face.under.highest(piece.x_nm, piece.right_nm))
    if top > piece.y_nm:
        yield Rect(piece.x_nm, piece.y_nm, piece.width_nm, top - piece.y_nm)


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


def _summed(pieces: Sequence[Rect], face: _Face, sheet: int, lengths: list[int], level: bool) -> Boarded:
    cuts = tuple((one.width_nm, one.height_nm) if level else (one.height_nm, one.width_nm) for one in pieces)
    sheets = sheets_for(cuts, sheet, lengths)
    bought = sum(sheet * long * number for long, number in sheets.items())
    across, upright = _joints(pieces, face.open)
    shown = tuple((sheet, long, number) for long, number in sheets.items())
    tapered, butt = (across, upright) if level else (upright, across)
    return Boarded(tuple(Laid(each) for each in pieces), level, shown, tapered, butt, _area(face), bought, cuts)


def _area(face: _Face) -> int:
    """Area of the face without all that gets no board; what lies on each other counts once."""
    ends = sorted({0, face.width, *(min(max(x, 0), face.width) for r in face.open for x in (r.x_nm, r.right_nm))})
    total = 0
    for left, right in pairwise(ends):
        open_there = [(r.y_nm, r.top_nm) for r in face.open if r.x_nm < right and left < r.right_nm]
        over = face.under.clipped(left, right, face.height) if face.under else ((left, face.height), (right, 0))
        for (x, y), (to_x, to_y) in pairwise(over):
            at_right = to_y if face.under else y
            full = y + at_right - _covered(open_there, 0, y) - _covered(open_there, 0, at_right)
            total += (to_x - x) * max(0, full) // 2
    return total


def _joints(pieces: Sequence[Rect], holes: Sequence[Rect]) -> tuple[int, int]:
    """Length of the level and of the upright joints between pieces, without what lies in an opening."""
    across = upright = 0
    for one in pieces:
        for other in pieces:
            if other.y_nm == one.top_nm:
                left, right = max(one.x_nm, other.x_nm), min(one.right_nm, other.right_nm)
                cut = [(h.x_nm, h.right_nm) for h in holes if h.y_nm < one.top_nm < h.top_nm]
                across += max(0, right - left - _covered(cut, left, right))
            if other.x_nm == one.right_nm:
                low, high = max(one.y_nm, other.y_nm), min(one.top_nm, other.top_nm)
                cut = [(h.y_nm, h.top_nm) for h in holes if h.x_nm < one.right_nm < h.right_nm]
                upright += max(0, high - low - _covered(cut, low, high))
    return across, upright


def _covered(spans: Iterable[tuple[int, int]], start: int, end: int) -> int:
    """Length between start and end that the spans cover, each place once."""
    total, at = 0, start
    for low, high in sorted(spans):
        low, high = max(low, at), min(high, end)
        if high > low:
            total, at = total + high - low, high
    return total
