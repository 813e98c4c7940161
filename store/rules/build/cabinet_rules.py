"""Findings about cabinets: doors too heavy, drawers too shallow, what tips, and what a child reaches."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.length import INCH_NM
from store.records.equipment import Equipment
from store.records.wall import Opening
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.build.cabinets import PLINTH_NM, Standing, cabinets, standing
from store.rules.core.amounts import force, heavy
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import sized
from store.rules.wall.cabinets import openings_at
from store.rules.wall.hung import hidden_by
from store.rules.wall.pieces import gives_heat, hangs, is_hidden
from store.rules.wall.places import equipment_rect
from store.trade.build.cabinet import CHILD_LBF, METRIC_SLIDES_NM, SLIDE_BEHIND_NM, SLIDE_CLASSES_LB, SLIDES_NM

TIP_SOURCE = "Statics; 60 lb on an open drawer: 16 CFR 1261, ASTM F2057, from memory"
CHILD_REACH_NM = 48 * INCH_NM
"""Below this a small child reaches; our own line."""


@rule
@from_each(Opening)
def door_too_heavy(job: Job, opening: Opening) -> Iterable[Finding]:
    """A door that concealed hinges do not carry."""
    tag, one = opening.tag, cabinets(job).get(opening.tag)
    if one is None:
        return
    if one.door is None or one.hinges is not None:
        return
    size = f"{sized(job, one.door.width_nm)} x {sized(job, one.door.height_nm)}"
    yield Finding(
        "door_too_heavy",
        "fix",
        (tag,),
        "Door too heavy for concealed hinges",
        "Make two doors of it, use lighter stock, or ask the hinge manufacturer for a heavier hinge.",
        "Common practice: hinge charts by height and weight",
        {"door": size, "weight": f"{one.door_lb:.1f} lb"},
        why=f"{size} weighs about {heavy(job, one.door_lb)}.",
    )


@rule
@from_each(Opening)
def drawer_too_shallow(job: Job, opening: Opening) -> Iterable[Finding]:
    """A drawer in which no slide goes."""
    tag, one = opening.tag, cabinets(job).get(opening.tag)
    if one is None:
        return
    if one.drawer and one.slide_nm is None:
        yield Finding(
            "drawer_too_shallow",
            "fix",
            (tag,),
            "Too shallow for a drawer slide",
            f"Make it {_least_deep(job)} deep inside or more, or use a door.",
            "Common practice",
            {"depth": sized(job, one.opening.depth.nm if one.opening.depth else 0)},
            why=f"The shortest side-mount slide and the room behind it take {_least_deep(job)}.",
        )


@rule
@from_each(Opening)
def drawer_too_heavy(job: Job, opening: Opening) -> Iterable[Finding]:
    """A drawer that no class of side-mount slides carries."""
    one = cabinets(job).get(opening.tag)
    if one is None or one.slide_nm is None or one.slide_lb is not None:
        return
    most, whole = SLIDE_CLASSES_LB[-1], one.load_lb + one.drawer_lb
    yield Finding(
        "drawer_too_heavy",
        "fix",
        (opening.tag,),
        "Drawer too heavy for its slides",
        "Put less in it, make two drawers of it, or use a shelf.",
        "Common practice: slide classes; the manufacturer's sheet wins",
        {"weight": f"{whole:.1f} lb"},
        why=f"{heavy(job, one.load_lb)} in a drawer of {heavy(job, one.drawer_lb)}; the heaviest side-mount slides are "
        f"rated {heavy(job, most)} the pair.",
    )


@rule
@from_each(Opening)
def cabinet_tips(job: Job, opening: Opening) -> Iterable[Finding]:
    """A cabinet on the floor that a child on its open drawer would pull over, or a tall one that nothing ties back.

    What is one piece is told of once: of the drawer that pulls it over, else of the part at its bottom.
    """
    one = standing(job).get(opening.tag)
    if one is None or one.tied == "yes" or not one.wants_tie or not _speaks(job, opening, one):
        return
    if one.tied == "unknown" and not one.falls:
        return  # most built-in cabinets are screwed back; the carpenter's list asks for it
    unsaid = one.tied == "unknown"
    why = f"A child ({heavy(job, CHILD_LBF)}) on its open drawer tips it over." if one.falls else "It is tall."
    yield Finding(
        "cabinet_tips",
        "fix" if one.falls and not unsaid else "look",
        (opening.tag,),
        "Tie-back of this cabinet not entered" if unsaid else "Cabinet can tip over",
        "Screw it back to a stud or blocking near its top before anything goes in.",
        TIP_SOURCE,
        {"pull": f"{one.pull_lbf:.1f} lb", "tied": one.tied},
        why=f"{why} The tie-back near its top must hold {force(job, max(one.pull_lbf, CHILD_LBF))}.",
    )


def _speaks(job: Job, opening: Opening, one: Standing) -> bool:
    """Whether a piece is told of at this opening of it."""
    if one.drawer and one.falls:
        return opening.tag == one.drawer
    return opening.y is not None and opening.y.nm <= PLINTH_NM


@rule
@from_each(Equipment)
def child_reaches(job: Job, one: Equipment) -> Iterable[Finding]:
    """A heater within a small child's reach, where small children live or visit."""
    if job.settings.children != "yes":
        return
    tag = one.tag
    rect = equipment_rect(job, one)
    if one.retired is None and gives_heat(one) and rect is not None and rect.y < CHILD_REACH_NM:
        yield Finding(
            "child_reaches",
            "look",
            (tag,),
            "Hot front within a child's reach",
            "Plan a guard that its manual allows, keep cords up, and use the lock of its control.",
            "Common practice; the heater's manual wins",
            {"height": sized(job, rect.y)},
            why=f"Its lower edge is {sized(job, rect.y)} off the floor.",
        )


def _least_deep(job: Job) -> str:
    shortest = min(METRIC_SLIDES_NM if job.settings.metric else SLIDES_NM)
    return sized(job, shortest + SLIDE_BEHIND_NM)


@rule
@from_each(Equipment)
def child_reaches_cord(job: Job, one: Equipment) -> Iterable[Finding]:
    """A cord that a small child can pull, where small children live or visit: plugged in low and in the open.

    A plug behind the thing itself or behind another, or behind a door, is out of reach.
    """
    if job.settings.children != "yes" or one.retired is not None or one.power not in ("cord", "wall-wart"):
        return
    low = _open_at(job, one)
    if low is None or low >= CHILD_REACH_NM:
        return
    yield Finding(
        "child_reaches_cord",
        "look",
        (one.tag, *([str(one.plug)] if one.plug else [])),
        "Cord within a child's reach",
        "Plug it in behind the equipment or behind a door, or cover the cord and the receptacle. "
        "No cord goes in or through a wall.",
        "Common practice; the manual wins",
        {"height": sized(job, low)},
        why=f"{'It is plugged in' if one.plug else 'It stands'} {sized(job, low)} off the floor, in the open.",
    )


def _open_at(job: Job, one: Equipment) -> int | None:
    """How high the cord of a thing is in the open; None where it is behind something, or nobody knows."""
    at = job.get(one.plug) if one.plug else None
    if isinstance(at, Box):
        if at.y is None or hidden_by(job).get(at.tag) or any(_shut(job, tag) for tag in openings_at(job, at.tag)):
            return None
        return at.y.nm
    stands = at if isinstance(at, Equipment) else one
    if hangs(stands) or (stands.opening and _shut(job, stands.opening)):
        return None
    rect = equipment_rect(job, stands)
    return rect.y if rect is not None and not is_hidden(stands) else None


def _shut(job: Job, tag: str) -> bool:
    around = job.of(Opening).get(tag)
    return around is not None and (around.door != "none" or around.use in ("screen", "fireplace", "drawer"))
