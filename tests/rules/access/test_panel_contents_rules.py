"""What is behind a panel: by places, as said, and where the two differ."""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Callable
from types import FrameType
from typing import Any

from store.records.base import Record
from store.records.equipment import Equipment
from store.records.whole import Job
from store.records.wiring import Cable, Raceway
from store.rules.access.panel_contents import before_panels, panel_contents
from store.rules.access.panel_contents_rules import behind_but_not_said, behind_but_retired, said_behind_but_far
from store.rules.core.findings import findings
from tests.jobs.access_jobs import TODAY, at, box, job_of, make, opening, panel, told


def test_a_box_right_behind_a_panel_and_not_said_is_told() -> None:
    job = job_of(panel("A1", "20", "10"), box("B1", "low-voltage", "25", "15"))
    assert panel_contents(job)["A1"].straight == ("B1",)
    assert told(behind_but_not_said, job) == [("behind_but_not_said", "look", ("A1", "B1"))]
    assert not told(behind_but_not_said, job.having(panel("A1", "20", "10", behind=("B1",))))
    assert not told(behind_but_not_said, job.having(box("B1", "low-voltage", "33", "15")))


def test_a_cable_that_crosses_behind_a_panel_is_behind_it() -> None:
    ends = (box("B1", "low-voltage", "4", "50"), box("B2", "low-voltage", "100", "50"))
    run = make(Cable, "K1", type="cat6", start="B1", end="B2", level=at("15"))
    job = job_of(panel("A1", "40", "10"), *ends, run)
    assert panel_contents(job)["A1"].straight == ("K1",)
    above = job.having(make(Cable, "K1", type="cat6", start="B1", end="B2", level=at("22 1/8")))
    assert panel_contents(above)["A1"].straight == ()
    assert panel_contents(above)["A1"].near == ("K1",)


def test_a_cable_in_a_raceway_is_behind_the_panels_at_its_ends_only() -> None:
    ends = (box("B1", "low-voltage", "4", "15"), box("B2", "low-voltage", "100", "15"))
    tube = make(Raceway, "R1", start="B1", end="B2", size="1")
    run = make(Cable, "K1", type="cat6", start="B1", end="B2", route="raceway", raceway="R1")
    job = job_of(panel("A1", "95", "10"), panel("A2", "50", "10"), *ends, tube, run)
    assert panel_contents(job)["A1"].straight == ("B2", "R1", "K1")
    assert panel_contents(job)["A2"].straight == ()


def test_what_ends_at_a_thing_that_is_said_needs_no_saying() -> None:
    ends = (box("B1", "low-voltage", "25", "15"), box("B2", "low-voltage", "100", "15"))
    run = make(Cable, "K1", type="cat6", start="B1", end="B2")
    job = job_of(panel("A1", "20", "10", behind=("B1",)), *ends, run)
    assert not told(behind_but_not_said, job)
    assert panel_contents(job)["A1"].all == ("B1", "K1")


def test_what_is_said_and_lies_far_off_is_looked_at() -> None:
    job = job_of(panel("A1", "20", "10", behind=("B1",)), box("B1", "low-voltage", "50 1/16", "15"))
    assert told(said_behind_but_far, job) == [("said_behind_but_far", "look", ("A1", "B1"))]
    assert not told(said_behind_but_far, job.having(box("B1", "low-voltage", "50", "15")))


def test_a_cable_whose_other_end_has_no_place_is_taken_at_its_word() -> None:
    driver = make(Equipment, "E1", name="driver", what="driver", reached="A1")
    far = box("B2", "low-voltage", "100", "15")
    job = job_of(
        panel("A1", "20", "10", behind=("K1",)),
        driver,
        far,
        make(Cable, "K1", type="cat6", start="E1", end="B2"),
    )
    assert not told(said_behind_but_far, job)


def test_a_list_that_names_what_was_retired_is_told() -> None:
    gone = make(Equipment, "E1", name="old", retired=TODAY)
    job = job_of(panel("A1", "20", "10", behind=("E1",)), gone)
    assert told(behind_but_retired, job) == [("behind_but_retired", "look", ("A1", "E1"))]
    assert panel_contents(job)["A1"].all == ()
    assert not told(behind_but_retired, job.having(make(Equipment, "E1", name="old")))


def test_the_cabinet_in_the_back_of_which_a_panel_lies() -> None:
    job = job_of(opening("N1", "shelf", "10", "4", "30", "30"), panel("A1", "15", "10"), panel("A2", "60", "10"))
    assert before_panels(job) == {"A1": ("N1",)}


def _large(many: int) -> Job:
    """Panels, boxes and cables spread over a long wall, so many of each."""
    records: list[Record] = []
    for n in range(1, many + 1):
        x = str(n * 14)
        records.append(panel(f"A{n}", x, "10", behind=(f"B{n}",)))
        records.append(box(f"B{n}", "low-voltage", x, "15", reached=f"A{n}"))
        records.append(make(Cable, f"K{n}", type="cat6", start=f"B{n}", end=f"B{max(1, n - 1)}"))
    return job_of(*records)


def _work(job: Job) -> int:
    """How many lines of code, turns of loops among them, run until it is known what is behind every panel."""
    lines, before = Counter[str](), sys.gettrace()

    def trace(_frame: FrameType, event: str, _told: object) -> Callable[..., Any]:
        lines[event] += 1
        return trace

    sys.settrace(trace)
    try:
        panel_contents(job)
        told(behind_but_not_said, job)
        told(said_behind_but_far, job)
    finally:
        sys.settrace(before)
    return lines["line"]


def test_the_work_grows_with_the_number_of_things_and_not_with_its_square() -> None:
    findings(job_of())  # what is worked out once for all jobs
    small, large = _work(_large(80)), _work(_large(320))
    assert small > 80 * 10
    assert large < small * 6  # four times as many things; with the square of them it would be sixteen
