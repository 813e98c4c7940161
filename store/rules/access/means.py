"""What gives access to each thing behind the finished wall, and whether that way counts.

A thing is reached through the panel or the opening that it names, or through a panel that names it; a box at the face
of the wall has its own plate. A way does not count while something fixed is in front of it, when the thing is
farther behind the finished face than a hand gets through it, or when no hand goes through it at all. A panel or an
opening that stands nowhere is no way yet.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import isqrt
from typing import Literal

import msgspec

from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.wall import Opening
from store.records.whole import Job
from store.records.wiring import Box, Cable
from store.rules.access.reaching import away, before_nm, clear_of, hand_reach_nm, outline_from_front
from store.rules.core.code import METRIC_CODE, edition, is_us
from store.rules.core.keyed import by_key
from store.rules.core.memo import once
from store.rules.power.plan import is_fixed
from store.rules.wall.contents import opening_of_box
from store.rules.wall.inside import inside_at
from store.rules.wall.layout import Placed, cables_at, in_opening, outline, overlapping, walls
from store.rules.wall.pieces import COVERING, hangs, in_use, inside_of, is_hidden, nm_of
from store.rules.wall.places import POWER_BOXES, Point, equipment_rect, on_side, point_of, shows_on_wall, wall_of
from store.rules.wall.shape import spot
from store.trade.fit.access_sizes import OPEN_FRONT_REACH_NM, Way, box_way, least, lets_through
from store.trade.fit.pieces import Size
from store.trade.measured.citations import nec
from store.trade.measured.plane import Rect

PRACTICE = "common practice"


class Means(msgspec.Struct, frozen=True):
    """One way to a thing."""

    by: str
    """Tag of the panel or opening; of the box itself for its own plate."""
    kind: Literal["panel", "opening", "plate"]
    blocked_by: str = ""
    """What is fixed in front of it."""
    feeds: bool = False
    """The fixed piece in front is the very one that the box feeds: it comes out together with its connection."""
    far_nm: int | None = None
    """From the edge of the way to the thing; None while a place is not known."""
    reach_nm: int = OPEN_FRONT_REACH_NM
    deep_nm: int = 0
    """How much of that way goes into the depth."""
    other_wall: bool = False
    nowhere: bool = False
    """The panel or opening has no place on a wall, or is none of the job."""
    clear: tuple[int, int] | None = None
    """Width and height of a way that is too small for the hand that works on the thing, nm; None where it is not."""

    @property
    def too_far(self) -> bool:
        """True when no hand gets from the way to the thing."""
        return self.far_nm is not None and self.far_nm > self.reach_nm

    @property
    def counts(self) -> bool:
        """True when it gives access."""
        return not (self.nowhere or self.too_far or self.clear) and (not self.blocked_by or self.feeds)


@by_key
def naming_panels(job: Job) -> Mapping[str, tuple[str, ...]]:
    """The panels that say a thing is behind them, by its tag."""
    found: dict[str, list[str]] = {}
    for tag, panel in job.of(Panel).items():
        for each in panel.behind:
            found.setdefault(str(each), []).append(tag)
    return {tag: tuple(panels) for tag, panels in found.items()}


@by_key
def fixed_fronts(job: Job) -> Mapping[str, tuple[Placed, ...]]:
    """What is fixed in each opening, by its tag: each piece with the area it takes, the whole opening if not known."""
    found: dict[str, tuple[Placed, ...]] = {}
    for tag, group in in_opening(job).items():
        opening = job.of(Opening).get(tag)
        # A light or a driver is small, whoever wired it: it stands in nobody's way.
        fixed = [one for one in group if is_fixed(one) and not is_hidden(one)]
        around = outline(opening) if opening is not None else None
        if fixed and around is not None:
            found[tag] = tuple(Placed(one.tag, _front(job, one, around)) for one in fixed)
    return found


def _front(job: Job, one: Equipment, around: Rect) -> Rect:
    """Where it is drawn; the whole opening while a size is not known. What stands may be on any shelf."""
    place = equipment_rect(job, one)
    if place is None:
        return around
    if not hangs(one) and inside_at(job, one) is None:
        return Rect(place.x, around.y_nm, place.width, around.height_nm)
    return place.plane


@by_key
def blocked_panels(job: Job) -> Mapping[str, str]:
    """The panels that something fixed stands in front of, and what: as the owner says, else as the places tell."""
    found: dict[str, str] = {}
    for wall in walls(job).values():
        fronts = [front for each in wall.openings for front in fixed_fronts(job).get(each.tag, ())]
        if fronts and wall.panels:
            found |= {panel.tag: front.tag for panel, front in overlapping(wall.panels, fronts)}
    for tag, panel in job.of(Panel).items():
        if panel.blocked_by and in_use(job.get(panel.blocked_by)):
            found[tag] = str(panel.blocked_by)
    return found


@once
def means_of(job: Job, tag: str) -> tuple[Means, ...]:
    """Every way to a box, a piece of equipment or a cable's loose end; empty when nothing gives access."""
    record = job.get(tag)
    if not isinstance(record, Box | Equipment | Cable):
        return ()
    named = dict.fromkeys(each for each in (str(record.reached), *naming_panels(job).get(tag, ())) if each)
    found = [_way(job, record, by) for by in named]
    if not found and isinstance(record, Equipment) and record.opening:
        found.append(_way(job, record, str(record.opening)))
    if not found and isinstance(record, Box):
        found += _unnamed(job, record)
    return tuple(found)


def _unnamed(job: Job, box: Box) -> Iterator[Means]:
    """The way to a box that names none: its own plate, or the recess it sits in."""
    inside = opening_of_box(job).get(box.tag, "")
    use = job.of(Opening)[inside].use if inside else ""
    if inside and use not in COVERING and shows_on_wall(box):
        yield _way(job, box, inside)
    elif not inside and shows_on_wall(box):
        yield Means(box.tag, "plate")


def _way(job: Job, record: Box | Equipment | Cable, by: str) -> Means:
    panel, opening = job.of(Panel).get(by), job.of(Opening).get(by)
    place = panel or opening
    rect = _outline(job, place) if place is not None else None
    point = point_of(job, record.tag)
    apart = bool(place and place.wall and (wall := wall_of(job, record.tag)) and wall != place.wall)
    far = gap_nm(rect, point) if rect is not None and point is not None and not apart else None
    deep = 0
    if far is not None and place is not None and not isinstance(record, Cable):
        far, deep = _into(job, place, record, far)
    nowhere = place is None or not place.wall or rect is None
    small = None if place is None else _too_small(job, record, place)
    if panel is not None:
        front, reach = blocked_panels(job).get(by, ""), hand_reach_nm(job, panel.passes)
        return Means(by, "panel", front, False, far, reach, deep, apart, nowhere, small)
    front = _in_front(job, record, by, point)
    feeds = bool(front) and _feeds(job, record, front)
    arm = hand_reach_nm(job, "an arm")
    return Means(by, "opening", front, feeds, far, arm, deep, other_wall=apart, nowhere=nowhere, clear=small)


def _into(job: Job, place: Panel | Opening, record: Box | Equipment, far: int) -> tuple[int, int]:
    """The straight way in the room to a thing that has a place there; what stands in the opening is at its front."""
    if isinstance(record, Equipment) and record.opening:
        return far, 0
    if isinstance(place, Opening):
        inside = isinstance(record, Box) and opening_of_box(job).get(record.tag) == place.tag
        deep = before_nm(place) if inside else 0
        return isqrt(far**2 + deep**2), deep
    clear, there = clear_of(job, place), spot(job, record.tag)
    return (far, 0) if clear is None or there is None else away(clear, there)


def _outline(job: Job, place: Panel | Opening) -> Rect | None:
    """Its outline as it is seen from the front: of one on a return, a line at the edge of its build-out."""
    rect = outline(place)
    if rect is None or not on_side(place):
        return rect
    return outline_from_front(job, place, rect)


def least_way(job: Job, record: Box | Equipment | Cable) -> Way:
    """The least opening through which a thing is worked on, whatever its panel is said to be for."""
    metric = job.settings.metric
    return box_way(record.gangs, metric) if isinstance(record, Box) else least("one hand", metric)


def _too_small(job: Job, record: Box | Equipment | Cable, place: Panel | Opening) -> tuple[int, int] | None:
    """The clear size of a way that no hand goes through to the thing; None where one does, or a size is missing."""
    inside = inside_of(place) if isinstance(place, Opening) else Size(nm_of(place.width), nm_of(place.height))
    if inside.width_nm is None or inside.height_nm is None:
        return None
    size = (inside.width_nm, inside.height_nm)
    return None if lets_through(*size, least_way(job, record)) else size


def _in_front(job: Job, record: Box | Equipment | Cable, opening: str, point: Point | None) -> str:
    """The fixed piece that stands in front of a thing which is reached through its opening."""
    if isinstance(record, Equipment) and record.opening == opening and not is_hidden(record):
        return ""
    for piece in fixed_fronts(job).get(opening, ()):
        if point is None or gap_nm(piece.rect, point) == 0:
            return piece.tag
    return ""


def _feeds(job: Job, record: Box | Equipment | Cable, piece: str) -> bool:
    one = job.of(Equipment).get(piece)
    return one is not None and (one.plug == record.tag or record.tag in _wires_of(job, piece))


def _wires_of(job: Job, piece: str) -> tuple[str, ...]:
    return tuple(each.tag for each in cables_at(job).get(piece, ()))


def gap_nm(rect: Rect, point: Point) -> int:
    """How far a place lies outside of a rectangle; 0 within it."""
    x = max(rect.x_nm - point[0], point[0] - rect.right_nm, 0)
    y = max(rect.y_nm - point[1], point[1] - rect.top_nm, 0)
    return isqrt(x * x + y * y)


def best_means(job: Job, tag: str, *, wires: bool = False) -> Means | None:
    """The way to a thing: one that counts before one that does not; None when there is none.

    Of several, the one that the thing itself names; to get at its `wires`, a panel before an opening.
    """
    found = means_of(job, tag)
    return min(found, key=lambda way: (not way.counts, way.feeds, wires and way.kind != "panel"), default=None)


def needs_access(one: Equipment) -> bool:
    """True for equipment that stands behind a finished face and will be changed.

    What stands in an opening is reached from its front. A light that is made for a surface or a shelf is in sight; so
    is a strip along a floating shelf, and a lamp in the room: plugged into a receptacle, on no wall. What is placed
    behind the face is hidden, whatever its sort.
    """
    if not in_use(one) or one.opening:
        return False
    if one.what == "light":
        lamp = one.power == "cord" and one.plug.startswith("B") and not one.wall and one.tape is None
        along = one.stands_on.startswith(Equipment.letter) and one.face != "behind"
        return one.mounting not in ("shelf", "surface only") and not lamp and not along
    return is_hidden(one) or (bool(one.wall) and one.face == "behind")


def is_mains_box(box: Box) -> bool:
    """True for a box that holds mains wiring."""
    return box.what in POWER_BOXES


def access_source(job: Job) -> str:
    """The rule that boxes stay within reach, in the edition in force."""
    return nec("314.29", edition(job)) if is_us(job) else f"{METRIC_CODE} 526.3 (from memory)"
