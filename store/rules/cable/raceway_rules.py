"""Findings about raceways: fill, plugs, bends, string, room for later, and the holes they take."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.compare import limit_length, need_length
from store.measure.length import INCH_NM, Length, inches
from store.records.wall import Wall
from store.records.whole import Job
from store.records.wiring import Raceway
from store.rules.cable.courses import bends_of, raceway_course
from store.rules.cable.raceway_later import later_unknown
from store.rules.cable.raceway_plugs import Lying, pull, worst_plug
from store.rules.cable.raceway_ways import raceway_way_words, raceway_ways, too_thick
from store.rules.cable.raceways import Inside, bend_radius_in, bends_deg, insides, sizes_that_do
from store.rules.core.code import is_us
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import at_most, listed, plural, said
from store.rules.wall.pieces import bearing
from store.trade.cable.raceway_fill import EASY_BENDS_DEG, bends_left_deg
from store.trade.measured.bounds import past
from store.trade.measured.framing import BORE_SOURCE, METRIC_BORE_SOURCE

PRACTICE = "common practice"
FILL_SOURCE = "NFPA 70 (NEC) Chapter 9, Table 1"
FILL_PRACTICE = (
    "common practice; NFPA 70 (NEC) Chapter 9, Table 1 applies to power conductors; 800.110(B) exempts signal cable"
)
BEND_SOURCE = {"EMT": "NFPA 70 (NEC) 358.26", "ENT": "NFPA 70 (NEC) 362.26"}


def _fill_source(job: Job, inside: Inside) -> str:
    if not is_us(job):
        return PRACTICE
    return FILL_SOURCE if inside.power else FILL_PRACTICE


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
        f"{_large_enough(job, inside)}, or run a cable another way.",
        _fill_source(job, inside),
        {"fill": f"{inside.fill.percent:.1f} %", "limit": f"{inside.fill.limit_percent:.0f} %"},
        why=f"{plural(inside.fill.conductors, 'cable')} fill {full}% of it; {most} is the limit.",
        about=(tag,),
    )


def _large_enough(job: Job, inside: Inside) -> str:
    """The smallest size that holds what is in it and what comes later, and lets its plugs be pulled."""
    kind = inside.raceway.type
    if kind not in ("ENT", "EMT") or not is_us(job):
        return "Use a larger raceway"
    size = next(iter(sizes_that_do(job, inside)), None)
    return f"Use {kind} {size.trade_size}" if size else f"No size of {kind} is large enough: set a second one"


@rule
@from_each(Raceway)
def plug_does_not_pass(job: Job, raceway: Raceway) -> Iterable[Finding]:
    """A raceway that the plug of one of its cables does not go through beside the others."""
    tag, inside = raceway.tag, insides(job).get(raceway.tag)
    if inside is None:
        return
    bare, grip = worst_plug(inside.now, grip=False), worst_plug(inside.now, grip=True)
    if inside.bore_in is None or bare is None or grip is None:
        return
    fails = bare.needs_in > inside.bore_in
    one, hole = (bare.of, bare.needs_in) if fails else (grip.of, grip.needs_in)
    if hole <= inside.bore_in:
        return
    part = "plug" if fails else "usual pulling grip behind the plug"
    yield Finding(
        "plug_does_not_pass" if fails else "plug_is_tight",
        "fix" if fails else "look",
        (tag, one.name),
        f"Plug of {one.name} does not fit through" if fails else f"Plug of {one.name} is a tight fit",
        f"{_large_enough(job, inside)}, or a cable with a plug that comes off. Try it before close-in.",
        f"{one.kind.plug_source if one.kind and fails else PRACTICE}; geometry",
        {"needs": _inch(job, hole), "has": _inch(job, inside.bore_in)},
        why=(
            f"The {part} needs {need_length(inches(hole), job.settings.metric)} next to what else is in it; {tag} "
            f"has {limit_length(inches(inside.bore_in), job.settings.metric)}."
        ),
        about=(tag,),
    )


def _inch(job: Job, wide_in: float) -> str:
    return said(job, inches(wide_in).nm)


@rule
@from_each(Raceway)
def plugs_hard_to_pull(job: Job, raceway: Raceway) -> Iterable[Finding]:
    """Made-up plugs, those for later among them, in a raceway that they lie in and are not pulled through."""
    inside = insides(job).get(raceway.tag)
    if inside is None or inside.bore_in is None or raceway.type == "grommet":
        return
    bends = bends_deg(job, raceway)
    pulled = pull(inside.lying, inside.bore_in, bend_radius_in(raceway, inside.bore_in), bends)
    if pulled is None or pulled.easy or not any(not each.later for each in pulled.plugs):
        return
    tight, one = pulled.small or not pulled.turns, len(pulled.plugs) == 1
    plugs = f"{len(pulled.plugs)} plugs" if not one else "a plug"
    yield Finding(
        "plugs_hard_to_pull",
        "fix" if pulled.fails else "look",
        (raceway.tag, *(each.name for each in pulled.plugs if not each.later)),
        f"Too tight to pull {plugs}{' around its bends' if not pulled.small else ''}"
        if tight
        else f"{round(bends, 1):g}° of bends for {plugs}",
        f"{_large_enough(job, inside)}, with two long sweeps at most. Leave a pull string in it."
        if tight
        else "Take a bend out, or set a pull box on the way. Pull one cable at a time.",
        f"{PRACTICE}; geometry",
        {"plugs": str(len(pulled.plugs)), "bore": _inch(job, inside.bore_in), "bends": f"{round(bends, 1):g}°"},
        why=_why_hard(job, inside, pulled.plugs, bends, tight=tight),
        about=(raceway.tag,),
    )


def _why_hard(job: Job, inside: Inside, plugs: tuple[Lying, ...], bends: float, *, tight: bool) -> str:
    """The bore, what has to pass what in it, and the bends."""
    bore, worst = _inch(job, inside.bore_in or 0.0), worst_plug(inside.lying, grip=True)
    says = f"Its bore is {bore}. "
    if worst is not None and tight:
        says += f"A usual pulling grip needs {_inch(job, worst.needs_in)} next to what else is in it"
        says += f", more in {round(bends, 1):g}° of bends. " if bends else ". "
    if not tight:
        says += f"Plugs can be pulled around {EASY_BENDS_DEG:g}° at most; it has {round(bends, 1):g}°. "
    later = [each.name for each in plugs if each.later]
    says += f"Counted with it, for later: {listed(later)}. " if later else ""
    return says + ("Later plugs have to pass the cables in it." if len(plugs) > 1 else "It would bind there.")


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
            f"{round(bends, 1):g}° of bends, 360° is the limit",
            "Take a bend out, or set a pull box on the way where you can reach it later.",
            BEND_SOURCE.get(inside.raceway.type, BEND_SOURCE["ENT"]) if is_us(job) else PRACTICE,
            {"bends": f"{round(bends, 1):g}°"},
            why=f"All bends of {tag} add up to {round(bends, 1):g}°. 360° is the most between two pull points.",
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
            "Enter a trade size of ENT or EMT, 1/2 to 2, or the inside diameter."
            if is_us(job)
            else "Enter its inside diameter, as on its data sheet.",
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
    """A raceway that is within its limit and takes no further cable like its largest; none where later is planned."""
    tag, inside = raceway.tag, insides(job).get(raceway.tag)
    if inside is None or inside.later:
        return
    if inside.fill is not None and inside.fill.fits and inside.cables and not inside.more:
        yield Finding(
            "raceway_full_for_later",
            "look",
            (tag,),
            "Raceway has no room for one more cable",
            "Use the next larger size if you want to change or add cables later.",
            _fill_source(job, inside),
            {"fill": f"{inside.fill.percent:.1f} %", "of": inside.more_of},
            why=f"It is {inside.fill.percent:.0f}% full. One more {inside.more_of} does not fit.",
        )


@rule
@from_each(Raceway)
def raceway_small_for_later(job: Job, raceway: Raceway) -> Iterable[Finding]:
    """A raceway that holds what is in it, and not with what is to be drawn in later: by its fill, or by a plug."""
    tag, inside = raceway.tag, insides(job).get(raceway.tag)
    if inside is None or not inside.later or inside.bore_in is None or inside.fill_later is None:
        return
    full, comes = inside.fill_later, listed([each.name for each in inside.later])
    over = not full.fits and (inside.fill is None or inside.fill.fits)
    needs = _plug_later(job, inside, inside.bore_in)
    if not over and not needs:
        return
    percent, most = past(full.percent, full.limit_percent), f"{full.limit_percent:.0f}%"
    yield Finding(
        "raceway_small_for_later",
        "fix",
        (tag,),
        f"Too small for later: {percent}% of {most}" if over else "Too small for later plugs",
        f"{_large_enough(job, inside)} now, while the wall is open, or a second one beside it.",
        _fill_source(job, inside) if over else f"{PRACTICE}; geometry",
        {"later": comes, "fill": f"{full.percent:.1f} %", "limit": f"{full.limit_percent:.0f} %"},
        why=f"With {comes} for later it is {percent}% full; {most} is the limit."
        if over
        else f"For later: {comes}. {needs}; {tag} has {_inch(job, inside.bore_in)}.",
    )


def _plug_later(job: Job, inside: Inside, bore: float) -> str:
    """What a plug to come later needs that the raceway has not, where what is in it already gets through."""
    worst, alone = worst_plug(inside.lying, grip=True), worst_plug(inside.now, grip=True)
    if worst is None or (alone is not None and alone.needs_in > bore):
        return ""
    needs = f"The usual pulling grip behind a plug needs {_inch(job, worst.needs_in)} next to what else is in it"
    if worst.needs_in > bore:
        return needs
    # Where a plug is in it already, what is pulled round the bends is told of both together.
    pulled = pull(inside.later, bore, bend_radius_in(inside.raceway, bore), bends_deg(job, inside.raceway))
    return f"{needs}, more in its bends" if alone is None and pulled is not None and pulled.fails else ""


@rule
@from_each(Raceway)
def raceway_later_unknown(job: Job, raceway: Raceway) -> Iterable[Finding]:
    """Something entered for later that is no kind of cable on the list, so that no room is kept for it."""
    if unknown := later_unknown(raceway):
        yield Finding(
            "raceway_later_unknown",
            "look",
            (raceway.tag,),
            "Cable for later is not on the list",
            "Enter a type from the list, like hdmi or 2x cat6. F2 = choose.",
            PRACTICE,
            {"later": ", ".join(unknown)},
            why=f"No room is kept for {listed(unknown)}.",
        )


@rule
@from_each(Raceway)
def raceway_hole_large(job: Job, raceway: Raceway) -> Iterable[Finding]:
    """A raceway that is thicker than the hole that may be bored through the studs on its way."""
    tag, way = raceway.tag, raceway_course(job, raceway)
    thick = None if isinstance(way, str) or raceway.type == "grommet" else too_thick(job, raceway, way.within)
    if thick is None:
        return
    wall = job.of(Wall)[thick.wall]
    carried = bearing(wall)
    carries = {True: "is load-bearing", None: "is perhaps load-bearing"}.get(carried, "is non-bearing")
    yield Finding(
        "raceway_hole_large",
        "fix",
        (tag, wall.tag),
        f"Too thick for the studs of {wall.tag}",
        _hole_remedy(job, raceway),
        BORE_SOURCE if is_us(job) or carried is False else METRIC_BORE_SOURCE,
        {
            "hole": _inch(job, thick.outside_nm / INCH_NM),
            "limit": at_most(job, thick.limit_nm),
            "bearing": wall.bearing,
        },
        why=(
            f"{tag} is {need_length(Length(thick.outside_nm), job.settings.metric)} thick and crosses "
            f"{plural(thick.studs, 'stud')} of {wall.tag}, which {carries}. A hole there is at most "
            f"{at_most(job, thick.limit_nm)}."
        ),
        about=(tag,),
    )


def _hole_remedy(job: Job, raceway: Raceway) -> str:
    led = raceway_ways(job).get(raceway.tag)
    if led is None:
        return (
            f"Bore nothing for {raceway.tag} yet. Run it over the top, under the floor or in front of the studs "
            "in a built-out wall, or use a smaller size."
        )
    return (
        f"Bore nothing for {raceway.tag} yet. Run it {raceway_way_words(job, led)}; or run it in front of the "
        "studs in a built-out wall, or use a smaller size."
    )
