"""The wall on the screen: shown, chosen from, and moved on, with real keys."""

from __future__ import annotations

from pathlib import Path

import pytest

from store.measure.errors import BadValue
from store.measure.length import INCH_NM, Length, inches, millimetres
from store.records.field import Ref
from store.records.wall import Opening, Reading, Wall
from tests.tui.seat import LOW, MIDDLE, WIDE, Seat, seat_at, small_job, stored
from tui.drawing.moving_drawing import MovingDrawing
from tui.screen.wall.wall_pane import WallPane
from tui.screen.wall.wall_windows import placed

RECORDS = (
    Wall(tag="W1", name="Long wall", first_stud=inches(16), bearing="no"),
    Reading(tag="D1", wall=Ref("W1"), what="width", value=inches(144)),
    Reading(tag="D2", wall=Ref("W1"), what="height", value=inches(96)),
    *(
        Opening(tag=f"N{number}", name=f"Hole {number}", wall=Ref("W1"), x=inches(x), y=inches(30), width=inches(20),
                height=inches(20), depth=inches(3))
        for number, x in ((1, 20), (2, 60))
    ),
)  # fmt: skip


def place(path: Path, tag: str) -> Length | None:
    """The place from the left of an opening, as it is in the file."""
    return stored(path).job.of(Opening)[tag].x


def drawing(seat: Seat) -> MovingDrawing:
    """The drawing."""
    return seat.job_screen.query_one(MovingDrawing)


async def to_the_wall(seat: Seat) -> None:
    """To the openings, and from the first of them to the drawing."""
    await seat.keys("3", "w")
    await seat.until(lambda: seat.app.focused is drawing(seat))


async def test_the_wall_is_above_the_list_where_there_is_room(tmp_path: Path) -> None:
    async with seat_at(small_job(tmp_path, RECORDS), MIDDLE) as seat:
        await seat.keys("3")
        await seat.until(lambda: bool(seat.job_screen.query(WallPane)) and "Hole 2" in seat.text)
        await seat.keys("down")
        await seat.until(lambda: drawing(seat).selected == "N2")


async def test_w_gives_the_screen_to_the_drawing_and_takes_it_back(tmp_path: Path) -> None:
    async with seat_at(small_job(tmp_path, RECORDS)) as seat:
        await to_the_wall(seat)
        assert "▸N1" in seat.text
        await seat.keys("right")
        await seat.until(lambda: drawing(seat).selected == "N2")
        assert "N2  Hole 2" in seat.said
        await seat.keys("w")
        await seat.until(lambda: seat.app.focused is seat.table)


async def test_a_move_is_kept_with_enter_and_taken_back_with_u(tmp_path: Path) -> None:
    path = small_job(tmp_path, RECORDS)
    async with seat_at(path) as seat:
        await to_the_wall(seat)
        await seat.keys("m", "right", "right", "shift+right")
        assert place(path, "N1") == inches(20)
        assert 'N1 right 1-1/16"' in seat.said
        await seat.keys("enter")
        await seat.until(lambda: place(path, "N1") == Length(20 * INCH_NM + 17 * INCH_NM // 16))
        await seat.keys("w", "u")
        await seat.until(lambda: place(path, "N1") == inches(20))


async def test_what_a_move_breaks_is_told_before_it_is_kept(tmp_path: Path) -> None:
    path = small_job(tmp_path, RECORDS)
    async with seat_at(path) as seat:
        await to_the_wall(seat)
        # N2 begins at 60 in, N1 ends at 40 in: 41 steps of half an inch and they overlap.
        await seat.keys("m", *["right"] * 41)
        assert "New 1: " in seat.said
        assert "overlap" in seat.said
        await seat.keys("escape")
        assert "Not moved" in seat.said
        assert place(path, "N1") == inches(20)


async def test_while_moving_b_snaps_beside_the_neighbour_and_m_to_the_middle(tmp_path: Path) -> None:
    path = small_job(tmp_path, RECORDS)
    async with seat_at(path) as seat:
        await to_the_wall(seat)
        await seat.keys("m", *["right"] * 35, "b", "enter")
        await seat.until(lambda: place(path, "N1") == inches(40))
        await seat.keys("m", "m", "enter")
        await seat.until(lambda: place(path, "N1") == inches(62))


def test_a_typed_place_is_two_lengths_or_one() -> None:
    one = RECORDS[-1]
    assert isinstance(one, Opening)
    for text, x, y in (
        ("3'; 10", inches(36), inches(10)),
        ("3', 10\"", inches(36), inches(10)),
        ("-; 1' 2", one.x, inches(14)),
        ("5'", inches(60), one.y),
    ):
        new = placed(one, text, False)
        assert (new.x, new.y) == (x, y), text
    for wrong in ("here; 3", "1; 2; 3"):
        with pytest.raises(BadValue):
            placed(one, wrong, False)
    assert placed(one, "1200; 800", True).x == millimetres(1200)


async def test_v_looks_from_above_and_back(tmp_path: Path) -> None:
    async with seat_at(small_job(tmp_path, RECORDS)) as seat:
        await to_the_wall(seat)
        await seat.keys("v")
        scene = drawing(seat).scene
        assert scene is not None
        assert scene.view == "plan"
        await seat.keys("v")
        scene = drawing(seat).scene
        assert scene is not None
        assert scene.view == "section"
        await seat.keys("v")
        scene = drawing(seat).scene
        assert scene is not None
        assert scene.view == "elevation"


async def test_a_drawing_that_goes_with_the_width_leaves_its_keys_to_the_list(tmp_path: Path) -> None:
    async with seat_at(small_job(tmp_path, RECORDS), WIDE, first="Openings") as seat:
        await seat.until(lambda: bool(seat.app.query(MovingDrawing)))
        seat.app.query_one(MovingDrawing).focus()
        await seat.until(lambda: isinstance(seat.app.focused, MovingDrawing))
        await seat.pilot.resize_terminal(*LOW)
        await seat.calm()
        assert seat.app.focused is seat.table
        await seat.keys("home", "down")
        assert seat.table.cursor_key == seat.rows()[1]
