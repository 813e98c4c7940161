"""The calendar of a job against a graph library, a business-day function, and slips worked out by hand."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import networkx as nx
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from store.measure.errors import BadValue
from store.records.equipment import Equipment
from store.records.people import Contact, Step
from store.records.whole import Job
from store.rules.buying.order_by import orders
from store.rules.core.figures import figures
from store.rules.core.findings import Finding, findings
from store.rules.schedule.bars import BOOKED, DECIDES, DONE, TODAY, WAIT, bars, text_bar, week_line
from store.rules.schedule.calendar import calendar, slip_of, slip_words
from store.rules.schedule.days_off import days_off, unreadable
from tests.jobs.order_jobs import MONDAY, job_of, step
from tests.rows import rows


def found(job: Job, rule: str) -> list[Finding]:
    return [each for each in findings(job) if each.rule == rule]


def day(text: str) -> date:
    return date.fromisoformat(text)


# --- oracles ---


@st.composite
def networks(draw: st.DrawFn) -> list[Step]:
    count = draw(st.integers(1, 9))
    steps = []
    for at in range(1, count + 1):
        after = draw(st.sets(st.integers(1, at - 1), max_size=3)) if at > 1 else set()
        steps.append(step(f"S{at}", draw(st.integers(1, 6)), *(f"S{one}" for one in sorted(after))))
    return steps


@given(networks())
def test_dates_are_those_of_the_longest_path_in_working_days(steps: list[Step]) -> None:
    graph = nx.DiGraph()
    for one in steps:
        graph.add_node(one.tag)
        graph.add_edges_from((before, one.tag) for before in one.after)
    length = {one.tag: int(one.days) for one in steps}
    early: dict[str, int] = {}
    for tag in nx.topological_sort(graph):
        early[tag] = max((early[before] + length[before] for before in graph.predecessors(tag)), default=0)
    end = max(early[tag] + length[tag] for tag in early)
    late: dict[str, int] = {}
    for tag in reversed(list(nx.topological_sort(graph))):
        late[tag] = min((late[after] for after in graph.successors(tag)), default=end) - length[tag]
    got = calendar(job_of(*steps)).dated
    for tag, dated in got.items():
        assert dated.start == np.busday_offset(MONDAY, early[tag], roll="forward").astype(date)
        assert dated.finish == np.busday_offset(MONDAY, early[tag] + length[tag] - 1, roll="forward").astype(date)
        assert dated.total_float == late[tag] - early[tag]
        assert dated.critical == (late[tag] == early[tag])


@given(networks(), st.integers(1, 9), st.integers(1, 12))
def test_a_slip_moves_just_what_the_longer_job_has_elsewhere(steps: list[Step], which: int, days: int) -> None:
    tag = steps[(which - 1) % len(steps)].tag
    job = job_of(*steps)
    longer = [replace(one, days=one.days + days) if one.tag == tag else one for one in steps]
    was, now = calendar(job).dated, calendar(job_of(*longer)).dated
    moved = {key for key in was if key != tag and was[key].start != now[key].start}
    assert {one.key for one in slip_of(job, tag, days).moved} == moved


# --- a job whose slip is known ---


def trades(**more: str) -> Job:
    """Electrician 3 days from Monday 2 November, inspection booked, drywall booked and drying two days, cabinets."""
    return job_of(
        Contact(tag="T1", name="Sam", trade="electrician", phone="555-0101"),
        Contact(tag="T2", name="Office", trade="inspector", phone="555-0106"),
        Contact(tag="T3", name="Jo", trade="drywall", phone="555-0104", days_off=("2026-11-11",)),
        Contact(tag="T4", name="Lee", trade="carpenter", week="every day"),
        step("S1", 3, who="T1"),
        step("S2", 1, "S1", who="T2", booked=day("2026-11-05")),
        step("S3", 2, "S2", who="T3", booked=day("2026-11-06"), wait=2),
        step("S4", 2, "S3", who="T4"),
    )


def test_weeks_days_off_and_drying_are_counted() -> None:
    dated = calendar(trades()).dated
    assert [dated[tag].start for tag in ("S1", "S2", "S3", "S4")] == [
        day("2026-11-02"), day("2026-11-05"), day("2026-11-06"), day("2026-11-12"),
    ]  # fmt: skip
    # Friday and Monday, then two days of drying: the carpenter, who works every day, starts on Thursday.
    assert (dated["S3"].finish, dated["S3"].ready) == (day("2026-11-09"), day("2026-11-12"))


def test_the_electrician_four_days_late_moves_the_drywall_and_two_bookings() -> None:
    # S1 ends on Tuesday 10: inspection on the 11th; the drywaller is off on the 11th and comes on the 12th and 13th,
    # dry on the 15th, so the cabinets start on Monday 16 and end on the 17th instead of Friday 13.
    assert slip_words(trades(), "S1", 4) == [
        "S1 work S1, 4 working days late: 3 steps moved, 2 bookings to change.",
        "S2 work S2 moves from Nov 5, 2026 to Nov 11, 2026.",
        "S3 work S3 moves from Nov 6, 2026 - Nov 9, 2026 to Nov 12, 2026 - Nov 13, 2026.",
        "S4 work S4 moves from Nov 12, 2026 - Nov 13, 2026 to Nov 16, 2026 - Nov 17, 2026.",
        "Booking to change: T2 Office (555-0106) for S2, booked Nov 5, 2026, now Nov 11, 2026.",
        "Booking to change: T3 Jo (555-0104) for S3, booked Nov 6, 2026, now Nov 12, 2026.",
        "The job ends 4 days later, on Nov 17, 2026.",
    ]


def test_figures_tell_what_four_days_late_moves() -> None:
    told = figures(trades())["S1"]
    assert told["4_days_late_moves"] == [
        "S2 2026-11-05 to 2026-11-11", "S3 2026-11-06 to 2026-11-12", "S4 2026-11-12 to 2026-11-16",
    ]  # fmt: skip
    assert told["4_days_late_bookings"] == ["S2 2026-11-05", "S3 2026-11-06"]
    assert told["4_days_late_finish"] == "2026-11-17"


def test_a_step_that_is_under_way_and_late_slips_from_today() -> None:
    job = job_of(step("S1", 3, began=day("2026-10-12")), step("S2", 1, "S1"))
    assert calendar(job).dated["S1"].finish == MONDAY
    assert slip_of(job, "S1", 4).moved[0].new_start == MONDAY + timedelta(days=7)


def test_what_is_really_done_makes_the_rest_move() -> None:
    early = job_of(step("S1", 5, began=day("2026-10-29"), done=day("2026-10-30")), step("S2", 1, "S1"))
    assert calendar(early).dated["S2"].start == MONDAY
    assert calendar(early).dated["S1"].done


def test_steps_in_a_circle_are_told_and_give_no_dates() -> None:
    job = job_of(step("S1", 1, "S3"), step("S2", 1, "S1"), step("S3", 1, "S2"), step("S4", 1))
    (one,) = found(job, "steps_without_order")
    assert set(one.tags) == {"S1", "S2", "S3"}
    assert calendar(job).dated == {}
    assert "schedule_finish" not in figures(job).get("job", {})


def test_a_booking_that_cannot_hold_is_told_with_the_day_that_can() -> None:
    job = trades().having(step("S1", 8, who="T1"))
    told = found(job, "booking_cannot_hold")
    says = [each.why for each in told]
    assert told[0].headline == "Booked Nov 5, can't start before Nov 12, S2 work S2"
    assert says[0] == ("It is booked for Nov 5, 2026; it can't start before Nov 12, 2026 (S1 work S1 comes first).")
    assert len(says) == 2
    assert found(trades(), "booking_cannot_hold") == []


def test_a_booking_of_a_day_that_went_by_is_told() -> None:
    job = job_of(step("S1", 1, booked=day("2026-10-30")))
    assert "was booked for Oct 30, 2026; it has not begun" in found(job, "booking_cannot_hold")[0].says


@rows(("began", "done"), [("2026-10-20", "2026-10-19"), (None, "2026-11-03"), ("2026-11-03", None)])
def test_days_that_cannot_be_are_told(began: str | None, done: str | None) -> None:
    job = job_of(step("S1", 1, began=day(began) if began else None, done=day(done) if done else None))
    assert len(found(job, "step_days_do_not_fit")) == 1


def test_without_steps_there_is_a_calendar_and_nothing_in_it() -> None:
    assert calendar(job_of()).schedule.steps == ()
    assert [each for each in findings(job_of()) if each.source == "critical path method"] == []


# --- days off ---


@rows(
    ("text", "days"),
    [
        ("2026-12-24", ["2026-12-24"]),
        ("24 dec 2026", ["2026-12-24"]),
        ("2026-12-30 to 2027-01-02", ["2026-12-30", "2026-12-31", "2027-01-01", "2027-01-02"]),
        ("2026-12-30..2026-12-31", ["2026-12-30", "2026-12-31"]),
    ],
)
def test_days_off_are_read(text: str, days: list[str]) -> None:
    assert days_off(text, MONDAY) == frozenset(map(day, days))


def test_repeated_days_off_follow_the_rule() -> None:
    fridays = days_off("every fri", MONDAY)
    assert min(fridays) == day("2026-11-06")
    assert all(one.weekday() == 4 for one in fridays)
    other = sorted(days_off("every other friday from 2026-11-13", MONDAY))
    assert other[:2] == [day("2026-11-13"), day("2026-11-27")]
    assert sorted(days_off("FREQ=MONTHLY;BYMONTHDAY=1", MONDAY))[0] == day("2026-12-01")


@rows(
    "text",
    ["fri", "tomorrow", "24 dec", "every other fri", "soon", "2027-01-02 to 2026-12-30", "FREQ=NOW", "", "2026-13-01"],
)  # fmt: skip
def test_days_off_that_wander_or_make_no_sense_are_refused_and_told(text: str) -> None:
    with pytest.raises(BadValue):
        days_off(text, MONDAY)
    contact = Contact(tag="T1", name="Jo", trade="drywall", days_off=(text,))
    assert len(unreadable(contact, MONDAY)) == 1
    assert len(found(job_of(contact), "days_off_unreadable")) == 1


# --- things to order ---


def things(*more: Equipment) -> Job:
    """Hook-up on Monday 16 November: ten working days of other work before."""
    return job_of(step("S1", 10, stage="Rough-in"), step("S2", 1, "S1", stage="Hook-up"), *more)


def thing(**more: object) -> Equipment:
    return Equipment(tag="E1", name="Receiver", **more)  # type: ignore[arg-type]


@rows(
    ("lead", "rule"),
    [(6, None), (7, "order_day_near"), (14, "order_day_near"), (15, "order_day_gone")],
)
def test_the_last_day_to_order_is_the_lead_days_before_the_hook_up(lead: int, rule: str | None) -> None:
    job = things(thing(lead=lead))
    assert orders(job)["E1"].order_by == day("2026-11-16") - timedelta(days=lead)
    names = [name for name in ("order_day_near", "order_day_gone") if found(job, name)]
    assert names == ([rule] if rule else [])


@pytest.mark.parametrize("more", [{}, {"state": "ordered", "ordered": MONDAY}])
def test_lead_days_without_end_are_told_and_break_nothing(more: dict[str, Any]) -> None:
    job = things(thing(lead=999_999_999, **more))
    assert found(job, "ordered_too_late" if more else "order_day_gone")
    assert figures(job)["E1"]


def test_a_thing_may_name_the_step_that_needs_it_and_a_test_fit_may_come_first() -> None:
    named = things(thing(lead=1, needed_for="S1"))
    assert (orders(named)["E1"].step, orders(named)["E1"].needed_on) == ("S1", MONDAY)
    tried = things(thing(lead=1, tested=day("2026-11-09")))
    assert orders(tried)["E1"].needed_on == day("2026-11-09")


def test_what_is_ordered_and_comes_too_late_or_is_overdue_is_told() -> None:
    late = things(thing(state="ordered", lead=20, ordered=day("2026-10-30")))
    assert "3 days too late" in found(late, "ordered_too_late")[0].says
    overdue = things(thing(state="ordered", lead=5, ordered=day("2026-10-20")))
    assert len(found(overdue, "delivery_overdue")) == 1


def test_owned_and_retired_things_are_not_ordered() -> None:
    assert orders(things(thing(state="owned", lead=90))) == {}
    assert orders(things(thing(lead=90, retired=MONDAY))) == {}
    assert orders(job_of(thing(lead=90))) == {}


def test_a_last_day_to_send_back_before_the_test_fit_is_told() -> None:
    planned = things(thing(state="owned", return_by=day("2026-11-10"), tested=day("2026-11-12")))
    assert len(found(planned, "return_ends_before_fit")) == 1
    in_time = things(thing(state="owned", return_by=day("2026-11-13"), tested=day("2026-11-12")))
    assert found(in_time, "return_ends_before_fit") == []


@rows(
    ("more", "why"),
    [
        ({}, "no test fit yet"),
        ({"tested": day("2026-11-06")}, "its test fit is planned for Nov 6, 2026"),
        ({"state": "ordered", "ordered": MONDAY, "lead": 9}, "it does not arrive until Nov 11, 2026"),
    ],
)
def test_a_near_day_to_send_back_says_why_it_was_not_tried(more: dict[str, Any], why: str) -> None:
    (one,) = found(things(thing(**{"state": "owned", "return_by": day("2026-11-10"), **more})), "return_by_near")
    assert one.headline == "Return window closes Nov 10, E1 Receiver"
    assert one.why == f"In 8 days; {why}."


@rows(
    ("booked", "more", "told"),
    [
        ("2026-11-07", {}, True),
        ("2026-11-06", {}, False),
        ("2026-11-06", {"days_off": ("2026-11-06",)}, True),
        ("2026-11-07", {"week": "mon-sat"}, False),
        ("2026-10-31", {}, False),
    ],
)
def test_a_booking_on_a_day_off_is_told(booked: str, more: dict[str, Any], told: bool) -> None:
    crew = Contact(tag="T1", name="Sam", trade="electrician", state="booked", **more)
    job = job_of(crew, step("S1", 2, who="T1", booked=day(booked)))
    assert bool(found(job, "booking_on_a_day_off")) == told
    assert found(job.having(step("S1", 2, who="T1", booked=day(booked), began=MONDAY)), "booking_on_a_day_off") == []


# --- the picture in letters ---


def test_bars_have_a_sign_a_day_and_tell_done_waiting_booked_and_today() -> None:
    job = job_of(
        step("S1", 2, began=day("2026-10-29"), done=day("2026-10-30")),
        step("S2", 2, "S1", wait=3),
        step("S3", 1, "S2", booked=day("2026-11-09")),
    )
    shape = bars(job, 60)
    assert (shape.first, shape.days) == (day("2026-10-26"), 1)
    assert text_bar(shape, "S1").rstrip() == "   " + DONE * 2 + "  " + TODAY
    assert text_bar(shape, "S2").rstrip() == " " * 7 + text_bar(shape, "S2")[7] * 2 + WAIT * 3
    assert text_bar(shape, "S3")[14] == BOOKED
    assert week_line(shape) == "Oct 26 Nov 2  Nov 9"


def test_bars_fit_the_room_whatever_the_span() -> None:
    long = job_of(step("S1", 200), step("S2", 3, "S1"))
    for room in (20, 40, 80):
        shape = bars(long, room)
        assert shape.width <= room
        assert DECIDES in text_bar(shape, "S2")
