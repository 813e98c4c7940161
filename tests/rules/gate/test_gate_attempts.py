"""Every way round the gate that was thought of, tried through the program: none of them leads to Drywall."""

from __future__ import annotations

from pathlib import Path

import msgspec
import pytest

from store.book.changes import Change, Put, Restore, add, drop, edit
from store.book.errors import Conflict
from store.measure.errors import BadValue
from store.records.base import to_doc
from store.records.gate import Check, Closing, Passage
from store.rules.core.checks import close
from store.rules.gate.guard import Held, NeedsReason
from tests.book.build import TODAY, check, reopen
from tests.jobs.gate_job import (
    at_drywall,
    before_drywall,
    check_of,
    go_on,
    item_of,
    job_before,
    pass_to,
    refused,
    shut,
    stands,
)
from tests.jobs.proofs import SEEN

ROOT = Path(__file__).parents[3]


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Where the job is."""
    return tmp_path / "wall.json"


# --- passing without having earned it ---


def test_passing_with_an_open_item_whatever_the_reason(path: Path) -> None:
    book = before_drywall(path)
    for reason in ("", "the boarders are here", "x" * 500):
        refused(book, [add(pass_to("Drywall", "Q1", reason=reason))], says="Q1 Blocks", why=reason)
    assert stands(path).stage == "Rough-in"


def test_passage_by_nobody(path: Path) -> None:
    book = before_drywall(path)
    shut(book, "Q1")
    for nobody in ("", "   ", "\t"):
        refused(book, [add(pass_to("Drywall", "Q1", by=nobody))], BadValue)
    assert stands(path).stage == "Rough-in"


def test_skipping_stages(path: Path) -> None:
    book = job_before("Mock-up", path)
    for stage in ("Rough-in", "Drywall", "Finish", "In use"):
        refused(book, [add(pass_to(stage))], why="hurry", says="is not the next stage, Mock-up is")
    refused(book, [add(pass_to("Survey"))], says="is not the next stage, Mock-up is")


def test_skipping_stages_by_passing_several_at_once(path: Path) -> None:
    book = job_before("Mock-up", path)
    several: list[Change] = [add(pass_to(stage, reason="hurry")) for stage in ("Mock-up", "Rough-in", "Drywall")]
    refused(book, several, why="hurry", says="only one stage at a time")
    refused(book, several[::-1], why="hurry")
    refused(book, [several[0], several[0]], why="hurry")


def test_passing_twice(path: Path) -> None:
    book = at_drywall(path)
    refused(book, [add(pass_to("Drywall", "Q1"))], says="is not the next stage, Finish is")
    assert len([each for each in book.job.of(Passage).values() if each.stage == "Drywall"]) == 1


def test_passage_with_a_shorter_list_than_there_is(path: Path) -> None:
    book = before_drywall(path, "Blocks", "Photos")
    shut(book, "Q1")
    shut(book, "Q2")
    for listed in ((), ("Q1",), ("Q1", "Q2", "Q3")):
        refused(book, [add(pass_to("Drywall", *listed))], says="the list of rough-in items changed meanwhile")


def test_turning_an_earned_passage_into_another(path: Path) -> None:
    book = before_drywall(path)
    old = book.job.of(Passage)["P3"]
    refused(book, [edit(old, msgspec.structs.replace(old, stage="Drywall"))], says="can't be changed")
    refused(book, [Put("passage", "P3", {"stage": "Drywall", "checked": ["Q1"]})], says="can't be changed")
    refused(book, [edit(old, msgspec.structs.replace(old, by="Somebody else"))], says="can't be changed")


def test_putting_a_passage_in_as_if_by_undo(path: Path) -> None:
    book = before_drywall(path)
    doc = {**to_doc(pass_to("Drywall", "Q1")), "tag": "P4"}
    refused(book, [Restore("passage", "P4", doc, None)], says="Q1 Blocks")


# --- closing without having done it ---


def test_closing_without_evidence(path: Path) -> None:
    book = before_drywall(path)
    for evidence in ("", "  ", "\n"):
        refused(book, [add(close(check_of(book.job, "Q1"), "Ann", TODAY, evidence), keep_tag=True)], BadValue)
    assert item_of(book.job, "Q1").open


def test_not_needed_without_reason_or_name(path: Path) -> None:
    book = before_drywall(path)
    one = check_of(book.job, "Q1")
    blank = Closing(tag="Q1", outcome="not needed", date=TODAY, by="Ann", proof="reason", vouches=one.vouches)
    refused(book, [add(blank, keep_tag=True)], BadValue, says="not needed without a reason")
    spaces = msgspec.structs.replace(blank, reason="  ", evidence="photo")
    refused(book, [add(spaces, keep_tag=True)], BadValue, says="not needed without a reason")
    for nobody in ("", " "):
        unnamed = close(one, nobody, TODAY, reason="no screen here")
        refused(book, [add(unnamed, keep_tag=True)], BadValue)
    book.act("Not needed", [add(close(one, "Ann", TODAY, reason="no screen here"), keep_tag=True)])
    go_on(book)
    assert stands(path).stage == "Drywall"


def test_closing_what_is_not_on_the_list(path: Path) -> None:
    book = before_drywall(path)
    for key in ("Q9", "K1/tested", "W1"):
        closing = Closing(tag=key, date=TODAY, by="Ann", proof="seen", evidence=SEEN)
        refused(book, [add(closing, keep_tag=True)], BadValue, says=f"there is no rough-in item {key}")


def test_closing_ahead_of_its_item(path: Path) -> None:
    book = before_drywall(path)
    ahead = Closing(tag="Q2", date=TODAY, by="Ann", proof="seen", evidence=SEEN)
    refused(book, [add(ahead, keep_tag=True)], BadValue)
    # With the item in one action it counts only if it vouches for the item as it is.
    book.act("Both", [add(check("Photos")), add(ahead, keep_tag=True)])
    assert item_of(book.job, "Q2").why_open.startswith("changed since Ann signed it off")


def test_closing_that_vouches_for_something_else(path: Path) -> None:
    book = before_drywall(path)
    vague = Closing(tag="Q1", date=TODAY, by="Ann", proof="seen", evidence=SEEN, vouches={"what": "Something"})
    book.act("Close", [add(vague, keep_tag=True)])
    assert item_of(book.job, "Q1").open
    with pytest.raises(Held):
        go_on(book)


def test_editing_a_closed_check_reopens_it_and_says_why(path: Path) -> None:
    book = before_drywall(path)
    shut(book, "Q1")
    old = book.job.of(Check)["Q1"]
    book.act("Edit", [edit(old, msgspec.structs.replace(old, what="Blocks, and straps", where="left"))])
    assert item_of(book.job, "Q1").why_open == (
        "changed since Ann signed it off: what was Blocks, is Blocks, and straps; where was blank, is left"
    )
    with pytest.raises(Held, match=r"Q1 Blocks, and straps .changed since Ann signed it off"):
        go_on(book)
    # Back to what was vouched for, the closing counts again; what nobody vouched for does not matter.
    book.undo()
    one = book.job.of(Check)["Q1"]
    book.act("Edit", [edit(one, msgspec.structs.replace(one, notes="by the window", trade="carpenter"))])
    assert not item_of(book.job, "Q1").open


def test_deleting_an_open_item_without_reason(path: Path) -> None:
    book = before_drywall(path)
    for why in ("", "  "):
        refused(book, [drop(book.job.of(Check)["Q1"])], NeedsReason, why, "Write down why")


def test_deleting_an_open_item_with_a_reason_is_kept_and_listed(path: Path) -> None:
    book = before_drywall(path, "Blocks", "Photos")
    book.act("Remove Q1", [drop(book.job.of(Check)["Q1"])], "no screen on this wall")
    for each in (book, reopen(path)):
        (gone,) = each.job.removed
        assert (gone.tag, gone.what, gone.by, gone.reason) == ("Q1", "Blocks", "Ann", "no screen on this wall")
    assert [each.n for each in book.history_of("Q1")] == [5, 1]
    shut(book, "Q2")
    go_on(book)
    # Brought back after the wall was closed, it is an item found after it.
    step = book.history_of("Q1")[0].changes[0]
    book.act("Bring Q1 back", [Restore("check", "Q1", step.before, None)])
    assert book.job.removed == ()
    now = stands(path)
    assert (now.stage, [each.key for each in now.found_after]) == ("Drywall", ["Q1"])


def test_renaming_an_open_item_away(path: Path) -> None:
    book = before_drywall(path, "Blocks")
    old = book.job.of(Check)["Q1"]
    refused(book, [edit(old, msgspec.structs.replace(old, tag="Q9"))], BadValue)
    refused(book, [Put("check", "Q1", {"what": ""})], BadValue, says="“item” is blank")
    refused(book, [Put("check", "Q1", {"what": None})], BadValue)


def test_two_names_for_one_item(path: Path) -> None:
    book = before_drywall(path, "Blocks")
    refused(book, [Put("check", "Q01", {"what": "Blocks"}, new=True)], BadValue)
    refused(book, [drop(book.job.of(Check)["Q1"]), add(check("Other", "Q1"), keep_tag=True)], BadValue, "a reason")


# --- undo and redo ---


def test_undo_of_a_closing_after_the_passage(path: Path) -> None:
    book = at_drywall(path)
    assert book.undo() is not None  # the passage itself
    assert stands(path).stage == "Rough-in"
    book.redo()
    closing = book.job.of(Closing)["Q1"]
    refused(book, [Restore("closing", "Q1", None, to_doc(closing))], says="stays signed off")
    refused(book, [drop(closing)], says="stays signed off")
    refused(book, [edit(closing, msgspec.structs.replace(closing, evidence="other"))], says="stays signed off")


def test_undo_of_a_closing_by_another_session_after_the_passage(path: Path) -> None:
    ann = before_drywall(path)
    ben = reopen(path, "Ben")
    shut(ben, "Q1")
    ann.refresh()
    go_on(ann)
    before = path.read_bytes()
    with pytest.raises(Held, match="Q1 stays signed off"):
        ben.undo("a reason")
    assert path.read_bytes() == before
    assert stands(path).stage == "Drywall"


def test_undo_of_the_adding_of_an_open_item(path: Path) -> None:
    book = before_drywall(path)
    shut(book, "Q1")
    book.act("Found", [add(check("Photos"))])
    with pytest.raises(NeedsReason, match=r"no reason to delete a rough-in item, Q2 Photos"):
        book.undo()
    with pytest.raises(Held):
        go_on(book)
    book.undo("written twice")
    assert [(each.tag, each.reason) for each in book.job.removed] == [("Q2", "written twice")]


def test_redo_of_a_passage_after_an_item_was_opened(path: Path) -> None:
    book = at_drywall(path)
    book.undo()
    other = reopen(path, "Ben")
    other.act("Found", [add(check("Photos"))])
    before = path.read_bytes()
    with pytest.raises(Held, match="Q2 Photos"):
        book.redo()
    assert path.read_bytes() == before
    shut(other, "Q2")
    # Also closed, it was not on the list that was looked at.
    with pytest.raises(Held, match="the list of rough-in items changed meanwhile"):
        book.redo()
    book.refresh()
    go_on(book)
    assert stands(path).stage == "Drywall"


def test_redo_of_a_passage_after_its_item_was_edited(path: Path) -> None:
    book = at_drywall(path)
    book.undo()
    other = reopen(path, "Ben")
    one = other.job.of(Check)["Q1"]
    other.act("Edit", [edit(one, msgspec.structs.replace(one, where="left"))])
    with pytest.raises(Held, match="changed since Ann signed it off"):
        book.redo()


def test_undo_of_an_edit_that_closed_an_item_again(path: Path) -> None:
    book = before_drywall(path)
    shut(book, "Q1")
    one = book.job.of(Check)["Q1"]
    book.act("Edit", [edit(one, msgspec.structs.replace(one, where="left"))])
    book.undo()
    go_on(book)
    with pytest.raises(Conflict):  # what was undone rests on a document that is there no more
        book.act("Again", [Restore("check", "Q1", to_doc(one), {**to_doc(one), "where": "left"})])
    book.act("Edit", [edit(one, msgspec.structs.replace(one, where="right"))], "seen through the panel")
    now = stands(path)
    assert (now.stage, [each.key for each in now.found_after]) == ("Drywall", ["Q1"])
