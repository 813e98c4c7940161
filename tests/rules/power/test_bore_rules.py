"""Holes and notches for cables: each rule with the smallest job that raises it and the nearest that does not."""

from __future__ import annotations

from typing import Any

import pytest

from store.records.wall import Reading, Wall
from store.records.whole import Job
from store.records.wiring import Cable
from tests.jobs.power_case import at, circuit, job_of, make, only, receptacle, told
from tests.jobs.power_pairs import changed
from tests.rows import rows


def through(bearing: str = "no", region: str = "us", **cable: Any) -> Job:
    """A cable through the studs between two receptacles, in two-by-fours at 16 in."""
    wall = make(Wall, "W1", name="wall", first_stud=at("16"), bearing=bearing)
    sizes = [
        make(Reading, f"D{n}", wall="W1", what=w, value=v)
        for n, (w, v) in enumerate((("width", "20'"), ("height", "8'")))
    ]
    boxes = [receptacle(f"B{n}", wall="W1", x=x, y="16") for n, x in ((1, "20"), (2, "60"))]
    return job_of(
        circuit(), wall, *sizes, *boxes, make(Cable, "K1", type="nm-12-2", start="B1", end="B2", **cable), region=region
    )


@rows(
    ("bearing", "deep", "told_of"),
    [
        ("no", "1 7/16", True),
        ("no", "1 3/8", False),
        ("yes", "15/16", True),
        ("yes", "7/8", False),
        ("unknown", "1", True),
    ],
)
def test_a_notch_is_no_deeper_than_a_share_of_the_stud(bearing: str, deep: str, told_of: bool) -> None:
    # IRC R602.6: 25 % of 3-1/2 in is 7/8 in where it carries, 40 % is 1.4 in where it does not.
    job = through(bearing, notch=deep)
    assert bool(told(job, "notch_too_deep")) == told_of
    assert bool(told(job, "notch_needs_plates")) != told_of


def test_every_notch_takes_a_plate_and_a_raceway_has_none() -> None:
    found = only(through(notch="1/2"), "notch_needs_plates", "look")
    assert "300.4(A)(2)" in found.source
    assert not told(through(), "notch_needs_plates")
    assert not told(changed(through(notch="1/2"), "B2", x="24"), "notch_needs_plates"), "no stud is between"


def test_a_hole_and_a_notch_of_one_cable_are_asked_about() -> None:
    assert only(through(notch="1/2", hole="3/4"), "notch_beside_hole", "look").numbers["hole"] == '3/4"'
    assert not told(through(notch="1/2"), "notch_beside_hole")


@pytest.mark.parametrize(("hole", "told_of"), [("1 13/16", True), ("1 3/4", False)])
def test_a_top_plate_cut_over_half_takes_a_tie(hole: str, told_of: bool) -> None:
    # IRC R602.6.1: more than 50 % of 3-1/2 in, in a wall that carries.
    job = through("yes", hole=hole, route="up and over")
    assert bool(told(job, "top_plate_cut")) == told_of
    assert not told(changed(job, "W1", bearing="no"), "top_plate_cut")


def test_metric_practice_bores_a_quarter_where_timber_carries() -> None:
    # On-Site Guide: 25 % of 89 mm (3-1/2 in here, 88.9 mm) is 22 mm.
    over, within = through("yes", "metric", hole="23 mm"), through("yes", "metric", hole="22 mm")
    assert "On-Site Guide" in only(over, "hole_too_large", "fix").source
    assert not told(within, "hole_too_large")
    assert not told(changed(over, "W1", bearing="no"), "hole_too_large")
