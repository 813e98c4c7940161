"""Findings about raceways: fill, plugs, bends, string, room for later, and the holes they take."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.length import inches
from store.records.wall import Wall
from store.records.whole import Job
from store.records.wiring import Raceway
from store.rules.cable.lengths import thickness_in
from store.rules.cable.raceways import Inside, insides, outside_in, worst_plug
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import at_most, listed, named, plural, said
from store.rules.wall.places import wall_of
from store.trade.cable.raceway_fill import bends_left_deg, cable_item, smallest_raceway
from store.trade.measured.framing import BORE_SOURCE, bore_limit

PRACTICE = "common practice"
FILL_SOURCE = "NFPA 70 (NEC) Chapter 9, Table 1"
FILL_PRACTICE = (
    "common practice; NFPA 70 (NEC) Chapter 9, Table 1 binds power conductors, 800.110(B) frees signal cable"
)
BEND_SOURCE = {"EMT": "NFPA 70 (NEC) 358.26", "ENT": "NFPA 70 (NEC) 362.26"}


@rule
@from_each(Raceway)
def raceway_overfull(job: Job, raceway: Raceway) -> Iterable[Finding]:
    """A raceway with more in it than the limit for so many cables."""
    tag, inside = raceway.tag, insides(job).get(raceway.tag)
    if inside is None:
        return
    if inside.fill is None or inside.fill.fits:
        return
    yield Finding(
        "raceway_overfull",
        "fix",
        (tag, *(need.cable.tag for need in inside.cables)),
        f"{named(job, tag)} is {inside.fill.percent:.0f} % full with {plural(inside.fill.conductors, 'cable')}; "
        f"{inside.fill.limit_percent:.0f} % is the limit.",
        f"{_large_enough(inside)}, or lead a cable another way.",
        FILL_SOURCE if inside.power else FILL_PRACTICE,
        {"fill": f"{inside.fill.percent:.1f} %", "limit": f"{inside.fill.limit_percent:.0f} %"},
    )


def _large_enough(inside: Inside) -> str:
    """The smallest size that holds what is in it and passes its largest plug."""
    kind = inside.raceway.type
    if kind not in ("ENT", "EMT"):
        return "Take a larger tube"
    plug = worst_plug(inside, grip=True)
    items = [cable_item(wide) for need in inside.cables if (wide := thickness_in(need)) is not None]
    size = smallest_raceway(kind, items, plug=plug[1] if plug else None)
    return f"Take {kind} {size.trade_size}" if size else f"No size of {kind} is enough: set a second one"


@rule
@from_each(Raceway)
def plug_does_not_pass(job: Job, raceway: Raceway) -> Iterable[Finding]:
    """A raceway that the plug of one of its cables does not go through beside the others."""
    tag, inside = raceway.tag, insides(job).get(raceway.tag)
    if inside is None:
        return
    bare, grip = worst_plug(inside, grip=False), worst_plug(inside, grip=True)
    if inside.bore_in is None or bare is None or grip is None:
        return
    fails = bare[2] > inside.bore_in
    need, _, hole = bare if fails else grip
    if hole <= inside.bore_in:
        return
    part = "plug" if fails else "grip behind the plug, as it usually is,"
    yield Finding(
        "plug_does_not_pass" if fails else "plug_is_tight",
        "fix" if fails else "look",
        (tag, need.cable.tag),
        f"The {part} of {named(job, need.cable.tag)} needs a bore of {_inch(job, hole)} beside what else is in it; "
        f"{named(job, tag)} has {_inch(job, inside.bore_in)}.",
        "Take a larger size, or a cable whose plug comes off; try it before the wall is covered.",
        f"{need.kind.plug_source if need.kind and fails else PRACTICE}; geometry",
        {"needs": _inch(job, hole), "has": _inch(job, inside.bore_in)},
    )


def _inch(job: Job, wide_in: float) -> str:
    return said(job, inches(wide_in).nm)


@rule
@from_each(Raceway)
def too_many_bends(job: Job, raceway: Raceway) -> Iterable[Finding]:
    """A raceway whose bends add up to more than four right angles between pull points."""
    tag, inside = raceway.tag, insides(job).get(raceway.tag)
    if inside is None:
        return
    bends = inside.raceway.bends
    if bends is not None and bends >= 0 and bends_left_deg([bends]) < 0:
        yield Finding(
            "too_many_bends",
            "fix",
            (tag,),
            f"{named(job, tag)} turns by {bends:g}° in all; 360° is the most between two pull points.",
            "Take a bend out, or set a pull box on the way, within reach for good.",
            BEND_SOURCE.get(inside.raceway.type, BEND_SOURCE["ENT"]),
            {"bends": f"{bends:g}°"},
        )


@rule
@from_each(Raceway)
def raceway_unknown(job: Job, raceway: Raceway) -> Iterable[Finding]:
    """A raceway whose bore, or a cable in it whose diameter, is not known, so that its fill goes unchecked."""
    tag, inside = raceway.tag, insides(job).get(raceway.tag)
    if inside is None:
        return
    if inside.bore_in is None:
        yield Finding(
            "raceway_size_unknown",
            "look",
            (tag,),
            f"The size of {named(job, tag)} is not listed, and no inside diameter is noted, so its fill goes "
            "unchecked.",
            "Note a trade size, 1/2 to 2, of ENT or EMT; or the inside diameter.",
            PRACTICE,
            {"size": inside.raceway.size},
        )
    elif inside.unknown:
        yield Finding(
            "raceway_fill_partial",
            "look",
            (tag, *inside.unknown),
            f"The diameter of {listed(inside.unknown)} in {named(job, tag)} is not known and left out of its fill.",
            "Note the diameter from the data sheet.",
            PRACTICE,
            {"left out": ", ".join(inside.unknown)},
        )


@rule
@from_each(Raceway)
def raceway_without_string(job: Job, raceway: Raceway) -> Iterable[Finding]:
    """A raceway without a pull string."""
    tag, inside = raceway.tag, insides(job).get(raceway.tag)
    if inside is None:
        return
    if not inside.raceway.string and inside.raceway.type != "grommet":
        yield Finding(
            "raceway_without_string",
            "look",
            (tag,),
            f"{named(job, tag)} has no pull string noted.",
            "Leave a pull string in it, longer than the raceway by an arm at both ends, and note it.",
            PRACTICE,
            {"string": "none"},
        )


@rule
@from_each(Raceway)
def raceway_full_for_later(job: Job, raceway: Raceway) -> Iterable[Finding]:
    """A raceway that is within its limit and takes no further cable like its largest."""
    tag, inside = raceway.tag, insides(job).get(raceway.tag)
    if inside is None:
        return
    if inside.fill is not None and inside.fill.fits and inside.cables and not inside.more:
        yield Finding(
            "raceway_full_for_later",
            "look",
            (tag,),
            f"{named(job, tag)} is {inside.fill.percent:.0f} % full and takes no further {inside.more_of}.",
            "Take the next larger size if cables are to be changed or added in later years.",
            FILL_SOURCE if inside.power else FILL_PRACTICE,
            {"fill": f"{inside.fill.percent:.1f} %", "of": inside.more_of},
        )


@rule
@from_each(Raceway)
def raceway_hole_large(job: Job, raceway: Raceway) -> Iterable[Finding]:
    """A raceway that is thicker than the hole that may be bored through the studs on its way."""
    tag, inside = raceway.tag, insides(job).get(raceway.tag)
    if inside is None:
        return
    wide, wall = outside_in(inside.raceway), job.of(Wall).get(wall_of(job, inside.raceway.start))
    if wide is None or wall is None or not inside.studs:
        return
    bearing = {"yes": True, "no": False}.get(wall.bearing)
    limit = bore_limit(wall.stud_depth.nm, bearing)
    if inches(wide).nm > limit:
        carries = {True: "carries the house", None: "may carry the house"}.get(bearing, "carries nothing")
        yield Finding(
            "raceway_hole_large",
            "fix",
            (tag, wall.tag),
            f"{named(job, tag)} is {_inch(job, wide)} thick and crosses {plural(inside.studs, 'stud')} of "
            f"{wall.tag}, which {carries}; a hole there is at most {at_most(job, limit)}.",
            _hole_remedy(inside),
            BORE_SOURCE,
            {"hole": _inch(job, wide), "limit": at_most(job, limit), "bearing": wall.bearing},
        )


def _hole_remedy(inside: Inside) -> str:
    return (
        f"Bore nothing for {inside.raceway.tag} yet: lead it over the top, under the floor or in front of the studs "
        "of a wall that is built out, or take a smaller size."
    )
