"""The years after: what is due comes first, then days, panels and what is wanted later."""

from __future__ import annotations

from datetime import timedelta

from msgspec.structs import replace

from store.records.access import Panel, Visit
from store.records.equipment import Equipment
from store.records.field import Ref
from store.records.people import Wish
from store.records.whole import Job
from store.rules.core.findings import findings
from store.rules.service.years_after import KINDS, years_after
from tests.jobs.power_case import TODAY, job_of, make
from tests.rules.core.edits import starter

FAN = make(Equipment, "E1", name="Fan", state="owned", service=TODAY + timedelta(days=400))


def keys(job: Job) -> list[str]:
    """The lines by their names."""
    return [each.key for each in years_after(job, findings(job))]


def test_service_and_warranty_days_of_what_is_owned() -> None:
    assert keys(job_of(FAN)) == ["service:E1"]
    assert keys(job_of(replace(FAN, warranty=TODAY))) == ["warranty_ends:E1", "service:E1"], "near: due"
    far = replace(FAN, warranty=TODAY + timedelta(days=300))
    assert keys(job_of(far)) == ["warranty:E1", "service:E1"], "by the day"
    assert keys(job_of(replace(FAN, state="ordered"))) == []
    assert keys(job_of(replace(FAN, retired=TODAY))) == []
    assert keys(job_of(replace(FAN, service=None, warranty=TODAY - timedelta(days=1)))) == [], "it is over"


def test_a_panel_is_told_with_its_last_visit_once_it_is_in() -> None:
    panel = make(Panel, "A1", name="Back", fitted=TODAY)
    (line,) = years_after(job_of(panel), [])
    assert (line.key, line.day, line.what) == ("panel:A1", TODAY, "Not opened since it was installed, A1 Back")
    visits = [make(Visit, f"V{n}", panel=Ref("A1"), date=TODAY + timedelta(days=n), who="Kim") for n in (1, 2)]
    (line,) = years_after(job_of(panel, *visits), [])
    assert (line.day, line.what) == (TODAY + timedelta(days=2), "Last opened, A1 Back")
    assert years_after(job_of(replace(panel, fitted=None)), []) == []


def test_what_is_wanted_later_says_what_is_missing_for_it() -> None:
    wish = make(Wish, "L1", what="8K player", years=3)
    (line,) = years_after(job_of(wish), [])
    assert (line.key, line.tag, line.what) == ("later:L1", "L1", "8K player, in 3 years")
    assert line.do.startswith("Missing: ")
    assert years_after(job_of(replace(wish, kept="dropped")), []) == []


def test_kinds_stand_in_their_order_and_every_line_has_a_name_of_its_own() -> None:
    job = starter()
    lines = years_after(job, findings(job))
    assert len({each.key for each in lines}) == len(lines)
    assert lines[0].kind == "due"
    places = [KINDS.index(each.kind) for each in lines if each.kind not in ("service", "warranty")]
    assert places == sorted(places)
