"""Looking at files: pictures by their first bytes, days by their EXIF data, and nothing that can stop the program."""

from __future__ import annotations

import os
import struct
import tempfile
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.book.pictures import kind_of, look, looks, missing_pictures, small_picture, taken_on
from store.records.access import Photo
from tests.jobs.access_jobs import job_of, make
from tests.rows import rows

PNG = b"\x89PNG\r\n\x1a\n" + bytes(20)


def jpeg(day: bytes = b"2026:09:30 12:00:00\x00", order: str = "<", tag: int = 0x9003) -> bytes:
    """A JPEG head with EXIF data that holds one date, as a camera writes it (Exif 2.3, 4.5 and 4.6)."""
    mark = b"II*\x00" if order == "<" else b"MM\x00*"
    inner_at, text_at = 26, 44
    inner = tag == 0x9003
    first = struct.pack(f"{order}HHHII", 1, 0x8769 if inner else tag, 4 if inner else 2, 1 if inner else len(day),
                        inner_at if inner else text_at)  # fmt: skip
    second = struct.pack(f"{order}HHHII", 1, tag, 2, len(day), text_at)
    tiff = mark + struct.pack(f"{order}I", 8) + first + bytes(4) + second + bytes(4)
    tiff = tiff.ljust(text_at, b"\x00") + day
    body = b"Exif\x00\x00" + tiff
    other = b"\xff\xe0" + struct.pack(">H", 16) + bytes(14)
    return b"\xff\xd8" + other + b"\xff\xe1" + struct.pack(">H", len(body) + 2) + body + b"\xff\xda\x00\x02"


def with_small(small: bytes, order: str = "<") -> bytes:
    """A JPEG head with a small picture in its EXIF data, as a camera writes it (Exif 2.3, 4.5.5)."""
    mark = b"II*\x00" if order == "<" else b"MM\x00*"
    second_at, small_at = 14, 44
    tiff = mark + struct.pack(f"{order}I", 8) + struct.pack(f"{order}HI", 0, second_at)
    tiff += struct.pack(f"{order}H", 2)
    tiff += struct.pack(f"{order}HHII", 0x0201, 4, 1, small_at) + struct.pack(f"{order}HHII", 0x0202, 4, 1, len(small))
    tiff = (tiff + bytes(4)).ljust(small_at, b"\x00") + small
    body = b"Exif\x00\x00" + tiff
    return b"\xff\xd8\xff\xe1" + struct.pack(">H", len(body) + 2) + body + b"\xff\xda\x00\x02"


@pytest.mark.parametrize("order", ["<", ">"])
def test_the_small_picture_of_the_camera_is_taken_out_whole(order: str, tmp_path: Path) -> None:
    small = b"\xff\xd8\xff" + b"picture" * 9
    path = tmp_path / "a.jpg"
    path.write_bytes(with_small(small, order))
    assert small_picture(path) == small
    for other in (with_small(b"no picture"), jpeg(), with_small(small)[:70], b"", PNG):
        path.write_bytes(other)
        assert small_picture(path) == b""
    assert small_picture(tmp_path / "gone.jpg") == b""


@given(st.binary(max_size=300), st.integers(0, 120))
def test_no_bytes_whatever_upset_the_search_for_it(noise: bytes, cut: int) -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "a.jpg")
        path.write_bytes(with_small(b"\xff\xd8\xff" + noise)[:cut] + noise)
        assert isinstance(small_picture(path), bytes)


@rows("order", ["<", ">"])
@rows("tag", [0x9003, 0x0132])
def test_the_day_in_the_picture_is_read(order: str, tag: int) -> None:
    assert taken_on(jpeg(order=order, tag=tag)) == date(2026, 9, 30)


@rows("day", [b"0000:00:00 00:00:00\x00", b"2026-09-30\x00", b"\xff" * 20, b""])
def test_a_day_that_is_none_is_left_out(day: bytes) -> None:
    assert taken_on(jpeg(day)) is None


@given(st.binary(max_size=400), st.integers(0, 120))
def test_no_bytes_whatever_upset_it(noise: bytes, cut: int) -> None:
    for head in (noise, b"\xff\xd8\xff" + noise, jpeg()[:cut] + noise, jpeg()[:60] + noise):
        found = taken_on(head)
        assert found is None or isinstance(found, date)
        kind_of(head)


@rows(
    ("head", "kind"),
    [
        (jpeg(), "jpeg"), (PNG, "png"), (b"GIF89a....", "gif"), (b"RIFF\x00\x00\x00\x00WEBPVP8 ", "webp"),
        (b"\x00\x00\x00\x18ftypheic....", "heif"), (b"II*\x00....", "tiff"), (b"%PDF-1.7", ""), (b"<html>", ""),
        (b"", ""),
    ],
)  # fmt: skip
def test_pictures_are_known_by_their_first_bytes(head: bytes, kind: str) -> None:
    assert kind_of(head) == kind


def test_what_is_wrong_with_a_file_is_told(tmp_path: Path) -> None:
    (tmp_path / "a.jpg").write_bytes(jpeg())
    (tmp_path / "b.png").write_bytes(PNG)
    (tmp_path / "c.jpg").write_text("a page")
    (tmp_path / "d.jpg").write_bytes(b"")
    (tmp_path / "e.jpg").mkdir()
    seen = look("a.jpg", tmp_path)
    assert (seen.kind, seen.taken, seen.by_camera, seen.why) == ("jpeg", date(2026, 9, 30), True, "")
    os.utime(tmp_path / "b.png", (1_700_000_000, 1_700_000_000))
    by_file = look("b.png", tmp_path)
    assert (by_file.kind, by_file.by_camera) == ("png", False)
    assert by_file.taken in (date(2023, 11, 14), date(2023, 11, 15))
    assert [look(f"{each}.jpg", tmp_path).why for each in "cde"] == [
        "it is not a picture",
        "it is empty",
        "it is a folder",
    ]
    assert look("missing.jpg", tmp_path).why == "there is no such file"
    assert look("nul\0.jpg", tmp_path).why
    assert look("x" * 5000, tmp_path).why
    assert look("~nobody-here/x.jpg", tmp_path).why == "there is no such file"


def test_a_full_path_counts_as_it_is(tmp_path: Path) -> None:
    (tmp_path / "a.jpg").write_bytes(jpeg())
    assert look(str(tmp_path / "a.jpg"), Path("/elsewhere")).kind == "jpeg"


def test_a_device_and_a_pipe_are_not_read(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.jpg")
    assert look("pipe.jpg", tmp_path).why == "there is no such file"
    assert look("/dev/zero", tmp_path).why == "there is no such file"


def test_the_photos_of_a_job_whose_files_are_missing_are_found(tmp_path: Path) -> None:
    (tmp_path / "a.jpg").write_bytes(jpeg())
    job = job_of(make(Photo, "F1", file="a.jpg", of=("W1",)), make(Photo, "F2", file="b.jpg", of=("W1",)))
    assert set(looks(job, tmp_path)) == {"F1", "F2"}
    assert [(each.rule, each.tags) for each in missing_pictures(job, tmp_path)] == [("photo_missing", ("F2",))]
