"""Ways round the gate with a text editor in the file: it opens as claimed, not earned, and stays at Rough-in."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from store.book.changes import drop
from store.records.gate import Check, Passage
from store.records.whole import Outside
from store.rules.gate.gate import standing
from tests.book.build import raw, reopen
from tests.jobs.gate_job import (
    at_drywall,
    before_drywall,
    by_hand,
    claimed,
    forged_closing,
    forged_entry,
    forged_passage,
    forged_passages,
    go_on,
    held,
    job_before,
    never_gets_there,
    shut,
    shut_all,
    stands,
)  # fmt: skip
from tests.rules.gate.test_gate_attempts_together import PLAN


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Where the job is."""
    return tmp_path / "wall.json"


# --- the stage ---


@pytest.mark.parametrize("key", ["stage", "now", "claimed"])
def test_stage_key_added(path: Path, key: str) -> None:
    before_drywall(path)
    by_hand(path, lambda t: (t["job"]["1"].update({key: "Drywall"}), t["_meta"]["1"].update({key: "Drywall"})))
    now = stands(path)
    assert (now.stage, now.next, now.claimed) == ("Rough-in", "Drywall", None)
    assert reopen(path).unknown() == [("job", key)]
    held(path, "job job was changed outside of Studbook")


def test_passage_added(path: Path) -> None:
    before_drywall(path)
    by_hand(path, lambda t: forged_passage(t, "Drywall"))
    claimed(path, "the move to Drywall was not recorded by Studbook")


def test_passage_added_with_a_complete_list_while_items_are_open(path: Path) -> None:
    before_drywall(path)
    by_hand(path, lambda t: forged_passage(t, "Drywall", "Q1"))
    claimed(path, "the move to Drywall was not recorded by Studbook")


def test_passage_added_with_everything_closed(path: Path) -> None:
    book = before_drywall(path)
    shut(book, "Q1")
    by_hand(path, lambda t: forged_passage(t, "Drywall", "Q1"))
    claimed(path, "the move to Drywall was not recorded by Studbook")


def test_every_later_passage_added(path: Path) -> None:
    before_drywall(path)
    by_hand(path, lambda t: forged_passages(t, "Drywall", "Finish", "Hook-up", "In use"))
    claimed(path, stage="In use")


def test_a_passage_added_beyond_one_that_is_missing(path: Path) -> None:
    before_drywall(path)
    by_hand(path, lambda t: forged_passage(t, "Finish"))
    claimed(path, "the job was never moved to Drywall", stage="Finish")


def test_a_second_passage_added_to_an_earned_one(path: Path) -> None:
    at_drywall(path)
    by_hand(path, lambda t: forged_passage(t, "Drywall"))
    claimed(path, "was not recorded by Studbook")


def test_an_earlier_passage_turned_into_drywall(path: Path) -> None:
    before_drywall(path)
    by_hand(path, lambda t: t["passage"]["3"].update(stage="Drywall", checked=["Q1"]))
    now = stands(path)
    assert now.stage == "Mock-up"
    assert now.claimed == "Drywall"


def test_passage_added_with_an_entry_in_the_history(path: Path) -> None:
    before_drywall(path)

    def forge(tables: Any) -> None:
        forged_passage(tables, "Drywall", "Q1")
        forged_entry(tables, ("passage", "P4", None, tables["passage"]["4"]))

    by_hand(path, forge)
    assert reopen(path).job.outside != ()
    claimed(path, "change 5 of the history was altered outside of the program")


def test_closing_and_passage_added_with_an_entry_in_the_history(path: Path) -> None:
    before_drywall(path)

    def forge(tables: Any) -> None:
        forged_closing(tables, "Q1")
        forged_passage(tables, "Drywall", "Q1")
        closing, passage = tables["closing"]["1"], tables["passage"]["4"]
        forged_entry(tables, ("closing", "Q1", None, closing), ("passage", "P4", None, passage))

    by_hand(path, forge)
    claimed(path, "change 5 of the history was altered outside of the program")


def test_entry_in_the_history_and_then_putting_back(path: Path) -> None:
    before_drywall(path)

    def forge(tables: Any) -> None:
        forged_closing(tables, "Q1")
        forged_passage(tables, "Drywall", "Q1")
        closing, passage = tables.pop("closing")["1"], tables["passage"].pop("4")
        forged_entry(tables, ("closing", "Q1", None, closing), ("passage", "P4", None, passage))

    by_hand(path, forge)
    book = reopen(path)
    assert {(each.kind, each.what) for each in book.job.outside} == {("closing", "vanished"), ("passage", "vanished")}
    for each in book.job.outside:
        book.mend(each)
    assert standing(book.job).stage == "Rough-in"
    claimed(path, "change 5 of the history was altered outside of the program")


# --- closings ---


@pytest.mark.parametrize(
    "without",
    [{"evidence": None}, {"evidence": "  "}, {"by": ""}, {"vouches": None}, {"outcome": "not needed"}, {}],
    ids=["no evidence", "blank evidence", "nobody", "vouching for nothing", "no reason", "whole"],
)
def test_closing_forged(path: Path, without: dict[str, Any]) -> None:
    before_drywall(path)
    by_hand(path, lambda t: forged_closing(t, "Q1", **without))
    (item,) = stands(path).items
    assert item.why_open == "its sign-off was not recorded by Studbook"
    held(path, "Q1 Blocks (its sign-off was not recorded by Studbook)")


def test_closing_forged_whole_and_passage_added(path: Path) -> None:
    before_drywall(path)
    by_hand(path, lambda t: (forged_closing(t, "Q1"), forged_passages(t, "Drywall")))
    claimed(path, "was not recorded by Studbook")


def test_closing_edited_to_vouch_for_another_item(path: Path) -> None:
    book = before_drywall(path, "Blocks", "Photos")
    shut(book, "Q1")
    by_hand(path, lambda t: t["closing"]["1"].update(tag="Q2"))
    assert all(each.open for each in stands(path).items)
    held(path, "closing Q1 was deleted outside of Studbook")


def test_closing_removed_after_the_passage(path: Path) -> None:
    at_drywall(path)
    by_hand(path, lambda t: t["closing"].clear())
    claimed(path, "closing Q1 was deleted outside of Studbook")


def test_closing_emptied_after_the_passage(path: Path) -> None:
    at_drywall(path)
    by_hand(path, lambda t: t["closing"]["1"].pop("evidence"))
    claimed(path, "closing Q1 was changed outside of Studbook")


# --- items ---


def test_open_item_deleted_before_the_passage(path: Path) -> None:
    before_drywall(path)
    by_hand(path, lambda t: t["check"].clear())
    assert stands(path).items == ()
    held(path, "check Q1 was deleted outside of Studbook")
    # Put back, it is open as before.
    book = reopen(path)
    book.mend(Outside("check", "Q1", "vanished"))
    held(path, "Q1 Blocks")
    shut(reopen(path), "Q1")
    go_on(reopen(path))
    assert stands(path).stage == "Drywall"


def test_open_item_deleted_with_its_lines_in_the_history(path: Path) -> None:
    before_drywall(path)

    def forge(tables: Any) -> None:
        tables["check"].clear()
        first = tables["history"]["1"]
        first["changes"] = [each for each in first["changes"] if each["kind"] != "check"]

    by_hand(path, forge)
    assert reopen(path).job.outside == ()
    held(path, "change 1 of the history was altered outside of the program")


def test_open_item_deleted_and_passage_added(path: Path) -> None:
    before_drywall(path)
    by_hand(path, lambda t: (t["check"].clear(), forged_passages(t, "Drywall")))
    claimed(path)


def test_item_deleted_after_the_passage(path: Path) -> None:
    at_drywall(path)
    by_hand(path, lambda t: t["check"].clear())
    claimed(path, "check Q1 was deleted outside of Studbook")


def test_item_added_by_hand_after_the_passage(path: Path) -> None:
    at_drywall(path)
    by_hand(path, lambda t: t["check"].update({"2": {"tag": "Q2", "what": "Photos"}}))
    claimed(path, "check Q2 was added outside of Studbook")
    book = reopen(path)
    book.mend(Outside("check", "Q2", "added"))
    assert stands(path).stage == "Drywall"


def test_item_edited_by_hand_to_what_was_closed(path: Path) -> None:
    book = before_drywall(path, "Blocks")
    shut(book, "Q1")
    by_hand(path, lambda t: t["check"]["1"].update(what="Nothing"))
    by_hand(path, lambda t: t["closing"]["1"]["vouches"].update(what="Nothing"))
    held(path, "check Q1 was changed outside of Studbook")


@pytest.mark.parametrize(
    "change",
    [
        lambda t: t["cable"]["1"].update(in_wall=False),
        lambda t: t["cable"]["1"].update(retired="2026-11-01"),
        lambda t: t["cable"].clear(),
        lambda t: t["wall"]["1"].update(spacing="24 in"),
        lambda t: t["job"]["1"].update(permit="unknown"),
    ],
    ids=["out of the wall", "retired", "cable gone", "wall", "permit"],
)
def test_plan_edited_by_hand_so_that_its_checks_go_away(path: Path, change: Callable[[Any], object]) -> None:
    book = job_before("Drywall", path, *PLAN)
    for each in standing(book.job).open:
        if not each.key.startswith("K1/"):
            shut(book, each.key)
    by_hand(path, change)
    held(path, "outside of Studbook")


def test_plan_edited_by_hand_after_the_passage(path: Path) -> None:
    book = job_before("Drywall", path, *PLAN)
    shut_all(book)
    go_on(book)
    by_hand(path, lambda t: t["cable"]["1"].update(in_wall=False))
    claimed(path, "cable K1 was changed outside of Studbook")
    reopen(path).mend(Outside("cable", "K1", "changed"))
    assert stands(path).stage == "Drywall"


def test_a_wish_edited_by_hand_bears_on_nothing(path: Path) -> None:
    book = before_drywall(path)
    shut(book, "Q1")
    by_hand(path, lambda t: t.update(wish={"1": {"tag": "L1", "what": "warm light"}}))
    go_on(reopen(path))
    assert stands(path).stage == "Drywall"


# --- the history and the counters ---


def _truncate(tables: Any) -> None:
    """Cut the end off the history, with what it did."""
    tables["history"].popitem()


HISTORY: list[tuple[str, Callable[[Any], object]]] = [
    ("first entry removed", lambda t: t["history"].pop("1")),
    ("an entry removed", lambda t: t["history"].pop("3")),
    ("who edited", lambda t: t["history"]["2"].update(who="Somebody else")),
    ("why edited", lambda t: t["history"]["2"].update(why="")),
    ("time edited", lambda t: t["history"]["2"].update(at="2020-01-01T00:00:00Z")),
    ("what was changed edited", lambda t: t["history"]["2"]["changes"].clear()),
    ("a change slipped in", lambda t: t["history"]["2"]["changes"].append(dict(t["history"]["1"]["changes"][0]))),
    ("an entry slipped in", lambda t: forged_entry(t)),
    ("seal edited", lambda t: t["history"]["2"].update(seal="0" * 24)),
    ("all removed", lambda t: t["history"].clear()),
    ("truncated", _truncate),
    ("last set back", lambda t: t["_meta"]["1"].update(last=2)),
    ("last set ahead", lambda t: t["_meta"]["1"].update(last=99)),
    ("last removed", lambda t: t["_meta"]["1"].pop("last")),
]


@pytest.mark.parametrize("change", [each[1] for each in HISTORY], ids=[each[0] for each in HISTORY])
def test_history_or_counters_edited_before_the_passage(path: Path, change: Callable[[Any], object]) -> None:
    book = before_drywall(path)
    shut(book, "Q1")
    by_hand(path, change)
    never_gets_there(path)


@pytest.mark.parametrize("change", [each[1] for each in HISTORY], ids=[each[0] for each in HISTORY])
def test_history_or_counters_edited_after_the_passage(path: Path, change: Callable[[Any], object]) -> None:
    at_drywall(path)
    by_hand(path, change)
    assert stands(path).claimed == "Drywall"
    never_gets_there(path)


def test_counters_set_back_so_that_a_tag_comes_again(path: Path) -> None:
    book = before_drywall(path, "Blocks", "Photos")
    book.act("Remove", [drop(book.job.of(Check)["Q2"])], "written twice")
    shut(book, "Q1")
    by_hand(path, lambda t: t["_meta"]["1"].update(next={}))
    later = reopen(path)
    go_on(later)
    # The next item is no second Q2, and the next passage no second P1.
    later.undo()
    go_on(later)
    assert list(later.job.of(Passage)) == ["P1", "P2", "P3", "P5"]


def test_number_of_a_record_edited(path: Path) -> None:
    before_drywall(path, "Blocks", "Photos")
    by_hand(path, lambda t: t["check"].update({"9": t["check"].pop("1")}))
    # The number under which a record stands is no part of what it says.
    assert reopen(path).job.outside == ()
    held(path, "Q1 Blocks")


def test_the_whole_file_called_an_older_form(path: Path) -> None:
    before_drywall(path)

    def forge(tables: Any) -> None:
        tables["_meta"]["1"] = {"studbook": 0}
        forged_closing(tables, "Q1")
        forged_passages(tables, "Drywall")
        tables.pop("history")

    by_hand(path, forge)
    # Nothing vouches for its closings and passages, the earlier ones among them.
    now = stands(path)
    assert (now.stage, now.claimed) == ("Survey", "Drywall")
    assert now.unearned == "the move to Design was not recorded by Studbook"
    assert [each.why_open for each in now.items] == ["its sign-off was not recorded by Studbook"]
    never_gets_there(path)
    book = reopen(path)
    for each in book.job.outside:
        book.mend(each)
    held(path, "Q1 Blocks")


def test_an_older_copy_put_back_is_just_an_older_state(path: Path) -> None:
    book = before_drywall(path)
    older = path.read_bytes()
    shut(book, "Q1")
    go_on(book)
    path.write_bytes(older)
    held(path, "Q1 Blocks")
    assert "passage" in raw(path)
