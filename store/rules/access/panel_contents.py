"""What is behind each access panel: by the places of things, and as the owner says; and where the two differ.

Boxes, raceways and cables have places on the wall. A cable counts along its run in the wall and at both ends; one in
a raceway, and the raceway itself, at the ends only, since nobody notes how a raceway lies.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import msgspec

from store.measure.length import INCH_NM
from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.whole import Job
from store.records.wiring import Box, Cable, Raceway
from store.rules.cable.routes import routes
from store.rules.core.keyed import by_key
from store.rules.wall.layout import outline, overlapping, walls
from store.rules.wall.pieces import in_use
from store.rules.wall.places import Point, point_of, wall_of
from store.trade.fit.access_sizes import REACH_NM
from store.trade.measured.plane import Rect, distance_nm

CELL_NM = 24 * INCH_NM
"""Things are filed by squares of this size, so that each panel looks only at its surroundings."""
MOST_CELLS = 400
"""A run over more squares than this is mistyped; it is left out."""
KIND_ORDER = ("box", "raceway", "cable", "equipment")


class PanelContents(msgspec.Struct, frozen=True):
    """What is behind one panel."""

    panel: str
    straight: tuple[str, ...]
    """Right behind its clear opening, by the places of things."""
    near: tuple[str, ...]
    """Beside that, within a hand's reach."""
    said: tuple[str, ...]
    """As the owner says, and what names the panel as its way; the retired left out."""
    far: tuple[tuple[str, int], ...]
    """Said, but by its place farther away than a hand reaches, and how far."""
    retired: tuple[str, ...]
    """Said, but retired."""
    follows: frozenset[str] = frozenset()
    """Cables and raceways that end at something which is said to be here: they are here with it."""

    @property
    def unsaid(self) -> tuple[str, ...]:
        """Right behind it, and nobody said so."""
        return tuple(tag for tag in self.straight if tag not in self.said and tag not in self.follows)

    @property
    def all(self) -> tuple[str, ...]:
        """Everything that is behind it, what was said first."""
        return tuple(
            dict.fromkeys((*self.said, *self.straight, *sorted(self.follows, key=lambda tag: (tag[:1], len(tag), tag))))
        )


Stretch = tuple[str, Rect]
"""A tag and a straight stretch of it, as a rectangle that may have no width."""


@by_key
def panel_contents(job: Job) -> Mapping[str, PanelContents]:
    """What is behind every panel, by its tag."""
    named = _named_by_things(job)
    return {tag: _behind(job, panel, named.get(tag, [])) for tag, panel in job.of(Panel).items()}


def _named_by_things(job: Job) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    tables: tuple[dict[str, Box | Equipment | Cable], ...] = (
        dict(job.of(Box)),
        dict(job.of(Equipment)),
        dict(job.of(Cable)),
    )
    for table in tables:
        for tag, one in table.items():
            if one.reached and in_use(one):
                found.setdefault(str(one.reached), []).append(tag)
    return found


def _behind(job: Job, panel: Panel, named: list[str]) -> PanelContents:
    words = list(dict.fromkeys((*map(str, panel.behind), *named)))
    said = tuple(tag for tag in words if in_use(job.get(tag)))
    retired = tuple(tag for tag in words if not in_use(job.get(tag)))
    around = outline(panel)
    follows = frozenset(each for tag in said for each in _ending_at(job).get(tag, ()))
    if around is None or not panel.wall:
        return PanelContents(panel.tag, (), (), said, (), retired, follows)
    reach = REACH_NM[panel.passes]
    gaps = _gaps(job, panel.wall, around, reach)
    straight = tuple(tag for tag, gap in gaps.items() if gap == 0)
    near = tuple(tag for tag, gap in gaps.items() if gap)
    elsewhere = [tag for tag in said if tag not in gaps and tag not in follows]
    away = [(tag, _away(job, tag, panel.wall, around)) for tag in elsewhere]
    far = tuple((tag, gap) for tag, gap in away if gap is not None and gap > reach)
    return PanelContents(panel.tag, straight, near, said, far, retired, follows)


@by_key
def _ending_at(job: Job) -> Mapping[str, list[str]]:
    """The cables and raceways that end at each thing."""
    found: dict[str, list[str]] = {}
    ends: list[tuple[str, Cable | Raceway]] = [*job.of(Raceway).items(), *job.of(Cable).items()]
    for tag, one in ends:
        for end in dict.fromkeys((str(one.start), str(one.end))) if in_use(one) else ():
            if end:
                found.setdefault(end, []).append(tag)
    return found


def _gaps(job: Job, wall: str, around: Rect, reach: int) -> dict[str, int]:
    """What lies within reach of a rectangle, with its distance; boxes first, then by tag."""
    found: dict[str, int] = {}
    wide = Rect(around.x_nm - reach, around.y_nm - reach, around.width_nm + 2 * reach, around.height_nm + 2 * reach)
    filed = _filed(job)
    # A long stretch is filed in many cells; each is measured once.
    there = {id(each): each for cell in _cells(wide) for each in filed.get((wall, *cell), ())}
    for tag, stretch in there.values():
        gap = distance_nm(around, stretch)
        if gap <= reach:
            found[tag] = min(gap, found.get(tag, gap))
    return dict(sorted(found.items(), key=lambda each: _order(job, each[0])))


def _order(job: Job, tag: str) -> tuple[int, int]:
    record = job.get(tag)
    kind = record.kind if record else ""
    return (KIND_ORDER.index(kind) if kind in KIND_ORDER else len(KIND_ORDER), int(tag[1:]) if tag[1:].isdigit() else 0)


def _away(job: Job, tag: str, wall: str, around: Rect) -> int | None:
    """How far a thing is from a rectangle on the same wall; None while its place there is not known."""
    gaps = [distance_nm(around, stretch) for on, stretch in _stretches(job).get(tag, ()) if on == wall]
    return min(gaps, default=None)


@by_key
def _stretches(job: Job) -> Mapping[str, list[tuple[str, Rect]]]:
    """The stretches of every box, raceway, in-wall cable and device behind the wall, each with its wall, by tag."""
    found: dict[str, list[tuple[str, Rect]]] = {}
    placed: list[Box | Equipment] = [*job.of(Box).values()]
    placed += [one for one in job.of(Equipment).values() if in_use(one) and not one.opening]
    for one in placed:
        if one.wall and one.x is not None and one.y is not None:
            found[one.tag] = [(str(one.wall), Rect(one.x.nm, one.y.nm, 0, 0))]
    for tag, raceway in job.of(Raceway).items():
        found[tag] = list(_ends(job, raceway))
    for tag, route in routes(job).items():
        cable = job.of(Cable)[tag]
        if cable.in_wall:
            runs = [(leg.wall, _stretch(leg.start, leg.end)) for leg in route.legs if leg.place != "raceway"]
            found[tag] = [*runs, *_ends(job, cable)]
    return found


def _ends(job: Job, one: Cable | Raceway) -> Iterator[tuple[str, Rect]]:
    for end in (one.start, one.end):
        point, wall = point_of(job, end) if end else None, wall_of(job, end) if end else ""
        if point is not None and wall:
            yield wall, Rect(*point, 0, 0)


def _stretch(a: Point, b: Point) -> Rect:
    return Rect(min(a[0], b[0]), min(a[1], b[1]), abs(a[0] - b[0]), abs(a[1] - b[1]))


@by_key
def _filed(job: Job) -> Mapping[tuple[str, int, int], list[Stretch]]:
    found: dict[tuple[str, int, int], list[Stretch]] = {}
    for tag, stretches in _stretches(job).items():
        for wall, stretch in stretches:
            filed = (tag, stretch)
            for cell in _cells(stretch):
                found.setdefault((wall, *cell), []).append(filed)
    return found


def _cells(rect: Rect) -> list[tuple[int, int]]:
    across = range(rect.x_nm // CELL_NM, rect.right_nm // CELL_NM + 1)
    up = range(rect.y_nm // CELL_NM, rect.top_nm // CELL_NM + 1)
    if len(across) * len(up) > MOST_CELLS:
        return []
    return [(x, y) for x in across for y in up]


@by_key
def before_panels(job: Job) -> Mapping[str, tuple[str, ...]]:
    """The openings in the back or the side of which each panel lies, by the panel's tag."""
    found: dict[str, list[str]] = {}
    for wall in walls(job).values():
        for panel, opening in overlapping(wall.panels, wall.openings) if wall.panels else ():
            found.setdefault(panel.tag, []).append(opening.tag)
    return {tag: tuple(openings) for tag, openings in found.items()}
