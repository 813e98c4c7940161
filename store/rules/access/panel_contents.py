"""What is behind each access panel: by the places of things, and as the owner says; and where the two differ.

Boxes, raceways and cables have places on the wall. A cable counts along its run in the wall and at both ends; one in
a raceway, and the raceway itself, at the ends only, since nobody notes how a raceway lies.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from math import isqrt

import msgspec

from store.measure.length import INCH_NM
from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.whole import LETTERS, Job
from store.records.wiring import Box, Cable, Raceway
from store.rules.access.reaching import hand_reach_nm, outline_from_front
from store.rules.cable.routes import routes
from store.rules.core.keyed import by_key, filed, of_each, said_by
from store.rules.core.memo import once
from store.rules.wall.layout import outline, overlapping, walls
from store.rules.wall.pieces import in_use, on_face
from store.rules.wall.places import Point, on_side, point_of, wall_of
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


@of_each(Panel)
def panel_contents(job: Job, panel: Panel) -> PanelContents:
    """What is behind every panel, by its tag."""
    return _behind(job, panel, _named_by_things(job).get(panel.tag, ()))


@said_by(Box, Equipment, Cable)
def _named_by_things(one: Box | Equipment | Cable) -> Iterator[tuple[str, str]]:
    """What says by which panel it is reached, by that panel."""
    if one.reached and in_use(one):
        yield str(one.reached), one.tag


def _behind(job: Job, panel: Panel, named: Sequence[str]) -> PanelContents:
    words = list(dict.fromkeys((*map(str, panel.behind), *named)))
    said = tuple(tag for tag in words if in_use(job.get(tag)))
    retired = tuple(tag for tag in words if not in_use(job.get(tag)))
    around = _outline(job, panel)
    follows = frozenset(each for tag in said for each in _ending_at(job).get(tag, ()))
    if around is None or not panel.wall:
        return PanelContents(panel.tag, (), (), said, (), retired, follows)
    reach = hand_reach_nm(job, panel.passes)
    gaps = dict(sorted(_within_reach(job).get(panel.tag, ()), key=lambda each: _order(each[0])))
    straight = tuple(tag for tag, gap in gaps.items() if gap == 0)
    near = tuple(tag for tag, gap in gaps.items() if gap)
    elsewhere = [tag for tag in said if tag not in gaps and tag not in follows]
    away = [(tag, _away(job, tag, panel.wall, around, _out_nm(panel))) for tag in elsewhere]
    far = tuple((tag, gap) for tag, gap in away if gap is not None and gap > reach)
    return PanelContents(panel.tag, straight, near, said, far, retired, follows)


@said_by(Raceway, Cable)
def _ending_at(one: Cable | Raceway) -> Iterator[tuple[str, str]]:
    """The cables and raceways that end at each thing."""
    for end in dict.fromkeys((str(one.start), str(one.end))) if in_use(one) else ():
        if end:
            yield end, one.tag


@filed(Box, Equipment, Raceway, Cable)
def _within_reach(job: Job, one: Box | Equipment | Raceway | Cable) -> Iterator[tuple[str, tuple[str, int]]]:
    """What lies within reach of each panel, with its distance."""
    for panel, gap in _near(job, one.tag).items():
        yield panel, (one.tag, gap)


def _near(job: Job, tag: str) -> dict[str, int]:
    """The panels that a thing lies within reach of, and how far it is from each."""
    filed = _filed_panels(job)
    found: dict[str, int] = {}
    for wall, stretch in _stretches(job, tag):
        there = {panel: around for cell in _cells(stretch) for panel, around in filed.get((wall, *cell), ())}
        for panel, (around, reach, out) in there.items():
            gap = isqrt(distance_nm(around, stretch) ** 2 + out**2)
            if gap <= reach:
                found[panel] = min(gap, found.get(panel, gap))
    return found


@by_key
def _filed_panels(job: Job) -> Mapping[tuple[str, int, int], tuple[tuple[str, tuple[Rect, int, int]], ...]]:
    """The panels by the squares of their walls that lie within a hand's reach: place of each, its reach, and how far it
    is out from the wall."""
    found: dict[tuple[str, int, int], list[tuple[str, tuple[Rect, int, int]]]] = {}
    for tag, panel in job.of(Panel).items():
        around, reach = _outline(job, panel), hand_reach_nm(job, panel.passes)
        if around is not None and panel.wall:
            wide, high = around.width_nm + 2 * reach, around.height_nm + 2 * reach
            for cell in _cells(Rect(around.x_nm - reach, around.y_nm - reach, wide, high)):
                found.setdefault((panel.wall, *cell), []).append((tag, (around, reach, _out_nm(panel))))
    return {cell: tuple(panels) for cell, panels in found.items()}


def _out_nm(panel: Panel) -> int:
    """How far a panel in a ceiling or a floor is out from the wall, in which things are; 0 for other panels."""
    return max(0, panel.y.nm) if panel.face in ("ceiling", "floor") and panel.y is not None else 0


def _outline(job: Job, panel: Panel) -> Rect | None:
    """The clear opening of a panel as it is seen from the front; in a ceiling, a floor or a side a line at its edge."""
    rect = outline(panel)
    return rect if rect is None or not on_side(panel) else outline_from_front(job, panel, rect)


def _order(tag: str) -> tuple[int, int]:
    """Boxes first, then by tag."""
    kind = LETTERS[tag[:1]].kind
    return (KIND_ORDER.index(kind) if kind in KIND_ORDER else len(KIND_ORDER), int(tag[1:]) if tag[1:].isdigit() else 0)


def _away(job: Job, tag: str, wall: str, around: Rect, out: int) -> int | None:
    """How far a thing is from a rectangle on the same wall; None while its place there is not known."""
    gaps = [isqrt(distance_nm(around, stretch) ** 2 + out**2) for on, stretch in _stretches(job, tag) if on == wall]
    return min(gaps, default=None)


@once
def _stretches(job: Job, tag: str) -> tuple[tuple[str, Rect], ...]:
    """The stretches of a box, a raceway, an in-wall cable or a device behind the wall, each with its wall."""
    one = job.get(tag)
    if isinstance(one, Box) or (isinstance(one, Equipment) and in_use(one) and not one.opening and not on_face(one)):
        if not one.wall or one.x is None or one.y is None:
            return ()
        return ((str(one.wall), Rect(one.x.nm, one.y.nm, 0, 0)),)
    if isinstance(one, Raceway):
        return tuple(_ends(job, one))
    route = routes(job).get(tag) if isinstance(one, Cable) and one.in_wall else None
    if route is None or not isinstance(one, Cable):
        return ()
    runs = [(leg.wall, _stretch(leg.start, leg.end)) for leg in route.legs if leg.place != "raceway"]
    return (*runs, *_ends(job, one))


def _ends(job: Job, one: Cable | Raceway) -> Iterator[tuple[str, Rect]]:
    for end in (one.start, one.end):
        point, wall = point_of(job, end) if end else None, wall_of(job, end) if end else ""
        if point is not None and wall:
            yield wall, Rect(*point, 0, 0)


def _stretch(a: Point, b: Point) -> Rect:
    return Rect(min(a[0], b[0]), min(a[1], b[1]), abs(a[0] - b[0]), abs(a[1] - b[1]))


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
