"""What each trade is told: which records, and which of their fields, its packet prints.

One table for both uses: the schedules of a packet are these fields, and a change concerns a trade when it changes
one of them, or one that only its drawing shows. No other field can make its packet out of date.
"""

from __future__ import annotations

from collections.abc import Callable

import msgspec

from store.records.access import Panel
from store.records.base import Record
from store.records.build import Fixing
from store.records.equipment import Equipment
from store.records.gate import Check
from store.records.inside import ShelfBoard
from store.records.job import Settings
from store.records.people import Contact, Step, Trade
from store.records.wall import BuildOut, Obstacle, Opening, Reading, Wall, Zone
from store.records.whole import Job
from store.records.wiring import Box, Cable, Circuit, Raceway
from store.rules.cable.kinds import holds_power, is_power
from store.rules.wall.pieces import on_face
from store.rules.wall.shape import stands_in_front

Wanted = Callable[[Job, Record], bool]


class Schedule(msgspec.Struct, frozen=True):
    """One schedule of a packet: a kind of record, the fields that are printed, and which records are on it."""

    title: str
    cls: type[Record]
    fields: tuple[str, ...]
    wanted: Wanted


def _all(job: Job, one: Record) -> bool:
    return getattr(one, "retired", None) is None


def _cut_out(job: Job, one: Record) -> bool:
    """Cabinet work in front of the wall cuts no board."""
    return not (isinstance(one, Opening) and stands_in_front(job, one))


def _power_box(job: Job, one: Record) -> bool:
    return isinstance(one, Box) and holds_power(one)


def _signal_box(job: Job, one: Record) -> bool:
    return isinstance(one, Box) and not holds_power(one)


def _power_cable(job: Job, one: Record) -> bool:
    return isinstance(one, Cable) and one.retired is None and is_power(job, one)


def _signal_cable(job: Job, one: Record) -> bool:
    return isinstance(one, Cable) and one.retired is None and not is_power(job, one)


def _loads(job: Job, one: Record) -> bool:
    return isinstance(one, Equipment) and one.retired is None and one.power != "none"


def _with_ports(job: Job, one: Record) -> bool:
    return isinstance(one, Equipment) and one.retired is None and bool(one.ports or one.remote != "none")


def _built_in(job: Job, one: Record) -> bool:
    return isinstance(one, Equipment) and one.retired is None and bool(one.opening)


def _to_come(job: Job, one: Record) -> bool:
    return isinstance(one, Equipment) and one.retired is None and one.state != "owned"


def _on_a_face(job: Job, one: Record) -> bool:
    return isinstance(one, Equipment) and one.retired is None and on_face(one)


def _vents(job: Job, one: Record) -> bool:
    return isinstance(one, Obstacle) and one.what in ("vent", "return air")


_PLACE = ("wall", "face", "on", "x", "y")
_RECT = (*_PLACE, "width", "height")
POWER_BOXES = Schedule(
    "Power boxes", Box,
    ("name", "what", "new", *_PLACE, "setback", "circuit", "gangs", "receptacles", "switched", "volume", "size",
     "metal", "devices", "divider", "notes"),
    _power_box,
)  # fmt: skip
CIRCUITS = Schedule(
    "Circuits", Circuit,
    ("name", "breaker", "slot", "volts", "conductor", "length", "load", "lighting", "only_for", "afci", "gfci",
     "notes"),
    _all,
)  # fmt: skip
_CABLE = ("name", "type", "rating", "start", "end", "in_wall", "route", "level", "raceway", "points", "carries")
POWER_CABLES = Schedule("Power cable", Cable, (*_CABLE, "measured", "notes"), _power_cable)
SIGNAL_CABLES = Schedule(
    "Signal cable", Cable, (*_CABLE, "spare", "directional", "hole", "measured", "notes"), _signal_cable
)
LOADS = Schedule(
    "Loads", Equipment,
    ("name", "what", "count", "opening", "watts", "hours", "heats", "power", "cord", "plug", "half", "rating"), _loads,
)  # fmt: skip
SIGNAL_BOXES = Schedule(
    "Signal boxes",
    Box,
    ("name", "what", "new", *_PLACE, "setback", "gangs", "divider", "reached", "notes"),
    _signal_box,
)
RACEWAYS = Schedule(
    "Raceways", Raceway,
    ("name", "type", "size", "inside", "start", "end", "route", "points", "length", "bends", "string", "notes"), _all,
)  # fmt: skip
DEVICES = Schedule("Devices", Equipment, ("name", "what", "opening", "ports", "remote", "wireless"), _with_ports)
WALLS = Schedule(
    "Walls", Wall,
    ("name", "stud_width", "stud_depth", "spacing", "first_stud", "odd_studs", "missing_studs", "floor_line",
     "ceiling_line", "bearing", "burns", "scribe", "framed", "notes"),
    _all,
)  # fmt: skip
READINGS = Schedule("Readings of the tape", Reading, ("wall", "what", "where", "value", "date", "by"), _all)
_FLAT = ("wall", "x", "y", "width", "height")
OBSTACLES = Schedule("In the way", Obstacle, ("what", *_FLAT, "notes"), _all)
BUILD_OUTS = Schedule(
    "Build-outs", BuildOut,
    ("name", *_FLAT, "depth", "work", "stud_width", "stud_depth", "spacing", "first_stud", "bearing", "notes"), _all,
)  # fmt: skip
ZONES = Schedule("Finish zones", Zone, ("name", *_RECT, "thickness", "burns", "weight", "backing", "notes"), _all)
ON_FACES = Schedule(
    "On the face", Equipment, ("name", "what", *_PLACE, "width", "height", "depth", "weight", "off_wall", "mounting",
                               "holes"), _on_a_face,
)  # fmt: skip
OPENINGS = Schedule(
    "Openings", Opening,
    ("name", "use", *_RECT, "depth", "material", "thickness", "held", "middle", "strip", "rail", "header", "door",
     "hinge", "door_width", "door_height", "pin_first", "pin_step", "notes"),
    _all,
)  # fmt: skip
SHELVES = Schedule(
    "Shelves and dividers", ShelfBoard,
    ("name", "opening", "what", "up", "along", "height", "depth", "gap", "thickness", "material", "held", "middle",
     "strip", "notes"),
    _all,
)  # fmt: skip
FITTED = Schedule(
    "What goes in", Equipment,
    ("name", "what", "count", "opening", "stands_on", "raised", "offset", "width", "height", "depth", "weight",
     "clear_left", "clear_right",
     "clear_top", "clear_bottom", "clear_front", "clear_back", "mounting", "holes", "heat_side"),
    _built_in,
)  # fmt: skip
FIXINGS = Schedule(
    "Screws and what they go into", Fixing, ("of", "what", "count", "length", "into", "wood", "rows", "apart"), _all
)
PANELS = Schedule("Access panels", Panel, ("name", *_RECT, "opens", "hinge", "passes", "fitted", "notes"), _all)
BOARD_OPENINGS = Schedule("Openings in the drywall", Opening, ("name", "use", *_RECT), _cut_out)
BOARD_BOXES = Schedule("Cut-outs for boxes", Box, ("what", "new", *_PLACE, "gangs", "setback", "plate"), _all)
BOARD_PANELS = Schedule("Cut-outs for panels", Panel, ("name", *_RECT, "opens"), _all)
BOARD_WALLS = Schedule(
    "Walls", Wall, ("name", "stud_width", "spacing", "first_stud", "burns", "level", "tile", "notes"), _all
)
FINISHES = Schedule("Openings and their material", Opening, ("name", *_RECT, "material"), _all)
AIR = Schedule("Openings with vents", Opening, ("name", "use", *_RECT, "air_in", "air_out", "free_share", "fan"), _all)
VENTS = Schedule("Vents", Obstacle, ("what", *_FLAT, "notes"), _vents)
_RULES = ("name", "room", "permit", "finish")
POWER_JOB = Schedule("The job", Settings, _RULES, _all)
BOARD_JOB = Schedule("The job", Settings, ("name", "room", "finish"), _all)
ROOM_JOB = Schedule("The job", Settings, ("name", "room"), _all)
GOODS = Schedule(
    "Still to be delivered", Equipment,
    ("name", "what", "count", "state", "width", "height", "depth", "weight", "ordered", "supplier"), _to_come,
)  # fmt: skip

SCHEDULES: dict[Trade, tuple[Schedule, ...]] = {
    "owner": (ROOM_JOB,),
    "electrician": (POWER_JOB, CIRCUITS, POWER_BOXES, POWER_CABLES, LOADS),
    "low-voltage": (BOARD_JOB, SIGNAL_BOXES, SIGNAL_CABLES, RACEWAYS, DEVICES),
    "carpenter": (
        BOARD_JOB,
        WALLS,
        BUILD_OUTS,
        ZONES,
        READINGS,
        OBSTACLES,
        OPENINGS,
        SHELVES,
        FITTED,
        ON_FACES,
        FIXINGS,
        PANELS,
    ),
    "drywall": (
        BOARD_JOB,
        BOARD_WALLS,
        BUILD_OUTS,
        ZONES,
        READINGS,
        OBSTACLES,
        BOARD_OPENINGS,
        BOARD_BOXES,
        BOARD_PANELS,
    ),
    "painter": (BOARD_JOB, BOARD_WALLS, BUILD_OUTS, ZONES, FINISHES, BOARD_PANELS),
    "hvac": (ROOM_JOB, VENTS, AIR),
    "inspector": (POWER_JOB, CIRCUITS, POWER_BOXES, POWER_CABLES),
    "supplier": (ROOM_JOB, GOODS),
    "other": (ROOM_JOB, BUILD_OUTS, ZONES, OBSTACLES, OPENINGS, FITTED, ON_FACES),
}
"""The schedules of each trade's packet, in the order in which they are printed."""
STEP_FIELDS = ("what", "days", "who", "booked", "notes")
CHECK_FIELDS = ("what", "where", "wants", "about_tag", "notes")
CONTACT_FIELDS = ("name", "trade", "phone", "mail")
STUDS = Schedule("Studs", Wall, ("spacing", "first_stud", "stud_width"), _all)
DRAWN_ONLY: dict[Trade, tuple[Schedule, ...]] = {
    "electrician": (STUDS,),
    "low-voltage": (STUDS,),
    "inspector": (STUDS,),
    "hvac": (STUDS, Schedule("In the way", Obstacle, ("what", *_FLAT), _all)),
    "other": (STUDS,),
}
"""What a trade reads from its drawing alone: a box is nailed to a stud, though the electrician has no list of studs."""


def also(trade: Trade, mine: frozenset[str], others: frozenset[str]) -> tuple[Schedule, ...]:
    """What a packet prints besides its schedules: own steps and checks, the contacts of others, what is only drawn.

    `mine` are the tags of the trade's contacts, `others` those of the contacts before and after it.
    """

    def own_step(job: Job, one: Record) -> bool:
        return isinstance(one, Step) and (one.who in mine or (trade == "owner" and not one.who))

    def own_check(job: Job, one: Record) -> bool:
        return isinstance(one, Check) and one.trade == trade

    def other(job: Job, one: Record) -> bool:
        return one.tag in others

    return (
        Schedule("Steps", Step, STEP_FIELDS, own_step),
        Schedule("Checks", Check, CHECK_FIELDS, own_check),
        Schedule("Others on the job", Contact, CONTACT_FIELDS, other),
        *DRAWN_ONLY.get(trade, ()),
    )
