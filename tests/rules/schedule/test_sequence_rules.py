"""The order of the trades: each rule with the smallest job that raises it and the nearest that does not."""

from __future__ import annotations

from datetime import date
from typing import Any

import msgspec

from store.records.field import Ref
from store.records.people import Contact, Step
from store.records.whole import Job
from store.rules.core.findings import Finding, findings
from tests.jobs.order_jobs import job_of

MONDAY = date(2026, 11, 2)


def found(job: Job, rule: str) -> list[Finding]:
    """What a rule finds."""
    return [each for each in findings(job) if each.rule == rule]


def two(after: tuple[Ref, ...] = (), **more: Any) -> Job:
    """An inspection of the rough work, and drywall."""
    look = Step(tag="S1", what="Rough-in inspection", stage="Rough-in", days=1, who=Ref("T1"))
    hang = Step(tag="S2", what="Hang drywall", stage="Drywall", days=2, after=after, **more)
    return job_of(Contact(tag="T1", name="Town", trade="inspector", state="booked"), look, hang, today=MONDAY)


def test_drywall_waits_for_the_inspection_of_what_it_covers() -> None:
    (told,) = found(two(), "covered_before_done")
    assert (told.severity, told.tags) == ("fix", ("S2", "S1"))
    assert "R109" in told.source
    assert not found(two((Ref("S1"),)), "covered_before_done")


def test_a_step_that_is_done_is_told_of_no_more() -> None:
    first = two().of(Step)["S1"]
    done = two().having(msgspec.structs.replace(first, began=date(2026, 10, 30), done=date(2026, 10, 30)))
    assert not found(done, "covered_before_done")


def booked(**more: Any) -> Job:
    """An electrician booked for a step."""
    given: dict[str, Any] = {"name": "Kim", "trade": "electrician", "state": "booked", **more}
    return job_of(Contact(tag="T1", **given), Step(tag="S1", what="Wire", who=Ref("T1")), today=MONDAY)


def test_papers_are_on_file_before_somebody_starts() -> None:
    (told,) = found(booked(), "papers_not_entered")
    assert told.numbers == {"missing": "license number, proof of insurance"}
    whole = {"licence": "EL-00417", "insured_until": date(2027, 1, 1)}
    assert not found(booked(**whole), "papers_not_entered")
    assert not found(booked(state="quoted"), "papers_not_entered")
    assert not found(booked(trade="owner"), "papers_not_entered")
