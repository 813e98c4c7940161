"""Power cables that lie together, from their routes: each rule with a job that raises it and one that does not."""

from __future__ import annotations

from typing import Any

import pytest

from store.records.base import Record
from store.records.wall import Reading, Wall
from store.records.whole import Job
from store.records.wiring import Box, Cable, Raceway
from tests.jobs.power_case import at, circuit, job_of, make, only, told
from tests.jobs.power_pairs import changed
from tests.rows import rows


def row(count: int, *more: Record, kind: str = "nm-12-2", apart: str = "36", **values: Any) -> Job:
    """So many cables, each on a circuit of its own from a box at the left to one `apart` inches on, at one height."""
    wall = make(Wall, "W1", name="wall", first_stud=at("16")), make(Reading, "D1", wall="W1", what="width", value="20'")
    records: list[Record] = [*wall, *more]
    for number in range(1, count + 1):
        where = {"wall": "W1", "circuit": f"C{number}", "what": "receptacle", "receptacles": 2}
        # Boxes stand above each other; the cables run level through the studs at 12 in.
        low, high = f"B{2 * number - 1}", f"B{2 * number}"
        records += [
            circuit(f"C{number}", **values),
            make(Box, low, x="12", y="12", **where),
            make(Box, high, x=str(12 + float(apart)), y="12", **where),
            make(Cable, f"K{number}", type=kind, start=low, end=high, level="12"),
        ]
    region = {"region": "metric"} if "mm" in kind else {}
    return job_of(*records, **region)


def test_five_cables_in_a_row_of_holes_and_four() -> None:
    # NEC 334.80: five 12/2 are 10 live wires, 50 % of 30 A is 15 A; four are 8, 70 % is 21 A, and 20 A is the most.
    found = only(row(5), "cables_bundled", "stop")
    assert "15 A behind 20 A" in found.why
    assert found.numbers["live wires"] == "10"
    assert "334.80" in found.source
    assert "310.15(C)(1)" in found.source
    assert not told(row(4), "cables_bundled")


def test_together_for_more_than_24_inches_only() -> None:
    assert told(row(5, apart="24.5"), "cables_bundled")
    assert not told(row(5, apart="24"), "cables_bundled")


def test_a_second_row_of_holes_is_enough() -> None:
    assert not told(changed(row(5), "K5", level="18"), "cables_bundled")
    assert told(changed(row(5), "K5", level="13"), "cables_bundled")


def test_three_wire_cable_counts_two_live_wires() -> None:
    # NEC 310.15(E)(1): the neutral of a multiwire circuit is not counted.
    assert not told(row(4, kind="nm-12-3"), "cables_bundled")
    assert only(row(5, kind="nm-12-3"), "cables_bundled", "stop").numbers["live wires"] == "10"


def test_the_next_breaker_up_is_for_one_fixed_load_only() -> None:
    # Five 14/2: 50 % of 25 A is 12.5 A; 15 A is the next size up, 240.4(B), not where plugs can be added.
    five = row(5, kind="nm-14-2", breaker=15.0, conductor="14")
    assert told(five, "cables_bundled")
    for number in range(1, 11):
        five = changed(five, f"B{number}", what="junction", receptacles=0, plate=True)
    assert not told(five, "cables_bundled")


def tube(count: int, length: str) -> Job:
    """So many cables through one raceway."""
    job = row(count, make(Raceway, "R1", type="EMT", size="2", length=length, start="B1", end="B2"))
    for number in range(1, count + 1):
        job = changed(job, f"K{number}", route="raceway", raceway="R1")
    return job


def test_cables_in_one_raceway() -> None:
    assert told(tube(5, "36"), "cables_bundled")[0].tags[-1] == "R1"
    assert not told(tube(4, "36"), "cables_bundled")
    assert not told(tube(5, "24"), "cables_bundled")


@pytest.mark.parametrize(("count", "severity"), [(2, "look"), (3, "fix")])
def test_metric_grouping(count: int, severity: str) -> None:
    # BS 7671 Table 4C1: two bunched 0.80, three 0.70; 2.5 mm² by method 102 carries 21 A: 16.8 and 14.7 A.
    metric: dict[str, Any] = {"kind": "2.5 mm2 twin and earth", "conductor": "2.5 mm2", "volts": 230.0, "gfci": True}
    found = only(row(count, breaker=20.0, **metric), "cables_bundled", severity)
    assert ("16.8 A" if count == 2 else "14.7 A") in found.why
    assert "4C1" in found.source
    assert not told(row(count, breaker=10.0, **metric), "cables_bundled")


def test_a_cable_that_hardly_carries_anything_is_left_out() -> None:
    # 523.5: no more than 30 % of its grouped rating: 0.3 x 16.8 A at 230 V is 1159 W.
    metric: dict[str, Any] = {"kind": "2.5 mm2 twin and earth", "conductor": "2.5 mm2", "volts": 230.0, "gfci": True}
    two = row(2, breaker=20.0, **metric)
    assert not told(changed(two, "C2", load=1150.0), "cables_bundled")
    assert told(changed(two, "C2", load=1170.0), "cables_bundled")


def test_where_a_row_of_holes_is_counts_in_the_answer() -> None:
    assert "W1" in only(row(5), "cables_bundled", "stop").numbers["together"]


@pytest.mark.parametrize(
    ("count", "insulation", "told_of"), [(5, "batts", True), (5, "none", False), (4, "batts", False)]
)
def test_in_insulation_any_length_counts(count: int, insulation: str, told_of: bool) -> None:
    # NEC 334.80: more than two NM cables touching in insulation are adjusted however short; five 12/2 carry 15 A.
    job = changed(row(count, apart="12"), "W1", insulation=insulation)
    assert bool(told(job, "cables_bundled")) == told_of
    if told_of:
        assert "in insulation count at any length" in told(job, "cables_bundled")[0].why


def test_through_one_sealed_hole_of_a_plate_any_length_counts() -> None:
    # The boxes are 20 in under the ceiling: 20 in of cable to the plate, whose holes are sealed (IRC R302.11).
    height = make(Reading, "D2", wall="W1", what="height", value="32")
    job = row(5, height)
    for number in range(1, 6):
        job = changed(job, f"K{number}", route="up and over", level=None)
    assert "sealed hole" in told(job, "cables_bundled")[0].why
    assert not told(changed(job, "K5", route="points"), "cables_bundled")


FLAT: dict[str, Any] = {"kind": "2.5 mm2 twin and earth", "conductor": "2.5 mm2", "volts": 230.0, "gfci": True}


@rows(
    ("lies", "insulation", "breaker", "told_of"),
    [
        # Table 4D5, 2.5 mm²: C 27 A, 102 21 A, 103 13.5 A; Table 52.2 on method C: half of 27 A from 500 mm on.
        ("C", "batts", 25.0, True),
        ("C", "batts", 20.0, False),
        ("102", "spray foam", 16.0, True),
        ("102", "spray foam", 10.0, False),
        ("102", "batts", 20.0, False),
        ("C", "none", 25.0, False),
    ],
)
def test_metric_cable_in_insulation(lies: str, insulation: str, breaker: float, told_of: bool) -> None:
    job = changed(row(1, breaker=breaker, lies=lies, **FLAT), "W1", insulation=insulation)
    assert bool(told(job, "cable_in_insulation")) == told_of
    if told_of:
        found = only(job, "cable_in_insulation", "stop")
        assert "52.2" in found.source
        assert found.tags == ("K1", "C1", "W1")
        assert not told(changed(job, "C1", breaker=None), "cable_in_insulation")


def test_a_short_way_in_foam_takes_less_off() -> None:
    # Table 52.2: 0.63 to 200 mm, 27 x 0.63 = 17.01 A: 16 A is within it.
    job = changed(row(1, breaker=16.0, apart="7", **FLAT), "W1", insulation="spray foam")
    assert not told(job, "cable_in_insulation")
    assert told(changed(job, "C1", breaker=20.0), "cable_in_insulation")
