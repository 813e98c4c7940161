"""Cabinets: sizes for the carpenter, hinges, slides, what tips and what a child reaches."""

from __future__ import annotations

from typing import Any

import pytest

from store.measure.mass import parse_mass
from store.measure.money import Money
from store.records.build import Fixing
from store.records.whole import Job
from store.records.wiring import Box
from store.rules.buying.buying_list import buying_list
from tests.jobs.wall_jobs import ROOM, device, figure, found, job_of, length, made, one, opening


def cabinet(wide: float = 30, high: float = 30, *, y: float = 0, more: tuple[Any, ...] = (), **values: Any) -> Job:
    """A cabinet of 3/4 in plywood with one door, hinged left."""
    given = {"material": "plywood", "thickness": "3/4 in", "door": "solid", "hinge": "left", "use": "equipment"}
    return job_of(*ROOM, opening("N1", 10, y, wide, high, **{**given, **values}), *more)


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
    # 40 lb in it; of 3/4 in plywood two sides 18 x 12, three ends 27-1/2 x 12, a bottom of 1/4 in: 26 lb, 66 in all.
    own = 37 / 1728 * (0.75 * (2 * 18 * 12 + 3 * 27.5 * 12) + 0.25 * 27.5 * 18)
    lines = figure(drawer, "N1", "cabinet_lines")
    assert f"slides carry 40 lb in it and {own:.0f} lb of drawer" in lines
    assert "1 x drawer slide 18 in, rated 75 lb or more, pair" in lines
    heavier = cabinet(30, 12, use="drawer", hinge="drawer", load=parse_mass(f"{75.1 - own:.2f} lb"), depth=20)
    assert figure(heavier, "N1", "slide_class_lb") == 100
    full: dict[str, Any] = {"use": "drawer", "hinge": "drawer", "depth": 20}
    assert found(cabinet(30, 12, load=parse_mass(f"{499 - own:.2f} lb"), **full), "drawer_too_heavy") == []
    assert one(cabinet(30, 12, load=parse_mass(f"{501 - own:.2f} lb"), **full), "drawer_too_heavy").severity == "fix"
    assert found(drawer, "drawer_too_shallow") == []
    assert found(cabinet(30, 12, use="drawer", hinge="drawer", depth=12), "drawer_too_shallow") == []
    assert found(cabinet(30, 12, use="drawer", hinge="drawer", depth=10), "drawer_too_shallow")


def test_what_a_child_pulls_over_is_told_until_it_is_tied_back() -> None:
    drawer: dict[str, Any] = {"use": "drawer", "hinge": "drawer", "load": parse_mass("20 lb")}
    assert one(cabinet(30, 20, tied="no", **drawer), "cabinet_tips").severity == "fix"
    assert found(cabinet(30, 20, tied="yes", **drawer), "cabinet_tips") == []
    # Nobody said: asked. Screws into framing are on the plan: known, whatever was said.
    assert one(cabinet(30, 20, **drawer), "cabinet_tips").severity == "look"
    screwed = made(Fixing, "X1", of="N1", what="wood screw 10", into="stud", length=3, apart=18)
    assert found(cabinet(30, 20, tied="no", more=(screwed,), **drawer), "cabinet_tips") == []
    loose = made(Fixing, "X1", of="N1", what="drywall anchor", into="drywall", apart=18)
    assert one(cabinet(30, 20, tied="no", more=(loose,), **drawer), "cabinet_tips").severity == "fix"
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
    # Common practice: slides come in steps of 2 in, or of 50 mm. 20 in less an inch behind is 482.6 mm.
    drawer = cabinet(30, 12, use="drawer", hinge="drawer", load=parse_mass("40 lb"), depth=20 + 1.5)
    metric = job_of(*(each for each in drawer.each() if each.kind != "job"), units="millimetres")
    assert "1 x drawer slide 500 mm, rated 34 kg or more, pair" in figure(metric, "N1", "cabinet_lines")
    assert figure(drawer, "N1", "slide_length").inches == 20
    shallow = cabinet(30, 12, use="drawer", hinge="drawer", depth=10)
    inch = one(shallow, "drawer_too_shallow")
    assert '11"' in inch.remedy
    assert "275 mm" in one(job_of(*(each for each in shallow.each() if each.kind != "job"), units="millimetres"),
                           "drawer_too_shallow").remedy  # fmt: skip


def test_a_drawer_over_another_is_one_piece_with_what_stands_under_it() -> None:
    # A drawer 12 in high on a cabinet 20 in high: alone on the floor it tips; 300 lb under it hold it down.
    low = {"material": "plywood", "thickness": "3/4 in", "tied": "no"}
    upper = opening("N2", 10, 20, 30, 12, use="drawer", hinge="drawer", load=parse_mass("20 lb"), **low)

    def job(load: str, y: float = 0) -> Job:
        lower = opening("N1", 10, y, 30, 20, use="equipment", load=parse_mass(load), **low)
        return job_of(*ROOM, lower, made(type(upper), **{**fields(upper), "y": 20 + y}))

    assert one(job("5 lb"), "cabinet_tips").tags == ("N2",)
    told = one(job("300 lb"), "cabinet_tips")  # it is 32 in high: tall, and told of at its bottom
    assert (told.tags, told.severity) == (("N1",), "look")
    assert figure(job("300 lb"), "N2", "tie_back_n") == 0
    assert figure(job("5 lb"), "N1", "tie_back_n") == figure(job("5 lb"), "N2", "tie_back_n") > 0
    assert one(job("5 lb", 4), "cabinet_tips")  # on a toe kick
    assert found(job("5 lb", 5), "cabinet_tips") == []  # that hangs


def fields(record: Any) -> dict[str, Any]:
    """The fields of a record as they are."""
    return {key: getattr(record, key) for key in record.__struct_fields__}


def test_a_cord_within_reach_where_children_are() -> None:
    def room(children: str = "yes", up: float = 16, **values: Any) -> Job:
        door, power = values.pop("door", "none"), values.pop("power", "cord")
        cabinet = opening("N1", 40, 10, 30, 20, use="equipment", door=door)
        box = made(
            Box, "B1", name="receptacle", what="receptacle", wall="W1", x=length(values.pop("x", 100)), y=length(up)
        )
        gear = device("E1", 17, 6, 15, what="receiver", power=power, **{"plug": "B1", **values})
        return job_of(*ROOM, cabinet, box, gear, children=children)

    finding = one(room(), "child_reaches_cord")
    assert (finding.severity, finding.tags) == ("look", ("E1", "B1"))
    assert found(room("no"), "child_reaches_cord") == found(room("unknown"), "child_reaches_cord") == []
    assert found(room(up=48), "child_reaches_cord") == []
    assert one(room(up=47.9), "child_reaches_cord")
    assert found(room(power="hard-wired"), "child_reaches_cord") == []
    # The receptacle in the cabinet: behind a door it is out of reach, in an open one it is not.
    assert found(room(x=55, door="solid"), "child_reaches_cord") == []
    assert one(room(x=55), "child_reaches_cord")
    # With no receptacle entered: where the equipment stands.
    assert found(room(plug="", door="glass"), "child_reaches_cord") == []
    assert one(room(plug=""), "child_reaches_cord").tags == ("E1",)


def test_boards_are_laid_on_sheets_and_bought() -> None:
    # Sides 30 x 20 twice, top and bottom 28-1/2 x 20 twice, two doors 29-7/8 x 14-7/8: two rows of 48 in and one more.
    job = cabinet()
    lines = {line.what: line for line in buying_list(job) if "N1" in line.tags}
    assert lines['plywood 3/4", sheet 48" x 8\'-0"'].count == 1
    assert lines['plywood 1/4", sheet 48" x 8\'-0"'].count == 1
    assert lines['plywood 3/4", sheet 48" x 8\'-0"'].unpriced == 1
    assert not any("sheet" in line.what for line in buying_list(cabinet(parts=("boards",))))
    priced = {line.what: line for line in buying_list(cabinet(price=Money(30_000)))}
    assert sum(line.total or 0 for line in priced.values()) == 30_000
    assert all(not line.unpriced for line in priced.values() if "N1" in line.tags)
