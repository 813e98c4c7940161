"""The take-offs of a wall in words: sticks, lumber, sheets and coats, for screen and paper."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from math import ceil

from store.measure.length import FOOT_NM, INCH_NM, MM_NM
from store.records.whole import Job
from store.rules.build.boards import BACKER, Boards, Faced, square_feet, zones_of
from store.rules.build.framing import TRACK, Framed, counted, fasteners, feet_text, lumber
from store.rules.build.way_in import sheet_way_lines, stick_way_line
from store.rules.core.wording import listed, paired, plural, said, sized
from store.trade.build.finish import BACKER_SCREWS_NM, BACKER_SOURCE, HANDBOOK, SQUARE_FOOT_NM2
from store.trade.build.lumber import Bought, Cut
from store.trade.build.sheets import SHEET_NM

ONE_BY = {1: "1x2", 2: "1x3", 3: "1x4", 5: "1x6"}
TWO_BY = {1: "2x2", 2: "2x3", 3: "2x4", 5: "2x6", 7: "2x8", 9: "2x10", 11: "2x12"}
ASK = (
    "A licensed person decides what is load-bearing, the size of a header and of its posts, and the floor under a "
    "heavy wall."
)
ASK_BOARD = (
    "The building department decides whether a wall is fire-rated and what board and screws it takes; the drywall "
    "crew, the finish that its light needs."
)


LITRES_A_GALLON = 3.785411784
"""A US liquid gallon is 231 in³ exactly (NIST Handbook 44, Appendix C)."""
METRE_NM = 1000 * MM_NM


def section(job: Job, one: Framed, face_nm: int) -> str:
    """`2x4`, `1x3`, `38 x 89 mm`, or steel stud or track."""
    if one.steel and face_nm in (0, TRACK):
        return f"{one.steel} {'stud' if face_nm == 0 else 'track'}"
    deep, wide = (face_nm if face_nm > 0 else one.wall.stud_depth.nm), one.wall.stud_width.nm
    if job.settings.metric:
        return paired(job, wide, deep)
    # A strip laid flat: its face is what the board is screwed to.
    thin, other = min(deep, wide), max(deep, wide)
    return ONE_BY.get(other // INCH_NM, "lumber") if thin < INCH_NM else TWO_BY.get(deep // INCH_NM, "lumber")


STEEL_NAMES = {"bottom plate": "bottom track", "top plate": "top track", "header": "header track", "sill": "sill track"}


def part_name(one: Framed, part: str) -> str:
    """A part as it is called in this wall: of steel the plates are track, of thin furring the studs are strips."""
    if one.steel:
        return STEEL_NAMES.get(part, part)
    return "furring strip" if one.flat and part == "stud" else part


def stick_lines(job: Job, one: Framed) -> Iterator[str]:
    """Each part with number and length; what nobody sized says so."""
    for (part, length), count in counted(one.all).items():
        pieces = f"{plural(count, 'piece')} of blocking" if part == "blocking" else plural(count, part_name(one, part))
        yield f"{pieces}, {sized(job, length)}"
    for tag in one.laid_out:
        yield f"studs of {tag}: laid out from its left end, as no stud of it is entered"
    for tag in one.unsized:
        yield f"header over {tag}: size from a licensed person or IRC R602.7"


def lumber_lines(job: Job, one: Framed) -> Iterator[str]:
    """What is bought of each section, and what is cut from each length."""
    found = lumber(job, one)
    for face, bought in found.items():
        yield f"{section(job, one, face)}: {stock_text(job, bought)}"
        for cut, count in Counter(bought.cuts).items():
            pieces = listed([sized(job, each) for each in cut.pieces_nm])
            yield f"  from {from_text(job, cut, count)}: {pieces}; left {sized(job, cut.left_nm)}"
        if not bought.proved:
            bound = f": at least {_stock(job, bought.least_nm)} is needed" if bought.least_nm else ""
            yield f"  a good choice; a slightly shorter one may exist{bound}"
    if (way := stick_way_line(job, max((nm for each in found.values() for nm in each.counts), default=0))) and found:
        yield way
    for what, count, source in fasteners(one):
        yield f"{count} {what}, by {source}"
    yield ASK


def stock_text(job: Job, bought: Bought) -> str:
    """`9 x 8 ft, 2 x 12 ft`."""
    return ", ".join(f"{count} x {_stock(job, each)}" for each, count in bought.counts.items())


def from_text(job: Job, cut: Cut, count: int) -> str:
    """What a cut, or several that are alike, comes from: `8 ft`, `each of 3 x 8 ft`."""
    stock = _stock(job, cut.stock_nm)
    return stock if count == 1 else f"each of {count} x {stock}"


def _stock(job: Job, nm: int) -> str:
    return said(job, nm) if job.settings.metric else feet_text(nm)


def sheet_text(job: Job, one: Boards) -> list[str]:
    """`3 sheets 4'-0" x 12'-0"`."""
    return [
        f"{plural(count, 'sheet')} {said(job, wide)} x {said(job, long)}" for wide, long, count in one.boarded.sheets
    ]


def board_lines(job: Job, one: Boards) -> Iterator[str]:
    """Sheets, face by face, joints, waste and what goes on them; then the zones with sheets of their own."""
    made = one.boarded
    if made.sheets:
        yield f"drywall {sized(job, job.settings.finish.nm)}: {listed(sheet_text(job, one))}"
    if made.sheets or any(face.cannot for face in one.faces):
        yield from sheet_way_lines(job, max((wide for wide, _, _ in made.sheets), default=SHEET_NM))
    for face in one.faces:
        yield from _face_lines(job, face)
    if made.sheets:
        yield f"joints: {said(job, made.tapered_nm)} tapered, {said(job, made.butt_nm)} butt"
        area, bought = area_text(job, made.face_nm2), area_text(job, made.bought_nm2)
        yield f"face {area}, bought {bought}, waste {made.waste:.0%}"
        yield _rates(job, one)
    if one.bead_nm:
        yield f"{run_text(job, one.sundries.bead_ft)} of corner bead"
    yield from _zone_lines(job, one)
    yield ASK_BOARD


def _face_lines(job: Job, face: Faced) -> Iterator[str]:
    if face.cannot:
        yield f"{face.cover.name}: {face.cannot}. Enter a stud or a longer sheet."
    if face.boarded is None:
        return
    way = "level, long side across the studs" if face.boarded.level else "upright"
    yield f"{face.cover.name}: laid {way}"
    for piece in face.boarded.pieces:
        rect = piece.rect
        place = f"{said(job, rect.x_nm)}, {said(job, rect.y_nm)} up"
        yield f"  {said(job, rect.width_nm)} x {said(job, rect.height_nm)} at {place}"


def _rates(job: Job, one: Boards) -> str:
    goes = one.sundries
    if not one.coats:
        return f"{goes.screws} screws ({HANDBOOK.source}); level 0 has no tape and no compound"
    tape, compound = run_text(job, goes.tape_ft), compound_text(job, goes.compound_gal)
    skim = "; the skim coat of level 5 is not in it" if one.wall.level == "5" else ""
    return f"{goes.screws} screws, {tape} of tape, {compound} of compound ({HANDBOOK.source}{skim})"


def _zone_lines(job: Job, one: Boards) -> Iterator[str]:
    """What goes in place of drywall, zone by zone, and what holds it."""
    for each in zones_of(one):
        laid = each.boarded
        pieces = plural(len(laid.pieces), "piece") if laid is not None else "joints need framing"
        sheet = _sheet_of(job, each.sheets)
        yield f"{each.zone} on {each.face}: {each.sheets} {sheet}, {pieces}, {area_text(job, each.area_nm2)}"
        for piece in laid.pieces if laid is not None else ():
            rect = piece.rect
            place = f"{said(job, rect.x_nm)}, {said(job, rect.y_nm)} up from its corner"
            yield f"  {said(job, rect.width_nm)} x {said(job, rect.height_nm)} at {place}"
        yield "  framing behind every edge of it, where it meets the drywall"
    if one.backer_sheets:
        backer, covers = plural(one.backer_sheets, "sheet"), area_text(job, round(one.backed_ft2 * SQUARE_FOOT_NM2))
        whole = "" if one.placed else "; no zone says where, so the drywall is not less for it"
        yield f"{backer} of cement board or tile backer, {backer_size(job)}, for {covers}{whole}"
    if one.plywood_sheets:
        yield f"{plural(one.plywood_sheets, 'sheet')} of plywood, {_sheet_of(job, 'plywood')}"
    if one.backer_screws:
        yield f"{one.backer_screws} screws for these, {sized(job, BACKER_SCREWS_NM)} apart ({BACKER_SOURCE})"
    if one.mesh_nm:
        yield f"{run_text(job, mesh_ft(one))} of alkali-resistant mesh tape for its joints"


def mesh_ft(one: Boards) -> int:
    """Mesh tape for cement board, whole feet."""
    return ceil(one.mesh_nm / FOOT_NM - 1e-9)


def _sheet_of(job: Job, kind: str) -> str:
    wide, lengths = BACKER[kind, job.settings.metric]
    return paired(job, wide, lengths[0])


def area_text(job: Job, square_nm: int) -> str:
    """`116 ft²`, or `10.8 m²`."""
    return f"{square_nm / 1e18:.1f} m²" if job.settings.metric else f"{square_feet(square_nm):.0f} ft²"


def run_text(job: Job, feet: int) -> str:
    """What is sold by the run: `46 ft`, or `15 m`, rounded up."""
    return f"{metres_up(feet)} m" if job.settings.metric else f"{feet} ft"


def metres_up(feet: int) -> int:
    """Whole meters that are no less than so many feet."""
    return ceil(feet * FOOT_NM / METRE_NM)


def compound_text(job: Job, gallons: float) -> str:
    """`1.2 gal`, or `4.5 L`."""
    return f"{gallons * LITRES_A_GALLON:.1f} L" if job.settings.metric else f"{gallons:g} gal"


def backer_size(job: Job) -> str:
    """The size that cement board is sold in: makers, from memory."""
    return "900 x 1500 mm" if job.settings.metric else "3 x 5 ft"


def coat_lines(one: Boards) -> Iterator[str]:
    """The coats of its finish level, each with the days it dries."""
    days = f"dries {plural(one.coat_days, 'day')}" if one.coat_days else "too cold or damp: don't coat"
    yield f"finish level {one.wall.level}: {plural(len(one.coats), 'coat')}"
    for coat in one.coats:
        yield f"  {coat}; {days}"
