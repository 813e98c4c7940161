"""Rough-in checks of line voltage: every new box, and the inspection."""

from __future__ import annotations

from collections.abc import Iterable

from store.measure.length import Length, to_file
from store.records.gate import Closing
from store.records.wall import Wall
from store.records.whole import Job
from store.records.wiring import Box, Cable, Circuit
from store.rules.cable.kinds import holds_power, is_power
from store.rules.core.checks import RoughIn, checks_of, tags_of
from store.rules.core.headline import with_name
from store.rules.core.keyed import from_each, of_each
from store.rules.core.wording import sized
from store.rules.wall.finishes import finish_at
from store.rules.wall.places import spot_of


@checks_of
@from_each(Box)
def of_boxes(job: Job, box: Box) -> Iterable[RoughIn]:
    """Every new box: set, at the depth of the finished face, its place measured."""
    if not box.new:
        return
    tag, name = box.tag, box.name or box.what
    trade = "electrician" if holds_power(box) else "low-voltage"
    place, tags = spot_of(job, box.tag), tags_of((box, job.of(Wall).get(box.wall)))
    where = box.name or box.what
    made = {"kind": box.what, "gangs": str(box.gangs), "place": place}
    yield RoughIn(f"{tag}/set", with_name("Box set and fastened", tag, name), trade, where, "photo", tags, made)
    finish = finish_at(job, tag).thickness_nm
    depth = {
        "place": place,
        "finish": to_file(Length(finish)),
        "set back": to_file(box.setback) if box.setback is not None else "",
    }
    what, more = with_name("Front edge at the finished face", tag, name), f"{sized(job, finish)} of finish counted"
    yield RoughIn(
        f"{tag}/depth", what, trade, where, "front edge to stud face, measured", (*tags, "job"), depth, more=more
    )
    what = with_name("Located from a corner and the floor", tag, name)
    yield RoughIn(f"{tag}/located", what, trade, where, "both measures as built", tags, {"place": place})


@checks_of
def of_inspection(job: Job) -> Iterable[RoughIn]:
    """The rough inspection, unless no permit is needed. It vouches for the power wiring that was there."""
    if job.settings.permit == "not needed":
        return
    wiring: dict[str, str] = {}
    for seen in (_box_inspected, _cable_inspected, _circuit_inspected):
        wiring.update(seen.whole(job))
    listed = ", ".join(wiring)
    closing = job.of(Closing).get("job/inspection")
    # What was inspected and is gone since can open it as well, so it stays among the tags.
    was = closing.vouches.get("power wiring", "") if closing is not None else ""
    gone = [] if was == listed else [each for each in was.split(", ") if each]
    what = "Rough inspection passed, before anything is covered"
    tags = ("job", *dict.fromkeys((*wiring, *gone)))
    yield RoughIn(
        "job/inspection", what, "inspector", "whole wall", "name or number of the inspector, and the date", tags,
        {"power wiring": listed, **wiring},
    )  # fmt: skip


# What an inspector saw of each piece of power wiring, in words; of other things nothing.


@of_each(Box)
def _box_inspected(job: Job, box: Box) -> str | None:
    if not box.new or not holds_power(box):
        return None
    return f"{box.what} at {spot_of(job, box.tag)}, circuit {box.circuit or 'not entered'}"


@of_each(Cable)
def _cable_inspected(job: Job, cable: Cable) -> str | None:
    if not cable.in_wall or (cable.retired is not None and cable.retired <= job.today) or not is_power(job, cable):
        return None
    how = f"raceway {cable.raceway}" if cable.raceway else cable.route
    return f"{cable.type} from {spot_of(job, cable.start)} to {spot_of(job, cable.end)}, {how}"


@of_each(Circuit)
def _circuit_inspected(job: Job, circuit: Circuit) -> str:
    return f"{circuit.breaker} A, {circuit.volts} V, {circuit.conductor or 'no conductor entered'}"
