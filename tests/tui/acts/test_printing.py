"""Printing from the screen: the sheet is made, and it is said where it went."""

from __future__ import annotations

from pathlib import Path

from store.rules.handoff.packet import trades_with_packets
from templates.sheets.context import missing_of
from tests.tui.seat import Seat, job_file, seat_at, stored
from tui.widgets.dialogs import Confirm, Pick


async def print_tape(seat: Seat) -> None:
    """Pick the tape sheet from the list, and the first wall."""
    await seat.keys("P")
    await seat.until(lambda: seat.top_is(Pick))
    assert seat.text.index("measuring: ") < seat.text.index("schedule: "), "that of the list one is on comes first"
    await seat.write("tape:")
    await seat.keys("enter")
    await seat.until(lambda: "Which wall?" in seat.text)
    await seat.keys("enter")


async def test_a_sheet_is_printed_beside_the_job(tmp_path: Path) -> None:
    path = job_file(tmp_path)
    async with seat_at(path) as seat:
        await print_tape(seat)
        await seat.until(lambda: "Wrote tape: " in seat.said)
        written = path.with_name("job-tape-w1.html")
        assert "Mock-up sheet" in written.read_text("utf-8")
        await print_tape(seat)
        await seat.until(lambda: "Wrote tape: " in seat.said)


async def test_a_file_that_is_not_ours_is_written_over_only_when_told_to(tmp_path: Path) -> None:
    path = job_file(tmp_path)
    other = path.with_name("job-tape-w1.html")
    other.write_text("my own page")
    async with seat_at(path) as seat:
        await print_tape(seat)
        await seat.until(lambda: seat.top_is(Confirm))
        await seat.keys("n")
        await seat.until(lambda: "Kept job-tape-w1.html as it was" in seat.said)
        assert other.read_text() == "my own page"
        await print_tape(seat)
        await seat.until(lambda: seat.top_is(Confirm))
        await seat.keys("y")
        await seat.until(lambda: "Wrote tape: " in seat.said)
        assert "Mock-up sheet" in other.read_text("utf-8")


async def test_every_form_of_a_sheet_is_offered_and_a_draft_is_called_one(tmp_path: Path) -> None:
    path = job_file(tmp_path)
    async with seat_at(path) as seat:
        for typed, said, name in (
            ("money: as csv", "Wrote money: ", "job-money.csv"),
            ("packet-drywall:", "Wrote packet-drywall as a DRAFT: ", "job-packet-drywall.html"),
            ("calendar:", "Wrote calendar: ", "job-calendar.ics"),
        ):
            await seat.keys("P")
            await seat.until(lambda: seat.top_is(Pick))
            await seat.write(typed)
            await seat.keys("enter")
            await seat.until(lambda said=said: said in seat.said)  # type: ignore[misc]
            assert path.with_name(name).exists()


async def test_all_packets_are_printed_at_once_and_what_is_not_ours_is_left(tmp_path: Path) -> None:
    path = job_file(tmp_path)
    other = path.with_name("job-packet-drywall.html")
    other.write_text("my own page")
    async with seat_at(path) as seat:
        await seat.keys("P")
        await seat.until(lambda: seat.top_is(Pick))
        await seat.write("packets:")
        await seat.keys("enter")
        job = stored(path).job
        drafts = sum(
            bool(missing_of(job, f"packet-{trade}")) for trade in trades_with_packets(job) if trade != "drywall"
        )
        await seat.until(lambda: f"Wrote 6 of 7 packets ({drafts} as DRAFT) to " in seat.said)
        assert "Not written:" in seat.said
        assert other.read_text() == "my own page"
        assert len(list(tmp_path.glob("job-packet-*.html"))) == 7


async def test_what_begins_with_the_words_that_were_typed_stands_first(tmp_path: Path) -> None:
    async with seat_at(job_file(tmp_path)) as seat:
        await seat.keys("3", "I")
        await seat.until(lambda: seat.top_is(Pick))
        await seat.write("equip")
        pick = seat.app.screen
        assert isinstance(pick, Pick)
        assert list(pick.shown) == ["equipment", "opening"]
