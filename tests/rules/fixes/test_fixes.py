"""Every fix, applied to the smallest job that raises its finding, solves it and brings nothing dangerous."""

from __future__ import annotations

import msgspec
import pytest

from store.records.base import from_doc, to_doc
from store.records.equipment import Equipment
from store.records.gate import Answer
from store.records.wall import Opening, Reading, Wall
from store.records.whole import KINDS, Job
from store.records.wiring import Box, Cable
from store.rules.core.findings import SEVERITIES, findings
from store.rules.fixes.fix import Fix, applied, can_fix, change_lines, makers, offer
from tests.jobs.power_case import job_of, make
from tests.rules.core.edits import starter
from tests.rules.fixes.cases import case, rules


def test_each_rule_with_a_maker_has_its_smallest_job_and_no_other() -> None:
    assert sorted(makers()) == rules()


@pytest.mark.parametrize("rule", rules())
def test_a_fix_solves_its_finding_and_adds_no_stop(rule: str) -> None:
    job, finding = case(rule)
    assert can_fix(finding)
    found = offer(job, finding)
    assert found is not None
    after = findings(applied(job, found.fix))
    assert finding.key not in {each.key for each in after}
    assert finding.key in {each.key for each in found.solved}
    before = {each.key for each in findings(job) if each.severity == "stop"}
    assert {each.key for each in after if each.severity == "stop"} <= before
    gravest = min(SEVERITIES.index(each.severity) for each in found.solved)
    assert all(SEVERITIES.index(each.severity) >= gravest for each in found.new)
    assert len(found.fix.says) <= 70
    assert "answer" not in {each.kind for each in (*found.fix.changed, *found.fix.added)}
    told_field_by_field_and_written(job, found.fix)


def told_field_by_field_and_written(job: Job, fix: Fix) -> None:
    """What a fix changes has its lines, and is whole in the file."""
    lines = change_lines(job, fix)
    assert lines
    for record in (*fix.changed, *fix.added):
        assert from_doc(to_doc(record), KINDS[record.kind]) == record
        assert any(record.tag in line for line in lines) or record.tag == "job"
    for record in fix.changed:
        assert job.tables[record.kind][record.tag] != record
    for record in fix.added:
        assert record.tag not in job.tables[record.kind]


def test_what_hangs_in_the_wall_is_not_renamed_and_an_accepted_problem_is_left() -> None:
    job, finding = case("cable_rating_not_noted")
    (cable,) = (one for one in job.of(Cable).values() if one.tag == finding.tags[0])
    pulled = job.having(msgspec.structs.replace(cable, state="pulled"))
    (same,) = (each for each in findings(pulled) if each.key == finding.key)
    assert offer(pulled, same) is None
    answer = Answer(
        tag=finding.key, date=job.today, by="Robin Field", office="Building department", reference="2026-17",
        says="It may stay as it is", vouches=finding.numbers,
    )  # fmt: skip
    accepted = job.having(answer)
    (told,) = (each for each in findings(accepted) if each.key == finding.key)
    assert told.answered
    assert not can_fix(told)


def test_a_box_that_is_bought_or_old_keeps_its_size() -> None:
    job, finding = case("box_overfull")
    box = job.of(Box)[finding.tags[0]]
    for kept in ({"new": False}, {"bought": True}):
        other = job.having(msgspec.structs.replace(box, **kept))
        assert all(offer(other, each) is None for each in findings(other) if each.key == finding.key)


def test_nothing_is_offered_for_what_nobody_can_work_out() -> None:
    job = job_of(make(Equipment, "E1", name="TV", what="screen", power="cord"))
    (finding,) = (each for each in findings(job) if each.rule == "no_place_to_plug")
    assert offer(job, finding) is None


def test_a_receptacle_along_the_wall_stays_out_of_the_openings() -> None:
    job = job_of(
        make(Wall, "W1", name="Wall"),
        make(Reading, "D1", wall="W1", what="width", value="14'"),
        make(Opening, "N1", name="Fireplace", use="fireplace", wall="W1", x="4'", y='8"', width="6'", height='24"'),
    )
    (finding,) = (each for each in findings(job) if each.rule == "receptacles_too_far")
    found = offer(job, finding)
    assert found is not None
    boxes = [one for one in found.fix.added if isinstance(one, Box)]
    assert boxes
    for box in boxes:
        assert box.x is not None
        assert not 46 < box.x.inches < 122, box.x


def test_a_fix_does_not_trade_a_look_for_what_will_not_fit() -> None:
    """In the demo a panel that crosses studs would be clear of them only across the edge of an opening."""
    job = starter("demo")
    finding = next(each for each in findings(job) if each.rule == "panel_on_stud" and each.tags[0] == "A3")
    moves = [fix for fix in makers()["panel_on_stud"](job, finding) if fix.says == "Move A3 to the nearest free place"]
    assert any(each.rule == "panel_across_edge" for each in findings(applied(job, moves[0])))
    found = offer(job, finding)
    assert found is None or all(each.severity == "look" for each in found.new)
