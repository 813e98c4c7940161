"""Findings about cables in the framing they run through: too shallow, of steel, or a bay that air moves in."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from store.measure.length import INCH_NM
from store.records.wall import Obstacle, Wall
from store.records.whole import Job
from store.records.wiring import Cable, Raceway
from store.rules.cable.in_wall import in_the_wall
from store.rules.cable.kinds import is_power, kind_of
from store.rules.cable.routes import routes
from store.rules.core.code import edition, is_us
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import by_key, filed, from_each
from store.rules.core.wording import at_most, few_of, plural, sized
from store.rules.wall.layout import outline, walls
from store.trade.cable.jackets import markings
from store.trade.measured.citations import nec
from store.trade.measured.framing import PLATE_DISTANCE_NM, Bay, bay_of

STEEL = "steel"
PLENUM = ("CMP", "CL2P", "CL3P", "OFNP", "FPLP")
"""Marked for spaces that air moves in. NFPA 70 300.22(C)(1)."""
RETURN = "return air"
AIR = ("vent", RETURN)
ALONG_OVER_NM = 12 * INCH_NM
"""A cable that rises no more than this from a box to the hole that it goes on through crosses the bay, and does not
run along it. Our own reading, no source."""
_METAL = ("mc-", "ac-")


@filed(Cable)
def in_framing(job: Job, cable: Cable) -> Iterator[tuple[str, str]]:
    """The cables that lie loose in each wall, by the wall; those in EMT are left out, which needs no plate."""
    raceway = job.of(Raceway).get(cable.raceway) if cable.route == "raceway" else None
    if not in_the_wall(job, cable) or (raceway is not None and raceway.type == "EMT"):
        return
    for wall in dict.fromkeys(leg.wall for leg in routes(job)[cable.tag].legs if leg.place in ("wall", "raceway")):
        yield wall, cable.tag


@filed(Cable)
def _beside(job: Job, cable: Cable) -> Iterator[tuple[str, str]]:
    """The cables of which an upright stretch runs along the stud bay that a vent is in, by the vent."""
    route = routes(job).get(cable.tag)
    for leg in route.in_wall if route is not None else ():
        if leg.start[0] == leg.end[0] and abs(leg.start[1] - leg.end[1]) > ALONG_OVER_NM:
            for vent, bays, row in _vents(job).get(leg.wall, ()):
                if bay_of(row, leg.start[0], leg.start[0]) in bays:
                    yield vent, cable.tag


@by_key
def _vents(job: Job) -> Mapping[str, tuple[tuple[str, tuple[Bay, ...], tuple[Bay, ...]], ...]]:
    """The vents of each wall: the bays of its studs that each is in, and all bays of the wall."""
    found: dict[str, list[tuple[str, tuple[Bay, ...], tuple[Bay, ...]]]] = {}
    for tag, vent in job.of(Obstacle).items():
        layout, place = walls(job).get(vent.wall), outline(vent)
        if vent.what in AIR and layout is not None and place is not None:
            bays = (each for each in layout.bays if place.x_nm < each.right_nm and each.left_nm < place.right_nm)
            found.setdefault(vent.wall, []).append((tag, tuple(bays), layout.bays))
    return {wall: tuple(vents) for wall, vents in found.items()}


@rule
@from_each(Wall)
def cable_too_near_face(job: Job, wall: Wall) -> Iterable[Finding]:
    """Furring or studs so shallow that no cable in them can be 1-1/4 in back from the face; one finding a wall."""
    depth = wall.stud_depth.nm
    thick = {
        tag: kind.outside_nm
        for tag in in_framing(job).get(wall.tag, ())
        if (kind := kind_of(job.of(Cable)[tag])) is not None
    }
    near = tuple(tag for tag, wide in thick.items() if depth - wide < PLATE_DISTANCE_NM)
    if near and is_us(job):
        left = max(0, depth - max(thick[tag] for tag in near))
        yield Finding(
            "cable_too_near_face",
            "fix",
            (*near, wall.tag),
            f"Within 1-1/4 in of the drywall on {wall.tag}",
            "Cover the whole run with 1/16 in steel, run it in EMT, or run it in the studs behind.",
            nec("300.4(D)", edition(job)),
            {"framing": sized(job, depth), "left": sized(job, left)},
            why=f"{wall.tag} is {sized(job, depth)} deep: {plural(len(near), 'cable')} can be at most "
            f"{at_most(job, left)} back from its face. Screws reach 1-1/4 in.",
            about=near,
        )


@rule
@from_each(Wall)
def steel_stud_bushings(job: Job, wall: Wall) -> Iterable[Finding]:
    """Power cable through holes in steel studs: bushings before it is pulled; one finding a wall."""
    if STEEL not in wall.framing or not is_us(job):
        return
    through = tuple(
        tag
        for tag in in_framing(job).get(wall.tag, ())
        if is_power(job, job.of(Cable)[tag])
        and not job.of(Cable)[tag].type.lower().startswith(_METAL)
        and job.of(Cable)[tag].route != "raceway"
        and any(leg.wall == wall.tag and leg.start[0] != leg.end[0] for leg in routes(job)[tag].in_wall)
    )
    if through:
        yield Finding(
            "steel_stud_bushings",
            "look",
            (*through, wall.tag),
            f"Bushings in the steel studs of {wall.tag}",
            "Snap a listed bushing or grommet into every hole before the cable is pulled. Add nail plates where "
            "screws can reach it.",
            nec("300.4(B)(1)", edition(job)),
            {"framing": wall.framing},
            why=f"{plural(len(through), 'power cable')} {'runs' if len(through) == 1 else 'run'} through punched "
            "steel, which cuts the jacket.",
            about=through,
        )


@rule
@from_each(Obstacle)
def cable_in_air_space(job: Job, vent: Obstacle) -> Iterable[Finding]:
    """Cables that run along the stud bay of a vent and are not made for air spaces: asked about where the vent may be
    of a duct, a stop where the bay itself takes air back; one finding a vent."""
    if vent.what not in AIR or not is_us(job):
        return
    loose = set(in_framing(job).get(vent.wall, ()))
    beside = dict.fromkeys(tag for tag in _beside(job).get(vent.tag, ()) if tag in loose)
    cables = [job.of(Cable)[tag] for tag in beside]
    along = [one for one in cables if not _for_air(one)]
    if along:
        tags, sure = tuple(one.tag for one in along), vent.what == RETURN
        power = [one.tag for one in along if is_power(job, one)]
        never = f" {few_of(power)}: NM is not allowed along it at all." if power else ""
        instead = "use another bay, or CMP, CL2P or CL3P cable." + (" For power: metal-clad cable." if power else "")
        yield Finding(
            "cable_in_air_space",
            "stop" if sure else "look",
            (*tags, vent.tag),
            f"In the return air of {vent.tag}" if sure else f"In the stud bay of vent {vent.tag}",
            f"{instead[0].upper()}{instead[1:]}"
            if sure
            else f'Ask: "Is that bay of {vent.wall} a return-air space or a duct?" If it is, {instead}',
            nec("300.22(C)", edition(job)),
            {"vent": vent.tag, "ratings": few_of((f"{one.tag} {one.rating or 'not entered'}" for one in along), 99)},
            why="Along a space that moves air, cable must be plenum-rated; straight across a stud bay it does not "
            "have to be." + never,
            about=tags,
        )


def _for_air(cable: Cable) -> bool:
    marks = {each.upper() for text in (cable.rating, cable.type) for each in markings(text)}
    return bool(marks & {*PLENUM}) or cable.type.lower().startswith(_METAL)
