"""What to do next on the screen: it opens first, each line leads to where it is done, and Esc leads back."""

from __future__ import annotations

from pathlib import Path

from store.measure.length import inches
from store.records.field import Ref
from store.records.wall import Reading, Wall
from store.rules.agenda.due import Listing
from store.rules.gate.gate import standing
from tests.tui.seat import LOW, WIDE, job_file, seat_at, small_job, stored
from tui.acts.places import TITLES
from tui.views.index import Views


async def test_now_opens_first_and_each_line_leads_to_its_place_and_back(tmp_path: Path) -> None:
    path = job_file(tmp_path)
    open_items = standing(stored(path).job).open
    async with seat_at(path, LOW, first="") as seat:
        screen = seat.job_screen
        assert screen.view.name == "agenda"
        lines = list(seat.rows())
        assert lines[0] == "stop:cable_not_rated"
        for key in lines:
            due = screen.desk.state.due(key)
            assert due is not None
            seat.table.move_to(key)
            await seat.keys("enter")
            place = due.place
            assert screen.view.name != "agenda", key
            if place.list in TITLES:
                assert screen.views.titles[screen.number] == TITLES[place.list], key
            if place.key:
                assert seat.table.cursor_key == place.key, key
            if key.startswith("items:"):
                trade = key.partition(":")[2]
                assert seat.rows() == [each.key for each in open_items if each.check.trade == trade]
            if place.trade:  # nobody has begun it yet: the form of a new one is open, for that trade
                assert place.trade in seat.text
                await seat.keys("escape")
            await seat.keys("escape")
            assert (screen.view.name, seat.table.cursor_key) == ("agenda", key)
            assert not screen.filtering.text


async def test_a_line_goes_when_it_is_done(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Wall(tag="W1", name="North")])
    async with seat_at(path, WIDE, first="") as seat:
        assert seat.rows()[0] == "blank:W1"
        assert "W1 North: read width and height" in seat.text
        assert "▌" in seat.text
        for what in ("width", "height"):
            await seat.go("Measurements")
            seat.job_screen.desk.fill_in(Reading, {"wall": Ref("W1"), "what": what, "value": inches(100)})
            await seat.until(lambda: seat.top is not seat.job_screen)
            await seat.keys("ctrl+s")
            await seat.until(lambda: seat.top is seat.job_screen)
        await seat.go("Agenda")
        assert "blank:W1" not in seat.rows()
        assert "ready" in seat.rows()
        await seat.keys("d", "e", "a", "h")
        assert seat.job_screen.views.titles[seat.job_screen.number] == "Agenda"


async def test_a_digit_forgets_the_way_back(tmp_path: Path) -> None:
    async with seat_at(job_file(tmp_path), first="") as seat:
        await seat.keys("enter", "4", "escape")
        assert seat.job_screen.views.titles[seat.job_screen.number] == "Equipment"


def test_every_list_that_a_line_can_lead_to_is_a_view() -> None:
    assert set(TITLES) == set(Listing.__args__) - {"plan"}  # type: ignore[attr-defined]
    assert set(TITLES.values()) <= set(Views().titles)
