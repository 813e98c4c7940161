"""Keys act on what is selected and in sight: every key, in the list, on the drawing, while moving, in a window.

Each key is pressed in each state with the drawing's selection on one thing and the hidden cursor of the list on
another. Whatever the key opens is confirmed; then no record but the selected one may have changed.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from textual.binding import Binding
from textual.screen import ModalScreen

from store.measure.length import inches
from store.records.field import Ref
from store.records.gate import Check
from store.records.people import Wish
from store.records.wiring import Box, Cable
from tests.tui.seat import MIDDLE, NORTH, Seat, seat_at, small_job, tables
from tui.acts.many import ManyAtOnce
from tui.acts.walk_screen import Walk
from tui.drawing.moving_drawing import MovingDrawing
from tui.forms.record_form import RecordForm
from tui.screen.keys import JOB_KEYS
from tui.screen.wall.hands import NOTHING
from tui.widgets.dialogs import Pick

RECORDS = (
    *NORTH,
    Box(tag="B1", name="Low", what="receptacle", wall=Ref("W1"), x=inches(100), y=inches(15)),
    Box(tag="B2", name="High", what="receptacle", wall=Ref("W1"), x=inches(100), y=inches(60)),
    Cable(tag="K1", name="Feed", type="nm-12-2", start=Ref("B1"), end=Ref("B2")),
    Check(tag="Q1", what="Blocks", trade="carpenter", where="W1"),
    Wish(tag="L1", what="warm light"),
)  # fmt: skip
VIEWS = ("Cables", "Wishes", "Equipment", "Items")
PLAIN = [name for each in JOB_KEYS if isinstance(each, Binding) for name in each.key.split(",")]
OWN = ("space", "c", "C", "n", "o", "i", "x", "l", "t", "y", "backspace", "enter")
LEAVES = {"q", "g", "P", "I", "b", "ctrl+f", "u", "ctrl+z", "r", "ctrl+y", "question_mark", "f1",
          "J", "T", "D", "V", "ctrl+p"}  # fmt: skip
"""Keys that are about no record: they leave, undo, or open the gate, a sheet, the job itself, other jobs or a page to
read, choose colors and panes, or list what all the others do."""


def _records(path: Path) -> dict[tuple[str, str], Any]:
    """Every record of the file by kind and tag, without its history and counters."""
    return {
        (kind, row.get("tag", "")): row
        for kind, table in tables(path).items()
        if kind not in ("history", "_meta", "summary", "archive")
        for row in table.values()
    }


async def _to_view(seat: Seat, title: str) -> None:
    seat.job_screen.action_view(seat.job_screen.views.titles.index(title))
    await seat.calm()


async def _close_windows(seat: Seat) -> None:
    """Say yes to a question, and leave whatever else is open."""
    for _ in range(6):
        if not isinstance(seat.top, ModalScreen) and seat.top is seat.job_screen:
            return
        await seat.keys("y")
        if isinstance(seat.top, ModalScreen) or seat.top is not seat.job_screen:
            await seat.keys("escape")
        if isinstance(seat.top, Pick) and any(isinstance(each, ManyAtOnce) for each in seat.app.screen_stack):
            await seat.keys("down", "enter")  # the lines are not kept for later


async def _select_on_the_drawing(seat: Seat, view: str, tag: str) -> None:
    """Have the keys on the drawing, before this view, with a thing selected; what stands so already stays."""
    screen, drawing = seat.job_screen, seat.app.focused
    there = isinstance(drawing, MovingDrawing) and not drawing.moving and seat.top is screen
    if not (there and screen.view.title == view and screen.has_class("-wall")):
        await _to_view(seat, view)
        await seat.keys("w")
        await seat.until(lambda: isinstance(seat.app.focused, MovingDrawing))
        drawing = seat.app.focused
    assert isinstance(drawing, MovingDrawing)
    drawing._choose(tag)
    await seat.calm()


@pytest.mark.parametrize("view", VIEWS)
async def test_on_the_drawing_no_key_touches_what_is_not_selected_there(view: str, tmp_path: Path) -> None:
    path = small_job(tmp_path, RECORDS)
    before = _records(path)
    async with seat_at(path, MIDDLE) as seat:
        # What works in every list is tried before one of them; the Agenda has its own trial below.
        general = PLAIN if view == "Wishes" else ("d", "delete", "e", "a")
        for key in dict.fromkeys(each for each in (*general, *OWN) if each not in LEAVES):
            await _select_on_the_drawing(seat, view, "B1")
            await seat.keys(key)
            await _close_windows(seat)
            now = _records(path)
            changed = {name[1] for name in {*before, *now} if before.get(name) != now.get(name)}
            assert changed <= {"B1", "K1"} if key in ("d", "delete") else not changed, (view, key, changed)
            if changed:
                # What ends at a box goes with it, and was asked about; put both back for the next key.
                await seat.keys("escape", "u")
                await seat.until(lambda: _records(path) == before)


async def test_a_wish_under_the_hidden_cursor_is_not_deleted_from_the_drawing(tmp_path: Path) -> None:
    path = small_job(tmp_path, RECORDS)
    async with seat_at(path, MIDDLE) as seat:
        await _to_view(seat, "Wishes")
        await seat.keys("w")
        await seat.until(lambda: isinstance(seat.app.focused, MovingDrawing))
        await seat.keys("d")
        assert seat.said == NOTHING
        assert seat.record("L1") is not None
        for key in ("m", "equals_sign"):
            seat.job_screen.say_line.say("")
            await seat.keys(key)
            assert seat.said == NOTHING, key
        await seat.keys("e")
        assert seat.top is seat.job_screen


async def test_what_is_selected_on_the_drawing_is_what_is_deleted_and_edited(tmp_path: Path) -> None:
    path = small_job(tmp_path, RECORDS)
    async with seat_at(path, MIDDLE) as seat:
        await _to_view(seat, "Wishes")
        await seat.keys("w")
        await seat.until(lambda: isinstance(seat.app.focused, MovingDrawing))
        drawing = seat.app.focused
        assert isinstance(drawing, MovingDrawing)
        drawing._choose("N1")
        await seat.calm()
        await seat.keys("e")
        await seat.until(lambda: isinstance(seat.top, RecordForm))
        await seat.keys("escape", "d", "y")
        await seat.until(lambda: ("opening", "N1") not in _records(path))
        assert ("wish", "L1") in _records(path)


async def test_a_digit_leaves_the_drawing_for_the_list(tmp_path: Path) -> None:
    path = small_job(tmp_path, RECORDS)
    async with seat_at(path) as seat:
        await seat.keys("w")
        await seat.until(lambda: isinstance(seat.app.focused, MovingDrawing))
        await seat.keys("4")
        assert not seat.job_screen.has_class("-wall")
        assert seat.app.focused is seat.table


async def test_while_a_thing_is_moved_nothing_else_is_done(tmp_path: Path) -> None:
    path = small_job(tmp_path, RECORDS)
    before = _records(path)
    async with seat_at(path, MIDDLE) as seat:
        await _to_view(seat, "Wishes")
        await seat.keys("w")
        await seat.until(lambda: isinstance(seat.app.focused, MovingDrawing))
        drawing = seat.app.focused
        assert isinstance(drawing, MovingDrawing)
        drawing._choose("N1")
        await seat.keys("m")
        await seat.until(lambda: drawing.moving)
        for key in [each for each in (*PLAIN, "space", "x") if each not in ("escape", "w", "question_mark", "f1", "q")]:
            await seat.keys(key)
            assert seat.top is seat.job_screen, key
            assert drawing.moving, key
        await seat.keys("escape")
        assert _records(path) == before


WORKED_OUT = ("Agenda", "Gate", "Years after")
"""Lists whose lines are no records."""


async def test_in_a_list_that_is_worked_out_no_key_changes_a_record(tmp_path: Path) -> None:
    path = small_job(tmp_path, RECORDS)
    before = _records(path)
    async with seat_at(path, MIDDLE) as seat:
        for view in WORKED_OUT:
            general = PLAIN if view == "Agenda" else ("d", "delete", "e")
            for key in dict.fromkeys(each for each in (*general, *OWN) if each not in LEAVES):
                if (view, key) == ("Gate", "y"):
                    continue  # moves the job on, which is what the gate is for
                await _to_view(seat, view)
                await seat.keys(key)
                if isinstance(seat.top, RecordForm):
                    await seat.keys("escape")
                for _ in range(3):
                    if seat.top is not seat.job_screen:
                        await seat.keys("escape")
                assert seat.top is seat.job_screen, (view, key)
                assert _records(path) == before, (view, key)
                if seat.job_screen.has_class("-wall"):
                    await seat.keys("w")


def _walks_on(top: Any) -> bool:
    """Whether this is the walk, with nothing being typed or picked in it."""
    return isinstance(top, Walk) and not top._pictures and not top.query("#ask.-on")


async def test_in_the_walk_no_key_alone_changes_a_record_and_what_is_typed_changes_the_item_in_sight(
    tmp_path: Path,
) -> None:
    path = small_job(tmp_path, RECORDS)
    before = _records(path)
    async with seat_at(path, MIDDLE) as seat:
        await _to_view(seat, "Items")
        for key in [each for each in (*PLAIN, *OWN) if each not in ("u", "ctrl+z", "q", "escape")]:
            if not isinstance(seat.top, Walk):
                seat.table.move_to("Q1")
                await seat.keys("W")
                await seat.until(lambda: isinstance(seat.top, Walk))
            await seat.keys(key)
            for _ in range(3):
                if not (seat.top is seat.job_screen or _walks_on(seat.top)):
                    await seat.keys("escape")
            assert seat.top is seat.job_screen or _walks_on(seat.top), key
            assert _records(path) == before, key
        if seat.top_is(Walk):
            await seat.keys("escape")
        seat.table.move_to("Q1")
        await seat.keys("W")
        walk = seat.top
        assert isinstance(walk, Walk)
        for _ in walk.walking.keys:
            if walk.walking.at == "Q1":
                break
            await seat.keys("s")
        await seat.keys("c")
        await seat.write("both blocks nailed")
        await seat.keys("enter", "escape")
        now = _records(path)
        assert {name for name in now if before.get(name) != now[name]} == {("closing", "Q1")}
