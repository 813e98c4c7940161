"""Cabinets: sizes for the carpenter, hinges, slides, what tips and what a child reaches."""

from __future__ import annotations

from typing import Any

import pytest

from store.measure.length import INCH_NM
from store.measure.mass import parse_mass
from store.records.whole import Job
from store.rules.build.cabinets import _slide_text
from tests.jobs.wall_jobs import ROOM, device, figure, found, job_of, one, opening


def cabinet(wide: float = 30, high: float = 30, *, y: float = 0, **values: Any) -> Job:
    """A cabinet of 3/4 in plywood with one door, hinged left."""
    made = {"material": "plywood", "thickness": "3/4 in", "door": "solid", "hinge": "left", "use": "equipment"}
    return job_of(*ROOM, opening("N1", 10, y, wide, high, **{**made, **values}))


def test_sizes_for_the_carpenter() -> None:
    job = cabinet()
    lines = figure(job, "N1", "cabinet_lines")
    assert '2 x side: 30" x 20"' in lines
    assert '2 x top and bottom: 28-1/2" x 20"' in lines
    # Wider than 24 in: two overlay doors, 1/8 in between and half of it at each side.
    assert figure(job, "N1", "each_door_width").inches == pytest.approx(14.875)
    assert figure(job, "N1", "each_door_height").inches == pytest.approx(29.875)
    # 37 lb a cubic foot.
    assert figure(job, "N1", "each_door_lb") == pytest.approx(37 * 14.875 * 29.875 * 0.75 / 1728, abs=0.01)
    assert "4 x concealed hinge" in lines
    inset = cabinet(door_laid="inset")
    assert figure(inset, "N1", "each_door_width").inches == pytest.approx((28.5 - 3 * 3 / 32) / 2)


def test_a_door_that_no_hinge_carries() -> None:
    # 24 x 95 in of 3/4 in plywood: about 36 lb, and taller than 2.4 m.
    assert one(cabinet(24, 95), "door_too_heavy").severity == "fix"
    assert found(cabinet(24, 94), "door_too_heavy") == []
    assert figure(cabinet(24, 94), "N1", "hinges_a_door") == 5


def test_a_drawer_on_its_slides() -> None:
    drawer = cabinet(30, 12, use="drawer", hinge="drawer", load=parse_mass("40 lb"), depth=20)
    assert figure(drawer, "N1", "slide_length").inches == 18
    assert "1 x drawer slide 18 in, rated 40 lb or more, pair" in figure(drawer, "N1", "cabinet_lines")
    assert found(drawer, "drawer_too_shallow") == []
    assert found(cabinet(30, 12, use="drawer", hinge="drawer", depth=12), "drawer_too_shallow") == []
    assert found(cabinet(30, 12, use="drawer", hinge="drawer", depth=10), "drawer_too_shallow")


def test_what_a_child_pulls_over_is_told_until_it_is_tied_back() -> None:
    drawer: dict[str, Any] = {"use": "drawer", "hinge": "drawer", "load": parse_mass("20 lb")}
    assert one(cabinet(30, 20, tied="no", **drawer), "cabinet_tips").severity == "fix"
    assert found(cabinet(30, 20, tied="yes", **drawer), "cabinet_tips") == []
    assert found(cabinet(30, 20, **drawer), "cabinet_tips") == []
    assert figure(cabinet(30, 20, tied="no", **drawer), "N1", "tie_back_n") > 0
    # Tall, without a drawer: a person looks. 30 in is tall, 29 is not; what hangs is not on its feet.
    assert one(cabinet(30, 30, tied="no"), "cabinet_tips").severity == "look"
    assert found(cabinet(30, 29, tied="no"), "cabinet_tips") == []
    assert found(cabinet(30, 30, tied="no", y=20), "cabinet_tips") == []


def test_a_heater_within_reach_where_children_are() -> None:
    def room(children: str, y: float) -> Job:
        fire = device("E1", 30, 20, 6, what="fireplace", heats=True, mounting="made to be recessed")
        return job_of(*ROOM, opening("N1", 40, y, 30, 20, use="fireplace"), fire, children=children)

    assert one(room("yes", 10), "child_reaches").severity == "look"
    assert found(room("no", 10), "child_reaches") == []
    assert found(room("unknown", 10), "child_reaches") == []
    assert found(room("yes", 48), "child_reaches") == []


def test_a_bare_hole_is_no_cabinet() -> None:
    assert figure(cabinet(thickness=None), "N1", "cabinet_lines") is None


def test_a_slide_is_named_as_it_is_sold_where_the_job_is() -> None:
    # Common practice: slides come in steps of 2 in, or of 50 mm; a load is never rounded down.
    assert _slide_text(False, 18 * INCH_NM, 30.2) == "drawer slide 18 in, rated 31 lb or more, pair"
    assert _slide_text(True, 18 * INCH_NM, 30.2) == "drawer slide 450 mm, rated 14 kg or more, pair"
