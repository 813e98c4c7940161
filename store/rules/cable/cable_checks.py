"""Rough-in checks that follow from the plan: every cable, box, raceway, bored stud, load, panel and the inspection.

A check is here because of its records, and vouches for them as they are; all of these are among its `tags`, so that
a change after the wall was covered is told as found after it. What a closing once vouched for counts among them too.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from store.measure.length import Length, to_file
from store.records.access import Panel
from store.records.base import Record
from store.records.equipment import Equipment
from store.records.gate import Closing
from store.records.wall import Opening, Wall
from store.records.whole import Job
from store.records.wiring import Box, Cable, Circuit, Raceway
from store.rules.cable.check_words import TEST_WANTED, TESTED_OTHERWISE, named_cable
from store.rules.cable.kinds import holds_power, is_power, kind_named
from store.rules.cable.routes import course, studs_between
from store.rules.core.checks import RoughIn, checks_of
from store.rules.core.memo import from_each
from store.rules.wall.places import point_of, read_place, wall_of

HEAVY_KG = 4.5
"""A thing on a wall bracket from this weight on wants backing (about 10 lb); common practice, no source."""
BACKED_USES = ("screen", "fireplace", "shelf")

Inputs = tuple[Record | None, ...]


def _tags(inputs: Inputs) -> tuple[str, ...]:
    return tuple(dict.fromkeys(each.tag for each in inputs if each is not None))


# --- cables ---


@checks_of
@from_each(Cable)
def of_cables(job: Job, cable: Cable) -> Iterable[RoughIn]:
    """Every cable in the wall: pulled, labelled, tested, photographed, and its bored studs plated."""
    if cable.in_wall and cable.retired is None:
        raceway = job.of(Raceway).get(cable.raceway) if cable.raceway else None
        inputs = (cable, *_place_of(job, cable.start), *_place_of(job, cable.end), raceway)
        if raceway is not None:
            inputs = (*inputs, *_place_of(job, raceway.start), *_place_of(job, raceway.end))
        if cable.points:
            # A bare number on the way is read in the job's unit; a tag there stands for its place.
            by = [place for text in cable.points for place in _place_of(job, text.strip().upper())]
            inputs = (*inputs, job.settings, *by)
        yield from _of_cable(job, cable, inputs)


def _place_of(job: Job, tag: str) -> Inputs:
    """The records that say where an end is: itself, its opening, its wall."""
    record = job.get(tag) if tag else None
    opening = job.of(Opening).get(record.opening) if isinstance(record, Equipment) else None
    holder = opening or record
    wall = job.of(Wall).get(holder.wall) if isinstance(holder, Box | Opening | Panel) else None
    return record, opening, wall


def _of_cable(job: Job, cable: Cable, inputs: Inputs) -> Iterator[RoughIn]:
    tag, name = cable.tag, named_cable(cable)
    trade = "electrician" if is_power(job, cable) else "low-voltage"
    ends = {"from": _spot(job, cable.start), "to": _spot(job, cable.end)}
    run = {"type": cable.type, **ends, "route": _route_words(job, cable)}
    where = f"{cable.start or 'not given'} to {cable.end or 'not given'}"
    tags = _tags(inputs)
    kind = kind_named(cable.type)
    test = TEST_WANTED.get(kind.family, TESTED_OTHERWISE) if kind else TESTED_OTHERWISE
    labels: dict[str, str] = {"from": cable.start, "to": cable.end}
    yield RoughIn(f"{tag}/pulled", f"{name} pulled", trade, where, "who pulled it, and that it is whole", tags, run)
    yield RoughIn(
        f"{tag}/labelled", f"{name} labelled {tag} at both ends", trade, where, "both labels seen", tags, labels
    )
    tested = {**run, "must carry": cable.carries}
    yield RoughIn(f"{tag}/tested", f"{name} tested", trade, where, test, tags, tested)
    wants = "photo of the whole run, with a tape in it"
    yield RoughIn(f"{tag}/photographed", f"{name} photographed in the open wall", "owner", where, wants, tags, run)
    if bored := _bored(job, cable, run):
        yield _plates(f"{tag}/plates", name, trade, where, tags, bored)


def _plates(key: str, name: str, trade: str, where: str, tags: tuple[str, ...], bored: dict[str, str]) -> RoughIn:
    what = f"Studs bored for {name}: holes within limits, steel plates where an edge is nearer than 1-1/4 in"
    return RoughIn(key, what, trade, where, "photo of the plates, or the least distance to an edge", tags, bored)


def _spot(job: Job, tag: str) -> str:
    """An end with its place, exact: what a closing vouches for."""
    point = point_of(job, tag) if tag else None
    if point is None:
        return tag
    across, up = (to_file(Length(each)) for each in point)
    return f"{tag} at {across} / {up} on {wall_of(job, tag)}"


def _route_words(job: Job, cable: Cable) -> str:
    how = course(cable)
    if how == "raceway":
        raceway = job.of(Raceway).get(cable.raceway)
        ends = f" {_spot(job, raceway.start)} to {_spot(job, raceway.end)}" if raceway else ""
        return f"raceway {cable.raceway}{ends}"
    if how == "points":
        return f"points {', '.join(_on_the_way(job, text) for text in cable.points)}"
    level = f" at {to_file(cable.level)}" if cable.level is not None and how == "through studs" else ""
    return how + level + _corner_words(job, cable)


def _corner_words(job: Job, cable: Cable) -> str:
    """How the walls of a cable that goes round a corner meet, as noted on them; empty where nothing is."""
    walls = (wall_of(job, cable.start), wall_of(job, cable.end))
    if walls[0] == walls[1]:
        return ""
    noted = [
        f"{side} end of {tag} meets {other}"
        for tag in walls
        if (wall := job.of(Wall).get(tag)) is not None
        for side, other in (("left", wall.meets_left), ("right", wall.meets_right))
        if other
    ]
    return f", {', '.join(noted)}" if noted else ""


def _on_the_way(job: Job, text: str) -> str:
    """A place on the way: as typed, or a tag with where it is."""
    tag = text.strip().upper()
    return _spot(job, tag) if tag in job.of(Box) or tag in job.of(Opening) or tag in job.of(Equipment) else text


def _bored(job: Job, cable: Cable, ends: dict[str, str]) -> dict[str, str]:
    """What a closing of the plates vouches for; empty where no stud is bored."""
    how = course(cable)
    walls = wall_of(job, cable.start), wall_of(job, cable.end)
    start, end = point_of(job, cable.start), point_of(job, cable.end)
    if how not in ("through studs", "points") or start is None or end is None or not all(walls):
        return {}
    run = {"from": ends["from"], "to": ends["to"], "route": ends["route"]}
    between = [each for text in cable.points if (each := read_place(job, text))] if how == "points" else []
    if {walls[0], walls[1], *(wall for wall, _ in between if wall)} != {walls[0]}:
        return {**run, "studs": "round the corner"}
    across = [start[0], end[0], *(point[0] for _, point in between)]
    return _studs_met(job, walls[0], min(across), max(across), run)


def _studs_met(job: Job, wall: str, low: int, high: int, run: dict[str, str]) -> dict[str, str]:
    met = studs_between(job, wall, low, high)
    if met is None:
        return {**run, "studs": "not measured"} if low != high else {}
    return {**run, "studs": ", ".join(to_file(Length(each)) for each in met)} if met else {}


# --- boxes, raceways, panels ---


@checks_of
@from_each(Box)
def of_boxes(job: Job, box: Box) -> Iterable[RoughIn]:
    """Every new box: set, at the depth of the finished face, its place measured."""
    if not box.new:
        return
    tag, name = box.tag, f"{box.tag} ({box.name or box.what})"
    trade = "electrician" if holds_power(box) else "low-voltage"
    place, tags = _spot(job, box.tag), _tags((box, job.of(Wall).get(box.wall)))
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
@from_each(Raceway)
def of_raceways(job: Job, one: Raceway) -> Iterable[RoughIn]:
    """Every raceway: in, its pull string in it, its bored studs plated."""
    tag, name = one.tag, f"{one.tag} ({one.name or one.type})"
    ends = {"from": _spot(job, one.start), "to": _spot(job, one.end)}
    tags = _tags((one, *_place_of(job, one.start), *_place_of(job, one.end)))
    where = f"{one.start or 'not given'} to {one.end or 'not given'}"
    made = {"type": one.type, "size": one.size, **ends}
    yield RoughIn(f"{tag}/in", f"Raceway {name} in, held and reamed", "low-voltage", where, "photo", tags, made)
    if one.type == "grommet":
        return
    yield RoughIn(f"{tag}/string", f"Pull string left in {name}", "low-voltage", where, "seen at both ends", tags, made)
    start, end = point_of(job, one.start), point_of(job, one.end)
    walls, run = (wall_of(job, one.start), wall_of(job, one.end)), {**ends, "size": one.size}
    if start is not None and end is not None and all(walls):
        low, high = sorted((start[0], end[0]))
        round_it = {**run, "studs": "round the corner"}
        if bored := _studs_met(job, walls[0], low, high, run) if walls[0] == walls[1] else round_it:
            yield _plates(f"{tag}/plates", name, "low-voltage", where, tags, bored)


@checks_of
@from_each(Panel)
def of_panels(job: Job, panel: Panel) -> Iterable[RoughIn]:
    """Every access panel: its opening framed."""
    inputs = (panel, job.of(Wall).get(panel.wall))
    size = {"clear width": _text(panel.width), "clear height": _text(panel.height)}
    what = f"Opening of access panel {panel.tag} ({panel.name}) framed"
    vouches = {"place": _spot(job, panel.tag), **size}
    yield RoughIn(f"{panel.tag}/framed", what, "carpenter", panel.name, "clear size, measured", _tags(inputs), vouches)


# --- loads, fire blocks, inspection ---


@checks_of
def of_loads(job: Job) -> Iterable[RoughIn]:
    """Backing for every opening that carries a load, and for what hangs on a bracket elsewhere."""
    yield from _of_openings(job)
    yield from _of_brackets(job)


@from_each(Opening)
def _of_openings(job: Job, one: Opening) -> Iterable[RoughIn]:
    if one.use not in BACKED_USES:
        return
    inputs = (one, job.of(Wall).get(one.wall))
    vouches = {
        "use": one.use,
        "place": _spot(job, one.tag),
        "width": _text(one.width),
        "height": _text(one.height),
    }
    what = f"Backing in the framing for {one.tag} ({one.name}), where its load is screwed on"
    yield RoughIn(f"{one.tag}/backing", what, "carpenter", one.name, "photo with a tape in it", _tags(inputs), vouches)


@from_each(Equipment)
def _of_brackets(job: Job, one: Equipment) -> Iterable[RoughIn]:
    heavy = one.weight is not None and one.weight.kilograms >= HEAVY_KG
    if one.retired is not None or one.mounting != "wall bracket" or not heavy or one.what == "mount":
        return
    around = job.of(Opening).get(one.opening) if one.opening else None
    if around is not None and around.use in BACKED_USES:
        return
    inputs = (one, around)
    weight = f"{one.weight.kilograms:g} kg" if one.weight is not None else ""
    vouches = {"weight": weight, "hole pattern": one.holes, "place": _spot(job, one.tag)}
    what = f"Backing for the bracket of {one.tag} ({one.name})"
    yield RoughIn(f"{one.tag}/backing", what, "carpenter", one.name, "photo with a tape in it", _tags(inputs), vouches)


@checks_of
@from_each(Wall)
def of_walls(job: Job, wall: Wall) -> Iterable[RoughIn]:
    """Fire blocking of every wall."""
    vouches = {
        "stud depth": to_file(wall.stud_depth),
        "spacing": to_file(wall.spacing),
        "framing changed": wall.framed.isoformat() if wall.framed else "",
    }
    what = f"Fire blocks in {wall.tag} ({wall.name}): floor, ceiling, soffits, every 10 ft; bored holes sealed"
    yield RoughIn(f"{wall.tag}/fireblocking", what, "carpenter", wall.name, "photo of each", (wall.tag,), vouches)


@checks_of
def of_inspection(job: Job) -> Iterable[RoughIn]:
    """The rough inspection, unless no permit is needed. It vouches for the power wiring that was there."""
    if job.settings.permit == "not needed":
        return
    wiring = [tag for tag, box in job.of(Box).items() if box.new and holds_power(box)]
    wiring += [
        tag for tag, cable in job.of(Cable).items() if cable.in_wall and cable.retired is None and is_power(job, cable)
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
        {"power wiring": listed},
    )  # fmt: skip


def _text(length: Length | None) -> str:
    return to_file(length) if length is not None else ""
