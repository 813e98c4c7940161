"""Which kind of cable a typed word means, and what is usual for its ends: slack, waste, plugs."""

from __future__ import annotations

import re
from collections.abc import Mapping
from decimal import Decimal
from functools import cache

import msgspec

from store.measure.errors import BadValue
from store.measure.length import FOOT_NM, INCH_NM, parse_length
from store.records.equipment import Equipment
from store.records.wall import Opening
from store.records.whole import Job
from store.records.wiring import Box, Cable
from store.rules.core.keyed import by_key
from store.trade.cable.kinds import KINDS
from store.trade.cable.length import (
    EQUIPMENT_SLACK_NM,
    METRE_NM,
    OUTLET_SLACK_NM,
    POWER_BOX_FREE_NM,
    QUARTER_METRE_NM,
    WASTE_PERCENT,
)
from store.trade.cable.names import kind_key
from store.trade.cable.types import CableType

PRACTICE = "common practice"
AS_SET = "as set for this job"
POWER = "line voltage"

SHORT = {
    "hdmi": "HDMI",
    "hdmi-optical": "active optical HDMI",
    "hdmi-active": "active copper HDMI",
    "line": "line-level sound cable",
    "toslink": "optical sound cord",
    "patch": "network cord",
    "usb": "USB",
}
"""What a cable that comes with its plugs on is called on a shopping list."""

GRIP_MM = {"hdmi": (21.0, 12.0)}
"""Moulded grip behind the plug, mm, by family; common practice, from memory: measure the one bought."""


@cache
def kind_named(text: str) -> CableType | None:
    """The kind that a typed or printed text names, or None: `cat6`, `Cat 6`, `12-2 nm`, `14/2 speaker` ..."""
    return KINDS.get(kind_key(text))


def kind_of(cable: Cable) -> CableType | None:
    """The kind of a cable, with the diameter from its own data sheet where that is noted."""
    kind = kind_named(cable.type)
    if kind is not None and cable.outside is not None:
        return msgspec.structs.replace(kind, outside_nm=cable.outside.nm, outside_source="its data sheet, as entered")
    return kind


def is_power(job: Job, cable: Cable) -> bool:
    """True for mains wiring: by its kind, or, of a kind that is not known, by a power box at its end."""
    kind = kind_named(cable.type)
    if kind is not None:
        return kind.family == POWER
    ends = (job.of(Box).get(cable.start), job.of(Box).get(cable.end))
    return any(box is not None and holds_power(box) for box in ends)


def holds_power(box: Box) -> bool:
    """True for a box that is made for mains wiring."""
    return box.what in ("receptacle", "switch", "junction")


class Slack(msgspec.Struct, frozen=True):
    """What is left over at one end of a cable."""

    nm: int
    source: str


class Waste(msgspec.Struct, frozen=True):
    """What is added to the path of a cable."""

    percent: Decimal
    source: str


BOX, DEVICE, ELSEWHERE = "box", "device", "elsewhere"
"""Where a cable ends: in a box; at a device or in an opening; at a place that is not on the list."""

CORD_SLACK_NM = 12 * INCH_NM
USUAL_SLACK: dict[tuple[str, str], Slack] = {
    (POWER, BOX): Slack(POWER_BOX_FREE_NM, "NFPA 70 (NEC) 300.14: 6 in of free conductor"),
    (POWER, DEVICE): Slack(12 * INCH_NM, PRACTICE),
    (POWER, ELSEWHERE): Slack(3 * FOOT_NM, PRACTICE),
    ("signal", BOX): Slack(OUTLET_SLACK_NM, PRACTICE),
    ("signal", DEVICE): Slack(EQUIPMENT_SLACK_NM, PRACTICE),
    ("signal", ELSEWHERE): Slack(EQUIPMENT_SLACK_NM, PRACTICE),
    ("cord", BOX): Slack(OUTLET_SLACK_NM, PRACTICE),
    ("cord", DEVICE): Slack(CORD_SLACK_NM, "common practice: so that the device can be pulled forward"),
    ("cord", ELSEWHERE): Slack(CORD_SLACK_NM, PRACTICE),
}
"""What is usual, by sort of cable and of end; a cord comes with its plugs on and stays in the cabinet."""

_SET = re.compile(r"(?P<kind>.+?)\s+(?:at\s+(?:a\s+)?)?(?P<place>box|device|elsewhere)\s+(?P<length>.+)", re.ASCII)
FAMILIES = {
    **dict.fromkeys(("power", "mains", "nm", "nm-b"), POWER),
    "network": "category",
    **{one.family: one.family for one in KINDS.values()},
}
"""Words that mean all kinds of a family."""
EVERY = "all"


@by_key
def set_slack(job: Job) -> Mapping[tuple[str, str], int]:
    """What was set for the whole job to be left over, by kind, family or `all`, and by place."""
    found = {}
    for text in job.settings.slack:
        if (read := read_slack(text, job.settings.metric)) is not None:
            found[read[0], read[1]] = read[2]
    return found


def read_slack(text: str, metric: bool) -> tuple[str, str, int] | None:
    """What is to be left over, as typed: `cat6 box 18 in`, `speaker device 5 ft`; None when it cannot be read."""
    parts = _SET.fullmatch(" ".join(text.lower().split()))
    if parts is None:
        return None
    name = _name_of(parts["kind"])
    try:
        length = parse_length(parts["length"], metric)
    except BadValue:
        return None
    return (name, parts["place"], length.nm) if name else None


def _name_of(named: str) -> str:
    """The key of the kind, or the family, that a word of a setting means; `all` for itself; empty for none."""
    if named == EVERY or named in FAMILIES:
        return FAMILIES.get(named, named)
    kind = kind_named(named)
    return kind.key if kind is not None else ""


_WASTE = re.compile(r"(?P<kind>.+?)\s+(?:waste\s+)?(?P<percent>\d{1,3}(?:\.\d{1,2})?)\s*%?", re.ASCII)


@by_key
def set_waste(job: Job) -> Mapping[str, Decimal]:
    """The waste that was set for the whole job, by kind, family or `all`."""
    return dict(read for text in job.settings.waste_by_kind if (read := read_waste(text)) is not None)


def read_waste(text: str) -> tuple[str, Decimal] | None:
    """Waste of a kind, as typed: `nm 15`, `cat6 5 %`; the kind and the per cent; None when it cannot be read."""
    parts = _WASTE.fullmatch(" ".join(text.lower().split()))
    name = _name_of(parts["kind"]) if parts is not None else ""
    return (name, Decimal(parts["percent"])) if parts is not None and name else None


@by_key
def set_plugs(job: Job) -> Mapping[str, int]:
    """How far plugs stand off their sockets as set for the whole job, nm, by kind, family or `all`."""
    metric = job.settings.metric
    return dict(read for text in job.settings.plugs if (read := read_plug(text, metric)) is not None)


def read_plug(text: str, metric: bool) -> tuple[str, int] | None:
    """The length of a plug as typed: `hdmi 2 1/4`, `cat6 40 mm`; the kind and nm; None when it cannot be read."""
    plain = " ".join(text.lower().split())
    # The name of a kind may have digits in it, `12-2 nm 1`: the shortest name that is known counts.
    for at in [found.start() for found in re.finditer(r" ", plain)]:
        name = _name_of(plain[:at])
        try:
            length = parse_length(plain[at:], metric) if name else None
        except BadValue:
            continue
        if length is not None and length.nm > 0:
            return name, length.nm
    return None


def plug_set_nm(job: Job, cable: Cable) -> int | None:
    """What is set for the plugs of a cable, nm: for its kind, its family or all; None where nothing is."""
    return next((nm for name in _names_for(cable) if (nm := set_plugs(job).get(name)) is not None), None)


def waste_of(job: Job, cable: Cable) -> Waste:
    """What is added to the path of a cable: what is set for its kind, its family or all; else the job's figure."""
    for name in _names_for(cable):
        if (percent := set_waste(job).get(name)) is not None:
            return Waste(percent, AS_SET)
    percent = Decimal(str(max(0.0, job.settings.waste)))
    return Waste(percent, PRACTICE if percent == WASTE_PERCENT else AS_SET)


def _names_for(cable: Cable) -> tuple[str, ...]:
    """What settings may call a cable, the nearest first."""
    kind = kind_named(cable.type)
    return (kind.key, kind.family, EVERY) if kind is not None else (EVERY,)


def sort_of(job: Job, cable: Cable) -> str:
    """The row of the table above that a cable belongs to."""
    kind = kind_named(cable.type)
    if is_power(job, cable):
        return POWER
    return "cord" if kind is not None and kind.assembled and not cable.in_wall else "signal"


def slack_at(job: Job, cable: Cable, tag: str, own: int | None) -> Slack:
    """What is left over at an end of a cable: its own figure, else what is set for the job, else what is usual."""
    if own is not None:
        return Slack(own, "as entered for this cable")
    record = job.get(tag)
    place = BOX if isinstance(record, Box) else DEVICE if isinstance(record, Equipment | Opening) else ELSEWHERE
    for name in _names_for(cable):
        if (length := set_slack(job).get((name, place))) is not None:
            return Slack(length, AS_SET)
    return USUAL_SLACK[sort_of(job, cable), place]


def step_nm(metric: bool) -> int:
    """Cut lengths are rounded up to this: a foot, or a quarter of a metre."""
    return QUARTER_METRE_NM if metric else FOOT_NM


def sold_text(nm: int, metric: bool) -> str:
    """A length as shops write it: `25 ft`, `7.5 m`."""
    unit, name = (METRE_NM, "m") if metric else (FOOT_NM, "ft")
    if nm % unit and (nm % FOOT_NM == 0 or nm % (METRE_NM // 4) == 0):
        unit, name = (FOOT_NM, "ft") if nm % FOOT_NM == 0 else (METRE_NM, "m")
    return f"{round(nm / unit, 2):g} {name}"
