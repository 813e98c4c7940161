"""The signal chain and the buying list on the screen, with real keys."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from store.measure.length import parse_length
from store.records.equipment import Equipment
from store.records.wiring import Box, Cable
from store.rules.buying.buying_list import buying_list
from tests.tui.seat import SIZES, assert_fits, job_file, seat_at, small_job, stored
from tui.widgets.dialogs import Pick, ReadPage


def chain() -> list[Equipment | Cable]:
    """A player on a receiver on a screen."""
    return [
        Equipment(tag="E1", name="Screen", what="screen", ports=("hdmi in",)),
        Equipment(tag="E2", name="Receiver", what="receiver", ports=("hdmi in", "hdmi out")),
        Equipment(tag="E3", name="Player", what="player", ports=("hdmi out",)),
        Cable(tag="K1", type="hdmi", start="E2", end="E1"),  # type: ignore[arg-type]
        Cable(tag="K2", type="hdmi", start="E3", end="E2"),  # type: ignore[arg-type]
    ]


@pytest.mark.parametrize("size", SIZES)
async def test_the_signal_chain_is_a_tree_that_leads_to_its_records(tmp_path: Path, size: tuple[int, int]) -> None:
    async with seat_at(small_job(tmp_path, chain()), size) as seat:
        await seat.go("Signal chain")
        assert [seat.cells(key)[0] for key in seat.rows()] == [
            "Picture", "└─ E1 Screen", "   └─ K1 HDMI: E2 Receiver", "      └─ K2 HDMI: E3 Player",
        ]  # fmt: skip
        assert_fits(seat, size)
        await seat.keys("down", "down", "enter")
        assert (seat.job_screen.view.name, seat.table.cursor_key) == ("equipment", "E2")
        await seat.go("Signal chain")
        await seat.keys("t")
        assert (seat.job_screen.view.name, seat.table.cursor_key) == ("cable", "K1")
        await seat.go("Signal chain")
        await seat.keys("home", "t")
        assert "the chain begins here" in seat.said


async def test_what_is_wrong_with_the_chain_stands_beside_its_line(tmp_path: Path) -> None:
    async with seat_at(small_job(tmp_path, chain()[:4])) as seat:
        await seat.go("Signal chain")
        assert seat.rows()[-1] == "E3/Elsewhere/"
        assert seat.cells("E3/Elsewhere/")[3] == "! no way to a TV"
        assert "1 problem (!)" in seat.said
        await seat.keys("end", "a")
        await seat.fill(type="hdmi", end="E2")
        await seat.until(lambda: "E3/Picture/K2" in seat.rows())
        assert seat.record("K2") == Cable(tag="K2", type="hdmi", start="E3", end="E2")  # type: ignore[arg-type]


async def test_a_line_is_ticked_with_one_key_and_taken_back_with_one(tmp_path: Path) -> None:
    records = [
        Equipment(tag="E1", name="Screen"),
        Box(tag="B1", what="low-voltage"),
        Box(tag="B2", what="low-voltage"),
    ]
    async with seat_at(small_job(tmp_path, records)) as seat:
        await seat.go("Buying list")
        assert seat.rows() == [
            "/Equipment", "E1/Equipment: E1", "/Boxes", "B1/Boxes: low-voltage bracket or box, 1 gang",
            "/Plates", "B1/Plates: low-voltage plate, 1 gang",
        ]  # fmt: skip
        await seat.keys("down", "space")
        assert seat.record("E1").state == "owned"  # type: ignore[attr-defined]
        await seat.keys("home", "space")
        assert [seat.record(tag).bought for tag in ("B1", "B2")] == [True, True]  # type: ignore[attr-defined]
        await seat.keys("home", "space")
        assert seat.rows() == []
        await seat.keys("u")
        assert [seat.record(tag).parts for tag in ("B1", "B2")] == [(), ()]  # type: ignore[attr-defined]
        await seat.keys("u", "u")
        assert len(seat.rows()) == 6
        assert len(buying_list(stored(seat.book.path).job)) == 3


async def test_a_spool_shows_the_order_of_cutting_before_and_after_it_is_bought(tmp_path: Path) -> None:
    cables = [
        Cable(tag=f"K{at}", type="cat6", measured=parse_length(length), sold=("100 ft 30",))
        for at, length in ((1, "20 ft"), (2, "40 ft"))
    ]
    async with seat_at(small_job(tmp_path, cables)) as seat:
        await seat.go("Buying list")
        await seat.keys("down", "enter")
        assert seat.top_is(ReadPage)
        for words in ("Cut in this order:", "K2 50 ft", "K1 28 ft", "left: 22 ft", "total $30.00"):
            assert words in seat.text
        await seat.keys("escape", "space", "end")
        assert seat.table.cursor_key == "K2/Cut: Cable: cat6 1"
        assert seat.cells("K2/Cut: Cable: cat6 1")[5] == "K2 50 ft, K1 28 ft, left: 22 ft"
        await seat.keys("space")
        assert "when their cables are pulled" in seat.said


@pytest.mark.parametrize("size", SIZES)
async def test_both_lists_fit_the_screen(tmp_path: Path, size: tuple[int, int]) -> None:
    async with seat_at(job_file(tmp_path), size) as seat:
        for title in ("Signal chain", "Buying list"):
            await seat.go(title)
            assert_fits(seat, size)
            await seat.keys("end")
            assert_fits(seat, size)
            assert "▌" in seat.text


async def test_any_form_of_a_sheet_is_printed_from_the_screen(tmp_path: Path) -> None:
    path = job_file(tmp_path)
    async with seat_at(path) as seat:
        await seat.keys("P")
        await seat.until(lambda: seat.top_is(Pick))
        await seat.write("buying csv")
        await seat.keys("enter")
        await seat.until(lambda: "Wrote buying: " in seat.said)
        assert path.with_name("job-buying.csv").read_text("utf-8").startswith("\ufeffgroup,count,what")


async def test_a_cable_that_was_given_up_says_so_in_words(tmp_path: Path) -> None:
    gone, kept = Cable(tag="K1", type="cat6", retired=date(2026, 1, 2)), Cable(tag="K2", type="cat6")
    async with seat_at(small_job(tmp_path, [gone, kept])) as seat:
        await seat.go("Cables")
        assert "retired" in seat.cells("K1")
        assert "retired" not in seat.cells("K2")


async def test_a_length_that_was_measured_by_hand_is_marked_in_the_list(tmp_path: Path) -> None:
    records = [
        Cable(tag="K1", type="cat6", measured=parse_length("20'")),
        Cable(tag="K2", type="cat6"),
    ]
    async with seat_at(small_job(tmp_path, records), (140, 44)) as seat:
        await seat.go("Cables")
        assert (seat.cells("K1")[-1], seat.cells("K2")[-1]) == ("20'-0\"*", "")


async def test_the_rest_of_a_spool_that_was_ticked_serves_the_next_cable(tmp_path: Path) -> None:
    records = [Cable(tag="K1", type="cat6", measured=parse_length("40'"), sold=("100 ft 30",))]
    async with seat_at(small_job(tmp_path, records)) as seat:
        await seat.go("Buying list")
        await seat.keys("down", "space")
        assert seat.record("K1").sold == ("100 ft 30", "100 ft owned")  # type: ignore[attr-defined]
        await seat.go("Cables")
        await seat.keys("a")
        await seat.fill(type="cat6", measured="30'")
        await seat.go("Buying list")
        words = [seat.cells(key) for key in seat.rows() if "/Cable: cat6" in key]
        assert ["(on hand, " in each[2] and each[1] == "" for each in words] == [True]
