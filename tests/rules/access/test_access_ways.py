"""Whether a way is one: a hand goes through it, and what is behind the wall has a way at all."""

from __future__ import annotations

from datetime import timedelta

import msgspec

from store.records.access import Panel
from store.records.equipment import Equipment
from store.records.field import Ref
from store.records.wiring import Cable
from store.rules.access.access_rules import thing_without_way, way_does_not_count
from store.rules.access.means import means_of
from store.rules.access.retired_rules import retired_too_early
from tests.jobs.access_jobs import at, box, job_of, make, only, opening, panel, told
from tests.rows import rows

# --- ways that no hand goes through ---


def small(width: str, height: str) -> Panel:
    """A panel about the place of `JOINT`."""
    return panel("A1", "18", "18", width=width, height=height)


JOINT = box("B1", "junction", "20", "20", reached="A1")


@rows(("width", "height"), [("1", "1"), ("3-1/2", "5"), ("3-7/8", "12"), ("12", "3-7/8"), ("4", "4")])
def test_a_junction_box_behind_a_panel_too_small_for_its_cover_and_a_hand_is_buried(width: str, height: str) -> None:
    job = job_of(JOINT, small(width, height))
    finding = only(way_does_not_count(job))
    assert (finding.rule, finding.severity, finding.tags) == ("way_too_small", "stop", ("B1", "A1"))
    assert finding.source.startswith("NEC 2020 314.29; size: MIL-STD-1472")
    assert not finding.takes_answer
    assert not means_of(job, "B1")[0].counts
    named = job_of(
        msgspec.structs.replace(JOINT, reached=Ref("")), msgspec.structs.replace(small(width, height), behind=("B1",))
    )
    assert told(way_does_not_count, named) == [("way_too_small", "stop", ("B1", "A1"))]


@rows(("width", "height"), [("4", "5"), ("5", "4"), ("6", "6"), ("12", "10")])
def test_a_panel_that_a_hand_and_the_cover_of_a_box_go_through_is_a_way_to_it(width: str, height: str) -> None:
    assert told(way_does_not_count, job_of(JOINT, small(width, height))) == []


def test_a_wide_box_wants_a_wider_panel_and_a_cable_end_only_a_hand() -> None:
    wide = msgspec.structs.replace(JOINT, gangs=4)
    assert told(way_does_not_count, job_of(wide, small("7-1/2", "5"))) == [("way_too_small", "stop", ("B1", "A1"))]
    assert told(way_does_not_count, job_of(wide, small("7-5/8", "5"))) == []
    end = make(Cable, "K1", type="cat6", reached="A1")
    assert told(way_does_not_count, job_of(end, small("3-1/2", "5"))) == []
    assert told(way_does_not_count, job_of(end, small("3", "5"))) == [("way_too_small", "fix", ("K1", "A1"))]


def test_a_hole_called_an_opening_is_no_way_either() -> None:
    joint = msgspec.structs.replace(JOINT, reached=Ref("N9"))
    hole = opening("N9", "equipment", "19-1/2", "19-1/2", "1", "1")
    assert told(way_does_not_count, job_of(joint, hole)) == [("way_too_small", "stop", ("B1", "N9"))]
    assert told(way_does_not_count, job_of(joint, opening("N9", "equipment", "16", "16", "8", "8"))) == []
    # What is clear is less by the sides.
    thick = msgspec.structs.replace(opening("N9", "equipment", "16", "16", "6", "6"), thickness=at("1-1/4"))
    assert told(way_does_not_count, job_of(joint, thick)) == [("way_too_small", "stop", ("B1", "N9"))]


# --- what needs one ---


@rows(
    ("what", "name", "values", "hidden"),
    [
        ("power supply", "thing", {}, True), ("splitter", "thing", {"mounting": "surface only"}, True),
        ("extender", "thing", {"mounting": "wall bracket"}, True), ("switch", "thing", {}, False),
        ("switch", "HDMI splitter", {}, True), ("switch", "thing", {"face": "behind"}, True),
        ("receiver", "thing", {"face": "behind"}, True), ("other", "PSU of the tape", {}, True),
        ("other", "thing", {}, False), ("screen", "thing", {}, False),
        ("light", "thing", {"mounting": "surface only"}, False), ("light", "thing", {}, True),
    ],
)  # fmt: skip
def test_what_has_a_place_behind_the_wall_needs_a_way(
    what: str, name: str, values: dict[str, str], hidden: bool
) -> None:
    one = make(Equipment, "E1", name=name, what=what, wall="W1", x=at("20"), y=at("20"), **values)
    found = told(thing_without_way, job_of(one))
    gravity = "fix" if what == "light" else "stop"
    assert found == ([("thing_without_way", gravity, ("E1",))] if hidden else [])
    way = panel("A1", "12", "12", height="16", behind=("E1",))
    assert told(thing_without_way, job_of(one, way)) == []


def test_what_is_retired_on_a_day_to_come_holds_until_then() -> None:
    cable = make(Cable, "K1", type="cat6", start="B1", retired=job_of().today + timedelta(days=1))
    assert told(retired_too_early, job_of(cable)) == [("retired_too_early", "stop", ("K1",))]
    for well in ({"retired": job_of().today}, {"retired": None}, {"in_wall": False}):
        assert told(retired_too_early, job_of(msgspec.structs.replace(cable, **well))) == []
    device = make(Equipment, "E1", name="driver", what="driver", retired=job_of().today + timedelta(days=1))
    assert told(retired_too_early, job_of(device)) == [("retired_too_early", "stop", ("E1",))]
