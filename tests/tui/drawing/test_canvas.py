"""The cell grid: what joins up, what is to scale, and that no label ever stands on another."""

from __future__ import annotations

import unicodedata

from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from tests.rows import rows
from tui.drawing.canvas import POINT, Grid, cells_of, shorten
from tui.drawing.dots import Way
from tui.drawing.frame import Frame, Place

MM = 1_000_000
ARMS = {"UP": (0, -1), "DOWN": (0, 1), "LEFT": (-1, 0), "RIGHT": (1, 0)}


def drawn(*rects: tuple[int, int, int, int], heavy: tuple[int, int, int, int] | None = None) -> list[str]:
    grid = Grid(9, 5)
    for each in rects:
        grid.rect(*each, "edge")
    if heavy:
        grid.rect(*heavy, "edge", heavy=True)
    return [line.rstrip() for line in grid.lines()]


def test_a_rectangle() -> None:
    assert drawn((0, 0, 3, 2)) == ["┌──┐", "│  │", "└──┘", "", ""]


def test_shared_edges_join() -> None:
    assert drawn((0, 0, 4, 2), (4, 0, 8, 2), (0, 2, 8, 4)) == [
        "┌───┬───┐",
        "│   │   │",
        "├───┴───┤",
        "│       │",
        "└───────┘",
    ]


def test_crossing_edges_cross() -> None:
    assert drawn((0, 1, 8, 3), (3, 0, 5, 4)) == ["   ┌─┐", "┌──┼─┼──┐", "│  │ │  │", "└──┼─┼──┘", "   └─┘"]


def test_a_heavy_rectangle_joins_light_ones() -> None:
    assert drawn((0, 0, 8, 2), heavy=(4, 0, 8, 2)) == ["┌───┲━━━┓", "│   ┃   ┃", "└───┺━━━┛", "", ""]


def test_a_rectangle_smaller_than_a_cell_is_a_line_or_a_point() -> None:
    assert drawn((0, 0, 4, 0)) == ["╶───╴", "", "", "", ""]
    assert drawn((2, 1, 2, 3)) == ["", "  ╷", "  │", "  ╵", ""]
    assert drawn((2, 1, 2, 1)) == ["", f"  {POINT}", "", "", ""]


def test_looks_hold_until_another_line_joins() -> None:
    grid = Grid(7, 3)
    grid.rect(0, 0, 4, 2, "a", "dashed")
    assert grid.lines() == ["┌┄┄┄┐  ", "┆   ┆  ", "└┄┄┄┘  "]
    grid = Grid(7, 3)
    grid.rect(0, 0, 4, 2, "a", "round")
    grid.rect(4, 0, 6, 2, "a")
    assert grid.lines() == ["╭───┬─┐", "│   │ │", "╰───┴─┘"]


def test_what_lies_outside_is_cut_off_and_its_edges_run_on() -> None:
    grid = Grid(4, 3)
    grid.rect(-5, -5, 2, 1, "a")
    grid.rect(9, 9, 12, 12, "a")
    assert grid.lines() == ["  │ ", "──┘ ", "    "]


def test_every_glyph_has_the_arms_that_its_neighbours_ask_for() -> None:
    grid = Grid(30, 12)
    for each in ((0, 0, 20, 8), (12, 0, 29, 8), (3, 5, 25, 8), (12, 3, 12, 9)):
        grid.rect(*each, "a")
    grid.rect(5, 2, 12, 11, "a", heavy=True)
    rows = grid.lines()
    names = [[unicodedata.name(sign) for sign in row] for row in rows]
    for row, column in ((r, c) for r in range(12) for c in range(30)):
        if rows[row][column] == " ":
            continue
        for arm, (right, down) in ARMS.items():
            near_row, near = row + down, column + right
            inside = 0 <= near_row < 12 and 0 <= near < 30
            back = next(name for name, way in ARMS.items() if way == (-right, -down))
            other = inside and rows[near_row][near] != " " and _has(names[near_row][near], back)
            assert _has(names[row][column], arm) == other, (row, column, arm)


def _has(name: str, arm: str) -> bool:
    both = "VERTICAL" if arm in ("UP", "DOWN") else "HORIZONTAL"
    return arm in name.split() or both in name.split()


def test_a_slanted_line_is_dots_in_every_column_it_crosses() -> None:
    grid = Grid(10, 5)
    grid.line((0, 19), (19, 0), "cable")
    rows = grid.lines()
    assert all(any("\u2800" < row[column] <= "\u28ff" for row in rows) for column in range(10))
    assert rows[0][9] != " "
    assert rows[4][0] != " "


def test_a_line_far_outside_costs_nothing_and_draws_what_crosses() -> None:
    grid = Grid(10, 5)
    grid.line((-(10**7), 10), (10**7, 10), "cable")
    assert grid.lines()[2] == "⠤" * 10
    grid.line((5, 10**7), (5, 10**7 + 10), "cable")
    assert grid.owner(2, 0) == ""


def test_text_is_in_front_of_dots_and_dots_in_front_of_edges() -> None:
    grid = Grid(5, 1)
    grid.edge(0, 0, 4, 0, "edge")
    grid.line((4, 1), (5, 1), "cable", "K1")
    assert grid.lines() == ["╶─⠒─╴"]
    assert list(grid.runs(0)) == [("╶─", "edge"), ("⠒", "cable"), ("─╴", "edge")]
    assert grid.put(2, 0, "x", "text", "B1")
    assert grid.lines() == ["╶─x─╴"]
    assert grid.owner(2, 0) == "B1"


wall = st.tuples(st.integers(-50, 50), st.integers(-50, 50), st.integers(1, 9000), st.integers(1, 4000))
size = st.tuples(st.integers(2, 200), st.integers(2, 60))


@given(wall, size, st.lists(st.tuples(st.integers(0, 9000), st.integers(0, 4000)), min_size=2, max_size=2))
def test_the_scale_is_true_to_a_cell_both_ways(
    area: tuple[int, int, int, int], cells: tuple[int, int], points: list[tuple[int, int]]
) -> None:
    left, bottom, width, height = (each * MM for each in area)
    frame = Frame.fit((left, bottom, left + width, bottom + height), *cells)
    (x1, y1), (x2, y2) = ((x * MM, y * MM) for x, y in points)
    assert abs(frame.column(x2) - frame.column(x1) - (x2 - x1) / frame.column_nm) <= 1
    assert abs(frame.row(y1) - frame.row(y2) - (y2 - y1) / (2 * frame.column_nm)) <= 1


@given(wall, size)
def test_a_fitted_frame_shows_the_whole_and_wastes_nothing(
    area: tuple[int, int, int, int], cells: tuple[int, int]
) -> None:
    left, bottom, width, height = (each * MM for each in area)
    frame = Frame.fit((left, bottom, left + width, bottom + height), *cells)
    columns = frame.column(left), frame.column(left + width)
    rows = frame.row(bottom + height), frame.row(bottom)
    assert 0 <= columns[0] <= columns[1] < cells[0]
    assert 0 <= rows[0] <= rows[1] < cells[1]
    assert columns[1] - columns[0] >= cells[0] - 2 or rows[1] - rows[0] >= cells[1] - 2


@given(wall, size, st.integers(0, 9000), st.integers(0, 4000))
def test_a_dot_lies_in_the_cell_of_its_place(
    area: tuple[int, int, int, int], cells: tuple[int, int], x: int, y: int
) -> None:
    left, bottom, width, height = (each * MM for each in area)
    frame = Frame.fit((left, bottom, left + width, bottom + height), *cells)
    across, down = frame.dot((x * MM, y * MM))
    assert (across >> 1, down >> 2) == (frame.column(x * MM), frame.row(y * MM))


def test_the_middle_of_a_cell_is_in_it() -> None:
    frame = Frame.fit((0, 0, 3600 * MM, 2400 * MM), 80, 23, 3.0, (1000 * MM, 900 * MM))
    assert [(frame.column(x), frame.row(y)) for x, y in (frame.world(7, 4), frame.world(79, 22))] == [(7, 4), (79, 22)]


# --- labels ---

words = st.text(
    alphabet=st.sampled_from("abc XYZ123漢字é\u0301👍🏽\u200d\u200b\x1b\n[]/…ß"),
    max_size=24,
)
spot = st.tuples(st.integers(-3, 43), st.integers(-2, 11), st.sampled_from([-1, 0, 1]), st.integers(0, 30))


@given(st.lists(st.tuples(words, st.lists(spot, min_size=1, max_size=3), st.booleans()), max_size=14))
def test_labels_never_stand_on_one_another(labels: list[tuple[str, list[tuple[int, int, int, int]], bool]]) -> None:
    grid = Grid(40, 10)
    grid.rect(3, 1, 30, 8, "edge")
    put = []
    for number, (text, places, over) in enumerate(labels):
        tag = f"N{number}"
        shown = grid.label(tag, (text,), [Place(*each, over=over) for each in places], "text", tag)
        if shown:
            assert shown.startswith(tag)
            put.append((tag, "".join(cells_of(shown))))
    rows = grid.lines()
    assert all(cell_len(row) == 40 for row in rows)
    for tag, shown in put:
        # Every label that was put is still there whole, in cells that are its own.
        own = [[grid.owner(column, row) == tag for column in range(40)] for row in range(10)]
        assert sum(map(sum, own)) == len(cells_of(shown))
        assert any(shown in row for row in rows)


def test_a_label_is_shortened_then_cut_to_its_tag_then_dropped() -> None:
    def shown(room: int) -> str:
        return Grid(40, 1).label("N12", ("Fireplace",), [Place(0, 0, -1, room)], "text")

    assert [shown(room) for room in (13, 12, 7, 6, 3, 2)] == [
        "N12 Fireplace",
        "N12 Firepla…",
        "N12 Fi…",
        "N12",
        "N12",
        "",
    ]


def test_the_first_wording_that_fits_is_taken() -> None:
    place = [Place(0, 0, -1, 10)]
    assert Grid(40, 1).label("N1", ("far too long to fit", "short"), place, "text") == "N1 short"


def test_a_blank_stays_between_two_labels_but_not_beside_ones_own_sign() -> None:
    grid = Grid(20, 1)
    assert grid.put(0, 0, "◉", "sign", "B1")
    assert not grid.put(1, 0, "B2", "text", "B2")
    assert grid.put(1, 0, "B1", "text", "B1")
    assert not grid.put(3, 0, "B2", "text", "B2")
    assert grid.put(4, 0, "B2", "text", "B2")


def test_a_label_that_may_not_cross_lines_keeps_off_them() -> None:
    grid = Grid(20, 3)
    grid.edge(0, 1, 19, 1, "edge")
    places = [Place(0, 1, -1, 10), Place(0, 2, -1, 10)]
    assert grid.label("N1", (), places, "text") == "N1"
    assert grid.lines()[2].startswith("N1")


def test_a_wide_character_takes_two_cells_and_is_never_halved() -> None:
    assert cells_of("漢a") == ("漢", "", "a")
    grid = Grid(6, 1)
    assert grid.put(1, 0, "漢字", "text")
    assert grid.lines() == [" 漢字 "]
    assert not Grid(3, 1).put(1, 0, "漢字", "text")
    assert shorten("漢字漢字", 6) == "漢字…"
    assert shorten("漢字漢字", 5) == "漢字…"
    assert shorten("漢字漢字", 4) == "漢…"


@given(st.text(max_size=40), st.integers(0, 20))
def test_no_text_is_wider_than_its_cells_or_can_steer_a_terminal(text: str, room: int) -> None:
    cells = cells_of(text)
    assert cell_len("".join(cells)) == len(cells)
    assert not any(unicodedata.category(sign) == "Cc" for cell in cells for sign in cell)
    assert len(cells_of(shorten(text, room))) <= room


@rows("shape", [(0, 0), (0, 5), (5, 0), (-3, 4)])
def test_a_grid_without_room_draws_nothing(shape: tuple[int, int]) -> None:
    grid = Grid(*shape)
    grid.rect(0, 0, 3, 3, "a")
    grid.line((0, 0), (9, 9), "a")
    assert not grid.put(0, 0, "x", "a")
    assert "".join(grid.lines()) == ""


@given(st.data())
def test_dots_of_many_things_at_once_are_those_of_each_after_the_other(data: st.DataObject) -> None:
    cells = st.dictionaries(st.integers(0, 11), st.integers(1, 255), max_size=5)
    many = data.draw(
        st.lists(st.tuples(cells, st.sampled_from("xyz"), st.sampled_from(["K1", "K2", "R1"])), max_size=6)
    )
    one, other = Grid(4, 3), Grid(4, 3)
    for grid in (one, other):
        grid.rect(0, 0, 2, 1, "edge", owner="K1")
        grid.dots({5: 1}, "first", "K2")
    for each in many:
        one.dots(*each)
    other.dots_of([(Way.of(cells), style, owner) for cells, style, owner in many])
    for grid in (one, other):
        grid.label("K1", ("words",), [Place(0, 1, -1, 4, over=True), Place(0, 2, -1, 4)], "label", "K1")
    assert vars(one) == vars(other)
