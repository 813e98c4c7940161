"""Findings about fireplaces and heaters: recessed though not made for it, heat with nowhere to go, figures not known.

Every clearance comes from the maker's manual. One that is empty is not known; nothing stands in for it, and nothing
here ever advises to change the appliance.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from store.measure.length import Length
from store.records.equipment import Equipment
from store.records.wall import Opening
from store.records.whole import Job
from store.rules.core.findings import Finding, rule
from store.rules.core.wording import listed, named, said
from store.rules.wall.contents import CLOSED, inside_of
from store.rules.wall.layout import Direction, Neighbours, Placed, walls
from store.rules.wall.pieces import gives_heat, hangs

MAKER = "the maker's manual of the appliance; listing and instructions govern, NEC 110.3(B)"
NOT_RECESSED = ("surface only", "wall bracket", "shelf")
"""Mountings that are not made for a recess."""
CLEARANCES = {
    "left": "clear_left",
    "right": "clear_right",
    "above": "clear_top",
    "below": "clear_bottom",
    "in front": "clear_front",
    "behind": "clear_back",
}
FACING: dict[str, tuple[Direction, ...]] = {"top": ("top",), "bottom": ("bottom",), "sides": ("left", "right")}
WORDS: dict[Direction, str] = {"top": "above", "bottom": "below", "left": "to the left of", "right": "to the right of"}


def heaters(job: Job) -> Iterator[tuple[Equipment, Opening | None]]:
    """Everything made to give heat that is not retired, with its opening."""
    for one in job.of(Equipment).values():
        if gives_heat(one) and one.retired is None:
            yield one, job.of(Opening).get(one.opening)


@rule
def surface_unit_recessed(job: Job) -> Iterable[Finding]:
    """A heater in a recess that its maker did not make to be recessed."""
    for one, opening in heaters(job):
        if opening is None or opening.depth is None or one.mounting not in NOT_RECESSED:
            continue
        deep = said(job, opening.depth.nm)
        yield Finding(
            "surface_unit_recessed",
            "stop",
            (one.tag, opening.tag),
            f"{named(job, one.tag)} is for {_mount(one)}, and {named(job, opening.tag)} is a recess {deep} deep.",
            "Choose a unit that its maker made to be recessed, or hang this one on the finished wall as its manual "
            "says. The appliance is never changed to suit.",
            MAKER,
            {"mounting": one.mounting, "depth": deep},
        )


def _mount(one: Equipment) -> str:
    words = {"surface only": "a finished surface only", "wall bracket": "a wall bracket"}
    return words.get(one.mounting, "standing on a shelf or the floor")


@rule
def heater_not_known(job: Job) -> Iterable[Finding]:
    """A heater in an opening, of which the mounting, the heat outlet or the depth of the recess is not known."""
    for one, opening in heaters(job):
        if opening is None:
            continue
        missing = ["how it may be mounted"] if one.mounting == "unknown" else []
        missing += ["where its warm air comes out"] if one.heat_side == "unknown" else []
        if one.mounting in NOT_RECESSED and opening.depth is None:
            missing.append(f"how deep {opening.tag} is")
        if missing:
            yield Finding(
                "heater_not_known",
                "look",
                (one.tag, opening.tag),
                f"Of {named(job, one.tag)}, meant for {named(job, opening.tag)}, it is not noted {listed(missing)}.",
                "Look in its manual, or ask the maker, before anything is bought or framed: only a unit made to be "
                "recessed goes into a recess, and nothing may stand in the way of its heat.",
                MAKER,
                {"missing": ", ".join(missing)},
            )


@rule
def heat_outlet_closed(job: Job) -> Iterable[Finding]:
    """Warm air that comes out behind a closed door, or against an opening that stands in its way."""
    around: dict[str, Neighbours] = {}
    for one, opening in heaters(job):
        if opening is None or one.heat_side == "unknown":
            continue
        if opening.door in CLOSED:
            yield _closed(
                one,
                (one.tag, opening.tag),
                f"{named(job, one.tag)} gives its heat behind the {opening.door} door of {named(job, opening.tag)}.",
                {"outlet": one.heat_side, "door": opening.door},
            )
        wall = walls(job).get(opening.wall)
        place = next((each for each in wall.openings if each.tag == opening.tag), None) if wall else None
        if wall is None or place is None:
            continue
        beside = around.setdefault(opening.wall, Neighbours(wall.openings))
        for way in FACING.get(one.heat_side, ()):
            yield from _faced(job, one, opening, way, place, beside)


def _faced(
    job: Job, one: Equipment, own: Opening, way: Direction, place: Placed, beside: Neighbours
) -> Iterator[Finding]:
    """Openings straight on from the outlet, nearer than the maker allows: any above, else those that are closed."""
    wants: Length | None = getattr(one, f"clear_{way}")
    for each in beside.facing(place.rect, way):
        door = job.of(Opening)[each.tag].door
        gap = _gap(one, own, place, way, each)
        if (way != "top" and door not in CLOSED) or (wants is not None and gap >= wants.nm):
            continue
        asked = "what the maker asks for is not noted" if wants is None else f"the maker asks for {said(job, wants.nm)}"
        yield _closed(
            one,
            (one.tag, each.tag),
            f"The heat of {named(job, one.tag)} comes out towards {named(job, each.tag)}, "
            f"{said(job, gap)} {WORDS[way]} it; {asked}.",
            {
                "outlet": one.heat_side,
                "gap": said(job, gap),
                "asks": said(job, wants.nm) if wants is not None else "not known",
            },
        )


def _gap(one: Equipment, own: Opening, place: Placed, way: Direction, each: Placed) -> int:
    """From the appliance to what it faces; from its opening where its size is not known."""
    inner = inside_of(own)
    room_up = inner.height_nm - one.height.nm if inner.height_nm is not None and one.height is not None else 0
    room_across = inner.width_nm - one.width.nm if inner.width_nm is not None and one.width is not None else 0
    above = max(0, room_up // 2 if hangs(one) else room_up)
    return {
        "top": each.rect.y_nm - place.rect.top_nm + above,
        "bottom": place.rect.y_nm - each.rect.top_nm + max(0, room_up) - above,
        "left": place.rect.x_nm - each.rect.right_nm + max(0, room_across // 2),
        "right": each.rect.x_nm - place.rect.right_nm + max(0, room_across // 2),
    }[way]


def _closed(one: Equipment, tags: tuple[str, ...], says: str, numbers: dict[str, str]) -> Finding:
    return Finding(
        "heat_outlet_closed",
        "stop",
        tags,
        says,
        f"Keep the way of the warm air open: leave the door off, move one of both, or choose a unit with another "
        f"outlet; note the clearances that the manual of {one.name} prints. The appliance is never changed to suit.",
        MAKER,
        numbers,
    )


@rule
def heater_clearance_not_known(job: Job) -> Iterable[Finding]:
    """A heater of which a clearance is empty: not known, and nothing stands in for it."""
    for one, _ in heaters(job):
        missing = [words for words, key in CLEARANCES.items() if getattr(one, key) is None]
        if missing:
            yield Finding(
                "heater_clearance_not_known",
                "look",
                (one.tag,),
                f"Of {named(job, one.tag)}, the maker's clearance {listed(missing)} is not known.",
                "Copy each from its maker's manual, 0 where the manual says so; what it does not print, ask the maker. "
                "No other figure will do.",
                MAKER,
                {"missing": ", ".join(missing)},
            )


@rule
def surface_may_burn(job: Job) -> Iterable[Finding]:
    """A heater on a wall whose surface burns, or of which that is not known."""
    for one, opening in heaters(job):
        wall = walls(job).get(opening.wall) if opening else None
        if wall is None or wall.wall.burns == "no":
            continue
        state = "burns" if wall.wall.burns == "yes" else "may burn: it is not noted"
        yield Finding(
            "surface_may_burn",
            "look",
            (one.tag, wall.wall.tag),
            f"{named(job, one.tag)} is on {named(job, wall.wall.tag)}, whose surface {state}.",
            "See in its manual what may be near it, above it and in front of it, and note of what the surface is made.",
            MAKER,
            {"burns": wall.wall.burns},
        )
