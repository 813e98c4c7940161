"""The same work with the mouse alone and with keys alone: add, edit, sign off, move, undo. Only words are typed."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from textual import events

from store.measure.length import Length, inches
from store.records.gate import Check, Closing
from store.records.people import Wish
from store.records.wall import Opening
from tests.tui.seat import LOW, MIDDLE, NORTH, Seat, at_rest, job_file, seat_at, small_job, stored
from tui.drawing.legend import Legend
from tui.drawing.moving_drawing import MovingDrawing
from tui.forms.record_form import RecordForm
from tui.screen.job_screen import JobScreen
from tui.screen.start_page import StartScreen
from tui.widgets.dialogs import AskText, Confirm, Pick, ReadPage

RECORDS = (
    *NORTH,
    *(Check(tag=f"Q{number}", what=f"Blocks {number}", trade="carpenter", where="W1") for number in (1, 2)),
)  # fmt: skip


def placed(path: Path) -> Length | None:
    one = stored(path).job.of(Opening)["N1"]
    return one.x


async def _by_mouse_add_edit_and_sign_off(seat: Seat, path: Path) -> None:
    """Add: the foot, words, the foot of the form. Edit: a field is clicked. Sign off: the row, then the foot."""
    await seat.click("3 Plan")
    await seat.click("Wishes")
    await seat.click(" a Add")
    await seat.until(lambda: seat.top_is(RecordForm) and seat.app.focused is not None)
    await seat.write("warm light")
    await seat.click("Ctrl+S = save")
    await seat.until(lambda: seat.top_is(JobScreen))
    await seat.click(" e Edit")
    await seat.until(lambda: seat.top_is(RecordForm) and seat.app.focused is not None)
    row = next(at for at, line in enumerate(seat.lines()) if "warm light" in line and at > 4)
    await seat.click("why", below=row)
    await seat.write("evenings")
    await seat.click("Ctrl+S = save")
    await seat.until(lambda: seat.top_is(JobScreen))
    assert (seat.record("L1").what, seat.record("L1").why) == ("warm light", "evenings")  # type: ignore[attr-defined]
    await seat.click("6 Rough-in")
    await seat.click("Q2")
    assert seat.table.cursor_key == "Q2"
    await seat.click(" c Sign off")
    await seat.until(lambda: seat.top_is(AskText))
    await seat.write("blocks seen")
    await seat.click("Enter = save")
    await seat.until(lambda: "Q2" in stored(path).job.of(Closing))
    await seat.click("u = undo")
    await seat.until(lambda: "Q2" not in stored(path).job.of(Closing))


async def _by_mouse_move(seat: Seat, path: Path) -> None:
    """The drawing, its foot, the arrows on it; then a click where it is to be."""
    await seat.click("3 Plan")
    await seat.click("Openings")
    await seat.click(" w Drawing")
    await seat.until(lambda: isinstance(seat.app.focused, MovingDrawing))
    await seat.click(" m Move")
    for _ in range(2):
        await seat.click("→", below=LOW[1] - 1)
    await seat.click("Enter Keep")
    await seat.until(lambda: placed(path) == inches(21))
    await seat.click(" m Move")
    drawing = seat.app.focused
    assert isinstance(drawing, MovingDrawing)
    picture = drawing.picture()
    assert picture is not None
    column, row = picture.frame.column(inches(100).nm), picture.frame.row(inches(50).nm)
    await seat.click_at(drawing.region.x + column, drawing.region.y + row)
    await seat.click("Enter Keep")
    await seat.until(lambda: abs((placed(path) or inches(0)).nm - inches(85).nm) < inches(3).nm)


async def test_with_the_mouse_alone(tmp_path: Path) -> None:
    path = small_job(tmp_path, RECORDS)
    async with seat_at(path, LOW) as seat:
        await _by_mouse_add_edit_and_sign_off(seat, path)
        # The wheel moves what the keys go on from.
        seat.table.move_to(seat.rows()[0])
        where: Any = (seat.table, 5, 5, 0, 0, 0, False, False, False, 5, 8)
        seat.table.post_message(events.MouseScrollDown(*where))
        await at_rest(seat.pilot)
        assert seat.table.cursor_key == seat.rows()[min(3, len(seat.rows()) - 1)]
        await _by_mouse_move(seat, path)
        await seat.click(" w To the list")
        await seat.click("Ctrl+P ")
        await seat.click("Undo")
        await seat.until(lambda: placed(path) == inches(21))
        await seat.click("? Help")
        await seat.until(lambda: seat.top_is(ReadPage))
        # A click outside closes.
        await seat.click_at(0, LOW[1] - 1)
        await seat.until(lambda: seat.top_is(JobScreen))


async def _by_keys_move(seat: Seat, path: Path) -> None:
    """By a typed place."""
    await seat.keys("w", "equals_sign")
    await seat.until(lambda: seat.top_is(AskText))
    seat.top.query_one("Input").value = "3'; nowhere"  # type: ignore[attr-defined]
    await seat.keys("enter")
    await seat.until(lambda: "is not a length" in seat.text)
    seat.top.query_one("Input").value = "3'; -"  # type: ignore[attr-defined]
    await seat.keys("enter")
    await seat.until(lambda: seat.top_is(JobScreen))
    assert "Enter Keep" in seat.lines()[-1]
    assert "N1 right 1'-4\"" in seat.said
    await seat.keys("question_mark")
    assert "You are moving a thing" in seat.text
    await seat.keys("escape", "enter")
    await seat.until(lambda: placed(path) == inches(36))


async def test_with_keys_alone(tmp_path: Path) -> None:
    path = small_job(tmp_path, RECORDS)
    async with seat_at(path, LOW, first="Wishes") as seat:
        await seat.keys("a")
        await seat.until(lambda: seat.top_is(RecordForm) and seat.app.focused is not None)
        await seat.write("warm light")
        await seat.keys("ctrl+s", "e", "escape")
        await seat.until(lambda: seat.top_is(JobScreen))
        assert seat.record("L1") == Wish(tag="L1", what="warm light")
        # By its name, where one does not know the key.
        await seat.keys("6", "ctrl+p")
        await seat.until(lambda: seat.top_is(Pick))
        await seat.write("sign off")
        assert "Sign off   c" in seat.text
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(AskText))
        await seat.write("blocks seen")
        await seat.keys("enter")
        await seat.until(lambda: "Q1" in stored(path).job.of(Closing))
        await seat.keys("ctrl+p")
        await seat.write("show open")
        await seat.keys("enter")
        await seat.until(lambda: seat.job_screen.view.title == "Openings")
        await _by_keys_move(seat, path)
        await seat.keys("L")
        await seat.until(lambda: seat.top_is(Legend))
        await seat.keys("escape", "N")
        assert "Everything on this wall is placed" in seat.said or seat.top_is(Pick)
        await seat.keys("escape", "t")
        assert (seat.app.focused, seat.table.cursor_key) == (seat.table, "N1")
        # Other jobs, from inside; Esc comes back.
        await seat.keys("J")
        await seat.until(lambda: seat.top_is(StartScreen))
        assert "open now" in seat.text
        await seat.keys("escape")
        await seat.until(lambda: seat.top_is(JobScreen))


async def test_another_job_takes_the_place_of_the_one_that_is_open(tmp_path: Path) -> None:
    first, other = small_job(tmp_path, RECORDS), job_file(tmp_path)
    async with seat_at(first, LOW) as seat:
        await seat.keys("J")
        await seat.until(lambda: seat.top_is(StartScreen) and seat.app.focused is not None)
        await seat.click("another file")
        await seat.until(lambda: seat.top_is(AskText))
        await seat.write(other.name)
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(JobScreen) and seat.job_screen.settled)
        assert [type(each) for each in seat.app.screen_stack] == [JobScreen]
        assert seat.book.path == other
        assert "Drywall locked" in seat.text


async def test_panes_come_and_go_and_are_remembered_by_size(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    path = job_file(tmp_path)
    async with seat_at(path, MIDDLE, first="Steps") as seat:
        screen, table = seat.job_screen, seat.table
        assert table.cells_wanted <= table.region.width, "the list keeps its columns, bars and all"
        assert screen.query_one("WallPane").display
        await seat.keys("D")
        assert not screen.query_one("WallPane").display
        await seat.keys("V")
        side = screen.query_one("#side")
        assert side.display
        assert side.region.y > table.region.y, "under the list, where there is no room beside it"
        assert table.cells_wanted <= table.region.width
        await seat.go("Boxes")
        assert side.region.x > table.region.x, "beside it, where there is"
    async with seat_at(path, LOW, first="Boxes") as seat:
        assert not seat.job_screen.query("#side"), "another size"
    async with seat_at(path, MIDDLE, first="Boxes") as seat:
        assert not seat.job_screen.query("WallPane")
        assert seat.job_screen.query_one("#side").display


async def test_escape_is_back_and_q_asks_for_nothing_but_leaving(tmp_path: Path) -> None:
    async with seat_at(small_job(tmp_path, RECORDS), LOW, first="Items") as seat:
        for open_it, kind in (("enter", ReadPage), ("e", RecordForm), ("W", None), ("P", Pick), ("d", Confirm)):
            if open_it == "d":
                seat.job_screen.app.push_screen(Confirm("Sure?", yes="yes", no="no"))
            else:
                await seat.keys(open_it)
            await seat.until(lambda: not seat.top_is(JobScreen))
            assert kind is None or seat.top_is(kind)
            if not seat.top_is(RecordForm) and not seat.top_is(Pick):
                await seat.keys("q")
                assert not seat.top_is(JobScreen), open_it
            await seat.keys("escape")
            await seat.until(lambda: seat.top_is(JobScreen))
        await seat.keys("q")
        assert seat.app._exit
