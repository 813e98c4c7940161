"""The carpenter's list of a cabinet: boards, doors, hinges, slides; and whether it stands."""

from __future__ import annotations

from math import ceil

import msgspec

from store.measure.length import INCH_NM, MM_NM
from store.measure.mass import KILOGRAM_UG, POUND_UG
from store.records.wall import Opening
from store.records.whole import Job
from store.rules.core.keyed import of_each
from store.rules.wall.layout import in_opening
from store.rules.wall.pieces import hangs, inside_of, is_drawer
from store.trade.build.cabinet import (
    TALL_NM,
    WIDE_DOOR_NM,
    Door,
    Tip,
    doors,
    drawer_width,
    hinges,
    slide_nm,
    tie_back_lbf,
    tip,
    weight_lb,
)

HINGED = ("left", "right", "top", "bottom")
GLASS_NM = INCH_NM // 4
"""Thickness of the glass of a glass door; our own assumption."""
DRAWER_LB = 30.0
"""A drawer and what is in it, where nobody entered a load; our own assumption."""


class Cabinet(msgspec.Struct, frozen=True):
    """One opening that is a cabinet."""

    opening: Opening
    boards: tuple[tuple[str, int, int, int], ...]
    """Name, length, width and number of its boards, nanometres."""
    door: Door | None
    leaves: int
    door_lb: float
    hinges: int | None
    """A door; None where it is too heavy or tall for concealed hinges."""
    slide_nm: int | None
    drawer_nm: int | None
    load_lb: float
    tip: Tip | None
    """Of one that stands on the floor."""
    tall: bool
    hardware: tuple[tuple[str, int], ...]
    at_hand: bool

    @property
    def drawer(self) -> bool:
        """Whether it pulls out."""
        return is_drawer(self.opening)

    def tie_back(self) -> float:
        """Pull on a tie-back at its top, lbf."""
        high = self.opening.height
        return 0.0 if self.tip is None or high is None else tie_back_lbf(self.tip, high.nm)


@of_each(Opening)
def cabinets(job: Job, opening: Opening) -> Cabinet | None:
    """Every opening made of boards whose sizes are known."""
    size = (opening.width, opening.height, opening.depth, opening.thickness)
    if any(one is None for one in size):
        return None
    wide, high, deep, thick = (one.nm for one in size if one is not None)
    inside = inside_of(opening)
    if not inside.width_nm or not inside.depth_nm or min(inside.width_nm, inside.depth_nm, high, thick) <= 0:
        return None
    made = (
        ("side", high, deep, 2),
        ("top and bottom", inside.width_nm, deep, 2),
        ("back", wide, high, 1),
    )
    drawer = is_drawer(opening)
    leaves = 0 if drawer or opening.door == "none" or opening.hinge not in HINGED else _leaves(opening, wide)
    door = _door(wide, high, leaves, opening, thick)
    door_lb = 0.0 if door is None else _door_lb(opening, door, thick)
    count = (
        None
        if door is None
        else hinges(door.height_nm if opening.hinge in ("left", "right") else door.width_nm, door_lb)
    )
    slide = slide_nm(inside.depth_nm) if drawer else None
    load = _load(job, opening)
    carcass = 2 * weight_lb(high, deep, thick, opening.material) + 2 * weight_lb(wide, deep, thick, opening.material)
    standing = opening.y is not None and opening.y.nm == 0
    tipping = (
        tip(deep, carcass + (0 if drawer else load), load if drawer else 0.0, slide or 0)
        if standing and drawer
        else None
    )
    hardware = _hardware(job.settings.metric, leaves, count, slide, load)
    return Cabinet(
        opening, made, door, leaves, door_lb, count, slide, _drawer(inside.width_nm) if drawer else None, load, tipping,
        standing and high >= TALL_NM, hardware, "hardware" in opening.parts,
    )  # fmt: skip


def _hinged_side(opening: Opening, door: Door) -> int:
    return door.height_nm if opening.hinge in ("left", "right") else door.width_nm


def _leaves(opening: Opening, wide: int) -> int:
    return 2 if opening.hinge in ("left", "right") and wide > WIDE_DOOR_NM else 1


def _door(wide: int, high: int, leaves: int, opening: Opening, thick: int) -> Door | None:
    try:
        return doors(wide, high, leaves, opening.door_laid, thick) if leaves else None
    except ValueError:
        return None


def _door_lb(opening: Opening, door: Door, thick: int) -> float:
    if opening.door == "glass":
        return weight_lb(door.width_nm, door.height_nm, GLASS_NM, "glass")
    return weight_lb(door.width_nm, door.height_nm, thick, opening.material)


def _drawer(inside: int) -> int | None:
    try:
        return drawer_width(inside)
    except ValueError:
        return None


def _load(job: Job, opening: Opening) -> float:
    placed = sum(
        one.weight.pounds * one.count
        for one in in_opening(job).get(opening.tag, ())
        if one.weight is not None and not hangs(one)
    )
    typed = 0.0 if opening.load is None else max(0.0, opening.load.pounds)
    drawer = is_drawer(opening)
    return max(placed, typed) or (DRAWER_LB if drawer else 0.0)


def _slide_text(metric: bool, slide: int, load: float) -> str:
    """Length and rating as slides are sold: whole inches and pounds, or steps of 50 mm and whole kilograms."""
    if metric:
        return (
            f"drawer slide {slide // MM_NM // 50 * 50} mm, rated {ceil(load * POUND_UG / KILOGRAM_UG)} kg or more, pair"
        )
    return f"drawer slide {slide // INCH_NM} in, rated {ceil(load)} lb or more, pair"


def _hardware(
    metric: bool, leaves: int, count: int | None, slide: int | None, load: float
) -> tuple[tuple[str, int], ...]:
    found = []
    if leaves and count:
        found.append(("concealed hinge", leaves * count))
    if slide is not None:
        found.append((_slide_text(metric, slide, load), 1))
    return tuple(found)
