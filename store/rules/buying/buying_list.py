"""What is still to buy, over the whole job: counts, lengths, prices, where each is needed; what is owned is off.

A line that is ticked as bought says so in the records it came from (`bought`): a small part in the record that it is
for.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Iterator

import msgspec

from store.measure.length import INCH_NM, show_length
from store.measure.money import Money
from store.records.base import Record
from store.records.build import Fixing
from store.records.equipment import Equipment
from store.records.wall import Opening, Wall
from store.records.whole import Job
from store.records.wiring import Box, Cable, Raceway
from store.rules.buying.line import Line
from store.rules.buying.materials import MATERIAL_GROUPS, materials
from store.rules.buying.spools import Spools, spools, to_cut
from store.rules.cable.courses import raceway_length
from store.rules.cable.kinds import SHORT, sold_text, step_nm
from store.rules.cable.labels import labels
from store.rules.cable.lengths import Need, needs, noted, off_spool, offers, read_offer, thickness_in
from store.rules.cable.raceways import insides, outside_in
from store.rules.core.memo import once
from store.rules.core.was_done import cable_state, was_done
from store.rules.core.wording import plural
from store.rules.wall.places import wall_of
from store.trade.cable.length import round_up_nm
from store.trade.measured.framing import largest_hole_without_plate

GROUPS = (
    "Equipment", "Cables with their plugs", "Cable from spools", "Boxes", "Plates", "Plugs and jacks", "Raceways",
    "Small parts", *MATERIAL_GROUPS,
)  # fmt: skip
CUTTING = "To cut"
"""The group of what is bought and not cut yet; it is no part of what is to buy."""
BORE_ROOM_IN = 0.25
"""A hole is bored this much wider than the cable; common practice, no source."""
PLATES = {
    "receptacle": "receptacle plate",
    "switch": "switch plate",
    "low-voltage": "low-voltage plate",
    "junction": "blank cover",
    "pass-through": "cable pass-through plate",
    "quick-connect": "low-voltage plate",
}
ENDS = {
    "category": ("network jack", 2),
    "coax": ("coax compression plug", 2),
    "speaker": ("speaker terminals, pair", 2),
    "fibre": ("fiber connectors, pair", 2),
}
"""What is put on both ends of a cable that is cut, by family, and how many for one cable."""


@once
def buying_list(job: Job) -> tuple[Line, ...]:
    """Everything still to buy, by group."""
    lines = [
        *_equipment(job), *_assembled(job), *_from_spools(job), *_boxes(job), *_plates(job), *_ends(job),
        *_raceways(job), *_small(job), *materials(job),
    ]  # fmt: skip
    return tuple(lines)


def total_of(lines: Iterable[Line]) -> tuple[Money, int]:
    """What the lines cost as far as prices are known, and how many things have none."""
    total = unpriced = 0
    for line in lines:
        total += line.total or 0
        unpriced += line.unpriced
    return Money(total), unpriced


@once
def cutting_list(job: Job) -> tuple[Line, ...]:
    """What is bought and not pulled yet: what to cut from which spool, the longest first, and what is left."""
    # Of what a pulled cable was cut from that is noted as off no spool, more is gone than is known here.
    unknown = {
        need.kind.key
        for need in needs(job).values()
        if need.kind and cable_state(job, need.cable) in ("pulled", "connected") and off_spool(need.cable) is None
    }
    found = []
    for key, each in to_cut(job).items():
        for line in _spool_lines(job, key, each):
            begun = key in unknown and not any(off_spool(job.of(Cable)[tag]) for tag in line.tags)
            cuts = (*line.cuts[:-1], "left: what the spool shows") if begun else line.cuts
            new = Line(f"Cut: {line.key}", CUTTING, line.what, 0, line.where, line.tags, cuts=cuts)
            found.append(new)
    return tuple(found)


def bought(job: Job, keys: Collection[str]) -> list[tuple[Record, Record]]:
    """What changes once the lines of these keys are bought: records as they are and as they will be, for one action.

    A key that is gone meanwhile changes nothing.
    """
    new: dict[str, Record] = {}
    for line in buying_list(job):
        for tag in line.tags if line.key in keys else ():
            record = new.get(tag) or job.get(tag)
            if record is not None:
                new[tag] = _once_bought(job, record, line)
    pairs = ((job.get(tag), record) for tag, record in new.items())
    return [(old, record) for old, record in pairs if old is not None and old != record]


def _once_bought(job: Job, record: Record, line: Line) -> Record:
    """A record as it is once it is bought, or once a small part for it is."""
    change: dict[str, object] = {}
    if line.part and isinstance(record, Box | Cable | Raceway | Wall | Opening | Equipment):
        change = {"parts": tuple(dict.fromkeys((*record.parts, line.part)))}
    elif isinstance(record, Equipment) and record.state == "to buy":
        change = {"state": "owned", "arrived": record.arrived or job.today}
    elif isinstance(record, Cable) and record.state == "planned":
        change = {"state": "bought"}
        if line.spool:
            others = [each for each in record.sold if (read := read_offer(each)) is None or not read.owned]
            change["sold"] = (*others, line.spool)
    elif isinstance(record, Box | Raceway | Fixing):
        change = {"bought": True}
    return msgspec.structs.replace(record, **change)


PLATE, ENDS_PART, NAIL_PLATES, LABELS, STRING = "plate", "plugs and jacks", "nail plates", "labels", "pull string"
"""Small parts, as they stand in the records that they are bought for."""


class _Group:
    """Gathers what is bought alike into one line."""

    def __init__(self, group: str) -> None:
        self.group = group
        self.found: dict[tuple[str, str], list[tuple[str, int, Money | None]]] = {}

    def add(self, what: str, tag: str, count: int = 1, price: Money | None = None) -> None:
        """So many of something for a record."""
        self.found.setdefault((what, ""), []).append((tag, count, price))

    def add_part(self, part: str, what: str, one: Box | Cable | Raceway, count: int = 1) -> None:
        """So many of a small part for a record, unless it is at hand."""
        if part not in one.parts:
            self.found.setdefault((what, part), []).append((one.tag, count, None))

    def lines(self) -> Iterator[Line]:
        """A line for each."""
        for (what, part), parts in self.found.items():
            count = sum(number for _, number, _ in parts)
            prices = {price for _, _, price in parts}
            known = [(number, price) for _, number, price in parts if price is not None]
            tags = tuple(tag for tag, _, _ in parts)
            yield Line(
                f"{self.group}: {what}",
                self.group,
                what,
                count,
                _where(tags),
                tags,
                prices.pop() if len(prices) == 1 else None,
                Money(sum(number * price for number, price in known)) if known else None,
                count - sum(number for number, _ in known),
                part=part,
            )


def _volume(job: Job, cubic_inches: float) -> str:
    """`18 in³`, or `295 cm³`: an inch is 25.4 mm exactly."""
    return f"{cubic_inches * 16.387064:.0f} cm³" if job.settings.metric else f"{cubic_inches:g} in³"


def _where(tags: tuple[str, ...]) -> str:
    return ", ".join(tags[:12]) + (f" and {len(tags) - 12} more" if len(tags) > 12 else "")


def _equipment(job: Job) -> Iterator[Line]:
    for tag, one in job.of(Equipment).items():
        if one.state == "to buy" and one.retired is None:
            place = one.opening or one.reached
            total = None if one.price is None else Money(one.price * one.count)
            missing = one.count if one.price is None else 0
            where = f"{tag}, in {place}" if place else tag
            yield Line(f"Equipment: {tag}", "Equipment", one.name, one.count, where, (tag,), one.price, total, missing)


def _wanted(job: Job) -> Iterator[Need]:
    return (need for need in needs(job).values() if cable_state(job, need.cable) == "planned")


def _assembled(job: Job) -> Iterator[Line]:
    metric = job.settings.metric
    group = _Group("Cables with their plugs")
    for need in _wanted(job):
        if not need.assembled or need.kind is None:
            continue
        name = SHORT.get(need.kind.key, need.kind.name)
        rating = f", {need.cable.rating}" if need.cable.rating and need.cable.in_wall else ""
        length = sold_text(need.sold, metric) if need.sold is not None else "length not known yet:"
        shop = offers(need.cable, need.kind, metric, job.settings.currency)
        offered = [each for each in shop if each.length == need.sold]
        price = need.cable.price if need.cable.price is not None or not offered else offered[0].price
        if not any(each.owned for each in offered):
            group.add(f"{length} {name}{rating}", need.cable.tag, 1, price)
    yield from group.lines()


def _from_spools(job: Job) -> Iterator[Line]:
    metric = job.settings.metric
    for key, each in spools(job).items():
        if each.why:
            text = f"{each.kind.name}, {sold_text(each.total, metric)} in all"
            count, where = len(each.cables), _where(each.cables)
            yield Line(f"Cable: {key}", GROUPS[2], text, count, where, each.cables, unpriced=count, note=each.why)
        else:
            yield from _spool_lines(job, key, each)
    unknown: dict[str, list[Need]] = {}
    for need in _wanted(job):
        if not need.assembled and (need.cut is None or need.kind is None):
            unknown.setdefault(need.kind.name if need.kind else need.cable.type, []).append(need)
    for name, wanted in unknown.items():
        tags = tuple(need.cable.tag for need in wanted)
        note = "; ".join(dict.fromkeys(need.route.why or "this kind is not on the list" for need in wanted))
        text = f"{name}, length not known yet" if all(need.cut is None for need in wanted) else name
        count = len(tags)
        yield Line(f"Cable: {name}", GROUPS[2], text, count, _where(tags), tags, unpriced=count, note=note)


def _spool_lines(job: Job, key: str, found: Spools) -> Iterator[Line]:
    metric = job.settings.metric
    bound = f": at least {sold_text(found.least, metric)} is needed" if found.least else ""
    note = "" if found.proved else f"a good choice; a cheaper one may exist{bound}"
    if not found.priced:
        note = "; ".join(part for part in ("no price entered, so the shortest spool is listed", note) if part)
    names = _names(job, found)
    for number, each in enumerate(found.spools, 1):
        cuts = [f"{tag} {sold_text(cut, metric)}" for tag, cut in zip(each.cables, each.cuts, strict=True)]
        left = sold_text(each.remnant, metric) if each.remnant else "nothing"
        name = f" {each.offer.name}" if each.offer.name else ""
        begun = f", {sold_text(each.offer.length - each.before, metric)} on it" if each.before else ""
        owned = f" (on hand{name}{begun})" if each.offer.owned else ""
        price = None if each.offer.owned else each.offer.price
        yield Line(
            f"Cable: {key} {number}",
            GROUPS[2],
            f"{found.kind.name}, spool of {sold_text(each.offer.length, metric)}{owned}",
            0 if each.offer.owned else 1,
            _where(each.cables),
            each.cables,
            price,
            price,
            int(each.offer.price is None),
            (*cuts, f"left: {left}"),
            note,
            spool=names[number - 1],
        )


def _names(job: Job, found: Spools) -> list[str]:
    """What the cables of each spool note of it once it is at hand; each spool's own, also among those of one length."""
    given = {each for need in needs(job).values() for each in noted(need.cable, job.settings.currency) if each.owned}
    names = []
    for each in found.spools:
        offer, number = each.offer, 1
        while not each.offer.owned and (offer := each.offer.at_hand(number)) in given:
            number += 1
        given.add(offer)
        names.append(offer.text)
    return names


def _new_boxes(job: Job) -> Iterator[Box]:
    return (box for box in job.of(Box).values() if box.new)


def _boxes(job: Job) -> Iterator[Line]:
    group = _Group("Boxes")
    for box in _new_boxes(job):
        if box.bought or was_done(job, f"{box.tag}/set"):
            continue
        size = f", {_volume(job, box.volume)}" if box.volume else ""
        made = ", metal" if box.metal else ""
        power = box.what in ("receptacle", "switch", "junction")
        name = f"{box.what} box" if power else f"{box.what} bracket or box"
        group.add(f"{name}, {plural(box.gangs, 'gang')}{size}{made}{', with divider' if box.divider else ''}", box.tag)
    yield from group.lines()


def _plates(job: Job) -> Iterator[Line]:
    group = _Group("Plates")
    for box in _new_boxes(job):
        group.add_part(PLATE, f"{PLATES[box.what]}, {plural(box.gangs, 'gang')}", box)
    yield from group.lines()


def _ends(job: Job) -> Iterator[Line]:
    group = _Group("Plugs and jacks")
    for need in needs(job).values():
        if need.kind is None or need.assembled or need.cable.state == "connected" or need.kind.family not in ENDS:
            continue
        name, count = ENDS[need.kind.family]
        grade = f", {need.kind.name}" if need.kind.family in ("category", "coax") else ""
        group.add_part(ENDS_PART, f"{name}{grade}", need.cable, count)
    yield from group.lines()


def _raceways(job: Job) -> Iterator[Line]:
    metric = job.settings.metric
    by_kind: dict[str, list[tuple[str, int | None]]] = {}
    for tag, inside in insides(job).items():
        one = inside.raceway
        # What a cable is pulled through is in the wall, whatever else is noted.
        pulled = any(cable_state(job, need.cable) in ("pulled", "connected") for need in inside.cables)
        if not (one.bought or pulled or was_done(job, f"{tag}/in")):
            length = None if one.type == "grommet" else raceway_length(job, one)
            by_kind.setdefault(_tube(job, one), []).append((tag, length))
    for name, parts in by_kind.items():
        known = [(tag, round_up_nm(length, step_nm(metric))) for tag, length in parts if length]
        total = sum(length for _, length in known)
        tags, count = tuple(tag for tag, _ in parts), len(parts)
        yield Line(
            f"Raceways: {name}",
            "Raceways",
            name + (f", {sold_text(total, metric)} in all" if total else ""),
            count,
            _where(tags),
            tags,
            unpriced=count,
            cuts=tuple(f"{tag} {sold_text(length, metric)}" for tag, length in known),
        )


def _tube(job: Job, one: Raceway) -> str:
    """A raceway as one asks for it in a shop."""
    inside = "" if one.size or one.inside is None else f", {show_length(one.inside, job.settings.metric)} inside"
    return f"{'tube' if one.type == 'other' else one.type} {one.size}".strip() + inside


def _small(job: Job) -> Iterator[Line]:
    group = _Group("Small parts")
    for need in needs(job).values():
        if plates := _plates_for(job, need):
            group.add_part(NAIL_PLATES, "steel nail plate", need.cable, plates)
    for tag, inside in insides(job).items():
        wide, wall = outside_in(inside.raceway), job.of(Wall).get(wall_of(job, inside.raceway.start))
        if wide is not None and wall is not None and inside.studs and not was_done(job, f"{tag}/plates"):
            plates = _plates_at(wall, wide, inside.studs)
            if plates:
                group.add_part(NAIL_PLATES, "steel nail plate", inside.raceway, plates)
        if not inside.raceway.string and inside.raceway.type != "grommet":
            group.add_part(STRING, "pull string", inside.raceway)
    for tag, count in Counter(each.tag for each in labels(job)).items():
        one = job.get(tag)
        if isinstance(one, Cable | Raceway) and not was_done(job, f"{tag}/labelled"):
            group.add_part(LABELS, "cable label", one, count)
    yield from group.lines()


def _plates_for(job: Job, need: Need) -> int:
    """Steel plates for the studs that a cable is bored through."""
    wall = job.of(Wall).get(need.route.walls[0]) if need.route.walls else None
    wide = thickness_in(need)
    if wall is None or wide is None or not need.route.studs or not need.cable.in_wall:
        return 0
    return 0 if was_done(job, f"{need.cable.tag}/plates") else _plates_at(wall, wide + BORE_ROOM_IN, need.route.studs)


def _plates_at(wall: Wall, hole_in: float, studs: int) -> int:
    """One on both faces of every stud whose hole comes nearer than 1-1/4 in to them."""
    return 2 * studs if hole_in * INCH_NM > largest_hole_without_plate(wall.stud_depth.nm) else 0
