"""Rough-in checks: where they come from, how they are closed and what opens them again."""

from __future__ import annotations

from pathlib import Path

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.book.changes import add, drop, edit
from store.measure.errors import BadValue
from store.records.base import Record
from store.records.field import Ref
from store.records.gate import Check, Closing
from store.records.whole import KINDS, Job, Outside
from store.rules.core.checks import Item, close, closed_line, hand_written, items, rough_in
from store.rules.core.proof import proof_missing
from tests.book.build import TODAY, check, contact, make, settings, wall
from tests.jobs.gate_job import check_of, item_of, shut
from tests.jobs.proofs import SEEN
from tests.rows import rows

TEXT = st.sampled_from(["", " ", "\n", SEEN, "Ann", "ok", "x"])
WHOLE = (SEEN, "Ann")


def job_of(*records: Record, outside: tuple[Outside, ...] = ()) -> Job:
    """A job of these records, in memory."""
    tables: dict[str, dict[str, Record]] = {kind: {} for kind in KINDS}
    for each in (settings(), *records):
        tables[each.kind][each.tag] = each
    return Job(tables, {}, outside, (), TODAY)


def only(job: Job) -> Item:
    """The only check of a job."""
    (item,) = items(job)
    return item


def test_a_written_item_is_a_check_with_everything_it_says() -> None:
    one = check("Blocks", "Q1", trade="carpenter", where="left", wants="photo", about_tag=Ref("W1"))
    (found,) = hand_written(job_of(one))
    assert (found.key, found.what, found.trade, found.where, found.wants) == (
        "Q1",
        "Blocks",
        "carpenter",
        "left",
        "photo",
    )
    assert found.tags == ("Q1", "W1")
    assert found.vouches == {"what": "Blocks", "where": "left", "evidence wanted": "photo", "belongs to": "W1"}


def test_an_item_is_open_until_it_is_closed() -> None:
    one = check("Blocks", "Q1")
    item = only(job_of(one))
    assert (item.open, item.why_open, item.closing) == (True, "open", None)
    closing = close(item.check, "Ann", TODAY, SEEN)
    item = only(job_of(one, closing))
    assert (item.open, item.why_open, item.closing) == (False, "", closing)


def test_closed_on_evidence_or_not_needed_for_a_reason() -> None:
    one = only(job_of(check("Blocks", "Q1"))).check
    closed, needless = close(one, "Ann", TODAY, SEEN), close(one, "Ann", TODAY, reason="no screen")
    assert (closed.outcome, closed.evidence, closed.reason) == ("closed", SEEN, "")
    assert (needless.outcome, needless.evidence, needless.reason) == ("not needed", "", "no screen")
    assert closed_line(closed) == f"signed off Nov 25, 2026 by Ann: {SEEN}"
    assert closed_line(closed, day_first=True).startswith("signed off 25 Nov 2026 by Ann")
    assert closed_line(needless) == "not needed Nov 25, 2026 by Ann: no screen"
    assert close(one, "Ann", TODAY, SEEN, "and a reason").outcome == "closed"


@given(TEXT, TEXT, TEXT, st.booleans())
def test_a_closing_is_whole_only_with_name_and_ground(by: str, evidence: str, reason: str, needless: bool) -> None:
    one = check("Blocks", "Q1")
    found = only(job_of(one)).check
    closing = Closing(
        tag="Q1", outcome="not needed" if needless else "closed", date=TODAY, by=by, evidence=evidence, reason=reason,
        vouches=found.vouches, proof="reason" if needless else "seen",
    )  # fmt: skip
    whole = by in WHOLE and (reason in WHOLE if needless else evidence in WHOLE[:1])
    assert (proof_missing(found, closing) == "") == whole
    assert only(job_of(one, closing)).open != whole


@rows(
    ("field", "value", "says"),
    [
        ("what", "Straps", "what was Blocks, is Straps"),
        ("where", "right", "where was left, is right"),
        ("where", "", "where was left, is blank"),
        ("wants", "photo", "evidence wanted was blank, is photo"),
        ("about_tag", Ref("W1"), "belongs to was blank, is W1"),
    ],
)
def test_what_opens_a_closed_check_again(field: str, value: str, says: str) -> None:
    one = check("Blocks", "Q1", where="left")
    closing = close(only(job_of(one)).check, "Ann", TODAY, SEEN)
    changed = msgspec.structs.replace(one, **{field: value})
    assert only(job_of(changed, closing)).why_open == f"changed since Ann signed it off: {says}"


@pytest.mark.parametrize(("field", "value"), [("trade", "carpenter"), ("notes", "by the window")])
def test_what_leaves_a_closed_check_closed(field: str, value: str) -> None:
    one = check("Blocks", "Q1")
    closing = close(only(job_of(one)).check, "Ann", TODAY, SEEN)
    assert not only(job_of(msgspec.structs.replace(one, **{field: value}), closing)).open


@pytest.mark.parametrize("what", ["added", "changed"])
def test_a_closing_from_outside_does_not_count(what: str) -> None:
    one = check("Blocks", "Q1")
    closing = close(only(job_of(one)).check, "Ann", TODAY, SEEN)
    job = job_of(one, closing, outside=(Outside("closing", "Q1", what),))
    assert only(job).why_open == "its sign-off was not recorded by Studbook"


def test_a_closing_of_another_check_does_not_count() -> None:
    first, second = check("Blocks", "Q1"), check("Blocks", "Q2")
    closing = close(items(job_of(first, second))[0].check, "Ann", TODAY, SEEN)
    assert [each.open for each in items(job_of(first, second, closing))] == [False, True]


def test_keys_are_given_once(tmp_path: Path) -> None:
    book = make(tmp_path / "wall.json", wall("W1"), check("A", "Q1"), check("B", "Q2"))
    keys = [each.key for each in rough_in(book.job)]
    assert len(set(keys)) == len(keys)


def test_reopening_closing_again_and_undoing_it_before_the_passage(tmp_path: Path) -> None:
    book = make(tmp_path / "wall.json", check("Blocks", "Q1"))
    shut(book, "Q1", "left block nailed")
    book.act("Reopen", [drop(book.job.of(Closing)["Q1"])])
    assert item_of(book.job, "Q1").why_open == "open"
    shut(book, "Q1", "right block nailed")
    shut(book, "Q1", "last block nailed")
    assert book.job.of(Closing)["Q1"].evidence == "last block nailed"
    book.undo()
    assert book.job.of(Closing)["Q1"].evidence == "right block nailed"
    book.undo()
    assert item_of(book.job, "Q1").open


def test_a_closing_keeps_what_it_vouches_for_through_the_file(tmp_path: Path) -> None:
    book = make(tmp_path / "wall.json", contact("T1"), check("½ \U0001f4fa", "Q1", about_tag=Ref("T1")))
    shut(book, "Q1")
    assert book.job.of(Closing)["Q1"].vouches == check_of(book.job, "Q1").vouches
    assert not item_of(book.job, "Q1").open


def test_an_item_about_something_keeps_it_from_being_removed_alone(tmp_path: Path) -> None:
    book = make(tmp_path / "wall.json", contact("T1"), check("Call", "Q1", about_tag=Ref("T1")))
    with pytest.raises(BadValue, match="T1 is still in use: Q1"):
        book.act("Remove", [drop(book.job.tables["contact"]["T1"])])
    one = book.job.of(Check)["Q1"]
    book.act("Edit", [edit(one, msgspec.structs.replace(one, about_tag=Ref("")))])
    book.act("Remove", [drop(book.job.tables["contact"]["T1"])])
    with pytest.raises(BadValue, match="no T9 in this job"):
        book.act("Add", [add(check("Call", about_tag=Ref("T9")))])
