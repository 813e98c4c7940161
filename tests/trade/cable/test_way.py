"""The shortest way round what is in the wall, against another library's search over the same lines."""

from __future__ import annotations

import itertools
from typing import Any

import networkx
from hypothesis import given
from hypothesis import strategies as st

from store.trade.cable.way import turns_of, way_round
from store.trade.measured.plane import Rect

WALL = Rect(0, 0, 100, 60)


def length(points: Any) -> int:
    return sum(abs(a[0] - b[0]) + abs(a[1] - b[1]) for a, b in itertools.pairwise(points))


def test_by_hand() -> None:
    """A window from 30 to 50 across and 10 to 40 up."""
    window = Rect(30, 10, 20, 30)
    assert way_round((10, 20), (80, 20), (), WALL) == ((10, 20), (80, 20))
    assert way_round((10, 20), (80, 20), (window,), WALL) == ((10, 20), (10, 10), (80, 10), (80, 20))
    assert length(way_round((10, 20), (80, 20), (window,), WALL)) == 70 + 2 * 10
    assert length(way_round((10, 30), (80, 30), (window,), WALL)) == 70 + 2 * 10, "over it is as far as under it here"
    assert way_round((10, 10), (80, 10), (window,), WALL) == ((10, 10), (80, 10)), "along its edge"
    assert way_round((10, 20), (40, 20), (window,), WALL) is None, "an end inside of it"


def test_a_wall_across_the_whole_height_leaves_no_way() -> None:
    assert way_round((10, 20), (80, 20), (Rect(30, -1, 20, 62),), WALL) is None
    assert way_round((10, 20), (80, 20), (Rect(30, 0, 20, 59),), WALL) is not None


def test_the_fewest_turns_of_ways_as_long() -> None:
    found = way_round((0, 0), (50, 50), (Rect(10, 10, 5, 5), Rect(20, 20, 5, 5)), WALL)
    assert found is not None
    assert (length(found), turns_of(found)) == (100, 1)


rects = st.builds(Rect, st.integers(0, 36), st.integers(0, 20), st.integers(1, 16), st.integers(1, 16))
points = st.tuples(st.integers(0, 40), st.integers(0, 24))


@given(points, points, st.lists(rects, max_size=6))
def test_as_short_as_another_search_finds_over_every_place(start: Any, end: Any, blocked: list[Rect]) -> None:
    """The oracle knows nothing of edges and lines: it walks a grid of every whole place."""
    found = way_round(start, end, blocked, Rect(0, 0, 40, 24))
    grid = networkx.grid_2d_graph(41, 25)
    for rect in blocked:
        low, high = range(rect.x_nm, rect.right_nm), range(rect.y_nm, rect.top_nm)
        inner = ((x, y) for x in range(rect.x_nm + 1, rect.right_nm) for y in range(rect.y_nm + 1, rect.top_nm))
        grid.remove_nodes_from(list(inner))
        # A stretch through a rectangle one wide has no place of its own inside: the step across is taken out.
        if rect.width_nm == 1:
            grid.remove_edges_from([((rect.x_nm, y), (rect.right_nm, y)) for y in high if y > rect.y_nm])
        if rect.height_nm == 1:
            grid.remove_edges_from([((x, rect.y_nm), (x, rect.top_nm)) for x in low if x > rect.x_nm])
    if start not in grid or end not in grid or not networkx.has_path(grid, start, end):
        assert found is None
        return
    assert found is not None
    assert found[0] == start
    assert found[-1] == end
    assert length(found) == networkx.shortest_path_length(grid, start, end)
    assert all(a[0] == b[0] or a[1] == b[1] for a, b in itertools.pairwise(found))
