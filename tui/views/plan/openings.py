"""Openings: where everything goes, whether it fits, and the word that the mock-up is good so."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from store.book.changes import set_down
from store.measure.length import Length, show_length
from store.measure.text import is_no_name
from store.records.field import SAID
from store.records.wall import Opening
from store.records.whole import Job
from store.rules.core.checks import close
from store.rules.core.memo import once
from store.rules.core.wording import plural
from store.rules.drawing.tape_marks import TapeRow, TapeSheet, tape_sheet
from store.rules.fit.fit import VERDICTS, Piece, pieces
from store.rules.gate.mock_up import agreement, why_not_agreed
from tui.acts.reaching import WAY_KEY
from tui.view.desk import Desk
from tui.view.state import State
from tui.view.view import Key, KindView
from tui.widgets.record_table import Column, Line

SIGNS = {"fits": "✓ fits", "tight": "! tight", "does not fit": "▲ does not fit", "not known": "? not known"}


@once
def _by_opening(job: Job) -> dict[str, list[Piece]]:
    """The pieces of each opening, the worst first."""
    found: dict[str, list[Piece]] = {}
    for piece in pieces(job).values():
        found.setdefault(piece.opening, []).append(piece)
    for each in found.values():
        each.sort(key=lambda piece: VERDICTS.index(piece.verdict))
    return found


def _agree(desk: Desk, key: str) -> None:
    """Take down who agreed to the mock-up."""
    state = desk.state
    why = why_not_agreed(state.job)
    if not why:
        desk.say("The mock-up is agreed, and nothing moved since")
        return

    seen = agreement(state.job)  # what moves while the question stands, nobody has agreed to

    def done(names: str) -> None:
        if is_no_name(names):
            desk.say(f"{names} is no name. y = enter who agreed", bad=True)
            return
        closing = close(seen, names, desk.state.job.today, evidence="looked at it taped full size and agreed")
        if desk.act("Agree to the mock-up", [set_down(desk.state.job, closing)]):
            desk.say("Mock-up agreed. Moving anything reopens it. u = undo")

    desk.ask("Who looked at the taped wall and agreed?", done, about=why)


def _tape(desk: Desk, key: str) -> None:
    """The tape sheet of the wall that an opening is on."""
    opening = desk.state.job.of(Opening).get(key)
    if opening is None or not opening.wall:
        desk.say(f"{key} is on no wall yet. e = edit", bad=True)
        return
    sheet = tape_sheet(desk.state.job, opening.wall)
    desk.read(f"Mock-up sheet, {sheet.wall} {sheet.wall_name}", tape_text(sheet))


def tape_text(sheet: TapeSheet) -> str:
    """The sheet for a narrow screen on a ladder: a block a thing, from left to right."""

    def said(nm: int) -> str:
        return show_length(Length(nm), sheet.metric)

    blocks = [
        f"From the marked corner (left) and the finished floor. Level line at {said(sheet.level_line_nm)}. "
        f"Tape: {said(sheet.tape_nm)}, {plural(sheet.rolls, 'roll')}."
    ]
    blocks += [_row_text(row, said) for row in sheet.rows]
    for side in sheet.sides:
        blocks.append(f"On the {side.name}: {side.note}.")
        blocks += [_row_text(row, said) for row in side.rows]
    blocks += [f"Not placed yet: {each}" for each in sheet.left_out] + list(sheet.cautions)
    return "\n\n".join(blocks)


def _row_text(row: TapeRow, said: Callable[[int], str]) -> str:
    return (
        f"{row.tag}  {row.name}\n"
        f"  left {said(row.left_nm)}   right {said(row.right_nm)}   center {said(row.centre_x_nm)}\n"
        f"  bottom {said(row.bottom_nm)}   top {said(row.top_nm)}   center {said(row.centre_y_nm)}\n"
        f"  from the line: bottom {said(row.line_bottom_nm)}   top {said(row.line_top_nm)}\n"
        f"  square when both diagonals read {said(row.diagonal_nm)}"
    )


class Openings(KindView):
    """Each opening with its place, its size, and whether what goes in it fits."""

    name = "openings"
    title = "Openings"
    about = (
        "Where everything goes. Places are to the lower left corner, from the left end of the wall "
        "and the finished floor. Sizes are outside. w, then m = move one on the drawing. v = mock-up "
        "sheet, to mark the wall full size in tape. y = the mock-up is agreed; a later move "
        "reopens it."
    )
    first = "a = add an opening for the TV, the fireplace and each cabinet. Then v, and tape them on the wall."
    often = ("w",)
    sheets = ("tape", "drawing", "section", "from-above")
    kinds = (Opening,)
    keys = (Key("v", "Mock-up sheet", _tape), Key("y", "Mock-up agreed", _agree), WAY_KEY)

    def columns(self, state: State) -> tuple[Column, ...]:
        """Tag, name, what fits, place, size."""
        return (
            Column("tag", 4),
            Column("name", 18, grow=True),
            Column("what goes in it", 17, grow=True),
            Column("from left", 10, right=True),
            Column("off floor", 9, right=True),
            Column("width", 8, right=True),
            Column("height", 8, right=True),
            Column("depth", 8, right=True),
            Column("use", 10),
            Column("door", 6),
        )

    def line(self, state: State, row: Any) -> Line:
        """One opening; the worst of its pieces tells."""
        metric = state.job.settings.metric
        inside = _by_opening(state.job).get(row.tag, [])
        verdict = f"{inside[0].tag} {SIGNS[inside[0].verdict]}" if inside else ""
        lengths = (row.x, row.y, row.width, row.height, row.depth)
        shown = (show_length(each, metric) if each is not None else "?" for each in lengths)
        tone = "warn" if inside and inside[0].verdict in ("does not fit", "tight") else ""
        return Line((row.tag, row.name, verdict, *shown, SAID.get(row.use, row.use), row.door), tone)

    def order(self, state: State, row: Any, column: int) -> Any:
        """Lengths by value, what fits by how bad it is."""
        lengths = (row.x, row.y, row.width, row.height, row.depth)
        if 3 <= column <= 7:
            length = lengths[column - 3]
            return length.nm if length is not None else None
        if column == 2:
            inside = _by_opening(state.job).get(row.tag)
            return VERDICTS.index(inside[0].verdict) if inside else None
        return super().order(state, row, 0) if column == 0 else self.line(state, row).cells[column].lower() or None

    def summary(self, state: State, rows: Any) -> str:
        """How many fit, and how the mock-up stands."""
        counts: dict[str, int] = {}
        for piece in pieces(state.job).values():
            counts[piece.verdict] = counts.get(piece.verdict, 0) + 1
        fits = ", ".join(_several(verdict, counts[verdict]) for verdict in reversed(VERDICTS) if verdict in counts)
        mock_up = why_not_agreed(state.job) or "Mock-up agreed"
        return f"{plural(len(rows), 'opening')}. Pieces: {fits or 'none yet'}. {mock_up}"


def _several(verdict: str, count: int) -> str:
    """`1 fits`, `2 fit`, `2 do not fit`."""
    several = {"fits": "fit", "does not fit": "do not fit"}
    return f"{count} {verdict if count == 1 else several.get(verdict, verdict)}"
