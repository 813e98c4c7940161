"""Panels, photos and Find at the keyboard: what is behind, a thing changed in one act, one field over everything."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path
from typing import cast

import pytest
from msgspec.structs import replace
from textual.widgets import Input, OptionList, Static

from store.book.book import Book
from store.book.changes import add, edit
from store.measure.dates import show_date
from store.records.access import Panel, Photo, Visit
from store.records.equipment import Equipment
from store.records.field import Ref
from store.records.wiring import Cable
from store.rules.access.steps import reach
from store.rules.core.checks import close
from store.rules.core.findings import findings
from store.rules.find.search import Hit, find
from store.rules.gate.gate import passage, standing
from tests.book.test_pictures import jpeg
from tests.tui.seat import LOW, MIDDLE, Seat, assert_fits, job_file, seat_at, small_job
from tui.forms.record_form import RecordForm
from tui.screen.job_screen import JobScreen
from tui.views.access.panels import Panels
from tui.views.buy.equipment import EquipmentView
from tui.views.plan.figured import Cables
from tui.views.rough_in.photos import Photos
from tui.widgets.dialogs import AskText, Confirm, Pick, ReadPage
from tui.widgets.find import FindDialog


async def to_view(seat: Seat, kind: type) -> None:
    """Go to a view, wherever it stands in the row."""
    screen = seat.job_screen
    screen.action_view(next(at for at, view in enumerate(screen.views) if isinstance(view, kind)))
    await seat.calm()


def shown(seat: Seat) -> str:
    """All that the page on top says, whether or not it is scrolled into sight."""
    return "\n".join(str(each.content) for each in seat.top.query(Static))


async def test_i_tells_what_is_behind_a_panel_and_which_breaker_is_off_first(tmp_path: Path) -> None:
    async with seat_at(job_file(tmp_path), LOW) as seat:
        await to_view(seat, Panels)
        seat.table.move_to("A3")
        await seat.keys("i")
        await seat.until(lambda: seat.top_is(ReadPage))
        text = shown(seat)
        assert "Off first: breaker 9 (C4 Room lights, existing, 15 A)" in text
        assert "E14  Driver of the shelf lights" in text
        assert "to try whether both hands go in" in text
        assert_fits(seat, LOW)
        await seat.keys("escape")
        seat.table.move_to("V3")  # an entry of the log stands for its panel
        await seat.keys("i")
        await seat.until(lambda: seat.top_is(ReadPage))
        assert "What is behind A2" in shown(seat)


async def test_a_thing_is_changed_through_its_panel_in_one_act(tmp_path: Path) -> None:
    async with seat_at(job_file(tmp_path), MIDDLE) as seat:
        await to_view(seat, Panels)
        seat.table.move_to("A3")
        before = len(seat.book.job.of(Visit))
        await seat.keys("x")
        await seat.until(lambda: seat.top_is(Pick))
        await seat.write("E14")
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(AskText))
        await seat.write("it hums")
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(RecordForm))
        await seat.fill(name="Quieter driver", serial="new 7")
        await seat.until(lambda: seat.top_is(ReadPage))
        told = shown(seat)
        assert "E21 replaced E14" in told
        assert "V9 in the log of A3 records it" in told
        assert "Through A3 Above the left speaker: not known: no sizes entered" in told
        assert "Load: C2 Media equipment carries" in told or "Load: C4" in told
        await seat.keys("escape")
        await seat.until(lambda: seat.top_is(JobScreen))
        old, new = cast(Equipment, seat.record("E14")), cast(Equipment, seat.record("E21"))
        assert (old.replaced_by, old.retired) == ("E21", seat.book.job.today)
        assert (new.name, new.serial, new.reached, new.plug, new.width) == (
            "Quieter driver",
            "new 7",
            "A3",
            "B10",
            None,
        )
        assert "E21" in cast(Panel, seat.record("A3")).behind
        visits = list(seat.book.job.of(Visit).values())
        assert len(visits) == before + 1
        assert (visits[-1].panel, visits[-1].why) == ("A3", "it hums")
        assert "Replaced E14 with E21, logged a visit to A3" in seat.said
        await seat.keys("u")
        assert cast(Equipment, seat.record("E14")).retired is None
        assert len(seat.book.job.of(Visit)) == before


async def test_leaving_the_form_changes_nothing(tmp_path: Path) -> None:
    async with seat_at(job_file(tmp_path), MIDDLE) as seat:
        await to_view(seat, Panels)
        seat.table.move_to("A3")
        count = len(seat.book.entries())
        await seat.keys("x")
        await seat.until(lambda: seat.top_is(Pick))
        await seat.keys("escape")
        await seat.until(lambda: seat.top_is(JobScreen))
        assert len(seat.book.entries()) == count


async def test_find_answers_while_one_types_and_gives_the_tag_back(tmp_path: Path) -> None:
    async with seat_at(job_file(tmp_path), LOW) as seat:
        job = seat.book.job
        given: list[str | None] = []
        dialog = FindDialog(lambda words: find(job, words), lambda tag: " ".join(reach(job, tag).open))
        seat.app.push_screen(dialog, given.append)
        await seat.until(lambda: seat.top_is(FindDialog))
        await seat.write("hdmi behind the screen")
        await seat.until(lambda: dialog.shown[:1] == ("K1",))
        assert "Open A2" in shown(seat)
        assert_fits(seat, LOW)
        await seat.keys("down")
        assert dialog.query_one(OptionList).highlighted == 1
        await seat.keys("up", "enter")
        await seat.until(lambda: seat.top_is(JobScreen))
        assert given == ["K1"]


async def test_what_was_written_on_closing_a_check_is_found_and_leads_to_that_check(tmp_path: Path) -> None:
    async with seat_at(job_file(tmp_path), LOW) as seat:
        item = next(each for each in seat.job_screen.desk.state.standing.items if "/" in each.key and each.open)
        closing = close(item.check, "Robin", seat.book.job.today, "both labels seen, tape reads 9913")
        seat.book.act("Close", [add(closing, keep_tag=True)])
        seat.job_screen.desk.look_again()
        await seat.keys("ctrl+f")
        await seat.until(lambda: seat.top_is(FindDialog))
        await seat.write("9913")
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(JobScreen))
        assert seat.table.cursor_key == item.key
        assert "Rough-in" in seat.job_screen.view.title


async def test_find_tells_what_is_off_and_opened_first_and_keeps_its_keys_in_sight(tmp_path: Path) -> None:
    async with seat_at(job_file(tmp_path), LOW) as seat:
        await seat.keys("ctrl+f")
        await seat.until(lambda: seat.top_is(FindDialog))
        await seat.write("driver of the shelf lights")
        await seat.until(lambda: "Off first: breaker 9" in seat.text)
        assert "Open A3 Above the left speaker" in seat.text
        assert "Enter = go" in seat.text
        await seat.keys("escape")


async def test_find_with_no_answer_says_so_and_escape_leaves(tmp_path: Path) -> None:
    async with seat_at(job_file(tmp_path), LOW) as seat:
        job = seat.book.job
        given: list[str | None] = []
        dialog = FindDialog(lambda words: find(job, words))
        seat.app.push_screen(dialog, given.append)
        await seat.until(lambda: seat.top_is(FindDialog))
        dialog.query_one(Input).value = "xyzzyplugh"
        await seat.until(lambda: "No matches." in shown(seat))
        await seat.keys("enter")
        assert seat.top_is(FindDialog)
        await seat.keys("escape")
        await seat.until(lambda: seat.top_is(JobScreen))
        assert given == [None]


async def test_hostile_names_are_shown_letter_by_letter_in_find(tmp_path: Path) -> None:
    async with seat_at(job_file(tmp_path), LOW) as seat:
        hostile = Hit("K1", "cable", "[b]x[/b] \x1b[31m [/", "[@click=app.quit]go[/]\u202e", False, 1.0)
        dialog = FindDialog(lambda words: [hostile])
        seat.app.push_screen(dialog)
        await seat.until(lambda: seat.top_is(FindDialog) and dialog.shown == ("K1",))
        assert "[b]x[/b]" in seat.text
        assert_fits(seat, LOW)


async def test_v_looks_at_the_files_of_all_photos(tmp_path: Path) -> None:
    async with seat_at(job_file(tmp_path), LOW) as seat:
        (tmp_path / "a.png").write_bytes(b"\x89PNG\r\n\x1a\n" + bytes(20))
        for file in ("a.png", "gone.jpg"):
            seat.book.act("Add photo", [add(Photo(tag="", file=file))])
        seat.job_screen.desk.look_again()
        await to_view(seat, Photos)
        await seat.keys("v")
        await seat.until(lambda: seat.top_is(ReadPage))
        assert "2 photos, 1 can't be shown" in shown(seat)
        assert "gone.jpg: ! there is no such file" in shown(seat)
        assert f"a.png: png, {show_date(date.today())} (file)" in shown(seat)
        await seat.keys("escape")
        seat.table.move_to("F2")
        await seat.keys("p")
        assert "there is no such file" in seat.said
        assert seat.cells("F2")[3] == "! there is no such file"
        assert seat.cells("F1")[3] == f"{show_date(date.today())} (file)"
        (tmp_path / "gone.jpg").write_bytes(jpeg())
        seat.job_screen.desk.look_again()
        assert seat.cells("F2")[3] == "Sep 30, 2026 (camera)"
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(ReadPage))
        assert f"{tmp_path.resolve() / 'gone.jpg'}: jpeg, Sep 30, 2026 (camera)" in shown(seat)


async def test_x_on_the_equipment_list_changes_a_device_and_tells_what_follows(tmp_path: Path) -> None:
    async with seat_at(job_file(tmp_path), LOW) as seat:
        await to_view(seat, EquipmentView)
        seat.table.move_to("E5")
        await seat.keys("x")
        await seat.until(lambda: seat.top_is(AskText))
        await seat.write("too slow")
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(RecordForm))
        await seat.fill(name="Streamer of next year", width="40", height="2", depth="6")
        await seat.until(lambda: seat.top_is(ReadPage))
        told = shown(seat)
        assert "In N3 Equipment cabinet: does not fit" in told
        assert "New problems:" in told
        assert "E21 Streamer of next year" in told
        assert_fits(seat, LOW)
        await seat.keys("escape")
        assert cast(Equipment, seat.record("E5")).replaced_by == "E21"
        seat.table.move_to("E5")
        await seat.keys("x")
        assert "E5 was retired" in seat.said
        assert "E21 replaced it" in seat.said
        await seat.keys("u")
        assert cast(Equipment, seat.record("E5")).retired is None
        assert seat.book.job.get("E21") is None


async def test_x_on_the_cable_list_changes_a_cable_along_the_same_way(tmp_path: Path) -> None:
    async with seat_at(job_file(tmp_path), LOW) as seat:
        await to_view(seat, Cables)
        seat.table.move_to("K3")
        await seat.keys("x")
        await seat.until(lambda: seat.top_is(AskText))
        await seat.write("broken pair")
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(RecordForm))
        await seat.fill(rating="CMP")
        await seat.until(lambda: seat.top_is(ReadPage))
        assert "Ends: B6 to B3" in shown(seat)
        await seat.keys("escape")
        old, new = cast(Cable, seat.record("K3")), cast(Cable, seat.record("K21"))
        assert (old.replaced_by, old.retired) == ("K21", seat.book.job.today)
        assert (new.start, new.end, new.raceway, new.type, new.rating) == (
            old.start,
            old.end,
            old.raceway,
            "cat6",
            "CMP",
        )
        visits = list(seat.book.job.of(Visit).values())
        assert (visits[-1].panel, visits[-1].why) == ("A1", "broken pair")
        assert find(seat.book.job, "K3")[0].retired


async def test_what_is_due_in_the_years_of_use_is_told_at_the_top_and_in_a_subset(tmp_path: Path) -> None:
    fan = Equipment(tag="E1", name="Quiet fan", what="part", state="owned", service=date(2020, 1, 1))
    path = small_job(tmp_path, [fan])
    book = Book.open(path, "Robin")
    while standing(book.job).next:
        book.act("Pass on", lambda job: [add(passage(job, "Robin", "as agreed"))], "as agreed")
    book.close()
    async with seat_at(path, LOW) as seat:
        await seat.until(lambda: "To look after: service due E1" in seat.text)
        await seat.go("Problems")
        for _ in range(len(seat.job_screen.view.filters)):
            if seat.subset == "to look after":
                break
            await seat.keys("f")
        assert seat.rows() == ["service_due:E1"]
        assert_fits(seat, LOW)
        await seat.keys("t")
        assert seat.table.cursor_key == "E1"
        done = replace(cast(Equipment, seat.record("E1")), service=seat.book.job.today + timedelta(365))
        seat.book.act("Cleaned", [edit(seat.record("E1"), done)])
        seat.job_screen.desk.look_again()
        await seat.until(lambda: "In use: no service due" in seat.text)


async def test_the_page_of_a_thing_begins_with_its_way_and_has_keys_to_all_of_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened: list[Path] = []

    def viewer(path: Path) -> str:
        opened.append(path)
        return ""

    monkeypatch.setattr("tui.acts.photos.pictures.open_picture", viewer)
    (tmp_path / "left.png").write_bytes(b"\x89PNG\r\n\x1a\n" + bytes(20))
    async with seat_at(job_file(tmp_path), LOW) as seat:
        for shows in ("open", "closed"):
            seat.book.act("Add photo", [add(Photo(tag="", file="left.png", shows=shows, of=(Ref("E14"),)))])
        seat.job_screen.desk.look_again()
        await to_view(seat, EquipmentView)
        seat.table.move_to("E14")
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(ReadPage))
        lines = seat.text.split("\n")
        first = next(at for at, line in enumerate(lines) if "Off first: breaker 9 (C4 Room lights" in line)
        assert any("Open A3 Above the left speaker" in line for line in lines[first + 1 : first + 8])
        assert "i = access  p = photo" in seat.text
        await seat.keys("i")
        await seat.until(lambda: "Access to E14" in seat.text)
        assert "Behind A3 you see:" in shown(seat)
        await seat.keys("escape", "enter", "p")
        await seat.until(lambda: seat.top_is(Pick))
        await seat.write("closed")
        await seat.keys("enter")
        assert opened == [tmp_path.resolve() / "left.png"]
        assert "Opened the photo of F2:" in seat.text
        await seat.keys("6")
        await seat.until(lambda: "K3/pulled" in seat.rows())
        seat.table.move_to("K3/pulled")
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(ReadPage))
        await seat.keys("i")
        await seat.until(lambda: "Access to K3" in seat.text)
        assert_fits(seat, LOW)


async def test_rename_move_and_retire_keep_hold_of_each_other(tmp_path: Path) -> None:
    async with seat_at(job_file(tmp_path), LOW) as seat:
        await to_view(seat, Panels)
        seat.table.move_to("A3")
        await seat.keys("e")
        await seat.fill(name="Hatch over the speaker")
        await seat.until(lambda: seat.top_is(JobScreen))
        assert find(seat.book.job, "hatch over the speaker")[0].tag == "A3"
        assert "Open A3 Hatch over the speaker" in reach(seat.book.job, "E14").open[0]
        await seat.keys("e")
        await seat.fill(x="12' 6")
        await seat.until(lambda: seat.top_is(JobScreen))
        assert "new 6: " in seat.said.lower()
        moved = {each.key for each in findings(seat.book.job) if each.severity == "stop"}
        assert "way_too_far:B10,A3" in moved
        assert "A3!" in seat.text
        await seat.keys("u")
        await seat.until(lambda: "A3!" not in seat.text)
        assert "way_too_far:B10,A3" not in {each.key for each in findings(seat.book.job)}
        await seat.keys("d")
        await seat.until(lambda: seat.top_is(Confirm))
        assert "Also clears the link" in seat.text
        await seat.keys("y")
        await seat.until(lambda: seat.top_is(AskText))
        await seat.write("not wanted any more")
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(JobScreen))
        gone = {each.key for each in findings(seat.book.job) if each.severity == "stop"}
        assert "junction_buried:B10" in gone
        await seat.keys("u")
        assert cast(Panel, seat.record("A3")).name == "Hatch over the speaker"
        assert cast(Equipment, seat.record("E14")).reached == "A3"
