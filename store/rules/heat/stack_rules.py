"""Findings about warm gear that stands one on the other."""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil

from store.measure.length import INCH_NM
from store.records.equipment import Equipment
from store.records.inside import ShelfBoard
from store.records.wall import Obstacle, Opening
from store.records.whole import Job
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import at_least, listed, named, sized
from store.rules.fit.fit import shared
from store.rules.heat.cooling import LEAST_W, PASSES_ON, cooling
from store.rules.heat.cooling_words import open_text
from store.rules.wall.inside import insides, shelf_depth_nm
from store.rules.wall.layout import outline, walls
from store.rules.wall.pieces import gives_heat, hangs, inside_of

WARM_W = 20.0
"""From this on a thing's own heat counts; our own line."""
ABOVE_NM = 2 * INCH_NM
"""Free above an amplifier or a receiver, one rack unit or so: common practice (from memory, medium)."""


@rule
@from_each(Opening)
def gear_stacked(job: Job, opening: Opening) -> Iterable[Finding]:
    """Warm things that do not stand side by side in one opening, so that one would stand on another."""
    tag, found = opening.tag, shared(job).get(opening.tag)
    if found is None:
        return
    if found.row.verdict != "does not fit":
        return
    here = [job.of(Equipment)[each] for each in found.tags]
    warm = sorted((one for one in here if _warm(one)), key=lambda one: -_watts(one))
    if len(warm) < 2:
        return
    top, rest = warm[0], [one.tag for one in warm[1:]]
    yield Finding(
        "gear_stacked",
        "look",
        (tag, *(one.tag for one in warm)),
        "Warm equipment would be stacked",
        f"Give each a shelf of its own. If they must stack: {top.tag} on top, {sized(job, ABOVE_NM)} or more free "
        "above it, and nothing on its vents. The manufacturers' clearances win.",
        "Common practice",
        {one.tag: f"{_watts(one):g} W" for one in warm},
        why=f"{top.tag} ({_watts(top):g} W) and {listed(rest)} are too wide to stand side by side.",
    )


def _watts(one: Equipment) -> float:
    return (one.watts or 0.0) * one.count


def _warm(one: Equipment) -> bool:
    return not gives_heat(one) and not hangs(one) and one.what not in PASSES_ON and _watts(one) >= WARM_W


@rule
@from_each(Opening)
def gear_over_warm(job: Job, opening: Opening) -> Iterable[Finding]:
    """Gear that stands on what gives more heat than it: the heat rises into it."""
    there = insides(job).get(opening.tag)
    for stand in there.stands.values() if there is not None else ():
        one = job.of(Equipment)[stand.tag]
        under = [job.of(Equipment)[each] for each in stand.below]
        warm = [each for each in under if _warm(each) and _watts(each) >= _watts(one)]
        if not warm or one.what in PASSES_ON:
            continue
        hottest = max(warm, key=_watts)
        limit = f"; its manual allows {one.warmest:g} °C" if one.warmest is not None else ""
        yield Finding(
            "gear_over_warm",
            "look",
            (one.tag, *(each.tag for each in warm), opening.tag),
            f"On top of {hottest.tag}, which gives more heat",
            f"Put {hottest.tag} on top, with {sized(job, ABOVE_NM)} or more free above it, or give each a shelf of its "
            "own. The manufacturers' clearances win.",
            "Common practice",
            {each.tag: f"{_watts(each):g} W" for each in (one, *warm)},
            why=f"Heat rises: {listed([f'{each.tag} gives {_watts(each):g} W' for each in warm])}, "
            f"{one.tag} {_watts(one):g} W{limit}.",
            about=(one.tag,),
        )


NEAR_NM = 12 * INCH_NM
"""Warm air that comes out so far below a vent still rises into it; our own line, no source."""


@rule
@from_each(Opening)
def warm_air_into_cabinet(job: Job, opening: Opening) -> Iterable[Finding]:
    """A register, or the upper vents of another closed cabinet with heat in it, close below the vents of this one."""
    cool, on = cooling(job).get(opening.tag), walls(job).get(opening.wall)
    mine = outline(opening)
    if cool is None or on is None or mine is None or cool.opening.air_through:
        return
    registers = [each for each in on.obstacles if job.of(Obstacle)[each.tag].what == "vent"]
    hot = [each for each in on.openings if each.tag != opening.tag and _blows(job, each.tag)]
    for each in (*registers, *hot):
        gap = mine.y_nm - each.rect.top_nm
        over = each.rect.x_nm < mine.right_nm and mine.x_nm < each.rect.right_nm
        if not over or not 0 <= gap <= NEAR_NM:
            continue
        other = cooling(job).get(each.tag)
        heat = f"{other.watts:.0f} W behind its door" if other is not None else "warm air in winter"
        yield Finding(
            "warm_air_into_cabinet",
            "look",
            (opening.tag, each.tag),
            f"Warm air of {each.tag} rises into its vents",
            f"Let its air in from another side, enter {each.tag} as where its air comes through, or move one of them."
            if other is not None
            else "Turn the register away, or let the cabinet's air in from another side.",
            "Common practice",
            {"gap": sized(job, gap), "heat": heat},
            why=f"{named(job, each.tag)} is {sized(job, gap)} below it: {heat}. The figures take room air.",
            about=(opening.tag,),
        )


def _blows(job: Job, tag: str) -> bool:
    """Whether warm air comes out of a closed cabinet's upper vents."""
    one = cooling(job).get(tag)
    return one is not None and one.watts >= LEAST_W and one.way in ("fan", "draught")


@rule
@from_each(Opening)
def shelf_blocks_air(job: Job, opening: Opening) -> Iterable[Finding]:
    """A shelf from side to side behind a closed door, past which less air goes than through the vents."""
    cool, there, deep = cooling(job).get(opening.tag), insides(job).get(opening.tag), inside_of(opening).depth_nm
    if cool is None or there is None or deep is None or cool.low_in2 is None or cool.high_in2 is None:
        return
    vents = min(cool.low_in2, cool.high_in2)
    for laid in there.boards:
        across = laid.right_nm - laid.left_nm
        own = shelf_depth_nm(job.of(ShelfBoard)[laid.tag], opening)
        if laid.divider or across < there.width_nm or own is None:
            continue
        past = max(0, deep - own) * across / INCH_NM**2
        if past < vents:
            wide = at_least(job, ceil(vents * INCH_NM**2 / across))
            yield Finding(
                "shelf_blocks_air",
                "look",
                (laid.tag, opening.tag),
                f"Lets less air past than the vents of {opening.tag}",
                f"Leave {wide} free behind it, or bore holes that let as much air through.",
                "Common practice",
                {"past it": f"{past:.0f} in²", "vents": f"{vents:.0f} in²"},
                why=f"Air has to get from the lower vents to the upper ones: {open_text(job, past)} is open past it, "
                f"{open_text(job, vents)} in the vents.",
                about=(laid.tag,),
            )
