"""A folder from a phone: its order, its doubles, and what of it is kept beside the job."""

from __future__ import annotations

import sys
from datetime import date
from pathlib import Path

import pytest
from PIL import Image

from store.book.phone import LONGEST, folder_of, keep
from store.book.pictures import look
from store.book.scaled import scaled, told_by_camera
from store.measure.errors import BadValue
from store.records.access import Photo
from tests.jobs.access_jobs import job_of, make
from tests.jobs.phone_folder import CORNER, phone_folder, shot


def near(one: tuple[int, ...], other: tuple[int, ...]) -> bool:
    return all(abs(a - b) < 30 for a, b in zip(one, other, strict=True))


def test_photos_come_by_the_time_they_were_taken_and_doubles_and_the_rest_are_told(tmp_path: Path) -> None:
    told: list[tuple[int, int]] = []
    found = folder_of(phone_folder(tmp_path / "phone"), job_of(), tmp_path, lambda at, of: told.append((at, of)))
    assert [each.path.name for each in found.shots] == ["IMG_3.jpg", "IMG_2.jpg", "IMG_1.jpg", "IMG_1 (1).jpg",
                                                        "sent.jpg"]  # fmt: skip
    assert {each.path.name: each.same_as for each in found.shots if each.same_as} == {"IMG_1 (1).jpg": "IMG_1.jpg"}
    assert {each.path.name: each.like for each in found.shots if each.like} == {"sent.jpg": "IMG_2.jpg"}
    assert [each.by_camera for each in found.shots] == [True, True, True, True, False]
    assert [each.path.name for each in found.unread] == ["gone.jpg", "pipe.jpg", "empty.jpg", "note.jpg", "torn.jpg"]
    assert found.others == 1
    assert told[0] == (0, 9)
    with pytest.raises(BadValue, match="no such folder"):
        folder_of(tmp_path / "none", job_of(), tmp_path)


def test_what_is_kept_is_upright_scaled_dated_and_says_no_place(tmp_path: Path) -> None:
    phone = tmp_path / "phone"
    phone.mkdir()
    shot(phone / "a (7).jpg", 5, "2026:11:04 14:05:10", turned=6, size=(4032, 3024))
    before = (phone / "a (7).jpg").read_bytes()
    one = folder_of(phone, job_of(), tmp_path).shots[0]
    file = keep(one, tmp_path)
    assert file == "photos/a-7.jpg"
    with Image.open(tmp_path / file) as kept:
        assert kept.size == (LONGEST * 3 // 4, LONGEST), "held upright, and no larger than it is printed"
        exif = kept.getexif()
        assert exif.get(0x0112, 1) == 1
        assert not exif.get_ifd(0x8825), "where it was taken is nobody's business"
        # Turned by a quarter, the corner at the upper left is at the upper right.
        assert near(kept.convert("RGB").getpixel((kept.width - 20, 20)), CORNER)  # type: ignore[arg-type]
    assert look(file, tmp_path).taken == date(2026, 11, 4)
    assert told_by_camera(tmp_path / file) == (one.taken, one.number)
    assert keep(one, tmp_path) == file, "the same once more makes no second file"
    assert (phone / "a (7).jpg").read_bytes() == before


def test_a_photo_that_the_job_has_is_known_again_from_its_scaled_copy(tmp_path: Path) -> None:
    phone = phone_folder(tmp_path / "phone")
    first = folder_of(phone, job_of(), tmp_path).shots[1]
    job = job_of(make(Photo, tag="F4", file=keep(first, tmp_path)))
    again = folder_of(phone, job, tmp_path).shots
    assert {each.path.name: each.same_as for each in again if each.same_as} == {
        "IMG_2.jpg": "F4", "IMG_1 (1).jpg": "IMG_1.jpg",
    }  # fmt: skip
    assert next(each.like for each in again if each.path.name == "sent.jpg") == "F4"


def test_a_phones_own_kind_is_read_or_the_line_that_helps_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    heif = pytest.importorskip("pillow_heif")
    heif.register_heif_opener()
    phone = tmp_path / "phone"
    phone.mkdir()
    with Image.open(shot(tmp_path / "a.jpg", 8, "2026:11:02 08:00:00")) as plain:
        plain.save(phone / "a.heic", exif=plain.info["exif"])
    found = folder_of(phone, job_of(), tmp_path)
    assert [(each.path.name, str(each.taken)) for each in found.shots] == [("a.heic", "2026-11-02 08:00:00")]
    assert scaled(phone / "a.heic", 40).size == (40, 30)

    monkeypatch.setitem(sys.modules, "pillow_heif", None)
    monkeypatch.setattr(Image, "OPEN", {name: one for name, one in Image.OPEN.items() if name != "HEIF"})
    found = folder_of(phone, job_of(), tmp_path)
    assert not found.shots
    assert "pip install 'studbook[pictures]'" in found.unread[0].why
