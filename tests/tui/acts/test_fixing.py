"""A fix on the screen: looked at, applied as one action, undone as one."""

from __future__ import annotations

from pathlib import Path

from store.records.wiring import Raceway
from tests.tui.seat import Seat, seat_at, small_job
from tui.screen.job_screen import JobScreen
from tui.widgets.dialogs import ReadPage


async def test_several_of_one_kind_are_fixed_with_one_look_or_one_after_the_other(tmp_path: Path) -> None:
    tubes = [Raceway(tag=f"R{number}", name=f"Tube {number}", type="ENT", size="1") for number in (1, 2, 3)]
    path = small_job(tmp_path, tubes)

    def strings(seat: Seat) -> list[bool]:
        return [one.string for one in seat.book.job.of(Raceway).values()]

    async with seat_at(path, first="Problems") as seat:
        key = next(each for each in seat.rows() if each.startswith("raceway_without_string"))
        assert "(3)" in " ".join(seat.cells(key)), "three on one line"
        seat.table.move_to(key)
        await seat.keys("F")
        await seat.until(lambda: seat.top_is(ReadPage))
        for words in (
            "Leave a pull string in R1, and 2 more like it?",
            "R1: pull string no -> yes",
            "R3: pull string no -> yes",
        ):
            assert words in seat.text
        await seat.keys("y")
        assert strings(seat) == [True, True, True]
        await seat.keys("u")
        assert strings(seat) == [False, False, False], "one undo"
        seat.table.move_to(key)
        await seat.keys("F", "1")
        await seat.until(lambda: "Space = skip" in seat.text)
        await seat.keys("space", "y", "y")
        await seat.until(lambda: seat.top_is(JobScreen))
        assert strings(seat) == [False, True, True]


async def test_a_fix_is_shown_applied_and_undone(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Raceway(tag="R1", name="Tube", type="ENT", size="1")])
    async with seat_at(path, first="Raceways") as seat:
        await seat.keys("F")
        await seat.until(lambda: seat.top_is(ReadPage))
        assert "Leave a pull string in R1?" in seat.text
        assert "R1: pull string no -> yes" in seat.text
        assert "Solves 1 problem:" in seat.text
        assert "No new problems." in seat.text
        await seat.keys("enter")
        assert seat.top_is(ReadPage), "Enter is no answer"
        await seat.keys("escape")
        assert seat.record("R1") == Raceway(tag="R1", name="Tube", type="ENT", size="1")
        await seat.keys("F", "y")
        await seat.until(lambda: seat.top_is(JobScreen))
        assert "Done: Leave a pull string in R1. u = undo" in seat.said
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
        await seat.until(lambda: "No new problems" in seat.text or "New 1" in seat.text)
        await seat.keys("escape")
        await seat.go("Openings")
        await seat.keys("F")
        assert "No automatic fix here" in seat.said
