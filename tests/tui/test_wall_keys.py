"""The wall by keys: it is asked for once and has the keys at once, things are moved on it, and undo takes it back."""

from __future__ import annotations

from pathlib import Path

from store.measure.length import inches
from store.records.field import Ref
from store.records.wall import Opening, Reading, Wall
from tests.tui.seat import Seat, seat_at, small_job
from tui.widgets.moving_drawing import MovingDrawing

WALL = (
    Wall(tag="W1", name="North"),
    Reading(tag="D1", wall=Ref("W1"), what="width", value=inches(144)),
    Reading(tag="D2", wall=Ref("W1"), what="height", value=inches(96)),
    Opening(
        tag="N1", name="Shelf", wall=Ref("W1"), x=inches(20), y=inches(10), width=inches(30), height=inches(20),
        depth=inches(12),
    ),
)  # fmt: skip


async def at_the_wall(seat: Seat) -> MovingDrawing:
    """Press w, once, on a screen that shows no drawing until then."""
    await seat.keys("w")
    await seat.until(lambda: isinstance(seat.app.focused, MovingDrawing))
    drawing = seat.app.focused
    assert isinstance(drawing, MovingDrawing)
    return drawing


async def test_the_first_w_gives_the_keys_to_the_drawing_and_the_next_takes_them_back(tmp_path: Path) -> None:
    async with seat_at(small_job(tmp_path, WALL)) as seat:
        drawing = await at_the_wall(seat)
        await seat.keys("v")
        assert drawing.scene is not None
        assert drawing.scene.view == "plan"
        await seat.keys("v", "w")
        assert seat.app.focused is seat.table
        assert not seat.job_screen.has_class("-wall")


async def test_an_opening_is_moved_by_keys_and_undo_takes_it_back(tmp_path: Path) -> None:
    async with seat_at(small_job(tmp_path, WALL)) as seat:
        drawing = await at_the_wall(seat)
        drawing._choose("N1")
        await seat.keys("m", "right", "right", "up", "shift+left")
        # Two half inches to the right, a sixteenth back, half an inch up.
        assert 'N1 right 15/16", up 1/2".' in seat.said
        await seat.keys("enter")
        await seat.until(lambda: "u takes it back" in seat.said)
        moved = seat.record("N1")
        assert isinstance(moved, Opening)
        assert (moved.x, moved.y) == (inches(20.9375), inches(10.5))
        await seat.keys("w", "u")
        await seat.until(lambda: seat.record("N1") == WALL[3])
