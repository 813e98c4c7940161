"""The take-offs of a wall in words: sticks, lumber, sheets and coats, for screen and paper."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from store.measure.length import FOOT_NM, INCH_NM, MM_NM
from store.records.whole import Job
from store.rules.build.boards import Boards, square_feet
from store.rules.build.framing import Framed, counted, feet_text, lumber, nails_for
from store.rules.core.wording import listed, plural, said, sized
from store.trade.build.finish import HANDBOOK, SQUARE_FOOT_NM2
from store.trade.build.lumber import NAIL_SOURCE, Bought

TWO_BY = {3: "2x4", 5: "2x6", 7: "2x8", 9: "2x10", 11: "2x12"}
ASK = (
    "A licensed person decides what is load-bearing, the size of a header and of its posts, and the floor under a "
    "heavy wall."
)


LITRES_A_GALLON = 3.785411784
"""A US liquid gallon is 231 in³ exactly (NIST Handbook 44, Appendix C)."""
METRE_NM = 1000 * MM_NM


def section(one: Framed, face_nm: int) -> str:
    """`2x4`, `2x6 on edge`, or steel stud and track."""
    deep = face_nm or one.wall.stud_depth.nm
    size = TWO_BY.get(deep // INCH_NM, "")
    if one.steel and not face_nm:
        return f"{one.steel} stud or track"
    return size or "lumber"


def stick_lines(job: Job, one: Framed) -> Iterator[str]:
    """Each part with number and length; what nobody sized says so."""
    for (part, length), count in counted(one.all).items():
        pieces = f"{plural(count, 'piece')} of blocking" if part == "blocking" else plural(count, part)
        yield f"{pieces}, {sized(job, length)}"
    for tag in one.laid_out:
        yield f"studs of {tag}: laid out from its left end, as no stud of it is entered"
    for tag in one.unsized:
        yield f"header over {tag}: size from a licensed person or IRC R602.7"


def lumber_lines(job: Job, one: Framed) -> Iterator[str]:
    """What is bought of each section, and what is cut from each length."""
    for face, bought in lumber(job, one).items():
        yield f"{section(one, face)}: {stock_text(job, bought)}"
        for cut in bought.cuts:
            pieces = listed([sized(job, each) for each in cut.pieces_nm])
            yield f"  from {_stock(job, cut.stock_nm)}: {pieces}; left {sized(job, cut.left_nm)}"
        if not bought.proved:
            bound = f": at least {_stock(job, bought.least_nm)} is needed" if bought.least_nm else ""
            yield f"  a good choice; a slightly shorter one may exist{bound}"
    for size, count in nails_for(one).items():
        yield f"{count} nails {size}, by {NAIL_SOURCE}"
    yield ASK


def stock_text(job: Job, bought: Bought) -> str:
    """`9 x 8 ft, 2 x 12 ft`."""
    return ", ".join(f"{count} x {_stock(job, each)}" for each, count in bought.counts.items())


def _stock(job: Job, nm: int) -> str:
    return said(job, nm) if job.settings.metric else feet_text(nm)


def sheet_text(job: Job, one: Boards) -> list[str]:
    """`3 sheets 4'-0" x 12'-0"`."""
    return [
        f"{plural(count, 'sheet')} {said(job, wide)} x {said(job, long)}" for wide, long, count in one.boarded.sheets
    ]


def board_lines(job: Job, one: Boards) -> Iterator[str]:
    """Sheets, joints, waste and what goes on them."""
    made = one.boarded
    way = "level, long side across the studs" if made.level else "upright"
    yield f"{listed(sheet_text(job, one))}, laid {way}"
    for piece in made.pieces:
        rect = piece.rect
        yield f"  {said(job, rect.width_nm)} x {said(job, rect.height_nm)} at {said(job, rect.x_nm)}"
    for side in one.sides:
        yield f"  {side.name} of {side.out}: {said(job, side.wide_nm)} x {said(job, side.long_nm)}"
    yield f"joints: {said(job, made.tapered_nm)} tapered, {said(job, made.butt_nm)} butt"
    face, bought = area_text(job, made.face_nm2), area_text(job, made.bought_nm2)
    yield f"face {face}, bought {bought}, waste {made.waste:.0%}"
    goes = one.sundries
    tape, compound = run_text(job, goes.tape_ft), compound_text(job, goes.compound_gal)
    yield f"{goes.screws} screws, {tape} of tape, {compound} of compound ({HANDBOOK.source})"
    if one.bead_nm:
        yield f"{run_text(job, goes.bead_ft)} of corner bead"
    if one.backer_sheets:
        backer, covers = plural(one.backer_sheets, "sheet"), area_text(job, round(one.backed_ft2 * SQUARE_FOOT_NM2))
        yield f"{backer} of cement board or tile backer, {backer_size(job)}, for {covers}"


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
