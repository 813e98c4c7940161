"""Each condition of the ways to things by itself: the nearest jobs on both sides of it."""

from __future__ import annotations

from typing import Any

import msgspec
import pytest

from store.measure.length import parse_length
from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.field import Ref
from store.records.wiring import Box, Cable, Circuit
from store.rules.access.access_rules import (
    behind_fixed_piece,
    box_without_way,
    cable_end_without_way,
    hidden_thing_nowhere,
    mains_end_without_way,
    thing_without_way,
    way_does_not_count,
    way_on_other_wall,
)
from store.rules.access.means import fixed_fronts, gap_nm, means_of, needs_access
from store.rules.core.wording import ELECTRICIAN
from store.trade.measured.plane import Rect
from tests.jobs.access_jobs import at, box, job_of, make, only, opening, panel, told

NOWHERE = make(Panel, "A1", name="p")
BAY = opening("N2", "fireplace", "40", "8", "50", "40")


def unit(**values: Any) -> Equipment:
    """A wired unit in the bay."""
    own = {"opening": "N2", "power": "hard-wired", "what": "receiver", "width": at("20"), "height": at("10")}
    return make(Equipment, "E2", name="unit", **(own | values))


def ways(*records: Any, tag: str = "B1") -> list[tuple[str, bool]]:
    """The ways to a thing, and which of them count."""
    return [(way.by, way.counts) for way in means_of(job_of(*records), tag)]


# --- the ways there are ---


def test_a_box_that_names_no_way_has_its_plate_or_the_recess_it_is_in() -> None:
    shelf, recess = opening("N3", "shelf", "4", "6", "30", "30"), opening("N1", "screen", "4", "6", "30", "30")
    for what, plate, free, in_recess, in_shelf in (
        ("receptacle", False, "B1", "N1", None),
        ("low-voltage", False, "B1", "N1", None),
        ("junction", False, None, None, None),
        ("junction", True, "B1", "N1", None),
    ):
        one = box("B1", what, "10", "20", plate=plate)
        for around, by in (((), free), ((recess,), in_recess), ((shelf,), in_shelf)):
            assert ways(one, *around) == ([(by, True)] if by else []), (what, plate, around)


def test_equipment_is_reached_through_what_it_names_else_through_its_opening() -> None:
    shelf = opening("N1", "shelf", "4", "6", "30", "30")
    one = make(Equipment, "E1", name="set", opening="N1", what="receiver")
    assert ways(one, shelf, tag="E1") == [("N1", True)]
    named = msgspec.structs.replace(one, reached=Ref("A1"))
    assert [by for by, _ in ways(named, shelf, panel("A1", "12", "12"), tag="E1")] == ["A1"]
    assert ways(make(Equipment, "E1", name="set"), shelf, tag="E1") == []


@pytest.mark.parametrize("missing", ["width", "height"])
def test_a_size_that_is_missing_is_no_small_one(missing: str) -> None:
    one = msgspec.structs.replace(panel("A1", "12", "12", height="16"), **{missing: None})
    (way,) = means_of(job_of(box("B1", "junction", "20", "20", reached="A1"), one), "B1")
    assert (way.clear, way.nowhere) == (None, True)


def test_how_far_is_told_on_one_wall_alone() -> None:
    assert gap_nm(Rect(0, 0, 10, 10), (13, 14)) == 5
    assert gap_nm(Rect(0, 0, 10, 10), (10, 10)) == 0
    there = box("B1", "junction", "100", "20", reached="A1")
    (same,) = means_of(job_of(there, panel("A1", "12", "12")), "B1")
    (other,) = means_of(job_of(there, panel("A1", "12", "12", wall="W2")), "B1")
    (none,) = means_of(job_of(there, panel("A1", "12", "12", wall="")), "B1")
    assert (same.too_far, same.other_wall) == (True, False)
    assert (other.far_nm, other.too_far, other.other_wall) == (None, False, True)
    assert (none.other_wall, none.nowhere) == (False, True)


# --- what is in front ---


def test_what_hangs_covers_its_own_place_and_what_stands_any_shelf_above_it() -> None:
    high = box("B1", "receptacle", "65", "46", reached="N2")
    assert ways(high, BAY, unit(mounting="shelf")) == [("N2", False)]
    assert ways(high, BAY, unit(mounting="wall bracket")) == [("N2", True)]
    middle = box("B1", "receptacle", "65", "28", reached="N2")
    assert ways(middle, BAY, unit(mounting="wall bracket")) == [("N2", False)]


def test_only_a_fixed_piece_that_is_no_small_hidden_one_is_in_front() -> None:
    assert set(fixed_fronts(job_of(BAY, unit()))) == {"N2"}
    assert not fixed_fronts(job_of(BAY, unit(power="cord")))
    assert not fixed_fronts(job_of(BAY, unit(what="driver")))
    assert not fixed_fronts(job_of(msgspec.structs.replace(BAY, width=None), unit()))


def test_a_thing_without_a_place_is_behind_whatever_is_fixed_in_its_opening() -> None:
    lost = make(Box, "B1", what="receptacle", reached="N2")
    assert ways(lost, BAY, unit()) == [("N2", False)]
    assert ways(lost, BAY) == [("N2", True)]


def test_gear_beside_a_fixed_piece_is_in_front_itself_and_a_hidden_one_is_behind() -> None:
    one = make(Equipment, "E1", name="set", opening="N2", what="receiver", width=at("4"), height=at("4"))
    assert ways(one, BAY, unit(), tag="E1") == [("N2", True)]
    hidden = msgspec.structs.replace(one, what="driver", width=None)
    assert ways(hidden, BAY, unit(mounting="wall bracket"), tag="E1") == [("N2", False)]
    shelf = opening("N1", "shelf", "40", "8", "50", "40")
    away = msgspec.structs.replace(one, opening=Ref("N1"), reached=Ref("N2"), width=None)
    assert ways(away, BAY, shelf, unit(mounting="wall bracket"), tag="E1") == [("N2", False)]


def test_the_box_that_feeds_a_unit_by_plug_or_by_cable_comes_out_with_it() -> None:
    feed = box("B1", "junction", "65", "28", reached="N2")
    wire = make(Cable, "K1", type="nm-12-2", start="B1", end="E2")
    hung = unit(mounting="wall bracket")
    assert ways(feed, BAY, hung) == [("N2", False)]
    reached = msgspec.structs.replace(wire, reached=Ref("N2"))
    assert ways(feed, BAY, hung, reached, tag="K1") == [("N2", True)]
    assert ways(feed, BAY, hung, msgspec.structs.replace(reached, end=Ref("B1"), start=Ref("")), tag="K1") == [
        ("N2", False)
    ]
    fed = msgspec.structs.replace(hung, plug=Ref("B1"))
    assert ways(feed, BAY, fed) == [("N2", True)]
    assert told(behind_fixed_piece, job_of(feed, BAY, fed)) == [("behind_fixed_piece", "look", ("B1", "E2"))]
    lost = msgspec.structs.replace(BAY, wall=Ref(""))
    assert told(behind_fixed_piece, job_of(feed, lost, fed)) == []


# --- what needs a way ---


def test_what_is_behind_the_face_needs_a_way_and_what_is_in_an_opening_has_it() -> None:
    driver = make(Equipment, "E1", name="x", what="driver")
    assert needs_access(driver)
    assert not needs_access(msgspec.structs.replace(driver, opening=Ref("N1")))
    assert not needs_access(msgspec.structs.replace(driver, retired=job_of().today))
    player = make(Equipment, "E1", name="x", what="player", face="behind")
    assert not needs_access(player)
    assert needs_access(msgspec.structs.replace(player, wall=Ref("W1")))
    lamp = msgspec.structs.replace(driver, what="light", face="nearest", wall=Ref(""), power="cord", plug=Ref("B1"))
    strip = msgspec.structs.replace(lamp, plug=Ref("E9"), tape=parse_length("40 in"))
    assert needs_access(strip)
    assert not needs_access(msgspec.structs.replace(strip, stands_on=Ref("E7"))), "along a floating shelf"
    assert needs_access(msgspec.structs.replace(strip, stands_on=Ref("E7"), face="behind"))
    assert not needs_access(lamp)
    for taped in ({"plug": Ref("E2")}, {"wall": Ref("W1")}, {"tape": parse_length("8'")}):
        assert needs_access(msgspec.structs.replace(lamp, **taped))


def test_a_power_box_behind_a_cabinet_is_told_by_its_own_rule() -> None:
    shelf = opening("N3", "shelf", "4", "6", "30", "30")
    for what, plate, found in (
        ("receptacle", True, []), ("receptacle", False, []), ("junction", False, []), ("junction", True, ["stop"]),
        ("low-voltage", False, ["stop"]),
    ):  # fmt: skip
        job = job_of(shelf, box("B1", what, "10", "20", plate=plate))
        assert [each[1] for each in told(box_without_way, job)] == found, (what, plate)
    plated = only(box_without_way(job_of(shelf, box("B1", "junction", "10", "20", plate=True))))
    plain = only(box_without_way(job_of(shelf, box("B1", "low-voltage", "10", "20"))))
    assert "its blank plate" in plated.why
    assert "its blank plate" not in plain.why
    assert ELECTRICIAN in plated.do
    assert ELECTRICIAN not in plain.do


# --- how grave ---


def test_a_way_that_stands_nowhere_is_told_of_what_has_a_place_and_of_joints() -> None:
    placed = box("B1", "low-voltage", "20", "20", reached="A1")
    assert told(way_does_not_count, job_of(placed, NOWHERE)) == [("way_nowhere", "stop", ("B1", "A1"))]
    for lacking in ({"wall": Ref("")}, {"x": None}, {"y": None}):
        assert told(way_does_not_count, job_of(msgspec.structs.replace(placed, **lacking), NOWHERE)) == []
    joint = msgspec.structs.replace(placed, what="junction", wall=Ref(""))
    assert told(way_does_not_count, job_of(joint, NOWHERE)) == [("way_nowhere", "stop", ("B1", "A1"))]
    assert told(way_does_not_count, job_of(msgspec.structs.replace(joint, plate=True), NOWHERE)) == []


def test_a_cable_is_lost_and_a_connection_is_buried() -> None:
    end = make(Cable, "K1", name="splice lead", type="cat6", reached="A1")
    assert told(way_does_not_count, job_of(end, NOWHERE)) == [("way_nowhere", "fix", ("K1", "A1"))]
    assert told(way_does_not_count, job_of(msgspec.structs.replace(end, reached=Ref("")), NOWHERE)) == []
    assert told(way_does_not_count, job_of(msgspec.structs.replace(end, retired=job_of().today), NOWHERE)) == []
    through = box("B1", "pass-through", "100", "20", reached="A1")
    assert told(way_does_not_count, job_of(through, panel("A1", "12", "12"))) == [("way_too_far", "fix", ("B1", "A1"))]


def test_a_device_is_as_grave_as_what_is_joined_to_it() -> None:
    way = panel("A1", "12", "12", height="16")
    light = make(Equipment, "E1", name="x", what="light", reached="A1", wall="W1", x=at("100"), y=at("20"))
    for cable, severity in (("nm-12-2", "stop"), ("cat6", "fix")):
        wire = make(Cable, "K1", type=cable, start="B1", end="E1")
        job = job_of(light, way, wire, box("B1", "junction", "20", "20", plate=True))
        assert told(way_does_not_count, job) == [("way_too_far", severity, ("E1", "A1"))]
        assert (ELECTRICIAN in only(way_does_not_count(job)).do) is (severity == "stop")
    for name, severity in (("Splice of the lead", "stop"), ("Gas valve", "stop"), ("Trim", "fix")):
        joint = make(Equipment, "E1", name=name, what="part")
        assert told(thing_without_way, job_of(joint)) == [("thing_without_way", severity, ("E1",))], name


def test_a_place_is_asked_for_of_what_is_behind_a_panel_that_counts() -> None:
    way = panel("A1", "12", "12", height="16")
    driver = make(Equipment, "E1", name="x", what="driver", reached="A1")
    assert told(hidden_thing_nowhere, job_of(driver, way)) == [("hidden_thing_nowhere", "look", ("E1",))]
    assert told(hidden_thing_nowhere, job_of(driver, NOWHERE)) == []
    assert told(hidden_thing_nowhere, job_of(msgspec.structs.replace(driver, what="receiver"), way)) == []
    joint = make(Box, "B1", what="junction")
    assert told(hidden_thing_nowhere, job_of(joint)) == []
    buried = only(hidden_thing_nowhere(job_of(msgspec.structs.replace(joint, reached=Ref("A1")), way)))
    hidden = only(hidden_thing_nowhere(job_of(driver, way)))
    assert (buried.source, hidden.source) == ("NEC 2020 314.29", "common practice")


def test_only_what_is_hidden_or_names_its_way_is_judged_by_it() -> None:
    far, shelf = panel("A1", "130", "80", behind=("E1",)), opening("N1", "shelf", "4", "6", "30", "30")
    gear = make(Equipment, "E1", name="x", what="receiver", opening="N1")
    tight = make(Equipment, "E1", name="x", what="driver", opening="N1", width=at("4"), height=at("4"))
    for one in (gear, tight):
        assert told(way_does_not_count, job_of(one, shelf, far)) == []
        named = msgspec.structs.replace(one, reached=Ref("A1"))
        assert told(way_does_not_count, job_of(named, shelf, far)) == [("way_too_far", "fix", ("E1", "A1"))]
        gone = msgspec.structs.replace(named, retired=job_of().today)
        assert told(way_does_not_count, job_of(gone, shelf, far)) == []
    inside = msgspec.structs.replace(gear, opening=Ref("N2"))
    assert told(way_does_not_count, job_of(inside, BAY, unit(), far)) == []
    shut_in = msgspec.structs.replace(tight, opening=Ref("N2"))
    assert told(way_does_not_count, job_of(shut_in, BAY, unit(), far)) == [("way_too_far", "stop", ("E1", "A1"))]
    strip = msgspec.structs.replace(shut_in, what="strip")
    assert told(way_does_not_count, job_of(strip, BAY, unit(), far)) == [("way_too_far", "stop", ("E1", "A1"))]
    cable = make(Cable, "K1", type="cat6")
    assert told(way_does_not_count, job_of(cable, msgspec.structs.replace(NOWHERE, behind=(Ref("K1"),)))) == []


def test_a_way_on_another_wall_says_who_may_accept_it() -> None:
    other = panel("A1", "12", "12", wall="W2")
    joint = only(way_on_other_wall(job_of(box("B1", "junction", "20", "20", reached="A1"), other)))
    light = make(Equipment, "E1", name="x", what="light", reached="A1", wall="W1", x=at("20"), y=at("20"))
    lost = only(way_on_other_wall(job_of(light, other)))
    assert (joint.source, lost.source) == ("NEC 2020 314.29", "common practice")
    assert "have the inspector accept this" in joint.do
    assert ELECTRICIAN in joint.do
    assert lost.do.endswith("accept this.")
    assert "inspector" not in lost.do
    assert joint.numbers["walls"] == "W1, W2"


# --- loose ends ---


def test_a_loose_end_is_one_of_a_cable_in_use_in_the_wall_that_nothing_reaches() -> None:
    ends = [box("B1", "low-voltage", "20", "20"), box("B2", "low-voltage", "40", "20")]
    loose = make(Cable, "K1", type="cat6", start="B1")
    assert told(cable_end_without_way, job_of(*ends, loose)) == [("cable_end_without_way", "fix", ("K1",))]
    other = msgspec.structs.replace(loose, start=Ref(""), end=Ref("B1"))
    assert told(cable_end_without_way, job_of(*ends, other)) == [("cable_end_without_way", "fix", ("K1",))]
    one = only(cable_end_without_way(job_of(*ends, loose)))
    assert (one.head, one.numbers) == ("Loose cable end in the wall", {"K1": "to"})
    more = msgspec.structs.replace(loose, tag="K2", start=Ref(""))
    two = only(cable_end_without_way(job_of(*ends, loose, more)))
    assert (two.head, two.numbers) == ("Loose cable ends in the wall", {"K1": "to", "K2": "from and to"})
    for well in ({"end": Ref("B2")}, {"retired": job_of().today}, {"in_wall": False}, {"reached": Ref("A1")},
                 {"type": "nm-12-2"}):  # fmt: skip
        assert told(cable_end_without_way, job_of(*ends, msgspec.structs.replace(loose, **well))) == [], well
    assert told(cable_end_without_way, job_of(*ends, loose, panel("A1", "12", "12", behind=("K1",)))) == []


def test_a_mains_end_is_one_of_a_cable_in_use_in_the_wall_that_nothing_reaches() -> None:
    there = [box("B1", "receptacle", "20", "16", circuit="C1"), box("B2", "receptacle", "40", "16", circuit="C1")]
    feed, on = make(Cable, "K1", type="nm-12-2", end="B1"), make(Cable, "K2", type="nm-12-2", start="B1")
    assert told(mains_end_without_way, job_of(*there, feed, on)) == [("mains_end_without_way", "stop", ("K2",))]
    for well in ({"end": Ref("B2")}, {"retired": job_of().today}, {"in_wall": False}, {"reached": Ref("A1")}):
        assert told(mains_end_without_way, job_of(*there, feed, msgspec.structs.replace(on, **well))) == [], well
    assert told(mains_end_without_way, job_of(*there, feed, on, panel("A1", "12", "12", behind=("K2",)))) == []
    assert told(mains_end_without_way, job_of(*there, on)) == []
    assert only(mains_end_without_way(job_of(*there, feed, on))).source == "NEC 2020 300.15"
    abroad = [*there, make(Circuit, "C1", name="media", wiring="radial"), feed, on]
    found = only(mains_end_without_way(job_of(*abroad, region="metric")))
    assert (found.tags, found.source) == (("K2",), "BS 7671:2018 526.3 (from memory)")
    wired = make(Equipment, "E1", name="unit", power="hard-wired")
    ends = [make(Cable, "K1", type="nm-12-2", end="E1"), make(Cable, "K2", type="nm-12-2", start="E1")]
    assert told(mains_end_without_way, job_of(wired, *ends)) == [("mains_end_without_way", "stop", ("K2",))]


def test_what_nothing_reaches_is_not_reached_by_pulling_anything() -> None:
    assert told(behind_fixed_piece, job_of(box("B1", "junction", "20", "20"))) == []


def test_how_deep_a_thing_is_behind_its_panel_is_said_where_it_counts() -> None:
    deep = make(Equipment, "E1", name="x", what="driver", reached="A1", wall="W1", x=at("100"), y=at("20"))
    (flat,) = way_does_not_count(job_of(deep, panel("A1", "12", "12", height="16")))
    assert "in depth" not in flat.why
    assert flat.numbers["away"] == flat.why.partition("access, but it is ")[2].partition(" away")[0]
