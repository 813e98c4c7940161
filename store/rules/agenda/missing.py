"""Readings and manufacturer's figures that are not entered, in the order in which they unblock most.

What waits for a figure is counted by place and path: for a reading everything on its wall, for a size the opening and
its neighbors there, for the watts the circuit and the opening's heat, for ports the cables that end at the device.
"""

from __future__ import annotations

import msgspec

from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.field import fields_of
from store.records.wall import Opening, Reading, Wall
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.core.keyed import index, of_each
from store.rules.core.memo import once
from store.rules.fit.fit import pieces
from store.rules.wall.contents import opening_of, places
from store.rules.wall.layout import cables_at

SIZES = ("width", "height", "depth")
CLEARANCES = ("clear_left", "clear_right", "clear_top", "clear_bottom", "clear_front", "clear_back")
READ = ("width", "height")
"""What is read of every wall before anything is designed on it."""
HELD_UP = frozenset({"screen", "fireplace", "speaker", "subwoofer", "soundbar", "mount", "receiver"})
"""Devices whose weight something has to hold."""
CONNECTED = frozenset(
    {"screen", "receiver", "player", "streamer", "console", "recorder", "router", "switch", "soundbar"}
)
"""Devices that cables are plugged into."""
MOUNTED = frozenset({"screen", "fireplace", "heater"})
"""Devices of which the manual says how they may be mounted."""


class Blank(msgspec.Struct, frozen=True):
    """What is not entered of one record."""

    tag: str
    fields: tuple[str, ...]
    """Keys of its fields; of a wall `width` and `height`, which are read."""
    titles: tuple[str, ...]
    waits: tuple[str, ...]
    """Tags of everything that cannot be worked out until it is entered."""


_openings = index(Opening, lambda one: (one.wall,))
_boxes = index(Box, lambda one: (one.wall,))
_panels = index(Panel, lambda one: (one.wall,))
_read = index(Reading, lambda one: (f"{one.wall}/{one.what}",))


@of_each(Wall)
def unread(job: Job, wall: Wall) -> Blank | None:
    """The sizes of a wall that nobody read, and what is on it."""
    missing = tuple(what for what in READ if not _read(job).get(f"{wall.tag}/{what}"))
    if not missing:
        return None
    kinds = (_openings(job), _boxes(job), _panels(job))
    on_it = tuple(one.tag for kind in kinds for one in kind.get(wall.tag, ()))
    return Blank(wall.tag, missing, missing, on_it)


@of_each(Equipment)
def blanks(job: Job, one: Equipment) -> Blank | None:
    """The figures of the manual and the nameplate that are not entered, and what waits for them."""
    if one.retired is not None:
        return None
    found: dict[str, tuple[str, ...]] = {}
    place = opening_of(job, one)
    beside = tuple(tag for tag in (place, *places(job).get(place, ())) if tag and tag != one.tag) if place else ()
    piece = pieces(job).get(one.tag)
    if piece is not None:
        missing = (*SIZES, *(key for key in CLEARANCES if _says(one, key) in piece.missing))
        found |= {key: beside for key in missing if getattr(one, key) is None}
    if one.weight is None and one.what in HELD_UP and place:
        found["weight"] = (place,)
    if one.power == "unknown" and one.what != "part":
        found["power"] = (*_fed_by(job, one), *beside[:1])
    if one.watts is None and one.power not in ("unknown", "none"):
        found["watts"] = (*_fed_by(job, one), *beside[:1])
    if one.mounting == "unknown" and one.what in MOUNTED:
        found["mounting"] = beside[:1]
    if not one.ports and one.what in CONNECTED:
        found["ports"] = tuple(cable.tag for cable in cables_at(job).get(one.tag, ()))
    if not found:
        return None
    titles = {field.key: field.title(job.manner) for field in fields_of(Equipment)}
    waits = tuple(dict.fromkeys(tag for tags in found.values() for tag in tags))
    return Blank(one.tag, tuple(found), tuple(titles[key] for key in found), waits)


def _says(one: Equipment, key: str) -> str:
    """A clearance as the fit names it when it is missing: `clearance left`."""
    return next(field.says.title for field in fields_of(type(one)) if field.key == key)


def _fed_by(job: Job, one: Equipment) -> tuple[str, ...]:
    """What it plugs into, and the circuit of that."""
    box = job.of(Box).get(one.plug)
    return tuple(str(tag) for tag in (one.plug, box.circuit if box else "") if tag)


@once
def missing(job: Job) -> tuple[Blank, ...]:
    """Everything that is missing, what unblocks most first; a wall's own size before all, as all stands on it."""
    walls = sorted(unread(job).values(), key=lambda each: -len(each.waits))
    return (*walls, *sorted(blanks(job).values(), key=lambda each: (-len(each.waits), -len(each.fields))))
