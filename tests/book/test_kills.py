"""A few dozen kills and a small crowd; the bench does the same a thousand times."""

from __future__ import annotations

from pathlib import Path

from tests.bench.storage_bench import begin, crowded, killed, look
from tests.book.build import rewrite


def test_a_process_killed_while_saving_leaves_a_whole_file(tmp_path: Path) -> None:
    found = killed(tmp_path, 40, many=50)
    assert (found["damaged"], found["half"]) == (0, 0)
    assert found["litter"] <= 2  # a temporary file and a copy on its way; the next save takes them
    assert found["actions"] > 3  # or nothing was being saved when it was killed


def test_a_crowd_loses_nothing(tmp_path: Path) -> None:
    assert set(crowded(tmp_path, 3, 20).values()) == {0}


def test_half_an_action_would_be_noticed(tmp_path: Path) -> None:
    path = tmp_path / "wall.json"
    begin(path, 20)
    assert look(path) == ""
    whole = path.read_bytes()
    rewrite(path, lambda tables: tables["wall"]["1"].update(name="another"))
    assert look(path) == "half"
    path.write_bytes(whole[:-10])
    assert look(path) == "damaged"
