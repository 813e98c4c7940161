"""Where cables run: the path of each, its length, the studs it goes through. This is the truth of paths.

Whole nanometres. A path lies on the face of the wall; where it goes round a corner to another wall, both faces are
laid out flat, the second continuing the first. What is drawn is what is measured.
"""

from __future__ import annotations

import msgspec

from store.measure.length import Length, show_length
from store.records.equipment import Equipment
from store.records.wall import Wall
from store.records.whole import Job
from store.records.wiring import Box, Cable, Circuit, Raceway
from store.rules.cable.blocked import crossed
from store.rules.cable.courses import (
    Course,
    ends_missing,
    named_on,
    place_of_end,
    raceway_course,
    raceway_length,
    square,
)
from store.rules.cable.kinds import is_power
from store.rules.cable.legs import BEYOND, OVER, Leg, Place, Unfolded, beyond_walls
from store.rules.cable.outs import in_room, steps_nm
from store.rules.core.keyed import of_each
from store.rules.wall.layout import walls
from store.rules.wall.lines import ceilings
from store.rules.wall.places import Point, equipment_rect, point_of, read_place, wall_of, without_repeats
from store.rules.wall.uprights import studs_at, through_front
from store.trade.cable.length import path_length_nm, studs_crossed
from store.trade.measured.framing import MOST_STUDS

PLAN = "the plan"
MEASURED = "measured by hand"


class Route(msgspec.Struct, frozen=True):
    """The way of one cable."""

    path: int | None
    """Its length; None while it is not known."""
    found: str = PLAN
    """How the length was found."""
    why: str = ""
    """What is missing for its way on the plan, in words."""
    legs: tuple[Leg, ...] = ()
    """Every stretch of it in turn, as far as its way is known."""
    walls: tuple[str, ...] = ()
    """The walls it goes over, in turn."""
    noted: bool = True
    """False where it goes round a corner that nobody noted, and the nearer way was taken."""
    other_by: int = 0
    """How much longer the way round the other ends of those walls would be, where that is not noted."""
    studs: int | None = 0
    """Studs to be bored; None while the layout of the studs is not known."""
    plates_bored: int = 0
    """Holes through top or bottom plates."""

    @property
    def in_wall(self) -> tuple[Leg, ...]:
        """The stretches that lie loose in a wall: not above it, below it, or in a raceway."""
        return tuple(leg for leg in self.legs if leg.place == "wall")


@of_each(Cable)
def routes(job: Job, cable: Cable) -> Route | None:
    """The route of every cable that is in use, by tag."""
    return route_of(job, cable) if cable.retired is None else None


def route_of(job: Job, cable: Cable) -> Route:
    """The way of one cable. A length measured by hand wins over the one of the plan."""
    plan = _planned(job, cable)
    if cable.measured is not None:
        return msgspec.structs.replace(plan, path=cable.measured.nm, found=MEASURED)
    taken = [tag for tag in (cable.start, cable.end) if _size_unknown(job, tag)]
    if plan.path is None or not taken:
        return plan
    return msgspec.structs.replace(
        plan, found=f"{plan.found}; {' and '.join(taken)} taken at the middle of the opening"
    )


def _size_unknown(job: Job, tag: str) -> bool:
    """True for a device of which no more is known than its opening."""
    one = job.of(Equipment).get(tag) if tag else None
    return one is not None and equipment_rect(job, one) is None


def course(cable: Cable) -> str:
    """The route that counts: what stays in the cabinet goes straight unless another way is named."""
    if not cable.in_wall and cable.route == "through studs" and cable.level is None:
        return "cabinet"
    return cable.route


def _planned(job: Job, cable: Cable) -> Route:
    how = course(cable)
    if how == "raceway":
        return _by_raceway(job, cable)
    if home := _home_run(job, cable):
        return home
    places = _places(job, cable, how)
    if isinstance(places, str):
        return Route(None, studs=None, why=places)
    unfolded = Unfolded.of(job, places)
    if isinstance(unfolded, str):
        return Route(None, studs=None, why=unfolded)
    between, why = _between(job, cable, how, unfolded)
    if why:
        return Route(None, studs=None, why=why)
    start, end = unfolded.points[0], unfolded.points[-1]
    over = how in BEYOND
    points = without_repeats((start, *between, end))
    place: Place = "wall" if cable.in_wall and how != "cabinet" else "cabinet"
    legs = tuple(unfolded.legs(points, place, frozenset(between if over else ())))
    flat = path_length_nm([(x, y, 0) for x, y in points])
    if place == "cabinet":
        return _route(unfolded, flat, legs)
    named = named_on(job, cable.points) if how == "points" else {}
    route = _route(unfolded, flat + steps_nm(in_room(job, legs, cable.start, cable.end, named)), legs)
    return msgspec.structs.replace(route, studs=_studs(job, route), plates_bored=2 if over else 0)


def _places(job: Job, cable: Cable, how: str) -> list[tuple[str, Point]] | str:
    """The places that a cable goes by, each with its wall, both ends among them; in words what is missing."""
    if why := ends_missing(job, cable):
        return why
    named = [read_place(job, text) for text in cable.points] if how == "points" else []
    wall = wall_of(job, cable.start)
    found = []
    for each in (place_of_end(job, cable.start), *(each for each in named if each is not None)):
        wall = each[0] or wall
        found.append((wall, each[1]))
    return [*found, place_of_end(job, cable.end)]


def _route(unfolded: Unfolded, path: int, legs: tuple[Leg, ...]) -> Route:
    """The route of a way over walls that are laid out flat."""
    found = PLAN if unfolded.noted else f"{PLAN}, around the nearer corner: no corner entered between the walls"
    return Route(path, found, "", legs, unfolded.walls, unfolded.noted, unfolded.other_by)


def _between(job: Job, cable: Cable, how: str, unfolded: Unfolded) -> tuple[tuple[Point, ...], str]:
    """The places between the ends of a way; beside them what is missing for it."""
    start, end = unfolded.points[0], unfolded.points[-1]
    if how in ("cabinet", "points"):
        return unfolded.points, ""
    if how in BEYOND:
        beyond = beyond_walls(job, unfolded, how)
        return ((), beyond) if isinstance(beyond, str) else (beyond, "")
    level = start[1] if cable.level is None else cable.level.nm
    return ((start[0], level), (end[0], level)), ""


def _home_run(job: Job, cable: Cable) -> Route | None:
    """A feed from the electrical panel: one end in a box, and the circuit of that box tells how long it is."""
    if bool(cable.start) == bool(cable.end) or not is_power(job, cable):
        return None
    box = job.of(Box).get(cable.start or cable.end)
    circuit = job.of(Circuit).get(box.circuit) if box else None
    if box is None or circuit is None or circuit.length is None:
        return None
    legs = _leaving(job, cable, box)
    why = "" if legs else "it comes from the electrical panel, which is not on the drawing"
    found = f"the length of {circuit.tag} to the panel"
    return Route(circuit.length.nm, found, why, legs, walls=(box.wall,), studs=None)


def _leaving(job: Job, cable: Cable, box: Box) -> tuple[Leg, ...]:
    """Where a home run leaves its wall: straight up from the box, or down to the floor.

    As its route says; where that says neither, up where nothing is in the way, else down, else it is not known.
    """
    line = ceilings(job).get(box.wall)
    if box.x is None or box.y is None:
        return ()
    start = (box.x.nm, box.y.nm)
    up = (Leg(box.wall, start, (start[0], line.at(start[0]))),) if line is not None else ()
    down = (Leg(box.wall, start, (start[0], 0)),)
    if cable.route in BEYOND:
        return up if cable.route == OVER else down
    return next((legs for legs in (up, down) if legs and not any(crossed(job, cable, legs))), ())


# --- raceways ---


def _by_raceway(job: Job, cable: Cable) -> Route:
    raceway = job.of(Raceway).get(cable.raceway)
    if raceway is None:
        return Route(None, studs=None, why="no raceway entered")
    length = raceway_length(job, raceway)
    if length is None:
        why = f"no length entered for {raceway.tag}, and {raceway_course(job, raceway)}"
        return Route(None, studs=None, why=why)
    walls = tuple(dict.fromkeys(each for each in (wall_of(job, cable.start), wall_of(job, cable.end)) if each))
    found = f"{PLAN}, along {raceway.tag}"
    along = raceway_course(job, raceway)
    if {cable.start, cable.end} == {raceway.start, raceway.end}:
        if isinstance(along, str):
            return Route(length, found, along, walls=walls)
        legs = _turned(along.legs, back=cable.start != raceway.start)
        return Route(length, found, "", legs, walls, along.noted)
    if why := ends_missing(job, cable) or (along if isinstance(along, str) else ""):
        return Route(None, studs=None, why=f"the route to {raceway.tag} is not known: {why}")
    assert isinstance(along, Course)
    ways = [_through(job, cable, raceway, along.legs, back=back) for back in (False, True)]
    known = [each for each in ways if not isinstance(each, str)]
    if not known:
        return Route(None, studs=None, why=f"the route to {raceway.tag} is not known: {ways[0]}")
    extra, legs, noted = min(known, key=lambda each: each[0])
    route = Route(length + extra, found, "", legs, walls, noted and along.noted)
    return msgspec.structs.replace(route, studs=_studs(job, route))


def _through(
    job: Job, cable: Cable, raceway: Raceway, along: tuple[Leg, ...], *, back: bool
) -> tuple[int, tuple[Leg, ...], bool] | str:
    """The way to the mouths of a raceway beside its own length, and all stretches; in words what is missing."""
    into, out_of = (raceway.end, raceway.start) if back else (raceway.start, raceway.end)
    to = square(job, cable.start, into, _beside(job, cable, cable.start, into))
    on = square(job, out_of, cable.end, _beside(job, cable, cable.end, out_of))
    if isinstance(to, str):
        return to
    if isinstance(on, str):
        return on
    legs = (*(to.legs if to.length else ()), *_turned(along, back=back), *(on.legs if on.length else ()))
    return to.length + on.length, legs, to.noted and on.noted


def _beside(job: Job, cable: Cable, end: str, mouth: str) -> Place:
    """Where a cable lies between its end and a mouth of its raceway: in front of the wall if one opening has both."""
    device = job.of(Equipment).get(end)
    same = mouth == end or (device is not None and device.opening == mouth)
    return "wall" if cable.in_wall and not same else "cabinet"


def _turned(legs: tuple[Leg, ...], *, back: bool) -> tuple[Leg, ...]:
    """The stretches in the order in which they are met."""
    return tuple(Leg(leg.wall, leg.end, leg.start, leg.place) for leg in reversed(legs)) if back else legs


# --- studs ---


def _studs(job: Job, route: Route) -> int | None:
    """Studs that the stretches in the wall are bored through; None while the layout of the studs is not known."""
    total, last = 0, ("", 0)
    for leg in route.in_wall:
        if leg.start[0] == leg.end[0]:
            last = ("", 0)
            continue
        level = leg.start[1] if leg.start[1] == leg.end[1] else None
        met = studs_on(job, leg, ends=len(route.walls) > 1, level=level)
        if met is None:
            return None
        # Where two stretches meet inside a stud, it is bored once.
        total += len(met) - (bool(met) and (leg.wall, met[0]) == last)
        last = (leg.wall, met[-1]) if met else ("", 0)
    return total


def studs_on(job: Job, leg: Leg, *, ends: bool, level: int | None) -> tuple[int, ...] | None:
    """Centres of the studs that a stretch is bored through: those of the build-out it is within, else of the wall."""
    front = through_front(job, leg.wall, leg.start, leg.end)
    if front is None:
        return studs_between(job, leg.wall, leg.start[0], leg.end[0], ends=ends, level=level)
    low, high = sorted((leg.start[0], leg.end[0]))
    return tuple(each.centre_nm for each in front if low < each.centre_nm < high)


def studs_between(
    job: Job, wall: str, start: int, end: int, *, ends: bool = False, level: int | None = None
) -> tuple[int, ...] | None:
    """Centres of the studs that a run on a wall goes through, by the wall's layout; None while not measured.

    With `ends` the studs at both ends of the wall count too, where its width is known: a run round a corner meets them.
    At a `level` only what is upright there counts: an opening takes studs away and brings others.
    """
    one, on = job.of(Wall).get(wall), walls(job).get(wall)
    if one is not None and on is not None and on.width_nm is not None and on.studs:
        there = on.studs if level is None else studs_at(job, wall, level, level) or on.studs
        edges = (on.studs[0], on.studs[-1]) if one.first_stud is not None else ()
        centres = {each.centre_nm for each in there if ends or each not in edges}
        return studs_crossed(start, end, centres, one.stud_width.nm)
    if one is None or one.first_stud is None:
        return None
    low, high = min(start, end), max(start, end)
    spacing, wide = one.spacing.nm, one.stud_width.nm
    first = one.first_stud.nm % spacing
    if (high - low) // spacing > MOST_STUDS:
        return None
    begin, count = max(0, (low - wide - first) // spacing), (high + wide - first) // spacing
    centres = {first + at * spacing for at in range(begin, count + 1)}
    return studs_crossed(start, end, centres, wide)


def place_text(job: Job, tag: str) -> str:
    """A tag with its place, for reading: `B3 at 7' 9" / 5' 6" on W1`."""
    point = point_of(job, tag) if tag else None
    if point is None:
        return tag or "an end that is not on the list"
    metric = job.settings.metric
    across, up = (show_length(Length(each), metric) for each in point)
    return f"{tag} at {across} / {up} on {wall_of(job, tag) or 'no wall'}"
