"""Several records typed at once on the screen: read back while typing, mistakes at their cell, one undo."""

from __future__ import annotations

from pathlib import Path

import msgspec

from store.book.drafts import Draft
from store.records.wall import Reading, Wall
from tests.tui.seat import seat_at, small_job
from tui.acts.many import ManyAtOnce
from tui.screen.job_screen import JobScreen
from tui.widgets.dialogs import Pick


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
        await seat.until(lambda: seat.top_is(Pick))
        await seat.keys("enter")  # for later
        await seat.until(lambda: seat.top_is(JobScreen))
        await seat.keys("a", "enter", "escape", "A")  # another form comes and goes meanwhile
        await seat.until(lambda: seat.top_is(ManyAtOnce) and seat.app.focused is not None)
        assert seat.top.text == "x"  # type: ignore[attr-defined]
        seat.top.keep_draft()  # type: ignore[attr-defined]
        (kept,) = [each for each in tmp_path.iterdir() if ".draft-" in each.name]
        draft = msgspec.json.decode(kept.read_bytes(), type=Draft)
        kept.write_bytes(msgspec.json.encode(msgspec.structs.replace(draft, process=2**22 + 1)))
    # The program is gone, as in a crash: the next one offers the lines.
    async with seat_at(path, first="") as seat:
        await seat.until(lambda: seat.top_is(Pick))
        assert "Several readings" in seat.text
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(ManyAtOnce) and seat.app.focused is not None)
        assert seat.top.text == "x"  # type: ignore[attr-defined]
        await seat.keys("escape", "down", "enter")
        await seat.until(lambda: seat.top_is(JobScreen))
        assert not [each for each in tmp_path.iterdir() if ".draft-" in each.name]
        await seat.go("Problems")
        await seat.keys("A")
        assert seat.top_is(JobScreen)
        assert "A = add several" in seat.said
