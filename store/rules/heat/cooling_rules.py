"""Findings about heat behind a shut door: shut in, too warm, or not known."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.numbers import show_number
from store.records.wall import Opening
from store.records.whole import Job
from store.rules.core.findings import Finding, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import few_of, listed, named
from store.rules.heat.cooling import ROOM_C, Cooling, cooling
from store.rules.heat.cooling_words import degrees_text, fan_text, flow_text
from store.rules.heat.fan import FAN_SHARE, bad_points
from store.trade.heat.enclosure import MOST_RISE_C, airflow_needed

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
    by = _by(job, one)
    yield Finding(
        "cabinet_too_warm",
        "fix" if inside > one.limit_c else "look",
        (tag, *one.warm),
        f"Too warm behind the door: about {degrees_text(job, inside)}",
        f"{REMEDY} {_wanted(job, one)}",
        SOURCE,
        {**_numbers(one), "rise": degrees_text(job, one.rise_c, rise=True)},
        why=(
            f"{_what(job, tag, one)}. {by[0].upper()}{by[1:]} it gets about "
            f"{degrees_text(job, one.rise_c, rise=True)} above the room: {degrees_text(job, inside)} in a "
            f"room of {degrees_text(job, ROOM_C)}. {_made_for(job, one)} "
            f"{degrees_text(job, one.limit_c)} at most."
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
            why=f"{_what(job, tag, one)}. {_missing(job, one)}",
            about=(tag,),
        )


@rule
@from_each(Opening)
def fan_curve_not_read(job: Job, opening: Opening) -> Iterable[Finding]:
    """Points of a fan's curve that are no flow and pressure, or make no curve."""
    metric = job.settings.metric
    if bad := [each[:40] for each in bad_points(opening, metric)]:
        like = "34/30, 68/0 in m³/h and Pa" if metric else "20/0.12, 40/0 in cfm and inH2O"
        yield Finding(
            "fan_curve_not_read",
            "fix",
            (opening.tag,),
            "Points of the fan curve can't be read",
            f"Write two or more points from its data sheet as flow/pressure, like {like}: more flow, less pressure.",
            "the fan's data sheet",
            {"texts": ", ".join(bad)},
            why=f"The curve is not used: {few_of(bad)}.",
        )


def _missing(job: Job, one: Cooling) -> str:
    if one.asks:
        return f"Its air comes through {named(job, one.asks)}, whose free area is not entered."
    return "No air in and air out, and no fan, are entered."


def _by(job: Job, one: Cooling) -> str:
    """What moves the air: a fan where its curve meets the vents, as far as its pressure is known, or the draft."""
    free, moved = one.curve[-1][0] if one.curve else one.opening.fan, one.flow_cfm
    if one.way != "fan" or free is None or moved is None:
        return "by its own draft"
    if one.fan_by == "share" and moved >= free * FAN_SHARE * 0.999:
        return f"with {FAN_SHARE:.0%} of its fan's free-air flow"
    return f"with {flow_text(job, moved)} of its fan's {flow_text(job, free)}, the rest lost in the vents,"


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
    rise = degrees_text(job, one.good_rise_c, rise=True)
    return f"To stay within {rise} of the room it needs {flow_text(job, air.cfm)} of air. {fan_text(job, one)}"


def _numbers(one: Cooling) -> dict[str, str]:
    made = one.opening
    air = {"air in": made.air_in, "air out": made.air_out, "fan": made.fan}
    return {
        "watts": show_number(one.watts),
        "door": made.door,
        **{name: show_number(value) for name, value in air.items() if value is not None},
        **({"fan curve": ", ".join(made.fan_curve)} if made.fan_curve else {}),
    }
