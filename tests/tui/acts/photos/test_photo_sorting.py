"""Photos of a phone, put to items, panels and places by one key each."""

from __future__ import annotations

from pathlib import Path

from PIL import Image

from store.records.access import Panel, Photo
from store.records.gate import Check, Closing
from tests.jobs.access_jobs import make
from tests.jobs.phone_folder import phone_folder
from tests.tui.seat import LOW, seat_at, small_job, stored
from tui.acts.photos.photo_sorting import PhotoSorting, sort_folder
from tui.widgets.half_blocks import HalfBlocks, drawn

RECORDS = (
    make(Panel, tag="A1", name="by the TV"),
    make(Check, tag="Q1", what="Spare cable coiled", wants="photo"),
)


async def test_each_photo_goes_where_one_key_says(tmp_path: Path) -> None:
    path = small_job(tmp_path, RECORDS)
    phone = phone_folder(tmp_path / "phone")
    async with seat_at(path, LOW) as seat:
        sort_folder(seat.app, seat.job_screen.desk, phone)
        await seat.until(lambda: seat.top_is(PhotoSorting))
        photo = seat.top.query_one(HalfBlocks)
        await seat.until(lambda: "▀" in seat.text)
        assert "1 of 5  IMG_3.jpg" in seat.text
        assert "1 sign off Q1 Spare cable coiled" in seat.text
        assert "and 4 more" in seat.text, "what cannot be shown is told"

        await seat.click("1 sign off Q1")  # or its key
        assert "Signed off Q1" in seat.text
        assert photo.path == phone / "IMG_2.jpg"
        now = stored(path).job
        assert now.of(Closing)["Q1"].pictures.keys() == {"photos/IMG_3.jpg"}
        assert now.of(Photo)["F1"].of == ("Q1",)

        await seat.keys("2")
        assert stored(path).job.of(Photo)["F2"].of == ("A1",)
        await seat.keys("enter")
        assert stored(path).job.of(Photo)["F3"].of == ("A1",)
        assert "Duplicate of IMG_1.jpg" in seat.text
        await seat.keys("u")
        assert list(stored(path).job.of(Photo)) == ["F1", "F2"]
        assert photo.path == phone / "IMG_1.jpg"
        await seat.keys("s", "s")
        assert "Looks the same as IMG_2.jpg" in seat.text
        await seat.keys("w")
        await seat.fill(shows="left end")
        assert stored(path).job.of(Photo)["F4"].shows == "left end"
        assert "All 5 photos seen" in seat.text
        assert isinstance(seat.top, PhotoSorting)
        told = seat.top.sorting.words()
        assert "torn.jpg: it is damaged or cut short" in told
        assert "gone.jpg: it is a link that leads nowhere" in told
        await seat.keys("escape")
        assert "3 photos filed, 2 left" in seat.said


async def test_the_folder_is_asked_for_where_no_photo_is_yet(tmp_path: Path) -> None:
    path = small_job(tmp_path, RECORDS)
    phone = phone_folder(tmp_path / "phone")
    async with seat_at(path, LOW) as seat:
        seat.job_screen.action_view(seat.job_screen.views.titles.index("Photos"))
        await seat.keys("A")
        await seat.write(str(phone))
        await seat.keys("enter")
        await seat.until(lambda: seat.top_is(PhotoSorting))
        await seat.keys("escape")


def test_a_picture_takes_the_room_there_is_and_keeps_its_shape() -> None:
    red = Image.new("RGB", (400, 300), (250, 0, 0))
    lines = drawn(red, 40, 20)
    assert len(lines) == 20
    assert all(line.cell_length == 40 for line in lines)
    filled = [sum(len(part.text) for part in line if part.text in "▀▄") for line in lines]
    assert max(filled) == 40, "as wide as there is room"
    assert 14 <= sum(1 for each in filled if each) <= 16, "30 spots high, two a cell"
    tall = drawn(Image.new("RGB", (300, 900), (0, 0, 250)), 40, 20)
    assert all(sum(len(part.text) for part in line if part.text in "▀▄") == 13 for line in tall)
