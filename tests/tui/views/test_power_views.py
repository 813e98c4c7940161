"""The lists of power on the smallest screen: figures, sums, the plug plan and the cautions, with real keys."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.containers import VerticalScroll

from store.records.base import Record
from store.records.equipment import Equipment
from store.records.wiring import Box, Circuit
from tests.jobs.power_case import make, receptacle
from tests.tui.seat import LOW, SIZES, Seat, seat_at, small_job
from tui.screen.job_screen import JobScreen
from tui.widgets.dialogs import ReadPage


def records() -> list[Record]:
    """A circuit, a full box on it, and what is to be plugged in."""
    return [
        make(Circuit, "C1", name="media", breaker=20.0, conductor="12", length="50'", afci=True),
        receptacle(name="behind", switched="half", volume=9.0),
        make(Box, "B2", what="low-voltage", name="data"),
        make(Equipment, "E1", name="Router", what="router", power="cord", watts=12.0),
        make(Equipment, "E2", name="Lamp", what="light", power="cord", watts=10.0),
        make(Equipment, "E3", name="Player", what="player", power="cord", watts=20.0),
    ]


def plugs(seat: Seat) -> list[str]:
    """Where each thing plugs in, as the file has it."""
    return [str(one.plug) for one in seat.book.job.of(Equipment).values()]


async def whole_page(seat: Seat) -> str:
    """All that a page to read says, a screenful after the other, without the frame."""
    said: list[str] = []
    for _ in range(9):
        said += [line.partition("│")[2].rpartition("│")[0].strip() for line in seat.text.splitlines()]
        await seat.keys("pagedown")
        page = seat.top.query_one(VerticalScroll)
        await seat.until(lambda page=page: page.scroll_y == page.scroll_target_y)  # type: ignore[misc]
    return " ".join(dict.fromkeys(said))


async def test_a_box_shows_what_it_needs_and_has_and_its_page_the_sum(tmp_path: Path) -> None:
    async with seat_at(small_job(tmp_path, records()), LOW) as seat:
        await seat.go("Boxes")
        assert seat.cells("B1")[-3:-1] == ("11.25", "9")
        await seat.keys("enter")
        assert seat.top_is(ReadPage)
        page = await whole_page(seat)
        assert "conductors ended or spliced here, 12 AWG: 2 × 2.25 = 4.50 in³" in page
        assert "together 11.25 in³; the box has 9.00 in³" in page
        assert page.index("together") < page.index("Box overfilled: ")
        assert "approves an installation" in page


async def test_the_page_of_a_low_voltage_box_has_no_caution_of_mains(tmp_path: Path) -> None:
    async with seat_at(small_job(tmp_path, records()), LOW) as seat:
        await seat.go("Boxes")
        await seat.keys("down", "enter")
        assert seat.top_is(ReadPage)
        assert "Mains wiring" not in await whole_page(seat)


async def test_a_circuit_shows_what_is_on_it_in_words(tmp_path: Path) -> None:
    one = make(Equipment, "E4", name="Fire", what="fireplace", power="hard-wired", plug="B1", watts=1200.0)
    async with seat_at(small_job(tmp_path, [*records(), one]), LOW) as seat:
        await seat.go("Circuits")
        assert seat.cells("C1")[:6] == ("C1", "media", "20 A", "12", "1200", "12.5")
        await seat.keys("enter")
        page = await whole_page(seat)
        assert "E4 Fire: 1200 W at B1, counted at 125%" in page
        assert "room left: 7.5 A" in page
        assert "voltage drop: 1.93 V" in page


@pytest.mark.parametrize("size", SIZES)
async def test_every_list_of_power_carries_a_caution(tmp_path: Path, size: tuple[int, int]) -> None:
    async with seat_at(small_job(tmp_path, records()), size) as seat:
        for title, words in (("Boxes", "licensed electrician"), ("Problems", "licensed practice win")):
            await seat.go(title)
            assert words in seat.text
        await seat.go("Circuits")
        assert "licensed electrician" in seat.text
        await seat.keys("4", "v")
        assert "licensed electrician" in await whole_page(seat)


async def test_a_plug_plan_is_proposed_changed_and_taken_back(tmp_path: Path) -> None:
    async with seat_at(small_job(tmp_path, records()), LOW) as seat:
        await seat.keys("4", "v")
        assert seat.top_is(ReadPage)
        assert "+ E1 Router, always on" in seat.text
        assert "+ E2 Lamp, switched" in seat.text
        assert "E3 Player: the receptacles in reach are taken" in seat.text
        assert plugs(seat) == ["B1", "B1", ""]
        await seat.keys("escape", "home", "down", "down", "e")
        await seat.fill(plug="B1", half="switched")
        await seat.until(lambda: seat.top_is(JobScreen))
        assert plugs(seat) == ["B1", "B1", "B1"]
        await seat.keys("v")
        assert "· E3 Player, switched" in seat.text
        await seat.keys("escape", "u", "u")
        assert plugs(seat) == ["", "", ""]
