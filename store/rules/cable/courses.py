"""Where raceways run, square to the framing, by their points, over the top or under the floor; and what all ways share.

Whole nanometres.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

import msgspec

from store.records.whole import Job
from store.records.wiring import Cable, Raceway
from store.rules.cable.legs import BEYOND, Leg, Place, Unfolded, beyond_walls
from store.rules.cable.outs import in_room, named_at, steps_nm, turns_deg
from store.rules.core.memo import once
from store.rules.wall.places import Point, point_of, read_place, wall_of, without_repeats
from store.trade.cable.length import path_length_nm


class Course(msgspec.Struct, frozen=True):
    """A way square to the framing."""

    length: int
    legs: tuple[Leg, ...]
    noted: bool = True
    turned: float = 0.0
    """All its turns added up, degrees."""

    @property
    def within(self) -> tuple[Leg, ...]:
        """The stretches that are in the walls, not above or below them."""
        return tuple(leg for leg in self.legs if leg.place != "beyond")


def place_of_end(job: Job, tag: str) -> tuple[str, Point]:
    """The wall and the place of an end of a cable or raceway; the corner of the wall while it has none."""
    return wall_of(job, tag), point_of(job, tag) or (0, 0)


def ends_missing(job: Job, one: Cable | Raceway) -> str:
    """What is missing for the place of an end, in words; empty when nothing is."""
    for side, tag in (("from", one.start), ("to", one.end)):
        if not tag:
            return f"its “{side}” end not entered"
        if point_of(job, tag) is None:
            return f"{tag} is not placed yet"
        if not wall_of(job, tag):
            return f"{tag} is on no wall yet"
    return ""


def named_on(job: Job, points: Iterable[str]) -> Mapping[tuple[str, Point], int]:
    """The points of a way that are things, with how far out of the wall they are."""
    tags = [text.strip().upper() for text in points]
    found = [named_at(job, tag, point) for tag in tags if (point := point_of(job, tag)) is not None]
    return dict(each for each in found if each is not None)


def raceway_length(job: Job, raceway: Raceway) -> int | None:
    """How long a raceway is: as noted, or square to the framing between its ends; None while neither is known."""
    if raceway.length is not None:
        return raceway.length.nm
    way = raceway_course(job, raceway)
    return None if isinstance(way, str) else way.length


def raceway_course(job: Job, raceway: Raceway, *, low: bool = False) -> Course | str:
    """The way of a raceway between its ends, also round a corner; in words what is missing for it.

    Its points come first, then its route. Where neither says more, it is taken to run level at the height of its higher
    end, clear of what stands low; with `low` at the other's.
    """
    if job.of(Raceway).get(raceway.tag) is raceway:
        return _own_course(job, raceway.tag, low)
    return _course_of(job, raceway, low)


@once
def _own_course(job: Job, tag: str, low: bool) -> Course | str:
    """The way of a raceway of the job: a dozen rules ask for it."""
    return _course_of(job, job.of(Raceway)[tag], low)


def _course_of(job: Job, raceway: Raceway, low: bool) -> Course | str:
    """The way of a raceway, whether the job has it or it is tried."""
    if missing := ends_missing(job, raceway):
        return missing
    if raceway.points:
        return _by_points(job, raceway)
    if raceway.route in BEYOND:
        return _beyond(job, raceway)
    rises = place_of_end(job, raceway.start)[1][1] < place_of_end(job, raceway.end)[1][1]
    return square(job, raceway.start, raceway.end, "raceway", upright_first=rises != low)


def _by_points(job: Job, raceway: Raceway) -> Course | str:
    """The way of a raceway straight from point to point, as they are entered."""
    read = [read_place(job, text) for text in raceway.points]
    wall, places = wall_of(job, raceway.start), [place_of_end(job, raceway.start)]
    for text, each in zip(raceway.points, read, strict=True):
        if each is None:
            return f"point {text} is not a place"
        wall = each[0] or wall
        places.append((wall, each[1]))
    unfolded = Unfolded.of(job, [*places, place_of_end(job, raceway.end)])
    if isinstance(unfolded, str):
        return unfolded
    ends = raceway.start, raceway.end
    return _course(job, unfolded, unfolded.points, "raceway", ends, frozenset(), named_on(job, raceway.points))


def _beyond(job: Job, raceway: Raceway) -> Course | str:
    """The way of a raceway over the top or under the floor."""
    unfolded = Unfolded.of(job, (place_of_end(job, raceway.start), place_of_end(job, raceway.end)))
    if isinstance(unfolded, str):
        return unfolded
    beyond = beyond_walls(job, unfolded, raceway.route)
    if isinstance(beyond, str):
        return beyond
    points = (unfolded.points[0], *beyond, unfolded.points[-1])
    return _course(job, unfolded, points, "raceway", (raceway.start, raceway.end), frozenset(beyond))


def square(job: Job, start: str, end: str, place: Place, *, upright_first: bool = False) -> Course | str:
    """From one thing to another square to the framing: level first, then up or down, or the other way about."""
    unfolded = Unfolded.of(job, (place_of_end(job, start), place_of_end(job, end)))
    if isinstance(unfolded, str):
        return unfolded
    first, last = unfolded.points
    turn = (first[0], last[1]) if upright_first else (last[0], first[1])
    return _course(job, unfolded, (first, turn, last), place, (start, end))


def _course(
    job: Job,
    unfolded: Unfolded,
    points: tuple[Point, ...],
    place: Place,
    ends: tuple[str, str],
    beyond: frozenset[Point] = frozenset(),
    named: Mapping[tuple[str, Point], int] | None = None,
) -> Course:
    """The way through places on walls that are laid out flat, with its steps out of them and its turns."""
    points = without_repeats(points)
    legs = tuple(unfolded.legs(points, place, beyond))
    length = path_length_nm([(x, y, 0) for x, y in points])
    if place == "cabinet":
        return Course(length, legs, unfolded.noted)
    rows = in_room(job, legs, *ends, named)
    return Course(length + steps_nm(rows), legs, unfolded.noted, turns_deg(rows))


def bends_of(job: Job, raceway: Raceway) -> float | None:
    """All turns of a raceway, degrees: those of its way, or more where more were entered; None while not known."""
    way = raceway_course(job, raceway)
    turns = None if isinstance(way, str) or raceway.type == "grommet" else way.turned
    return max((each for each in (turns, raceway.bends) if each is not None), default=None)
