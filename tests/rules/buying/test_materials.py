"""Lumber, drywall, screws and hardware on the buying list: what is bought is off it, and what it costs."""

from __future__ import annotations

from typing import Any

from store.measure.money import Money
from store.records.base import Record
from store.records.build import Fixing
from store.records.whole import Job
from store.rules.buying.buying_list import bought, buying_list
from store.rules.buying.materials import materials
from tests.jobs.wall_jobs import ROOM, job_of, made, opening, read, wall


def job(*more: Record, **values: Any) -> Job:
    """A new wall of 96 x 96 in with a cabinet that has a door, held by four screws."""
    given = {"first_stud": 16, "framing": "new wood", **values}
    place = opening("N1", 30, 30, 20, 20, depth=12, material="plywood", thickness="3/4 in", door="solid", hinge="left")
    screws = made(Fixing, "X1", of="N1", what="wood screw 10", count=4, length=3, into="stud", apart=15)
    return job_of(wall(**given), read("D1", "width", 96), read("D2", "height", 96), place, screws, *more)


def lines(one: Job, group: str) -> dict[str, int]:
    return {each.what: each.count for each in buying_list(one) if each.group == group}


def test_every_take_off_is_on_the_list() -> None:
    framing = lines(job(opening("N2", 60, 60, 10, 10, depth=1)), "Framing")
    assert any(each.startswith("2x4: ") for each in framing)
    assert any(each.startswith("nails 16d") for each in framing)
    drywall = lines(job(), "Drywall")
    assert drywall["drywall screws"] == 64
    assert any(each.startswith("drywall 4") for each in drywall)
    hardware = lines(job(), "Screws and hardware")
    boards = {'plywood 3/4", sheet 48" x 8\'-0"': 1, 'plywood 1/4", sheet 48" x 8\'-0"': 1}
    assert hardware == {'wood screw 10 x 3"': 4, "concealed hinge": 2} | boards


def test_what_is_ticked_is_off_the_list_and_noted_where_it_belongs() -> None:
    one = job()
    keys = {each.key for each in buying_list(one) if each.group in ("Framing", "Drywall", "Screws and hardware")}
    changed = {new.tag: new for _, new in bought(one, keys)}
    assert set(changed) == {"W1", "N1", "X1"}
    after = one
    for each in changed.values():
        after = after.having(each)
    assert [each for each in buying_list(after) if each.group in ("Framing", "Drywall", "Screws and hardware")] == []


def test_prices_of_a_wall_are_told_once() -> None:
    priced = job(lumber_price=Money(12_345), drywall_price=Money(6_789))
    for group, price in (("Framing", 12_345), ("Drywall", 6_789)):
        assert sum(each.total or 0 for each in buying_list(priced) if each.group == group) == price
        assert sum(each.unpriced for each in buying_list(priced) if each.group == group) == 0
    plain = job()
    assert all(each.unpriced == each.count for each in buying_list(plain) if each.group in ("Framing", "Drywall"))


def test_a_wall_that_stands_wants_no_studs_and_drywall_only_where_it_is_said() -> None:
    standing: dict[str, Any] = {"framing": "existing", "bearing": "unknown"}
    assert lines(job(**standing), "Framing") == {}
    assert lines(job(**standing), "Drywall") == {}
    assert lines(job(**standing, to_board="yes"), "Drywall")
    assert lines(job(to_board="no"), "Drywall") == {}


def test_the_fan_and_the_vents_of_a_closed_cabinet_are_bought_till_they_are_on_hand() -> None:
    def wanted(**values: Any) -> dict[str, int]:
        place = opening(
            "N1", 10, 10, 30, 48, **{"door": "solid", "air_in": 24.0, "air_out": 24.0, "fan": 40.0, **values}
        )
        return {each.what: each.count for each in materials(job_of(*ROOM, place)) if each.part in ("fan", "vents")}

    assert wanted() == {"cabinet fan, 40 cfm": 1, "vent, 24 in² free": 2}
    assert wanted(air_out=30.0, parts=("fan",)) == {"vent, 24 in² free": 1, "vent, 30 in² free": 1}
    assert wanted(parts=("fan", "vents")) == {}
    assert wanted(door="none", fan=None) == {}
