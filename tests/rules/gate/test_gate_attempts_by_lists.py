"""Ways round the gate through lists read from files, things changed for others, and answers by nobody."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import msgspec
import pytest

from store.book.book import Book
from store.book.changes import Change, add, drop, edit
from store.measure.errors import BadValue
from store.records.field import Ref
from store.records.gate import Answer, Check, Closing
from store.records.wall import Wall
from store.records.wiring import Box, Cable
from store.rules.core.checks import close
from store.rules.core.findings import Finding, findings
from store.rules.gate.gate import passage, standing
from store.rules.gate.guard import Held, NeedsReason
from tests.book.build import TODAY, reopen
from tests.jobs.begun import begun
from tests.jobs.gate_job import before_drywall, check_of, go_on, item_of, job_before, refused, shut, shut_all, stands
from tests.jobs.proofs import SEEN
from tui.acts.retiring import retire
from tui.cli.main import main

UNSEEN = ("  ", "\u200b", "\u2061", "\ufe0f", "\u0301")


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Where the job is."""
    return tmp_path / "wall.json"


# --- lists read from files ---


@pytest.mark.parametrize("kind", ["closing", "closings", "passage", "passages", "answer", "answers", "job"])
def test_the_gates_own_records_are_not_read_from_csv(path: Path, kind: str, tmp_path: Path) -> None:
    before_drywall(path).close()
    (tmp_path / "list.csv").write_text("tag,stage,date,by,evidence,answer\nQ1,Drywall,2026-11-25,Eve,photo,fine\n")
    before = path.read_bytes()
    assert main(["import", kind, str(path), str(tmp_path / "list.csv")]) == 6
    assert path.read_bytes() == before


def test_csv_that_rewrites_a_closed_item_opens_it(path: Path, tmp_path: Path) -> None:
    book = before_drywall(path, "Blocks", "Photos")
    shut(book, "Q1")
    (tmp_path / "list.csv").write_text("tag,what\nQ1,Blocks and straps\n")
    assert main(["import", "check", str(path), str(tmp_path / "list.csv")]) == 0
    now = stands(path)
    assert now.stage == "Rough-in"
    assert {each.key for each in now.open} == {"Q1", "Q2"}


def test_csv_with_columns_of_a_closing_closes_nothing(path: Path, tmp_path: Path) -> None:
    before_drywall(path).close()
    (tmp_path / "list.csv").write_text("tag,what,by,evidence,outcome,vouches\nQ1,Blocks,Eve,photo,closed,x\n")
    main(["import", "check", str(path), str(tmp_path / "list.csv")])
    assert [each.key for each in stands(path).open] == ["Q1"]


def test_csv_that_empties_an_item_is_refused(path: Path, tmp_path: Path) -> None:
    before_drywall(path).close()
    before = path.read_bytes()
    for nothing in ("", " ", "\u2061"):
        (tmp_path / "list.csv").write_text(f"tag,what\nQ1,{nothing}\nQ2,New\n")
        assert main(["import", "check", str(path), str(tmp_path / "list.csv")]) == 6
        assert path.read_bytes() == before


# --- one thing changed for another ---


def wired(path: Path) -> Book:
    """A job with a cable in the wall whose checks are all closed."""
    ends = [Wall(tag="W1", name="Wall"), *(Box(tag=f"B{n}", wall=Ref("W1"), what="low-voltage") for n in (1, 2))]
    cable = Cable(tag="K1", type="cat6", start=Ref("B1"), end=Ref("B2"))
    book = job_before("Drywall", path, *ends, cable)
    shut_all(book)
    return book


def test_a_cable_that_takes_the_place_of_a_tested_one_is_tested_itself(path: Path) -> None:
    book = wired(path)
    book.act("Change", retire("K1", Cable(tag="", type="cat6"), "Ann", "it was cut"), "it was cut")
    keys = {each.key for each in stands(path).open}
    assert {"K2/pulled", "K2/tested", "K2/labelled"} <= keys
    with pytest.raises(Held, match=r"Tested, K2"):
        go_on(book, "it is the same cable")
    # The closings of the old one say nothing of it, and cannot be carried over.
    old = book.job.of(Closing)["K1/tested"]
    book.act("Carry over", [add(msgspec.structs.replace(old, tag="K2/tested"), keep_tag=True)])
    assert item_of(book.job, "K2/tested").open == (check_of(book.job, "K2/tested").vouches != old.vouches)
    assert {"K2/pulled", "K2/labelled"} <= {each.key for each in stands(path).open}


def test_a_cable_changed_after_the_wall_was_closed_is_found_after_it(path: Path) -> None:
    book = wired(path)
    go_on(book)
    book.act("Change", retire("K1", Cable(tag="", type="cat6"), "Ann", "it was cut"), "it was cut")
    now = stands(path)
    assert now.stage == "Drywall"
    assert {"K2/pulled", "K2/tested"} <= {each.key for each in now.found_after}


def test_retiring_a_cable_until_the_wall_is_closed(path: Path) -> None:
    book = wired(path)
    book.act("Open", [drop(book.job.of(Closing)["K1/tested"])])
    one = book.job.of(Cable)["K1"]
    retired = [edit(one, msgspec.structs.replace(one, retired=TODAY))]
    refused(book, retired, NeedsReason, says="K1/tested")
    book.act("Retire", retired, "a spare that nobody wants")
    go_on(book)
    book.act("Back", [edit(book.job.of(Cable)["K1"], one)])
    now = stands(path)
    assert (now.stage, [each.key for each in now.found_after]) == ("Drywall", ["K1/tested"])
    assert "Found after close-in" in now.holds[0].what


def test_the_closing_of_a_retired_cable_stays_when_the_wall_is_closed(path: Path) -> None:
    book = wired(path)
    go_on(book)
    one = book.job.of(Cable)["K1"]
    book.act("Retire", [edit(one, msgspec.structs.replace(one, retired=TODAY))], "it was cut")
    refused(book, [drop(book.job.of(Closing)["K1/tested"])], says="stays signed off")


# --- answers by nobody ---


def demo_with_a_stop(path: Path) -> tuple[Book, Finding]:
    """A job before Drywall that nothing but one finding holds: one that an office may answer, which a cord is not."""
    book = begun(path, "demo", TODAY, "Ann")
    cord = book.job.of(Cable)["K9"]
    book.act("Read its jacket", [edit(cord, msgspec.structs.replace(cord, rating="AWM 2464"))])
    shut_all(book)
    stops = [each for each in findings(book.job) if each.severity == "stop" and not each.answered]
    assert [hold.key for hold in standing(book.job).holds] == [each.key for each in stops]
    return book, stops[0]


def answer_to(finding: Finding, by: str = "Ann", says: str = "as the inspector saw it", day: date = TODAY) -> Answer:
    return Answer(
        tag=finding.key, by=by, says=says, date=day, office="building department", reference="R-112",
        vouches=dict(finding.numbers),
    )  # fmt: skip


def test_an_answer_by_nobody_or_of_nothing_or_of_tomorrow(path: Path) -> None:
    book, stop = demo_with_a_stop(path)
    for unseen in ("", *UNSEEN):
        refused(book, [add(answer_to(stop, by=unseen), keep_tag=True)], BadValue, says="“accepted by” is blank")
        refused(book, [add(answer_to(stop, says=unseen), keep_tag=True)], BadValue, says="“answer” is blank")
    later = answer_to(stop, day=TODAY + timedelta(days=30))
    refused(book, [add(later, keep_tag=True)], BadValue, says="is still to come")
    with pytest.raises(Held):
        go_on(book, "a reason")


def test_an_answer_emptied_afterwards(path: Path) -> None:
    book, stop = demo_with_a_stop(path)
    book.act("Answer", [add(answer_to(stop), keep_tag=True)])
    old = book.job.of(Answer)[stop.key]
    for unseen in UNSEEN:
        refused(book, [edit(old, msgspec.structs.replace(old, by=unseen))], BadValue)
    assert not standing(book.job).holds


def test_an_answer_taken_back_in_the_action_that_passes(path: Path) -> None:
    book, stop = demo_with_a_stop(path)
    book.act("Answer", [add(answer_to(stop), keep_tag=True)])
    reopened = reopen(path, "Ben")
    both: list[Change] = [drop(reopened.job.of(Answer)[stop.key]), add(passage(reopened.job, "Ben"))]
    refused(reopened, both, says=stop.headline)
    assert stands(path).stage == "Rough-in"


# --- names that nobody sees ---


@pytest.mark.parametrize("unseen", UNSEEN)
def test_passing_closing_and_removing_in_the_name_of_nobody(path: Path, unseen: str, tmp_path: Path) -> None:
    book = before_drywall(path, "Blocks")
    one = check_of(book.job, "Q1")
    refused(book, [add(close(one, unseen, TODAY, SEEN), keep_tag=True)], BadValue)
    refused(book, [add(close(one, "Ann", TODAY, unseen), keep_tag=True)], BadValue)
    refused(book, [drop(book.job.of(Check)["Q1"])], Held, why=unseen, says="Write down why")
    shut(book, "Q1")
    before = path.read_bytes()
    assert main(["advance", str(path), "--by", unseen]) == 6
    assert path.read_bytes() == before


@pytest.mark.parametrize("words", [".", "x", "ok", "\u3164.", "12"])
def test_an_item_is_not_worded_away(path: Path, tmp_path: Path, words: str) -> None:
    """An open item that says nothing any more would be signed off by whatever is seen."""
    before_drywall(path, "Blocks nailed at the TV").close()
    (tmp_path / "list.csv").write_text(f"tag,what\nQ1,{words}\n")
    before = path.read_bytes()
    assert main(["import", "check", str(path), str(tmp_path / "list.csv"), "--reason", "shorter words for it"]) == 6
    assert path.read_bytes() == before
    (tmp_path / "list.csv").write_text("tag,what\nQ1,Blocks screwed\n")
    assert main(["import", "check", str(path), str(tmp_path / "list.csv")]) == 0
