"""The wall drawing: zoom, pan, layers, mouse, hostile names and a full wall."""

from __future__ import annotations

import unicodedata
from itertools import combinations
from typing import Any

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len
from textual import events
from textual.app import App, ComposeResult

from store.records.access import Photo
from store.records.wall import BuildOut, Zone
from store.records.wiring import Box, Cable
from store.rules.drawing.elevation import LAYERS, Scene, kin, scene
from tests.rules.drawing.test_elevation import MEDIA, READINGS, WALL, at, job_of, make, place
from tests.tries import tries
from tests.tui.stand import JOB, SCENE, Stand, press
from tui.drawing.frame import Frame
from tui.drawing.wall_drawing import WallDrawing
from tui.drawing.wall_picture import draw, nearest
from tui.screen.themes import dress


async def test_zoom_in_out_and_whole() -> None:
    app = Stand()
    async with app.run_test(size=(80, 24)) as pilot:
        whole = app.lines()
        app.drawing.show(SCENE, "E3")
        await press(pilot, "plus", "plus", "plus", "plus", "plus", "plus")
        picture = app.drawing.picture()
        receiver = SCENE.get("E3")
        assert picture is not None
        assert receiver is not None
        assert app.drawing.zoom == pytest.approx(1.25**6)
        column, row = picture.frame.column(receiver.centre[0]), picture.frame.row(receiver.centre[1])
        assert (abs(column - 40) <= 1, abs(row - 11) <= 1) == (True, True)
        assert any('▸E3 Receiver · 17" x 6"' in line for line in app.lines())
        assert "×3.81" in app.lines()[-1]
        await press(pilot, *["minus"] * 6)
        assert app.drawing.zoom == 1.0
        app.drawing.show(SCENE)
        assert app.lines() == whole
        await press(pilot, "plus", "plus", "0")
        assert app.lines() == whole


async def test_zoom_has_an_end() -> None:
    app = Stand()
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, *["plus"] * 20)
        nearest_zoom = app.drawing.zoom
        await press(pilot, "plus")
        assert app.drawing.zoom == nearest_zoom == 16
        await press(pilot, *["minus"] * 30)
        assert app.drawing.zoom == 1


async def test_shift_and_an_arrow_moves_over_and_stops_at_the_edge() -> None:
    app = Stand()
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "plus", "plus", "plus")
        picture = app.drawing.picture()
        assert picture is not None
        before = picture.frame.left_nm
        await press(pilot, "shift+right")
        picture = app.drawing.picture()
        assert picture is not None
        assert picture.frame.left_nm > before
        assert app.heard == []
        await press(pilot, *["shift+right"] * 30)
        edge = app.lines()
        await press(pilot, "shift+right")
        assert app.lines() == edge
        assert any("│" in line for line in edge)


async def test_magnified_an_arrow_with_nothing_beyond_moves_over() -> None:
    app = Stand()
    async with app.run_test(size=(80, 24)) as pilot:
        app.drawing.show(SCENE, "O2")
        assert nearest(SCENE.shapes, "O2", 1, 0) == ""
        before = app.lines()
        await press(pilot, "right")
        assert app.lines() == before
        await press(pilot, "plus", "plus")
        near = app.lines()
        await press(pilot, "right")
        assert app.lines() != near
        assert app.heard == []


async def test_a_thing_chosen_out_of_sight_is_brought_into_sight() -> None:
    app = Stand()
    async with app.run_test(size=(80, 24)) as pilot:
        app.drawing.show(SCENE, "O1")
        await press(pilot, *["plus"] * 8)
        app.drawing.show(SCENE, "O2")
        assert any("▸O2" in line for line in app.lines()[:-1])


async def test_a_layer_is_hidden_and_shown() -> None:
    stone = make(Zone, "Z1", name="stone", **place("10", "70", "8", "8"), thickness=at("2"))
    soffit = make(BuildOut, "U1", name="soffit", **place("124", "60", "14", "14"), depth=at("6"))
    job = job_of(*MEDIA, make(Photo, "F1", file="a.jpg", **place("1'", "7'")), stone, soffit)
    app = Stand(job)
    async with app.run_test(size=(140, 44)):
        whole = app.lines()
        for layer in LAYERS:
            app.drawing.action_layer(layer)
            hidden = app.lines()
            assert hidden[:-1] != whole[:-1]
            assert f"hidden: {layer}" in hidden[-1]
            tags = [each.tag for each in scene(job, "W1").shapes if each.layer == layer and each.tag]
            assert tags or layer == "studs"
            assert not [tag for tag in tags if any(tag in line for line in hidden[:-1])]
            app.drawing.action_layer(layer)
            assert app.lines() == whole
        app.drawing.show(scene(job, "W1"), "N2")
        assert app.drawing.in_sight == "N2"
        app.drawing.action_layer("openings")
        assert app.drawing.in_sight == "", "no key acts on what is hidden"
        assert "N2" not in "".join(app.lines())


async def test_another_wall_is_shown_whole() -> None:
    app = Stand()
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "plus", "plus")
        app.drawing.show(SCENE, "N1")
        assert app.drawing.zoom > 1
        app.drawing.show(Scene("W2", "other", SCENE.width, SCENE.height, ()), "")
        assert app.drawing.zoom == 1


# --- the mouse ---


async def test_a_click_selects_and_a_second_one_opens() -> None:
    app = Stand()
    async with app.run_test(size=(80, 24)) as pilot:
        rows = app.lines()
        row = next(index for index, line in enumerate(rows) if "E2 Fireplace" in line)
        at = rows[row].index("E2") + 3, row
        await pilot.click("#drawing", offset=at, times=2)
        assert app.heard == [("chosen", "E2"), ("opened", "E2")]


async def test_a_click_finds_the_smallest_thing_and_nothing_beside_the_wall() -> None:
    app = Stand()
    async with app.run_test(size=(80, 24)) as pilot:
        picture = app.drawing.picture()
        assert picture is not None
        box, frame = SCENE.get("B3"), picture.frame
        assert box is not None
        await pilot.click("#drawing", offset=(frame.column(box.centre[0]), frame.row(box.centre[1])))
        await pilot.click("#drawing", offset=(0, 0))
        await pilot.click("#drawing", offset=(3, 23))
        assert app.heard == [("chosen", "B3")]


WHEEL = (40, 10, 0, 0, 0, False, False, False)
"""Place, movement, button, shift, meta, ctrl."""


async def test_the_wheel_zooms() -> None:
    app = Stand()
    async with app.run_test(size=(80, 24)) as pilot:
        app.drawing.post_message(events.MouseScrollUp(app.drawing, *WHEEL))
        await pilot.pause()
        assert app.drawing.zoom > 1
        app.drawing.post_message(events.MouseScrollDown(app.drawing, *WHEEL))
        await pilot.pause()
        assert app.drawing.zoom == 1


# --- manners ---


async def test_the_same_picture_is_drawn_once() -> None:
    app = Stand()
    async with app.run_test(size=(80, 24)) as pilot:
        first = app.drawing.picture()
        app.lines()
        assert app.drawing.picture() is first
        await press(pilot, "plus")
        assert app.drawing.picture() is not first


async def test_without_a_scene_it_is_blank() -> None:
    class Bare(App[None]):
        def __init__(self) -> None:
            super().__init__()
            dress(self, "dark")

        def compose(self) -> ComposeResult:
            yield WallDrawing()

    async with Bare().run_test(size=(30, 6)) as pilot:
        drawing = pilot.app.screen.query_one(WallDrawing)
        drawing.focus()
        await press(pilot, "plus", "shift+left", "right", "enter", "0")
        assert "".join(segment.text for row in range(6) for segment in drawing.render_line(row)).strip() == ""


async def test_selection_shows_without_colour(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    app = Stand(theme="no-colors")
    async with app.run_test(size=(80, 24)):
        app.drawing.show(SCENE, "N2", kin(JOB, "N2"))
        row = next(n for n, line in enumerate(app.lines()) if "▸N2" in line)
        styles = [seg.style for seg in app.drawing.render_line(row) if "▸N2" in seg.text]
        assert styles[0] is not None
        assert styles[0].reverse
        assert styles[0].bold


HOSTILE = [
    "[/]",
    "a[@click=app.quit]CLK[/]b",
    "\x1b[31mred",
    "\x1b]52;c;b3duZWQ=\x1b\\",
    "\x9b2J",
    "\ta\r\nb\x08\x07",
    "\u202eolleh",
]


@pytest.mark.parametrize("text", HOSTILE)
async def test_hostile_text_is_shown_and_never_obeyed(text: str) -> None:
    named = [renamed(each, text) for each in MEDIA]
    app = Stand(job_of(*named))
    async with app.run_test(size=(140, 44)):
        for tag in ("", "N1", "E2", "B1", "K2", "R1", "A1"):
            app.drawing.show(scene(app.job, "W1"), tag, kin(app.job, tag))
            rows = app.lines()
            assert all(cell_len(row) == 140 for row in rows)
            assert not any(unicodedata.category(sign) in ("Cc", "Cf", "Cs") for row in rows for sign in row)


def renamed(record: Any, text: str) -> Any:
    """The record with the text in its name."""
    return msgspec.structs.replace(record, name=text) if hasattr(record, "name") else record


@tries(20)
@given(
    boxes=st.lists(
        st.tuples(st.integers(0, 143), st.integers(0, 95), st.text(max_size=12)),
        min_size=1,
        max_size=14,
        unique_by=lambda each: (each[0] // 6, each[1] // 12),
    ),
    size=st.sampled_from([(80, 23), (140, 43), (40, 10), (5, 3)]),
    zoom=st.sampled_from([1.0, 3.0, 16.0]),
    selected=st.sampled_from(["", "B0", "K0"]),
)
def test_however_full_a_wall_is_what_is_selected_is_seen(
    boxes: list[tuple[int, int, str]], size: tuple[int, int], zoom: float, selected: str
) -> None:
    made = [
        make(Box, f"B{n}", name=name, what="switch", **place(str(x), str(y))) for n, (x, y, name) in enumerate(boxes)
    ]
    wired = [
        make(Cable, f"K{n}", type="cat6", start=a.tag, end=b.tag, route="cabinet")
        for n, (a, b) in enumerate(combinations(made, 2))
        if n < 12
    ]
    one = scene(job_of(WALL, *READINGS, *made, *wired), "W1")
    rows = draw(one, Frame.fit(one.extent, *size, zoom), selected).grid.lines()
    assert [cell_len(row) for row in rows] == [size[0]] * size[1]
    if one.get(selected) and zoom == 1.0 and size[0] >= 80:
        assert f"▸{selected}" in "".join(rows)
