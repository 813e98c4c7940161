"""Findings about cords: each with the smallest job that raises it, and the nearest that does not."""

from __future__ import annotations

from typing import Any

import pytest

from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.wall import Opening, Wall
from store.records.whole import Job
from store.records.wiring import Box, Cable, Raceway
from tests.jobs.power_case import circuit, job_of, make, only, receptacle, told
from tests.rules.plug.test_plug_rules import strip, thing

WALL = Wall(tag="W1", name="wall")


def opening(tag: str, use: str, x: str = "50", y: str = "40", width: str = "60", height: str = "36") -> Opening:
    """An opening on the wall."""
    return make(Opening, tag, name=use, use=use, wall="W1", x=x, y=y, width=width, height=height)


RECESS = opening("N1", "screen")
CABINET = opening("N2", "equipment", "0", "0", "40", "30")


def screen(**values: Any) -> Equipment:
    """A screen in the middle of its recess: 48 in wide, from 56 to 104 in across and 40 to 70 in up."""
    given: dict[str, Any] = {"what": "screen", "opening": "N1", "width": "48", "height": "30"}
    return thing(**{**given, **values})


def case(*records: Any) -> Job:
    """A wall with a recess for the screen, a cabinet and a circuit."""
    return job_of(WALL, circuit(), RECESS, CABINET, *records)


def test_a_cord_in_the_wall() -> None:
    cord = make(Cable, "K1", type="extension cord", start="B1", end="E1", in_wall=True)
    assert "400.12" in only(case(receptacle(), thing(), cord), "cord_in_wall", "stop").source
    cabinet = make(Cable, "K1", type="extension cord", start="B1", end="E1", in_wall=False, route="cabinet")
    assert not told(case(receptacle(), thing(), cabinet), "cord_in_wall")
    network = make(Cable, "K1", type="patch cord", start="B1", end="E1", in_wall=True)
    assert not told(case(receptacle(), thing(), network), "cord_in_wall")


def test_a_raceway_does_not_make_it_right() -> None:
    raceway = make(Raceway, "R1")
    cord = make(Cable, "K1", type="power cord", in_wall=False, route="raceway", raceway="R1")
    assert "R1" in only(case(raceway, cord), "cord_in_wall", "stop").says


def test_a_strip_in_the_wall() -> None:
    panel = make(Panel, "A1", name="panel")
    assert only(case(receptacle(), panel, strip(reached="A1")), "strip_in_wall", "stop").tags == ("E9",)
    behind = make(Panel, "A1", name="panel", behind=("E9",))
    assert only(case(receptacle(), behind, strip()), "strip_in_wall", "stop")
    fed = make(Cable, "K1", type="nm-12-2", start="B1", end="E9")
    assert only(case(receptacle(), strip(), fed), "strip_in_wall", "stop").numbers["cable"] == "K1"
    assert not told(case(receptacle(), panel, strip(reached="N2")), "strip_in_wall")
    assert only(case(receptacle(), strip(wall="W1", face="behind")), "strip_in_wall", "stop").numbers["behind"] == "W1"
    assert not told(case(receptacle(), strip(wall="W1", face="wall")), "strip_in_wall")


def test_a_cord_that_would_go_through_the_wall() -> None:
    in_cabinet = receptacle(wall="W1", x="20", y="12", reached="N2")
    finding = only(case(in_cabinet, screen()), "cord_through_wall", "stop")
    assert finding.tags == ("E1", "B1")
    on_the_face = receptacle(wall="W1", x="45", y="12")
    assert only(case(on_the_face, screen()), "cord_through_wall", "stop").numbers["plug in"] == "the face of the wall"
    behind_it = receptacle(wall="W1", x="80", y="60")
    assert not told(case(behind_it, screen()), "cord_through_wall")
    assert not told(case(receptacle(), screen()), "cord_through_wall"), "the place of the box is not known"
    joint = receptacle(what="junction", plate=True, wall="W1", x="20", y="12", reached="N2")
    assert not told(case(joint, screen()), "cord_through_wall"), "it takes no plug, and that is told"


def test_a_strip_does_not_hide_it() -> None:
    in_cabinet = receptacle(wall="W1", x="20", y="12", reached="N2")
    job = case(in_cabinet, strip(reached="N2"), screen(plug="E9"))
    assert only(job, "cord_through_wall", "stop").tags == ("E1", "E9")


def test_a_cord_from_cabinet_to_cabinet_is_to_be_looked_at() -> None:
    shelf = opening("N3", "shelf", "0", "31", "40", "20")
    box = receptacle(wall="W1", x="20", y="12", reached="N2")
    job = case(shelf, box, thing(opening="N3"))
    assert only(job, "cord_between_cabinets", "look").numbers == {"in": "N3", "plug in": "N2"}
    assert not told(case(shelf, box, thing(opening="N2")), "cord_between_cabinets")


def test_a_cord_too_short() -> None:
    """The screen's right edge is at 104 in; a box at 109 in, level with it, is 5 in away, and more round the back."""
    box = receptacle(wall="W1", x="109", y="60", reached="N1")
    assert only(case(box, screen(cord="4 3/4")), "cord_too_short", "fix").numbers["straight way"] == '5"'
    assert only(case(box, screen(cord="5")), "cord_just_reaches", "look")
    assert not told(case(box, screen(cord="5")), "cord_too_short")
    assert not told(case(box, screen(cord="3'")), "cord_just_reaches")
    assert not told(case(box, screen()), "cord_too_short"), "a cord that nobody measured is not judged"


def test_the_cord_of_a_strip_helps() -> None:
    box = receptacle(wall="W1", x="109", y="60", reached="N1")
    on_strip = screen(plug="E9", cord="4")
    assert only(case(box, strip(cord="3/4"), on_strip), "cord_too_short", "fix")
    assert not told(case(box, strip(cord="1"), on_strip), "cord_too_short")


def test_no_receptacle_behind_the_screen() -> None:
    away = receptacle(wall="W1", x="45", y="12")
    assert only(case(away, screen()), "no_receptacle_behind_screen", "fix").tags == ("E1", "N1")
    assert not told(case(receptacle(wall="W1", x="80", y="60"), screen()), "no_receptacle_behind_screen")
    assert not told(case(receptacle(reached="N1"), screen()), "no_receptacle_behind_screen")
    assert not told(case(away, screen(power="hard-wired")), "no_receptacle_behind_screen")


def quick(tag: str = "B2", x: str = "80", **values: Any) -> Box:
    """A quick-connect box at 16 in."""
    return make(Box, tag, what="quick-connect", wall="W1", x=x, y="16", **values)


def test_a_quick_connect_without_power() -> None:
    far = receptacle(wall="W1", x="120", y="16")
    assert only(case(far, quick()), "quick_connect_without_power", "fix").tags == ("B2",)


@pytest.mark.parametrize("x", ["110", "116"])
def test_a_quick_connect_beside_a_receptacle(x: str) -> None:
    assert not told(case(receptacle(wall="W1", x=x, y="16"), quick()), "quick_connect_without_power")


def test_a_quick_connect_that_is_fed() -> None:
    far = receptacle(wall="W1", x="120", y="16")
    assert not told(case(far, quick(circuit="C1")), "quick_connect_without_power")
    near, upper = quick("B2", "110"), quick("B3", "60")
    link = make(Cable, "K1", type="nm-14-2", start="B2", end="B3")
    assert not told(case(far, near, upper, link), "quick_connect_without_power")
    assert only(case(far, near, upper), "quick_connect_without_power", "fix").tags == ("B3",)
