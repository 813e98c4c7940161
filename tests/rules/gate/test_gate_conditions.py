"""What guard, answers and taking over ask for, condition by condition: the nearest on both sides of each."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import msgspec
import pytest

from store.book.changes import Change, Put, add, drop, edit
from store.book.outside.confirming import confirm
from store.measure.errors import BadValue
from store.measure.length import INCH_NM, Length
from store.records.equipment import Equipment
from store.records.field import Ref
from store.records.gate import Answer, Check
from store.records.whole import Outside
from store.rules.core.findings import Finding, findings
from store.rules.core.taken_off import taken_off
from store.rules.gate.gate import standing
from store.rules.gate.guard import Held
from tests.book.build import TODAY, check, reopen, rewrite
from tests.jobs.gate_job import at_drywall, before_drywall, job_before, pass_to, refused
from tests.rows import rows
from tests.rules.gate.test_gate_taken_off import WHOLE, changed


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Where the job is."""
    return tmp_path / "wall.json"


# --- answers ---

STOP = Finding("rule", "stop", ("E1",), "Head", "Do it.", "common practice", {"size": "1"})
WHOLE_ANSWER = Answer(
    tag=STOP.key, date=TODAY, by="R. Wells", office="E-20417", reference="1147", says="allowed for this wall",
    vouches={"size": "1"},
)  # fmt: skip


@dataclass(frozen=True)
class Case:
    """An answer, and whether it counts for a stop and for a fix."""

    given: dict[str, object]
    stop: bool
    fix: bool


@rows(
    "case",
    [
        Case({}, True, True),
        Case({"office": "building department", "reference": "letter of May 4"}, True, True),
        Case({"office": "", "reference": ""}, False, True),
        Case({"office": "20417"}, True, True),
        Case({"office": "me"}, False, True),
        Case({"reference": "x"}, False, True),
        Case({"by": "x"}, False, True),
        Case({"by": " "}, False, False),
        Case({"says": "ok done yes"}, False, True),
        Case({"vouches": {"size": "2"}}, False, False),
    ],
)
def test_an_answer_counts_by_who_gave_it_and_for_what(case: Case) -> None:
    given = msgspec.structs.replace(WHOLE_ANSWER, **case.given)
    assert msgspec.structs.replace(STOP, answer=given).answered is case.stop
    assert msgspec.structs.replace(STOP, answer=given, severity="fix").answered is case.fix
    assert not msgspec.structs.replace(STOP, answer=given, severity="fix", final=True).answered
    for rule in ("heater_on_strip", "cord_in_wall", "plug_inside_wall", "strip_in_wall", "junction_buried"):
        assert not msgspec.structs.replace(STOP, answer=given, severity="fix", rule=rule).answered


def test_an_answer_that_a_hand_wrote_is_none(path: Path) -> None:
    strip = Equipment(tag="E2", name="strip", what="strip", state="owned")
    book = job_before("Drywall", path, Equipment(tag="E1", name="one", what="strip", plug=Ref("E2")), strip)
    (stop,) = (each for each in findings(book.job) if each.rule == "strip_on_strip")
    given = msgspec.structs.replace(WHOLE_ANSWER, tag=stop.key, vouches=dict(stop.numbers))
    with_it = book.job.having(given)
    assert next(each for each in findings(with_it) if each.key == stop.key).answered
    forged = msgspec.structs.replace(with_it, outside=(Outside("answer", stop.key, "added"),))
    assert not next(each for each in findings(forged) if each.key == stop.key).answered
    other = msgspec.structs.replace(with_it, outside=(Outside("wish", stop.key, "added"),))
    assert next(each for each in findings(other) if each.key == stop.key).answered


# --- the guard ---


def test_stages_skipped_beside_another_change_are_skipped_all_the_same(path: Path) -> None:
    book = job_before("Mock-up", path)
    several: list[Change] = [add(pass_to(stage, reason="as agreed by all")) for stage in ("Mock-up", "Rough-in")]
    refused(book, [*several, add(check("Straps"))], why="hurry now", says="only one stage at a time")


def test_an_item_that_never_said_anything_may_be_edited_and_come_back(path: Path) -> None:
    book = before_drywall(path, "x")
    one = book.job.of(Check)["Q1"]
    book.act("Where", [edit(one, msgspec.structs.replace(one, where="left"))])
    book.act("Word", [edit(book.job.of(Check)["Q1"], msgspec.structs.replace(one, what="Blocks nailed"))])
    refused(book, [edit(book.job.of(Check)["Q1"], one)], BadValue, says="would not say what to do")
    book.undo()
    assert book.job.of(Check)["Q1"].what == "x"


def test_what_a_hand_added_and_the_program_puts_back_was_never_on_the_list(path: Path) -> None:
    old = [msgspec.structs.replace(each, new=False) if each.tag == "B3" else each for each in WHOLE]
    book = job_before("Drywall", path, *old)
    book.close()
    rewrite(path, lambda tables: [each.pop("new") for each in tables["box"].values() if each["tag"] == "B3"])
    book = reopen(path)
    assert "B3/set" in {each.key for each in standing(book.job).items}
    book.act("Put back", changed(book, "B3", new=False))
    assert not book.job.outside
    assert not taken_off(book.job)


# --- what a hand changed ---


def test_a_record_that_a_hand_added_stays_told_when_it_is_edited_and_goes_when_it_is_deleted(path: Path) -> None:
    before_drywall(path).close()
    rewrite(path, lambda tables: tables["check"].update({"7": {"tag": "Q7", "what": "Straps"}}))
    book = reopen(path)
    one = book.job.of(Check)["Q7"]
    book.act("Where", [edit(one, msgspec.structs.replace(one, where="left"))])
    for job in (book.job, reopen(path).job):
        assert [(each.tag, each.what) for each in job.outside] == [("Q7", "added")]
    book.act("Delete", [drop(book.job.of(Check)["Q7"])], "it was never here")
    assert not reopen(path).job.outside


def test_what_writes_over_an_edit_is_refused_also_behind_another_change(path: Path) -> None:
    job_before("Drywall", path, *WHOLE).close()
    rewrite(path, lambda tables: [each.update(x="70 in") for each in tables["box"].values() if each["tag"] == "B2"])
    book = reopen(path)
    both = [*changed(book, "B1", name="plain"), *changed(book, "B2", x=Length(30 * INCH_NM))]
    for changes in (both, both[::-1]):
        refused(book, changes, Held, why="both were moved", says="changed outside of Studbook: B2 x")
    assert [each.tag for each in reopen(path).job.outside] == ["B2"]


def test_an_answer_to_no_problem_at_all_is_refused_in_words(path: Path) -> None:
    given = msgspec.structs.replace(WHOLE_ANSWER, tag="strange")
    refused(before_drywall(path), [add(given, keep_tag=True)], BadValue, says="no such problem any more: this problem")


def test_problems_are_told_the_gravest_first(path: Path) -> None:
    two = [Equipment(tag=f"E{n}", name="one", what="strip", plug=Ref("E9"), state="owned") for n in (7, 8)]
    book = job_before("Drywall", path, *WHOLE, *two, Equipment(tag="E9", name="strip", what="strip", state="owned"))
    ranks = [("stop", "fix", "look").index(each.severity) for each in findings(book.job)]
    assert ranks == sorted(ranks)
    assert {0, 2} <= set(ranks)


# --- taking over what a hand changed ---


def test_no_permit_is_taken_over_only_with_the_name_and_office_that_said_so(path: Path) -> None:
    at_drywall(path).close()
    rewrite(path, lambda tables: tables["job"]["1"].update(permit="not needed", permit_by="x", permit_office="x"))
    book = reopen(path)
    (edited,) = book.job.outside
    for fields in (["permit_by"], ["permit_by", "permit_office"]):
        with pytest.raises(BadValue, match="no name or office for a permit"):
            confirm(book, edited, fields, "Ben Hall", "the office phoned back")
    book.mend(edited)
    book.act("Office", [Put("job", "job", {"permit_by": "B. Clerk"})])
    assert not reopen(path).job.outside


def test_a_damaged_history_is_not_taken_over_as_a_record_is(path: Path) -> None:
    book = before_drywall(path)
    with pytest.raises(BadValue, match="nothing in change 1 was changed"):
        confirm(book, Outside("history", "change 1", "history"), [], "Ben Hall", "a slip of mine")
    book.close()
    rewrite(path, lambda tables: tables["history"]["1"].update(who="Eve"))
    book = reopen(path)
    book.audit()
    (damaged,) = book.job.outside
    with pytest.raises((BadValue, Held)):
        confirm(book, damaged, [], "Ben Hall", "a slip of mine")
    assert book.job.outside == (damaged,)
