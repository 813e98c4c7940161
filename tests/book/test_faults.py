"""The table of faults can tell a loss: a save that is not safe does not pass it."""

from __future__ import annotations

import pytest

from store.book.decoding import Tables
from store.book.errors import Busy
from store.book.file import DurableFile
from tests.faults import calls, places
from tests.faults.__main__ import main, table
from tests.faults.tried import Tried


def _in_place(self: DurableFile, tables: Tables) -> None:
    """A save as it would be without all care: over the file that is there."""
    raw = self._encoding.bytes_of(tables)
    self.path.touch()
    try:
        with self.path.open("r+b", buffering=0) as file:
            file.write(raw[: len(raw) // 2])
            file.write(raw[len(raw) // 2 :])
            file.truncate()
    except OSError as error:
        raise Busy(f"{self.path}: can't save. The file is as it was.") from error
    self.distrust()


def test_a_save_in_place_does_not_survive_a_full_disk(monkeypatch: pytest.MonkeyPatch) -> None:
    (whole,) = places.full_disk()
    assert (whole.lost, whole.times > 30) == (0, True)
    monkeypatch.setattr(DurableFile, "commit", _in_place)
    (row,) = places.full_disk()
    assert row.lost


def test_a_traceback_is_a_loss(monkeypatch: pytest.MonkeyPatch) -> None:
    def careless(self: DurableFile, tables: Tables) -> None:
        self._replace(self._encoding.bytes_of(tables), tables)

    monkeypatch.setattr(DurableFile, "commit", careless)
    assert calls._tried("an action", calls.WRITING["an action"], True, "an action").lost


def test_what_was_lost_is_told_and_is_the_exit_status(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    row = Tried("a fault", 3)
    row.bad("gone")
    assert "a fault        3  1" in table([row])
    assert "gone" in table([row])
    monkeypatch.setattr(places, "clock", lambda: [row])
    assert main(["clock"]) == 1
    assert main(["locks"]) == 0
    assert main(["nothing of that name"]) == 1
    assert "nothing" in capsys.readouterr().out
