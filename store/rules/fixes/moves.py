"""Another place on the wall: openings and panels moved to the nearest that works, and a panel where there is none."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Any

from msgspec.structs import replace

from store.measure.length import INCH_NM, Length
from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.field import Ref
from store.records.wall import BuildOut, Opening
from store.records.whole import Job
from store.records.wiring import Box, Cable
from store.rules.core.findings import Finding
from store.rules.fixes.fix import Fix, fixes, next_free
from store.rules.screen.view import suggested_centre_nm, views
from store.rules.wall.layout import outline, walls
from store.rules.wall.places import point_of, wall_of
from store.rules.wall.shape import face_of
from store.rules.wall.uprights import row_of, studs_seen

MOVED_AT_MOST_IN = 60
"""Nothing is moved farther than this (our own choice: farther is another plan)."""
PANEL_IN = 14
"""A panel that a hand and an arm go through, and that fits between studs 16 in apart (common practice)."""
Edges = tuple[int, int, int, int]
"""Left, low, right and top, nanometres."""


@fixes("openings_overlap", "outside_wall", "on_obstacle", "panel_on_stud", "panel_across_edge", "panels_overlap",
       "panel_behind_things", "door_at_side_wall")  # fmt: skip
def moved(job: Job, finding: Finding) -> Iterator[Fix]:
    """The nearest place where it is clear; of two, the later one moves. Boxes within an opening go along."""
    for tag in reversed(finding.tags[:2]):
        one = job.get(tag)
        if isinstance(one, Opening | Panel):
            yield from _moves(job, one)


def _moves(job: Job, one: Opening | Panel) -> Iterator[Fix]:
    on, at = walls(job).get(one.wall), outline(one)
    if on is None or at is None or one.x is None or one.y is None:
        return
    others = _others(job, one)
    for across, up in _offsets(job):
        x, y = one.x.nm + across, one.y.nm + up
        if x < 0 or y < 0 or (on.width_nm is not None and x + one.width.nm > on.width_nm):  # type: ignore[union-attr]
            continue
        if on.height_nm is not None and y + one.height.nm > on.height_nm:  # type: ignore[union-attr]
            continue
        here = (x, y, x + one.width.nm, y + one.height.nm)  # type: ignore[union-attr]
        if any(_meet(here, each) for each in others):
            continue
        if isinstance(one, Panel) and _on_stud(job, one.wall, here):
            continue
        placed = replace(one, x=Length(x), y=Length(y))
        yield Fix(f"Move {one.tag} to the nearest free place", (placed, *_along(job, one, across, up)))
    if isinstance(one, Panel):
        face = face_of(job, one.tag)
        yield from _between_studs(job, one, row_of(job, one.wall, face.out if face is not None else ""))


def _on_stud(job: Job, wall: str, here: Edges) -> bool:
    """True where an outline meets a stud of the wall, or of the front of a build-out."""
    return any(_meet(here, (s.x_nm, s.y_nm, s.right_nm, s.top_nm)) for s in studs_seen(job, wall))


def _between_studs(job: Job, one: Panel, studs: Any) -> Iterator[Fix]:
    """The panel made to fit a stud bay."""
    assert one.x is not None
    assert one.width is not None
    middle = one.x.nm + one.width.nm // 2
    bays = [(left.right_nm, right.left_nm) for left, right in pairwise(studs)]
    for left, right in sorted(bays, key=lambda each: abs(sum(each) // 2 - middle))[:4]:
        placed = replace(one, x=Length(left), width=Length(right - left))
        yield Fix(f"Fit {one.tag} between two studs", (placed,))


def _offsets(job: Job) -> list[tuple[int, int]]:
    """Ways to move, the shortest first."""
    step = 25_000_000 if job.settings.metric else INCH_NM
    reach = range(-MOVED_AT_MOST_IN, MOVED_AT_MOST_IN + 1)
    level = [(each * step, 0) for each in reach if each]
    upright = [(0, each * step) for each in reach if each]
    both = [(a * step, b * step) for a in reach if a % 4 == 0 for b in reach if b % 4 == 0 and a and b]
    return sorted([*level, *upright, *both], key=lambda each: abs(each[0]) + abs(each[1]))


def _others(job: Job, one: Opening | Panel) -> list[Edges]:
    """What must be clear of it on its wall."""
    on = walls(job)[one.wall]
    things = (*on.obstacles, *(on.openings if isinstance(one, Opening) else on.panels))
    return [
        (each.rect.x_nm, each.rect.y_nm, each.rect.right_nm, each.rect.top_nm) for each in things if each.tag != one.tag
    ]


def _meet(one: Edges, other: Edges) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def _along(job: Job, one: Opening | Panel, across: int, up: int) -> list[Box]:
    """The new boxes within an opening, moved with it."""
    if isinstance(one, Panel) or one.x is None or one.y is None or one.width is None or one.height is None:
        return []
    found = []
    for box in job.of(Box).values():
        if box.wall != one.wall or not box.new or box.x is None or box.y is None:
            continue
        if 0 <= box.x.nm - one.x.nm <= one.width.nm and 0 <= box.y.nm - one.y.nm <= one.height.nm:
            found.append(replace(box, x=Length(box.x.nm + across), y=Length(box.y.nm + up)))
    return found


@fixes("build_out_past_edge")
def build_out_within(job: Job, finding: Finding) -> Iterator[Fix]:
    """The build-out moved inside its wall, or as small as the wall."""
    one = job.of(BuildOut).get(finding.tags[0])
    on = walls(job).get(one.wall) if one is not None else None
    if one is None or on is None or on.width_nm is None:
        return
    x = Length(max(0, min(one.x.nm, on.width_nm - one.width.nm)))
    width = Length(min(one.width.nm, on.width_nm))
    says = f"Move {one.tag} inside the wall" if width == one.width else f"Make {one.tag} as narrow as the wall"
    yield Fix(says, (replace(one, x=x, width=width),))
    yield Fix(f"End {one.tag} at the ceiling", (replace(one, x=x, height=None),))


@fixes("screen_too_high")
def lower_screen(job: Job, finding: Finding) -> Iterator[Fix]:
    """The picture at the height that suits the seat, as near to it as there is room."""
    one, view = job.of(Equipment).get(finding.tags[0]), views(job).get(finding.tags[0])
    if one is None or view is None or view.band is None or view.centre_nm is None:
        return
    step = 10_000_000 if job.settings.metric else INCH_NM
    down = view.centre_nm - suggested_centre_nm(view.band)
    opening = job.of(Opening).get(one.opening)
    for less in range(0, abs(down) // step + 1):
        by = -(down - less * step if down > 0 else down + less * step) // step * step
        if opening is not None and opening.y is not None and opening.y.nm + by >= 0:
            lower = replace(opening, y=Length(opening.y.nm + by))
            yield Fix(f"Set {one.tag} lower, with {opening.tag}", (lower, *_along(job, opening, 0, by)))
        elif one.y is not None and one.y.nm + by > 0:
            yield Fix(f"Set {one.tag} lower", (replace(one, y=Length(one.y.nm + by)),))


@fixes("panel_too_small", "part_does_not_pass", "way_too_small", "panel_tight")
def larger_panel(job: Job, finding: Finding) -> Iterator[Fix]:
    """The panel larger about its middle, a step at a time."""
    one = next((each for tag in finding.tags if (each := job.of(Panel).get(tag)) is not None), None)
    if one is None or one.width is None or one.height is None or one.fitted is not None:
        return
    step = 25_000_000 if job.settings.metric else INCH_NM
    for count in range(1, 14):
        for wide, high in ((count, count), (0, count), (count, 0)):
            sized = {"width": Length(one.width.nm + wide * step), "height": Length(one.height.nm + high * step)}
            if one.x is not None and one.y is not None:
                sized |= {
                    "x": Length(max(0, one.x.nm - wide * step // 2)),
                    "y": Length(max(0, one.y.nm - high * step // 2)),
                }
            yield Fix(f"Make access panel {one.tag} larger", (replace(one, **sized),))


@fixes("panel_cannot_swing")
def lifted_out(job: Job, finding: Finding) -> Iterator[Fix]:
    """A panel that lifts out instead of swinging."""
    one = next((each for tag in finding.tags if (each := job.of(Panel).get(tag)) is not None), None)
    if one is not None:
        yield Fix(f"Let {one.tag} lift out", (replace(one, opens="lift-out"),))


@fixes(
    "box_behind_cabinet", "box_without_way", "thing_without_way", "way_blocked", "way_too_far", "way_on_other_wall",
)  # fmt: skip
def new_panel(job: Job, finding: Finding) -> Iterator[Fix]:
    """An access panel beside what has none, between studs where that is known; a box that may, moves out instead."""
    one = job.get(finding.tags[0])
    if not isinstance(one, Box | Equipment | Cable):
        return
    where = one.tag if not isinstance(one, Cable) else one.start or one.end
    ends = (one.end, one.start) if isinstance(one, Cable) else (where,)
    for end in dict.fromkeys(each for each in (*finding.tags[1:], *ends) if each):
        at, wall = point_of(job, end), wall_of(job, end)
        if at is None or wall not in walls(job):
            continue
        yield from _panels_about(job, one, wall, at)


def _panels_about(job: Job, one: Box | Equipment | Cable, wall: str, at: tuple[int, int]) -> Iterator[Fix]:
    step = 25_000_000 if job.settings.metric else INCH_NM
    size = PANEL_IN * step
    on = walls(job)[wall]
    tag = next_free(job, Panel)
    name = f"For {getattr(one, 'name', '') or one.tag}"[:60]
    taken = [(e.rect.x_nm, e.rect.y_nm, e.rect.right_nm, e.rect.top_nm) for e in on.panels]
    tried = 0
    for across, up in [(0, 0), *_offsets(job)]:
        if abs(across) > 24 * step or abs(up) > 24 * step:
            continue
        x, y = at[0] + across - size // 2, at[1] + up - size // 2
        here = (x, y, x + size, y + size)
        outside = (on.width_nm is not None and here[2] > on.width_nm) or (
            on.height_nm is not None and here[3] > on.height_nm
        )
        if x < 0 or y < 0 or outside or any(_meet(here, each) for each in taken):
            continue
        if _on_stud(job, wall, here):
            continue
        panel = Panel(
            tag=tag, name=name, wall=Ref(wall), x=Length(x), y=Length(y), width=Length(size), height=Length(size),
            opens="lift-out", behind=(Ref(one.tag),),
        )  # fmt: skip
        yield Fix(f"Plan access panel {tag} for {one.tag}", (replace(one, reached=Ref(tag)),), (panel,))
        tried += 1
        if tried >= 20:
            return
