"""Only what decodes as a picture is opened, under a name that says what it is."""

from __future__ import annotations

import io
import os
import stat
import subprocess
from pathlib import Path

import pytest
from PIL import Image

from store.book import true_picture as module
from store.book.pictures import copied_beside, kind_of
from store.book.true_picture import true_picture, under_its_true_name
from store.measure.errors import BadValue
from tests.book.build import names_in
from tui.acts.photos import pictures


def picture(kind: str, size: tuple[int, int] = (40, 30)) -> bytes:
    """A picture of that kind."""
    made = io.BytesIO()
    Image.new("RGB", size, (200, 30, 30)).save(made, kind)
    return made.getvalue()


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "GIF", "TIFF", "BMP", "WEBP"])
def test_a_picture_is_what_it_decodes_as(kind: str, tmp_path: Path) -> None:
    path = tmp_path / "photo.bin"
    path.write_bytes(picture(kind))
    found = true_picture(path)
    assert (found.kind, found.why) == (kind, "")
    copy = under_its_true_name(path, found)
    assert copy.suffix in module.ENDINGS[kind]
    assert copy.read_bytes() == path.read_bytes()
    assert stat.S_IMODE(copy.stat().st_mode) == 0o600
    named = path.rename(tmp_path / f"photo{module.ENDINGS[kind][0].upper()}")
    assert under_its_true_name(named, found) == named


@pytest.mark.parametrize(
    ("name", "raw"),
    [
        ("BM.bmp", b"BM<script>alert(1)</script>"),
        ("page.html", b"BM<html><script></script></html>"),
        ("run.desktop", b"\xff\xd8\xff[Desktop Entry]\nExec=sh\n"),
        ("half.jpg", picture("JPEG", (400, 300))[:900]),
        ("half.png", picture("PNG")[:60]),
        ("empty.jpg", b""),
        ("vector.eps", b"%!PS-Adobe-3.0 EPSF-3.0\n%%BoundingBox: 0 0 10 10\n"),
    ],
)
def test_what_only_begins_as_a_picture_is_none(name: str, raw: bytes, tmp_path: Path) -> None:
    path = tmp_path / name
    path.write_bytes(raw)
    assert true_picture(path).why


def test_two_letters_do_not_make_a_bitmap() -> None:
    assert kind_of(picture("BMP")) == "bmp"
    assert kind_of(b"BM is how this note begins, and it is not a picture") == ""


def test_a_picture_of_too_many_pixels_is_not_decoded(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "huge.png"
    path.write_bytes(picture("PNG", (60, 60)))
    monkeypatch.setattr(module, "MOST_PIXELS", 3599)
    assert "60 by 60 pixels" in true_picture(path).why


def test_devices_and_pipes_are_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.jpg")
    for path in (tmp_path / "pipe.jpg", Path("/dev/zero"), tmp_path, tmp_path / "none.jpg"):
        assert true_picture(path).why


def test_the_viewer_gets_only_pictures(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    shown: list[str] = []
    monkeypatch.setattr(pictures, "viewer", lambda: ["viewer"])
    monkeypatch.setattr(subprocess, "Popen", lambda command, **more: shown.append(command[-1]))
    bad = tmp_path / "page.html"
    bad.write_bytes(b"BM<html>")
    assert "not opened, it is not a picture" in pictures.open_picture(bad)
    assert shown == []
    good = tmp_path / "page.jpg"
    good.write_bytes(picture("PNG"))
    assert pictures.open_picture(good) == ""
    assert [Path(each).name for each in shown] == ["picture.png"]


def test_a_copy_beside_the_job_follows_no_link(tmp_path: Path) -> None:
    source, folder = tmp_path / "a.png", tmp_path / "job"
    source.write_bytes(picture("PNG"))
    folder.mkdir()
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    (folder / "photos").symlink_to(elsewhere)
    with pytest.raises(BadValue, match="is a link"):
        copied_beside(str(source), folder)
    assert names_in(elsewhere) == []
    (folder / "photos").unlink()
    (folder / "photos").mkdir()
    (folder / "photos" / "a.png").symlink_to(elsewhere / "trap.png")
    with pytest.raises(BadValue):
        copied_beside(str(source), folder)
    assert names_in(elsewhere) == []
