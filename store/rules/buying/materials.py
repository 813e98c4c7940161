"""Lumber, drywall, screws and hardware that are still to buy, from the take-offs."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from math import ceil

from store.measure.money import Money
from store.measure.numbers import with_unit
from store.records.build import Fixing
from store.records.equipment import Equipment
from store.records.fan import read_point
from store.records.wall import Opening, Wall
from store.records.whole import Job
from store.rules.build.boards import BACKER, Boards, boards, zones_of
from store.rules.build.cabinets import cabinets
from store.rules.build.channels import channels
from store.rules.build.framing import fasteners, framed, lumber
from store.rules.build.sheet_goods import BOARDS_PART, goods
from store.rules.build.takeoff_words import (
    LITRES_A_GALLON,
    backer_size,
    from_text,
    mesh_ft,
    metres_up,
    section,
    stock_text,
)
from store.rules.buying.line import Line
from store.rules.core.wording import paired, plural, sized
from store.rules.wall.contents import CLOSED
from store.trade.build.channel import Channel
from store.trade.build.panels import METRIC_SHEET_NM, SHEET_NM
from store.trade.heat.enclosure import M3H_PER_CFM

FRAMING, DRYWALL, HARDWARE = "Framing", "Drywall", "Screws and hardware"
MATERIAL_GROUPS = (FRAMING, DRYWALL, HARDWARE)
FRAMING_PART, DRYWALL_PART, HARDWARE_PART, CHANNEL_PART = "framing", "drywall", "hardware", "channel"
FAN_PART, VENT_PART = "fan", "vents"
"""Small parts, as they stand in the walls and openings that they are bought for."""


def _line(
    group: str, what: str, count: int, tag: str, part: str = "", price: Money | None = None, cuts: tuple[str, ...] = ()
) -> Line:
    missing = 0 if price is not None else count
    return Line(f"{group}: {tag} {what}", group, what, count, tag, (tag,), None, price, missing, cuts, part=part)


def _with_it(group: str, what: str, count: int, tag: str, part: str, priced: bool) -> Line:
    """What is in the price of the wall's other lines; with no price entered it has none either."""
    note, unpriced = (f"in the price of {group.lower()}", 0) if priced else ("", count)
    key = f"{group}: {tag} {what}"
    return Line(key, group, what, count, tag, (tag,), unpriced=unpriced, note=note, part=part)


def materials(job: Job) -> Iterator[Line]:
    """What every wall, fixing and cabinet still wants, walls first."""
    for tag, wall in job.of(Wall).items():
        if FRAMING_PART not in wall.parts:
            yield from _framing(job, tag, wall)
        board = boards(job).get(tag)
        if board is not None and DRYWALL_PART not in wall.parts:
            yield from _drywall(job, board)
    for tag, fixing in job.of(Fixing).items():
        if not fixing.bought and fixing.what != "unknown":
            long = f" x {sized(job, fixing.length.nm)}" if fixing.length is not None else ""
            yield _line(HARDWARE, f"{fixing.what}{long}", fixing.count, tag, "", fixing.price)
    for tag, opening in job.of(Opening).items():
        for part, what, count in _air(job, opening):
            yield _line(HARDWARE, what, count, tag, part)
    yield from _cabinets(job)
    for tag, run in channels(job).items():
        yield from _channel(job, job.of(Equipment)[tag], run)


def _cabinets(job: Job) -> Iterator[Line]:
    """Sheets for the boards of all cabinets and shelves, and the hinges and slides of each."""
    paid: set[str] = set()
    sheet = METRIC_SHEET_NM if job.settings.metric else SHEET_NM
    for one in goods(job):
        records = [job.of(Opening)[tag] for tag in one.openings]
        new = [each for each in records if each.price is not None and each.tag not in paid]
        paid.update(each.tag for each in new)
        count = len(one.laid.sheets)
        total = Money(sum(each.price for each in new if each.price is not None)) if new else None
        what = f"{one.material} {sized(job, one.thick_nm)}, sheet {paired(job, sheet[1], sheet[0])}"
        large = f"{plural(len(one.laid.too_large), 'piece')} larger than a sheet" if one.laid.too_large else ""
        unpriced = 0 if all(each.price is not None for each in records) else count
        cuts = tuple("; ".join(paired(job, wide, long) for long, wide in each) for each in one.laid.by_sheet())
        if count or large:
            key, tags = f"{HARDWARE}: {what}", one.openings
            yield Line(
                key, HARDWARE, what, count, ", ".join(tags), tags, None, total, unpriced, cuts, note=large,
                part=BOARDS_PART,
            )  # fmt: skip
    for tag, cabinet in cabinets(job).items():
        priced = job.of(Opening)[tag].price is not None
        for what, count in cabinet.hardware if not cabinet.at_hand else ():
            note, unpriced = (f"in the price of {tag}", 0) if priced else ("", count)
            key = f"{HARDWARE}: {tag} {what}"
            yield Line(key, HARDWARE, what, count, tag, (tag,), unpriced=unpriced, note=note, part=HARDWARE_PART)


def _channel(job: Job, one: Equipment, run: Channel) -> Iterator[Line]:
    """The channel of a light: bought with it, and in its price where that is entered."""
    if CHANNEL_PART in one.parts or one.state == "owned":
        return
    connectors = run.corners if one.joined == "corner connectors" else 0
    found = {
        f"light channel {sized(job, run.stock_nm)}": run.lengths,
        "channel corner connector": connectors,
        "channel end cap": run.caps,
    }
    for what, count in found.items():
        if count:
            note, unpriced = (f"in the price of {one.tag}", 0) if one.price is not None else ("", count)
            yield Line(
                f"{HARDWARE}: {one.tag} {what}",
                HARDWARE,
                what,
                count,
                one.tag,
                (one.tag,),
                unpriced=unpriced,
                note=note,
            )


def _air(job: Job, opening: Opening) -> Iterator[tuple[str, str, int]]:
    """The fan and the vents that a closed opening is planned with: the part, what it is, and how many."""
    metric = job.settings.metric
    points = [point for text in opening.fan_curve if (point := read_point(text, metric)) is not None]
    cfm = opening.fan or max((flow for flow, _ in points), default=None)
    if cfm and FAN_PART not in opening.parts:
        flow = with_unit(round(cfm * M3H_PER_CFM if metric else cfm), "m³/h" if metric else "cfm")
        yield FAN_PART, f"cabinet fan, {flow}", 1
    if opening.door not in CLOSED or VENT_PART in opening.parts:
        return
    sizes = [area for area in (opening.air_in, opening.air_out) if area]
    for area in dict.fromkeys(sizes):
        said = with_unit(round(area * 2.54**2 if metric else area), "cm²" if metric else "in²")
        yield VENT_PART, f"vent, {said} free", sizes.count(area)


def _framing(job: Job, tag: str, wall: Wall) -> Iterator[Line]:
    one = framed(job).get(tag)
    if one is None or not one.wanted:
        return
    priced = wall.lumber_price is not None
    for number, (face, bought) in enumerate(lumber(job, one).items()):
        cuts = tuple(
            f"{from_text(job, cut, count)}: {' + '.join(sized(job, each) for each in cut.pieces_nm)} "
            f"({sized(job, cut.left_nm)} left)"
            for cut, count in Counter(bought.cuts).items()
        )
        what, count = f"{section(job, one, face)}: {stock_text(job, bought)}", len(bought.cuts)
        if priced and number:
            yield _with_it(FRAMING, what, count, tag, FRAMING_PART, priced)
        else:
            yield _line(FRAMING, what, count, tag, FRAMING_PART, wall.lumber_price, cuts)
    for name, count, _ in fasteners(one):
        yield _with_it(FRAMING, name, count, tag, FRAMING_PART, priced)


def _drywall(job: Job, one: Boards) -> Iterator[Line]:
    tag, goes, priced = one.wall.tag, one.sundries, one.wall.drywall_price is not None
    for number, (wide, long, count) in enumerate(one.boarded.sheets):
        what = f"drywall {paired(job, wide, long)}, {sized(job, job.settings.finish.nm)}"
        if priced and number:
            yield _with_it(DRYWALL, what, count, tag, DRYWALL_PART, priced)
        else:
            yield _line(DRYWALL, what, count, tag, DRYWALL_PART, one.wall.drywall_price)
    metric = job.settings.metric
    run = "m" if metric else "ft"
    compound = ceil(goes.compound_gal * LITRES_A_GALLON) if metric else ceil(goes.compound_gal)
    plywood = (BACKER["plywood", metric][0], BACKER["plywood", metric][1][0])
    rest = {
        f"cement board or tile backer, {backer_size(job)}": one.backer_sheets,
        f"plywood, {paired(job, *plywood)}": one.plywood_sheets,
        f"screws for {' and '.join(sorted({each.sheets for each in zones_of(one)}))}": one.backer_screws,
        f"alkali-resistant mesh tape, {run}": metres_up(mesh_ft(one)) if metric else mesh_ft(one),
        "drywall screws": goes.screws,
        f"joint tape, {run}": (metres_up(goes.tape_ft) if metric else goes.tape_ft) if one.coats else 0,
        f"joint compound, {'L' if metric else 'gal'}": compound if one.coats else 0,
        f"corner bead, {run}": metres_up(goes.bead_ft) if metric else goes.bead_ft,
    }
    told = bool(one.boarded.sheets)
    for what, count in rest.items():
        if count and priced and not told:  # the price stands on the first line that there is
            yield _line(DRYWALL, what, count, tag, DRYWALL_PART, one.wall.drywall_price)
        elif count:
            yield _with_it(DRYWALL, what, count, tag, DRYWALL_PART, priced)
        told = told or bool(count)
