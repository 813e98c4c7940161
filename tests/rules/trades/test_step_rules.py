"""A step that its items or the stage contradict is told, and one with work left is not."""

from __future__ import annotations

from datetime import date

from msgspec.structs import replace

from store.records.field import Ref
from store.records.gate import Check, Passage
from store.records.people import Contact, Step
from store.records.whole import Job
from store.rules.agenda.days import packets
from store.rules.core.checks import close, rough_in
from store.rules.core.findings import findings
from store.rules.trades.calls import calls
from tests.book.build import NO_PERMIT
from tests.jobs.power_case import TODAY, job_of, make

CREW = make(Contact, "T1", name="Kim", trade="carpenter", state="booked")
STEP = make(Step, "S1", what="Frame", who=Ref("T1"), booked=date(2026, 4, 1))
CHECK = make(Check, "Q1", what="Blocks in", trade="carpenter")


def told(job: Job) -> list[str]:
    """The headlines of this rule."""
    return [each.head for each in findings(job) if each.rule == "step_behind_its_items"]


def signed(job: Job) -> Job:
    """The same job with its items signed off."""
    for each in rough_in(job):
        job = job.having(close(each, "Kim", TODAY, "both blocks nailed"))
    return job


def test_a_step_is_told_once_every_item_of_its_trade_is_signed_off() -> None:
    job = job_of(CREW, STEP, CHECK, **NO_PERMIT)
    assert told(job) == []
    assert told(signed(job)) == ["All items signed off, step still open"]
    (found,) = [each for each in findings(signed(job)) if each.rule == "step_behind_its_items"]
    assert "booked for Apr 1, 2026" in found.why


def test_nobody_is_to_be_called_or_sent_a_packet_for_work_that_is_signed_off() -> None:
    """A day to call that somebody entered counts as long as there is something to call about."""
    asked = replace(CREW, state="to ask", call_on=TODAY)
    job = job_of(asked, replace(STEP, booked=None), CHECK, **NO_PERMIT)
    assert [call.why.partition(" ")[0] for call in calls(job)] == ["the", "ask"]
    assert [due.what for due in packets(job, {})] == ["Send T1 Kim the packet"]
    assert packets(job, {}, used=True) == [], "no stage is left to work for"
    done = signed(job)
    assert calls(done) == ()
    assert packets(done, {}) == []
    later = done.having(replace(STEP, tag="S2", stage="Finish", booked=None))
    assert "the day you entered" in [call.why for call in calls(later)]


def test_no_step_is_told_that_is_done_or_of_another_stage_or_has_no_items() -> None:
    job = signed(job_of(CREW, STEP, CHECK, **NO_PERMIT))
    assert told(job.having(replace(STEP, done=TODAY))) == []
    assert told(job.having(replace(STEP, stage="Finish"))) == []
    assert told(job_of(CREW, STEP, **NO_PERMIT)) == []
    more = make(Check, "Q2", what="Backing", trade="carpenter")
    assert told(job.having(more)) == []


def test_a_step_of_the_rough_in_is_told_when_the_wall_is_covered() -> None:
    passed = [make(Passage, f"P{n}", stage=stage, date=TODAY, by="Ann")
              for n, stage in enumerate(("Design", "Mock-up", "Rough-in", "Drywall"), 1)]  # fmt: skip
    job = job_of(CREW, STEP, *passed[:3], **NO_PERMIT)
    assert told(job) == []
    assert told(job_of(CREW, STEP, *passed, **NO_PERMIT)) == ["The job is past Rough-in, step still open"]
