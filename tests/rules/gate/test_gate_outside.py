"""Two who pass at once, edits outside of the program, and a damaged history: what holds, and the ways out."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import msgspec
import pytest

from store.book.book import Book
from store.book.changes import Put, add, drop
from store.book.outside.accepting import accept_history
from store.book.outside.confirming import confirm
from store.measure.errors import BadValue
from store.records.gate import Passage
from store.records.wiring import Cable
from store.rules.gate.gate import STAGES, passage, standing
from store.rules.gate.guard import Held, NeedsReason
from tests.book.build import reopen, rewrite
from tests.jobs.gate_job import (
    PLAN,
    at_drywall,
    before_drywall,
    go_on,
    item_of,
    job_before,
    refused,
    shut,
    shut_all,
    stands,
)
from tests.jobs.proofs import SEEN, sound, take_picture
from tests.rules.gate.test_gate_taken_off import WHOLE
from tui.cli.main import main


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Where the job is."""
    return tmp_path / "wall.json"


# --- the stage that was announced ---


def test_two_at_once_pass_one_stage(path: Path) -> None:
    book = at_drywall(path)
    first, second = reopen(path, "Ben"), reopen(path, "Cem")
    announced = standing(first.job).next
    assert announced == standing(second.job).next == "Finish"
    first.act("Pass", lambda job: [add(passage(job, "Ben", "", announced))])
    with pytest.raises(Held, match="Finish is not the next stage"):
        second.act("Pass", lambda job: [add(passage(job, "Cem", "", announced))])
    assert stands(path).stage == "Finish"
    book.close()


def test_advance_goes_just_where_it_is_told(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    at_drywall(path).close()
    assert main(["advance", str(path), "--by", "Ben Hall", "--to", "Hook-up"]) == 3
    assert "Hook-up is not the next stage, Finish is" in capsys.readouterr().err
    assert main(["advance", str(path), "--by", "Ben Hall", "--to", "nowhere"]) == 6
    assert main(["advance", str(path), "--by", "Ben Hall", "--to", "finish"]) == 0
    assert main(["advance", str(path), "--by", "Ben Hall", "--to", "Finish"]) == 3
    assert stands(path).stage == "Finish"


# --- outside of the program ---


def out_of_the_wall(path: Path) -> Book:
    """A cable that a text editor took out of the wall."""
    book = job_before("Drywall", path, *PLAN)
    shut_all(book)
    book.close()
    rewrite(path, lambda tables: tables["cable"]["1"].update(in_wall=False))
    return reopen(path)


def told(book: Book) -> list[tuple[str, tuple[str, ...]]]:
    return [(each.tag, each.fields) for each in book.job.outside]


def test_saving_another_field_launders_nothing(path: Path) -> None:
    book = out_of_the_wall(path)
    for value in ("one", "two"):
        book.act("Name", [Put("cable", "K1", {"name": value})])
        assert told(book) == told(reopen(path)) == [("K1", ("in_wall",))]
    book.undo()
    assert told(reopen(path)) == [("K1", ("in_wall",))]
    refused(book, [Put("cable", "K1", {"retired": "2026-11-25", "in_wall": None})], NeedsReason, says="K1")
    with pytest.raises(Held, match="K1 was changed outside"):
        go_on(book, "a reason")


def test_putting_back_and_undoing_launders_nothing(path: Path) -> None:
    book = out_of_the_wall(path)
    book.mend(book.job.outside[0])
    assert told(book) == []
    undone = book.undo()
    assert undone is None or "Put back" not in undone.what
    assert reopen(path).job.of(Cable)["K1"].in_wall
    assert told(reopen(path)) == []


def test_deleting_it_launders_nothing(path: Path) -> None:
    book = out_of_the_wall(path)
    refused(book, [drop(book.job.of(Cable)["K1"])], Held, why="not wanted", says="changed outside")


def test_an_edit_is_taken_over_by_name_and_reason_and_what_it_took_off_is_listed(path: Path) -> None:
    book = out_of_the_wall(path)
    (edited,) = book.job.outside
    for by, why in (("", "moved out"), ("Ben Hall", ""), ("x", "moved out"), ("Ben Hall", "ok")):
        with pytest.raises(BadValue):
            confirm(book, edited, ["in_wall"], by, why)
    with pytest.raises(BadValue):
        confirm(book, edited, ["type"], "Ben Hall", "moved out")
    confirm(book, edited, ["in_wall"], "Ben Hall", "it runs in the cabinet")
    again = reopen(path)
    assert told(again) == []
    assert "K1/tested" in {each.tag for each in again.job.removed}
    assert again.history_of("K1")[0].why == "changed outside by Ben Hall: it runs in the cabinet"
    assert again.undo() is None or again.job.of(Cable)["K1"].in_wall is False
    again.audit()
    assert again.job.outside == ()


def test_what_several_edits_took_off_is_listed_whole(path: Path) -> None:
    book = job_before("Drywall", path, *WHOLE)
    listed = {each.key for each in standing(book.job).items if each.key.startswith(("K1/", "B1/"))}
    assert "K1/plates" in listed
    book.close()
    rewrite(path, lambda tables: [tables.pop(kind) for kind in ("cable", "box")])
    book = reopen(path)
    assert not [each.key for each in standing(book.job).items if each.key in listed]
    for edited in sorted(book.job.outside, key=lambda each: each.tag, reverse=True):
        confirm(book, edited, [], "Ben Hall", "they were never built")
    assert not book.job.outside
    assert listed <= {each.tag for each in reopen(path).job.removed}


def test_what_the_gate_stands_on_is_never_taken_over(path: Path) -> None:
    before_drywall(path).close()
    rewrite(
        path,
        lambda tables: tables.setdefault("closing", {}).update(
            {"1": {"tag": "Q1", "date": "2026-11-25", "by": "Eve", "proof": "seen", "evidence": SEEN}}
        ),
    )
    book = reopen(path)
    with pytest.raises(Held, match="restore it"):
        confirm(book, book.job.outside[0], [], "Eve", "it was me")
    assert stands(path).open


# --- a damaged history ---


def test_one_letter_of_the_history_holds_and_the_way_out_is_named_and_on_record(
    path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    book = before_drywall(path)
    shut(book, "Q1")
    book.close()
    rewrite(path, lambda tables: tables["history"]["2"].update(who="Anm"))
    with pytest.raises(Held, match="history was altered"):
        go_on(reopen(path), "a reason")
    assert main(["verify", str(path)]) == 4
    said = capsys.readouterr().out
    assert "change 2 of the history was altered" in said
    assert "the history is damaged" in said
    assert "every seal" not in said
    assert "--accept-history" in said
    assert "--restore" in said
    assert main(["verify", str(path), "--accept-history", "--by", "Ben Hall", "--reason", "x"]) == 6
    assert main(["verify", str(path), "--accept-history", "--reason", "a typo of mine"]) == 6
    main(["verify", str(path), "--accept-history", "--by", "Ben Hall", "--reason", "a typo of mine"])
    capsys.readouterr()
    later = reopen(path)
    later.audit(inside=True)
    assert [each.kind for each in later.job.outside if each.kind == "history"] == []
    main(["verify", str(path)])
    assert "Ben Hall: Accepted the history as it is: change 2" in capsys.readouterr().out
    with pytest.raises(BadValue, match="the history is intact"):
        accept_history(later, "once more")


def test_what_a_damaged_entry_closed_is_closed_again_after_it_was_accepted(path: Path) -> None:
    book = before_drywall(path)
    shut(book, "Q1")
    number = str(len(book.entries()))
    book.close()

    def forge(tables: dict[str, dict[str, dict[str, object]]]) -> None:
        tables["history"][number]["who"] = "Eve"

    rewrite(path, forge)
    accept_history(reopen(path), "a typo of mine")
    later = reopen(path)
    assert item_of(later.job, "Q1").why_open == "its sign-off was not recorded by Studbook"
    with pytest.raises(Held):
        go_on(later, "a reason")
    for each in later.job.outside:
        later.mend(each)
    shut(later, "Q1")
    go_on(later)
    assert stands(path).stage == "Drywall"


def test_what_was_accepted_is_sealed_from_then_on(path: Path) -> None:
    before_drywall(path).close()
    rewrite(path, lambda tables: tables["history"]["2"].update(who="Anm"))
    accept_history(reopen(path), "a typo of mine")
    rewrite(path, lambda tables: tables["history"]["1"].update(who="Eve"))
    again = reopen(path)
    again.audit()
    assert any(each.kind == "history" for each in again.job.outside)
    assert json.loads(path.read_bytes())["history"]


def test_all_items_of_the_plan_are_signed_off_on_sound_proof(path: Path) -> None:
    book = job_before("Drywall", path, *PLAN)
    take_picture(path.parent)
    book.act("All", [add(sound(each.check), keep_tag=True) for each in standing(book.job).open])
    go_on(book)
    assert stands(path).stage == "Drywall"


# --- what was passed later rests on what was passed before ---


def altered(path: Path, number: int) -> Book:
    """The history accepted as it is, after one letter of an entry was altered."""
    rewrite(path, lambda tables: tables["history"][str(number)].update(who="Eve"))
    accept_history(reopen(path), "a typo of mine")
    return reopen(path)


def entry_of(path: Path, stage: str) -> int:
    """The number of the entry that passed to a stage."""
    return next(
        each.n for each in reopen(path).entries() if any((c.after or {}).get("stage") == stage for c in each.changes)
    )


@pytest.mark.parametrize("stage", ["Design", "Mock-up", "Rough-in", "Drywall"])
def test_no_old_passage_counts_again_after_a_damaged_one_was_accepted_and_put_back(path: Path, stage: str) -> None:
    at_drywall(path).close()
    book = altered(path, entry_of(path, stage))
    doubted = [each.tag for each in book.job.outside]
    assert doubted == list(book.job.of(Passage))[STAGES.index(stage) - 1 :]
    assert standing(book.job).stage == STAGES[STAGES.index(stage) - 1]
    main(["verify", str(path), "--put-back"])
    while (now := stands(path)).stage != "Drywall":
        assert STAGES.index(now.stage) < STAGES.index("Drywall")
        before = now.stage
        assert (
            main(["advance", str(path), "--by", "Ben Hall", "--to", str(now.next), "--reason", "as agreed before"]) == 0
        )
        assert STAGES.index(stands(path).stage) == STAGES.index(before) + 1


def test_a_damaged_sign_off_makes_the_passage_after_it_doubtful(path: Path) -> None:
    at_drywall(path).close()
    number = next(each.n for each in reopen(path).entries() if any(c.kind == "closing" for c in each.changes))
    book = altered(path, number)
    assert {each.tag for each in book.job.outside} == {"Q1", "P4"}
    main(["verify", str(path), "--put-back"])
    assert stands(path).stage == "Rough-in"
    assert main(["advance", str(path), "--by", "Ben Hall", "--to", "Drywall", "--reason", "as before"]) == 3
    shut(reopen(path), "Q1")
    assert main(["advance", str(path), "--by", "Ben Hall", "--to", "Drywall"]) == 0
    assert stands(path).stage == "Drywall"


def test_a_second_acceptance_doubts_only_what_was_passed_since_the_damage(path: Path) -> None:
    before_drywall(path).close()
    book = altered(path, entry_of(path, "Mock-up"))
    for each in book.job.outside:
        book.mend(each)
    for reason in ("once more", "and again"):
        go_on(book, reason)
    shut(book, "Q1")
    assert stands(path).stage == "Rough-in"
    last = len(book.entries())
    again = altered(path, last)
    assert {each.tag for each in again.job.outside} == {"Q1"}
    assert standing(again.job).stage == "Rough-in"


def test_a_passage_older_than_the_one_before_it_does_not_count(path: Path) -> None:
    book = at_drywall(path)
    job = book.job
    assert standing(job).stage == "Drywall"
    older = msgspec.structs.replace(job, marks={**job.marks, "P3": job.marks["P4"] + 1})
    now = standing(older)
    assert (now.stage, now.claimed) == ("Rough-in", "Drywall")
    assert now.unearned == "the move to Drywall is older than the move to Rough-in that it depends on"


def forged_again(tables: Any, number: str, **values: object) -> None:
    """An entry of a sign-off forged together with the sign-off itself."""
    change = next(each for each in tables["history"][number]["changes"] if each["kind"] == "closing")
    change["after"].update(values)
    tables["closing"]["1"].update(values)


@pytest.mark.parametrize(
    "after",
    [
        lambda t: t["closing"].clear(),
        lambda t: t["closing"]["1"].update(evidence="another word of mine"),
        lambda t: t["closing"]["1"].update(by="Eve"),
        lambda t: None,
    ],
    ids=["deleted", "changed", "changed by", "as it is"],
)
@pytest.mark.parametrize("first", [True, False], ids=["edited before", "edited after"])
def test_no_forged_sign_off_comes_to_count_by_being_edited_and_put_back(
    path: Path, after: Callable[[Any], object], first: bool
) -> None:
    book = before_drywall(path)
    shut(book, "Q1")
    number = str(len(book.entries()))
    book.close()
    rewrite(path, lambda t: forged_again(t, number, evidence="nobody ever looked at it"))
    if first:
        rewrite(path, after)
    accept_history(reopen(path), "a slip of mine")
    if not first:
        rewrite(path, after)
    for _ in range(3):
        main(["verify", str(path), "--put-back"])
        assert item_of(reopen(path).job, "Q1").open
        assert main(["advance", str(path), "--by", "Ben Hall", "--to", "Drywall"]) == 3
    assert reopen(path).job.outside == ()
    shut(reopen(path), "Q1")
    go_on(reopen(path))
    assert stands(path).stage == "Drywall"


def test_a_passage_of_which_the_history_lost_the_end_is_put_back_and_passed_anew(
    path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    at_drywall(path).close()
    rewrite(path, lambda t: t["history"].pop(str(entry_of(path, "Drywall"))))
    accept_history(reopen(path), "the disk was full")
    capsys.readouterr()
    main(["verify", str(path)])
    assert "passage P4 depends on a damaged part of the history\n" in capsys.readouterr().out
    assert main(["verify", str(path), "--put-back"]) == 0
    assert (stands(path).stage, stands(path).claimed) == ("Rough-in", None)
    go_on(reopen(path))
    assert stands(path).stage == "Drywall"


def test_what_is_doubted_and_was_never_there_holds_nothing(path: Path) -> None:
    before_drywall(path).close()
    rewrite(path, lambda t: t["history"]["4"].update(doubted=[["passage", "P9"]]))
    accept_history(reopen(path), "a slip of mine")
    assert {each.tag for each in reopen(path).job.outside} == {"P3"}
    assert main(["verify", str(path), "--put-back"]) == 0
