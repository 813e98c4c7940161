"""A spreadsheet read from the screen: shown first, all of it or nothing, one undo."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from store.records.people import Contact
from store.records.wall import Reading, Wall
from tests.tui.seat import Seat, seat_at, small_job, stored
from tui.widgets.dialogs import AskText, Pick, ReadPage

PEOPLE = "Company,Role,Cell\nDana,electrical,555-0111\nPat,drywall,555-0112\n"


async def pick_file(seat: Seat, view: str, name: str) -> None:
    """Ask for an import of what the view lists, from a file beside the job."""
    await seat.keys(view, "I")
    await seat.until(lambda: seat.top_is(Pick))
    await seat.keys("enter")
    await seat.until(lambda: seat.top_is(Pick) and "Which file" in seat.text)
    await seat.write(name)
    await seat.keys("enter")
    await seat.until(lambda: seat.top_is(ReadPage))


async def test_a_file_is_shown_first_then_imported_in_one_action(tmp_path: Path) -> None:
    path = small_job(tmp_path)
    (tmp_path / "people.csv").write_text(PEOPLE)
    (tmp_path / "other.txt").write_text(PEOPLE)
    async with seat_at(path) as seat:
        await pick_file(seat, "5", "people")
        assert "contacts: 2 new, 0 changed" in seat.text
        assert "Role -> trade" in seat.text
        assert "other.txt" not in seat.text
        assert stored(path).job.of(Contact) == {}
        await seat.keys("y")
        await seat.until(lambda: seat.rows() == ["T2", "T1"])
        assert [one.name for one in stored(path).job.of(Contact).values()] == ["Dana", "Pat"]
        await seat.keys("u")
        assert stored(path).job.of(Contact) == {}


async def test_looking_is_not_importing(tmp_path: Path) -> None:
    path = small_job(tmp_path)
    (tmp_path / "people.csv").write_text(PEOPLE)
    async with seat_at(path) as seat:
        before = len(seat.book.entries())
        await pick_file(seat, "5", "people")
        await seat.keys("escape")
        assert "Can't import" in seat.said
        assert len(stored(path).entries()) == before


async def test_every_bad_row_is_named_with_column_and_reason_and_nothing_is_done(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Wall(tag="W1", name="Media wall")])
    (tmp_path / "tape.csv").write_text("wall,what,reading\nMedia wall,width,12'\nW7,height,tall\nW1,depth,\n")
    async with seat_at(path, (120, 36)) as seat:
        await seat.keys("2", "I")
        await seat.until(lambda: seat.top_is(Pick))
        await seat.write("readings")
        await seat.keys("enter")
        await seat.until(lambda: "Which file" in seat.text)
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(ReadPage))
        for words in (
            "row 3, column wall: no W7 in this job",
            'row 3, column reading: "tall"',
            "row 4, column reading: “reading” is blank",
            "what -> what",
        ):
            assert words in seat.text
        await seat.keys("y", "escape")
        assert stored(path).job.of(Reading) == {}


async def test_where_no_file_lies_beside_the_job_its_path_is_asked_for(tmp_path: Path) -> None:
    path = small_job(tmp_path)
    away = tmp_path / "away"
    away.mkdir()
    (away / "p.csv").write_text(PEOPLE)
    async with seat_at(path) as seat:
        await seat.keys("5", "I")
        await seat.until(lambda: seat.top_is(Pick))
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(AskText))
        await seat.write("away/p.csv")
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(ReadPage))
        await seat.keys("y")
        assert len(stored(path).job.of(Contact)) == 2
        await seat.keys("I")
        await seat.until(lambda: seat.top_is(Pick))
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(AskText))
        await seat.write("gone.csv")
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(ReadPage))
        assert "cannot be read: No such file" in " ".join(seat.text.split())


async def test_a_date_that_reads_two_ways_is_asked_and_values_are_shown_as_they_will_be_saved(tmp_path: Path) -> None:
    path = small_job(tmp_path)
    (tmp_path / "people.csv").write_text("Company,Role,Callback\nDana,electrical,3/4/2026\n")
    async with seat_at(path, (140, 44)) as seat:
        await seat.keys("5", "I")
        await seat.until(lambda: seat.top_is(Pick))
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(Pick) and "Which file" in seat.text)
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(Pick) and "can be two dates" in seat.text)
        assert "the day first: 3/4/2026 is 3 April" in seat.text
        await seat.write("month")
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(ReadPage))
        assert "call on: 3/4/2026 is read as 2026-03-04" in seat.text
        assert "trade: electrical is read as electrician" in seat.text
        await seat.keys("y")
        await seat.until(lambda: len(stored(path).job.of(Contact)) == 1)
        assert next(iter(stored(path).job.of(Contact).values())).call_on == date(2026, 3, 4)


async def test_what_a_column_is_can_be_said(tmp_path: Path) -> None:
    path = small_job(tmp_path)
    (tmp_path / "people.csv").write_text("Wer,Role\nDana,electrical\n")
    async with seat_at(path, (140, 44)) as seat:
        await pick_file(seat, "5", "people")
        assert "Wer -> left out" in seat.text
        await seat.keys("m")
        await seat.until(lambda: seat.top_is(Pick) and "Which column" in seat.text)
        await seat.write("Wer")
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(Pick) and "What is in the column" in seat.text)
        await seat.write("name")
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(ReadPage) and "Wer -> name" in seat.text)
        await seat.keys("y")
        await seat.until(lambda: len(stored(path).job.of(Contact)) == 1)
