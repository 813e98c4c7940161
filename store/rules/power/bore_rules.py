"""Findings about holes and notches in the framing for cables: too large, too near a face, through a top plate."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from store.measure.length import INCH_NM
from store.records.wall import Wall
from store.records.whole import Job
from store.records.wiring import Cable
from store.rules.cable.routes import routes
from store.rules.core.code import edition, is_us
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import ELECTRICIAN, INSPECTOR, at_least, at_most, plural, shown, sized
from store.rules.power.wall_wiring import bore_of, bore_source
from store.rules.wall.pieces import bearing
from store.trade.measured.citations import nec
from store.trade.measured.framing import (
    BORE_EDGE_NM,
    PLATE_DISTANCE_NM,
    PLATE_SOURCE,
    PLATE_TIE_PERCENT,
    PLATE_TIE_SOURCE,
    notch_limit,
)


def _walls_of(job: Job, cable: Cable) -> Iterator[Wall]:
    """The walls whose studs a cable goes through, or may."""
    route = routes(job).get(cable.tag)
    if route is None or not cable.in_wall or cable.route == "raceway" or route.studs == 0:
        return
    for name in route.walls:
        wall = job.of(Wall).get(name)
        if wall is not None and wall.stud_depth.nm > 0:
            yield wall


def _kind(wall: Wall) -> str:
    return "load-bearing or unknown" if bearing(wall) is not False else "non-bearing"


@rule
@from_each(Cable)
def hole_too_large(job: Job, cable: Cable) -> Iterable[Finding]:
    """A hole for a cable that weakens the stud, or comes so near its face that a plate is needed."""
    if cable.hole is None or cable.hole.nm <= 0:
        return
    for wall in _walls_of(job, cable):
        look = bore_of(job, wall, cable.hole)
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
                (cable.tag, wall.tag),
                f"Bored hole too large for the studs of {wall.tag}",
                "Bore smaller holes, one for each cable, or run it over the top. A stud already bored needs a stud "
                "shoe or what an engineer says. Notch no deeper than "
                f"{at_most(job, notch_limit(wall.stud_depth.nm, bearing(wall)))}. {INSPECTOR}",
                bore_source(job, wall),
                numbers,
                why=f"{sized(job, cable.hole.nm)} holes in studs {sized(job, wall.stud_depth.nm)} deep, wall "
                f"{_kind(wall)}. The most is {at_most(job, look.limit_nm)}, with {sized(job, BORE_EDGE_NM)} left at "
                "each edge.",
                about=(cable.tag,),
            )
        elif look.plate_front or look.plate_back:
            yield _plates_needed(job, cable, wall, numbers, both=look.plate_front and look.plate_back)


def _plates_needed(job: Job, cable: Cable, wall: Wall, numbers: dict[str, str], *, both: bool) -> Finding:
    route, hole = routes(job)[cable.tag], cable.hole
    assert hole is not None
    return Finding(
        "nail_plates_needed",
        "look",
        (cable.tag, wall.tag),
        f"Nail plates needed on {plural(route.studs or 0, 'stud')}",
        f"Put on steel nail plates at least {at_least(job, INCH_NM // 16)} thick, or listed ones, before drywall, and "
        f"photograph them. {ELECTRICIAN}",
        PLATE_SOURCE,
        {**numbers, "studs": "not measured" if route.studs is None else str(route.studs)},
        why=f"{sized(job, hole.nm)} holes in studs {sized(job, wall.stud_depth.nm)} deep leave less than "
        f"{sized(job, PLATE_DISTANCE_NM)} to {'both faces' if both else 'one face'}.",
        about=(cable.tag,),
    )


@rule
@from_each(Cable)
def notch_too_deep(job: Job, cable: Cable) -> Iterable[Finding]:
    """Studs notched for a cable: too deep, beside a bored hole, or to be plated whatever their depth."""
    if cable.notch is None or cable.notch.nm <= 0:
        return
    for wall in _walls_of(job, cable):
        most = notch_limit(wall.stud_depth.nm, bearing(wall))
        numbers = {
            "notch": shown(cable.notch, job),
            "stud": shown(wall.stud_depth, job),
            "bearing": wall.bearing,
            "most": at_most(job, most),
        }
        if cable.notch.nm > most:
            yield Finding(
                "notch_too_deep",
                "fix",
                (cable.tag, wall.tag),
                f"Notch too deep for the studs of {wall.tag}",
                "Bore holes in the middle instead, or run it over the top. A stud already notched needs a stud shoe or "
                f"what an engineer says. {INSPECTOR}",
                bore_source(job, wall),
                numbers,
                why=f"{sized(job, cable.notch.nm)} notches in studs {sized(job, wall.stud_depth.nm)} deep, wall "
                f"{_kind(wall)}. The most is {at_most(job, most)}.",
                about=(cable.tag,),
            )
        elif cable.hole is not None:
            yield Finding(
                "notch_beside_hole",
                "look",
                (cable.tag, wall.tag),
                "Notched and bored studs",
                "Don't notch and bore a stud at the same spot: bore at one height, notch at another, or do only one. "
                f"{INSPECTOR}",
                bore_source(job, wall),
                numbers | {"hole": shown(cable.hole, job)},
                why="No stud may have a hole and a notch at the same spot.",
                about=(cable.tag,),
            )
        else:
            yield _notch_plates(job, cable, wall, numbers)


def _notch_plates(job: Job, cable: Cable, wall: Wall, numbers: dict[str, str]) -> Finding:
    return Finding(
        "notch_needs_plates",
        "look",
        (cable.tag, wall.tag),
        f"Nail plates needed over the notches of {wall.tag}",
        f"Nail steel at least {at_least(job, INCH_NM // 16)} thick over every notch before drywall, and photograph "
        f"it. {ELECTRICIAN}",
        nec("300.4(A)(2)", edition(job)) if is_us(job) else "BS 7671:2018 522.6.201",
        numbers,
        why="A cable in a notch is at the face of the stud, where nails and screws go.",
        about=(cable.tag,),
    )


@rule
@from_each(Cable)
def top_plate_cut(job: Job, cable: Cable) -> Iterable[Finding]:
    """A hole for a cable over the top that takes more than half of the plate of a wall that carries, or may."""
    route = routes(job).get(cable.tag)
    if not is_us(job) or route is None or cable.hole is None or cable.route != "up and over" or not cable.in_wall:
        return
    for name in route.walls:
        wall = job.of(Wall).get(name)
        if wall is None or bearing(wall) is False:
            continue
        most = wall.stud_depth.nm * PLATE_TIE_PERCENT // 100
        if cable.hole.nm > most:
            yield Finding(
                "top_plate_cut",
                "fix",
                (cable.tag, wall.tag),
                f"Cuts over half of the top plate of {wall.tag}",
                "Bore smaller holes apart from each other, or tie the plate with galvanized steel 0.054 in thick and "
                f"1-1/2 in wide, nailed past both sides. {INSPECTOR}",
                PLATE_TIE_SOURCE,
                {"hole": shown(cable.hole, job), "most": at_most(job, most), "bearing": wall.bearing},
                why=f"A {sized(job, cable.hole.nm)} hole in a plate {sized(job, wall.stud_depth.nm)} wide; over "
                f"{at_most(job, most)} it needs a tie. The wall is {_kind(wall)}.",
                about=(cable.tag,),
            )
