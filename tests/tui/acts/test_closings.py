"""One truth: what is signed off as pulled is pulled everywhere, and a save says what it opened."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from msgspec.structs import replace

from store.book.changes import edit
from store.records.field import Ref
from store.records.gate import Check
from store.records.wall import Wall
from store.records.whole import Job
from store.records.wiring import Box, Cable
from store.rules.buying.buying_list import buying_list
from store.rules.core.checks import close, rough_in
from store.rules.core.was_done import cable_state
from store.rules.gate.gate import standing
from store.rules.gate.opened import opened_words
from tests.book.build import NO_PERMIT
from tests.jobs.power_case import TODAY, job_of, make
from tests.tui.seat import seat_at, small_job
from tui.acts.closings import closing_changes, reopening_changes
from tui.view.state import State
from tui.views.plan.figured import Cables

CABLE = make(Cable, "K1", name="net", type="cat6", start=Ref("B1"), end=Ref("B2"))
RECORDS = [
    make(Wall, "W1", name="North"),
    *(make(Box, f"B{n}", name="box", what="low-voltage", wall=Ref("W1"), x=f"{16 * n}", y="15") for n in (1, 2)),
    CABLE,
]


def signed(job: Job, key: str, words: str = "pulled whole by Kim", **more: str) -> Job:
    """The job with an item signed off, and nothing else changed: as an older file has it."""
    check = next(each for each in rough_in(job) if each.key == key)
    return job.having(close(check, "Kim", TODAY, words, **more))  # type: ignore[arg-type]


def to_buy(job: Job) -> set[str]:
    """The tags of what is still to buy."""
    return {tag for line in buying_list(job) for tag in line.tags if not line.part}


def test_the_list_of_cables_says_pulled_of_one_whose_pulling_is_signed_off() -> None:
    planned = job_of(*RECORDS)
    view, old = Cables(), State(signed(planned, "K1/pulled"))
    assert "planned" in view.line(State(planned), planned.of(Cable)["K1"]).cells
    assert "pulled" in view.line(old, old.job.of(Cable)["K1"]).cells


async def test_signing_off_sets_the_cable_pulled_and_reopening_takes_it_back(tmp_path: Path) -> None:
    path = small_job(tmp_path, RECORDS)
    async with seat_at(path, first="Items") as seat:
        seat.table.move_to("K1/pulled")
        await seat.keys("c")
        await seat.write("pulled whole by Kim")
        await seat.keys("enter")
        cable = seat.record("K1")
        assert isinstance(cable, Cable)
        assert cable.state == "pulled"
        seat.table.move_to("K1/pulled")
        await seat.keys("o")
        cable = seat.record("K1")
        assert isinstance(cable, Cable)
        assert cable.state == "bought", "it is in the house, whatever was wrong with its pulling"
        await seat.keys("u", "u")
        cable = seat.record("K1")
        assert isinstance(cable, Cable)
        assert cable.state == "planned"


def test_a_cable_that_was_signed_off_as_pulled_is_not_to_buy_whatever_its_record_says() -> None:
    job = job_of(*RECORDS, **NO_PERMIT)
    assert "K1" in to_buy(job)
    done = signed(job, "K1/pulled")
    assert done.of(Cable)["K1"].state == "planned", "an older file"
    assert cable_state(done, CABLE) == "pulled"
    assert "K1" not in to_buy(done)
    needless = job.having(close(next(e for e in rough_in(job) if e.key == "K1/pulled"), "Kim", TODAY, reason="not run"))
    assert cable_state(needless, CABLE) == "planned"
    assert cable_state(done, replace(CABLE, state="connected")) == "connected"


def test_only_the_pulling_of_a_cable_changes_its_state() -> None:
    job = job_of(*RECORDS, make(Check, "Q1", what="Blocks"), **NO_PERMIT)
    by_key = {each.key: each for each in rough_in(job)}
    for key in ("K1/labelled", "Q1", "B1/set"):
        assert len(closing_changes(job, [close(by_key[key], "Kim", TODAY, "both seen there")])) == 1
    pulled = close(by_key["K1/pulled"], "Kim", TODAY, "pulled whole by Kim")
    assert len(closing_changes(job, [pulled])) == 2
    assert len(closing_changes(job.having(replace(CABLE, state="connected")), [pulled])) == 1
    assert len(reopening_changes(job.having(replace(CABLE, state="connected")), pulled)) == 1
    assert len(reopening_changes(job.having(replace(CABLE, state="pulled")), pulled)) == 2


def test_a_change_says_which_items_it_opens_again_and_which_are_new() -> None:
    job = signed(job_of(*RECORDS, **NO_PERMIT), "K1/pulled")
    before = standing(job)
    moved = standing(job.having(replace(CABLE, type="cat5e")))
    assert opened_words(before, moved) == "Reopened 1 item: K1/pulled."
    assert opened_words(before, before) == ""
    more = standing(job.having(make(Check, "Q1", what="Blocks")))
    assert opened_words(before, more) == "1 new item."
    covered = replace(before, stage="Drywall")
    assert opened_words(covered, moved) == "Reopened 1 item behind drywall: K1/pulled."


async def test_a_save_says_what_it_opened(tmp_path: Path) -> None:
    check = next(each for each in rough_in(job_of(*RECORDS, **NO_PERMIT)) if each.key == "K1/pulled")
    done = close(check, "Kim", date.today(), "pulled whole by Kim")
    async with seat_at(small_job(tmp_path, [*RECORDS, done]), (120, 36), first="Items") as seat:
        old = seat.record("K1")
        assert isinstance(old, Cable)
        desk = seat.job_screen.desk
        assert desk.act("Edit K1", [edit(old, replace(old, type="cat5e"))])
        desk.done("Saved K1.")
        assert "Reopened 1 item: K1/pulled." in seat.said
