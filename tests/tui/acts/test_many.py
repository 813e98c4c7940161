"""Several records typed at once on the screen: read back while typing, mistakes at their cell, one undo."""

from __future__ import annotations

from pathlib import Path

from store.records.wall import Reading, Wall
from tests.tui.seat import seat_at, small_job
from tui.acts.many import ManyAtOnce
from tui.screen.job_screen import JobScreen
from tui.widgets.dialogs import Confirm


async def test_lines_are_read_back_mended_saved_at_once_and_undone_at_once(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Wall(tag="W1", name="One")])
    async with seat_at(path) as seat:
        await seat.keys("A")
        await seat.until(lambda: seat.top_is(ManyAtOnce) and seat.app.focused is not None)
        assert "what  |  reading  |  where" in seat.text
        await seat.paste("width\t12 ft 7\tat the floor\nheight\t96 1/16\tleft end\nwidth\twide\n")
        await seat.until(lambda: "reading 12'-7\"" in seat.text)
        assert 'Line 3, reading: "wide" is not a length' in seat.text
        await seat.keys("ctrl+s")
        assert seat.top_is(ManyAtOnce)
        assert "Not saved. What you typed is still here. Line 3" in seat.text
        await seat.keys("end")
        for _ in range(len("wide")):
            await seat.keys("backspace")
        await seat.write("3832 mm")
        await seat.keys("ctrl+s")
        await seat.until(lambda: seat.top_is(JobScreen))
        assert "Added 3 readings. u = undo" in seat.said
        made = seat.record("D3")
        assert isinstance(made, Reading)
        assert (made.wall, made.value.nm) == ("W1", 3_832_000_000)
        assert made.date is not None
        await seat.keys("u")
        assert not seat.book.job.of(Reading)


async def test_what_was_typed_is_not_thrown_away_unasked_and_a_list_without_lines_says_where(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Wall(tag="W1", name="One")])
    async with seat_at(path) as seat:
        await seat.keys("A")
        await seat.until(lambda: seat.top_is(ManyAtOnce) and seat.app.focused is not None)
        await seat.write("x")
        await seat.keys("escape")
        assert seat.top_is(Confirm)
        await seat.keys("y")
        await seat.until(lambda: seat.top_is(JobScreen))
        await seat.go("Problems")
        await seat.keys("A")
        assert seat.top_is(JobScreen)
        assert "A = add several" in seat.said
