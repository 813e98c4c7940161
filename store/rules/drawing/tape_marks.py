"""The tape sheet: where every edge of the plan is marked on the wall full size, so that nobody adds on a ladder.

Across, everything is measured from one marked corner, the left one; up, from the finished floor at that corner, and
also from one level line struck across the wall, because floors are seldom level.
"""

from __future__ import annotations

from collections.abc import Iterator

import msgspec

from store.measure.errors import BadValue, quoted
from store.measure.length import INCH_NM, MM_NM, Length, show_length
from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.wall import BuildOut, Opening, Wall
from store.records.whole import Job
from store.rules.core.cautions import FIREPLACE, LADDER, PLANNING, STUDS
from store.rules.core.wording import name_of, named
from store.rules.wall.inside import insides
from store.rules.wall.lines import ceilings
from store.rules.wall.pieces import on_face
from store.rules.wall.places import ELSEWHERE, board_rect
from store.rules.wall.shape import Face, Out, build_outs, face_of, out_of, rect_on
from store.trade.measured.tape import ROLL_NM, Line, Outline, marks, rolls, running, tape_length

LEVEL_LINE_NM = 48 * INCH_NM
LEVEL_LINE_METRIC_NM = 1_200 * MM_NM
"""Height of the level line over the finished floor at the marked corner: our own choice, at a handy height."""
SPARE_PERCENT = 10
"""More tape than the outlines: common practice."""


class TapeRow(msgspec.Struct, frozen=True):
    """One thing to mark. Nanometres; `line_...` are above the level line, below it when negative."""

    tag: str
    name: str
    left_nm: int
    right_nm: int
    bottom_nm: int
    top_nm: int
    line_bottom_nm: int
    line_top_nm: int
    centre_x_nm: int
    centre_y_nm: int
    width_nm: int
    height_nm: int
    diagonal_nm: int
    """Both diagonals read this when the outline is square."""


class Side(msgspec.Struct, frozen=True):
    """A face that is seen from the side, and what to mark on it: from left is from the wall out to the front."""

    name: str
    """`left return of U1 Chimney breast`."""
    rows: tuple[TapeRow, ...]
    note: str = "from left means out from the wall"
    """How its places are measured."""


class TapeSheet(msgspec.Struct, frozen=True):
    """Everything on the sheet of one wall."""

    job: str
    wall: str
    wall_name: str
    metric: bool
    level_line_nm: int
    rows: tuple[TapeRow, ...]
    """From left to right, so that the tape is walked once across."""
    lines: tuple[Line, ...]
    """Running marks along each level, the lowest level first, each from left to right."""
    left_out: tuple[str, ...]
    """What has no place or size yet, in words."""
    tape_nm: int
    rolls: int
    cautions: tuple[str, ...]
    sides: tuple[Side, ...] = ()
    """What is on the returns, the undersides and the tops of build-outs; then the shelves inside each opening."""


def tape_sheet(job: Job, wall: str, level_line_nm: int | None = None) -> TapeSheet:
    """The tape sheet of a wall: every opening, access panel, build-out and thing on its face.

    Raises BadValue when there is no such wall.
    """
    record = job.of(Wall).get(wall)
    if record is None:
        raise BadValue(f"no wall {quoted(wall)} in this job. Add it to the list of walls.")
    metric = job.settings.metric
    line = level_line_nm if level_line_nm is not None else LEVEL_LINE_METRIC_NM if metric else LEVEL_LINE_NM
    things: list[Opening | Panel | Equipment] = [*job.of(Opening).values(), *job.of(Panel).values()]
    things += [one for one in job.of(Equipment).values() if one.retired is None and on_face(one)]
    left_out: list[str] = []
    aside: dict[Face, list[Outline]] = {}
    outlines = list(_build_outs(job, wall))
    for one in things:
        rect, face = rect_on(job, one.tag), face_of(job, one.tag)
        if one.wall == wall and rect is not None and rect.width_nm > 0 and rect.height_nm > 0:
            mark = Outline(one.tag, rect.x_nm, rect.y_nm, rect.width_nm, rect.height_nm)
            if face is None or face.side in ("wall", "front"):
                outlines.append(mark)
            else:
                aside.setdefault(face, []).append(mark)
        elif one.wall in ("", wall):
            left_out.append(f"{one.tag} {one.name}: {_lacks(one)}")
    outlines.sort(key=_walked)
    length = tape_length(outlines)
    return TapeSheet(
        job.settings.name,
        wall,
        record.name,
        metric,
        line,
        tuple(_row(each, _named_top(job, each), line) for each in outlines),
        running(outlines),
        tuple(left_out),
        length,
        rolls(length, ROLL_NM, SPARE_PERCENT),
        (PLANNING, LADDER, STUDS, FIREPLACE),
        tuple(
            Side(
                f"{face.side} of {named(job, face.out)}" if face.out else face.side,
                tuple(_row(each, name_of(job, each.tag), line) for each in sorted(marked, key=_walked)),
                _measured(face),
            )
            for face, marked in aside.items()
        )
        + tuple(_shelves(job, wall, line)),
    )


def _shelves(job: Job, wall: str, line: int) -> Iterator[Side]:
    """The shelves and dividers inside each opening of a wall, from the bottom up; the top of a shelf is where gear
    stands."""
    for tag, opening in job.of(Opening).items():
        there = insides(job).get(tag) if opening.wall == wall else None
        marked = []
        for each in there.boards if there is not None else ():
            rect = board_rect(job, each.tag)
            if rect is not None and rect.width > 0 and rect.height > 0:
                marked.append(Outline(each.tag, rect.x, rect.y, rect.width, rect.height))
        if marked:
            rows = (_row(each, name_of(job, each.tag), line) for each in sorted(marked, key=lambda each: each.y_nm))
            yield Side(f"inside of {named(job, tag)}", tuple(rows), "on its back, from the marked corner and the floor")


def _measured(face: Face) -> str:
    """How the places on a face that is no front are measured."""
    if face.side in ("ceiling", "floor"):
        return "bottom and top mean out from the wall"
    if face.side in ELSEWHERE:
        return "from left means from the back of the cabinet to its front"
    return "from left means out from the wall"


def _walked(each: Outline) -> tuple[int, int, str]:
    return each.x_nm, each.y_nm, each.tag


def _build_outs(job: Job, wall: str) -> Iterator[Outline]:
    """The front of each build-out whose height is known."""
    for each in build_outs(job).get(wall, ()):
        known = job.of(BuildOut)[each.tag].height is not None or ceilings(job).get(wall) is not None
        left, right = _tops(job, each)
        # Under a slope it is marked as high as it is at its lower end; its name says where its top goes.
        high = min(left, right) - each.rect.y_nm
        if known and each.rect.width_nm > 0 and high > 0:
            yield Outline(each.tag, each.rect.x_nm, each.rect.y_nm, each.rect.width_nm, high)


def _tops(job: Job, out: Out) -> tuple[int, int]:
    """How high the front of a build-out reaches at its left and at its right, under the ceiling as it is."""
    line, rect = ceilings(job).get(out.wall), out.rect
    if line is None:
        return rect.top_nm, rect.top_nm
    ends = line.corners(rect.x_nm, rect.right_nm)
    return min(rect.top_nm, ends[0][1]), min(rect.top_nm, ends[-1][1])


def _named_top(job: Job, outline: Outline) -> str:
    """The name of what is marked; of a build-out whose top follows the ceiling, how high that is at both ends."""
    name, out = name_of(job, outline.tag), out_of(job, outline.tag)
    if out is None:
        return name
    left, right = _tops(job, out)
    metric = job.settings.metric
    tops = [show_length(Length(each), metric) for each in (left, right)]
    return name if left == right else f"{name}: its top runs from {tops[0]} at the left to {tops[1]} at the right"


def _row(each: Outline, name: str, line: int) -> TapeRow:
    at = marks(each)
    return TapeRow(
        each.tag,
        name,
        at.left_nm,
        at.right_nm,
        at.bottom_nm,
        at.top_nm,
        at.bottom_nm - line,
        at.top_nm - line,
        at.centre_x_nm,
        at.centre_y_nm,
        each.width_nm,
        each.height_nm,
        at.diagonal_nm,
    )


def _lacks(one: Opening | Panel | Equipment) -> str:
    wanted = {"from left": one.x, "from floor": one.y, "width": one.width, "height": one.height}
    missing = ([] if one.wall else ["wall"]) + [name for name, value in wanted.items() if value is None]
    return f"not entered: {', '.join(missing)}" if missing else "its size is 0"
