"""The carpenter's list of a cabinet: boards, doors, hinges, slides; and whether it stands."""

from __future__ import annotations

from collections.abc import Sequence
from math import floor

import msgspec

from store.measure.length import INCH_NM, MM_NM
from store.measure.mass import KILOGRAM_UG, POUND_UG
from store.records.build import Fixing
from store.records.wall import Known, Opening
from store.records.whole import Job
from store.rules.core.keyed import index, of_each
from store.rules.core.memo import once
from store.rules.wall.cabinets import cabinets as pieces
from store.rules.wall.layout import in_opening
from store.rules.wall.pieces import hangs, inside_of, is_drawer
from store.trade.build.cabinet import (
    TALL_NM,
    WIDE_DOOR_NM,
    Door,
    Tip,
    doors,
    drawer_lb,
    drawer_width,
    hinges,
    slide_class_lb,
    slide_nm,
    tie_back_lbf,
    tip,
    weight_lb,
)

HINGED = ("left", "right", "top", "bottom")
GLASS_NM = INCH_NM // 4
"""Thickness of the glass of a glass door; our own assumption."""
PLINTH_NM = 4 * INCH_NM
"""A cabinet that begins no higher stands on its toe kick: practice of 3 to 3-1/2 in (KCMA, NKBA, from memory)."""
fixings_of = index(Fixing, lambda one: (str(one.of),))
"""The screws of each thing."""
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
    slide_lb: int | None
    """Class of its slides; None of no drawer, or of one too heavy for all."""
    drawer_nm: int | None
    load_lb: float
    drawer_lb: float
    """The drawer itself, empty; 0 of what is none."""
    carcass_lb: float
    hardware: tuple[tuple[str, int], ...]
    at_hand: bool

    @property
    def drawer(self) -> bool:
        """Whether it pulls out."""
        return is_drawer(self.opening)


class Standing(msgspec.Struct, frozen=True):
    """How a cabinet stands on the floor, with all openings that are one piece with it."""

    tip: Tip | None
    """With its worst drawer pulled out and a child on it; None with no drawer."""
    drawer: str
    """That drawer."""
    tall: bool
    top_nm: int
    """Off the floor: where a tie-back goes."""
    tied: Known
    fixings: tuple[str, ...]
    """Screws that were entered for it."""

    @property
    def pull_lbf(self) -> float:
        """Pull on a tie-back at its top."""
        return 0.0 if self.tip is None or self.top_nm <= 0 else tie_back_lbf(self.tip, self.top_nm)

    @property
    def falls(self) -> bool:
        """Whether a child on its drawer pulls it over."""
        return self.tip is not None and not self.tip.stands

    @property
    def wants_tie(self) -> bool:
        """Whether it is to be tied to the wall."""
        return self.falls or self.tall


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
    metric, load = job.settings.metric, _load(job, opening)
    slide = slide_nm(inside.depth_nm, metric) if drawer else None
    box = _drawer(inside.width_nm) if drawer else None
    empty = drawer_lb(box, high, slide, thick, opening.material) if box is not None and slide is not None else 0.0
    carcass = 2 * weight_lb(high, deep, thick, opening.material) + 2 * weight_lb(wide, deep, thick, opening.material)
    rated = slide_class_lb(load + empty) if slide is not None else None
    hardware = _hardware(metric, leaves, count, slide, rated)
    return Cabinet(
        opening, made, door, leaves, door_lb, count, slide, rated, box, load, empty, carcass, hardware,
        "hardware" in opening.parts,
    )  # fmt: skip


@of_each(Opening)
def standing(job: Job, opening: Opening) -> Standing | None:
    """Every cabinet that stands on the floor, told of each opening of it: those that touch are one piece."""
    if opening.tag not in cabinets(job) or opening.tag not in pieces(job):
        return None
    root = pieces(job)[opening.tag]
    members = [cabinets(job)[tag] for tag in _of_piece(job).get(root, ()) if tag in cabinets(job)]
    placed = [one for one in members if one.opening.y is not None]
    if not placed or min(one.opening.y.nm for one in placed if one.opening.y is not None) > PLINTH_NM:
        return None
    top = max(one.opening.y.nm + one.opening.height.nm for one in placed if one.opening.y and one.opening.height)
    tip, drawer = _worst(members)
    fixings = tuple(each.tag for one in members for each in fixings_of(job).get(one.opening.tag, ()) if _ties(each))
    return Standing(tip, drawer, top >= TALL_NM, top, _tied(members, bool(fixings)), fixings)


@once
def _of_piece(job: Job) -> dict[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for tag, root in pieces(job).items():
        found[root] = (*found.get(root, ()), tag)
    return found


def _worst(members: Sequence[Cabinet]) -> tuple[Tip | None, str]:
    """The drawer that tips the piece most, pulled out with a child on it; all else holds it down, as deep as it is."""
    worst: tuple[Tip | None, str] = (None, "")
    for one in members:
        if not one.drawer or one.opening.depth is None:
            continue
        rest = sum(each.carcass_lb + each.load_lb + each.drawer_lb for each in members) - one.load_lb - one.drawer_lb
        turning = tip(one.opening.depth.nm, rest, one.load_lb + one.drawer_lb, one.slide_nm or 0)
        if worst[0] is None or turning.tips - turning.holds > worst[0].tips - worst[0].holds:
            worst = turning, one.opening.tag
    return worst


def _ties(one: Fixing) -> bool:
    return one.into not in ("unknown", "drywall")


def _tied(members: Sequence[Cabinet], screwed: bool) -> Known:
    """What is entered of any part of it; screws into framing that are on the plan are known."""
    said = {one.opening.tied for one in members}
    return "yes" if screwed or "yes" in said else "no" if "no" in said else "unknown"


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


def _slide_text(metric: bool, slide: int, rated_lb: int) -> str:
    """Length and class as slides are sold: whole inches and pounds, or steps of 50 mm and whole kilograms."""
    if metric:
        kilograms = floor(rated_lb * POUND_UG / KILOGRAM_UG)
        return f"drawer slide {slide // MM_NM // 50 * 50} mm, rated {kilograms} kg or more, pair"
    return f"drawer slide {slide // INCH_NM} in, rated {rated_lb} lb or more, pair"


def _hardware(
    metric: bool, leaves: int, count: int | None, slide: int | None, rated: int | None
) -> tuple[tuple[str, int], ...]:
    found = []
    if leaves and count:
        found.append(("concealed hinge", leaves * count))
    if slide is not None and rated is not None:
        found.append((_slide_text(metric, slide, rated), 1))
    return tuple(found)
