"""Keys that come faster than windows open: none is lost to a crash, and none does what was not asked."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual import events

from store.records.equipment import Equipment
from store.records.gate import Check
from store.records.people import Contact
from store.records.wall import Wall
from tests.tui.seat import Seat, seat_at, small_job, stored
from tui.screen.job_screen import JobScreen
from tui.widgets.dialogs import Confirm, LongNote

RECORDS = [
    Wall(tag="W1", name="One"),
    Equipment(tag="E1", name="Receiver"),
    Check(tag="Q1", what="thing"),
]


def burst(seat: Seat, *keys: str) -> None:
    """Post keys all at once, as a terminal does that was blocked for a moment."""
    for key in keys:
        seat.app.post_message(events.Key(key, key if len(key) == 1 else None))


RUNS = (
    "e escape", "e ctrl+s", "a escape", "a enter escape", "g escape", "h escape", "0 escape", "3 c escape",
    "c enter escape", "1 e f2 escape escape", "question_mark q", "enter e escape", "slash x escape",
    "e end enter escape", "2 space u", "b escape", "1 e pagedown down enter escape escape", "g g escape",
)  # fmt: skip


@pytest.mark.parametrize("pause", [0, 2])
async def test_keys_that_come_at_once_break_nothing(tmp_path: Path, pause: int) -> None:
    path = small_job(tmp_path, RECORDS)
    async with seat_at(path) as seat:
        for run in RUNS:
            for key in run.split():
                burst(seat, key)
                for _ in range(pause):
                    await seat.pilot.pause(0)
            for _ in range(8):
                await seat.pilot.pause(0.02)
                if seat.top_is(JobScreen):
                    break
                burst(seat, "y" if seat.top_is(Confirm) else "escape")
            await seat.until(lambda: seat.top_is(JobScreen))
            job = stored(path).job
            assert [job.get(tag) for tag in ("W1", "E1", "Q1")] == RECORDS, run


async def test_saving_twice_in_a_hurry_adds_one_record(tmp_path: Path) -> None:
    path = small_job(tmp_path)
    async with seat_at(path) as seat:
        await seat.keys("5", "a")
        await seat.fill(trade="painter")
        await seat.write("Kim")
        burst(seat, "ctrl+s", "ctrl+s", "ctrl+s", "escape")
        await seat.until(lambda: seat.top_is(JobScreen))
        await seat.pilot.pause(0.05)
        assert seat.rows() == ["T1"]
    assert list(stored(path).job.of(Contact)) == ["T1"]


async def test_escape_pressed_too_often_stays_in_the_job(tmp_path: Path) -> None:
    async with seat_at(small_job(tmp_path, RECORDS)) as seat:
        for opener in ("g", "a", "e", "h", "question_mark"):
            burst(seat, opener, "escape", "escape", "escape", "escape")
            await seat.pilot.pause(0.05)
            for _ in range(3):
                if not seat.top_is(JobScreen):
                    await seat.keys("escape")
            assert seat.top_is(JobScreen)
        await seat.keys("a")
        assert not seat.top_is(JobScreen)


async def type_at_once(seat: Seat, *keys: str) -> None:
    """A burst of keys, then the time that it takes to do them."""
    burst(seat, *keys)
    await seat.pilot.pause(0.05)
    await seat.calm()


async def test_what_is_typed_at_once_stands_where_it_was_typed_and_is_all_saved(tmp_path: Path) -> None:
    path = small_job(tmp_path)
    async with seat_at(path) as seat:
        for number in range(5):
            await seat.keys("5", "a")
            await type_at_once(
                seat, *f"Kim{number}", "backspace", "y", "down", "e", "down", "q", "down", *"555", "ctrl+s"
            )
            await seat.until(lambda: seat.top_is(JobScreen))
    found = [(one.name, one.trade, one.state, one.phone) for one in stored(path).job.of(Contact).values()]
    assert found == [("Kimy", "electrician", "quoted", "555")] * 5


async def test_the_last_letters_before_saving_are_saved(tmp_path: Path) -> None:
    path = small_job(tmp_path, RECORDS)
    async with seat_at(path) as seat:
        await seat.keys("2", "e")
        await type_at_once(seat, "end", *" and more", "ctrl+s")
        await seat.until(lambda: seat.top_is(JobScreen))
    assert stored(path).job.of(Wall)["W1"].name == "One and more"


async def test_a_mistake_found_on_saving_at_once_stays_told(tmp_path: Path) -> None:
    path = small_job(tmp_path)
    async with seat_at(path) as seat:
        await seat.keys("5", "a")
        await type_at_once(seat, *"Kim", "ctrl+s")
        assert "Not saved. Fix: trade" in seat.text
        assert seat.form.body.texts["name"] == "Kim"


async def test_a_note_typed_at_once_is_one_note_in_its_order(tmp_path: Path) -> None:
    path = small_job(tmp_path, RECORDS)
    async with seat_at(path) as seat:
        await seat.keys("2", "e")
        await seat.to_field("notes")
        await type_at_once(seat, *"abcdefgh")
        assert isinstance(seat.top, LongNote)
        await type_at_once(seat, *"ix", "backspace", "enter", "j", "ctrl+s")
        await seat.until(lambda: not seat.top_is(LongNote))
        await seat.keys("ctrl+s")
        await seat.until(lambda: seat.top_is(JobScreen))
    assert stored(path).job.of(Wall)["W1"].notes == "abcdefghi\nj"
