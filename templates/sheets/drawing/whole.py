"""The set of drawing sheets of a job: a wall a page for each trade, with what does not go beside it on pages after."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial

import msgspec
from msgspec.structs import replace

from store.measure.errors import BadValue
from store.records.wall import Wall
from store.records.whole import Job
from store.rules.build.boards import boards
from store.rules.build.takeoff_words import board_lines
from store.rules.core.wording import date_text, local
from store.rules.drawing.elevation import scene
from store.rules.drawing.shapes import Scene, Unplaced
from store.rules.handoff.changes import Entry as Change
from templates.sheets.drawing import section
from templates.sheets.drawing.column import Row, columns, drawn, entry_row, head, signs, text_rows
from templates.sheets.drawing.framing import with_framing
from templates.sheets.drawing.ink import MEDIUM, line, rect
from templates.sheets.drawing.paper import Sheet, scale_named, scale_words, sheet_named
from templates.sheets.drawing.sheet import BAR, EDGE, FOOT, Drawn, placed
from templates.sheets.drawing.title import HIGH, Revision, Title, revision, scale_bar, title_block, titled
from templates.sheets.drawing.views import VIEWS, View, entries, left_out, view_of, weight
from templates.sheets.layout.marks import safe
from templates.sheets.layout.unearned import mark_of

CONTINUED = "schedule continued"
"""What a page without a drawing is called."""
SECTIONED = ("general", "carpenter")
"""Trades whose sheets have sections."""
GAP = 4.0
"""Between columns, mm."""


class Ask(msgspec.Struct, frozen=True, kw_only=True):
    """Which sheets are asked for."""

    paper: str = ""
    scale: str = ""
    wall: str = ""
    trade: str = ""
    """Empty: the whole set."""
    changes: Sequence[Change] = ()
    """The history as plain data."""


class _Page(msgspec.Struct, frozen=True):
    """A page before it knows its number."""

    wall: str
    name: str
    view: View
    scale: str
    body: str


def pages(job: Job, ask: Ask) -> list[str]:
    """The sheets asked for as SVG files, one a page. Raises BadValue where there is no wall, paper or scale."""
    paper, factor = sheet_named(ask.paper, job.settings.metric), scale_named(ask.scale)
    views = [view for view in (VIEWS if not ask.trade else [view_of(ask.trade)]) if view is not None]
    made: list[tuple[_Page, Revision]] = []
    told: set[Unplaced] = set()
    for tag in walls(job, ask.wall):
        whole = scene(job, tag)
        if not placed(whole):
            continue
        # What is on no wall is missing from each of them; the first says so.
        whole, told = (
            replace(whole, unplaced=tuple(each for each in whole.unplaced if each not in told)),
            {*told, *whole.unplaced},
        )
        for view in views:
            if any(weight(view, each) == "own" for each in whole.shapes):
                shown = with_framing(job, whole) if view.framing else whole
                changed = revision(job, view.trade, ask.changes)
                made += [(page, changed) for page in _pages(job, shown, view, paper, factor, changed)]
    if not made:
        raise BadValue("nothing to draw yet. Enter the size of a wall and what is on it.")
    return [_finished(job, paper, page, changed, at, len(made)) for at, (page, changed) in enumerate(made, 1)]


def walls(job: Job, wanted: str) -> list[str]:
    """The walls asked for, or all. Raises BadValue."""
    known = list(job.of(Wall))
    if wanted and wanted not in known:
        raise BadValue(f"no wall {wanted} in this job. Choose one of its walls.")
    if not known:
        raise BadValue("no wall to draw yet. Add one.")
    return [wanted] if wanted else known


def _pages(job: Job, whole: Scene, view: View, paper: Sheet, factor: int | None, changed: Revision) -> Iterator[_Page]:
    high = paper.high - 2 * EDGE - HIGH - 2
    laid = boards(job).get(whole.wall) if view.trade == "drywall" else None
    sheets = [each.rect for each in laid.boarded.pieces] if laid is not None else []
    # Words are measured as they will be read: those of another region are of other lengths.
    drawing = Drawn(whole, view, paper, high, factor, sheets, partial(local, job))
    rows = list(_rows(job, whole, view, paper.column, changed))
    if drawing.legend is None:
        rows += [head("Signs"), *signs(whole, view, partial(local, job))]
    rows += _not_drawn(job, whole, view, paper.column)
    dealt = columns(rows, [high - 3], high - 3)
    x = paper.wide - EDGE - paper.column
    beside = line(x - 2, EDGE, x - 2, EDGE + high, MEDIUM) + drawn(dealt[0], x, EDGE + 1)
    scale = scale_words(drawing.factor, whole.metric)
    name = f"{whole.wall} {whole.name}"
    yield _Page(whole.wall, name, view, scale, drawing.whole() + beside)
    yield from _continued(dealt[1:], whole, view, paper, f"{name}, {CONTINUED}")
    if view.trade in SECTIONED:
        yield from _sections(job, whole, view, paper, factor)


def _continued(left: Sequence[Sequence[Row]], whole: Scene, view: View, paper: Sheet, name: str) -> Iterator[_Page]:
    """Pages of columns side by side, for what does not go beside a drawing."""
    across = int((paper.wide - 2 * EDGE + GAP) // (paper.column + GAP))
    for at in range(0, len(left), across):
        body = "".join(
            drawn(rows_, EDGE + number * (paper.column + GAP), EDGE + 1)
            for number, rows_ in enumerate(left[at : at + across])
        )
        yield _Page(whole.wall, name, view, "none", body)


def _sections(job: Job, whole: Scene, view: View, paper: Sheet, factor: int | None) -> Iterator[_Page]:
    """Pages of upright cuts, where any opening has a depth."""
    high = paper.high - 2 * EDGE - HIGH - 2
    room = (paper.wide - 2 * EDGE - paper.column - 3, high - FOOT)
    found, used = section.drawn(job, whole, view, room, factor)
    if not found:
        return
    listed = columns(list(section.rows(job, whole, view, paper.column)), [high - 3], high - 3)
    x = paper.wide - EDGE - paper.column
    name = f"{whole.wall} {whole.name}, section"
    bar = scale_bar(EDGE + 2, EDGE + high - 5.5, used, whole.metric, BAR)
    for at, body in enumerate(found):
        beside = line(x - 2, EDGE, x - 2, EDGE + high, MEDIUM) + bar
        beside += drawn(listed[at], x, EDGE + 1) if at < len(listed) else ""
        placed_body = f'<g transform="translate({EDGE:g} {EDGE:g})">{body}</g>'
        yield _Page(whole.wall, name, view, scale_words(used, whole.metric), placed_body + beside)
    yield from _continued(listed[len(found) :], whole, view, paper, f"{name}, {CONTINUED}")


def _rows(job: Job, whole: Scene, view: View, room: float, changed: Revision) -> Iterator[Row]:
    """The column but for signs and what is not drawn: notes, what changed, the schedule."""
    side = {"elevation": "seen from the room", "plan": "seen from above"}.get(whole.view, "seen from the left end")
    title = local(job, view.title)
    yield head(f"{title}: {whole.wall} {side}" if len(whole.name) < 40 else f"{title}: {whole.wall}", room)
    if mark := mark_of(job):
        yield from text_rows(mark, room, bold=True)
    for note in (*view.notes, "Datum: left corner, finished floor."):
        yield from text_rows(local(job, note), room, bold=note.startswith("NO SCREWS"))
    if changed.changes:
        yield head(f"Revision {changed.letter}, {changed.said}", room)
        for each in changed.changes:
            yield from text_rows(each, room)
    yield head("Schedule")
    for entry in entries(job, whole, view):
        yield entry_row(entry, room)
    if view.trade == "drywall" and (laid := boards(job).get(whole.wall)) is not None:
        yield head("Sheets of drywall, dash-dot lines")
        for each in board_lines(job, laid):
            yield from text_rows(local(job, each.strip()), room)


def _not_drawn(job: Job, whole: Scene, view: View, room: float) -> Iterator[Row]:
    missing = left_out(whole, view)
    if missing or whole.remarks:
        yield head("Not drawn, and remarks")
        for each in (*missing, *whole.remarks):
            yield from text_rows(local(job, each), room)


def _finished(job: Job, paper: Sheet, page: _Page, changed: Revision, number: int, count: int) -> str:
    said = Title(
        job=job.settings.name,
        address=job.settings.address,
        sheet=f"{local(job, page.view.title)}: {page.name}",
        number=f"sheet {number} of {count}",
        scale=page.scale if page.scale != "none" else "no drawing",
        date=date_text(job, job.today),
        revision=changed.letter,
        changed=changed.said,
    )
    foot = title_block(EDGE, paper.high - EDGE - HIGH, paper.wide - 2 * EDGE, said)
    frame = rect(EDGE - 1.5, EDGE - 1.5, paper.wide - 2 * EDGE + 3, paper.high - 2 * EDGE + 3, MEDIUM)
    return titled(f"{said.sheet}, {said.number}", paper.wide, paper.high, f"{frame}{page.body}{foot}")


def document(job: Job, ask: Ask) -> str:
    """The sheets asked for as one HTML page that prints each on a page of its own. Raises BadValue."""
    paper = sheet_named(ask.paper, job.settings.metric)
    return bound(pages(job, ask), paper.wide, paper.high, f"Drawing sheets - {job.settings.name}")


def bound(found: Sequence[str], wide: float, high: float, title: str) -> str:
    """Pages of SVG as one HTML page."""
    style = (
        f"@page {{ size: {wide:g}mm {high:g}mm; margin: 0; }} html, body {{ margin: 0; background: #fff; }} "
        "svg { display: block; max-width: 100%; break-after: page; } svg:last-of-type { break-after: auto; } "
        "@media screen { svg { margin: 1rem auto; height: auto; border: 1px solid #999; } }"
    )
    return (
        f'<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><title>{safe(title)}</title>'
        f'<meta name="viewport" content="width=device-width, initial-scale=1"><style>{style}</style></head><body>\n'
        f"{''.join(found)}</body></html>\n"
    )
