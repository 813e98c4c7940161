"""Findings about what a cable is and where the plan leads it: the smallest job for each, and the nearest not."""

from __future__ import annotations

from typing import Any

import pytest

from store.records.equipment import Equipment
from store.records.wall import Opening
from store.records.whole import Job
from store.records.wiring import Raceway
from store.rules.cable import kind_rules as rules
from store.rules.cable.cable_rules import cable_kind_unknown, cable_not_rated
from store.rules.cable.in_wall import cord_of, in_the_wall
from store.rules.plug.cord_rules import cord_in_wall
from store.rules.wall.cabinets import cabinets, through_the_wall
from tests.jobs.cable_jobs import box, cable, make, plain, told
from tests.rows import rows
from tests.trade.cable.test_cords import CORDS

UNKNOWN = [("cable_unknown_in_wall", "stop", ("K1",))]
BY_WORD = [("cable_out_of_wall_by_word", "stop", ("K1",))]


@rows("kind", ["bell wire", "16/2", "speaker wire", "the blue one", "cat6 coax"])
@rows("region", ["us", "metric"])
def test_a_cable_that_nobody_knows_may_not_go_into_a_wall(kind: str, region: str) -> None:
    job = plain(cable(kind=kind), region=region)
    assert told(rules.cable_unknown_in_wall, job) == UNKNOWN
    assert told(cable_kind_unknown, job) == []
    (finding,) = rules.cable_unknown_in_wall(job)
    assert repr(kind) in finding.says
    assert finding.numbers == {"type": kind, "way": "B1 to B2", "raceway": ""}
    (loose,) = rules.cable_unknown_in_wall(plain(cable(kind=kind, start="", end=""), region=region))
    assert loose.numbers["way"] == "not entered to not entered"
    assert ("NFPA" in finding.source) == (region == "us")


def test_one_that_is_known_or_stays_out_is_not_asked_about() -> None:
    assert told(rules.cable_unknown_in_wall, plain(cable(kind="16/2 OFC"))) == []
    assert told(rules.cable_unknown_in_wall, plain(cable(kind="bell wire", in_wall=False))) == []
    retired = plain(cable(kind="bell wire", retired=plain().today))
    assert told(rules.cable_unknown_in_wall, retired) == []


@pytest.mark.parametrize("region", ["us", "metric"])
def test_every_name_of_a_cord_in_a_wall_is_the_stop_of_cords(region: str) -> None:
    for kind in CORDS:
        job = plain(cable(kind=kind), region=region)
        assert told(cord_in_wall, job) == [("cord_in_wall", "stop", ("K1",))], kind
        assert told(rules.cable_unknown_in_wall, job) == [], kind


@rows("kind", ["speaker wire", "16/2", "power lead"])
def test_a_jacket_of_a_cord_tells_where_the_type_does_not(kind: str) -> None:
    assert told(cord_in_wall, plain(cable(kind=kind, rating="SJTW"))) == [("cord_in_wall", "stop", ("K1",))]


def test_where_the_type_is_judged_by_its_jacket_that_finding_tells_of_the_cord() -> None:
    job = plain(cable(kind="speaker-16-2", rating="SPT-2"))
    assert told(cord_in_wall, job) == []
    (finding,) = cable_not_rated(job)
    assert finding.severity == "stop"
    assert finding.numbers["cord"] == "spt 2"
    assert not finding.takes_answer
    (other,) = cable_not_rated(plain(cable(kind="speaker-16-2", rating="in-wall")))
    assert other.takes_answer
    metric = plain(cable(kind="speaker-16-2", rating="SPT-2"), region="metric")
    assert told(cord_in_wall, metric) == [("cord_in_wall", "stop", ("K1",))]
    assert cord_of(metric, cable(kind="speaker-16-2", rating="CL2")) == ""
    unjudged = plain(cable(kind="2.5 mm2 twin and earth", rating="SPT-2"))
    assert told(cord_in_wall, unjudged) == [("cord_in_wall", "stop", ("K1",))]


def test_a_cord_that_is_said_to_stay_out_and_runs_through_the_wall_is_a_cord_in_the_wall() -> None:
    job = plain(cable(kind="lamp cord", in_wall=False))
    assert told(cord_in_wall, job) == [("cord_in_wall", "stop", ("K1",))]
    assert told(rules.cable_out_of_wall_by_word, job) == []


# --- by the places of its ends ---


def opening(tag: str, x: str, y: str = "1'", width: str = "2'", use: str = "equipment") -> Opening:
    """An opening 2 ft high."""
    return make(Opening, tag, name="bay", use=use, wall="W1", x=x, y=y, width=width, height="2'")


def device(tag: str, where: str) -> Equipment:
    """A device in an opening."""
    return make(Equipment, tag, name="device", what="player", opening=where)


def out(*more: Any, start: str = "E1", end: str = "E2", **values: Any) -> Job:
    """A cable that is said to stay out of the wall."""
    return plain(*more, cable(start=start, end=end, in_wall=False, **values))


def test_the_places_of_its_ends_beat_what_is_said_of_a_cable() -> None:
    job = plain(cable(in_wall=False))
    assert told(rules.cable_out_of_wall_by_word, job) == BY_WORD
    assert told(rules.cable_out_of_wall_by_word, plain(cable())) == []
    retired = plain(cable(in_wall=False, retired=job.today))
    assert told(rules.cable_out_of_wall_by_word, retired) == []


@rows(
    ("x", "use", "through"),
    [
        ("4'", "equipment", False),  # touches
        ("4' 4", "equipment", False),  # a rail of 4 in between two pieces of cabinet work
        ("4' 4 1/4", "equipment", True),
        ("4' 1/4", "screen", False),  # a joint
        ("4' 1 1/2", "screen", True),  # a stud
    ],
)
def test_a_cable_through_the_sides_of_one_cabinet_stays_out(x: str, use: str, through: bool) -> None:
    job = out(opening("N1", "2'", use=use), opening("N2", x, use=use), device("E1", "N1"), device("E2", "N2"))
    assert told(rules.cable_out_of_wall_by_word, job) == (BY_WORD if through else [])
    assert through_the_wall(job, "E1", "E2") is through
    assert (len(set(cabinets(job).values())) == 2) is through


def test_three_in_a_row_are_one_cabinet_and_another_wall_is_another() -> None:
    row = (opening("N1", "2'"), opening("N3", "6'"), opening("N2", "4'"))
    job = out(*row, device("E1", "N1"), device("E2", "N3"))
    assert told(rules.cable_out_of_wall_by_word, job) == []
    apart = out(opening("N1", "2'"), opening("N3", "6'"), device("E1", "N1"), device("E2", "N3"))
    assert told(rules.cable_out_of_wall_by_word, apart) == BY_WORD


def test_a_box_in_a_cabinet_is_in_it_and_a_box_at_the_face_is_not() -> None:
    bay = (opening("N1", "2'"), device("E1", "N1"))
    inside = out(*bay, box("B3", "3'", "2'"), end="B3")
    assert told(rules.cable_out_of_wall_by_word, inside) == []
    face = out(*bay, box("B3", "5'", "2'"), end="B3")
    assert told(rules.cable_out_of_wall_by_word, face) == BY_WORD


@rows("end", ["", "E3", "E4", "B5", "E1"])
def test_nothing_is_said_while_an_end_has_no_place(end: str) -> None:
    things = (
        opening("N1", "2'"),
        device("E1", "N1"),
        make(Equipment, "E3", name="free"),
        make(Opening, "N9", name="x"),
    )
    job = out(*things, device("E4", "N9"), make(type(box("B5", "1'", "1'")), "B5", what="junction"), end=end)
    assert told(rules.cable_out_of_wall_by_word, job) == []
    assert not in_the_wall(job, cable(start="E1", end=end, in_wall=False))


@pytest.mark.parametrize(("kind", "through"), [("ENT", True), ("grommet", False)])
def test_a_raceway_in_the_wall_is_in_the_wall(kind: str, through: bool) -> None:
    things = (opening("N1", "2'"), device("E1", "N1"), make(Equipment, "E3", name="free"))
    tube = make(Raceway, "R1", type=kind, start="B1", end="B2")
    job = out(*things, tube, end="E3", route="raceway", raceway="R1")
    assert told(rules.cable_out_of_wall_by_word, job) == (BY_WORD if through else [])
    not_in_it = out(*things, tube, end="E3", raceway="R1")
    assert told(rules.cable_out_of_wall_by_word, not_in_it) == []


# --- single conductors ---


@pytest.mark.parametrize(("kind", "region"), [("THHN 12", "us"), ("H07V-U 2.5", "metric")])
def test_single_conductors_need_a_raceway(kind: str, region: str) -> None:
    tube = make(Raceway, "R1", start="B1", end="B2", size="1/2")
    loose = plain(tube, cable(kind=kind, rating="THHN"), region=region)
    assert told(rules.conductor_without_raceway, loose) == [("conductor_without_raceway", "stop", ("K1",))]
    named = plain(tube, cable(kind=kind, rating="THHN", route="raceway"), region=region)
    assert told(rules.conductor_without_raceway, named) == [("conductor_without_raceway", "stop", ("K1",))]
    inside = plain(tube, cable(kind=kind, rating="THHN", route="raceway", raceway="R1"), region=region)
    assert told(rules.conductor_without_raceway, inside) == []
    assert told(rules.conductor_without_raceway, plain(cable(kind="12-2 nm"), region=region)) == []


@rows(
    ("x", "y", "inside"),
    [
        ("2'", "2'", True),
        ("1' 11 7/8", "2'", True),
        ("1' 11 3/4", "2'", False),
        ("4' 1/8", "2'", True),
        ("4' 1/4", "2'", False),
        ("3'", "3' 1/8", True),
        ("3'", "3' 1/4", False),
        ("3'", "11 7/8", True),
        ("3'", "11 3/4", False),
    ],
)
def test_a_thing_is_in_a_cabinet_up_to_its_very_edge(x: str, y: str, inside: bool) -> None:
    """The cabinet reaches from 2 ft to 4 ft across and from 1 ft to 3 ft up; half of a joint still counts to it."""
    bay = (opening("N1", "2'"), device("E1", "N1"))
    assert through_the_wall(plain(*bay, box("B3", x, y)), "E1", "B3") is not inside
    driver = make(Equipment, "E3", name="driver", what="driver", wall="W1", x=x, y=y)
    assert through_the_wall(plain(*bay, driver), "E1", "E3") is not inside
