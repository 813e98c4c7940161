"""What would be buried: each finding by the smallest job that raises it, and the nearest that does not."""

from __future__ import annotations

from typing import Any

import msgspec
import pytest

from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.field import Ref
from store.records.wall import Opening, Wall
from store.records.whole import Job
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
from store.rules.access.means import best_means, blocked_panels, means_of
from store.rules.access.panel_contents import panel_contents
from store.rules.core.findings import findings
from tests.jobs.access_jobs import at, box, job_of, make, only, opening, panel, told
from tests.rows import rows


def fireplace(**values: Any) -> Equipment:
    """A unit made to be recessed that fills its opening."""
    own = {
        "opening": "N2",
        "mounting": "made to be recessed",
        "what": "fireplace",
        "heats": True,
        "power": "hard-wired",
        "width": at("48"),
        "height": at("18"),
    }
    return make(Equipment, "E2", name="Fireplace", **(own | values))


HEARTH = opening("N2", "fireplace", "40", "8", "50", "20")


# --- boxes ---


def test_a_signal_box_behind_a_cabinet_must_name_its_way() -> None:
    cabinet = opening("N3", "equipment", "4", "6", "30", "30")
    hidden = box("B1", "low-voltage", "10", "20")
    assert told(box_without_way, job_of(cabinet, hidden)) == [("box_without_way", "stop", ("B1", "N3"))]
    assert not told(box_without_way, job_of(cabinet, box("B1", "low-voltage", "10", "20", reached="N3")))
    assert not told(box_without_way, job_of(cabinet, box("B1", "low-voltage", "40", "20")))


def test_a_pass_through_behind_a_cabinet_is_lost_and_not_dangerous() -> None:
    cabinet = opening("N3", "shelf", "4", "6", "30", "30")
    assert told(box_without_way, job_of(cabinet, box("B1", "pass-through", "10", "20"))) == [
        ("box_without_way", "fix", ("B1", "N3"))
    ]


def test_a_blank_plate_behind_a_cabinet_is_not_seen() -> None:
    cabinet = opening("N3", "shelf", "4", "6", "30", "30")
    buried = box("B1", "junction", "10", "20", plate=True)
    found = only(box_without_way(job_of(cabinet, buried)))
    assert (found.severity, found.source) == ("stop", "NEC 2020 314.29")
    assert not told(box_without_way, job_of(cabinet, box("B1", "junction", "40", "20", plate=True)))


def test_a_panel_that_lists_a_box_gives_access_to_it() -> None:
    cabinet = opening("N3", "equipment", "4", "6", "30", "30")
    job = job_of(cabinet, box("B1", "low-voltage", "10", "20"), panel("A1", "5", "15", behind=("B1",)))
    assert not told(box_without_way, job)
    assert [way.by for way in means_of(job, "B1")] == ["A1"]


# --- ways that do not count ---


def test_a_panel_behind_a_fixed_unit_does_not_count() -> None:
    junction = box("B1", "junction", "60", "16", reached="A1")
    hidden = panel("A1", "55", "10")
    job = job_of(HEARTH, fireplace(), junction, hidden)
    assert blocked_panels(job) == {"A1": "E2"}
    assert ("way_blocked", "stop", ("B1", "A1")) in told(way_does_not_count, job)
    beside = job_of(HEARTH, fireplace(), box("B1", "junction", "98", "16", reached="A1"), panel("A1", "94", "10"))
    assert blocked_panels(beside) == {}
    assert not told(way_does_not_count, beside)


def test_a_panel_behind_what_the_owner_calls_fixed_does_not_count_until_that_is_retired() -> None:
    junction = box("B1", "junction", "20", "20", reached="A1")
    shelf = make(Equipment, "E1", name="Glued shelf", what="other")
    shut = panel("A1", "16", "16", blocked_by="E1")
    assert told(way_does_not_count, job_of(junction, shelf, shut)) == [("way_blocked", "stop", ("B1", "A1"))]
    gone = make(Equipment, "E1", name="Glued shelf", what="other", retired=job_of().today)
    assert not told(way_does_not_count, job_of(junction, gone, shut))


def test_a_second_way_that_counts_is_enough() -> None:
    junction = box("B1", "junction", "80", "16", reached="A1")
    one = job_of(HEARTH, fireplace(), junction, panel("A1", "75", "10"))
    assert told(way_does_not_count, one) == [("way_blocked", "stop", ("B1", "A1"))]
    two = one.having(panel("A2", "94", "10", behind=("B1",)))
    assert not told(way_does_not_count, two)
    way = best_means(two, "B1")
    assert way is not None
    assert way.by == "A2"


@pytest.mark.parametrize(("x", "buried"), [("42 1/16", True), ("42", False)])
def test_a_box_farther_than_a_hand_reaches_is_buried(x: str, buried: bool) -> None:
    # The panel ends 24 in from the left; two hands get 18 in past its edge.
    job = job_of(box("B1", "junction", x, "20", reached="A1"), panel("A1", "12", "12", height="16"))
    assert told(way_does_not_count, job) == ([("way_too_far", "stop", ("B1", "A1"))] if buried else [])


def test_moving_the_panel_away_buries_the_box() -> None:
    near = job_of(box("B1", "junction", "20", "20", reached="A1"), panel("A1", "16", "16"))
    far = near.having(panel("A1", "100", "16"))
    assert not told(way_does_not_count, near)
    assert told(way_does_not_count, far) == [("way_too_far", "stop", ("B1", "A1"))]
    assert _stops(far) - _stops(near) == {"way_too_far:B1,A1"}


def _stops(job: Job) -> set[str]:
    return {each.key for each in findings(job) if each.severity == "stop"}


def test_a_receptacle_behind_a_fixed_unit_that_it_does_not_feed_is_buried() -> None:
    other = box("B1", "receptacle", "60", "16", reached="N2")
    assert told(way_does_not_count, job_of(HEARTH, fireplace(), other)) == [("way_blocked", "stop", ("B1", "N2"))]
    assert not told(way_does_not_count, job_of(HEARTH, fireplace(mounting="shelf", power="cord", heats=False), other))


def test_the_box_that_feeds_a_fixed_unit_is_asked_about() -> None:
    feed = box("B1", "junction", "60", "16", reached="N2")
    job = job_of(HEARTH, fireplace(plug="B1"), feed)
    assert not told(way_does_not_count, job)
    assert told(behind_fixed_piece, job) == [("behind_fixed_piece", "look", ("B1", "E2"))]
    beside = box("B1", "junction", "42", "10", reached="N2")
    free = fireplace(plug="B1", width=at("40"), height=at("18"))
    assert not told(behind_fixed_piece, job_of(HEARTH, free, beside))


def test_a_way_on_another_wall_is_asked_about() -> None:
    other = make(Wall, "W2", name="Other side")
    job = job_of(other, box("B1", "junction", "20", "20", reached="A1"), panel("A1", "16", "16", wall="W2"))
    assert told(way_on_other_wall, job) == [("way_on_other_wall", "stop", ("B1", "A1"))]
    assert not told(way_does_not_count, job)
    # Beside it a way that does not count makes it no better; one that does, on its own wall, does.
    for bad in (make(Panel, "A2", name="p", behind=("B1",)), panel("A2", "100", "16", behind=("B1",))):
        assert told(way_on_other_wall, job.having(bad)) == [("way_on_other_wall", "stop", ("B1", "A1"))]
    assert not told(way_on_other_wall, job.having(panel("A2", "16", "16", behind=("B1",))))
    driver = make(Equipment, "E1", name="driver", what="driver", reached="A1", wall="W1", x=at("20"), y=at("20"))
    lost = job_of(other, driver, panel("A1", "16", "16", wall="W2"))
    assert told(way_on_other_wall, lost) == [("way_on_other_wall", "stop", ("E1", "A1"))]
    light = make(Equipment, "E1", name="light", what="light", reached="A1", wall="W1", x=at("20"), y=at("20"))
    assert told(way_on_other_wall, lost.having(light)) == [("way_on_other_wall", "look", ("E1", "A1"))]


# --- things ---


@rows("what", ["driver", "extender", "strip", "splitter", "power supply", "part", "light"])
def test_what_is_changed_in_a_few_years_names_its_way(what: str) -> None:
    hidden = make(Equipment, "E1", name="thing", what=what, power="cord")
    gravity = "fix" if what in ("part", "light", "strip") else "stop"
    assert told(thing_without_way, job_of(hidden)) == [("thing_without_way", gravity, ("E1",))]
    assert only(thing_without_way(job_of(hidden))).takes_answer
    behind = msgspec.structs.replace(hidden, wall=Ref("W1"), face="behind")
    gravity = "stop" if what == "strip" else gravity
    assert told(thing_without_way, job_of(behind)) == [("thing_without_way", gravity, ("E1",))]
    job = job_of(make(Equipment, "E1", name="thing", what=what, reached="A1"), panel("A1", "1", "1"))
    assert not told(thing_without_way, job)
    assert not told(thing_without_way, job_of(hidden, panel("A1", "1", "1", behind=("E1",))))


def test_a_wired_driver_holds_a_connection_and_must_not_be_buried() -> None:
    wired = make(Equipment, "E1", name="driver", what="driver", power="hard-wired")
    found = only(thing_without_way(job_of(wired)))
    assert (found.severity, found.source, found.takes_answer) == ("stop", "NEC 2020 314.29", False)
    assert "licensed electrician" in found.remedy


def test_what_stands_in_an_opening_or_in_sight_needs_no_panel() -> None:
    shelf = opening("N1", "shelf", "4", "6", "30", "30")
    assert not told(thing_without_way, job_of(shelf, make(Equipment, "E1", name="e", what="extender", opening="N1")))
    assert not told(thing_without_way, job_of(make(Equipment, "E1", name="l", what="light", mounting="shelf")))
    assert not told(thing_without_way, job_of(make(Equipment, "E1", name="s", what="subwoofer")))


def test_a_retired_thing_needs_no_way() -> None:
    gone = make(Equipment, "E1", name="driver", what="driver", retired=job_of().today)
    assert not told(thing_without_way, job_of(gone))


# --- cable ends ---


def test_a_cable_that_ends_nowhere_is_lost_when_the_wall_is_closed() -> None:
    start = box("B1", "low-voltage", "20", "20")
    loose = make(Cable, "K1", type="cat6", start="B1")
    assert told(cable_end_without_way, job_of(start, loose)) == [("cable_end_without_way", "fix", ("K1",))]
    coiled = panel("A1", "40", "10", behind=("K1",))
    assert not told(cable_end_without_way, job_of(start, loose, coiled))
    assert not told(cable_end_without_way, job_of(start, make(Cable, "K1", type="cat6", start="B1", in_wall=False)))


def test_the_feed_from_the_electrical_panel_has_one_end_on_the_wall() -> None:
    circuit = make(Circuit, "C1", name="media", length=at("40'"))
    fed = box("B1", "receptacle", "20", "20", circuit="C1")
    assert not told(cable_end_without_way, job_of(circuit, fed, make(Cable, "K1", type="nm-12-2", end="B1")))


# --- the plate of its own ---


def test_a_box_at_the_face_has_its_own_plate_and_a_junction_has_not() -> None:
    job = job_of(box("B1", "receptacle", "20", "20"), box("B2", "junction", "30", "20"))
    assert [(way.kind, way.by) for way in means_of(job, "B1")] == [("plate", "B1")]
    assert means_of(job, "B2") == ()
    assert means_of(job, "W1") == ()


def test_a_recess_for_a_screen_is_open_in_front() -> None:
    recess = opening("N1", "screen", "40", "44", "60", "36")
    screen = make(Equipment, "E1", name="screen", what="screen", opening="N1", mounting="wall bracket", power="cord")
    job = job_of(recess, screen, box("B1", "receptacle", "60", "60"))
    assert [(way.kind, way.by, way.counts) for way in means_of(job, "B1")] == [("opening", "N1", True)]


def test_every_box_of_a_metric_job_is_judged_by_the_metric_rule() -> None:
    cabinet = opening("N3", "shelf", "4", "6", "30", "30")
    job = job_of(cabinet, box("B1", "junction", "10", "20", plate=True), region="metric")
    assert only(box_without_way(job)).source.startswith("BS 7671")
    assert isinstance(job.of(Box)["B1"], Box)


# --- ways that stand nowhere ---


@rows("missing", ["wall", "x", "y", "width", "height"])
def test_a_panel_that_stands_nowhere_reaches_no_junction_box(missing: str) -> None:
    whole = panel("A1", "12", "12", height="16")
    empty = Ref("") if missing == "wall" else None
    nowhere = msgspec.structs.replace(whole, **{missing: empty})
    buried = box("B1", "junction", "20", "20", reached="A1")
    assert told(way_does_not_count, job_of(buried, whole)) == []
    job = job_of(buried, nowhere)
    assert told(way_does_not_count, job) == [("way_nowhere", "stop", ("B1", "A1"))]
    finding = only(way_does_not_count(job))
    assert finding.source == "NEC 2020 314.29"
    assert "licensed electrician" in finding.do
    assert not means_of(job, "B1")[0].counts


def test_an_opening_that_stands_nowhere_or_is_not_there_is_no_way_either() -> None:
    buried = box("B1", "junction", "20", "20", reached="N9")
    nowhere = make(Opening, "N9", name="bay", use="equipment")
    assert told(way_does_not_count, job_of(buried, nowhere)) == [("way_nowhere", "stop", ("B1", "N9"))]
    assert told(way_does_not_count, job_of(buried)) == [("way_nowhere", "stop", ("B1", "N9"))]


def test_one_way_that_counts_is_enough_beside_one_that_stands_nowhere() -> None:
    buried = box("B1", "junction", "20", "20", reached="A9")
    job = job_of(buried, make(Panel, "A9", name="p"), panel("A1", "12", "12", height="16", behind=("B1",)))
    assert told(way_does_not_count, job) == []
    far = job_of(buried, make(Panel, "A9", name="p"), panel("A1", "100", "12", height="16", behind=("B1",)))
    assert told(way_does_not_count, far) == [("way_too_far", "stop", ("B1", "A1"))]


def test_while_neither_has_a_place_only_a_joint_is_told() -> None:
    nowhere = make(Panel, "A1", name="p")
    for what, found in (("junction", [("way_nowhere", "stop", ("B1", "A1"))]), ("low-voltage", [])):
        assert told(way_does_not_count, job_of(make(Box, "B1", what=what, reached="A1"), nowhere)) == found
    light = make(Equipment, "E1", name="light", what="light", reached="A1", power="cord")
    assert told(way_does_not_count, job_of(light, nowhere)) == []
    driver = msgspec.structs.replace(light, name="driver", what="driver")
    assert told(way_does_not_count, job_of(driver, nowhere)) == [("way_nowhere", "stop", ("E1", "A1"))]
    wired = make(Equipment, "E1", name="driver", what="driver", reached="A1", power="hard-wired")
    assert told(way_does_not_count, job_of(wired, nowhere)) == [("way_nowhere", "stop", ("E1", "A1"))]


@rows("name", ["driver", "power supply", "coax splitter", "HDMI extender"])
@rows(("x", "found"), [("20", None), ("100", "way_too_far")])
def test_a_device_behind_the_wall_has_a_place_and_the_rule_of_a_box(name: str, x: str, found: str | None) -> None:
    one = make(Equipment, "E1", name=name, reached="A1", wall="W1", x=at(x), y=at("20"), power="cord")
    job = job_of(one, panel("A1", "12", "12", height="16"))
    assert told(way_does_not_count, job) == ([(found, "stop", ("E1", "A1"))] if found else [])
    assert told(hidden_thing_nowhere, job) == []
    assert panel_contents(job)["A1"].straight == (() if found else ("E1",))
    wired = msgspec.structs.replace(one, power="hard-wired")
    assert told(way_does_not_count, job.having(wired)) == ([(found, "stop", ("E1", "A1"))] if found else [])


def test_a_thing_behind_a_panel_without_a_place_is_asked_about() -> None:
    way = panel("A1", "12", "12", height="16")
    driver = make(Equipment, "E1", name="driver", what="driver", reached="A1", power="hard-wired")
    assert told(hidden_thing_nowhere, job_of(driver, way)) == [("hidden_thing_nowhere", "stop", ("E1",))]
    corded = msgspec.structs.replace(driver, power="cord")
    assert told(hidden_thing_nowhere, job_of(corded, way)) == [("hidden_thing_nowhere", "look", ("E1",))]
    joint = make(Box, "B1", what="junction", reached="A1")
    assert told(hidden_thing_nowhere, job_of(joint, way)) == [("hidden_thing_nowhere", "stop", ("B1",))]
    assert told(hidden_thing_nowhere, job_of(make(Box, "B1", what="low-voltage", reached="A1"), way)) == []
    assert told(hidden_thing_nowhere, job_of(box("B1", "junction", "20", "20", reached="A1"), way)) == []
    shelf = opening("N1", "shelf", "4", "6", "30", "30")
    stray = make(Box, "B1", what="junction", reached="N1")
    assert told(hidden_thing_nowhere, job_of(stray, shelf)) == [("hidden_thing_nowhere", "stop", ("B1",))]
    inside = make(Equipment, "E1", name="driver", what="driver", reached="N1")
    assert told(hidden_thing_nowhere, job_of(inside, shelf)) == []


def test_a_mains_cable_that_goes_on_to_nowhere_beside_the_feed_of_its_circuit() -> None:
    there = box("B1", "receptacle", "20", "16", circuit="C1")
    circuit = make(Circuit, "C1", name="media")
    feed = make(Cable, "K1", type="nm-12-2", end="B1")
    on = make(Cable, "K2", type="nm-12-2", start="B1")
    assert told(mains_end_without_way, job_of(there, circuit, feed)) == []
    assert told(mains_end_without_way, job_of(there, circuit, feed, on)) == [("mains_end_without_way", "stop", ("K2",))]
    ended = make(Cable, "K2", type="nm-12-2", start="B1", end="B2")
    second = box("B2", "receptacle", "40", "16", circuit="C1")
    assert told(mains_end_without_way, job_of(there, second, circuit, feed, ended)) == []
    both = make(Cable, "K3", type="nm-12-2", end="B1")
    assert told(mains_end_without_way, job_of(there, circuit, feed, both)) == []
    ring = make(Circuit, "C1", name="media", wiring="ring")
    assert told(mains_end_without_way, job_of(there, ring, feed, on, region="metric")) == []
    third = make(Cable, "K3", type="nm-12-2", start="B1")
    assert len(told(mains_end_without_way, job_of(there, ring, feed, on, third, region="metric"))) == 1
    assert told(mains_end_without_way, job_of(there, circuit, feed, make(Cable, "K2", type="cat6", start="B1"))) == []


def test_to_get_at_wires_a_panel_is_the_better_way_and_the_thing_itself_names_the_first() -> None:
    bay = opening("N1", "shelf", "10", "10", "30", "30")
    job = job_of(
        bay, panel("A1", "14", "12", height="16", behind=("B1",)), box("B1", "junction", "20", "20", reached="N1")
    )
    first, wires = best_means(job, "B1"), best_means(job, "B1", wires=True)
    assert first is not None
    assert wires is not None
    assert (first.by, wires.by) == ("N1", "A1")


def test_a_box_that_names_a_way_is_not_given_its_plate_as_well() -> None:
    buried = box("B1", "receptacle", "100", "20", reached="A1")
    job = job_of(buried, panel("A1", "12", "12", height="16"))
    assert [way.kind for way in means_of(job, "B1")] == ["panel"]
    assert told(way_does_not_count, job) == [("way_too_far", "stop", ("B1", "A1"))]
