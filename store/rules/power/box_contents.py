"""What is in each box, what it needs, and what it has: NEC 314.16, read from the texts of the box and from the plan."""

from __future__ import annotations

import msgspec

from store.measure.errors import BadValue
from store.records.whole import Job
from store.records.wiring import Box
from store.records.wiring import Cable as Planned
from store.rules.core.code import edition, is_us
from store.rules.core.keyed import of_each
from store.rules.power.box_text import read_device, read_mains, read_wires, standard_box
from store.rules.power.plan import mains_size, power
from store.rules.wall.places import POWER_BOXES
from store.trade.power.box_fill import (
    BoxContents,
    BoxFill,
    Cable,
    Device,
    box_fill,
    line_text,
    standard_boxes_for,
    usable_in3,
)
from store.trade.power.tables_us import CONDUCTOR_IN3, BoxKind

MOST_GANGS_OF_TABLE = 2
"""A 4 in or 4-11/16 in square box takes a ring of two gangs."""
DEVICE_BOXES = ("receptacle", "switch")
"""Kinds of box that are nothing without a device."""


class BoxLook(msgspec.Struct, frozen=True):
    """One box: its fill and its volume, as far as they can be told."""

    box: Box
    fill: BoxFill | None
    volume_in3: float | None
    unreadable: tuple[tuple[str, str], ...]
    """Field and what is wrong with it, for each text that cannot be read."""
    contents: BoxContents
    from_plan: tuple[str, ...]
    """Cables of the plan that were counted, where the box lists none of its own."""

    @property
    def lines(self) -> list[str]:
        """The worked sum, a line each, with the total and what the box has."""
        if self.fill is None:
            return []
        lines = [line_text(line) for line in self.fill.lines]
        if not self.grounded:
            lines.append("no grounding conductor is listed: 12-2 G is a cable that brings one")
        has = "no volume entered" if self.volume_in3 is None else f"the box has {self.volume_in3:.2f} in³"
        return [*lines, f"together {self.fill.total_in3:.2f} in³; {has}"]

    @property
    def grounded(self) -> bool:
        """True when a grounding conductor is listed."""
        return bool(self.contents.extra_grounds) or any(cable.ground for cable in self.contents.cables)

    @property
    def missing(self) -> list[str]:
        """What is to be noted before the fill can be told and judged, in words."""
        found = [f"{field}: {why}" for field, why in self.unreadable]
        fields = {field for field, _ in self.unreadable}
        if "cables in it" not in fields and not (self.contents.cables or self.contents.extra_grounds):
            found.append("cables in it, like 12-2 G")
        if "devices" not in fields and self.box.what in DEVICE_BOXES and not self.box.devices:
            found.append("devices, like receptacle 12")
        if self.volume_in3 is None and not fields & {"volume", "standard size"}:
            found.append("volume, as stamped inside it, or standard size, like 4 x 1-1/2 square")
        return found

    def box_for(self, fill: BoxFill) -> str:
        """The smallest metal box of Table 314.16(A) for so much and for its gangs, in words.

        The boxes of the table take one gang, or two under a ring; wider ones are marked by their makers.
        """
        if self.box.gangs > MOST_GANGS_OF_TABLE:
            return f"one of {self.box.gangs} gangs marked {fill.total_in3:.2f} in³ or more"
        kinds: tuple[BoxKind, ...] = ("device", "square") if self.box.gangs == 1 else ("square",)
        if self.box.what == "junction":
            kinds = ("round", "square")
        doing = standard_boxes_for(fill.total_in3, kinds)
        if doing:
            return f"{doing[0].size} ({doing[0].volume_in3:g} in³)"
        return f"none of the table: one marked {fill.total_in3:.2f} in³ or more, or two boxes"


def next_box(job: Job, look: BoxLook) -> str:
    """The smallest metal box of Table 314.16(A) that would do for what is in it and what the plan brings, in words."""
    fill = fill_with_plan(job, look)[1] or look.fill
    return "" if fill is None else look.box_for(fill)


@of_each(Box)
def looks(job: Job, box: Box) -> BoxLook | None:
    """Every box that holds mains wiring, by tag; empty where the tables of the United States are not in force."""
    if not is_us(job) or box.what not in POWER_BOXES:
        return None
    wrong: list[tuple[str, str]] = []
    cables, grounds = _wires(job, box, wrong)
    from_plan: tuple[str, ...] = ()
    if not box.conductors:
        cables, from_plan = _planned(job, box)
    contents = BoxContents(cables, _devices(box, wrong), box.clamps, box.fittings, grounds)
    fill = None
    if (cables or grounds) and not any(field in ("devices", "cables in it") for field, _ in wrong):
        try:
            fill = box_fill(contents, edition(job))
        except ValueError as error:
            wrong.append(("devices", str(error)))
    return BoxLook(box, fill, _volume(box, wrong), tuple(wrong), contents, from_plan)


def _wires(job: Job, box: Box, wrong: list[tuple[str, str]]) -> tuple[tuple[Cable, ...], tuple[int, ...]]:
    cables: list[Cable] = []
    grounds: list[int] = []
    for text in box.conductors:
        named = job.of(Planned).get(text.strip().upper())
        if named is not None:
            planned = _as_in_box(job, named)
            cables += planned
            if not planned:
                wrong.append(("cables in it", f"{named.tag} is not a power cable of a known size"))
            continue
        try:
            read = read_wires(text)
        except BadValue as error:
            wrong.append(("cables in it", str(error)))
            continue
        cables += read.cables
        grounds += read.grounds
    return tuple(cables), tuple(grounds)


def _devices(box: Box, wrong: list[tuple[str, str]]) -> tuple[Device, ...]:
    found: list[Device] = []
    for text in box.devices:
        try:
            gear = read_device(text)
        except BadValue as error:
            wrong.append(("devices", str(error)))
            continue
        found += [gear.device] * gear.count
    return tuple(found)


def _planned(job: Job, box: Box) -> tuple[tuple[Cable, ...], tuple[str, ...]]:
    """The mains cables of the plan that end at a box; each is taken to bring a ground, as cable sold today does."""
    cables: list[Cable] = []
    tags = []
    for cable in power(job).mains.get(box.tag, ()):
        if found := _as_in_box(job, cable):
            cables += found
            tags.append(cable.tag)
    return tuple(cables), tuple(tags)


def fill_with_plan(job: Job, look: BoxLook) -> tuple[tuple[str, ...], BoxFill | None]:
    """Cables of the plan that end at a box and are not in its own list, and its fill with them on top.

    The list of a box that is there already says what it holds today: what the plan brings comes on top, until it is
    named there by its tag or pulled. In the list of a new box a cable stands for one of the plan.
    """
    if look.fill is None or look.from_plan:
        return (), None
    named = {text.strip().upper() for text in look.box.conductors}
    planned = [each for each in power(job).mains.get(look.box.tag, ()) if each.tag not in named]
    planned = [each for each in planned if each.state in ("planned", "bought") and _as_in_box(job, each)]
    if look.box.new:
        here = len(look.contents.cables) - sum(tag in job.of(Planned) for tag in named)
        planned = planned[here:] if all(each.conductors > 1 for each in look.contents.cables) else []
    if not planned:
        return (), None
    more = tuple(cable for each in planned for cable in _as_in_box(job, each))
    contents = msgspec.structs.replace(look.contents, cables=(*look.contents.cables, *more))
    return tuple(each.tag for each in planned), box_fill(contents, edition(job))


def _as_in_box(job: Job, cable: Planned) -> list[Cable]:
    """A mains cable of the plan as it counts in a box; nothing where its size is not one of the table."""
    size, read = mains_size(job, cable), read_mains(cable.type)
    if size is None or size.awg not in CONDUCTOR_IN3 or read is None:
        return []
    return [Cable(size.awg, read[1])]


def _volume(box: Box, wrong: list[tuple[str, str]]) -> float | None:
    """Volume stamped in the box, or that of its standard size, with its ring, less its divider: 314.16(A)."""
    marked = box.volume
    metal = box.metal
    if box.size.strip():
        standard = standard_box(box.size)
        metal = metal or standard is not None
        if standard is None:
            wrong.append(
                ("standard size", f"{box.size[:40]!r} is not one box of the table: write it like 4 x 1-1/2 square")
            )
        elif marked is None:
            marked = standard.volume_in3
    if marked is None:
        return None
    try:
        return usable_in3(marked, [box.ring], ("metal" if metal else "nonmetallic",) if box.divider else ())
    except ValueError:
        wrong.append(("volume", f"{marked:g} in³ is less than the divider in it takes"))
        return None
