"""The start page: recent jobs, starters, and what can go wrong there."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.widgets import OptionList

from store.records.job import Settings
from tests.tui.seat import LOW, SIZES, Seat, assert_fits, job_file, seat_at, small_job, stored
from tui.screen.job_screen import JobScreen
from tui.screen.start_page import StartScreen, new_job_path, old_job_path
from tui.shared.recent import MOST, recent, remember
from tui.widgets.dialogs import AskText, ReadPage
from tui.widgets.typed import TypedLine


async def choose(seat: Seat, words: str) -> None:
    """Go down to the line with these words and take it."""
    options = seat.top.query_one(OptionList)
    for _ in range(20):
        at = options.highlighted
        assert at is not None
        if words in str(options.get_option_at_index(at).prompt):
            await seat.keys("enter")
            return
        await seat.keys("down")
    raise AssertionError(f"{words} is not offered: {seat.text}")


@pytest.mark.parametrize("starter", ["empty", "media-wall", "media-wall-metric", "demo"])
async def test_the_start_page_makes_a_job_from_each_starter(tmp_path: Path, starter: str) -> None:
    path = tmp_path / "new.json"
    async with seat_at(None) as seat:
        assert seat.top_is(StartScreen)
        await choose(seat, f"{starter}:")
        assert seat.top_is(AskText)
        seat.top.query_one(TypedLine).value = str(path)
        await seat.keys("enter" if starter == "demo" else "ctrl+s")
        await seat.until(lambda: seat.top_is(JobScreen))
        assert seat.book.path == path
        await seat.keys("2", "a")
        assert not seat.top_is(JobScreen), "the keys of the job work at once"
    assert stored(path).job.of(Settings)["job"].name
    assert path.stat().st_mode & 0o777 == 0o600
    assert recent() == [path]


def test_a_name_without_an_ending_gets_the_one_of_job_files_and_is_found_by_it_again(tmp_path: Path) -> None:
    named = str(tmp_path / "wall")
    assert new_job_path(named) == tmp_path / "wall.json"
    assert new_job_path(f"{named}.old") == tmp_path / "wall.old"
    assert new_job_path(str(tmp_path)) == tmp_path, "a folder is refused as what it is"
    (tmp_path / "wall.json").write_text("{}")
    assert old_job_path("wall", tmp_path) == tmp_path / "wall.json"
    (tmp_path / "wall").write_text("{}")
    assert old_job_path("wall", tmp_path) == tmp_path / "wall"


async def test_a_recent_job_is_opened_with_one_enter(tmp_path: Path) -> None:
    path = job_file(tmp_path)
    remember(path)
    async with seat_at(None) as seat:
        assert "open   job.json" in seat.text
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(JobScreen))
        assert seat.book.path == path


async def test_a_name_that_is_taken_and_a_folder_that_is_not_there_are_told_and_nothing_is_made(tmp_path: Path) -> None:
    taken = small_job(tmp_path)
    before = taken.read_bytes()
    for path, words in ((taken, "this file exists"), (tmp_path / "no" / "x.json", "No such file or directory")):
        async with seat_at(None) as seat:
            await choose(seat, "empty:")
            seat.top.query_one(TypedLine).value = str(path)
            await seat.keys("enter")
            await seat.until(lambda: seat.top_is(ReadPage))
            assert words in " ".join(seat.text.replace("│", " ").split())
            await seat.keys("escape")
            assert seat.top_is(StartScreen)
    assert taken.read_bytes() == before
    assert not (tmp_path / "no").exists()


async def test_a_damaged_recent_job_is_refused_with_what_to_do(tmp_path: Path) -> None:
    path = tmp_path / "broken.json"
    path.write_text("{")
    remember(path)
    async with seat_at(None) as seat:
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(ReadPage))
        assert "studbook verify" in " ".join(seat.text.replace("│", " ").split())
        await seat.keys("escape")
        assert seat.top_is(StartScreen)
    assert path.read_text() == "{"


async def test_what_is_remembered_is_bounded_and_what_is_gone_is_left_out(tmp_path: Path) -> None:
    paths = []
    for number in range(MOST + 3):
        path = tmp_path / f"{number}.json"
        path.write_text("x")
        paths.append(path)
        remember(path)
    assert recent() == paths[::-1][:MOST]
    paths[-1].unlink()
    assert recent() == paths[::-1][1:MOST]
    remember(paths[-3])
    assert recent()[0] == paths[-3]
    assert len(recent()) == len(set(recent()))


@pytest.mark.parametrize("size", SIZES)
async def test_the_start_page_fits_and_shows_odd_names_letter_by_letter(tmp_path: Path, size: tuple[int, int]) -> None:
    for name in ("測定" * 30 + ".json", "[/].json", "\u202eabc.json", "a\x1b[31mb.json", "[red]x[/].json"):
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("x")
        remember(path)
    async with seat_at(None, size) as seat:
        assert_fits(seat, size)
        # The name of a long folder goes on in the next line, past the scroll bar.
        whole = "".join(line.strip(" ▁▂▃▄▅▆▇█") for line in seat.lines())
        assert "[red]x" in whole
        assert "].json" in whole
        assert "a␛[31mb.json" in whole
        if size == LOW:
            assert "instructions win." in whole
