"""The elevation: what is drawn, where, and what is said of the rest."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.measure.errors import BadValue
from store.measure.length import INCH_NM, Length, inches, parse_length
from store.records.access import Panel
from store.records.base import R, Record
from store.records.equipment import Equipment
from store.records.job import Settings
from store.records.wall import Obstacle, Opening, Reading, Wall
from store.records.whole import KINDS, Job
from store.records.wiring import Box, Cable, Circuit, Raceway
from store.rules.cable.routes import routes
from store.rules.drawing.cuts import plan
from store.rules.drawing.elevation import Block, Run, Spot, kin, scene
from store.rules.wall.places import BEYOND_NM, bad_points, read_point
from tests.rows import rows


def job_of(*records: Record, **settings: Any) -> Job:
    """A job in memory that holds these records."""
    tables: dict[str, dict[str, Record]] = {kind: {} for kind in KINDS}
    tables["job"]["job"] = Settings(tag="job", name="test wall", **settings)
    for record in records:
        tables[record.kind][record.tag] = record
    return Job(tables=tables)


def make(cls: type[R], tag: str, **values: Any) -> R:
    """A record of a kind, its references written as plain tags."""
    return cls(tag=tag, **values)


def at(text: str) -> Length:
    """A length as a person types it."""
    return parse_length(text)


def place(x: str, y: str, width: str = "", height: str = "") -> dict[str, Any]:
    """The place of a thing on wall W1, and its size where it has one."""
    found: dict[str, Any] = {"wall": "W1", "x": at(x), "y": at(y)}
    return found | ({"width": at(width), "height": at(height)} if width else {})


def size(width: str, height: str, depth: str = "") -> dict[str, Any]:
    """The outside of a device."""
    found = {"width": at(width), "height": at(height)}
    return found | ({"depth": at(depth)} if depth else {})


WALL = Wall(tag="W1", name="Living room", first_stud=at("16"))
READINGS = (
    make(Reading, "D1", wall="W1", what="width", value=at("12'")),
    make(Reading, "D2", wall="W1", what="width", value=at("11' 11 3/4\"")),
    make(Reading, "D3", wall="W1", what="height", value=at("8'")),
)
MEDIA = (
    WALL,
    *READINGS,
    make(Reading, "D4", wall="W1", what="depth", value=at("20")),
    make(Obstacle, "O1", wall="W1", what="vent", x=at("4"), y=at("4"), width=at("14"), height=at("6")),
    make(Obstacle, "O2", wall="W1", what="switch", x=at("136"), y=at("46"), width=at("3"), height=at("5")),
    make(Opening, "N1", name="TV recess", use="screen", depth=at("4"), **place("36", "46", "72", "42")),
    make(Opening, "N2", name="Fireplace", use="fireplace", depth=at("12"), **place("46", "14", "52", "20")),
    make(
        Opening,
        "N3",
        name="Gear",
        use="equipment",
        thickness=at("3/4"),
        depth=at("18"),
        **place("108", "14", "30", "24"),
    ),
    make(Opening, "N4", name="Shelf", use="shelf", depth=at("12"), **place("4", "46", "28", "42")),
    make(Equipment, "E1", name="Screen", what="screen", opening="N1", plug="B1", **size("65", "37 1/2", "2")),
    make(Equipment, "E2", name="Fireplace", what="fireplace", opening="N2", **size("50", "18", "6")),
    make(Equipment, "E3", name="Receiver", what="receiver", opening="N3", clear_back=at("2"), **size("17", "6", "14")),
    make(Box, "B1", name="behind the screen", what="receptacle", circuit="C1", **place("66", "70")),
    make(Box, "B2", name="signal, screen", what="low-voltage", **place("80", "70")),
    make(Box, "B3", name="gear power", what="receptacle", new=False, circuit="C1", **place("114", "30")),
    make(Box, "B4", name="gear signal", what="low-voltage", **place("130", "30")),
    Circuit(tag="C1", name="Media"),
    make(Panel, "A1", name="Low access", behind=("B4", "K1"), **place("12", "14", "14", "14")),
    make(Raceway, "R1", name="tube", start="B2", end="B4", size="1-1/4"),
    make(Cable, "K1", name="picture", type="hdmi", start="E3", end="B2", route="raceway", raceway="R1", reached="A1"),
    make(Cable, "K2", name="power", type="12-2 nm", start="B3", end="B1", level=at("40")),
    make(Cable, "K3", name="aerial", type="rg6", start="B2", end="N4", route="up and over"),
)
"""A small media wall, 11' 11 3/4" by 8'."""


def block(job: Job, tag: str) -> Block:
    found = scene(job, "W1").get(tag)
    assert isinstance(found, Block)
    return found


def run(job: Job, tag: str) -> Run:
    found = scene(job, "W1").get(tag)
    assert isinstance(found, Run)
    return found


def in_inches(points: tuple[tuple[int, int], ...]) -> list[tuple[float, float]]:
    return [(x / INCH_NM, y / INCH_NM) for x, y in points]


def test_the_least_reading_governs() -> None:
    drawn = scene(job_of(*MEDIA), "W1")
    assert (drawn.width, drawn.height) == (at("11' 11 3/4\"").nm, at("8'").nm)
    assert drawn.remarks == ()


def test_a_wall_that_was_not_read_is_as_far_as_what_stands_on_it_and_says_so() -> None:
    drawn = scene(job_of(WALL, make(Box, "B1", what="switch", **place("40", "48"))), "W1")
    assert (drawn.width, drawn.height) == (40 * INCH_NM, 48 * INCH_NM)
    assert [("width" in each, "height" in each) for each in drawn.remarks] == [(True, False), (False, True)]


def test_an_empty_wall_is_not_an_error() -> None:
    drawn = scene(job_of(Wall(tag="W1", name="bare")), "W1")
    assert (drawn.width, drawn.height, drawn.shapes) == (0, 0, ())
    assert "not known" in drawn.remarks[0]
    assert [each.label for each in drawn.unplaced] == ["studs"]


def test_an_unknown_wall_is_refused_with_its_tag() -> None:
    with pytest.raises(BadValue, match="W9"):
        scene(job_of(WALL), "W9")
    with pytest.raises(BadValue, match="W9"):
        plan(job_of(WALL), "W9", 0)


def test_what_hangs_is_in_the_middle_and_what_stands_is_on_the_inside_floor() -> None:
    job = job_of(*MEDIA)
    # The screen, 31 1/2 in high in an opening of 36 in that begins 46 in up.
    assert in_inches((block(job, "E1").extent[:2],)) == [(39.5, 48.25)]
    assert in_inches((block(job, "E3").extent[:2],)) == [(108 + 6.5, 14.75)]


def test_pieces_that_share_an_opening_stand_side_by_side_about_its_middle() -> None:
    second = make(Equipment, "E8", name="Player", opening="N3", **size("9", "3"))
    job = job_of(*MEDIA, second)
    receiver, player = block(job, "E3"), block(job, "E8")
    assert receiver.extent[2] == player.extent[0]
    assert (receiver.extent[0] + player.extent[2]) // 2 == block(job, "N3").centre[0]


def test_an_offset_counts_from_the_left_inside_of_the_opening() -> None:
    moved = make(Equipment, "E3", name="Receiver", opening="N3", offset=at("2"), **size("17", "6"))
    assert in_inches((block(job_of(*MEDIA, moved), "E3").extent[:2],)) == [(110.75, 14.75)]


def test_studs_end_where_an_opening_is_framed() -> None:
    pieces = [each for each in scene(job_of(*MEDIA), "W1").shapes if isinstance(each, Block) and each.layer == "studs"]
    fourth = [(each.y / INCH_NM, each.extent[3] / INCH_NM) for each in pieces if each.centre[0] == 64 * INCH_NM]
    # Cripples between fireplace (14 to 34) and screen (46 to 88), under the one, above the other: from the plate of
    # 1-1/2 in to a sill of 1-1/2 under each, from a member of 1-1/2 over each, to two plates under 96 in.
    assert fourth == [(1.5, 12.5), (35.5, 44.5), (89.5, 93)]
    assert {each.tag for each in pieces} == {""}


def test_studs_are_left_out_until_the_first_is_measured() -> None:
    drawn = scene(job_of(Wall(tag="W1", name="x"), *READINGS), "W1")
    assert not drawn.shapes
    assert drawn.unplaced[0].why == "the first stud is not measured"


def test_a_cable_through_studs_runs_at_its_level() -> None:
    assert in_inches(run(job_of(*MEDIA), "K2").points) == [(114, 30), (114, 40), (66, 40), (66, 70)]


def test_without_a_level_it_runs_at_the_height_of_its_start() -> None:
    plain = make(Cable, "K2", type="12-2 nm", start="B3", end="B1")
    assert in_inches(run(job_of(*MEDIA, plain), "K2").points) == [(114, 30), (66, 30), (66, 70)]


def test_a_cable_that_stays_in_the_cabinet_goes_straight() -> None:
    loose = make(Cable, "K2", type="patch", start="B3", end="B1", in_wall=False)
    assert in_inches(run(job_of(*MEDIA, loose), "K2").points) == [(114, 30), (66, 70)]


def test_over_the_top_and_under_the_floor_a_run_is_drawn_outside_the_wall() -> None:
    over = run(job_of(*MEDIA), "K3")
    assert over.extent[3] == at("8'").nm + BEYOND_NM
    assert in_inches(over.points)[-1] == (18, 67)
    under = run(job_of(*MEDIA, make(Cable, "K3", type="rg6", start="B2", end="N4", route="down and under")), "K3")
    assert under.extent[1] == -BEYOND_NM


def test_a_cable_in_a_raceway_goes_by_its_nearer_end_first_and_square_to_the_framing() -> None:
    job = job_of(*MEDIA)
    # R1 is measured level from B2 and then down to B4; the cable comes from the other end.
    tube = [(80, 70), (130, 70), (130, 30)]
    assert in_inches(run(job, "R1").points) == tube
    assert in_inches(run(job, "K1").points) == [(123, 17.75), (130, 17.75), *tube[::-1]]


@rows("tag", ["K1", "K2", "K3"])
def test_what_is_drawn_is_as_long_as_what_is_measured(tag: str) -> None:
    job = job_of(*MEDIA)
    drawn = sum(abs(a[0] - b[0]) + abs(a[1] - b[1]) for a, b in pairwise(run(job, tag).points))
    beyond = 2 * BEYOND_NM if tag == "K3" else 0
    assert drawn - beyond == routes(job)[tag].path


def test_of_a_cable_round_a_corner_each_wall_shows_its_part() -> None:
    side = make(Wall, "W2", name="Side", meets_left="W1")
    wired = make(Cable, "K9", type="cat6", start="B4", end="B9")
    job = job_of(*MEDIA, side, make(Box, "B9", what="low-voltage", wall="W2", x=at("20"), y=at("12")), wired)
    edge = 11 * 12 + 11.75
    assert in_inches(run(job, "K9").points) == [(130, 30), (edge, 30)]
    other = scene(job, "W2").get("K9")
    assert isinstance(other, Run)
    assert in_inches(other.points) == [(0, 30), (20, 30), (20, 12)]
    assert not scene(job, "W2").unplaced or "K9" not in {each.tag for each in scene(job, "W2").unplaced}


def test_a_cable_goes_by_its_points_and_an_unreadable_one_is_named() -> None:
    wired = make(Cable, "K2", type="x", start="B3", end="B1", route="points", points=("9'/2' 6\"", "up there"))
    drawn = scene(job_of(*MEDIA, wired), "W1")
    shape = drawn.get("K2")
    assert isinstance(shape, Run)
    assert in_inches(shape.points) == [(114, 30), (108, 30), (66, 70)]
    assert any("K2" in each and "up there" in each for each in drawn.remarks)


@rows(
    ("text", "x", "y"),
    [("4'/2' 6\"", 48, 30), ("3 1/2/2", 3.5, 2), ('10"/3/4"', 10, 0.75), ("1000 mm/254 mm", 39.3700787, 10)],
)
def test_a_point_is_read_although_a_fraction_has_a_slash_too(text: str, x: float, y: float) -> None:
    point = read_point(text, metric=False)
    assert point is not None
    assert (point[0] / INCH_NM, point[1] / INCH_NM) == pytest.approx((x, y))


@rows("text", ["", "4'", "1/2/4", "a/b", "-4/2"])
def test_a_point_that_means_nothing_or_two_things_is_refused(text: str) -> None:
    assert read_point(text, metric=False) is None
    assert bad_points(job_of(), make(Cable, "K1", type="x", points=(text,))) == [text]


def test_mains_and_signal_are_told_apart_by_the_boxes_at_their_ends() -> None:
    job = job_of(*MEDIA)
    assert [run(job, tag).kind for tag in ("K1", "K2", "K3")] == ["signal", "power", "signal"]


def test_a_box_keeps_its_kind_and_whether_it_is_new() -> None:
    boxes = {each.tag: each for each in scene(job_of(*MEDIA), "W1").shapes if isinstance(each, Spot)}
    assert (boxes["B1"].kind, boxes["B1"].new, boxes["B3"].new) == ("receptacle", True, False)


def test_what_has_no_place_is_listed_with_what_it_lacks() -> None:
    job = job_of(
        *MEDIA,
        Wall(tag="W2", name="other"),
        make(Opening, "N9", name="Later", wall="W1", x=at("10")),
        make(Box, "B8", what="switch", wall="W2", x=at("10"), y=at("48")),
        make(Box, "B9", name="somewhere", what="switch"),
        make(Equipment, "E7", name="unmeasured", opening="N3"),
        make(Equipment, "E8", name="in the box", opening="N9", **size("1", "1")),
        make(Equipment, "E9", name="loose"),
        make(Equipment, "E10", name="gone", retired=job_of().today),
        make(Cable, "K7", type="cat6", start="B1", end="B8"),
        make(Cable, "K8", type="cat6", start="B1"),
        make(Cable, "K9", type="cat6", start="B1", end="B9"),
    )
    drawn = scene(job, "W1")
    assert {each.tag: each.why for each in drawn.unplaced} == {
        "N9": "not entered: from floor, width, height",
        "B9": "not entered: wall, from left, from floor",
        "E7": "no width and height entered",
        "E8": "its opening N9 is not placed yet",
        "E9": "in no opening and on no face",
        "K7": "it goes around a corner, and W2 has no width reading yet",
        "K8": "its “to” end not entered",
        "K9": "B9 is not placed yet",
    }
    assert not {each.tag for each in drawn.unplaced} & {each.tag for each in drawn.shapes}


def test_what_was_retired_is_not_drawn() -> None:
    day = job_of().today
    job = job_of(
        *MEDIA,
        make(Equipment, "E1", name="Screen", opening="N1", retired=day, **size("65", "37")),
        make(Cable, "K2", type="12-2 nm", start="B3", end="B1", retired=day),
    )
    drawn = scene(job, "W1")
    assert drawn.get("E1") is None
    assert drawn.get("K2") is None
    assert not drawn.unplaced


def test_the_extent_takes_in_what_lies_beyond_the_wall() -> None:
    left, bottom, right, top = scene(job_of(*MEDIA), "W1").extent
    assert (left, bottom, right) == (0, 0, at("11' 11 3/4\"").nm)
    assert top == at("8'").nm + BEYOND_NM


def test_half_way_along_a_run_is_on_it() -> None:
    line = Run("K1", "cables", "signal", "", ((0, 0), (0, 10), (30, 10)))
    assert line.centre == (10, 10)
    assert Run("K1", "cables", "signal", "", ((5, 5),)).centre == (5, 5)


def test_a_plan_shows_what_the_cut_meets_in_depth() -> None:
    cut = plan(job_of(*MEDIA), "W1", at("18").nm)
    openings = {each.tag: each for each in cut.shapes if isinstance(each, Block) and each.tag}
    assert set(openings) == {"N2", "N3", "E2", "E3", "A1"}
    # The panel is in the board of the wall: 1/2 in.
    assert openings["A1"].extent[1::2] == (0, at("1/2").nm)
    assert cut.height == at("20").nm
    assert openings["N3"].height == at("18").nm
    # 18 in deep, 2 in kept clear behind, 14 in of device; the thickness noted is that of the sides.
    assert openings["E3"].extent[1::2] == (at("2").nm, at("16").nm)


def test_a_plan_leaves_out_the_studs_that_an_opening_takes() -> None:
    cut = plan(job_of(*MEDIA), "W1", at("60").nm)
    shown = [each.centre[0] / INCH_NM for each in cut.shapes if each.layer == "studs" and each.kind == "stud"]
    assert all(not 36 < x < 108 and not 4 < x < 32 for x in shown)
    assert shown


def test_a_plan_says_where_it_cuts_and_what_has_no_depth() -> None:
    cut = plan(job_of(*MEDIA, make(Opening, "N5", name="flat", **place("1", "90", "4", "4"))), "W1", at("18").nm)
    assert "1'-6\"" in cut.remarks[0]
    assert [each.tag for each in cut.unplaced] == ["N5"]


@rows(
    ("tag", "belongs"),
    [
        ("A1", {"B4", "K1"}),
        ("K1", {"E3", "B2", "R1", "A1"}),
        ("C1", {"B1", "B3"}),
        ("B1", {"C1", "K2", "E1"}),
        ("N1", {"E1"}),
        ("N4", {"K3"}),
        ("E3", {"N3", "K1"}),
        ("E1", {"N1", "B1"}),
        ("R1", {"B2", "B4", "K1"}),
        ("O1", set()),
        ("Z9", set()),
        ("", set()),
    ],
)
def test_what_belongs_together(tag: str, belongs: set[str]) -> None:
    assert kin(job_of(*MEDIA), tag) == belongs


@given(
    boxes=st.lists(st.tuples(st.integers(0, 140), st.integers(0, 90)), min_size=2, max_size=6),
    route=st.sampled_from(["through studs", "up and over", "down and under", "raceway", "cabinet", "points"]),
)
def test_every_run_starts_and_ends_where_its_cable_does(boxes: list[tuple[int, int]], route: Any) -> None:
    made = [
        make(Box, f"B{n}", what="low-voltage", wall="W1", x=inches(x), y=inches(y)) for n, (x, y) in enumerate(boxes)
    ]
    tube = make(Raceway, "R1", start=made[-1].tag, end=made[0].tag)
    wired = make(Cable, "K1", type="cat6", start="B0", end="B1", route=route, raceway="R1")
    job = job_of(WALL, *READINGS, *made, tube, wired)
    points = run(job, "K1").points
    assert in_inches((points[0], points[-1])) in ([boxes[0], boxes[1]], [boxes[0]] * 2)
    assert all(a != b for a, b in pairwise(points))
