"""Small jobs for the tests of rules about the wall: records in a few words, and the findings of one rule."""

from __future__ import annotations

from datetime import date
from typing import Any

from store.measure.length import INCH_NM, Length, parse_length
from store.records.access import Panel
from store.records.base import R, Record
from store.records.equipment import Equipment
from store.records.inside import ShelfBoard
from store.records.job import Settings
from store.records.wall import Obstacle, Opening, Reading, Wall
from store.records.whole import KINDS, Job
from store.rules.core.figures import figures
from store.rules.core.findings import Finding, findings

TODAY = date(2026, 5, 4)
LENGTHS = {
    "x", "y", "width", "height", "depth", "thickness", "door_width", "door_height", "offset", "diagonal", "seat", "eye",
    "value", "first_stud", "scribe", "spacing", "finish", "outside", "tolerance", "stud_depth",
    "header", "strip", "strip_thick", "rail", "apart", "length", "out", "reach", "tape", "longest_sheet",
    "lip", "lip_behind",
    "longest_run", "lamp_up", "lamp_out", "lamp_across", "gap",
    "clear_left", "clear_right", "clear_top", "clear_bottom", "clear_front", "clear_back",
    "keep_above", "keep_screen", "keep_sides", "up", "along", "raised", "pin_first", "pin_step",
    "off", "arm", "cut_step", "channel", "off_wall", "hallway", "turns_into",
}  # fmt: skip
CLEAR = ("clear_left", "clear_right", "clear_top", "clear_bottom", "clear_front", "clear_back")


def made(cls: type[R], tag: str, **values: Any) -> R:
    """A record whose lengths are written as a person types them, or as a number of inches."""
    read = {key: length(value) if key in LENGTHS else value for key, value in values.items()}
    return cls(tag=tag, **read)


def length(value: Any) -> Any:
    """A length as typed, or in inches."""
    if isinstance(value, str):
        return parse_length(value)
    return Length(round(value * INCH_NM)) if isinstance(value, int | float) else value


def job_of(*records: Record, **settings: Any) -> Job:
    """A job in memory that holds these records."""
    tables: dict[str, dict[str, Record]] = {kind: {} for kind in KINDS}
    tables["job"]["job"] = made(Settings, "job", name="test wall", **settings)
    for record in records:
        tables[record.kind][record.tag] = record
    return Job(tables, today=TODAY)


def wall(**values: Any) -> Wall:
    """A wall W1 that carries nothing and does not burn."""
    return made(Wall, "W1", **{"name": "wall", "bearing": "no", "burns": "no", **values})


def read(tag: str, what: Any, value: Any, **values: Any) -> Reading:
    """A reading of W1."""
    return made(Reading, tag, wall="W1", what=what, value=value, **values)


ROOM = (wall(), read("D1", "width", 144), read("D2", "height", 96))
"""A wall 144 in wide and 96 in high; its studs are not known."""


def opening(tag: str, x: float, y: float, width: float, height: float, **values: Any) -> Opening:
    """An opening on W1, inches, 20 in deep unless said otherwise."""
    given = {"name": f"opening {tag}", "wall": "W1", "depth": 20, **values}
    return made(Opening, tag, x=x, y=y, width=width, height=height, **given)


def obstacle(tag: str, what: Any, x: float, y: float, width: float, height: float) -> Obstacle:
    """Something on W1 already, inches."""
    return made(Obstacle, tag, wall="W1", what=what, x=x, y=y, width=width, height=height)


def panel(tag: str, x: float, y: float, width: float, height: float) -> Panel:
    """An access panel on W1, inches."""
    return made(Panel, tag, name=f"panel {tag}", wall="W1", x=x, y=y, width=width, height=height)


def device(tag: str, width: float, height: float, depth: float, **values: Any) -> Equipment:
    """Equipment in N1 that asks for no clearance, unless said otherwise; inches."""
    given = {"name": f"device {tag}", "opening": "N1", "mounting": "shelf", **dict.fromkeys(CLEAR, 0), **values}
    return made(Equipment, tag, width=width, height=height, depth=depth, **given)


def board(tag: str, up: Any = None, **values: Any) -> ShelfBoard:
    """A shelf in N1 with its top so high inside, or what else is said; inches."""
    return made(ShelfBoard, tag, opening="N1", up=up, **values)


def found(job: Job, rule: str) -> list[Finding]:
    """The findings of one rule."""
    return [each for each in findings(job) if each.rule == rule]


def one(job: Job, rule: str) -> Finding:
    """The only finding of a rule."""
    (only,) = found(job, rule)
    return only


def figure(job: Job, tag: str, name: str) -> Any:
    """One figure; None when it is not there."""
    return figures(job).get(tag, {}).get(name)
