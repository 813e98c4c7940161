"""Lumber, drywall, screws and hardware that are still to buy, from the take-offs."""

from __future__ import annotations

from collections.abc import Iterator

from store.measure.money import Money
from store.records.build import Fixing
from store.records.wall import Wall
from store.records.whole import Job
from store.rules.build.boards import Boards, boards
from store.rules.build.cabinets import cabinets
from store.rules.build.coats import to_board
from store.rules.build.framing import framed, lumber, nails_for
from store.rules.build.takeoff_words import section, stock_text
from store.rules.buying.line import Line
from store.rules.core.wording import paired, sized

FRAMING, DRYWALL, HARDWARE = "Framing", "Drywall", "Screws and hardware"
MATERIAL_GROUPS = (FRAMING, DRYWALL, HARDWARE)
FRAMING_PART, DRYWALL_PART, HARDWARE_PART = "framing", "drywall", "hardware"
"""Small parts, as they stand in the walls and openings that they are bought for."""


def _line(
    group: str, what: str, count: int, tag: str, part: str = "", price: Money | None = None, cuts: tuple[str, ...] = ()
) -> Line:
    missing = 0 if price is not None else count
    return Line(f"{group}: {tag} {what}", group, what, count, tag, (tag,), None, price, missing, cuts, part=part)


def materials(job: Job) -> Iterator[Line]:
    """What every wall, fixing and cabinet still wants, walls first."""
    for tag, wall in job.of(Wall).items():
        if FRAMING_PART not in wall.parts:
            yield from _framing(job, tag, wall)
        board = boards(job).get(tag)
        if board is not None and to_board(wall) and DRYWALL_PART not in wall.parts:
            yield from _drywall(job, board)
    for tag, fixing in job.of(Fixing).items():
        if not fixing.bought and fixing.what != "unknown":
            long = f" x {sized(job, fixing.length.nm)}" if fixing.length is not None else ""
            yield _line(HARDWARE, f"{fixing.what}{long}", fixing.count, tag, "", fixing.price)
    for tag, cabinet in cabinets(job).items():
        for what, count in cabinet.hardware if not cabinet.at_hand else ():
            yield _line(HARDWARE, what, count, tag, HARDWARE_PART)


def _framing(job: Job, tag: str, wall: Wall) -> Iterator[Line]:
    one = framed(job).get(tag)
    if one is None or not one.wanted:
        return
    price = wall.lumber_price
    for face, bought in lumber(job, one).items():
        cuts = tuple(
            f"{', '.join(sized(job, each) for each in cut.pieces_nm)}; left {sized(job, cut.left_nm)}"
            for cut in bought.cuts
        )
        what = f"{section(one, face)}: {stock_text(job, bought)}"
        yield _line(FRAMING, what, len(bought.cuts), tag, FRAMING_PART, price, cuts)
        price = Money(0) if price is not None else None
    for size, count in nails_for(one).items():
        yield _line(FRAMING, f"nails {size}", count, tag, FRAMING_PART, Money(0) if wall.lumber_price else None)


def _drywall(job: Job, one: Boards) -> Iterator[Line]:
    tag, goes, price = one.wall.tag, one.sundries, one.wall.drywall_price
    rest = Money(0) if price is not None else None
    for wide, long, count in one.boarded.sheets:
        yield _line(DRYWALL, f"drywall {paired(job, wide, long)}", count, tag, DRYWALL_PART, price)
        price = rest
    if one.backer_sheets:
        yield _line(DRYWALL, "cement board or tile backer, 3 x 5 ft", one.backer_sheets, tag, DRYWALL_PART, rest)
    yield _line(DRYWALL, "drywall screws", goes.screws, tag, DRYWALL_PART, rest)
    if one.coats:
        yield _line(DRYWALL, "joint tape, ft", goes.tape_ft, tag, DRYWALL_PART, rest)
        yield _line(DRYWALL, "joint compound, gal", max(1, round(goes.compound_gal + 0.5)), tag, DRYWALL_PART, rest)
    if goes.bead_ft:
        yield _line(DRYWALL, "corner bead, ft", goes.bead_ft, tag, DRYWALL_PART, rest)
