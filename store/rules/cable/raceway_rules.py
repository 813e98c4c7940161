"""Findings about raceways: fill, plugs, bends, string, room for later, and the holes they take."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.compare import limit_length, need_length
from store.measure.length import inches
from store.records.wall import Wall
from store.records.whole import Job
from store.records.wiring import Raceway
from store.rules.cable.lengths import thickness_in
from store.rules.cable.raceways import Inside, bend_radius_in, insides, outside_in, plugs_in, worst_plug
from store.rules.cable.routes import bends_of
from store.rules.core.code import is_us
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import at_most, listed, plural, said
from store.rules.wall.places import wall_of
from store.trade.cable.raceway_fill import (
    EASY_BENDS_DEG,
    SEVERAL_PLUGS_IN,
    bends_left_deg,
    cable_item,
    plug_turns,
    smallest_raceway,
)
from store.trade.measured.bounds import past
from store.trade.measured.framing import BORE_SOURCE, METRIC_BORE_SOURCE, bore_limit

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
    full, most = past(inside.fill.percent, inside.fill.limit_percent), f"{inside.fill.limit_percent:.0f}%"
    yield Finding(
        "raceway_overfull",
        "fix",
        (tag, *(need.cable.tag for need in inside.cables)),
        f"Raceway overfilled: {full}% of {most}",
        f"{_large_enough(inside)}, or run a cable another way.",
        FILL_SOURCE if inside.power else FILL_PRACTICE,
        {"fill": f"{inside.fill.percent:.1f} %", "limit": f"{inside.fill.limit_percent:.0f} %"},
        why=f"{plural(inside.fill.conductors, 'cable')} fill {full}% of it; {most} is the limit.",
        about=(tag,),
    )


def _large_enough(inside: Inside) -> str:
    """The smallest size that holds what is in it and passes its largest plug."""
    kind = inside.raceway.type
    if kind not in ("ENT", "EMT"):
        return "Use a larger raceway"
    plug = worst_plug(inside, grip=True)
    items = [cable_item(wide) for need in inside.cables if (wide := thickness_in(need)) is not None]
    least = SEVERAL_PLUGS_IN if len(plugs_in(inside)) > 1 else 0.0
    size = smallest_raceway(kind, items, plug=plug[1] if plug else None, least_in=least)
    return f"Use {kind} {size.trade_size}" if size else f"No size of {kind} is large enough: set a second one"


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
    part = "plug" if fails else "usual grip behind the plug"
    yield Finding(
        "plug_does_not_pass" if fails else "plug_is_tight",
        "fix" if fails else "look",
        (tag, need.cable.tag),
        f"Plug of {need.cable.tag} does not fit through" if fails else f"Plug of {need.cable.tag} is a tight fit",
        "Use a larger size, or a cable with a plug that comes off. Try it before close-in.",
        f"{need.kind.plug_source if need.kind and fails else PRACTICE}; geometry",
        {"needs": _inch(job, hole), "has": _inch(job, inside.bore_in)},
        why=(
            f"The {part} needs {need_length(inches(hole), job.settings.metric)} beside what else is "
            f"in it; {tag} has {limit_length(inches(inside.bore_in), job.settings.metric)}."
        ),
        about=(tag,),
    )


def _inch(job: Job, wide_in: float) -> str:
    return said(job, inches(wide_in).nm)


@rule
@from_each(Raceway)
def plugs_hard_to_pull(job: Job, raceway: Raceway) -> Iterable[Finding]:
    """Two made-up plugs or more in a raceway that they lie in and are not pulled through."""
    inside = insides(job).get(raceway.tag)
    plugs = plugs_in(inside) if inside is not None else ()
    worst = worst_plug(inside, grip=True) if inside is not None else None
    if inside is None or inside.bore_in is None or worst is None or len(plugs) < 2 or raceway.type == "grommet":
        return
    bends, radius = bends_of(job, raceway), bend_radius_in(raceway)
    beside = max(wide for need in plugs if (wide := thickness_in(need)) is not None)
    turns = not bends or radius is None or plug_turns(inside.bore_in, radius, worst[1], beside)
    small = inside.bore_in < SEVERAL_PLUGS_IN
    if not small and turns and (bends or 0.0) <= EASY_BENDS_DEG:
        return
    yield Finding(
        "plugs_hard_to_pull",
        "fix" if small or not turns else "look",
        (raceway.tag, *(need.cable.tag for need in plugs)),
        f"Too tight to pull {len(plugs)} plugs"
        if small or not turns
        else f"{bends:g}° of bends for {len(plugs)} plugs",
        "Use trade size 1-1/2 or 2, with two long sweeps at most. Leave a pull string in it."
        if small or not turns
        else "Take a bend out, or set a pull box on the way. Pull one cable at a time.",
        f"{PRACTICE}; geometry",
        {"plugs": str(len(plugs)), "bore": _inch(job, inside.bore_in), "bends": f"{bends or 0:g}°"},
        why=f"It has a bore of {_inch(job, inside.bore_in)}. Later plugs have to pass the cables in it"
        + (f", and {bends:g}° of bends." if bends else "."),
        about=(raceway.tag,),
    )


@rule
@from_each(Raceway)
def too_many_bends(job: Job, raceway: Raceway) -> Iterable[Finding]:
    """A raceway whose bends add up to more than four right angles between pull points."""
    tag, inside = raceway.tag, insides(job).get(raceway.tag)
    if inside is None:
        return
    bends = bends_of(job, raceway)
    if bends is not None and bends >= 0 and bends_left_deg([bends]) < 0:
        yield Finding(
            "too_many_bends",
            "fix",
            (tag,),
            f"{bends:g}° of bends, 360° is the limit",
            "Take a bend out, or set a pull box on the way where you can reach it later.",
            BEND_SOURCE.get(inside.raceway.type, BEND_SOURCE["ENT"]),
            {"bends": f"{bends:g}°"},
            why=f"All turns of {tag} add up to {bends:g}°. 360° is the most between two pull points.",
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
            "No raceway size entered",
            "Enter a trade size of ENT or EMT, 1/2 to 2, or the inside diameter.",
            PRACTICE,
            {"size": inside.raceway.size},
            why="Its fill is not checked.",
        )
    elif inside.unknown:
        yield Finding(
            "raceway_fill_partial",
            "look",
            (tag, *inside.unknown),
            "Cable diameter missing in the fill",
            "Enter the diameter from the data sheet.",
            PRACTICE,
            {"left out": ", ".join(inside.unknown)},
            why=(
                f"{listed(inside.unknown)} {'has' if len(inside.unknown) == 1 else 'have'} no diameter "
                f"and {'is' if len(inside.unknown) == 1 else 'are'} left out."
            ),
            about=(tag,),
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
            "No pull string entered",
            ("Leave a pull string in it, an arm's length longer than the raceway at both ends, and enter it."),
            PRACTICE,
            {"string": "none"},
            why="Without one, you can't pull a cable later.",
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
            "Raceway has no room for one more cable",
            "Use the next larger size if you want to change or add cables later.",
            FILL_SOURCE if inside.power else FILL_PRACTICE,
            {"fill": f"{inside.fill.percent:.1f} %", "of": inside.more_of},
            why=f"It is {inside.fill.percent:.0f}% full. One more {inside.more_of} does not fit.",
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
    limit = bore_limit(wall.stud_depth.nm, bearing, metric=not is_us(job))
    if inches(wide).nm > limit:
        carries = {True: "load-bearing", None: "perhaps load-bearing"}.get(bearing, "non-bearing")
        yield Finding(
            "raceway_hole_large",
            "fix",
            (tag, wall.tag),
            f"Too thick for the studs of {wall.tag}",
            _hole_remedy(inside),
            BORE_SOURCE if is_us(job) or bearing is False else METRIC_BORE_SOURCE,
            {"hole": _inch(job, wide), "limit": at_most(job, limit), "bearing": wall.bearing},
            why=(
                f"{tag} is {need_length(inches(wide), job.settings.metric)} thick and crosses "
                f"{plural(inside.studs, 'stud')} of {wall.tag}, which {carries}. A hole there is at most "
                f"{at_most(job, limit)}."
            ),
            about=(tag,),
        )


def _hole_remedy(inside: Inside) -> str:
    return (
        f"Bore nothing for {inside.raceway.tag} yet. Run it over the top, under the floor or in front of the studs "
        "in a built-out wall, or use a smaller size."
    )
