"""One buried thing a job: it is told by just the right finding, and its nearest sound neighbour by none."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from store.book.changes import Put
from store.records.base import Record, from_doc
from store.records.gate import Passage
from store.records.whole import KINDS, Job
from store.rules.core.findings import Finding, findings
from store.rules.gate.gate import STAGES, Standing, standing
from templates.starters import load
from tests.jobs.buried_jobs import CASES, SOUND, Case

TODAY = date(2026, 10, 14)
BEFORE: dict[str, list[str]] = {}
"""What has to be mended on a wall before anything is buried in it, by its TOML."""


def read(text: str, folder: Path) -> Job:
    """The job of a TOML text, by the same door as `studbook new --starter`."""
    path = folder / "job.toml"
    path.write_text(text, "utf-8")
    tables: dict[str, dict[str, Record]] = {kind: {} for kind in KINDS}
    for put in load(str(path), TODAY):
        assert isinstance(put, Put)
        tables[put.kind][put.tag] = from_doc({"tag": put.tag, **put.fields}, KINDS[put.kind])
    return Job(tables, today=TODAY)


def grave(job: Job) -> list[str]:
    """What has to be mended, as `severity rule tags`."""
    return [_line(each) for each in findings(job) if each.severity != "look"]


def _line(finding: Finding) -> str:
    return " ".join((finding.severity, finding.rule, *finding.tags))


def told(case: Case, more: str, folder: Path) -> list[str]:
    """What a piece of TOML brings to be mended; where the case is about a stud, nobody knows what the wall carries."""
    wall = SOUND.replace('bearing = "no"', 'bearing = "unknown"') if "panel_on_stud" in case.told else SOUND
    if wall not in BEFORE:
        BEFORE[wall] = grave(read(wall, folder))
    return [each for each in grave(read(wall + more, folder)) if each not in BEFORE[wall]]


def test_the_sound_wall_has_nothing_to_mend(tmp_path: Path) -> None:
    assert grave(read(SOUND, tmp_path)) == []


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_what_is_buried_is_told_by_just_the_right_finding(case: Case, tmp_path: Path) -> None:
    assert sorted(told(case, case.buried, tmp_path)) == sorted(case.told.split("; "))


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_its_nearest_sound_neighbour_is_told_by_none(case: Case, tmp_path: Path) -> None:
    assert told(case, case.sound, tmp_path) == []


@pytest.mark.parametrize("case", [each for each in CASES if "stop" in each.told], ids=lambda case: case.name)
def test_a_buried_box_or_connection_holds_the_drywall_and_no_reason_gets_past_it(case: Case, tmp_path: Path) -> None:
    job = read(SOUND + case.buried, tmp_path)
    stops = [each for each in findings(job) if each.severity == "stop"]
    holds = {hold.key for hold in at_rough_in(job).holds if hold.strict}
    assert stops
    assert {each.key for each in stops} <= holds
    assert all(each.source and each.remedy and each.numbers for each in stops)
    sound = {hold.key for hold in at_rough_in(read(SOUND + case.sound, tmp_path)).holds}
    assert not sound & {each.key for each in stops}


def at_rough_in(job: Job) -> Standing:
    """Where a job stands that has passed to the rough-in."""
    for number, stage in enumerate(STAGES[1 : STAGES.index("Drywall")], 1):
        job = job.having(Passage(tag=f"P{number}", stage=stage, date=TODAY, by="Ann", reason="as agreed"))
    there = standing(job)
    assert there.next == "Drywall"
    return there
