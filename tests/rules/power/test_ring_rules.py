"""Spurs off a ring: the smallest job that raises it and the nearest that does not. BS 7671 Appendix 15."""

from __future__ import annotations

from typing import Any

import pytest

from store.records.whole import Job
from store.records.wiring import Cable
from tests.jobs.power_case import circuit, job_of, make, only, told
from tests.jobs.power_pairs import box, changed
from tests.rows import rows

FLAT = "2.5 mm2 twin and earth"


def ring(*more: tuple[str, str], **values: Any) -> Job:
    """A ring through B1 and B2, with more cables from box to box."""
    ends = [("", "B1"), ("B1", "B2"), ("B2", ""), *more]
    boxes = {tag for pair in ends for tag in pair if tag}
    given: dict[str, Any] = {"breaker": 32.0, "volts": 230.0, "conductor": "2.5 mm2", "gfci": True, "wiring": "ring"}
    cables = [make(Cable, f"K{n}", type=FLAT, start=start, end=end) for n, (start, end) in enumerate(ends, 1)]
    return job_of(
        circuit(**{**given, **values}), *[box(tag, circuit="C1") for tag in sorted(boxes)], *cables, region="metric"
    )


@rows(
    ("more", "told_of"),
    [
        ((), False),
        ((("B1", "B3"),), False),
        ((("B1", "B3"), ("B3", "B4")), True),
        ((("B1", "B3"), ("B2", "B4")), False),
        ((("B1", "B3"), ("B3", "B2")), False),
    ],
)
def test_an_unfused_spur_feeds_one_point(more: tuple[tuple[str, str], ...], told_of: bool) -> None:
    assert bool(told(ring(*more), "spur_feeds_too_much")) == told_of


def test_a_fused_spur_feeds_any_number() -> None:
    two = ring(("B1", "B3"), ("B3", "B4"))
    assert only(two, "spur_feeds_too_much", "fix").tags == ("C1", "B3", "B4")
    assert not told(changed(two, "B3", devices=("fused connection unit 2.5",)), "spur_feeds_too_much")
    assert not told(changed(two, "C1", wiring="radial", breaker=20.0), "ring_not_closed")


@pytest.mark.parametrize(("kind", "told_of"), [("h07v-2.5", True), (FLAT, False)])
def test_line_and_neutral_in_a_conduit_are_no_ring(kind: str, told_of: bool) -> None:
    """Two single conductors from box to box are one leg; two cables there and back are a ring."""
    legs = [make(Cable, f"K{n}", type=kind, start="B1", end="B2") for n in (1, 2)]
    job = job_of(
        circuit(breaker=32.0, volts=230.0, conductor="2.5 mm2", gfci=True),
        box("B1", circuit="C1"), box("B2", circuit="C1"), make(Cable, "K3", type=FLAT, end="B1"), *legs,
        region="metric",
    )  # fmt: skip
    assert bool(told(job, "thin_wire_on_breaker")) == told_of
