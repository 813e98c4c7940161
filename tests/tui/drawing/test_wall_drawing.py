"""The wall drawing, with real keys and a real mouse."""

from __future__ import annotations

import pytest
from rich.cells import cell_len

from store.records.wiring import Box, Cable
from store.rules.drawing.elevation import Shape, kin, scene
from tests.rules.drawing.test_elevation import MEDIA, READINGS, WALL, job_of, make, place
from tests.tui.stand import JOB, SCENE, SIZES, WAYS, Stand, press
from tui.drawing.frame import Frame
from tui.drawing.wall_drawing import PLAIN_DRAWING
from tui.drawing.wall_picture import NEW_SIGNS, OLD_SIGNS, about, draw, nearest
from tui.shared.signs import no_colors_wanted, plain_wanted


@pytest.mark.parametrize("size", SIZES)
def test_every_thing_of_the_wall_is_named(size: tuple[int, int]) -> None:
    picture = draw(SCENE, Frame.fit(SCENE.extent, *size))
    text = "\n".join(picture.grid.lines())
    assert not [each.tag for each in SCENE.shapes if each.tag and each.tag not in text]
    assert "W1 Living room" in text


@pytest.mark.parametrize("size", SIZES)
def test_what_is_selected_and_its_kin_carry_a_sign(size: tuple[int, int]) -> None:
    for shape in SCENE.shapes:
        if not shape.tag:
            continue
        belongs = kin(JOB, shape.tag)
        text = "\n".join(draw(SCENE, Frame.fit(SCENE.extent, *size), shape.tag, belongs).grid.lines())
        assert f"▸{shape.tag}" in text
        shown = {each.tag for each in SCENE.shapes}
        assert not [tag for tag in belongs & shown if f"+{tag}" not in text], shape.tag


def test_the_selected_outline_is_heavy() -> None:
    frame = Frame.fit(SCENE.extent, 80, 23)
    assert "┏" not in "".join(draw(SCENE, frame).grid.lines())
    assert {"┏", "┓", "┗", "┛"} <= set("".join(draw(SCENE, frame, "N2").grid.lines()))


def test_a_box_that_was_there_is_hollow_and_kinds_differ() -> None:
    signs = [*NEW_SIGNS.values()]
    assert len(set(signs)) == len(signs)
    assert not set(signs) & set(OLD_SIGNS.values())
    text = "".join(draw(SCENE, Frame.fit(SCENE.extent, 140, 43)).grid.lines())
    assert NEW_SIGNS["receptacle"] in text
    assert OLD_SIGNS["receptacle"] in text


def test_openings_are_drawn_to_scale() -> None:
    frame = Frame.fit(SCENE.extent, 140, 43)
    rows = draw(SCENE, frame, hidden=frozenset({"cables", "raceways", "equipment", "boxes", "studs"})).grid.lines()
    recess = SCENE.get("N1")
    assert recess is not None
    left, bottom, right, top = recess.extent
    assert rows[frame.row(top)][frame.column(left)] == "┌"
    assert rows[frame.row(bottom)][frame.column(right)] == "┘"
    across, down = frame.column(right) - frame.column(left), frame.row(bottom) - frame.row(top)
    assert abs(across / (2 * down) - (right - left) / (top - bottom)) < 0.05


def test_two_boxes_in_one_cell_are_both_seen() -> None:
    job = job_of(WALL, *READINGS, *(make(Box, f"B{n}", what="receptacle", **place("60", "48")) for n in (1, 2)))
    one = scene(job, "W1")
    assert "".join(draw(one, Frame.fit(one.extent, 80, 23)).grid.lines()).count(NEW_SIGNS["receptacle"]) == 2


def test_a_bare_wall_says_what_to_do() -> None:
    bare = scene(job_of(WALL), "W1")
    assert "Enter its readings" in " ".join(draw(bare, Frame.fit(bare.extent, 80, 23)).grid.lines())


@pytest.mark.parametrize("size", SIZES)
def test_every_thing_can_be_reached_with_the_arrows(size: tuple[int, int]) -> None:
    tags = {each.tag for each in SCENE.shapes if each.tag}
    reached, queue = {"N1"}, ["N1"]
    while queue:
        tag = queue.pop()
        for way in WAYS.values():
            found = nearest(SCENE.shapes, tag, *way)
            if found and found not in reached:
                reached.add(found)
                queue.append(found)
    assert reached == tags


def test_things_with_one_middle_are_told_apart_by_the_arrows() -> None:
    job = job_of(WALL, *READINGS, *(make(Box, f"B{n}", what="switch", **place("60", "48")) for n in (1, 2, 3)))
    shapes: tuple[Shape, ...] = scene(job, "W1").shapes
    assert nearest(shapes, "B1", 1, 0) in ("B2", "B3")
    assert nearest(shapes, "B3", -1, 0) in ("B1", "B2")
    assert nearest(shapes, "B1", -1, 0) == ""


def test_a_thing_that_is_not_drawn_says_why() -> None:
    one = scene(job_of(*MEDIA, make(Cable, "K9", type="cat6", start="B1")), "W1")
    assert about(one, "K9") == "K9 cat6 · not placed: its “to” end not entered"
    assert about(one, "X1") == ""


# --- keys ---


@pytest.mark.parametrize("size", SIZES)
async def test_it_fits_the_screen(size: tuple[int, int]) -> None:
    app = Stand()
    async with app.run_test(size=size):
        rows = app.lines()
        assert [cell_len(row) for row in rows] == [size[0]] * size[1]
        assert "W1 Living room" in rows[-1]
        assert any("N2 Fireplace" in row for row in rows)


async def test_an_arrow_selects_the_nearest_thing_that_way_and_enter_opens_it() -> None:
    app = Stand()
    async with app.run_test(size=(80, 24)) as pilot:
        app.drawing.show(SCENE, "N2", kin(JOB, "N2"))
        await press(pilot, "right", "enter")
        assert app.heard[0][0] == "chosen"
        tag = app.heard[0][1]
        assert app.heard[1] == ("opened", tag)
        assert app.drawing.selected == tag == nearest(SCENE.shapes, "N2", 1, 0)
        assert app.lines()[-1].startswith(f"▸{tag} ")


async def test_enter_with_nothing_selected_opens_nothing() -> None:
    app = Stand()
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "enter")
        assert app.heard == []


async def test_an_arrow_without_selection_starts_near_the_middle() -> None:
    app = Stand()
    async with app.run_test(size=(80, 24)) as pilot:
        await press(pilot, "down")
        assert app.heard[0][0] == "chosen"
        assert SCENE.get(app.heard[0][1]) is not None


async def test_the_status_line_tells_size_and_place() -> None:
    app = Stand()
    async with app.run_test(size=(140, 44)):
        app.drawing.show(SCENE, "N2")
        status = app.lines()[-1]
        assert "▸N2 Fireplace" in status
        assert '52" x 20"' in status
        assert "3'-10\" from left, 1'-2\" off the floor" in status


@pytest.mark.parametrize("size", SIZES)
def test_no_label_lies_on_a_line_of_another_thing(size: tuple[int, int]) -> None:
    signs = {*NEW_SIGNS.values(), *OLD_SIGNS.values()}
    for selected in ("", "N1", "K1", "B1"):
        grid = draw(SCENE, Frame.fit(SCENE.extent, *size), selected, kin(JOB, selected)).grid
        crossed = {
            (grid._owners[at], whose)
            for at, whose in grid._lines.items()
            if (text := grid._text[at]) and text not in signs and whose not in (grid._owners[at] or "W1", "")
        }
        assert crossed == set(), "a box stands on its cables; a name on nothing but its own"


def test_in_plain_signs_nothing_is_left_that_such_a_terminal_has_not() -> None:
    rows = draw(SCENE, Frame.fit(SCENE.extent, 100, 30), "N2", kin(JOB, "N2")).grid.lines()
    text = "".join(rows).translate(PLAIN_DRAWING)
    assert {each for each in text if not each.isascii()} <= set("─│┌┐└┘├┤┬┴┼═║╔╗╚╝╠╣╦╩╬░×·")
    assert len(text) == len("".join(rows))
    assert "╔" in text, "what is selected has double lines"
    assert "R" in text
    assert no_colors_wanted({"TERM": "xterm", "NO_COLOR": ""})
    assert no_colors_wanted({"TERM": "dumb"})
    assert not no_colors_wanted({"TERM": "dumb", "COLORTERM": "truecolor"})
    assert not no_colors_wanted({"TERM": "linux"})
    assert plain_wanted({"TERM": "linux"})
    assert not plain_wanted({"TERM": "xterm-256color"})
    assert plain_wanted({"TERM": "xterm", "STUDBOOK_SIGNS": "plain"})
    assert not plain_wanted({"TERM": "linux", "STUDBOOK_SIGNS": "all"})
