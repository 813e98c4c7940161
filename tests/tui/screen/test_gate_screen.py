"""The gate on the screen: what holds it is in sight, and no key gets past it."""

from __future__ import annotations

import json
from pathlib import Path

from store.book.changes import add
from store.records.gate import Check, Passage
from store.records.wall import Wall
from store.rules.core.checks import close, rough_in
from store.rules.gate.gate import passage, standing
from tests.tui.seat import WIDE, job_file, seat_at, small_job, stored
from tui.screen.job_screen import JobScreen
from tui.widgets.dialogs import AskText, Pick, ReadPage


def stage(path: Path) -> str:
    return standing(stored(path).job).stage


async def test_what_holds_the_next_stage_is_always_in_sight(tmp_path: Path) -> None:
    path = job_file(tmp_path)
    holds = standing(stored(path).job).holds
    async with seat_at(path) as seat:
        for digit in "123456789":
            await seat.keys(digit)
            assert f"Drywall locked: 1 stop, {len(holds) - 1} items (g)" in seat.lines()[1]
            assert "▸Rough-in" in seat.lines()[0]


async def test_no_key_passes_to_drywall_while_an_item_is_open(tmp_path: Path) -> None:
    path = job_file(tmp_path)
    async with seat_at(path, WIDE) as seat:
        for tried in ("y", "enter", "p", "m", "g", "space"):
            await seat.keys("1", "g")
            assert seat.job_screen.view.title == "Gate"
            assert "There is no other way" in seat.said
            await seat.keys(tried)
            await seat.keys("escape") if not seat.top_is(JobScreen) else None
        assert stage(path) == "Rough-in"
        assert not [each for each in stored(path).job.of(Passage).values() if each.stage == "Drywall"]


def at_rough_in(folder: Path, *checks: Check) -> Path:
    """A job that reached the rough-in, with these items open."""
    path = small_job(folder, checks)
    book = stored(path)
    for _ in range(3):
        book.act("on", lambda job: [add(passage(job, "Robin", "as planned"))], "as planned")
    assert stage(path) == "Rough-in"
    return path


async def test_the_gate_opens_when_every_item_is_closed(tmp_path: Path) -> None:
    path = at_rough_in(tmp_path, Check(tag="Q1", what="one"), Check(tag="Q2", what="two"))
    async with seat_at(path) as seat:
        assert "Drywall locked: 2 items (g)" in seat.lines()[1]
        await seat.keys("6", "f")
        for _ in range(2):
            await seat.keys("g", "y")
            assert "Drywall locked: " in seat.said
            assert stage(path) == "Rough-in"
            await seat.keys("escape", "c")
            await seat.write("both blocks nailed")
            await seat.keys("enter")
        assert seat.rows() == []
        assert "Ready for Drywall. g = move on" in seat.lines()[1]
        await seat.keys("g")
        assert "y = move to Drywall" in seat.said
        seat.table.move_to("ready")
        await seat.keys("enter", "escape")
        assert stage(path) == "Rough-in", "Enter reads on, only y passes"
        await seat.keys("g", "y")
        assert stage(path) == "Drywall"
        assert "Moved to Drywall" in seat.said
        assert seat.table.cursor_key == seat.rows()[0], "the list of the next stage from its top"
        assert "▸Drywall" in seat.lines()[0]
        await seat.keys("u")
        assert stage(path) == "Rough-in"


async def test_undo_of_a_closing_after_the_passage_is_refused_and_says_what_to_do(tmp_path: Path) -> None:
    path = at_rough_in(tmp_path, Check(tag="Q1", what="one"))
    async with seat_at(path) as seat:
        await seat.keys("6", "c")
        await seat.write("both blocks nailed")
        await seat.keys("enter", "g", "y")
        assert stage(path) == "Drywall"
        await seat.keys("escape", "o")
        assert "Q1 stays signed off" in seat.text
        await seat.keys("escape")
        assert stage(path) == "Drywall"
        assert seat.cells("Q1")[1] == "✓"


async def test_another_gate_is_passed_with_a_written_reason_only(tmp_path: Path) -> None:
    path = small_job(tmp_path)
    async with seat_at(path) as seat:
        await seat.keys("g")
        assert "No walls yet" in seat.text
        assert "You can move on with these open if you write down why." in seat.said
        await seat.keys("y")
        assert seat.top_is(AskText)
        await seat.keys("escape")
        assert stage(path) == "Survey"
        await seat.keys("g", "y")
        await seat.write("drawn on paper first")
        await seat.keys("enter")
        assert stage(path) == "Design"
        only = next(iter(stored(path).job.of(Passage).values()))
        assert (only.by, only.reason) == ("Robin", "drawn on paper first")


async def test_an_item_opened_by_another_copy_holds_a_gate_that_was_already_read(tmp_path: Path) -> None:
    """Between reading the gate and pressing y somebody else writes an item: the passage is refused."""
    path = at_rough_in(tmp_path, Check(tag="Q1", what="thing"))
    book = stored(path)
    check = rough_in(book.job)[0]
    book.act("close", [add(close(check, "Robin", book.job.today, evidence="both blocks nailed"), keep_tag=True)])
    async with seat_at(path) as seat:
        await seat.keys("g")
        assert "y = move to Drywall" in seat.said
        book.act("late", [add(Check(tag="", what="forgotten"))])
        await seat.keys("y")
        assert stage(path) == "Rough-in"
        assert seat.top_is(ReadPage)
        assert "forgotten" in seat.text


async def test_a_stage_written_in_by_hand_opens_as_claimed_and_not_earned(tmp_path: Path) -> None:
    path = job_file(tmp_path)
    raw = json.loads(path.read_bytes())
    number = max(map(int, raw["passage"])) + 1
    raw["passage"][str(number)] = {
        "tag": f"P{number}", "stage": "Drywall", "date": "2026-01-01", "by": "Robin",
        "checked": [f"Q{n}" for n in range(1, 41)],
    }  # fmt: skip
    path.write_text(json.dumps(raw))
    async with seat_at(path) as seat:
        assert "Drywall is recorded, not earned" in seat.lines()[1]
        await seat.keys("g")
        assert "v = restore it" in "".join(seat.cells("outside:0"))
        await seat.keys("y")
        assert "recorded, not earned" in seat.said or "Drywall locked" in seat.said
        assert stage(path) == "Rough-in"
        await seat.keys("v")
        await seat.until(lambda: seat.top_is(Pick))
        await seat.keys("enter")
        assert "recorded, not earned" not in seat.lines()[1]
        assert len(stored(path).job.of(Passage)) == 3
        assert not stored(path).job.outside


async def test_a_long_list_of_holds_is_scrolled_and_its_way_out_stays_in_sight(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Wall(tag=f"W{n}", name=f"Wall {n}") for n in range(1, 30)])
    async with seat_at(path) as seat:
        await seat.keys("g")
        assert "Before Design: " in seat.text
        assert "if you write down why" in seat.said
        await seat.keys("end")
        assert "y Move on" in seat.text
        assert "if you write down why" in seat.said


async def test_every_count_of_the_gate_is_the_same_wherever_it_is_shown(tmp_path: Path) -> None:
    path = job_file(tmp_path)
    now = standing(stored(path).job)
    by_trade: dict[str, int] = {}
    for item in now.open:
        by_trade[item.check.trade] = by_trade.get(item.check.trade, 0) + 1
    async with seat_at(path, WIDE) as seat:
        await seat.keys("g")
        assert f"Drywall locked: 1 stop, {len(now.open)} items (g)" in seat.lines()[1]
        assert f"{len(now.items) - len(now.open)} of {len(now.items)} items done" in seat.said
        rows = [key for key in seat.rows() if key.startswith("trade:")]
        assert seat.rows()[0] == "cable_not_rated:K9", "Stops come first"
        counts = [by_trade.get(key.partition(":")[2], 0) for key in rows]
        assert counts == sorted(counts, reverse=True)
        assert sum(counts) == len(now.open)
        for key, count in zip(rows, counts, strict=True):
            cells = seat.cells(key)
            assert (f"{count} item" in cells[1]) if count else ("all done" in cells[1])
            seat.table.move_to(key)
            await seat.keys("enter")
            assert seat.job_screen.view.name == "rough-in"
            trade = key.partition(":")[2]
            total = [each for each in now.items if each.check.trade == trade]
            assert seat.rows() == [each.key for each in total if each.open or not count]
            assert f"{len(total) - count} of {len(total)}" in cells[2]
            await seat.keys("escape")
            assert seat.table.cursor_key == key
