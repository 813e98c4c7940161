"""Findings about heat behind a shut door: shut in, too warm, or not known."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.numbers import show_number
from store.records.wall import Opening
from store.records.whole import Job
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import listed, named
from store.rules.heat.cooling import FAN_SHARE, ROOM_C, Cooling, cooling
from store.trade.heat.enclosure import F_PER_C, M3H_PER_CFM, MOST_RISE_C, airflow_needed

SOURCE = (
    "ASHRAE Handbook Fundamentals: heat carried by air (1.08 x cfm x °F), and draft by warmth; "
    "a rise of 10 to 15 °F to aim for is common practice, no source"
)
REMEDY = (
    "Add free area low and high, a quiet fan or a mesh door, or put less behind this door. The manufacturers' "
    "limits and "
    "clearances win. Try it with a thermometer above the warmest thing before close-in."
)


@rule
@from_each(Opening)
def cabinet_shut_in(job: Job, opening: Opening) -> Iterable[Finding]:
    """Heat behind a shut door that no air carries off."""
    tag, one = opening.tag, cooling(job).get(opening.tag)
    if one is None:
        return
    if one.way == "shut in":
        yield Finding(
            "cabinet_shut_in",
            "fix",
            (tag, *one.warm),
            f"No air path: {_watts(one)} behind a {one.opening.door} door",
            f"{REMEDY} {_wanted(job, one)}",
            SOURCE,
            _numbers(one),
            why=f"{_what(job, tag, one)}, and no air goes through. It needs a vent low and a vent high.",
            about=(tag,),
        )


@rule
@from_each(Opening)
def cabinet_too_warm(job: Job, opening: Opening) -> Iterable[Finding]:
    """Air behind a shut door that gets warmer than is good for what stands there."""
    tag, one = opening.tag, cooling(job).get(opening.tag)
    if one is None:
        return
    if one.rise_c is None or (one.rise_c <= MOST_RISE_C and ROOM_C + one.rise_c <= one.limit_c):
        return
    inside = ROOM_C + one.rise_c
    by = f"with {FAN_SHARE:.0%} of its fan's free-air flow" if one.way == "fan" else "by its own draft"
    yield Finding(
        "cabinet_too_warm",
        "fix" if inside > one.limit_c else "look",
        (tag, *one.warm),
        f"Too warm behind the door: about {_degrees(job, inside)}",
        f"{REMEDY} {_wanted(job, one)}",
        SOURCE,
        {**_numbers(one), "rise": _degrees(job, one.rise_c, rise=True)},
        why=(
            f"{_what(job, tag, one)}. {by[0].upper()}{by[1:]} it gets about "
            f"{_degrees(job, one.rise_c, rise=True)} above the room: {_degrees(job, inside)} in a "
            f"room of {_degrees(job, ROOM_C)}. {_made_for(job, one)} "
            f"{_degrees(job, one.limit_c)} at most."
        ),
        about=(tag,),
    )


@rule
@from_each(Opening)
def cabinet_air_not_known(job: Job, opening: Opening) -> Iterable[Finding]:
    """Heat behind a shut door, with neither vents nor a fan noted."""
    tag, one = opening.tag, cooling(job).get(opening.tag)
    if one is None:
        return
    if one.way == "not known":
        yield Finding(
            "cabinet_air_not_known",
            "look",
            (tag, *one.warm),
            f"Cooling not known: {_watts(one)} behind a {one.opening.door} door",
            f"{_wanted(job, one)} {REMEDY}",
            SOURCE,
            _numbers(one),
            why=f"{_what(job, tag, one)}. No air in and air out, and no fan, are entered.",
            about=(tag,),
        )


def _what(job: Job, tag: str, one: Cooling) -> str:
    rest = f", not counting {listed(one.unknown)}, with no watts entered" if one.unknown else ""
    return (
        f"{named(job, tag)} has a {one.opening.door} door and up to {show_number(round(one.watts))} W behind it{rest}"
    )


def _made_for(job: Job, one: Cooling) -> str:
    least = [each for each in one.warm if getattr(job.get(each), "warmest", None) == one.limit_c]
    return f"{listed(least)} is made for" if least else "Most home equipment is made for"


def _watts(one: Cooling) -> str:
    return f"{show_number(round(one.watts))} W"


def _wanted(job: Job, one: Cooling) -> str:
    air = airflow_needed(one.watts + one.passed_w, one.good_rise_c)
    flow = f"{air.m3_per_h:.0f} m³/h" if job.settings.metric else f"{air.cfm:.0f} cfm"
    rise = _degrees(job, one.good_rise_c, rise=True)
    fan = one.fan_wanted_cfm
    if fan is None:
        big = "No fan of this pressure moves that through these vents. Make the vents larger."
    else:
        sold = f"{fan * M3H_PER_CFM:.0f} m³/h" if job.settings.metric else f"{fan:.0f} cfm"
        big = f"A fan sold as {sold} works; its noise is in its data sheet."
    return f"To stay within {rise} of the room it needs {flow} of air. {big}"


def _degrees(job: Job, celsius: float, *, rise: bool = False) -> str:
    if job.settings.metric:
        return f"{celsius:.0f} °C"
    return f"{celsius * F_PER_C + (0 if rise else 32):.0f} °F"


def _numbers(one: Cooling) -> dict[str, str]:
    made = one.opening
    air = {"air in": made.air_in, "air out": made.air_out, "fan": made.fan}
    return {
        "watts": show_number(one.watts),
        "door": made.door,
        **{name: show_number(value) for name, value in air.items() if value is not None},
    }
