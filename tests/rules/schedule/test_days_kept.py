"""Public holidays in the calendar, offices that are closed, and one trade twice on one day."""

from __future__ import annotations

from datetime import date
from typing import Any

import msgspec

from store.records.field import Ref
from store.records.people import Contact, Step, Trade
from store.records.whole import Job
from store.rules.core.findings import findings
from store.rules.schedule.calendar import calendar
from store.rules.trades.calls import calls
from tests.jobs.order_jobs import job_of


def steps(*each: Step, trade: Trade = "electrician", today: date = date(2026, 11, 25), **settings: Any) -> Job:
    """Steps of one contact."""
    return job_of(Contact(tag="T1", name="Kim", trade=trade, state="booked"), *each, today=today, **settings)


def step(tag: str, days: float = 1, **more: Any) -> Step:
    """A step of T1."""
    return Step(tag=tag, what=f"work {tag}", days=days, who=Ref("T1"), **more)


def told(job: Job, rule: str) -> list[tuple[str, ...]]:
    """The tags of what a rule finds."""
    return [each.tags for each in findings(job) if each.rule == rule]


def test_a_crew_is_off_on_thanksgiving_and_the_friday_after() -> None:
    # Nov 26, 2026 is a Thursday: two days from the Wednesday end on the Monday.
    assert calendar(steps(step("S1", 2))).dated["S1"].finish == date(2026, 11, 30)
    assert calendar(steps(step("S1", 2), trade="owner")).dated["S1"].finish == date(2026, 11, 26)
    assert calendar(steps(step("S1", 2), region="metric")).dated["S1"].finish == date(2026, 11, 26)


def test_good_friday_in_a_metric_job() -> None:
    # Easter 2026 is April 5.
    before = date(2026, 4, 2)
    assert calendar(steps(step("S1", 2), today=before, region="metric")).dated["S1"].finish == date(2026, 4, 7)
    assert calendar(steps(step("S1", 2), today=before)).dated["S1"].finish == date(2026, 4, 3)


def test_an_inspection_on_veterans_day() -> None:
    # Nov 11, 2026, a Wednesday: crews work, offices do not.
    on = steps(step("S1"), trade="inspector", today=date(2026, 11, 11))
    assert told(on, "office_closed") == [("S1", "T1")]
    assert not told(steps(step("S1"), trade="inspector", today=date(2026, 11, 12)), "office_closed")
    assert not told(steps(step("S1"), trade="drywall", today=date(2026, 11, 11)), "office_closed")


def test_one_trade_twice_on_one_day() -> None:
    both = steps(step("S1", 2), step("S2"), today=date(2026, 11, 2))
    assert told(both, "twice_on_one_day") == [("S1", "S2", "T1")]
    assert not told(steps(step("S1", 2), step("S2", after=(Ref("S1"),)), today=date(2026, 11, 2)), "twice_on_one_day")
    assert not told(steps(step("S1"), step("S2"), trade="owner", today=date(2026, 11, 2)), "twice_on_one_day")


def test_two_half_days_are_one_day() -> None:
    assert not told(steps(step("S1", 0.5), step("S2", 0.5), today=date(2026, 11, 2)), "twice_on_one_day")
    assert told(steps(step("S1", 0.5), step("S2", 1), today=date(2026, 11, 2)), "twice_on_one_day")


def booked_work(**more: Any) -> Job:
    """An electrician booked for the first of two steps, the second without a day."""
    first = step("S1", 1, booked=date(2026, 11, 9))
    return steps(first, step("S2", 1, after=(Ref("S1"),)), today=date(2026, 11, 2), **more)


def test_a_step_without_a_day_of_one_whose_other_is_booked_is_a_call() -> None:
    assert any("S2" in call.why for call in calls(booked_work()))
    both = booked_work().having(step("S2", 1, after=(Ref("S1"),), booked=date(2026, 11, 10)))
    assert not calls(both)


def test_a_call_after_the_day_that_is_booked_is_told() -> None:
    person = booked_work().of(Contact)["T1"]
    late = booked_work().having(msgspec.structs.replace(person, call_on=date(2026, 11, 10)))
    assert told(late, "call_after_booking") == [("T1", "S1")]
    assert not told(late.having(msgspec.structs.replace(person, call_on=date(2026, 11, 9))), "call_after_booking")


def test_a_paper_that_ends_before_its_work_does_is_no_paper_whatever_the_contact_s_state() -> None:
    person = booked_work().of(Contact)["T1"]
    done = msgspec.structs.replace(person, insured_until=date(2026, 11, 9), state="done")
    assert told(booked_work().having(done), "insurance_ends_before_work") == [("T1", "S2")]
    within = msgspec.structs.replace(done, insured_until=date(2026, 11, 10))
    assert not told(booked_work().having(within), "insurance_ends_before_work")
