"""What `status` counts, on one small job: items by how they were closed, and things by how they are bought."""

from __future__ import annotations

from datetime import date

import msgspec

from store.measure.money import Money
from store.records.equipment import Equipment
from store.records.gate import Check
from store.rules.core.checks import close, rough_in
from store.rules.gate.status import status
from tests.book.build import TODAY
from tests.jobs.gate_edges import ITEM, TO_ROUGH_IN, closed, job_in, passed


def test_the_counts_are_those_of_the_records() -> None:
    things = [
        Equipment(tag="E1", name="TV", state="to buy", count=2, price=Money(300)),
        Equipment(tag="E2", name="shelf", state="to buy", count=3),
        Equipment(tag="E3", name="lamp", state="to buy", price=Money(40)),
        Equipment(tag="E4", name="player", state="ordered", price=Money(50)),
        Equipment(tag="E5", name="old TV", state="owned", price=Money(900), retired=date(2026, 1, 1)),
    ]
    checks = [ITEM, *(Check(tag=f"Q{n}", what=f"Block {n} nailed") for n in (2, 3, 4, 5))]
    job = job_in(*passed(*TO_ROUGH_IN), *checks, *things)
    fourth = next(each for each in rough_in(job) if each.key == "Q4")
    not_needed = close(fourth, "Ann Berg", TODAY, reason="the shelf stands on the floor now")
    stale = msgspec.structs.replace(closed(job, "Q5"), vouches={"what": "another"})
    told = status(
        job_in(*passed(*TO_ROUGH_IN), *checks, *things, closed(job, "Q1"), closed(job, "Q2"), not_needed, stale)
    )
    assert told["items"] == {"total": 5, "open": 2, "closed": 2, "not_needed": 1}
    assert told["totals"]["equipment"] == {
        "to buy": {"count": 6, "price": 640, "unpriced": 1},
        "ordered": {"count": 1, "price": 50, "unpriced": 0},
        "owned": {"count": 0, "price": 0, "unpriced": 0},
    }
    assert told["totals"]["records"] == {"job": 1, "equipment": 5, "check": 5, "passage": 3, "closing": 4}
    assert {each["key"] for each in told["holds"] if each["strict"]} == {"Q3", "Q5"}
