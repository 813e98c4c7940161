"""Findings about fireplaces and heaters: recessed though not made for it, heat with nowhere to go, figures not known.

Every clearance comes from the maker's manual. One that is empty is not known; nothing stands in for it, and nothing
here ever advises to change the appliance.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from store.measure.length import INCH_NM, Length
from store.records.equipment import Equipment
from store.records.wall import Opening
from store.records.whole import Job
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import compared, listed, named, said, sized
from store.rules.heat.heater import manual
from store.rules.wall.contents import CLOSED
from store.rules.wall.finishes import finish_at
from store.rules.wall.layout import Direction, Neighbours, Placed, walls
from store.rules.wall.pieces import gives_heat, hangs, inside_of
from store.rules.wall.places import wall_of

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
FREE_NM = 12 * INCH_NM
"""With so much before it, warm air finds its way out of a recess whose front is open; our own, no source."""
WORDS: dict[Direction, str] = {"top": "above", "bottom": "below", "left": "to the left of", "right": "to the right of"}


def heaters(job: Job) -> Iterator[tuple[Equipment, Opening | None]]:
    """Everything made to give heat that is not retired, with its opening."""
    for one in job.of(Equipment).values():
        if gives_heat(one) and one.retired is None:
            yield one, job.of(Opening).get(one.opening)


@rule
@from_each(Equipment)
def surface_unit_recessed(job: Job, one: Equipment) -> Iterable[Finding]:
    """A heater in a recess that its maker did not make to be recessed."""
    if not gives_heat(one) or one.retired is not None:
        return
    opening = job.of(Opening).get(one.opening)
    if opening is None or opening.depth is None or one.mounting not in NOT_RECESSED:
        return
    deep = said(job, opening.depth.nm)
    yield Finding(
        "surface_unit_recessed",
        "stop",
        (one.tag, opening.tag),
        f"Surface-mount heater in a recess, {opening.tag}",
        (
            "Pick a unit made to be recessed, or mount this one on the finished wall as its manual "
            "says. Never change the appliance."
        ),
        manual(job),
        {"mounting": one.mounting, "depth": deep},
        why=(
            f"{one.tag} is made for {_mount(one)}, and {named(job, opening.tag)} is "
            f"{sized(job, opening.depth.nm)} deep."
        ),
        about=(one.tag,),
    )


def _mount(one: Equipment) -> str:
    words = {"surface only": "a finished surface only", "wall bracket": "a wall bracket"}
    return words.get(one.mounting, "a shelf or the floor")


@rule
@from_each(Equipment)
def heater_not_known(job: Job, one: Equipment) -> Iterable[Finding]:
    """A heater in an opening, of which the mounting, the heat outlet or the depth of the recess is not known."""
    if not gives_heat(one) or one.retired is not None:
        return
    opening = job.of(Opening).get(one.opening)
    if opening is None:
        return
    missing = ["how it may be mounted"] if one.mounting == "unknown" else []
    missing += ["where its warm air comes out"] if one.heat_side == "unknown" else []
    if one.mounting in NOT_RECESSED and opening.depth is None:
        missing.append(f"how deep {opening.tag} is")
    if missing:
        yield Finding(
            "heater_not_known",
            "look",
            (one.tag, opening.tag),
            f"Heater entries missing for {opening.tag}",
            (
                "Look in its manual, or ask the manufacturer, before you buy or frame. Only a unit made "
                "to be recessed goes in a recess, and nothing may block its heat."
            ),
            manual(job),
            {"missing": ", ".join(missing)},
            why=f"Not entered: {listed(missing)}.",
            about=(one.tag,),
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
                job,
                one,
                (one.tag, opening.tag),
                f"Heat outlet closed by the door of {opening.tag}",
                f"It gives its heat behind the {opening.door} door of {named(job, opening.tag)}.",
                {"outlet": one.heat_side, "door": opening.door},
            )
        wall = walls(job).get(opening.wall)
        place = next((each for each in wall.openings if each.tag == opening.tag), None) if wall else None
        if wall is None or place is None:
            continue
        beside = around.setdefault(opening.wall, Neighbours(wall.openings))
        for way in FACING.get(one.heat_side, ()):
            yield from _faced(job, one, opening, way, place, beside)
            yield from _into_its_recess(job, one, opening, way)


def _into_its_recess(job: Job, one: Equipment, own: Opening, way: Direction) -> Iterator[Finding]:
    """Warm air that comes out towards the head, the floor or a side of its own recess, with no clearance asked for."""
    wants: Length | None = getattr(one, f"clear_{way}")
    inner = inside_of(own)
    inside, size = (inner.height_nm, one.height) if way in ("top", "bottom") else (inner.width_nm, one.width)
    if wants is None or wants.nm > 0 or inside is None or size is None:
        return  # a figure that is asked for is held against the room by the fit, an empty one is asked for
    spare = max(0, inside - size.nm)
    if way in ("left", "right") or (hangs(one) and way in ("top", "bottom")):
        room = spare // 2
    else:
        room = spare if way == "top" else 0
    if room < FREE_NM:
        side = {"top": "head", "bottom": "floor", "left": "left side", "right": "right side"}[way]
        yield _closed(
            job,
            one,
            (one.tag, own.tag),
            f"Heat blows at the {side} of {own.tag}, {sized(job, room)} off",
            f"{named(job, own.tag)} closes {sized(job, room)} {WORDS[way]} {one.tag}, where its heat comes out. A "
            "clearance of 0 leaves the warm air no way.",
            {"outlet": one.heat_side, "room": said(job, room), "asks": said(job, 0)},
        )


def _faced(
    job: Job, one: Equipment, own: Opening, way: Direction, place: Placed, beside: Neighbours
) -> Iterator[Finding]:
    """Openings straight on from the outlet, nearer than the maker allows: any above, else those that are closed."""
    wants: Length | None = getattr(one, f"clear_{way}")
    for each in beside.facing(place.rect, way):
        door = job.of(Opening)[each.tag].door
        gap = _gap(one, own, place, way, each)
        # Towards what is shut a 0 is no clearance: the warm air has to go somewhere.
        enough = wants is not None and gap >= wants.nm and (wants.nm > 0 or door not in CLOSED)
        if (way != "top" and door not in CLOSED) or enough:
            continue
        asked = (
            "the manual's clearance is not entered"
            if wants is None
            else f"the manual asks for {compared(job, gap, wants.nm).need}"
        )
        yield _closed(
            job,
            one,
            (one.tag, each.tag),
            f"Heat blows at {each.tag}, {sized(job, gap)} {WORDS[way]} it",
            f"{named(job, each.tag)} is {sized(job, gap)} {WORDS[way]} {one.tag}, where its heat comes out; {asked}.",
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


def _closed(job: Job, one: Equipment, tags: tuple[str, ...], head: str, says: str, numbers: dict[str, str]) -> Finding:
    return Finding(
        "heat_outlet_closed",
        "stop",
        tags,
        head,
        (
            "Keep the path of the warm air open: leave the door off, move one of them, or pick a "
            f"unit with another outlet. Enter the clearances in the manual of {one.name}. Never "
            "change the appliance."
        ),
        manual(job),
        numbers,
        why=says,
        about=tags[:1],
    )


@rule
@from_each(Equipment)
def heater_clearance_not_known(job: Job, one: Equipment) -> Iterable[Finding]:
    """A heater of which a clearance is empty: not known, and nothing stands in for it."""
    if not gives_heat(one) or one.retired is not None:
        return
    missing = [words for words, key in CLEARANCES.items() if getattr(one, key) is None]
    if missing:
        yield Finding(
            "heater_clearance_not_known",
            "look",
            (one.tag,),
            "No manufacturer's clearance entered",
            "Copy each from its manual, 0 where the manual says 0. Ask the manufacturer for what it does not print. "
            "No other figure will do.",
            manual(job),
            {"missing": ", ".join(missing)},
            why=f"Missing: {listed(missing)}.",
        )


@rule
@from_each(Equipment)
def surface_may_burn(job: Job, one: Equipment) -> Iterable[Finding]:
    """A heater on a wall whose surface burns, or of which that is not known."""
    if not gives_heat(one) or one.retired is not None:
        return
    wall, there = walls(job).get(wall_of(job, one.tag)), finish_at(job, one.opening or one.tag)
    if wall is None or there.burns == "no":
        return
    yield Finding(
        "surface_may_burn",
        "look",
        (one.tag, wall.wall.tag),
        "Heater on a combustible wall" if there.burns == "yes" else "Heater: is the wall combustible?",
        ("See in its manual what can be near it, above it and in front of it, and enter what the surface is made of."),
        manual(job),
        {"burns": there.burns},
        why=(
            f"It is on {named(job, there.zone or wall.wall.tag)}, "
            f"{'which is combustible' if there.burns == 'yes' else 'with no answer entered'}."
        ),
        about=(one.tag,),
    )
