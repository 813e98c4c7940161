"""The order of the work: networkx for the longest path, numpy for the days, and the ways a job goes wrong."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import pairwise

import networkx as nx
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from store.trade.schedule.critical_path import BadNetwork, CycleError, Dated, Step, in_order, plan, slip, slips
from store.trade.schedule.working_days import EVERY_DAY, WorkWeek, works_on
from tests.rows import rows

ALWAYS = WorkWeek(weekdays=EVERY_DAY)
MONDAY = date(2024, 3, 4)


@st.composite
def networks(draw: st.DrawFn, week: WorkWeek = ALWAYS, waits: int = 0) -> list[Step]:
    """Steps that only follow earlier ones, handed out in any order."""
    count = draw(st.integers(1, 9))
    steps = []
    for at in range(count):
        before = draw(st.frozensets(st.integers(0, at - 1), max_size=3)) if at else frozenset()
        steps.append(
            Step(
                key=f"S{at}",
                days=draw(st.integers(1, 8)),
                after=tuple(f"S{one}" for one in sorted(before)),
                wait_days=draw(st.integers(0, waits)),
                week=week,
            )
        )
    return draw(st.permutations(steps))


def longest_from(steps: list[Step]) -> tuple[dict[str, int], dict[str, int]]:
    """Longest path into each step (its early finish) and from each step on, durations on the edges."""
    graph = nx.DiGraph()
    for step in steps:
        graph.add_edge(("in", step.key), ("out", step.key), days=step.days + step.wait_days)
        for before in step.after:
            graph.add_edge(("out", before), ("in", step.key), days=0)

    def longest(among: set[tuple[str, str]]) -> int:
        return int(nx.dag_longest_path_length(graph.subgraph(among), weight="days"))

    into = {one.key: longest(nx.ancestors(graph, ("out", one.key)) | {("out", one.key)}) for one in steps}
    onward = {one.key: longest(nx.descendants(graph, ("in", one.key)) | {("in", one.key)}) for one in steps}
    return into, onward


@settings(deadline=None)
@given(networks(waits=3))
def test_early_dates_and_float_are_longest_paths(steps: list[Step]) -> None:
    """Every day worked, so waits and work are counted alike."""
    into, onward = longest_from(steps)
    whole = max(into.values())
    schedule = plan(steps, MONDAY)
    assert (schedule.finish - MONDAY).days + 1 == whole
    for step in steps:
        dated = schedule.step(step.key)
        assert (dated.ready - MONDAY).days == into[step.key]
        assert (dated.start - MONDAY).days == into[step.key] - step.days - step.wait_days
        through = into[step.key] + onward[step.key] - step.days - step.wait_days
        assert dated.total_float == whole - through
        assert dated.critical == (through == whole)
        assert 0 <= dated.free_float <= dated.total_float
        assert (dated.late_start - dated.start).days == dated.total_float


@settings(deadline=None)
@given(networks(waits=3), st.integers(0, 5))
def test_a_slip_is_the_plan_with_a_longer_step_and_all_at_once_are_each(steps: list[Step], days: int) -> None:
    before = plan(steps, MONDAY)
    together = slips(steps, days, MONDAY)
    assert set(together) == {step.key for step in steps}
    for step in steps:
        longer = [replace(one, days=one.days + days) if one.key == step.key else one for one in steps]
        after = plan(longer, MONDAY)
        found = slip(steps, step.key, days, MONDAY)
        assert found == together[step.key]
        assert found.finish == after.finish
        assert found.end_moves_days == (after.finish - before.finish).days
        assert {one.key: (one.new_start, one.new_finish) for one in found.moved} == {
            one.key: (one.start, one.finish)
            for one in after.steps
            if one.key != step.key
            and (one.start, one.finish) != (before.step(one.key).start, before.step(one.key).finish)
        }


@settings(deadline=None)
@given(networks(waits=3))
def test_the_chain_is_a_longest_path(steps: list[Step]) -> None:
    by_key = {one.key: one for one in steps}
    schedule = plan(steps, MONDAY)
    chain = [by_key[key] for key in schedule.chain]
    assert sum(one.days + one.wait_days for one in chain) == (schedule.finish - MONDAY).days + 1
    assert not chain[0].after
    for before, after in pairwise(chain):
        assert before.key in after.after
    assert all(schedule.step(one.key).critical for one in chain)


@settings(deadline=None)
@given(networks(week=WorkWeek()), st.data())
def test_with_one_week_for_all_it_is_the_textbook_in_working_days(steps: list[Step], data: st.DataObject) -> None:
    into, onward = longest_from(steps)
    whole = max(into.values())
    schedule = plan(steps, MONDAY)
    for step in steps:
        dated = schedule.step(step.key)
        finish = np.busday_offset(np.datetime64(MONDAY), into[step.key] - 1)
        assert np.datetime64(dated.finish) == finish
        assert dated.total_float == whole - (into[step.key] + onward[step.key] - step.days)
    free = data.draw(st.sampled_from(steps))
    spare = schedule.step(free.key)
    assert slip(steps, free.key, spare.free_float, MONDAY).moved == ()
    assert slip(steps, free.key, spare.total_float, MONDAY).end_moves_days == 0
    assert slip(steps, free.key, spare.total_float + 1, MONDAY).end_moves_days > 0


mixed_weeks = st.sampled_from(
    [WorkWeek(), ALWAYS, WorkWeek(weekdays=frozenset({5, 6})), WorkWeek(days_off=frozenset({MONDAY}))]
)


@settings(deadline=None)
@given(networks(waits=4), st.lists(mixed_weeks, min_size=9, max_size=9), st.data())
def test_with_different_weeks_nothing_overlaps_and_float_is_what_a_slip_costs(
    steps: list[Step], weeks: list[WorkWeek], data: st.DataObject
) -> None:
    steps = [
        Step(key=one.key, days=one.days, after=one.after, wait_days=one.wait_days, week=week)
        for one, week in zip(steps, weeks, strict=False)
    ]
    schedule = plan(steps, MONDAY)
    for step in steps:
        dated = schedule.step(step.key)
        assert works_on(step.week, dated.start)
        assert works_on(step.week, dated.finish)
        for key in step.after:
            before = schedule.step(key)
            waits = next(one.wait_days for one in steps if one.key == key)
            assert dated.start > before.finish + timedelta(days=waits)
        assert dated.start <= dated.late_start
    step = data.draw(st.sampled_from(steps))
    spare = schedule.step(step.key)
    assert slip(steps, step.key, spare.total_float, MONDAY).end_moves_days == 0
    assert slip(steps, step.key, spare.total_float + 1, MONDAY).end_moves_days > 0
    assert slip(steps, step.key, spare.free_float, MONDAY).moved == ()


def two(**second: object) -> tuple[Dated, Dated]:
    """Plan one day of taping with a day of drying, and what comes after it."""
    steps = [Step(key="tape", days=1, wait_days=1), Step(key="sand", days=1, after=("tape",), **second)]  # type: ignore[arg-type]
    schedule = plan(steps, date(2024, 3, 7))
    return schedule.step("tape"), schedule.step("sand")


def test_drying_goes_on_over_the_weekend() -> None:
    """Thursday's coat dries on Friday; the next trade comes on Monday."""
    tape, sand = two()
    assert (tape.finish, tape.ready) == (date(2024, 3, 7), date(2024, 3, 9))
    assert sand.start == date(2024, 3, 11)
    # It might as well have been done on Friday.
    assert (tape.total_float, tape.free_float, tape.critical) == (1, 1, False)


def test_a_booked_day_is_kept_even_on_their_day_off() -> None:
    _tape, sand = two(booked=date(2024, 3, 16))
    assert (sand.start, sand.finish, sand.misses_booking_days) == (date(2024, 3, 16), date(2024, 3, 16), 0)
    assert sand.driver is None


def test_a_booking_on_the_very_day_changes_nothing() -> None:
    _tape, sand = two(booked=date(2024, 3, 9))
    assert (sand.start, sand.driver, sand.misses_booking_days) == (date(2024, 3, 9), "tape", 0)


def test_a_booking_before_its_turn_is_missed_by_so_many_days() -> None:
    _tape, sand = two(booked=date(2024, 3, 8))
    assert (sand.start, sand.misses_booking_days) == (date(2024, 3, 11), 3)


def test_a_booking_gives_those_before_it_float() -> None:
    tape, _sand = two(booked=date(2024, 3, 14))
    assert (tape.free_float, tape.total_float) == (3, 3)
    assert not tape.critical


def test_what_really_happened_wins() -> None:
    steps = [
        Step(key="a", days=2, started=date(2024, 3, 5), finished=date(2024, 3, 8)),
        Step(key="b", days=3, after=("a",), started=date(2024, 3, 7)),
        Step(key="c", days=1, after=("b",)),
    ]
    schedule = plan(steps, MONDAY, today=date(2024, 3, 8))
    a, b, c = schedule.steps
    assert (a.start, a.finish, a.done, a.critical) == (date(2024, 3, 5), date(2024, 3, 8), True, False)
    assert (b.start, b.finish) == (date(2024, 3, 7), date(2024, 3, 11))
    assert c.start == date(2024, 3, 12)
    assert schedule.chain == ("b", "c")


def test_nothing_unstarted_is_planned_in_the_past() -> None:
    steps = [Step(key="a", days=2), Step(key="b", days=1, started=MONDAY)]
    a, b = plan(steps, MONDAY, today=date(2024, 3, 16)).steps
    assert a.start == date(2024, 3, 18)
    assert b.finish == date(2024, 3, 18)
    assert a.driver is None


def test_an_event_takes_no_day() -> None:
    steps = [
        Step(key="work", days=1),
        Step(key="inspected", days=0, after=("work",)),
        Step(key="close", days=1, after=("inspected",)),
    ]
    work, inspected, close = plan(steps, MONDAY).steps
    assert (work.finish, inspected.start, close.start) == (MONDAY, date(2024, 3, 5), date(2024, 3, 5))
    assert [one.total_float for one in (work, inspected, close)] == [0, 0, 0]


def test_a_slip_names_what_it_moves_and_the_bookings_it_breaks() -> None:
    steps = [
        Step(key="rough", days=2),
        Step(key="inspect", days=1, after=("rough",), booked=date(2024, 3, 7)),
        Step(key="board", days=1, after=("inspect",)),
        Step(key="shelf", days=1),
    ]
    small = slip(steps, "rough", 1, MONDAY)
    assert (small.moved, small.end_moves_days) == ((), 0)
    big = slip(steps, "rough", 2, MONDAY)
    assert [one.key for one in big.moved] == ["inspect", "board"]
    assert big.broken_bookings == ("inspect",)
    assert (big.moved[1].start, big.moved[1].new_start) == (date(2024, 3, 8), date(2024, 3, 11))
    assert (big.finish, big.end_moves_days) == (date(2024, 3, 11), 3)


def test_a_finished_step_does_not_slip_and_an_unknown_one_is_named() -> None:
    done = [Step(key="a", days=1, finished=MONDAY)]
    with pytest.raises(BadNetwork, match="a is finished"):
        slip(done, "a", 1, MONDAY)
    with pytest.raises(KeyError, match="b"):
        slip(done, "b", 1, MONDAY)


def test_a_circle_names_its_steps_and_no_others() -> None:
    steps = [
        Step(key="start", days=1),
        Step(key="a", days=1, after=("start", "c")),
        Step(key="b", days=1, after=("a",)),
        Step(key="c", days=1, after=("b",)),
        Step(key="end", days=1, after=("c",)),
    ]
    with pytest.raises(CycleError, match="a after c after b after a") as caught:
        plan(steps, MONDAY)
    assert set(caught.value.keys) == {"a", "b", "c"}


def test_a_step_after_itself_is_a_circle() -> None:
    with pytest.raises(CycleError, match="a after a"):
        plan([Step(key="a", days=1, after=("a",))], MONDAY)


@settings(deadline=None)
@given(networks(), st.data())
def test_a_circle_found_is_a_circle(steps: list[Step], data: st.DataObject) -> None:
    ordered = in_order(steps)
    graph = nx.DiGraph([(key, one.key) for one in ordered for key in one.after])
    first = data.draw(st.sampled_from(ordered))
    after = nx.descendants(graph, first.key) if first.key in graph else set()
    closing = data.draw(st.sampled_from(sorted(after | {first.key})))
    looped = [
        Step(key=one.key, days=one.days, after=(*one.after, closing) if one is first else one.after) for one in ordered
    ]
    with pytest.raises(CycleError) as caught:
        in_order(looped)
    keys = caught.value.keys
    assert keys[0] == keys[-1]
    waits = {one.key: one.after for one in looped}
    assert all(before in waits[key] for key, before in pairwise(keys))


@rows(
    ("steps", "words"),
    [
        ([Step(key="a", days=1), Step(key="a", days=2)], "a is there twice"),
        ([Step(key="a", days=1, after=("x",))], "a comes after x"),
        ([Step(key="a", days=-1)], "step a: days"),
        ([Step(key="a", days=1, wait_days=-1)], "step a: days"),
        ([Step(key="a", days=10**9)], "step a: days"),
        ([Step(key="a", days=1, started=date(2024, 3, 5), finished=MONDAY)], "finished before it is started"),
    ],
)
def test_a_network_that_is_none_is_refused(steps: list[Step], words: str) -> None:
    with pytest.raises(BadNetwork, match=words):
        plan(steps, MONDAY)


def test_no_steps_take_no_time() -> None:
    schedule = plan([], MONDAY)
    assert (schedule.steps, schedule.finish) == ((), MONDAY)
    with pytest.raises(KeyError):
        schedule.step("a")
