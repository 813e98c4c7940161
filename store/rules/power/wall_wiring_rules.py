"""Findings about the wall as a place for wiring: receptacles along the finished wall."""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil, floor

from store.measure.length import INCH_NM, Length
from store.records.wall import Wall
from store.records.whole import Job
from store.rules.core.code import edition, is_us
from store.rules.core.findings import Finding, Severity, rule
from store.rules.core.keyed import from_each
from store.rules.core.wording import INSPECTOR, few_of, shown
from store.rules.power.wall_wiring import openings_on, receptacles_on, wall_spacing
from store.rules.wall.places import rect_of
from store.rules.wall.readings import sizes
from store.trade.measured.citations import nec
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
