"""Where everything with a cord plugs in, as a list to read: by receptacle, with what hangs on its strips below it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from store.records.equipment import Equipment
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.core.wording import named as called
from store.rules.plug.places import UNPOWERED
from store.rules.power.plan import has_plug, power, things

DEEPEST = 9
"""Strip on strip on strip: no list goes on for ever where a chain of plugs comes back to itself."""


def plug_lines(job: Job, proposed: set[str], left: Sequence[tuple[str, str]]) -> list[str]:
    """Lines by receptacle; what was just proposed has a plus; last what has no place, with why, and what is unknown."""
    lines: list[str] = []
    for tag in job.of(Box):
        below = list(_hanging(job, tag, proposed, 1))
        if below:
            circuit = job.of(Box)[tag].circuit
            lines += [f"{called(job, tag)}, {f'circuit {called(job, circuit)}' if circuit else 'no circuit'}", *below]
    shown = {*_reached(job)}
    without = [one for one in things(job) if has_plug(one) and one.tag not in shown]
    if without:
        why = dict(left)
        lines.append("No place:")
        lines += [f"  {called(job, one.tag)}{f': {why[one.tag]}' if one.tag in why else ''}" for one in without]
    unknown = [one for one in things(job) if one.power == "unknown" and not one.plug and one.what not in UNPOWERED]
    if unknown:
        lines.append("Power not entered (cord, plug-in adapter, hardwired, none):")
        lines += [f"  {called(job, one.tag)}" for one in unknown]
    return lines or ["No cords yet."]


def _reached(job: Job) -> Iterator[str]:
    """What a chain of plugs leads from to a box."""
    return (tag for tag, feed in power(job).feeds.items() if not feed.ended)


def _hanging(job: Job, at: str, proposed: set[str], depth: int) -> Iterator[str]:
    equipment = job.of(Equipment)
    for tag in power(job).users.get(at, ()) if depth <= DEEPEST else ():
        one = equipment[tag]
        half = "" if one.half == "either" else f", {one.half}"
        wired = "" if has_plug(one) else ", wired"
        yield f"{'  ' * depth}{'+' if tag in proposed else '·'} {called(job, tag)}{wired}{half}"
        yield from _hanging(job, tag, proposed, depth + 1)
