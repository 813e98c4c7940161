"""Two copies of the program on one file: each sees the other's work, and nothing of either is lost."""

from __future__ import annotations

import os
import subprocess
import sys
import threading
import time
from collections.abc import Sequence
from datetime import date
from pathlib import Path

import pytest

from store.book.book import Book
from store.book.changes import Change, Put, add
from store.book.errors import Busy, Conflict
from store.book.file import DurableFile
from store.records.people import Contact
from store.records.wall import Wall
from store.records.whole import Job
from tests.book.build import TODAY, contact, make, puts, raw, reopen, wall
from tests.book.test_conflicts import changed

ROOT = Path(__file__).parents[2]


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """A job with a contact."""
    path = tmp_path / "wall.json"
    make(path, contact("T1")).close()
    return path


def test_each_sees_the_other_after_looking_again(job: Path) -> None:
    ann, ben = reopen(job, "Ann"), reopen(job, "Ben")
    ann.act("Add", [add(contact(name="by Ann"))])
    assert list(ben.job.of(Contact)) == ["T1"]
    assert ben.refresh() is True
    assert ben.refresh() is False
    assert ben.job == ann.job
    ben.act("Edit", [changed(ben.job.of(Contact)["T2"], name="by Ben")])
    assert ann.refresh() is True
    assert ann.job.of(Contact)["T2"].name == "by Ben"
    assert [each.who for each in ann.entries()] == ["Ann", "Ann", "Ben"]


def test_an_action_meets_the_newest_state_without_looking_first(job: Path) -> None:
    ann, ben = reopen(job, "Ann"), reopen(job, "Ben")
    ann.act("Add", [add(contact(name="by Ann"))])
    ben.act("Add", [add(contact(name="by Ben"))])
    assert {tag: each.name for tag, each in ben.job.of(Contact).items()} == {
        "T1": "A. Sparks",
        "T2": "by Ann",
        "T3": "by Ben",
    }


def test_what_is_decided_under_the_lock_is_decided_on_the_newest_state(job: Path) -> None:
    ann, ben = reopen(job, "Ann"), reopen(job, "Ben")
    ann.act("Add", [add(contact(name="by Ann"))])
    seen: list[int] = []

    def changes(job: Job) -> Sequence[Change]:
        seen.append(len(job.of(Contact)))
        return [add(contact(name=f"number {len(job.of(Contact)) + 1}"))]

    ben.act("Add", changes)
    assert seen == [2]
    assert ben.job.of(Contact)["T3"].name == "number 3"


def test_what_did_not_change_is_the_same_object_after_looking_again(job: Path) -> None:
    ann, ben = reopen(job, "Ann"), reopen(job, "Ben")
    one = ben.job.of(Contact)["T1"]
    ann.act("Add", [add(wall())])
    ben.refresh()
    assert ben.job.of(Contact)["T1"] is one


def test_a_new_day_is_news(job: Path) -> None:
    day = [TODAY]
    book = reopen(job, day=lambda: day[0])
    assert book.refresh() is False
    day[0] = date(2026, 11, 26)
    assert book.refresh() is True
    assert book.job.today == date(2026, 11, 26)


def test_the_state_in_memory_is_that_of_the_file_after_every_action(job: Path) -> None:
    book = reopen(job)
    book.act("Add", [add(wall(name=str(count))) for count in range(3)])
    book.act("Remove", [Put("wall", "W2", {"notes": "x"})])
    book.undo()
    book.act("Remove several", [*[Put("wall", tag, {"notes": "y"}) for tag in ("W1", "W3")]])
    assert book.job == reopen(job).job


def test_a_look_at_a_big_file_settles_to_the_same_job(job: Path) -> None:
    quick = Book.open(job, "Ann", lambda: TODAY, glance=True)
    assert quick.job.of(Contact)["T1"].name == "A. Sparks"
    quick.settle()
    assert quick.job == reopen(job).job
    other = Book.open(job, "Ann", lambda: TODAY, glance=True)
    other.act("Add", [add(wall())])
    assert list(reopen(job).job.of(Wall)) == ["W1"]


def test_two_threads_with_a_book_each_lose_nothing(job: Path) -> None:
    def work(name: str) -> None:
        book = reopen(job, name)
        for count in range(25):
            book.act("Add", [add(contact(name=f"{name}{count}"))])

    threads = [threading.Thread(target=work, args=(name,)) for name in ("Ann", "Ben")]
    for each in threads:
        each.start()
    for each in threads:
        each.join()
    book = reopen(job)
    assert len({each.name for each in book.job.of(Contact).values()}) == 51
    assert [each.n for each in book.entries()] == list(range(1, 52))
    book.audit()
    assert book.job.outside == ()


PROCESS = """
import sys
from pathlib import Path
from store.book.changes import add
from store.book.errors import Conflict
from tests.book.build import contact, reopen
from tests.book.test_two_books import count_up
book = reopen(Path(sys.argv[1]), sys.argv[2])
for count in range(int(sys.argv[3])):
    book.act("Add", [add(contact(name=f"{sys.argv[2]}{count}"))])
    book.act("Count", count_up)
"""


def count_up(job: Job) -> list[Change]:
    """Add one to the number in the first contact's phone: a change that a lost update would show in."""
    one = job.of(Contact)["T1"]
    return [changed(one, phone=str(int(one.phone or "0") + 1))]


def test_processes_lose_no_action_and_give_no_tag_twice(job: Path) -> None:
    workers = [
        subprocess.Popen(
            [sys.executable, "-c", PROCESS, str(job), name, "15"],
            cwd=ROOT, env={**os.environ, "PYTHONPATH": str(ROOT)}, stderr=subprocess.PIPE, text=True,
        )
        for name in ("Ann", "Ben", "Cat")
    ]  # fmt: skip
    for each in workers:
        assert each.communicate(timeout=60)[1] == ""
        assert each.returncode == 0
    book = reopen(job)
    found = book.job.of(Contact)
    assert found["T1"].phone == "45"
    assert set(found) == {f"T{count}" for count in range(1, 47)}
    assert len({each.name for each in found.values()}) == 46
    assert [each.n for each in book.entries()] == list(range(1, 92))
    book.audit()
    assert book.job.outside == ()


def test_one_of_two_equal_new_tags_is_refused(job: Path) -> None:
    ann, ben = reopen(job, "Ann"), reopen(job, "Ben")
    ann.act("Add", puts([wall("W7")]))
    with pytest.raises(Conflict, match="someone else added W7 meanwhile"):
        ben.act("Add", puts([wall("W7", name="other")]))
    assert raw(job)["wall"]["7"]["name"] == "North wall"


GREEDY = """
import sys
from pathlib import Path
from store.book.file import DurableFile
file = DurableFile(Path(sys.argv[1]))
print("ready", flush=True)
while True:
    with file.locked():
        for _ in range(20000):
            pass
"""


def test_a_busy_neighbour_lets_others_have_their_turn(job: Path) -> None:
    neighbour = subprocess.Popen(
        [sys.executable, "-c", GREEDY, str(job)],
        cwd=ROOT, env={**os.environ, "PYTHONPATH": str(ROOT)}, stdout=subprocess.PIPE, text=True,
    )  # fmt: skip
    try:
        assert neighbour.stdout is not None
        assert neighbour.stdout.readline() == "ready\n"
        file = DurableFile(job)
        waited = []
        for _ in range(50):
            start = time.monotonic()
            with file.locked():
                waited.append(time.monotonic() - start)
        # In turn, a wait is as long as one hold of the neighbour; left to luck, some would go on for seconds.
        assert max(waited) < 1.0
    finally:
        neighbour.kill()
        neighbour.communicate()


def test_giving_up_waiting_leaves_the_lock_to_those_who_come_later(job: Path) -> None:
    holder, other = DurableFile(job), DurableFile(job)
    with holder.locked():
        for _ in range(3):
            with pytest.raises(Busy, match="another copy of Studbook is saving"), other.locked(patience_s=0.02):
                raise AssertionError("the lock was given twice")
    for _ in range(3):
        with other.locked(patience_s=2.0):
            pass
