"""Two terminals on one file: each sees the other's change, and the same field is asked about."""

from __future__ import annotations

import asyncio
import time
from pathlib import Path

from store.book.book import Book
from store.book.changes import add, drop, edit
from store.records.equipment import Equipment
from store.records.wall import Wall
from tests.tui.seat import Seat, seat_at, small_job, stored
from tui.forms.record_form import RecordForm
from tui.screen.job_screen import JobScreen
from tui.widgets.dialogs import Pick

FIRST = Equipment(tag="E1", name="Receiver", supplier="shop", serial="1")


def change(path: Path, **fields: object) -> Book:
    """The other terminal changes E1."""
    other = Book.open(path, "Kim")
    now = other.job.of(Equipment)["E1"]
    from msgspec.structs import replace

    other.act("Edit E1", [edit(now, replace(now, **fields))])
    return other


async def form_with(seat: Seat, **texts: str) -> None:
    """Open the form of the first piece of equipment and type, without saving."""
    await seat.keys("4", "e")
    await seat.until(lambda: seat.top_is(RecordForm))
    keys = [field.key for field in seat.form._fields]
    for key, text in texts.items():
        seat.form._go(keys.index(key))
        seat.form.line.select_all()
        await seat.write(text)


async def test_somebody_elses_change_is_shown_within_two_seconds_without_a_key(tmp_path: Path) -> None:
    path = small_job(tmp_path, [FIRST])
    async with seat_at(path) as seat:
        await seat.keys("4")
        change(path, name="Amplifier")
        start = time.monotonic()
        while "Amplifier" not in seat.text:
            await asyncio.sleep(0.02)
            seat.app.screen._on_timer_update()
            assert time.monotonic() - start < 2
        assert "From another copy: Edit E1 (Kim)" in seat.text
        assert seat.table.cursor_key == "E1"


async def test_a_record_that_somebody_else_adds_or_removes_comes_and_goes(tmp_path: Path) -> None:
    path = small_job(tmp_path, [FIRST])
    async with seat_at(path) as seat:
        await seat.keys("4")
        other = Book.open(path, "Kim")
        other.act("more", [add(Equipment(tag="", name="Lamp"))])
        seat.job_screen.look()
        assert seat.rows() == ["E1", "E2"]
        other.act("less", [drop(other.job.of(Equipment)["E1"])])
        seat.job_screen.look()
        assert seat.rows() == ["E2"]
        assert seat.table.cursor_key == "E2"


async def test_other_fields_of_one_record_are_both_kept(tmp_path: Path) -> None:
    path = small_job(tmp_path, [FIRST])
    async with seat_at(path) as seat:
        await form_with(seat, name="Mine")
        change(path, supplier="theirs")
        await seat.keys("ctrl+s")
        await seat.until(lambda: seat.top_is(JobScreen))
        found = stored(path).job.of(Equipment)["E1"]
        assert (found.name, found.supplier, found.serial) == ("Mine", "theirs", "1")


async def test_the_same_field_shows_both_values_and_mine_can_stay(tmp_path: Path) -> None:
    path = small_job(tmp_path, [FIRST])
    async with seat_at(path) as seat:
        await form_with(seat, name="Mine")
        change(path, name="Theirs", serial="2")
        await seat.keys("ctrl+s")
        assert seat.top_is(Pick)
        assert "E1 name: someone else edited this" in seat.text
        assert "keep mine: Mine" in seat.text
        assert "use theirs: Theirs" in seat.text
        assert stored(path).job.of(Equipment)["E1"].name == "Theirs", "nothing is overwritten before the answer"
        await seat.keys("enter")
        assert seat.top_is(RecordForm)
        await seat.keys("ctrl+s")
        await seat.until(lambda: seat.top_is(JobScreen))
        found = stored(path).job.of(Equipment)["E1"]
        assert (found.name, found.serial) == ("Mine", "2"), "what only they changed stays theirs"


async def test_the_same_fields_are_asked_about_one_by_one_and_theirs_can_be_taken(tmp_path: Path) -> None:
    path = small_job(tmp_path, [FIRST])
    async with seat_at(path) as seat:
        await form_with(seat, name="Mine", supplier="my shop")
        change(path, name="Theirs", supplier="their shop")
        await seat.keys("ctrl+s")
        assert "E1 name: someone else" in seat.text
        await seat.keys("down", "enter")
        assert "E1 supplier: someone else" in seat.text
        assert "my shop" in seat.text
        assert "their shop" in seat.text
        await seat.keys("enter", "ctrl+s")
        await seat.until(lambda: seat.top_is(JobScreen))
        found = stored(path).job.of(Equipment)["E1"]
        assert (found.name, found.supplier) == ("Theirs", "my shop")


async def test_who_leaves_the_question_overwrites_nothing_and_is_asked_again(tmp_path: Path) -> None:
    path = small_job(tmp_path, [FIRST])
    async with seat_at(path) as seat:
        await form_with(seat, name="Mine")
        change(path, name="Theirs")
        await seat.keys("ctrl+s", "escape")
        assert seat.top_is(RecordForm)
        assert seat.form.body.texts["name"] == "Mine"
        await seat.keys("ctrl+s")
        assert seat.top_is(Pick), "asked again"
        await seat.keys("escape")
        assert stored(path).job.of(Equipment)["E1"].name == "Theirs"


async def test_a_third_change_during_the_question_is_a_conflict_again(tmp_path: Path) -> None:
    path = small_job(tmp_path, [FIRST])
    async with seat_at(path) as seat:
        await form_with(seat, name="Mine")
        change(path, name="Theirs")
        await seat.keys("ctrl+s", "enter")
        change(path, name="Third")
        await seat.keys("ctrl+s")
        assert seat.top_is(Pick)
        assert "use theirs: Third" in seat.text


async def test_the_same_value_from_both_is_no_conflict(tmp_path: Path) -> None:
    path = small_job(tmp_path, [FIRST])
    async with seat_at(path) as seat:
        await form_with(seat, name="Same")
        change(path, name="Same")
        await seat.keys("ctrl+s")
        await seat.until(lambda: seat.top_is(JobScreen))
        assert stored(path).job.of(Equipment)["E1"].name == "Same"


async def test_a_record_that_was_removed_while_its_form_was_open_keeps_what_was_typed(tmp_path: Path) -> None:
    path = small_job(tmp_path, [FIRST])
    async with seat_at(path) as seat:
        await form_with(seat, name="Mine")
        other = Book.open(path, "Kim")
        other.act("less", [drop(other.job.of(Equipment)["E1"])])
        await seat.keys("ctrl+s")
        assert seat.top_is(RecordForm)
        assert "someone else deleted E1" in seat.text
        assert seat.form.body.texts["name"] == "Mine"


async def test_somebody_elses_change_under_an_open_form_leaves_the_form_alone(tmp_path: Path) -> None:
    path = small_job(tmp_path, [FIRST])
    async with seat_at(path) as seat:
        await form_with(seat, name="Mine")
        change(path, serial="9")
        seat.job_screen.look()
        await seat.calm()
        assert seat.top_is(RecordForm)
        assert seat.form.body.texts["name"] == "Mine"
        assert seat.form.body.texts["serial"] == "1"


async def test_undo_takes_back_ones_own_last_action_and_not_the_others(tmp_path: Path) -> None:
    path = small_job(tmp_path, [FIRST, Wall(tag="W1", name="One")])
    async with seat_at(path) as seat:
        await seat.keys("4", "space")
        change(path, serial="9")
        seat.job_screen.look()
        await seat.keys("u")
        found = stored(path).job.of(Equipment)["E1"]
        assert "changed since" in seat.text, "their change on top of it is not lost"
        assert (found.state, found.serial) == ("ordered", "9")


async def test_two_screens_on_one_file_each_show_the_others_change(tmp_path: Path) -> None:
    path = small_job(tmp_path, [FIRST])
    async with seat_at(path) as one:
        await one.keys("4")
        async with seat_at(path) as two:
            await two.keys("4", "space")
            assert two.cells("E1")[2] == "◐ ordered"
        one.job_screen.look()
        assert one.cells("E1")[2] == "◐ ordered"
        await one.keys("space")
        assert stored(path).job.of(Equipment)["E1"].state == "owned"


async def test_a_file_that_is_damaged_while_open_keeps_the_screen_and_is_never_written(tmp_path: Path) -> None:
    path = small_job(tmp_path, [FIRST])
    whole = path.read_bytes()
    async with seat_at(path) as seat:
        await seat.keys("4")
        for bad in (whole[: len(whole) // 2], b"", b"hello", whole + b"}"):
            path.write_bytes(bad)
            seat.job_screen.look()
            await seat.calm()
            assert seat.rows() == ["E1"]
            assert str(path) in seat.said or "Nothing was changed" in seat.said
            for key in ("space", "u", "h", "g", "enter", "d"):
                await seat.keys(key)
                if not seat.top_is(JobScreen):
                    await seat.keys("escape")
            assert path.read_bytes() == bad
            await seat.keys("4")
        path.unlink()
        seat.job_screen.look()
        assert "no such file" in seat.said
        await seat.keys("space")
        if not seat.top_is(JobScreen):
            await seat.keys("escape")
        assert not path.exists()
        path.write_bytes(whole)
        seat.job_screen.look()
        await seat.keys("space")
        assert stored(path).job.of(Equipment)["E1"].state == "ordered"


async def test_a_history_that_was_broken_by_hand_is_told_and_stops_nothing(tmp_path: Path) -> None:
    import json

    path = small_job(tmp_path, [FIRST])
    async with seat_at(path) as seat:
        raw = json.loads(path.read_bytes())
        raw["history"]["1"]["who"] = 7
        path.write_text(json.dumps(raw))
        seat.job_screen.look()
        assert "history" in seat.said
        # What was read before stays on the screen, with its own history.
        await seat.keys("4", "h")
        await seat.until(lambda: "E1: history" in seat.text)
        await seat.keys("escape", "g")
        assert "Design" in seat.text
