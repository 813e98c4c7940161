"""The drywall of each wall: its sheets, what goes on the joints, its coats and how long they dry."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from functools import lru_cache
from math import ceil

import msgspec

from store.measure.length import FOOT_NM, INCH_NM, MM_NM
from store.records.wall import BuildOut, Opening, Wall
from store.records.whole import Job
from store.rules.build.framing import too_large
from store.rules.core.keyed import of_each
from store.rules.wall.finishes import zones
from store.rules.wall.layout import walls
from store.rules.wall.lines import ceilings
from store.rules.wall.shape import Out, build_outs, stands_in_front
from store.rules.wall.uprights import front_to_build
from store.trade.build.finish import COATS, SQUARE_FOOT_NM2, Sundries, drying_days, sundries
from store.trade.build.sheets import LENGTHS_NM, SHEET_NM, WIDE_SHEET_NM, Boarded, CannotBoard, board, strips
from store.trade.measured.plane import Rect
from store.trade.measured.profile import Profile

USUAL_LONGEST_NM = 12 * FOOT_NM
METRIC_SHEET_NM = 1200 * MM_NM
METRIC_LENGTHS_NM = tuple(mm * MM_NM for mm in (2400, 2700, 3000))
BACKER_FT2 = 15
"""A sheet of cement board or tile backer, 3 x 5 ft: makers, from memory (high)."""
BACKER_MORE = 1.10
"""Bought over its face: common practice."""
WIDE_WALL_NM = 97 * INCH_NM
"""Above this two courses of 48 in do not reach, and 54 in sheets are tried."""


class Side(msgspec.Struct, frozen=True):
    """A face of a build-out that is not seen from the front."""

    out: str
    name: str
    wide_nm: int
    long_nm: int


class Boards(msgspec.Struct, frozen=True):
    """The take-off of one wall."""

    wall: Wall
    boarded: Boarded
    sundries: Sundries
    bead_nm: int
    """Outside corners: the returns of bare framed openings."""
    backer_sheets: int
    backed_ft2: float
    """Face that wants backer."""
    coats: tuple[str, ...]
    coat_days: int | None
    """Days that one coat dries; None where no coat should go on in such air."""
    sides: tuple[Side, ...] = ()
    """Returns, undersides and tops of new build-outs; their sheets are among the others."""


@of_each(Wall)
def boards(job: Job, wall: Wall) -> Boards | None:
    """Every wall whose size and studs are known. None where no sheet can be joined on its studs."""
    on, ceiling = walls(job).get(wall.tag), ceilings(job).get(wall.tag)
    if on is None or on.width_nm is None or ceiling is None or not on.studs or too_large(on):
        return None
    # Cabinet work in front of the wall is screwed to it when the board is on.
    holes = tuple(each.rect for each in on.openings if not stands_in_front(job, job.of(Opening)[each.tag]))
    high, centres = ceiling.highest(0, on.width_nm), tuple(one.centre_nm for one in on.studs)
    laid = _board(on.width_nm, high, centres, holes, _longest(job), job.settings.metric, ceiling)
    return None if laid is None else _boards(job, wall, laid, 2 * high + on.width_nm, fronts=False)


@of_each(Wall)
def build_out_boards(job: Job, wall: Wall) -> Boards | None:
    """The drywall of the new build-outs of a wall alone: their fronts and their sides; None where there are none."""
    fronts = []
    for out in build_outs(job).get(wall.tag, ()):
        found = front_to_build(job, out.tag) if job.of(BuildOut)[out.tag].new and out.work == "framing" else None
        if found is None:
            continue
        row = tuple(each.x_nm + job.of(BuildOut)[out.tag].stud_width.nm // 2 for each in found.sticks
                    if each.part in ("stud", "king stud", "cripple"))  # fmt: skip
        high = _high(job, out)
        laid = _board(out.rect.width_nm, high, row, (), _longest(job), job.settings.metric, None)
        if laid is None:
            return None
        fronts.append(laid)
    if not fronts:
        return None
    whole = fronts[0] if len(fronts) == 1 else _together(fronts)
    return _boards(job, wall, whole, 0, fronts=True)


def _boards(job: Job, wall: Wall, laid: Boarded, corners: int, *, fronts: bool) -> Boards:
    """Sheets with those of the sides of build-outs, and what goes on the joints, on inside corners of a length too."""
    sides = tuple(_sides(job, wall))
    openings = [each for each in (walls(job)[wall.tag].openings if not fronts else ()) if _bare(job, each.tag)]
    bead = sum(2 * (each.rect.width_nm + each.rect.height_nm) for each in openings) + sum(
        each.long_nm for each in sides
    )
    made = _with_sides(job, laid, sides)
    joints = laid.tapered_nm + laid.butt_nm + corners + sum(each.long_nm for each in sides)
    backed = _backed_ft2(job, wall)
    return Boards(
        wall,
        made,
        sundries(made.bought_nm2, joints, bead, wall.spacing.nm),
        bead,
        ceil(backed * BACKER_MORE / BACKER_FT2 - 1e-9),
        backed,
        COATS[int(wall.level)],
        _drying(job),
        sides,
    )


def _longest(job: Job) -> int:
    return USUAL_LONGEST_NM if job.settings.longest_sheet is None else job.settings.longest_sheet.nm


def _high(job: Job, out: Out) -> int:
    """How high the front of a build-out is at its highest."""
    line = ceilings(job).get(out.wall)
    top = out.rect.top_nm if line is None else min(out.rect.top_nm, line.highest(out.rect.x_nm, out.rect.right_nm))
    return max(0, top - out.rect.y_nm)


def _sides(job: Job, wall: Wall) -> Iterator[Side]:
    """The returns of new framed build-outs that do not end at a corner, and undersides and tops that are open."""
    line, wide = ceilings(job).get(wall.tag), walls(job)[wall.tag].width_nm
    for out in build_outs(job).get(wall.tag, ()):
        if not job.of(BuildOut)[out.tag].new or out.work != "framing":
            continue
        rect = out.rect
        returns = [("left return", rect.x_nm)] if rect.x_nm > 0 else []
        returns += [("right return", rect.right_nm)] if wide is not None and rect.right_nm < wide else []
        for name, x in returns:
            top = rect.top_nm if line is None else min(rect.top_nm, line.at(x))
            if top > rect.y_nm:
                yield Side(out.tag, name, out.depth_nm, top - rect.y_nm)
        if rect.y_nm > 0:
            yield Side(out.tag, "underside", out.depth_nm, rect.width_nm)
        if line is not None and rect.top_nm < line.lowest(rect.x_nm, rect.right_nm):
            yield Side(out.tag, "top", out.depth_nm, rect.width_nm)


def _with_sides(job: Job, laid: Boarded, sides: Sequence[Side]) -> Boarded:
    """The layout of a face with the sheets that the sides are cut from."""
    if not sides:
        return laid
    metric = job.settings.metric
    sheet, lengths = (METRIC_SHEET_NM, METRIC_LENGTHS_NM) if metric else (SHEET_NM, LENGTHS_NM)
    try:
        more = strips([(each.wide_nm, each.long_nm) for each in sides], _longest(job), sheet, lengths)
    except CannotBoard:
        return laid
    return msgspec.structs.replace(
        laid,
        sheets=_added(laid.sheets, more),
        face_nm2=laid.face_nm2 + sum(each.wide_nm * each.long_nm for each in sides),
        bought_nm2=laid.bought_nm2 + sum(wide * long * count for wide, long, count in more),
    )


def _together(laid: Sequence[Boarded]) -> Boarded:
    """Several faces as one to be bought."""
    first = laid[0]
    for each in laid[1:]:
        first = msgspec.structs.replace(
            first,
            sheets=_added(first.sheets, each.sheets),
            tapered_nm=first.tapered_nm + each.tapered_nm,
            butt_nm=first.butt_nm + each.butt_nm,
            face_nm2=first.face_nm2 + each.face_nm2,
            bought_nm2=first.bought_nm2 + each.bought_nm2,
        )
    return first


Sheets = tuple[tuple[int, int, int], ...]
"""Width, length and number."""


def _added(one: Sheets, other: Sheets) -> Sheets:
    counted: Counter[tuple[int, int]] = Counter()
    for wide, long, count in (*one, *other):
        counted[wide, long] += count
    return tuple((wide, long, count) for (wide, long), count in sorted(counted.items(), reverse=True))


def _backed_ft2(job: Job, wall: Wall) -> float:
    """Face that wants cement board or backer: as entered on the wall, else of its finish zones that are put on it."""
    if wall.tile is not None:
        return max(0.0, wall.tile)
    return sum(each.square_feet for each in zones(job).get(wall.tag, ()) if each.zone.backing == "cement board")


def _bare(job: Job, tag: str) -> bool:
    return job.of(Opening)[tag].thickness is None


def _drying(job: Job) -> int | None:
    try:
        return drying_days(job.settings.humidity, job.settings.drying_f)
    except ValueError:
        return None


@lru_cache(256)
def _board(
    width: int, height: int, centres: tuple[int, ...], holes: tuple[Rect, ...], longest: int, metric: bool,
    ceiling: Profile | None,
) -> Boarded | None:  # fmt: skip
    sheets = (METRIC_SHEET_NM,) if metric else (SHEET_NM, WIDE_SHEET_NM) if height > WIDE_WALL_NM else (SHEET_NM,)
    lengths = METRIC_LENGTHS_NM if metric else LENGTHS_NM
    found = []
    for sheet in sheets:
        try:
            made = board(width, height, centres, holes, longest_nm=longest, sheet_nm=sheet, lengths_nm=lengths,
                         ceiling=ceiling)  # fmt: skip
            found.append(made)
        except (CannotBoard, ValueError):
            continue
    return min(found, key=lambda each: (each.tapered_nm + each.butt_nm, each.bought_nm2), default=None)


def square_feet(nm2: int) -> float:
    """An area in square feet."""
    return nm2 / SQUARE_FOOT_NM2
