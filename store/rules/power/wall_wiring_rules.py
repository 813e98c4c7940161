"""Findings about the wall as a place for wiring: receptacles along the finished wall, and holes bored for cables."""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil, floor

from store.measure.length import INCH_NM, Length
from store.records.wall import Wall
from store.records.whole import Job
from store.records.wiring import Cable
from store.rules.cable.routes import routes
from store.rules.core.code import edition, is_us
from store.rules.core.findings import Finding, Severity, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import ELECTRICIAN, INSPECTOR, at_least, at_most, few_of, plural, shown, sized
from store.rules.power.wall_wiring import bearing, bore_of, openings_on, receptacles_on, wall_spacing
from store.rules.wall.places import rect_of
from store.rules.wall.readings import sizes
from store.trade.measured.citations import nec
from store.trade.measured.framing import BORE_EDGE_NM, BORE_SOURCE, PLATE_DISTANCE_NM, PLATE_SOURCE, notch_limit
from store.trade.power.receptacles import Gap, Space, Spacing


@rule
@from_each(Wall)
def receptacles_too_far(job: Job, wall: Wall) -> Iterable[Finding]:
    """A part of the floor line of a finished wall that is more than 6 ft from a receptacle that counts."""
    if not is_us(job):
        return
    tag = wall.tag
    found = wall_spacing(job, tag)
    if found is None or found.within_reach:
        return
    short = [space for space in found.spaces if space.out_of_reach]
    gaps = [_between(job, gap) for space in short for gap in space.out_of_reach]
    places = [shown(_at(each), job) for space in short for each in space.add_at_in]
    yield Finding(
        "receptacles_too_far",
        _how_grave(job, tag, short, bool(receptacles_on(job).get(tag))),
        (tag,),
        "Wall more than 6' from a receptacle",
        (
            f"Plan a receptacle near {few_of(places)} from the left, or show that one around the "
            f"corner or in the floor covers it. {INSPECTOR}"
        ),
        nec("210.52(A)", edition(job)),
        {"out of reach": few_of(gaps, 99)},
        why=(
            f"Along the floor, {few_of(gaps)} from the left {'is' if len(gaps) == 1 else 'are'} more "
            f"than 6' from a receptacle that counts.{_not_counted(found)}"
        ),
    )


def _not_counted(found: Spacing) -> str:
    """The receptacles that do not count, by the reason, in a sentence; empty when there are none."""
    by_reason: dict[str, list[str]] = {}
    for note in found.not_counted:
        tag, _, reason = note.text.partition(" does not count for spacing: ")
        by_reason.setdefault(reason.replace("a cabinet or cupboard", "a cabinet or a recess"), []).append(tag)
    said = [f"{few_of(tags, 99)} ({reason.removeprefix('it is ')})" for reason, tags in by_reason.items()]
    return f" These do not count: {few_of(said, 99)}." if said else ""


def _how_grave(job: Job, wall: str, short: list[Space], any_listed: bool) -> Severity:
    """`look` where one round a corner may serve, where none of the wall is listed yet, or under a raised fireplace.

    An inspector may take the fireplace for the break in the wall that the code speaks of.
    """
    width = sizes(job)[wall, "width"].least.inches
    fires = [one for one in openings_on(job).get(wall, ()) if one.use == "fireplace"]
    over = [(rect.x / INCH_NM, rect.right / INCH_NM) for fire in fires if (rect := rect_of(fire)) is not None]
    inner = [
        gap
        for space in short
        for gap in space.out_of_reach
        if gap.start_in > 0 and gap.end_in < width and not any(a < gap.end_in and gap.start_in < b for a, b in over)
    ]
    return "fix" if inner and any_listed else "look"


def _at(inches: float) -> Length:
    return Length(round(inches) * INCH_NM)


def _between(job: Job, gap: Gap) -> str:
    """From where to where a gap goes, in whole inches, never shown as less than it is."""
    return f"{shown(_at(floor(gap.start_in)), job)} to {shown(_at(ceil(gap.end_in)), job)}"


@rule
def hole_too_large(job: Job) -> Iterable[Finding]:
    """A hole for a cable that weakens the stud, or comes so near its face that a plate is needed."""
    for tag, route in routes(job).items():
        cable = job.of(Cable)[tag]
        if not cable.in_wall or cable.retired is not None or cable.hole is None or route.studs == 0:
            continue
        if cable.hole.nm <= 0:
            continue
        for name in route.walls:
            wall = job.of(Wall).get(name)
            if wall is None or wall.stud_depth.nm <= 0:
                continue
            look = bore_of(wall, cable.hole)
            kind = "load-bearing or unknown" if bearing(wall) is not False else "non-bearing"
            numbers = {
                "hole": shown(cable.hole, job),
                "stud": shown(wall.stud_depth, job),
                "bearing": wall.bearing,
                "most": at_most(job, look.limit_nm),
            }
            if not look.allowed:
                yield Finding(
                    "hole_too_large",
                    "fix",
                    (tag, name),
                    f"Bored hole too large for the studs of {name}",
                    (
                        "Bore smaller holes, one for each cable, or run it over the top. A stud already bored needs "
                        "a stud shoe or what an engineer says. Notch no deeper than "
                        f"{at_most(job, notch_limit(wall.stud_depth.nm, bearing(wall)))}. "
                        f"{INSPECTOR}"
                    ),
                    BORE_SOURCE,
                    numbers,
                    why=(
                        f"{sized(job, cable.hole.nm)} holes in studs {sized(job, wall.stud_depth.nm)} deep, "
                        f"wall {kind}. "
                        f"The most is {at_most(job, look.limit_nm)}, with {sized(job, BORE_EDGE_NM)} left at each edge."
                    ),
                    about=(tag,),
                )
            elif look.plate_front or look.plate_back:
                sides = "both faces" if look.plate_front and look.plate_back else "one face"
                yield Finding(
                    "nail_plates_needed",
                    "look",
                    (tag, name),
                    f"Nail plates needed on {plural(route.studs or 0, 'stud')}",
                    (
                        f"Nail on steel plates at least {at_least(job, INCH_NM // 16)} thick, or listed ones, "
                        f"before drywall, and photograph them. {ELECTRICIAN}"
                    ),
                    PLATE_SOURCE,
                    {**numbers, "studs": "not measured" if route.studs is None else str(route.studs)},
                    why=(
                        f"{sized(job, cable.hole.nm)} holes in studs {sized(job, wall.stud_depth.nm)} deep leave "
                        f"less than {sized(job, PLATE_DISTANCE_NM)} to {sides}."
                    ),
                    about=(tag,),
                )


def _studs(bored: int | None) -> str:
    """How many studs want plates: `1 stud wants`, `3 studs want`."""
    if bored is None:
        return "each stud bored wants"
    return f"{bored} stud wants" if bored == 1 else f"{bored} studs want"
