"""Panels, contacts, history, the other lists and findings, with real keys."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import pytest

from store.measure.dates import show_date
from store.measure.length import Length, parse_length
from store.records.access import Visit
from store.records.field import Ref
from store.records.gate import Check
from store.records.people import Contact
from store.records.wall import Obstacle, Reading, Wall
from tests.tui.seat import LOW, SIZES, job_file, seat_at, small_job, stored, tables
from tui.forms.record_form import RecordForm
from tui.screen.job_screen import JobScreen
from tui.views.index import SECTIONS
from tui.widgets.dialogs import ReadPage


def inches(text: str) -> Length:
    return parse_length(text, metric=False)


async def test_a_panel_and_an_opening_of_it_in_the_log(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Wall(tag="W1", name="One")])
    async with seat_at(path) as seat:
        await seat.keys("7", "a", "enter")
        await seat.fill(name="Hatch", wall="W1", width="12", height="1'", behind="W1")
        await seat.until(lambda: seat.top_is(JobScreen))
        assert seat.cells("A1") == ("A1", "Hatch", '12" x 12"', "hinged", "W1", "not yet")
        await seat.keys("l")
        await seat.fill(why="fan to clean")
        await seat.until(lambda: seat.top_is(JobScreen))
        assert seat.record("V1") == Visit(tag="V1", panel=Ref("A1"), date=date.today(), who="Robin", why="fan to clean")
        assert seat.rows() == ["A1", "V1"]
        await seat.keys("f")
        assert seat.rows() == ["A1"]
        await seat.keys("f", "home", "enter")
        assert seat.top_is(ReadPage)
        assert "→ W1 One" in seat.text
        assert "← V1" in seat.text


async def test_a_contact_moves_along_and_papers_that_ran_out_are_marked(tmp_path: Path) -> None:
    gone, near = date.today() - timedelta(days=1), date.today() + timedelta(days=10)
    path = small_job(
        tmp_path, [Contact(tag="T1", name="Sam", trade="electrician", insured_until=gone, licence_until=near)]
    )
    async with seat_at(path) as seat:
        await seat.keys("5")
        assert seat.cells("T1")[4:6] == ("! ran out", "! 10 days left")
        await seat.keys("space", "space")
        assert seat.cells("T1")[3] == "booked"
        await seat.keys("e")
        await seat.fill(phone="555-0100", mail="sam@example.com")
        await seat.until(lambda: seat.top_is(JobScreen))
        found = stored(path).job.of(Contact)["T1"]
        assert (found.phone, found.mail, found.state) == ("555-0100", "sam@example.com", "booked")


async def test_history_tells_who_changed_what_by_the_names_of_the_fields(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Contact(tag="T1", name="Sam", trade="electrician")])
    async with seat_at(path) as seat:
        await seat.keys("5", "e")
        await seat.fill(insured_until="2027-03-01")
        await seat.until(lambda: seat.top_is(JobScreen))
        await seat.keys("h")
        assert seat.top_is(ReadPage)
        assert "Robin: Edit T1 Sam" in seat.text
        assert "insured until: blank → Mar 1, 2027" in seat.text
        assert "Robin: Start" in seat.text


async def test_history_of_a_closed_item_shows_its_evidence(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Check(tag="Q1", what="thing")])
    async with seat_at(path) as seat:
        await seat.keys("6", "c")
        await seat.write("block 7 nailed")
        await seat.keys("enter", "h")
        assert "block 7 nailed" in seat.text


async def test_an_obstacle_stands_under_its_wall_with_its_place(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Wall(tag="W1", name="One"), Wall(tag="W2", name="Two")])
    async with seat_at(path) as seat:
        await seat.keys("a")
        await seat.write("obst")
        await seat.keys("enter")
        await seat.fill(what="vent", x="11' 10", y="7'", width="12", height="6")
        await seat.until(lambda: seat.top_is(JobScreen))
        assert seat.rows() == ["W1", "O1", "W2"]
        assert seat.cells("O1")[:3] == ("O1", " vent", "at 11'-10\", up 7'-0\"")
        assert isinstance(seat.record("O1"), Obstacle)


async def test_digits_go_to_the_sections_and_brackets_to_the_views_of_one(tmp_path: Path) -> None:
    async with seat_at(job_file(tmp_path), LOW) as seat:
        shown = []
        for place, (section, views) in enumerate(SECTIONS, 1):
            await seat.keys(str(place))
            names = seat.lines()[2]
            assert f"▸{place} {section}" in names
            assert all(f"{at} {name}" in names for at, (name, _) in enumerate(SECTIONS, 1)), (
                "every section has its name"
            )
            for title, _ in views:
                assert seat.job_screen.views.titles[seat.job_screen.number] == title
                assert f"▸{title}" in seat.lines()[3]
                assert all(each in seat.lines()[3] for each, _ in views)
                shown.append(seat.job_screen.view.name)
                await seat.keys("right_square_bracket")
            assert seat.job_screen.views.titles[seat.job_screen.number] == views[0][0], "the last leads to the first"
        assert len(set(shown)) == len(seat.job_screen.views)


async def test_a_section_opens_on_the_view_last_seen_in_it_and_0_does_nothing(tmp_path: Path) -> None:
    async with seat_at(job_file(tmp_path)) as seat:
        await seat.keys("3", "ctrl+right", "ctrl+right", "ctrl+right", "4", "ctrl+left", "3")
        assert seat.job_screen.view.title == "Cables"
        await seat.keys("4")
        assert seat.job_screen.view.title == "Money"
        await seat.keys("0", "8", "9")
        assert seat.top_is(JobScreen)
        assert seat.job_screen.view.title == "Money"


async def test_the_program_opens_on_what_comes_first_in_the_job(tmp_path: Path) -> None:
    async with seat_at(job_file(tmp_path), first="") as seat:
        assert seat.job_screen.number == 0
        assert "▸1 Now" in seat.lines()[2]
        assert seat.rows(), "what follows from the job is shown without a key"


async def test_the_job_itself_is_edited_and_lengths_change_their_units(tmp_path: Path) -> None:
    path = small_job(
        tmp_path, [Wall(tag="W1", name="One"), Reading(tag="D1", wall=Ref("W1"), what="width", value=inches("10'"))]
    )
    async with seat_at(path) as seat:
        assert seat.cells("D1")[3] == "10'-0\""
        await seat.keys("b")
        await seat.fill(units="millimetres")
        await seat.until(lambda: seat.top_is(JobScreen))
        assert seat.cells("D1")[3] == "3048 mm"
        assert tables(path)["reading"]["1"]["value"] == "10'-0\"" or tables(path)["reading"]["1"]["value"].endswith(
            "in"
        )


async def test_a_page_tells_its_own_finding_and_t_goes_to_the_record(tmp_path: Path) -> None:
    gone = date.today() - timedelta(days=1)
    people = [Contact(tag="T1", name="Sam", trade="electrician", state="booked", insured_until=gone)]
    async with seat_at(small_job(tmp_path, people)) as seat:
        await seat.go("Problems")
        await seat.keys("enter")
        assert seat.top_is(ReadPage)
        assert "The insurance of Sam" in seat.text
        assert "Do:" in seat.text
        assert "Source:" in seat.text
        await seat.keys("t")
        assert seat.job_screen.view.name == "trades"
        assert seat.table.cursor_key == "T1"


async def test_what_cannot_be_edited_or_added_says_what_to_do(tmp_path: Path) -> None:
    gone = date.today() - timedelta(days=1)
    people = [Contact(tag="T1", name="Sam", trade="electrician", state="booked", insured_until=gone)]
    async with seat_at(small_job(tmp_path, people)) as seat:
        await seat.go("Problems")
        await seat.keys("e")
        assert "Edit the record it comes from" in seat.said
        await seat.keys("a")
        assert "Nothing to add here" in seat.said
        await seat.keys("4", "e")
        assert seat.said == "Nothing here yet. a = add"


async def test_a_subset_without_findings_does_not_ask_for_more(tmp_path: Path) -> None:
    """Findings follow from the job: nobody adds one, and an empty subset leads on to the next."""
    async with seat_at(small_job(tmp_path)) as seat:
        await seat.go("Problems")
        assert "Built automatically. Nothing to add here." in seat.text
        await seat.keys("f")
        assert "Nothing in this filter. f = next filter" in seat.text
        await seat.go("Buying list")
        assert "Nothing to buy." in seat.text
        await seat.go("Equipment")
        await seat.keys("4")
        assert "No equipment yet. What goes in the wall" in seat.text


async def test_a_finding_is_answered_and_stays_visible(tmp_path: Path) -> None:
    gone = date.today() - timedelta(days=1)
    people = [Contact(tag="T1", name="Sam", trade="electrician", state="booked", insured_until=gone)]
    path = small_job(tmp_path, people)
    async with seat_at(path) as seat:
        await seat.go("Problems")
        key = seat.table.cursor_key
        assert key is not None
        await seat.keys("y")
        await seat.fill(by="Kim")
        assert seat.top_is(RecordForm), "nobody answers without saying what"
        await seat.fill(office="licence 12", reference="letter 4", says="new paper seen")
        await seat.until(lambda: seat.top_is(JobScreen))
        assert seat.cells(key)[0] == "Accepted"
        await seat.keys("enter")
        said = f"Accepted by Kim, licence 12, letter 4, {show_date(date.today())}: new paper seen"
        assert said in " ".join(line.strip("│ ") for line in seat.text.splitlines())
        await seat.keys("escape", "y")
        assert seat.form.body.texts["office"] == "licence 12", "an answer is mended, not typed anew"


async def test_each_list_keeps_its_own_place(tmp_path: Path) -> None:
    """A list begins at its top, and where it was left when one comes back to it."""
    async with seat_at(job_file(tmp_path)) as seat:
        await seat.keys("down", "down", "down", "4")
        assert seat.table.cursor_key == seat.rows()[0]
        await seat.keys("down", "down", "2")
        assert seat.table.cursor_key == seat.rows()[3]
        await seat.keys("4")
        assert seat.table.cursor_key == seat.rows()[2]


@pytest.mark.parametrize("size", SIZES)
async def test_each_size_has_its_layout(tmp_path: Path, size: tuple[int, int]) -> None:
    async with seat_at(job_file(tmp_path), size) as seat:
        screen = seat.job_screen
        line = screen.query_one("#filter")
        assert not line.display, "the line to type in waits for its key"
        await seat.keys("slash")
        await seat.until(lambda: line.display and line.region.height == 1)
        await seat.keys("escape")
        await seat.until(lambda: not line.display)
        wide = size != LOW
        await seat.go("Boxes")
        assert bool(screen.query("#side")) is wide
        assert bool(screen.query("#wall")) is wide
        if wide:
            table = seat.table
            await seat.until(lambda: 28 <= screen.query_one("#side").region.width <= 46)
            assert table.cells_wanted <= table.region.width, "the list keeps its columns"
            tall = screen.query_one("#wall").region.height / size[1]
            assert 0.3 < tall < 0.5, "the wall is above the list, and leaves it room"
