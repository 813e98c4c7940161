"""The drywall of each wall: its sheets, what goes on the joints, its coats and how long they dry."""

from __future__ import annotations

from functools import lru_cache
from math import ceil

import msgspec

from store.measure.length import FOOT_NM, INCH_NM, MM_NM
from store.records.wall import Opening, Wall
from store.records.whole import Job
from store.rules.build.framing import too_large
from store.rules.core.keyed import of_each
from store.rules.wall.finishes import zones
from store.rules.wall.layout import walls
from store.trade.build.finish import COATS, SQUARE_FOOT_NM2, Sundries, drying_days, sundries
from store.trade.build.sheets import LENGTHS_NM, SHEET_NM, WIDE_SHEET_NM, Boarded, CannotBoard, board
from store.trade.measured.plane import Rect

USUAL_LONGEST_NM = 12 * FOOT_NM
METRIC_SHEET_NM = 1200 * MM_NM
METRIC_LENGTHS_NM = tuple(mm * MM_NM for mm in (2400, 2700, 3000))
BACKER_FT2 = 15
"""A sheet of cement board or tile backer, 3 x 5 ft: makers, from memory (high)."""
BACKER_MORE = 1.10
"""Bought over its face: common practice."""
WIDE_WALL_NM = 97 * INCH_NM
"""Above this two courses of 48 in do not reach, and 54 in sheets are tried."""


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


@of_each(Wall)
def boards(job: Job, wall: Wall) -> Boards | None:
    """Every wall whose size and studs are known. None where no sheet can be joined on its studs."""
    on = walls(job).get(wall.tag)
    if on is None or on.width_nm is None or on.height_nm is None or not on.studs or too_large(on):
        return None
    longest = USUAL_LONGEST_NM if job.settings.longest_sheet is None else job.settings.longest_sheet.nm
    holes = tuple(each.rect for each in on.openings)
    laid = _board(
        on.width_nm, on.height_nm, tuple(one.centre_nm for one in on.studs), holes, longest, job.settings.metric
    )
    if laid is None:
        return None
    bare = [each.rect for each in on.openings if _bare(job, each.tag)]
    bead = sum(2 * (rect.width_nm + rect.height_nm) for rect in bare)
    joints = laid.tapered_nm + laid.butt_nm + 2 * on.height_nm + on.width_nm
    return Boards(
        wall,
        laid,
        sundries(laid.bought_nm2, joints, bead, wall.spacing.nm),
        bead,
        ceil(_backed_ft2(job, wall) * BACKER_MORE / BACKER_FT2 - 1e-9),
        _backed_ft2(job, wall),
        COATS[int(wall.level)],
        _drying(job),
    )


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
    width: int, height: int, centres: tuple[int, ...], holes: tuple[Rect, ...], longest: int, metric: bool
) -> Boarded | None:
    sheets = (METRIC_SHEET_NM,) if metric else (SHEET_NM, WIDE_SHEET_NM) if height > WIDE_WALL_NM else (SHEET_NM,)
    lengths = METRIC_LENGTHS_NM if metric else LENGTHS_NM
    found = []
    for sheet in sheets:
        try:
            found.append(board(width, height, centres, holes, longest_nm=longest, sheet_nm=sheet, lengths_nm=lengths))
        except (CannotBoard, ValueError):
            continue
    return min(found, key=lambda each: (each.tapered_nm + each.butt_nm, each.bought_nm2), default=None)


def square_feet(nm2: int) -> float:
    """An area in square feet."""
    return nm2 / SQUARE_FOOT_NM2
