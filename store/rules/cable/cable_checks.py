"""Rough-in checks of cables and raceways that follow from the plan, and of the studs bored for them.

A check is here because of its records, and vouches for them as they are; all of these are among its `tags`, so that
a change after the wall was covered is told as found after it. What a closing once vouched for counts among them too.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from store.measure.length import Length, parse_length, to_file
from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.wall import Opening, Wall
from store.records.whole import Job
from store.records.wiring import Box, Cable, Raceway
from store.rules.cable.kinds import is_power, kind_named
from store.rules.cable.labels import ends_text
from store.rules.cable.legs import BEYOND
from store.rules.cable.routes import course, routes, studs_between
from store.rules.cable.test_limits import test_of
from store.rules.core.checks import Inputs, RoughIn, checks_of, tags_of
from store.rules.core.headline import with_name
from store.rules.core.keyed import from_each
from store.rules.core.wording import at_most
from store.rules.wall.pieces import bearing
from store.rules.wall.places import point_of, read_place, spot_of, wall_of
from store.trade.measured.framing import BoreLook, look_at_bore

TEST_WANTED: dict[str, str] = {
    "line voltage": "continuity and insulation, by whom, with what tester",
    "category": "wire map of all pairs, and the length or rate that the tester shows",
    "coax": "reading of the meter, dB or signal",
    "hdmi": "an hour of video at full rate",
    "displayport": "an hour of video at full rate",
    "speaker": "ohm across the pair, and which conductor is plus",
    "line": "sound without hum at the far end",
    "fibre": "light through, or loss in dB",
    "usb": "a device seen at the far end",
    "infrared": "a device responds through it",
    "control": "continuity of each conductor",
}
"""Evidence of the test, by family of cable; common practice."""
TESTED_OTHERWISE = "what was tried, and the value read"
MOST = "the most is "
"""Before the largest hole that a stud may have, in what its check vouches for."""


# --- cables ---


@checks_of
@from_each(Cable)
def of_cables(job: Job, cable: Cable) -> Iterable[RoughIn]:
    """Every cable in the wall: pulled, labelled, tested, photographed, and its bored studs plated."""
    if cable.in_wall and (cable.retired is None or cable.retired > job.today):
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
    tag, name = cable.tag, cable.name or cable.type
    trade = "electrician" if is_power(job, cable) else "low-voltage"
    ends = {"from": spot_of(job, cable.start), "to": spot_of(job, cable.end)}
    run = {"type": cable.type, **ends, "route": _route_words(job, cable)}
    where = ends_text(job, cable)
    tags = tags_of(inputs)
    kind = kind_named(cable.type)
    test = TEST_WANTED.get(kind.family, TESTED_OTHERWISE) if kind else TESTED_OTHERWISE
    labels: dict[str, str] = {"from": cable.start, "to": cable.end}
    yield RoughIn(
        f"{tag}/pulled",
        with_name("Pulled", tag, name),
        trade,
        where,
        "who pulled it, and that it is undamaged",
        tags,
        run,
        more=cable.type if cable.name else "",  # without a name the type is its name
    )
    yield RoughIn(
        f"{tag}/labelled", with_name("Labeled at both ends", tag, name), trade, where, "both labels seen", tags, labels
    )
    tested = {**run, "must carry": cable.carries}
    route = routes.one(job, tag)
    limits = test_of(cable, route.path if route is not None else None)
    yield RoughIn(f"{tag}/tested", with_name("Tested", tag, name), trade, where, test, tags, tested, test=limits)
    wants = "photo of the whole run, with a tape in it"
    yield RoughIn(
        f"{tag}/photographed", with_name("Photographed in the open wall", tag, name), "owner", where, wants, tags, run
    )
    if bored := _bored(job, cable, run):
        yield _plates(job, (tag, name), trade, where, tags, bored)


def _plates(
    job: Job, named: tuple[str, str], trade: str, where: str, tags: tuple[str, ...], bored: dict[str, str]
) -> RoughIn:
    tag, name = named
    near = "closer than 1-1/4 in" if job.settings.region == "us" else "within reach of a screw"
    more = f"Holes within limits; nail plates where an edge is {near}"
    if "too large" in bored:
        most = at_most(job, parse_length(bored["too large"].removeprefix(MOST)).nm)
        more += f". The hole is too large: {MOST}{most}, or repair the stud as an engineer says"
    wants = "photo of the plates, or the least distance to an edge"
    head = "Bored hole too large for its studs" if "too large" in bored else "Nail plates on bored studs"
    return RoughIn(f"{tag}/plates", with_name(head, tag, name), trade, where, wants, tags, bored, more=more)


def _route_words(job: Job, cable: Cable) -> str:
    how = course(cable)
    if how == "raceway":
        raceway = job.of(Raceway).get(cable.raceway)
        ends = f" {spot_of(job, raceway.start)} to {spot_of(job, raceway.end)}" if raceway else ""
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
    return spot_of(job, tag) if tag in job.of(Box) or tag in job.of(Opening) or tag in job.of(Equipment) else text


def _bored(job: Job, cable: Cable, ends: dict[str, str]) -> dict[str, str]:
    """What a closing of the plates vouches for; empty where no stud is bored."""
    how = course(cable)
    walls = wall_of(job, cable.start), wall_of(job, cable.end)
    start, end = point_of(job, cable.start), point_of(job, cable.end)
    if how not in ("through studs", "points") or start is None or end is None or not all(walls):
        return {}
    run = {"from": ends["from"], "to": ends["to"], "route": ends["route"], **_hole_in(job, cable, walls)}
    between = [each for text in cable.points if (each := read_place(job, text))] if how == "points" else []
    if {walls[0], walls[1], *(wall for wall, _ in between if wall)} != {walls[0]}:
        return {**run, "studs": "round the corner"}
    across = [start[0], end[0], *(point[0] for _, point in between)]
    return _studs_met(job, walls[0], min(across), max(across), run)


def _hole_in(job: Job, cable: Cable, walls: tuple[str, str]) -> dict[str, str]:
    """The hole and the studs that it is bored in, and whether it is too large; empty where no hole is noted."""
    if cable.hole is None or cable.hole.nm <= 0:
        return {}
    found = [wall for tag in dict.fromkeys(walls) if (wall := job.of(Wall).get(tag)) is not None]
    most = [
        look.limit_nm for wall in found if wall.stud_depth.nm > 0 and not (look := _bore(job, wall, cable.hole)).allowed
    ]
    large = {"too large": f"{MOST}{to_file(Length(min(most)))}"} if most else {}
    depths = ", ".join(to_file(wall.stud_depth) for wall in found)
    return {"bored hole": to_file(cable.hole), "stud depth": depths, **large}


def _bore(job: Job, wall: Wall, hole: Length) -> BoreLook:
    """A hole through the middle of a wall's studs; one that nobody knows to be non-bearing counts as bearing."""
    return look_at_bore(wall.stud_depth.nm, hole.nm, bearing(wall), metric=job.settings.region != "us")


def _studs_met(job: Job, wall: str, low: int, high: int, run: dict[str, str]) -> dict[str, str]:
    met = studs_between(job, wall, low, high)
    if met is None:
        return {**run, "studs": "not measured"} if low != high else {}
    return {**run, "studs": ", ".join(to_file(Length(each)) for each in met)} if met else {}


# --- boxes, raceways, panels ---


@checks_of
@from_each(Raceway)
def of_raceways(job: Job, one: Raceway) -> Iterable[RoughIn]:
    """Every raceway: in, its pull string in it, its bored studs plated."""
    tag, name = one.tag, one.name or one.type
    ends = {"from": spot_of(job, one.start), "to": spot_of(job, one.end)}
    tags = tags_of((one, *_place_of(job, one.start), *_place_of(job, one.end)))
    where = ends_text(job, one)
    made = {"type": one.type, "size": one.size, **ends, **_led(job, one)}
    yield RoughIn(
        f"{tag}/in", with_name("In, strapped and reamed", tag, name), "low-voltage", where, "photo", tags, made
    )
    if one.type == "grommet":
        return
    yield RoughIn(
        f"{tag}/string",
        with_name("Pull string left in it", tag, name),
        "low-voltage",
        where,
        "seen at both ends",
        tags,
        made,
    )
    start, end = point_of(job, one.start), point_of(job, one.end)
    walls, run = (wall_of(job, one.start), wall_of(job, one.end)), {**ends, "size": one.size, **_led(job, one)}
    if start is not None and end is not None and all(walls) and (one.points or one.route not in BEYOND):
        between = [each for text in one.points if (each := read_place(job, text))]
        across = [start[0], end[0], *(point[0] for _, point in between)]
        if {*walls, *(wall for wall, _ in between if wall)} != {walls[0]}:
            bored = {**run, "studs": "round the corner"}
        else:
            bored = _studs_met(job, walls[0], min(across), max(across), run)
        if bored:
            yield _plates(job, (tag, name), "low-voltage", where, tags, bored)


def _led(job: Job, one: Raceway) -> dict[str, str]:
    """How a raceway is led, where that is entered."""
    if one.points:
        return {"way": f"points {', '.join(_on_the_way(job, text) for text in one.points)}"}
    return {"way": one.route} if one.route in BEYOND else {}


# --- loads, fire blocks, inspection ---
