"""The years after: each day told on its day, and panels and serials only once the wall is in use."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from store.records.access import Visit
from store.records.equipment import Equipment
from store.records.gate import Passage
from store.records.people import Contact
from store.rules.core.findings import findings
from store.rules.service.upkeep import upkeep, upkeep_line
from store.rules.service.upkeep_rules import (
    WARRANTY_NEAR_DAYS,
    insurance_list_gaps,
    panel_long_unopened,
    service_due,
    warranty_ends,
)
from tests.jobs.access_jobs import TODAY, job_of, make, panel, told
from tests.rows import rows

IN_USE = make(Passage, "P1", stage="In use", date=TODAY, by="Robin")


@rows(("days", "due"), [(0, True), (1, False), (-30, True)])
def test_service_is_told_from_its_day_on(days: int, due: bool) -> None:
    one = make(Equipment, "E1", name="fan", state="owned", service=TODAY + timedelta(days))
    assert told(service_due, job_of(one)) == ([("service_due", "look", ("E1",))] if due else [])


@rows(("days", "near"), [(0, True), (WARRANTY_NEAR_DAYS, True), (WARRANTY_NEAR_DAYS + 1, False), (-1, False)])
def test_a_warranty_is_told_while_something_can_still_be_done(days: int, near: bool) -> None:
    one = make(Equipment, "E1", name="screen", state="owned", warranty=TODAY + timedelta(days))
    assert bool(told(warranty_ends, job_of(one))) is near


def test_what_is_not_owned_or_was_retired_is_not_told_of() -> None:
    day = TODAY - timedelta(1)
    ordered = make(Equipment, "E1", name="fan", state="ordered", service=day, warranty=TODAY)
    gone = make(Equipment, "E2", name="fan", state="owned", service=day, warranty=TODAY, retired=day)
    job = job_of(ordered, gone, IN_USE)
    assert not told(service_due, job)
    assert not told(warranty_ends, job)


@pytest.mark.parametrize(("last", "long"), [(date(2023, 10, 14), True), (date(2023, 10, 15), False)])
def test_a_panel_is_opened_once_in_three_years(last: date, long: bool) -> None:
    visit = make(Visit, "V1", panel="A1", date=last, who="Robin")
    older = make(Visit, "V2", panel="A1", date=date(2020, 1, 1), who="Robin")
    job = job_of(panel("A1", "17", "10"), visit, older, IN_USE)
    assert told(panel_long_unopened, job) == ([("panel_long_unopened", "look", ("A1",))] if long else [])


def test_a_panel_never_opened_counts_from_the_day_it_was_fitted() -> None:
    old = panel("A1", "17", "10", fitted=date(2020, 1, 1))
    assert told(panel_long_unopened, job_of(old, IN_USE))
    assert not told(panel_long_unopened, job_of(old))
    assert not told(panel_long_unopened, job_of(panel("A1", "17", "10"), IN_USE))
    long_ago = make(Passage, "P1", stage="In use", date=date(2023, 1, 1), by="Robin")
    assert told(panel_long_unopened, job_of(panel("A1", "17", "10"), long_ago))


def test_the_list_for_the_insurance_wants_serials_once_in_use() -> None:
    bare = make(Equipment, "E1", name="screen", state="owned", power="cord")
    assert told(insurance_list_gaps, job_of(bare, IN_USE)) == [("insurance_list_gaps", "look", ("E1",))]
    assert not told(insurance_list_gaps, job_of(bare))
    assert not told(insurance_list_gaps, job_of(bare.__class__(tag="E1", name="s", state="owned", serial="1"), IN_USE))
    assert not told(insurance_list_gaps, job_of(make(Equipment, "E1", name="hook", state="owned"), IN_USE))


def test_what_is_due_stands_in_one_line_and_the_most_pressing_first() -> None:
    due = [make(Equipment, f"E{n}", name="fan", state="owned", service=TODAY) for n in range(1, 6)]
    ends = make(Equipment, "E9", name="screen", state="owned", warranty=TODAY + timedelta(3), serial="1")
    trade = make(Contact, "T1", name="Sam", trade="electrician", state="booked", insured_until=TODAY - timedelta(1))
    job = job_of(*due, ends, panel("A1", "17", "10", fitted=date(2020, 1, 1)), trade, IN_USE)
    assert upkeep_line(findings(job)) == (
        "To look after: service due E1, E2, E3 and 2 more; warranty ends E9; not opened for years A1; "
        "insurance ended T1"
    )
    assert [each.rule for each in upkeep(findings(job))][-1] == "insurance_ran_out"
    assert upkeep_line(findings(job_of(ends.__class__(tag="E9", name="s", state="owned"), IN_USE))) == (
        "In use: no service due"
    )
