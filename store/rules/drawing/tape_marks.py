"""The tape sheet: where every edge of the plan is marked on the wall full size, so that nobody adds on a ladder.

Across, everything is measured from one marked corner, the left one; up, from the finished floor at that corner, and
also from one level line struck across the wall, because floors are seldom level.
"""

from __future__ import annotations

import msgspec

from store.measure.errors import BadValue
from store.measure.length import INCH_NM, MM_NM
from store.records.access import Panel
from store.records.wall import Opening, Wall
from store.records.whole import Job
from store.rules.core.cautions import FIREPLACE, LADDER, PLANNING, STUDS
from store.rules.wall.layout import outline
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


def tape_sheet(job: Job, wall: str, level_line_nm: int | None = None) -> TapeSheet:
    """The tape sheet of a wall: every opening and access panel on it. Raises BadValue when there is no such wall."""
    record = job.of(Wall).get(wall)
    if record is None:
        raise BadValue(f"there is no wall {wall!r}: put it on the list of walls first")
    metric = job.settings.metric
    line = level_line_nm if level_line_nm is not None else LEVEL_LINE_METRIC_NM if metric else LEVEL_LINE_NM
    things: list[Opening | Panel] = [*job.of(Opening).values(), *job.of(Panel).values()]
    outlines, names, left_out = [], {}, []
    for one in things:
        rect = outline(one)
        if one.wall == wall and rect is not None and rect.width_nm > 0 and rect.height_nm > 0:
            outlines.append(Outline(one.tag, rect.x_nm, rect.y_nm, rect.width_nm, rect.height_nm))
            names[one.tag] = one.name
        elif one.wall in ("", wall):
            left_out.append(f"{one.tag} {one.name}: {_lacks(one)}")
    outlines.sort(key=lambda each: (each.x_nm, each.y_nm, each.tag))
    length = tape_length(outlines)
    return TapeSheet(
        job.settings.name,
        wall,
        record.name,
        metric,
        line,
        tuple(_row(each, names[each.tag], line) for each in outlines),
        running(outlines),
        tuple(left_out),
        length,
        rolls(length, ROLL_NM, SPARE_PERCENT),
        (PLANNING, LADDER, STUDS, FIREPLACE),
    )


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


def _lacks(one: Opening | Panel) -> str:
    wanted = {"from left": one.x, "from floor": one.y, "width": one.width, "height": one.height}
    missing = ([] if one.wall else ["wall"]) + [name for name, value in wanted.items() if value is None]
    return f"not entered: {', '.join(missing)}" if missing else "its size is nothing"
