"""Photos in the terminal: from the page of a panel and of an item that was signed off on one."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from store.book.changes import add
from store.records.access import Panel, Photo
from store.records.field import Ref
from store.records.gate import Check
from store.rules.core.checks import close, rough_in
from tests.jobs.power_case import make
from tests.jobs.proofs import PICTURE, take_picture
from tests.tui.seat import seat_at, small_job, stored
from tui.acts.photos.photo_window import PhotoWindow
from tui.screen.job_screen import JobScreen
from tui.widgets.dialogs import ReadPage
from tui.widgets.half_blocks import HalfBlocks


async def test_the_page_of_a_panel_and_of_an_item_shows_its_photo_in_half_blocks(tmp_path: Path) -> None:
    panel = make(Panel, "A1", name="Back")
    photo = make(Photo, "F1", file=PICTURE, of=(Ref("A1"),), shows="the open back")
    path = small_job(tmp_path, [panel, photo, make(Panel, "A2", name="Bare"), make(Check, "Q1", what="Blocks")])
    take_picture(tmp_path)
    book = stored(path)
    check = next(each for each in rough_in(book.job) if each.key == "Q1")
    book.act("close", [add(close(check, "Robin", date.today(), PICTURE), keep_tag=True)])
    async with seat_at(path, first="Access panels") as seat:
        await seat.keys("enter")
        assert seat.top_is(ReadPage)
        assert "photo here" in seat.text
        await seat.keys("v")
        await seat.until(lambda: seat.top_is(PhotoWindow) and bool(seat.top.query_one(HalfBlocks)._lines))
        assert "the open back" in seat.text
        assert "▀" in seat.text
        await seat.keys("escape")
        assert seat.top_is(JobScreen)
        seat.table.move_to("A2")
        await seat.keys("enter")
        assert "photo here" not in seat.text
        await seat.keys("escape")
        await seat.go("Items")
        seat.table.move_to("Q1")
        await seat.keys("enter", "v")
        await seat.until(lambda: seat.top_is(PhotoWindow))
        assert f"proof of Q1: {PICTURE}" in seat.text
        await seat.keys("right", "left", "escape")
        assert seat.top_is(JobScreen)
