"""The last good copies are kept beside the file, turn by turn, and each of them opens."""

from __future__ import annotations

import os
import time
from pathlib import Path

import pytest

from store.book.changes import add
from store.book.copies import COPIES, COPY_EVERY_S, copies_of
from store.book.errors import Busy
from store.book.restore import newest_good
from store.records.wall import Wall
from tests.book.build import litter, make, reopen, wall


def _walls(path: Path) -> int:
    return len(reopen(path).job.of(Wall))


@pytest.mark.parametrize("name", ["wall.json", "wall[1] *.json", "wall", ".hidden"])
def test_the_save_before_is_always_kept(tmp_path: Path, name: str) -> None:
    path = tmp_path / name
    book = make(path)
    assert copies_of(path) == []
    for count in range(1, 4):
        before = path.read_bytes()
        book.act("Add a wall", [add(wall())])
        newest = copies_of(path)[0]
        assert newest.read_bytes() == before
        assert _walls(newest) == count - 1


def test_copies_are_spaced_over_time_and_never_more_than_allowed(tmp_path: Path) -> None:
    path = tmp_path / "wall.json"
    make(path)
    now = time.time()
    # Each save as if it were made most of an hour after the one before.
    for count in range(12):
        stamp = now - (12 - count) * 3000
        os.utime(path, (stamp, stamp))
        reopen(path).act("Add a wall", [add(wall())])
    found = copies_of(path)
    assert len(found) == COPIES
    # The newest ones; the oldest slot is the one that is given up.
    assert [_walls(each) for each in found] == [11, 11, 10, 9, 8, 7]
    assert len(list(tmp_path.iterdir())) == COPIES + 2  # the file, its lock
    assert litter(path) == []


def test_a_busy_hour_does_not_push_out_the_old_copies(tmp_path: Path) -> None:
    path = tmp_path / "wall.json"
    book = make(path)
    stamp = time.time() - COPY_EVERY_S * 3
    os.utime(path, (stamp, stamp))
    for _ in range(12):
        book.act("Add a wall", [add(wall())])
    # The one from before the hour, one from its beginning, and the save before.
    assert [_walls(each) for each in copies_of(path)] == [11, 1, 0]


def test_editing_the_file_in_place_leaves_its_copies_alone(tmp_path: Path) -> None:
    path = tmp_path / "wall.json"
    book = make(path)
    book.act("Add a wall", [add(wall())])
    copies = {each: each.read_bytes() for each in copies_of(path)}
    with path.open("r+b") as file:
        file.write(b"garbage")
    assert {each: each.read_bytes() for each in copies_of(path)} == copies


def test_the_newest_good_copy_is_found_when_the_file_is_damaged(tmp_path: Path) -> None:
    path = tmp_path / "wall.json"
    make(path)
    for count in range(4):
        stamp = time.time() - (4 - count) * 3000
        os.utime(path, (stamp, stamp))
        reopen(path).act("Add a wall", [add(wall())])
    path.write_bytes(b"")
    first, second, third = copies_of(path)[:3]
    assert newest_good(path) == first
    # The copy of the last save and the newest spaced one are two names of one file.
    first.write_bytes(b"{")
    assert not second.samefile(third)
    assert newest_good(path) == (third if first.samefile(second) else second)
    for each in copies_of(path):
        each.unlink()
    assert newest_good(path) is None


def test_a_long_session_keeps_spaced_copies_too(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "wall.json"
    book = make(path)
    start = time.time()
    for count in range(8):
        clock = start + count * COPY_EVERY_S * 0.6
        os.utime(path, (clock, clock))
        book.refresh()
        monkeypatch.setattr(time, "time", lambda clock=clock: clock)
        book.act("Add a wall", [add(wall())])
    # Every second save is far enough from the last that was kept.
    assert [_walls(each) for each in copies_of(path)] == [7, 6, 4, 2, 0]


def test_a_save_that_failed_leaves_no_second_name_behind(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "wall.json"
    book = make(path)
    book.act("Add a wall", [add(wall())])
    real = os.replace

    def replace(source: object, target: object) -> None:
        if str(target) == str(path):
            raise OSError(5, "Input/output error")
        real(source, target)  # type: ignore[arg-type]

    with monkeypatch.context() as patched:
        patched.setattr(os, "replace", replace)
        with pytest.raises(Busy):
            book.act("Add a wall", [add(wall())])
    assert litter(path) == []
    book.act("Add a wall", [add(wall())])
    assert litter(path) == []
    assert _walls(copies_of(path)[0]) == 1
