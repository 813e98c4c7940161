"""The drywall of each wall: its sheets, what goes on the joints, its coats and how long they dry."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache
from math import ceil

import msgspec

from store.measure.length import INCH_NM, MM_NM
from store.records.wall import Wall
from store.records.whole import Job
from store.rules.build.faces import Backed, Cover, covers
from store.rules.build.framing import too_large
from store.rules.build.way_in import way_in
from store.rules.core.keyed import of_each
from store.rules.wall.layout import walls
from store.trade.build.finish import COATS, SQUARE_FOOT_NM2, Sundries, drying_days, screws_on, sundries
from store.trade.build.nest import sheets_for
from store.trade.build.sheets import LENGTHS_NM, SHEET_NM, WIDE_SHEET_NM, Boarded, CannotBoard, Laid, board
from store.trade.measured.plane import Rect
from store.trade.measured.profile import Profile

METRIC_SHEET_NM = 1200 * MM_NM
METRIC_LENGTHS_NM = tuple(mm * MM_NM for mm in (2400, 2700, 3000))
BACKER_FT2 = 15
"""A sheet of cement board or tile backer, 3 x 5 ft: makers, from memory (high)."""
BACKER_MORE = 1.10
"""Bought over its face where no place is entered: common practice."""
BACKER = {
    ("cement board", False): (36 * INCH_NM, (60 * INCH_NM,)),
    ("cement board", True): (900 * MM_NM, (1500 * MM_NM,)),
    ("plywood", False): (48 * INCH_NM, (96 * INCH_NM,)),
    ("plywood", True): (1220 * MM_NM, (2440 * MM_NM,)),
}
"""Width and lengths of the sheets of a zone, by whether the job is metric: makers, from memory (high)."""
WIDE_WALL_NM = 97 * INCH_NM
"""Above this two courses of 48 in do not reach, and 54 in sheets are tried."""


class Other(msgspec.Struct, frozen=True):
    """A zone with sheets of its own."""

    zone: str
    sheets: str
    face: str
    rect: Rect
    """From the lower left corner of its face."""
    boarded: Boarded | None
    """None where its sheets meet on no stud."""
    area_nm2: int


class Faced(msgspec.Struct, frozen=True):
    """One face with its sheets."""

    cover: Cover
    boarded: Boarded | None
    """Of drywall; None where it gets none, or where it cannot be laid."""
    cannot: str
    """Why it cannot be laid; empty where it can or gets none."""
    others: tuple[Other, ...]


class Boards(msgspec.Struct, frozen=True):
    """The take-off of one wall with its build-outs."""

    wall: Wall
    faces: tuple[Faced, ...]
    boarded: Boarded
    """All faces as one to be bought; its pieces are those that are seen from the front."""
    sundries: Sundries
    bead_nm: int
    """Outside corners: the returns of bare framed openings, of the wall and of its build-outs."""
    backer_sheets: int
    backed_ft2: float
    """Face that wants cement board or tile backer."""
    plywood_sheets: int
    backer_screws: int
    mesh_nm: int
    """Joints of cement board, with those round it."""
    placed: bool
    """Whether the backer is by the places of zones; else by the figure that was entered on the wall."""
    coats: tuple[str, ...]
    coat_days: int | None
    """Days that one coat dries; None where no coat should go on in such air."""


@of_each(Wall)
def boards(job: Job, wall: Wall) -> Boards | None:
    """Every wall with a face that gets drywall or the sheets of a zone, and whose size and studs are known."""
    on = walls(job).get(wall.tag)
    if on is None or too_large(on):
        return None
    found = min(
        (tuple(_faced(job, each, wide) for each in covers(job, wall)) for wide in _widths(job, wall)), key=_cost
    )
    faces = tuple(each for each in found if each.boarded is not None or each.cannot or each.others)
    backed = _backed_ft2(wall, faces)
    if not faces and not backed:
        return None
    whole = _together(job, [each for each in faces if each.boarded is not None])
    bead, joints = _bead(wall, faces), whole.tapered_nm + whole.butt_nm + _corners(wall, faces)
    laid = [each for face in faces for each in face.others]
    cement = [each for each in laid if each.sheets == "cement board"]
    goes = sundries(whole.bought_nm2, joints, bead, wall.spacing.nm)
    if wall.level == "0":
        goes = goes._replace(tape_ft=0, compound_gal=0.0)
    return Boards(
        wall,
        faces,
        whole,
        goes,
        bead,
        _sheets(job, cement, "cement board", backed),
        backed,
        _sheets(job, [each for each in laid if each.sheets == "plywood"], "plywood", 0.0),
        sum(screws_on(each.rect.width_nm, each.rect.height_nm, wall.spacing.nm) for each in laid),
        sum(_mesh(each) for each in cement),
        bool(cement),
        COATS[int(wall.level)] if whole.pieces or whole.cuts else (),
        _drying(job),
    )


def _widths(job: Job, wall: Wall) -> tuple[int, ...]:
    if job.settings.metric:
        return (METRIC_SHEET_NM,)
    high = max((each.at.height_nm for each in covers(job, wall) if each.shown), default=0)
    most = way_in(job).widest_nm
    wide = high > WIDE_WALL_NM and (most is None or most >= WIDE_SHEET_NM)
    return (SHEET_NM, WIDE_SHEET_NM) if wide else (SHEET_NM,)


def _cost(faces: Sequence[Faced]) -> tuple[int, int, int]:
    """What cannot be laid, then joints, then what is bought."""
    laid = [each.boarded for each in faces if each.boarded is not None]
    return (
        sum(bool(each.cannot) for each in faces),
        sum(each.tapered_nm + each.butt_nm for each in laid),
        sum(each.bought_nm2 for each in laid),
    )


def _faced(job: Job, cover: Cover, sheet: int) -> Faced:
    others = tuple(_other(job, cover, at) for at in range(len(cover.backed)))
    others = tuple(each for each in others if each.sheets != "masonry" and each.area_nm2 > 0)
    if not cover.hung or cover.at.width_nm <= 0:
        return Faced(cover, None, "", others)
    gone = (*cover.gone, *(each.rect for each in cover.backed))
    lengths = METRIC_LENGTHS_NM if job.settings.metric else LENGTHS_NM
    found = _board(
        cover.at.width_nm, cover.at.height_nm, cover.centres, cover.holes, gone, way_in(job).longest_nm, sheet, lengths,
        cover.under,
    )  # fmt: skip
    if isinstance(found, str):
        return Faced(cover, None, found, others)
    return Faced(cover, found if found.pieces else None, "", others)


def _other(job: Job, cover: Cover, at: int) -> Other:
    """The sheets of a zone: on the studs behind it, less openings, smaller zones in it and what hides it."""
    zone = cover.backed[at]
    left, low = zone.rect.x_nm, zone.rect.y_nm
    there = [*cover.gone, *(each.rect for each in cover.backed[:at])]
    gone, holes = (
        tuple(Rect(each.x_nm - left, each.y_nm - low, each.width_nm, each.height_nm) for each in rects)
        for rects in (there, cover.holes)
    )
    sheet, lengths = BACKER.get((zone.sheets, job.settings.metric), (SHEET_NM, (96 * INCH_NM,)))
    centres = tuple(each - left for each in cover.centres if 0 < each - left < zone.rect.width_nm)
    over = None
    if cover.under is not None:
        right = left + zone.rect.width_nm
        over = Profile(tuple((x - left, y - low) for x, y in cover.under.corners(left, right)))
    found = _board(zone.rect.width_nm, zone.rect.height_nm, centres, holes, gone, lengths[-1], sheet, lengths, over)
    laid = None if isinstance(found, str) else found
    area = laid.face_nm2 if laid is not None else zone.rect.width_nm * zone.rect.height_nm
    return Other(zone.zone, zone.sheets, cover.name, zone.rect, laid, area)


@lru_cache(512)
def _board(
    width: int, height: int, centres: tuple[int, ...], holes: tuple[Rect, ...], gone: tuple[Rect, ...], most: int,
    sheet: int, lengths: tuple[int, ...], ceiling: Profile | None,
) -> Boarded | str:  # fmt: skip
    try:
        return board(
            width, height, centres, holes, gone=gone, ceiling=ceiling, longest_nm=most, sheet_nm=sheet,
            lengths_nm=lengths,
        )  # fmt: skip
    except (CannotBoard, ValueError) as error:
        return str(error)


def _together(job: Job, faces: Sequence[Faced]) -> Boarded:
    """Several faces as one to be bought: what is left of a sheet serves on the next face."""
    laid = [(each.cover, each.boarded) for each in faces if each.boarded is not None]
    pieces = tuple(
        Laid(Rect(one.rect.x_nm + cover.at.x_nm, one.rect.y_nm + cover.at.y_nm, one.rect.width_nm, one.rect.height_nm))
        for cover, each in laid
        if cover.shown
        for one in each.pieces
    )
    cuts = tuple(cut for _, each in laid for cut in each.cuts)
    wide = next((sheet for _, each in laid for sheet, _, _ in each.sheets), SHEET_NM)
    lengths = METRIC_LENGTHS_NM if job.settings.metric else LENGTHS_NM
    sheets = sheets_for(cuts, wide, [each for each in lengths if each <= way_in(job).longest_nm])
    return Boarded(
        pieces,
        laid[0][1].level if laid else True,
        tuple((wide, long, count) for long, count in sheets.items()),
        sum(each.tapered_nm for _, each in laid),
        sum(each.butt_nm for _, each in laid),
        sum(each.face_nm2 for _, each in laid),
        sum(wide * long * count for long, count in sheets.items()),
        cuts,
    )


def _bead(wall: Wall, faces: Iterable[Faced]) -> int:
    """Outside corners: of bare openings, of the wall's ends, and of build-outs where two boarded faces meet."""
    hung = [each for each in faces if each.boarded is not None]
    found = 0
    for each in hung:
        found += sum(_round(rect, each.cover.at) for rect in each.cover.beaded)
        if each.cover.side == "wall":
            # The corner that two walls share is counted with the one whose left end it is.
            ends = [wall.left_corner, "inside" if wall.meets_right else wall.right_corner]
            found += each.cover.at.height_nm * ends.count("outside")
        elif each.cover.side in ("left return", "right return"):
            found += each.cover.at.height_nm
        elif each.cover.side in ("underside", "top"):
            ends_open = sum(one.cover.out == each.cover.out and "return" in one.cover.side for one in hung)
            found += each.cover.at.width_nm + ends_open * each.cover.at.height_nm
    return found


def _round(rect: Rect, at: Rect) -> int:
    """The edges of an opening within its face: none along the floor or where it ends with the face."""
    left, right = max(0, rect.x_nm), min(at.width_nm, rect.right_nm)
    low, high = max(0, rect.y_nm), min(at.height_nm, rect.top_nm)
    if right <= left or high <= low:
        return 0
    sides = (rect.x_nm > 0) + (rect.right_nm < at.width_nm)
    ends = (rect.y_nm > 0) + (rect.top_nm < at.height_nm)
    return sides * (high - low) + ends * (right - left)


def _corners(wall: Wall, faces: Iterable[Faced]) -> int:
    """Inside corners that are taped: at the ends of a wall, along the ceiling, and where a build-out meets the wall."""
    found = 0
    for each in faces:
        at, side = each.cover.at, each.cover.side
        if each.boarded is None:
            continue
        if side == "wall":
            found += at.width_nm + at.height_nm * [wall.left_corner, wall.right_corner].count("inside")
        elif side in ("left return", "right return"):
            found += at.height_nm + at.width_nm
        elif side in ("underside", "top"):
            found += at.width_nm
    return found


def _mesh(one: Other) -> int:
    joints = one.boarded.tapered_nm + one.boarded.butt_nm if one.boarded is not None else 0
    return joints + 2 * (one.rect.width_nm + one.rect.height_nm)


def _sheets(job: Job, zones: Sequence[Other], kind: str, backed_ft2: float) -> int:
    """Sheets of a kind for all zones: as laid, else by area and a tenth more."""
    wide, lengths = BACKER[kind, job.settings.metric]
    cuts = [cut for each in zones if each.boarded is not None for cut in each.boarded.cuts]
    by_area = sum(each.area_nm2 for each in zones if each.boarded is None)
    if not zones:
        by_area = round(backed_ft2 * SQUARE_FOOT_NM2)
    return sum(sheets_for(cuts, wide, lengths).values()) + ceil(by_area * BACKER_MORE / (wide * lengths[0]) - 1e-9)


def _backed_ft2(wall: Wall, faces: Iterable[Faced]) -> float:
    """Face that wants cement board: of the zones where they are; only without any as entered on the wall."""
    placed = [each.area_nm2 for face in faces for each in face.others if each.sheets == "cement board"]
    if placed:
        return sum(placed) / SQUARE_FOOT_NM2
    return max(0.0, wall.tile or 0.0)


def _drying(job: Job) -> int | None:
    try:
        return drying_days(job.settings.humidity, job.settings.drying_f)
    except ValueError:
        return None


def square_feet(nm2: int) -> float:
    """An area in square feet."""
    return nm2 / SQUARE_FOOT_NM2


def zones_of(one: Boards) -> Sequence[Other]:
    """All zones of a wall with sheets of their own."""
    return [each for face in one.faces for each in face.others]


__all__ = ["BACKER", "Backed", "Boards", "Faced", "Other", "boards", "square_feet", "zones_of"]
