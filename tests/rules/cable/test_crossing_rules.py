"""Ways that a cable cannot take: each with the smallest job that raises it and the nearest that does not."""

from __future__ import annotations

from typing import Any

import msgspec

from store.measure.length import INCH_NM
from store.records.wall import Obstacle, Opening
from store.records.whole import Job
from store.records.wiring import Box, Circuit, Raceway
from store.rules.cable.courses import bends_of, raceway_length
from store.rules.cable.crossing_rules import cable_through_hole, outside_safe_zone, raceway_through_hole
from store.rules.cable.routes import routes
from store.rules.cable.ways import way_words, ways_round
from store.rules.wall.boxes_rules import box_on_obstacle, box_on_stud
from tests.jobs.cable_jobs import at, box, cable, make, plain, put, told
from tests.rows import rows


def window(x: str, **more: Any) -> Obstacle:
    """Something 2 ft wide and 4 ft high in the wall, 6 in off the floor; B1 is at 2 ft / 1 ft, B2 at 8 ft / 5 ft."""
    given: dict[str, Any] = {"what": "window", "y": "6", "width": "2'", "height": "4'"}
    return make(Obstacle, "O1", wall="W1", x=x, **{**given, **more})


@rows(("x", "told_of"), [("4'", True), ("8' 1", False), ("5' 11", True), ("10'", False)])
def test_a_level_run_clears_a_window(x: str, told_of: bool) -> None:
    found = told(cable_through_hole, plain(cable(), window(x)))
    assert found == ([("cable_through_hole", "fix", ("K1", "O1"))] if told_of else [])


def test_what_is_on_the_wall_and_not_in_it_is_passed_behind() -> None:
    assert not told(cable_through_hole, plain(cable(), window("4'", what="baseboard")))
    assert not told(cable_through_hole, plain(cable(route="up and over"), window("4'")))
    assert told(cable_through_hole, plain(cable(), window("4'", what="door")))


def recess(**more: Any) -> Opening:
    """A recess across the run, 4 in deep in two-by-fours with half an inch of board."""
    given: dict[str, Any] = {"use": "screen", "x": "4'", "y": "6", "width": "2'", "height": "4'", "depth": "4"}
    return make(Opening, "N1", name="recess", wall="W1", **{**given, **more})


def test_an_opening_that_takes_all_of_the_studs_is_no_way() -> None:
    assert told(cable_through_hole, plain(cable(), recess())) == [("cable_through_hole", "fix", ("K1", "N1"))]
    assert not told(cable_through_hole, plain(cable(), recess(depth="3 15/16"))), "a sixteenth is left behind it"
    cabinet = recess(use="equipment", material="plywood", thickness=at("3/4"))
    assert not told(cable_through_hole, plain(cable(), cabinet)), "along the back of a cabinet"
    assert not told(cable_through_hole, plain(cable(end="N1"), recess())), "it ends there"
    inside = put(plain(cable(), recess()), box("B2", "5'", "2'"))
    assert not told(cable_through_hole, inside), "its box is in it"


def metric(**more: Any) -> Job:
    """A 2.5 mm² cable between two sockets."""
    sockets = box("B1", "2'", "1'", what="receptacle"), box("B2", "8'", "5'", what="receptacle")
    return plain(*sockets, cable(kind="2.5 mm2 twin and earth", rating="", **more), region="metric")


@rows(
    ("more", "told_of"),
    [
        ({"level": "3'"}, True),
        ({"level": "1'"}, False),
        ({"level": "5'"}, False),
        ({"level": "7' 8"}, False),  # 102 mm under the ceiling
        ({"level": "7' 5"}, True),  # 178 mm
        ({}, False),
        ({"route": "points", "points": ("2'/5'",)}, False),
        ({"route": "points", "points": ("5'/1'", "5'/5'")}, True),
    ],
)
def test_a_230_v_cable_is_in_a_safe_zone(more: dict[str, Any], told_of: bool) -> None:
    # BS 7671 522.6.202: in line with an accessory, or within 150 mm of the ceiling or a corner.
    assert bool(told(outside_safe_zone, metric(**more))) == told_of


def test_there_are_no_such_zones_in_the_united_states() -> None:
    settings = msgspec.structs.replace(metric().settings, region="us")
    assert not told(outside_safe_zone, put(metric(level="3'"), settings))


def test_a_box_is_beside_a_window() -> None:
    assert told(box_on_obstacle, plain(window("7' 6"), box("B2", "8'", "2'"))) == [
        ("box_on_obstacle", "fix", ("B2", "O1"))
    ]
    # Half a box is 1-1/8 in wide.
    assert told(box_on_obstacle, plain(window("8'"), box("B2", "8'", "2'")))
    assert not told(box_on_obstacle, plain(window("8' 1 1/8"), box("B2", "8'", "2'")))
    assert not told(box_on_obstacle, plain(window("7' 6"), box("B2", "8'", "2'", new=False)))
    assert not told(box_on_obstacle, plain(window("7' 6", what="baseboard"), box("B2", "8'", "2'")))


@rows(("x", "told_of"), [("48", True), ("48 11/16", True), ("48 3/4", False), ("47 1/4", False)])
def test_a_box_is_beside_a_stud(x: str, told_of: bool) -> None:
    # Studs at 16 in, 1-1/2 in thick: one from 47-1/4 to 48-3/4.
    job = plain(box("B1", "2'", "1'", new=False), box("B2", x, "5'"))
    assert told(box_on_stud, job) == ([("box_on_stud", "look", ("B2", "W1"))] if told_of else [])
    assert isinstance(job.of(Box)["B2"], Box)


# --- ways round ---


def test_the_shortest_way_that_clears_a_window_is_named_and_clears_it() -> None:
    """B1 at 2 ft / 1 ft, B2 at 8 ft / 5 ft; the window is 4 ft to 6 ft across and 6 in to 4 ft 6 in up.

    By hand: kept 3 in clear it takes 45 in to 75 in across and 3 in to 57 in up. Over its top edge, at 57 in:
    45 in up, 72 in across, 3 in up: 120 in, as long as the level way with its rise at the end.
    """
    job = plain(cable(), window("4'"))
    way = ways_round(job)["K1"]
    assert way.cable.route == "points"
    assert (way.route.path, way.longer_nm) == (120 * INCH_NM, 0)
    assert not told(cable_through_hole, put(job, way.cable))
    assert way_words(job, way).endswith(": 10'-0\", the same length")
    finding = next(iter(cable_through_hole(job)))
    assert finding.do.startswith("Run it by W1 ")


def test_a_way_in_the_wall_comes_before_those_over_and_under_it() -> None:
    """A door of 6 ft 8 in in an 8 ft wall leaves no way in the wall but above it; a higher one leaves none."""
    door = window("4'", what="door", y="0", height="6' 8\"")
    way = ways_round(plain(cable(), door))["K1"]
    assert way.longer_nm == 2 * (83 - 60) * INCH_NM, "up to 6 ft 11 in and back to 5 ft"
    tall = window("4'", what="door", y="0", height="8'")
    assert ways_round(plain(cable(), tall))["K1"].cable.route in ("up and over", "down and under")


def test_what_has_a_clear_way_is_offered_none() -> None:
    assert "K1" not in ways_round(plain(cable(), window("10'")))


def test_a_length_measured_by_hand_says_nothing_of_the_way() -> None:
    """10 ft by the plan: the way round is as long, and has to be measured anew."""
    job = plain(cable(measured=at("12'")), window("4'"))
    way = ways_round(job)["K1"]
    assert (way.cable.measured, way.longer_nm) == (None, 0)
    assert "measured by hand" in next(iter(cable_through_hole(job))).why


def test_a_pipe_and_a_duct_are_no_way_either() -> None:
    for what in ("pipe", "vent"):
        assert told(cable_through_hole, plain(cable(), window("4'", what=what)))


def raceway(**more: Any) -> Raceway:
    return make(Raceway, "R1", start="B1", end="B2", size="1", **more)


def test_a_raceway_goes_by_its_points_and_its_turns_are_counted() -> None:
    """Up 4 ft at its lower end, then level: one square turn. By way of a point over the window two more."""
    job = plain(raceway(), window("4'", y="6' 6"))
    assert not told(raceway_through_hole, job)
    assert bends_of(job, raceway()) == 90
    through = plain(raceway(), window("4'", height="6'"))
    assert told(raceway_through_hole, through) == [("raceway_through_hole", "fix", ("R1", "O1"))]
    around = raceway(points=("2'/7'", "8'/7'"))
    assert not told(raceway_through_hole, put(through, around))
    assert bends_of(through, around) == 180
    assert raceway_length(through, around) == (72 + 72 + 24) * INCH_NM
    assert bends_of(through, raceway(bends=270.0)) == 270, "more were entered"
    assert bends_of(through, raceway(bends=45.0)) == 90, "no fewer than its way has"


def test_a_home_run_leaves_its_wall_straight_up_or_down() -> None:
    feed = cable(kind="nm-12-2", rating="NM-B", end="")
    circuit = make(Circuit, "C1", name="media", breaker="20", length="40'")
    job = put(plain(feed, circuit), box("B1", "2'", "1'", what="receptacle", circuit="C1"))
    leg = routes(job)["K1"].legs[0]
    assert (leg.start, leg.end) == ((24 * INCH_NM, 12 * INCH_NM), (24 * INCH_NM, 96 * INCH_NM))
    over = put(job, window("1' 6", y="3'", height="2'"))
    assert routes(over)["K1"].legs[0].end[1] == 0, "nothing is in the way below"
    assert not told(cable_through_hole, over)
    said_so = put(over, msgspec.structs.replace(feed, route="up and over"))
    assert told(cable_through_hole, said_so) == [("cable_through_hole", "fix", ("K1", "O1"))]
    assert ways_round(said_so)["K1"].cable.route == "down and under"


def test_where_no_way_is_clear_that_is_said() -> None:
    """B2, at 96 / 60 in, has a window on each of its four sides: no way comes to it."""
    around = [("84", "48", "8", "24"), ("100", "48", "8", "24"), ("84", "66", "24", "10"), ("84", "44", "24", "10")]
    windows = [make(Obstacle, f"O{at_}", wall="W1", what="window", x=x, y=y, width=wide, height=high)
               for at_, (x, y, wide, high) in enumerate(around, 1)]  # fmt: skip
    job = plain(cable(), raceway(), *windows)
    assert "K1" not in ways_round(job)
    assert next(iter(cable_through_hole(job))).do.startswith("Move an end of it")
    assert next(iter(raceway_through_hole(job))).do.startswith("Move an end of it")
    open_below = plain(cable(), raceway(), *windows[:3])
    assert not told(cable_through_hole, open_below)
    assert next(iter(raceway_through_hole(open_below))).do.startswith("Run it by ")
