"""The take-offs of a wall in words: sticks, lumber, sheets and coats, for screen and paper."""

from __future__ import annotations

from collections.abc import Iterator

from store.measure.length import INCH_NM
from store.records.whole import Job
from store.rules.build.boards import Boards, square_feet
from store.rules.build.framing import Framed, counted, feet_text, lumber, nails_for
from store.rules.core.wording import listed, plural, said, sized
from store.trade.build.finish import HANDBOOK
from store.trade.build.lumber import NAIL_SOURCE, Bought

TWO_BY = {3: "2x4", 5: "2x6", 7: "2x8", 9: "2x10", 11: "2x12"}
ASK = (
    "A licensed person decides what is load-bearing, the size of a header and of its posts, and the floor under a "
    "heavy wall."
)


def section(one: Framed, face_nm: int) -> str:
    """`2x4`, `2x6 on edge`, or steel stud and track."""
    deep = face_nm or one.wall.stud_depth.nm
    size = TWO_BY.get(deep // INCH_NM, "")
    if one.steel and not face_nm:
        return f"{one.steel} stud or track"
    return size or "lumber"


def stick_lines(job: Job, one: Framed) -> Iterator[str]:
    """Each part with number and length; what nobody sized says so."""
    for (part, length), count in counted(one.sticks).items():
        yield f"{plural(count, part)}, {sized(job, length)}"
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
            yield f"  a good choice, not proved to be the least{bound}"
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
    yield f"joints: {said(job, made.tapered_nm)} along edges, {said(job, made.butt_nm)} across ends"
    face, bought = square_feet(made.face_nm2), square_feet(made.bought_nm2)
    yield f"face {face:.0f} ft², bought {bought:.0f}, waste {made.waste:.0%}"
    goes = one.sundries
    yield f"{goes.screws} screws, {goes.tape_ft} ft of tape, {goes.compound_gal:g} gal of compound ({HANDBOOK.source})"
    if one.bead_nm:
        yield f"{goes.bead_ft} ft of corner bead"
    if one.backer_sheets:
        backer = plural(one.backer_sheets, "sheet")
        yield f"{backer} of cement board or tile backer, 3 x 5 ft, for {one.backed_ft2:.0f} ft²"


def coat_lines(one: Boards) -> Iterator[str]:
    """The coats of its finish level, each with the days it dries."""
    days = f"dries {plural(one.coat_days, 'day')}" if one.coat_days else "too cold or damp: don't coat"
    yield f"finish level {one.wall.level}: {plural(len(one.coats), 'coat')}"
    for coat in one.coats:
        yield f"  {coat}; {days}"
