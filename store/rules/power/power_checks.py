"""Rough-in checks of line voltage: every new box, and the inspection."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.length import to_file
from store.records.gate import Closing
from store.records.wall import Wall
from store.records.whole import Job
from store.records.wiring import Box, Cable, Circuit
from store.rules.cable.kinds import holds_power, is_power
from store.rules.core.checks import RoughIn, checks_of, tags_of
from store.rules.core.keyed import from_each
from store.rules.wall.places import spot_of


@checks_of
@from_each(Box)
def of_boxes(job: Job, box: Box) -> Iterable[RoughIn]:
    """Every new box: set, at the depth of the finished face, its place measured."""
    if not box.new:
        return
    tag, name = box.tag, f"{box.tag} ({box.name or box.what})"
    trade = "electrician" if holds_power(box) else "low-voltage"
    place, tags = spot_of(job, box.tag), tags_of((box, job.of(Wall).get(box.wall)))
    where = box.name or box.what
    made = {"kind": box.what, "gangs": str(box.gangs), "place": place}
    yield RoughIn(f"{tag}/set", f"Box {name} set and fast", trade, where, "photo", tags, made)
    finish = to_file(job.settings.finish)
    depth = {"place": place, "finish": finish, "set back": to_file(box.setback) if box.setback is not None else ""}
    what = f"Front edge of {name} at the finished face: {finish} of finish counted"
    yield RoughIn(f"{tag}/depth", what, trade, where, "front edge to stud face, measured", (*tags, "job"), depth)
    what = f"{name} located: from a corner and from the floor"
    yield RoughIn(f"{tag}/located", what, trade, where, "both measures as built", tags, {"place": place})


@checks_of
def of_inspection(job: Job) -> Iterable[RoughIn]:
    """The rough inspection, unless no permit is needed. It vouches for the power wiring that was there."""
    if job.settings.permit == "not needed":
        return
    wiring = [tag for tag, box in job.of(Box).items() if box.new and holds_power(box)]
    wiring += [
        tag
        for tag, cable in job.of(Cable).items()
        if cable.in_wall and (cable.retired is None or cable.retired > job.today) and is_power(job, cable)
    ]
    wiring += list(job.of(Circuit))
    listed = ", ".join(wiring)
    closing = job.of(Closing).get("job/inspection")
    # What was inspected and is gone since can open it as well, so it stays among the tags.
    was = closing.vouches.get("power wiring", "") if closing is not None else ""
    gone = [] if was == listed else [each for each in was.split(", ") if each]
    what = "Rough inspection passed, before anything is covered"
    tags = ("job", *dict.fromkeys((*wiring, *gone)))
    yield RoughIn(
        "job/inspection", what, "inspector", "whole wall", "name or number of the inspector, and the date", tags,
        {"power wiring": listed, **{tag: _as_inspected(job, tag) for tag in wiring}},
    )  # fmt: skip


def _as_inspected(job: Job, tag: str) -> str:
    """What an inspector saw of a piece of power wiring, in words."""
    record = job.get(tag)
    if isinstance(record, Box):
        return f"{record.what} at {spot_of(job, tag)}, circuit {record.circuit or 'not given'}"
    if isinstance(record, Cable):
        how = f"raceway {record.raceway}" if record.raceway else record.route
        return f"{record.type} from {spot_of(job, record.start)} to {spot_of(job, record.end)}, {how}"
    if isinstance(record, Circuit):
        return f"{record.breaker} A, {record.volts} V, {record.conductor or 'conductor not given'}"
    return ""
