"""Closing checks on evidence: many at once, pictures that are copied beside the job, and pictures that are gone."""

from __future__ import annotations

from pathlib import Path

import pytest

from store.book.pictures import copied_beside, lies_outside
from store.measure.errors import BadValue
from store.records.gate import Check, Closing
from store.records.wiring import Cable
from store.rules.core.checks import items
from store.rules.core.proof import pictures_named
from tests.jobs.proofs import png
from tests.rows import rows
from tests.tui.seat import Seat, seat_at, small_job, stored
from tui.screen.job_screen import JobScreen
from tui.widgets.dialogs import AskText, ReadPage

PICTURE = png()


async def close_on(seat: Seat, evidence: str, key: str = "c") -> None:
    """Close the item under the cursor."""
    await seat.keys(key)
    await seat.until(lambda: seat.top_is(AskText))
    await seat.write(evidence)
    await seat.keys("enter")


@rows(
    ("evidence", "files"),
    [
        ("IMG_12.jpg", ("IMG_12.jpg",)),
        ("photo wall-2.PNG, seen by Robin", ("wall-2.PNG",)),
        ("a.jpg, b.jpeg and a.jpg", ("a.jpg", "b.jpeg")),
        ("~/My pictures/left bay.jpg", ("~/My pictures/left bay.jpg",)),
        ("1 Gbit/s, all pairs", ()),
        ("jpg", ()),
    ],
)
def test_pictures_are_found_in_what_is_written(evidence: str, files: tuple[str, ...]) -> None:
    assert pictures_named(evidence) == files


def test_a_copy_takes_the_next_name_and_the_same_picture_is_copied_once(tmp_path: Path) -> None:
    job, elsewhere = tmp_path / "job", tmp_path / "camera"
    job.mkdir()
    elsewhere.mkdir()
    picture = elsewhere / "a.jpg"
    picture.write_bytes(PICTURE)
    assert lies_outside(str(picture), job)
    assert [copied_beside(str(picture), job) for _ in range(2)] == ["photos/a.jpg", "photos/a.jpg"]
    picture.write_bytes(PICTURE + b" taken later")
    assert copied_beside(str(picture), job) == "photos/a-2.jpg"
    assert (job / "photos" / "a.jpg").read_bytes() == PICTURE
    assert not lies_outside("photos/a.jpg", job)
    assert not lies_outside("gone.jpg", job)
    with pytest.raises(BadValue, match="can't copy it to"):
        copied_beside(str(elsewhere / "gone.jpg"), job)


async def test_a_picture_that_lies_elsewhere_is_copied_beside_the_job_when_wanted(tmp_path: Path) -> None:
    camera = tmp_path / "camera"
    camera.mkdir()
    (camera / "a.jpg").write_bytes(PICTURE)
    folder = tmp_path / "job"
    folder.mkdir()
    path = small_job(folder, [Check(tag="Q1", what="one"), Check(tag="Q2", what="two")])
    async with seat_at(path) as seat:
        await seat.keys("6")
        await close_on(seat, f"{camera}/a.jpg")
        assert stored(path).job.of(Closing)["Q1"].evidence == "photos/a.jpg"
        assert (folder / "photos" / "a.jpg").read_bytes() == PICTURE
        # One picture stands for all that it shows, and is copied once.
        await close_on(seat, f"{camera}/a.jpg")
        assert stored(path).job.of(Closing)["Q2"].evidence == "photos/a.jpg"
        assert list((folder / "photos").iterdir()) == [folder / "photos" / "a.jpg"]
        assert stored(path).job.outside == ()
        (folder / "photos" / "a.jpg").unlink()
        now = stored(path)
        assert [each.tag for each in now.job.outside] == ["photos/a.jpg"]
        assert [item.open for item in items(now.job)] == [True, True]


async def test_a_picture_that_is_not_there_signs_off_nothing(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Check(tag="Q1", what="one")])
    async with seat_at(path) as seat:
        await seat.keys("6")
        await close_on(seat, "photo gone.jpg")
        await seat.until(lambda: seat.top_is(AskText))
        assert "gone.jpg: there is no such file" in seat.text
        assert not stored(path).job.of(Closing)
        (tmp_path / "gone.jpg").write_bytes(PICTURE)
        await seat.keys("enter")
        assert seat.top_is(JobScreen)
        assert stored(path).job.of(Closing)["Q1"].proof == "photo"


async def test_all_of_a_kind_and_trade_are_closed_in_one_action_and_opened_by_one_undo(tmp_path: Path) -> None:
    cables = [Cable(tag=f"K{at}", type="cat6") for at in (1, 2, 3)] + [Cable(tag="K4", type="12-2 nm")]
    path = small_job(tmp_path, cables)
    async with seat_at(path) as seat:
        await seat.keys("6", "slash")
        await seat.write("labelled low")
        await seat.keys("enter", "home")
        before = len(seat.book.entries())
        await close_on(seat, "both labels seen by Robin", "C")
        closed = stored(path).job.of(Closing)
        assert set(closed) == {"K1/labelled", "K2/labelled", "K3/labelled"}
        assert len(seat.book.entries()) == before + 1
        await seat.keys("u")
        assert stored(path).job.of(Closing) == {}


async def test_what_is_closed_with_the_rest_and_not_named_is_counted(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Cable(tag=f"K{at}", type="cat6") for at in range(1, 43)])
    async with seat_at(path) as seat:
        await seat.keys("6", "slash")
        await seat.write("labelled")
        await seat.keys("enter", "home", "C")
        await seat.until(lambda: seat.top_is(AskText))
        shown = " ".join(seat.text.replace("│", " ").split())
        assert "K30/labelled and 12 more" in shown
        assert "K29/labelled K30/labelled K31" not in shown


async def test_a_closed_check_whose_subject_changed_says_why_it_is_open_again(tmp_path: Path) -> None:
    path = small_job(tmp_path, [Cable(tag="K1", type="cat6", carries="1 Gbit/s")])
    async with seat_at(path) as seat:
        await seat.keys("6", "slash")
        await seat.write("k1/tested")
        await seat.keys("enter", "home")
        await close_on(seat, "wire map good")
        assert seat.cells("K1/tested")[1] == "✓"
        await seat.go("Cables")
        await seat.keys("e")
        await seat.fill(carries="10 Gbit/s")
        await seat.keys("6", "slash")
        await seat.write("k1/tested")
        await seat.keys("enter", "home", "enter")
        assert seat.top_is(ReadPage)
        assert "changed since Robin signed it off: must carry was 1 Gbit/s" in seat.text
