"""What is left beside a piece, how long plugs are, what shelves are made of, the cord of a thing without a size."""

from __future__ import annotations

from typing import Any

from store.measure.length import INCH_NM, Length
from store.records.equipment import Equipment
from store.records.wall import Opening
from store.records.whole import Job
from store.records.wiring import Box, Cable, Circuit
from store.rules.cable.cable_rules import cable_settings_unreadable
from store.rules.cable.kinds import read_plug
from store.rules.fit.fit import pieces
from store.rules.fit.shelves import shelves
from store.rules.plug.places import reach_nm
from store.trade.fit.shelf import MATERIALS, material_named
from tests.jobs.wall_jobs import ROOM, device, found, job_of, made, one, opening, wall
from tests.rows import rows


def case(*records: Any, **settings: Any) -> Job:
    """A cabinet that is 30 in wide, 20 in high and 20 in deep inside."""
    return job_of(*ROOM, opening("N1", 10, 0, 30, 20, use="equipment"), *records, **settings)


def test_tight_says_the_whole_that_is_left() -> None:
    """29-15/16 in in 30: a sixteenth is left, not half of that at each side."""
    assert one(case(device("E1", 29.9375, 10, 10)), "tight").head == 'Tight fit in N1: 1/16" of width spare'
    # With a place of its own it has a sixteenth on its left, whatever is free on the other side.
    placed = one(case(device("E1", 20, 10, 10, offset=0.0625)), "tight")
    assert placed.head == 'Tight fit in N1: 1/16" of width on the left spare'
    both = case(device("E1", 14.9375, 10, 10), device("E2", 15, 10, 10))
    assert [each.head for each in found(both, "tight")] == ['Tight fit in N1: 1/16" of width spare'] * 2
    assert not found(case(device("E1", 14, 10, 10), device("E2", 15, 10, 10)), "tight")
    assert found(case(device("E1", 14, 10, 10), device("E2", 17, 10, 10)), "row_does_not_fit")


def test_how_long_plugs_are_is_a_setting() -> None:
    """HDMI: 1-1/2 in of plug, unless the job says 2-1/4: three quarters more are taken behind the device."""
    hdmi = made(Cable, "K1", type="hdmi", start="E1", end="E2", in_wall=False)
    devices = device("E1", 14, 10, 10), device("E2", 14, 10, 10)
    usual, longer = case(*devices, hdmi), case(*devices, hdmi, plugs=("hdmi 2 1/4",))
    family = case(*devices, hdmi, plugs=("all 3", "network 1"))
    depths = [pieces(job)["E1"].needs.depth_nm or 0 for job in (usual, longer, family)]
    assert [(each - depths[0]) / INCH_NM for each in depths] == [0, 0.75, 1.5]
    assert read_plug("cat6 40 mm", False) == ("cat6", 40_000_000)
    assert read_plug("12-2 nm 1", False) is not None
    for bad in ("hdmi", "hdmi 0", "2 1/4", "string 3"):
        assert read_plug(bad, False) is None
        assert [each.rule for each in cable_settings_unreadable(case(plugs=(bad,)))] == ["plug_length_unreadable"]


@rows(
    ("typed", "name"),
    [
        ("birch ply", "plywood"), ("Birch plywood", "plywood"), ("3/4 baltic birch ply", "plywood"), ("ply", "plywood"),
        ("MDF", "MDF"), ("painted mdf", "MDF"), ("melamine", "particleboard"), ("oak", "white oak"), ("pine",
        "eastern white pine"), ("Red Oak", "red oak"), ("glass", ""), ("", ""), ("birch", "yellow birch"),
        ("reply", ""),
    ],
)  # fmt: skip
def test_a_material_by_the_names_that_people_use(typed: str, name: str) -> None:
    assert material_named(typed) == name
    assert not name or name in MATERIALS


def test_a_shelf_is_judged_or_its_material_asked_for() -> None:
    def shelf(**more: Any) -> Job:
        return job_of(wall(), *ROOM[1:], opening("N1", 10, 40, 48, 12, use="shelf", depth=11, thickness=0.75, **more))

    assert shelves(shelf(material="birch ply"))["N1"].board.material == "plywood"
    assert found(shelf(material="birch ply"), "shelf_sags")
    assert not found(shelf(material="birch ply"), "shelf_material_unknown")
    assert one(shelf(material="glass"), "shelf_material_unknown").numbers == {"material": "glass"}
    assert not found(shelf(), "shelf_material_unknown"), "nothing was typed"


def test_a_thing_without_a_size_still_has_a_cord() -> None:
    """In a cabinet 10 to 40 in across: a receptacle at 100 in is 60 in from its nearest edge; 3 ft of cord is short."""
    outlet = made(Box, "B1", what="receptacle", wall="W1", x=100, y=10, receptacles=2, circuit="C1")
    circuit = made(Circuit, "C1", name="media", breaker=20.0, conductor="12")
    blank = made(Opening, "N1", name="cabinet", wall="W1", use="equipment", x=10, y=0, width=30, height=20, depth=20)
    box = case(outlet, circuit).of(Box)["B1"]

    def thing(**more: Any) -> Equipment:
        given = {"name": "box", "opening": "N1", "power": "cord", "plug": "B1", "cord": Length(36 * INCH_NM), **more}
        return made(Equipment, "E1", **given)

    plain = job_of(*ROOM, blank, thing(), outlet, circuit)
    assert reach_nm(plain, thing(), box) == (60 * INCH_NM, 75 * INCH_NM)
    assert one(plain, "cord_too_short").tags == ("E1", "B1")
    assert not found(plain.having(thing(cord=Length(80 * INCH_NM))), "cord_too_short")
    small = thing(width=10, height=5)
    assert reach_nm(plain.having(small), small, box) != (60 * INCH_NM, 75 * INCH_NM)
