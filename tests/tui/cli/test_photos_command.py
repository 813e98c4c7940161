"""`studbook photos` where there is no terminal, and how far a long piece of work is."""

from __future__ import annotations

import time
from pathlib import Path

import pytest

from store.records.access import Panel, Photo
from tests.jobs.access_jobs import make
from tests.jobs.phone_folder import phone_folder
from tests.tui.seat import small_job, stored
from tui.cli.main import main
from tui.cli.progress import progress, working


def test_a_folder_is_listed_or_put_to_one_thing(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path, phone = small_job(tmp_path, [make(Panel, tag="A1", name="x")]), phone_folder(tmp_path / "phone")
    assert main(["photos", str(path), str(phone), "--list"]) == 0
    said = capsys.readouterr()
    assert [line.split("  ")[1] for line in said.out.splitlines()][:3] == ["IMG_3.jpg", "IMG_2.jpg", "IMG_1.jpg"]
    assert "duplicate of IMG_1.jpg" in said.out
    assert "empty.jpg: it is empty" in said.err
    assert "note.jpg: it is not a picture" in said.err
    assert "gone.jpg: it is a link that leads nowhere" in said.err
    assert "pipe.jpg: it is not a file" in said.err
    assert "not photos: 1\n" in said.err, "the film"
    assert "torn.jpg: it is damaged or cut short" in said.err
    assert not stored(path).job.of(Photo)

    assert main(["photos", "--of", "a1", str(path), str(phone)]) == 0
    photos = stored(path).job.of(Photo)
    assert len(photos) == 4, "a double is left out, and told"
    assert all(one.of == ("A1",) and (tmp_path / one.file).is_file() for one in photos.values())
    capsys.readouterr()
    assert main(["photos", "--of", "A1", str(path), str(phone)]) == 0
    assert len(stored(path).job.of(Photo)) == 4, "the same folder again brings nothing"
    (tmp_path / photos["F1"].file).unlink()
    (tmp_path / photos["F2"].file).write_text("no picture")
    capsys.readouterr()
    assert main(["verify", str(path)]) == 0
    told = capsys.readouterr().out
    assert f"Photo F1, {photos['F1'].file}: there is no such file" in told
    assert f"Photo F2, {photos['F2'].file}: it is not a picture" in told
    assert main(["photos", "--of", "A9", str(path), str(phone)]) == 6
    assert main(["photos", str(path), str(tmp_path / "none")]) == 6


def test_work_says_how_far_it_is_only_when_it_takes_long(capsys: pytest.CaptureFixture[str]) -> None:
    now = [0.0]
    with progress(lambda: now[0]) as told:
        told("Reading 0 of 9")
        now[0] = 4.9
        told("Reading 3 of 9")
        assert not capsys.readouterr().err
        now[0] = 5.1
        told("Reading 4 of 9")
        told("Reading 5 of 9")
    said = capsys.readouterr()
    assert said.err == "Reading 4 of 9 ...\n"
    assert not said.out


def test_work_in_one_piece_says_that_it_goes_on(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tui.cli.progress.EVERY_S", 0.01)
    with working("Checking"):
        pass
    assert not capsys.readouterr().err
    monkeypatch.setattr("tui.cli.progress.QUIET_ELSEWHERE_S", 0.0)
    with working("Checking"):
        time.sleep(0.1)
    assert capsys.readouterr().err.startswith("Checking, 0 s ...\n")
