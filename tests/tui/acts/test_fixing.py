"""A fix on the screen: looked at, applied as one action, undone as one."""

from __future__ import annotations

from pathlib import Path

from store.records.wiring import Raceway
from tests.tui.seat import seat_at, small_job
from tui.screen.job_screen import JobScreen
from tui.widgets.dialogs import ReadPage


async def test_a_fix_is_shown_applied_and_undone(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Raceway(tag="R1", name="Tube", type="ENT", size="1")])
    async with seat_at(path, first="Raceways") as seat:
        await seat.keys("F")
        await seat.until(lambda: seat.top_is(ReadPage))
        assert "Fix: Leave a pull string in it?" in seat.text
        assert "R1: pull string no -> yes" in seat.text
        assert "Solves 1 problem:" in seat.text
        assert "No new problems." in seat.text
        await seat.keys("escape")
        assert seat.record("R1") == Raceway(tag="R1", name="Tube", type="ENT", size="1")
        await seat.keys("F", "y")
        await seat.until(lambda: seat.top_is(JobScreen))
        assert "Fixed: Leave a pull string in it. u = undo" in seat.said
        found = seat.record("R1")
        assert isinstance(found, Raceway)
        assert found.string
        await seat.keys("u")
        found = seat.record("R1")
        assert isinstance(found, Raceway)
        assert not found.string
        await seat.go("Problems")
        await seat.keys("F")
        await seat.until(lambda: seat.top_is(ReadPage))
        await seat.keys("escape")
        await seat.keys("enter")
        await seat.until(lambda: "F = fix" in seat.text)
        await seat.keys("F")
        await seat.until(lambda: "Fix: " in seat.text)
        await seat.keys("escape")
        await seat.go("Openings")
        await seat.keys("F")
        assert "No automatic fix here" in seat.said
