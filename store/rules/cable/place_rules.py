"""Findings about where cables lie: beside power, across a heater, in one box or raceway with power, without a spare."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from store.measure.length import INCH_NM
from store.records.whole import Job
from store.records.wiring import Box, Cable, Raceway
from store.rules.cable.blocked import Blocked, crossed
from store.rules.cable.courses import raceway_course
from store.rules.cable.kinds import POWER, holds_power, kind_named
from store.rules.cable.legs import Leg
from store.rules.cable.lengths import Need, needs
from store.rules.cable.raceway_later import later_in
from store.rules.cable.raceway_ways import raceway_way_words, raceway_ways
from store.rules.cable.routes import course
from store.rules.cable.ways import only_measured, way_words, ways_round
from store.rules.core.code import METRIC_CODE, is_us
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import filed, from_each, of_each
from store.rules.core.wording import listed, named, said, sized
from store.rules.wall.contents import opening_at
from store.rules.wall.layout import cables_at
from store.trade.cable.separation import PRACTICE_APART_IN, Neighbours, separation_note
from store.trade.cable.types import CableType
from store.trade.measured.plane import Rect
from store.trade.power.devices import is_signal_jack

PRACTICE = "common practice"
HEATER_SOURCE = "the heater's instructions; NFPA 70 (NEC) 110.3(B)"
_REACH_NM = int(PRACTICE_APART_IN * INCH_NM)
_CELL_NM = 48 * INCH_NM
"""Runs are looked up by pieces of the wall of this length, so that those far along it are not looked at."""
_NEVER_TOGETHER = "never share a box, raceway or cable without a divider"


@rule
@from_each(Cable)
def signal_beside_power(job: Job, cable: Cable) -> Iterable[Finding]:
    """A signal cable that runs beside mains wiring, nearer than is usual; the nearest one is told."""
    tag, near = cable.tag, _beside_power(job).get(cable.tag)
    if near is None:
        return
    apart, other = near
    note = separation_note(Neighbours(apart / INCH_NM), int(job.settings.edition), metric=job.settings.metric)
    if note is None:
        return
    why = note.text.partition(";")[0] if note.level == "note" else note.text
    yield Finding(
        "signal_beside_power",
        "look",
        (tag, other),
        f"Signal cable {said(job, apart)} from line voltage, {other}",
        (f"Move one of them so that they are {sized(job, _REACH_NM)} apart, or cross them at a right angle."),
        note.source,
        {"apart": said(job, apart)},
        why=f"{named(job, tag)} runs beside {named(job, other)}, which carries power: {why}.",
        about=(tag,),
    )


@of_each(Cable)
def _beside_power(job: Job, cable: Cable) -> tuple[int, str] | None:
    """How far from a signal cable the nearest power cable runs that is within reach, and which: while that is the same,
    whatever else moves in the wall about it, nothing about the cable is judged again."""
    need = needs(job).get(cable.tag)
    if need is None or need.power or need.kind is None or need.kind.family == "fibre":
        return None
    return min((each for leg in _in_wall(need) if (each := _nearest_power(job, leg)) is not None), default=None)


def _in_wall(need: Need) -> tuple[Leg, ...]:
    return need.route.in_wall if need.cable.in_wall else ()


Cell = tuple[str, bool, int, int]
"""A piece of a wall: its tag, whether it is about level runs, how far in steps across them, and along them."""
Line = tuple[int, int, int, str]
"""Where a straight run lies, from where to where, and its tag."""


@filed(Cable)
def _power_lines(job: Job, cable: Cable) -> Iterator[tuple[Cell, Line]]:
    """The straight stretches of power cables in the wall that are long enough to count, by the pieces of wall that
    they go through."""
    need = needs(job).get(cable.tag)
    for leg in _in_wall(need) if need is not None and need.power else ():
        if (line := _line(leg)) is not None and line[3] - line[2] > _REACH_NM:
            level, at, low, high = line
            for along in range(low // _CELL_NM, high // _CELL_NM + 1):
                yield (leg.wall, level, at // _REACH_NM, along), (at, low, high, cable.tag)


def _nearest_power(job: Job, leg: Leg) -> tuple[int, str] | None:
    """The power cable that runs beside a stretch, for longer than the distance that is looked at, and how far away;
    the nearest, and of several the first by its tag; None when none is within reach."""
    line = _line(leg)
    if line is None or line[3] - line[2] <= _REACH_NM:
        return None
    level, at, low, high = line
    first, last = low + _REACH_NM, high - _REACH_NM
    lines, apart, nearest = _power_lines(job), _REACH_NM, ""
    here, past = divmod(at, _REACH_NM)
    for across, away in ((here, 0), (here - 1, past + 1), (here + 1, _REACH_NM - past)):
        if away > apart:
            continue  # all that lies there is farther off than what was found
        for along in range(low // _CELL_NM, high // _CELL_NM + 1):
            for other, start, end, tag in lines.get((leg.wall, level, across, along), ()):
                if at - apart <= other <= at + apart and start < last and end > first:
                    gap = abs(other - at)
                    if gap < apart or not nearest or tag < nearest:
                        apart, nearest = gap, tag
    return (apart, nearest) if nearest else None


def _line(leg: Leg) -> tuple[bool, int, int, int] | None:
    """Whether a leg is level, where it lies and from where to where; None for a slanted one."""
    (x, y), (other_x, other_y) = leg.start, leg.end
    if y == other_y:
        return True, y, min(x, other_x), max(x, other_x)
    return (False, x, min(y, other_y), max(y, other_y)) if x == other_x else None


@rule
@from_each(Cable)
def cable_across_heater(job: Job, cable: Cable) -> Iterable[Finding]:
    """A cable in the wall whose path goes through the place of a fireplace or heater that it does not serve."""
    tag, need = cable.tag, needs(job).get(cable.tag)
    met = [] if need is None else _hot(job, cable, _in_wall(need))
    if need is None or not met:
        return
    hot = met[0]
    guess = course(need.cable) == "through studs" and need.cable.level is None
    taken = " No height entered for its run: that of its first end is used." if guess else ""
    way = ways_round(job).get(tag)
    yield Finding(
        "cable_across_heater",
        "stop",
        (tag, hot.tag),
        f"Runs through the heater {hot.tag}",
        f"Run it {way_words(job, way)}."
        if way is not None
        else "Run it over, under or around the heater, outside its clearances, and enter the height of the run.",
        HEATER_SOURCE,
        {"across": _across(job, hot.rect), "path": said(job, need.route.path or 0)},
        why=f"It crosses {named(job, hot.tag)} at {_place_words(job, hot.rect)}, clearances counted."
        f"{_others(job, met)}{taken}{only_measured(cable)}",
        about=(tag,),
    )


@rule
@from_each(Raceway)
def raceway_across_heater(job: Job, raceway: Raceway) -> Iterable[Finding]:
    """A raceway that goes through the place of a heater: surely, or as it is drawn."""
    tag = raceway.tag
    ways = (raceway_course(job, raceway), raceway_course(job, raceway, low=True))
    found = [_hot(job, raceway, way.legs) for way in ways if not isinstance(way, str)]
    if found and found[0]:
        hot = found[0][0]
        sure = bool(raceway.points) or raceway.route != "square" or all(found)
        way = raceway_ways(job).get(tag)
        yield Finding(
            "raceway_across_heater",
            "stop" if sure else "look",
            (tag, hot.tag),
            f"Runs through the heater {hot.tag}",
            (
                f"Run it {raceway_way_words(job, way)}."
                if way is not None
                else "Run it over, under or around the heater, outside its clearances, and enter its points."
            )
            + ("" if sure else " If it does that already, accept this."),
            HEATER_SOURCE,
            {"across": _across(job, hot.rect)},
            why=(
                f"It crosses {named(job, hot.tag)} at {_place_words(job, hot.rect)}, clearances "
                f"counted{'' if sure else ', as it is drawn'}.{_others(job, found[0])}"
            ),
            about=(tag,),
        )


def _hot(job: Job, one: Cable | Raceway, legs: Iterable[Leg]) -> list[Blocked]:
    """The heaters that some stretches go through, and that they do not serve, each once."""
    met = {each.tag: each for each in crossed(job, one, legs) if each.what == "heater"}
    return list(met.values())


def _others(job: Job, met: Sequence[Blocked]) -> str:
    """The heaters after the first: the way round has to clear them as well."""
    return f" It crosses {listed([named(job, each.tag) for each in met[1:]])} as well." if len(met) > 1 else ""


def _across(job: Job, rect: Rect) -> str:
    return f"{said(job, rect.x_nm)} to {said(job, rect.right_nm)}"


def _place_words(job: Job, rect: Rect) -> str:
    return f"{_across(job, rect)} across and {said(job, rect.y_nm)} to {said(job, rect.top_nm)} up"


@rule
@from_each(Box)
def signal_in_power_box(job: Job, box: Box) -> Iterable[Finding]:
    """Power and signal in one box without a divider."""
    tag = box.tag
    there = [(each.tag, _carries(job).get(each.tag)) for each in cables_at(job).get(tag, ())]
    power = [each for each, what in there if what == POWER]
    signal = [each for each, what in there if what == SIGNAL]
    jacks = [text for text in box.devices if is_signal_jack(text)]
    if box.divider or not (signal or jacks) or not (power or holds_power(box)):
        return
    with_what = (
        f"with {listed(power)}, which {'carries' if len(power) == 1 else 'carry'} power"
        if power
        else (f"which is a {box.what} box")
    )
    yield Finding(
        "signal_in_power_box",
        "stop",
        (tag, *signal, *power),
        f"Signal and power share a box: {' '.join(signal[:3]) or jacks[0][:20]}",
        ("Give the signal cable its own low-voltage box, or use a box with a listed divider and enter it."),
        _together_source(job),
        {"signal": ", ".join((*signal, *jacks)), "power": ", ".join(power)},
        why=(
            f"{listed([*signal, *jacks])} {'ends' if len(signal) + len(jacks) == 1 else 'end'} in {named(job, tag)}, "
            f"{with_what}. Low voltage and line voltage {_NEVER_TOGETHER}."
        ),
        about=(tag,),
    )


SIGNAL = "signal"


@of_each(Cable)
def _carries(job: Job, cable: Cable) -> str | None:
    """Whether a cable carries power or signals, wherever it runs; None for light, and for what is not known."""
    need = needs(job).get(cable.tag)
    if need is None:
        return None
    return POWER if need.power else SIGNAL if _is_signal(need) else None


def _is_signal(need: Need) -> bool:
    return not need.power and need.kind is not None and need.kind.family != "fibre"


@rule
def signal_in_power_raceway(job: Job) -> Iterable[Finding]:
    """Power and signal in one raceway."""
    inside: dict[str, list[Need]] = {}
    for need in needs(job).values():
        if need.cable.raceway and need.cable.route == "raceway":
            inside.setdefault(need.cable.raceway, []).append(need)
    for tag, there in inside.items():
        raceway = job.of(Raceway).get(tag)
        later = later_in(job, raceway) if raceway is not None else ()
        power = [each.cable.tag for each in there if each.power]
        signal = [each.cable.tag for each in there if _is_signal(each)]
        # What is drawn in later shares it all the same; it has no tag yet.
        powers = [*power, *_named_later(kind for kind in later if kind.family == POWER)]
        signals = [*signal, *_named_later(kind for kind in later if kind.family not in (POWER, "fibre"))]
        if powers and signals:
            yield Finding(
                "signal_in_power_raceway",
                "stop",
                (tag, *signal, *power),
                f"Signal and power share a raceway: {' '.join(signal[:2]) or signals[0]}",
                "Run power and signal in separate raceways.",
                _together_source(job),
                {"signal": ", ".join(signals), "power": ", ".join(powers)},
                why=(
                    f"{listed(signals)} {'shares' if len(signals) == 1 else 'share'} {named(job, tag)} with "
                    f"{listed(powers)}, which {'carries' if len(powers) == 1 else 'carry'} power. Low voltage "
                    f"and line voltage {_NEVER_TOGETHER}."
                ),
                about=(tag,),
            )


def _named_later(kinds: Iterable[CableType]) -> Iterator[str]:
    return (f"{key} for later" for key in dict.fromkeys(kind.key for kind in kinds))


def _together_source(job: Job) -> str:
    if not is_us(job):
        return f"{METRIC_CODE} 528.1 (from memory)"
    note = separation_note(Neighbours(0, together="one box"), int(job.settings.edition))
    return note.source if note else PRACTICE


READY = ""
"""In place of the tag of a cable that leads to a place: what is drawn in there later has a way."""


@filed(Cable, Raceway)
def _led_to(job: Job, one: Cable | Raceway) -> Iterator[tuple[str, str]]:
    """The picture and network cables that lead to each place; READY for a spare cable or a raceway."""
    ends = [opening_at(job, end) or str(end) for end in (one.start, one.end)]
    if isinstance(one, Raceway) or (one.retired is None and (one.spare or one.route == "raceway")):
        yield from ((place, READY) for place in ends)
    elif one.retired is None and one.in_wall and (kind := kind_named(one.type)) and kind.family in ("hdmi", "category"):
        yield from ((place, one.tag) for place in ends if place)


@rule
def no_way_for_later(job: Job) -> Iterable[Finding]:
    """A place behind the board that picture or network cables lead to, without a spare cable or a raceway."""
    together: dict[tuple[str, ...], list[str]] = {}
    for place, tags in _led_to(job).items():
        if READY not in tags:
            together.setdefault(tags, []).append(place)
    for cables, places in together.items():
        yield Finding(
            "no_way_for_later",
            "look",
            (*places, *cables),
            "No spare cable or raceway for later",
            "Pull one spare cable, or set a raceway with a pull string, while the wall is open.",
            PRACTICE,
            {"cables": ", ".join(cables)},
            why=f"{listed(cables)} {'runs' if len(cables) == 1 else 'run'} to "
            f"{listed([named(job, each) for each in places])} inside the wall, with no spare cable and no raceway.",
            about=tuple(places),
        )
