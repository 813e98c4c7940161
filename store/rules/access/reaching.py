"""How far a hand gets: from the clear opening of a panel or of a cabinet, to the side and into the depth.

Whole nanometres in the room: along the wall, up, and out from its face. The straight way from the nearest edge of the
clear opening counts. A cabinet that head and shoulders go into costs no reach; of another the arm goes through its
whole depth first.
"""

from __future__ import annotations

from math import isqrt

import msgspec

from store.records.access import Panel
from store.records.wall import Opening
from store.records.whole import Job
from store.rules.wall.pieces import inside_of, nm_of
from store.rules.wall.places import Point, from_front, rect_of
from store.rules.wall.places import Rect as Outline
from store.rules.wall.shape import Face, Spot, back_nm, face_of, spot_on
from store.trade.fit.access_sizes import REACH_NM, SHOULDERS, Task, lets_through
from store.trade.measured.plane import Rect

Stretch = tuple[int, int]


class Clear(msgspec.Struct, frozen=True):
    """A clear opening in the room."""

    wall: str
    across: Stretch
    up: Stretch
    out: Stretch
    """From the wall's face; below zero behind it."""
    before_nm: int = 0
    """What an arm goes through before it comes there: the depth of a cabinet that shoulders do not go into."""
    to_room: bool = False
    """It faces the room: what is entered at a face in front of it is right behind it all the same."""


def hand_reach_nm(job: Job, task: Task) -> int:
    """How far in a hand works for a task: common practice, no farther than the arm that the job's owner entered."""
    own = job.settings.arm
    if own is None or own.nm <= 0:
        return REACH_NM[task]
    return own.nm if task == "an arm" else min(REACH_NM[task], own.nm)


def clear_of(job: Job, panel: Panel) -> Clear | None:
    """The clear opening of a panel; None without a place and a size."""
    rect, face = rect_of(panel), face_of(job, panel.tag)
    if rect is None or face is None:
        return None
    across, up = (rect.x, rect.right), (rect.y, rect.top)
    cabinet = cabinet_of(job, panel) if panel.face == "cabinet back" else None
    if cabinet is not None:
        back = back_nm(job, cabinet)
        return Clear(str(panel.wall), across, up, (back, back), before_nm(cabinet), True)
    return _flat(face, job, across, up)


def before_nm(opening: Opening) -> int:
    """What an arm goes through to the back of an opening: its depth, unless head and shoulders go in."""
    return 0 if _lets_shoulders(opening) else nm_of(opening.depth) or 0


def _flat(face: Face, job: Job, across: Stretch, up: Stretch) -> Clear:
    """An outline on its face as a clear opening in the room."""
    ends = [spot_on(job, face, x, y) for x in across for y in up]

    def span(name: str) -> Stretch:
        found = [int(getattr(each, name)) for each in ends]
        return min(found), max(found)

    return Clear(face.wall, span("x_nm"), span("y_nm"), span("out_nm"), 0, face.side in ("wall", "front"))


def _lets_shoulders(one: Opening) -> bool:
    """Whether head and shoulders go in at the front of an opening, past its door frame."""
    inside = inside_of(one)
    wide = nm_of(one.door_width) if one.door != "none" and one.door_width is not None else inside.width_nm
    high = nm_of(one.door_height) if one.door != "none" and one.door_height is not None else inside.height_nm
    return wide is None or high is None or lets_through(wide, high, SHOULDERS)


def away(clear: Clear, there: Spot) -> tuple[int, int]:
    """The straight way from a clear opening to a place, and how much of it goes into the depth; nanometers."""
    gaps = [
        max(low - at, at - high, 0)
        for (low, high), at in ((clear.across, there.x_nm), (clear.up, there.y_nm), (clear.out, there.out_nm))
    ]
    if clear.to_room and there.out_nm > clear.out[1]:
        gaps[2] = 0
    deep = gaps[2] + clear.before_nm
    return isqrt(gaps[0] ** 2 + gaps[1] ** 2 + deep**2), deep


def cabinet_of(job: Job, panel: Panel) -> Opening | None:
    """The cabinet in whose back or side a panel is: the one it names, else the one whose outline holds its middle."""
    named = job.of(Opening).get(panel.on)
    if named is not None or not panel.face.startswith("cabinet"):
        return named
    rect = rect_of(panel)
    for one in job.of(Opening).values() if rect is not None and panel.face == "cabinet back" else ():
        around = rect_of(one)
        if one.wall == panel.wall and around is not None and rect is not None and _holds(around, rect.centre):
            return one
    return None


def _holds(around: Outline, at: Point) -> bool:
    return around.x <= at[0] <= around.right and around.y <= at[1] <= around.top


def outline_from_front(job: Job, place: Panel | Opening, rect: Rect) -> Rect:
    """The outline of what is on a side face as it is seen from the front: a line at that face."""
    x, y = from_front(job, place, (rect.x_nm, rect.y_nm))
    level = place.face in ("underside", "top", "ceiling", "floor")
    return Rect(x, y, rect.width_nm if level else 0, 0 if level else rect.height_nm)
