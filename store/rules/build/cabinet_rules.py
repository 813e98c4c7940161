"""Findings about cabinets: doors too heavy, drawers too shallow, what tips, and what a child reaches."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.length import INCH_NM
from store.records.equipment import Equipment
from store.records.wall import Opening
from store.records.whole import Job
from store.rules.build.cabinets import cabinets
from store.rules.core.amounts import force, heavy
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import sized
from store.rules.wall.pieces import gives_heat
from store.rules.wall.places import equipment_rect
from store.trade.build.cabinet import CHILD_LBF

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
            "Make it 11 inches deep inside or more, or use a door.",
            "Common practice",
            {"depth": sized(job, one.opening.depth.nm if one.opening.depth else 0)},
            why="The shortest side-mount slide is 10 inches and needs an inch behind it.",
        )


@rule
@from_each(Opening)
def cabinet_tips(job: Job, opening: Opening) -> Iterable[Finding]:
    """A cabinet on the floor that a child on its open drawer would pull over, or a tall one that nothing ties back."""
    tag, one = opening.tag, cabinets(job).get(opening.tag)
    if one is None:
        return
    falls = one.tip is not None and not one.tip.stands
    if one.opening.tied != "no" or not (falls or one.tall):
        return
    pull = one.tie_back()
    why = f"A child ({heavy(job, CHILD_LBF)}) on its open drawer tips it over." if falls else "It is tall."
    yield Finding(
        "cabinet_tips",
        "fix" if falls else "look",
        (tag,),
        "Cabinet can tip over",
        "Screw it back to a stud or blocking near its top before anything goes in.",
        TIP_SOURCE,
        {"pull": f"{pull:.1f} lb", "tied": one.opening.tied},
        why=f"{why} The tie-back near its top must hold {force(job, max(pull, CHILD_LBF))}.",
    )


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
