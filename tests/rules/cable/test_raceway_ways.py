"""Ways of raceways round what is there, and ways out over build-outs: by hand, and against another search."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import networkx
from hypothesis import example, given
from hypothesis import strategies as st

from store.measure.length import INCH_NM
from store.records.equipment import Equipment
from store.records.wall import BuildOut, Obstacle, Opening
from store.records.whole import Job
from store.records.wiring import Raceway
from store.rules.cable.courses import bends_of, raceway_course, raceway_length
from store.rules.cable.crossing_rules import cable_through_hole, raceway_through_hole
from store.rules.cable.place_rules import raceway_across_heater
from store.rules.cable.raceway_rules import raceway_hole_large
from store.rules.cable.raceway_ways import raceway_way_words, raceway_ways
from store.rules.cable.raceways import insides
from store.rules.cable.routes import routes
from store.rules.cable.ways import ways_round
from store.rules.core.checks import rough_in
from tests.jobs.cable_jobs import at, box, cable, job_of, make, plain, put, told, wall
from tests.rows import rows
from tests.tries import tries

CLEAR_IN, PLATE_IN = 3, 3


def raceway(**more: Any) -> Raceway:
    """1 in ENT, 1.315 in thick: half of it, up to the next quarter of an inch, is 3/4 in."""
    return make(Raceway, "R1", start="B1", end="B2", **{"size": "1", **more})


def hole(tag: str, x: float, y: float, width: float, height: float, what: Any = "window") -> Obstacle:
    sizes = {"x": x, "y": y, "width": width, "height": height}
    return make(Obstacle, tag, wall="W1", what=what, **{key: f"{each:g}" for key, each in sizes.items()})


def test_round_a_window_by_hand() -> None:
    """B1 at 24 / 12, B2 at 96 / 60 in; the window 48 to 72 across and 6 to 78 up, kept 3-3/4 in clear of.

    Over it, at 81-3/4 in: 69-3/4 up, 72 across, 21-3/4 down: 163-1/2 in, and two square turns. It was 120.
    """
    job = plain(raceway(), hole("O1", 48, 6, 24, 72))
    led = raceway_ways(job)["R1"]
    assert led.raceway.points == ("W1 2'-0\"/6'-9 3/4\"", "W1 8'-0\"/6'-9 3/4\"")
    assert (led.course.length / INCH_NM, led.longer_nm / INCH_NM, led.course.turned) == (163.5, 43.5, 180)
    assert raceway_way_words(job, led).endswith("13'-7 1/2\", 3'-7 1/2\" longer, 180° of bends")
    finding = next(iter(raceway_through_hole(job)))
    assert finding.do.startswith("Run it by W1 2'-0\"/6'-9 3/4\"")
    assert not told(raceway_through_hole, put(job, led.raceway))
    assert "R1" not in raceway_ways(put(job, led.raceway))


def test_over_the_top_where_the_wall_is_shut_and_round_a_heater_with_its_clearances() -> None:
    door = plain(raceway(), hole("O1", 48, 0, 24, 96, "door"))
    over = raceway_ways(door)["R1"]
    # 84 up, 72 across, 36 down by the top; 12 down, 72 across, 60 up by the floor.
    assert (over.raceway.route, over.course.length / INCH_NM) == ("down and under", 144)
    assert over.course.turned == 180
    top = raceway(route="up and over")
    assert (raceway_length(door, top), bends_of(door, top)) == (192 * INCH_NM, 180)
    assert not told(raceway_through_hole, put(door, top)), "above the wall nothing is in its way"
    assert insides(put(door, top))["R1"].studs == 0
    # A fireplace 36 to 60 across and 36 to 66 up, with 18 in above it and 6 in beside: the level run at 60 meets it.
    niche = make(
        Opening, "N1", name="Fire", wall="W1", x="3'", y="3'", width="2'", height="30", depth="12", use="other"
    )
    fire = make(Equipment, "E1", name="Fire", what="fireplace", heats=True, opening="N1", width="2'", height="30",
                clear_top=at("18"), clear_left=at("6"), clear_right=at("6"), clear_bottom=at("0"))  # fmt: skip
    hot = plain(raceway(), niche, fire)
    assert [each[0] for each in told(raceway_across_heater, hot)] == ["raceway_across_heater"]
    led = raceway_ways(hot)["R1"]
    assert led.course.length == 120 * INCH_NM, "level below it, then up"
    assert not told(raceway_across_heater, put(hot, led.raceway))


def test_a_raceway_too_thick_for_the_studs_goes_where_none_is_bored() -> None:
    job = plain(raceway(size="2"))
    assert told(raceway_hole_large, job)
    led = raceway_ways(job)["R1"]
    assert led.raceway.route == "down and under"
    assert not told(raceway_hole_large, put(job, led.raceway))
    assert "under the floor: 12'-0\", 2'-0\" longer, 180° of bends" in next(iter(raceway_hole_large(job))).do
    # Its two ends in one stud bay: nothing is bored, nothing is said.
    bay = put(job, box("B2", "2' 4", "5'"))
    assert not told(raceway_hole_large, bay)
    assert "R1" not in raceway_ways(bay)


def test_a_chimney_breast_of_masonry_is_no_way_through() -> None:
    breast = make(BuildOut, "U1", name="Breast", wall="W1", x=at("4'"), width=at("2'"), depth=at("14"), work="masonry",
                  new=False)  # fmt: skip
    job = plain(cable(), breast, raceway())
    assert told(cable_through_hole, job) == [("cable_through_hole", "fix", ("K1", "U1"))]
    assert told(raceway_through_hole, job) == [("raceway_through_hole", "fix", ("R1", "U1"))]
    new = plain(cable(), make(BuildOut, "U1", name="B", wall="W1", x=at("4'"), width=at("2'"), depth=at("14"),
                              work="masonry"))  # fmt: skip
    assert not told(cable_through_hole, new), "built before a wall that stays"
    led_to = put(job, box("B2", "5'", "5'"))
    assert not told(cable_through_hole, led_to), "it ends on it"


# --- out over the returns ---


def built_out(face: str, x: str, **more: Any) -> Job:
    """A breast 24 in deep from 60 to 108 in; B1 on the bare wall at 24 / 12, B2 on the breast at 60 in up."""
    breast = make(BuildOut, "U1", name="Breast", wall="W1", x=at("60"), width=at("48"), depth=at("24"))
    return put(plain(breast, cable(**more), raceway()), box("B2", x, "60", face=face))


@rows(
    ("face", "x", "path", "bends"),
    [
        ("nearest", "84", 60 + 48 + 24, 180),  # on the front: out over the return, or straight out behind it
        ("left return", "10", 36 + 48 + 10, 180),  # its place is from the wall out: it is met at 60 in along
        ("right return", "10", 84 + 48 + 10, 180),  # at 108 in along
        ("wall", "84", 60 + 48, 90),  # behind the breast, on the wall itself
    ],
)
def test_a_way_to_a_face_of_a_build_out_by_hand(face: str, x: str, path: int, bends: int) -> None:
    job = built_out(face, x)
    assert routes(job)["K1"].path == path * INCH_NM
    assert raceway_length(job, raceway()) == path * INCH_NM
    assert bends_of(job, raceway()) == bends
    back = cable(start="B2", end="B1")
    assert routes(put(job, back))["K1"].path == path * INCH_NM, "as long the other way"
    over = cable(route="up and over")
    steps = path - (84 if face == "right return" else 60 if x == "84" else 36) - 48
    assert routes(put(job, over))["K1"].path == (84 + 36 + path - 48) * INCH_NM, steps


def test_from_front_to_front_over_the_gap_between_two_build_outs() -> None:
    """Two of 24 and 12 in with 24 in of bare wall between: back 24, out 12; with none between, back 12 alone."""
    one = make(BuildOut, "U1", name="A", wall="W1", x=at("0"), width=at("48"), depth=at("24"))
    other = make(BuildOut, "U2", name="B", wall="W1", x=at("72"), width=at("48"), depth=at("12"))
    job = plain(one, other, cable(), raceway())
    assert routes(job)["K1"].path == (72 + 48 + 24 + 12) * INCH_NM
    beside = put(job, make(BuildOut, "U2", name="B", wall="W1", x=at("48"), width=at("72"), depth=at("12")))
    assert routes(beside)["K1"].path == (72 + 48 + 12) * INCH_NM
    assert bends_of(beside, raceway()) == 90 + 90, "on 12 in out, and out into its box: turns that a builder would take"


def test_over_the_top_along_a_ceiling_that_slopes() -> None:
    """8 ft at the left, 4 ft 8 in at 10 ft: over B1 at 24 in 88 in, over B2 at 96 in 64 in: 24 in down on 72 along."""
    attic = job_of(wall(ceiling_line=("0/8'", "10'/4' 8")), box("B1", "2'", "1'"), box("B2", "8'", "5'"),
                   cable(route="up and over"))  # fmt: skip
    route = routes(attic)["K1"]
    slant = (72**2 + 24**2) ** 0.5
    assert route.path is not None
    assert abs(route.path / INCH_NM - (76 + slant + 4)) < 1e-6
    assert [leg.place for leg in route.legs] == ["wall", "beyond", "wall"]


# --- against another search ---

grid_rects = st.tuples(st.integers(6, 30), st.integers(1, 10), st.integers(1, 8), st.integers(1, 9))


@tries(10)
@example([(6, 1, 1, 5), (6, 10, 1, 8)], True)  # a gap as wide as nothing between two clearances
@given(st.lists(grid_rects, min_size=1, max_size=4), st.booleans())
def test_as_short_as_another_search_finds_round_windows_and_heaters(
    rects: list[tuple[int, int, int, int]], hot: bool
) -> None:
    """On a grid of 3 in. The oracle knows nothing of lines and edges: it walks from place to place, clear of the studs
    beside each window and of each heater's clearances (here 6 in on each side)."""
    things: list[Any] = []
    shut: list[tuple[int, int, int, int]] = []
    for number, (x, y, w, h) in enumerate(rects, 1):
        things += _heater(number, x, y, w, h) if hot else [hole(f"O{number}", 3 * x, 3 * y, 3 * w, 3 * h)]
        by = 2 if hot else 1
        shut.append((x - by, y - by, x + w + by, y + h + by))
    job = job_of(wall(), box("B1", "6", "18"), box("B2", "132", "54"), cable(), raceway(type="other"), *things)
    best = _walked(((2, 6), (44, 18)), shut)
    by_cable, by_raceway = ways_round(job).get("K1"), raceway_ways(job).get("R1")
    if by_cable is not None and by_cable.cable.points:
        assert best is not None
        assert by_cable.route.path == best * 3 * INCH_NM
    if by_raceway is not None and by_raceway.raceway.points:
        # Of a thickness that nobody knows it keeps 1 in more off at each edge, which shuts the narrowest gaps: it is no
        # shorter than the way on the grid, and no longer than the one that keeps a whole step more off.
        assert best is not None
        assert by_raceway.course.length >= best * 3 * INCH_NM
        wide = _walked(((2, 6), (44, 18)), [(x1 - 1, y1 - 1, x2 + 1, y2 + 1) for x1, y1, x2, y2 in shut])
        assert wide is None or by_raceway.course.length <= wide * 3 * INCH_NM


def _heater(number: int, x: int, y: int, w: int, h: int) -> list[Any]:
    """In an opening of its own that is no fireplace, a heater that keeps 6 in clear on each side; 3 in a step."""
    sizes = {"width": f"{3 * w}", "height": f"{3 * h}"}
    clear = dict.fromkeys(("clear_left", "clear_right", "clear_top", "clear_bottom"), at("6"))
    return [
        make(Opening, f"N{number}", name="n", wall="W1", x=f"{3 * x}", y=f"{3 * y}", depth="2", use="other", **sizes),
        make(Equipment, f"E{number}", name="h", what="heater", heats=True, opening=f"N{number}", **sizes, **clear),
    ]


def _walked(ends: Any, shut: list[tuple[int, int, int, int]]) -> int | None:
    """The shortest way on the grid between the plates, in steps."""
    grid = networkx.grid_2d_graph(57, 32)
    grid.remove_nodes_from([(x, y) for x, y in grid if not 1 <= y <= 31])
    for left, bottom, right, top in shut:
        grid.remove_nodes_from([(x, y) for x in range(left + 1, right) for y in range(bottom + 1, top)])
    try:
        return int(networkx.shortest_path_length(grid, *ends))
    except (networkx.NetworkXNoPath, networkx.NodeNotFound):
        return None


def test_the_step_out_is_the_least_against_a_search_in_the_room() -> None:
    """Breasts of several depths in a row; the oracle walks in the room, and may be in front of the wall only where a
    build-out is."""
    depths = {(0, 10): 24, (10, 16): 0, (16, 30): 12, (30, 40): 18}
    outs = [
        make(BuildOut, f"U{number}", name="u", wall="W1", x=at(f"{3 * a}"), width=at(f"{3 * (b - a)}"),
             depth=at(f"{deep}"))
        for number, ((a, b), deep) in enumerate(depths.items(), 1) if deep
    ]  # fmt: skip
    room = networkx.Graph()
    most = [max(d for (a, b), d in depths.items() if a <= x <= b) // 3 for x in range(41)]
    for x in range(41):
        for z in range(most[x] + 1):
            room.add_edge((x, z), (x, z + 1)) if z < most[x] else room.add_node((x, z))
    for (a, b), deep in depths.items():
        for x, z in ((x, z) for x in range(a, b) for z in range(deep // 3 + 1)):
            room.add_edge((x, z), (x + 1, z))
    for start, end in [(2, 38), (5, 20), (20, 35), (13, 35), (2, 13), (13, 14), (31, 17)]:
        job = job_of(wall(), *outs, box("B1", f"{3 * start}", "30"), box("B2", f"{3 * end}", "30"), cable())
        steps = networkx.shortest_path_length(room, (start, most[start]), (end, most[end]))
        assert routes(job)["K1"].path == steps * 3 * INCH_NM, (start, end)


def test_legs_join_end_to_end() -> None:
    job = plain(raceway(route="up and over"))
    course = raceway_course(job, raceway(route="up and over"))
    assert not isinstance(course, str)
    assert all(a.end == b.start for a, b in pairwise(course.legs))


def test_a_raceway_that_is_led_another_way_is_looked_at_again() -> None:
    """What was signed off as in was in where it was; over the top it is bored through no stud."""

    def vouched(**more: Any) -> dict[str, dict[str, str]]:
        return {each.key: each.vouches for each in rough_in(plain(raceway(**more))) if each.key.startswith("R1/")}

    plain_way, over, by_points = vouched(), vouched(route="up and over"), vouched(points=("2'/7'", "8'/7'"))
    assert "way" not in plain_way["R1/in"]
    assert (over["R1/in"]["way"], by_points["R1/in"]["way"]) == ("up and over", "points 2'/7', 8'/7'")
    assert "R1/plates" in plain_way
    assert "R1/plates" in by_points
    assert "R1/plates" not in over
    wider = vouched(points=("10'/7'",))
    assert len(wider["R1/plates"]["studs"]) > len(plain_way["R1/plates"]["studs"]), "past its end and back"
