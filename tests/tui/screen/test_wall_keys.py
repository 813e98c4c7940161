"""The wall by keys: it is asked for once and has the keys at once, things are moved on it, and undo takes it back."""

from __future__ import annotations

from pathlib import Path

import pytest

from store.measure.length import inches
from store.records.access import Photo
from store.records.field import Ref
from store.records.wall import Opening
from store.rules.gate.mock_up import why_not_agreed
from tests.tui.seat import NORTH, Seat, seat_at, small_job, stored
from tui.drawing.moving_drawing import MovingDrawing
from tui.widgets.dialogs import AskText


async def at_the_wall(seat: Seat) -> MovingDrawing:
    """Press w, once, on a screen that shows no drawing until then."""
    await seat.keys("w")
    await seat.until(lambda: isinstance(seat.app.focused, MovingDrawing))
    drawing = seat.app.focused
    assert isinstance(drawing, MovingDrawing)
    return drawing


async def test_the_first_w_gives_the_keys_to_the_drawing_and_the_next_takes_them_back(tmp_path: Path) -> None:
    async with seat_at(small_job(tmp_path, NORTH)) as seat:
        drawing = await at_the_wall(seat)
        await seat.keys("v")
        assert drawing.scene is not None
        assert drawing.scene.view == "plan"
        await seat.keys("v", "w")
        assert seat.app.focused is seat.table
        assert not seat.job_screen.has_class("-wall")


async def test_an_opening_is_moved_by_keys_and_undo_takes_it_back(tmp_path: Path) -> None:
    async with seat_at(small_job(tmp_path, NORTH)) as seat:
        drawing = await at_the_wall(seat)
        drawing._choose("N1")
        await seat.keys("m", "right", "right", "up", "shift+left")
        # Two half inches to the right, a sixteenth back, half an inch up.
        assert 'N1 right 15/16", up 1/2".' in seat.said
        await seat.keys("enter")
        await seat.until(lambda: "u = undo" in seat.said)
        moved = seat.record("N1")
        assert isinstance(moved, Opening)
        assert (moved.x, moved.y) == (inches(20.9375), inches(10.5))
        assert "m Move" in seat.lines()[-1]
        await seat.keys("u")
        await seat.until(lambda: seat.record("N1") == NORTH[3])
        await seat.until(lambda: "1'-8\" from left" in drawing._status(200))
        assert "m Move" in seat.lines()[-1]


async def test_a_move_after_the_mock_up_is_agreed_takes_a_reason_at_any_stage(tmp_path: Path) -> None:
    async with seat_at(small_job(tmp_path, NORTH)) as seat:
        await seat.keys("3", "y")
        await seat.until(lambda: isinstance(seat.top, AskText))
        await seat.write("x")
        await seat.keys("enter")
        await seat.until(lambda: "x is no name" in seat.said)
        await seat.keys("y")
        await seat.write("Robin")
        await seat.keys("enter")
        await seat.until(lambda: "Mock-up agreed" in seat.said)
        drawing = await at_the_wall(seat)
        drawing._choose("N1")
        await seat.keys("m", "right", "enter")
        await seat.until(lambda: isinstance(seat.top, AskText))
        await seat.write("crowded")
        await seat.keys("enter")
        await seat.until(lambda: "u = undo" in seat.said)
        assert seat.book.entries()[-1].why == "crowded"
        assert 'moved right 1/2"' in why_not_agreed(stored(seat.book.path).job)


async def test_a_photo_is_a_mark_on_the_wall_and_p_opens_it_with_the_viewer_of_the_desktop(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    shown: list[Path] = []

    def viewer(path: Path) -> str:
        shown.append(path)
        return ""

    monkeypatch.setattr("tui.acts.photos.pictures.open_picture", viewer)
    (tmp_path / "bay.png").write_bytes(b"\x89PNG\r\n\x1a\n" + bytes(20))
    photos = (
        Photo(tag="F1", file="bay.png", shows="left bay", of=(Ref("N1"),)),
        Photo(tag="F2", file="gone.jpg", wall=Ref("W1"), x=inches(80), y=inches(60)),
    )
    async with seat_at(small_job(tmp_path, (*NORTH, *photos))) as seat:
        drawing = await at_the_wall(seat)
        assert "▣" in seat.text
        drawing._choose("F2")
        await seat.keys("p")
        assert "F2: there is no such file" in seat.said
        assert shown == []
        drawing._choose("N1")
        await seat.keys("p")
        assert shown == [tmp_path.resolve() / "bay.png"]
        drawing._choose("F1")
        await seat.keys("p")
        assert len(shown) == 2
        await seat.keys("L")
        assert "▣ a photo of the place" in seat.text
        await seat.keys("end", "enter", "escape")
        assert "▣" not in seat.text


async def test_a_photo_of_which_there_is_none_is_told(tmp_path: Path) -> None:
    async with seat_at(small_job(tmp_path, NORTH)) as seat:
        drawing = await at_the_wall(seat)
        drawing._choose("N1")
        await seat.keys("p")
        assert "No photo of N1" in seat.said
