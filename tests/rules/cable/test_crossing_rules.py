"""Ways that a cable cannot take: each with the smallest job that raises it and the nearest that does not."""

from __future__ import annotations

from typing import Any

import msgspec
import pytest

from store.records.wall import Obstacle, Opening
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.cable.crossing_rules import cable_through_hole, outside_safe_zone
from store.rules.wall.boxes_rules import box_on_obstacle, box_on_stud
from tests.jobs.cable_jobs import at, box, cable, make, plain, put, told


def window(x: str, **more: Any) -> Obstacle:
    """Something 2 ft wide and 4 ft high in the wall, 6 in off the floor; B1 is at 2 ft / 1 ft, B2 at 8 ft / 5 ft."""
    given: dict[str, Any] = {"what": "window", "y": "6", "width": "2'", "height": "4'"}
    return make(Obstacle, "O1", wall="W1", x=x, **{**given, **more})


@pytest.mark.parametrize(("x", "told_of"), [("4'", True), ("8' 1", False), ("5' 11", True), ("10'", False)])
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


@pytest.mark.parametrize(
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
    assert not told(box_on_obstacle, plain(window("8'"), box("B2", "8'", "2'")))
    assert not told(box_on_obstacle, plain(window("7' 6"), box("B2", "8'", "2'", new=False)))
    assert not told(box_on_obstacle, plain(window("7' 6", what="baseboard"), box("B2", "8'", "2'")))


@pytest.mark.parametrize(("x", "told_of"), [("48", True), ("48 11/16", True), ("48 3/4", False), ("47 1/4", False)])
def test_a_box_is_beside_a_stud(x: str, told_of: bool) -> None:
    # Studs at 16 in, 1-1/2 in thick: one from 47-1/4 to 48-3/4.
    job = plain(box("B1", "2'", "1'", new=False), box("B2", x, "5'"))
    assert told(box_on_stud, job) == ([("box_on_stud", "look", ("B2", "W1"))] if told_of else [])
    assert isinstance(job.of(Box)["B2"], Box)
