"""The job file: what a save costs beside the least that a durable save can cost, and what kills and crowds do to it."""

from __future__ import annotations

import os
import random
import signal
import statistics
import tempfile
import time
from collections.abc import Callable, Sequence
from datetime import date
from functools import partial
from pathlib import Path
from typing import Any

import msgspec

from store.book.book import Book
from store.book.changes import Change, Put, add, drop, edit
from store.measure.errors import StudbookError
from store.measure.length import INCH_NM, Length
from store.records.base import Record
from store.records.equipment import Equipment
from store.records.field import Note, Ref
from store.records.gate import Check
from store.records.job import Settings
from store.records.people import Contact
from store.records.wall import Wall
from store.records.whole import Job
from store.records.wiring import Box, Cable
from tests.bench.rows import Row

SAVE_BAR = 2.0
"""One action saved at 2,000 records, against temp, fsync, replace and fsync of the folder with the same bytes."""
WARM = 5
KILLS_A_FILE = 25
"""A new file now and then: the history grows by a few entries a kill."""
ACTIONS_A_KILL = 8
"""A child is killed at any moment within about so many actions."""
BEGUN = 7
"""Actions by which the length of one is measured."""
TODAY = date(2026, 11, 25)


def today() -> date:
    """The day of the bench."""
    return TODAY


def records(many: int) -> list[Record]:
    """So many records of the kinds that there are most of, each with the fields that people fill in."""
    made: list[Record] = [Settings(tag="job", name="bench"), Wall(tag="W1", name="North wall")]
    for at in range(1, many + 1):
        kind = at % 4
        if kind == 0:
            made.append(
                Box(
                    tag=f"B{at}", name=f"behind shelf {at}", what="low-voltage", wall=Ref("W1"),
                    x=Length(at % 200 * INCH_NM), y=Length(12 * INCH_NM),
                )
            )  # fmt: skip
        elif kind == 1:
            made.append(Cable(tag=f"K{at}", name=f"run {at}", type="cat6", rating="CMR", carries="1000 Mbit/s"))
        elif kind == 2:
            name, source = f"device {at}", "data sheet, page 2"
            made.append(Equipment(tag=f"E{at}", name=name, source=source, width=Length(17 * INCH_NM), watts=at / 8))
        else:
            made.append(Check(tag=f"Q{at}", what=f"Cable {at} tagged at both ends", where="left bay", wants="photo"))
    return made[: many + 2]


def job_file(path: Path, many: int) -> Book:
    """A job of so many records."""
    puts: list[Put] = [add(each, keep_tag=True) for each in records(many - 2)]
    return Book.create(path, puts, "bench", "start", today)


def durable_write(path: Path, raw: bytes) -> None:
    """The floor: the bytes made durable under a name, and nothing else."""
    temp = path.with_name(path.name + ".floor")
    fd = os.open(temp, os.O_RDWR | os.O_CREAT | os.O_TRUNC, 0o600)
    view = memoryview(raw)
    while view:
        view = view[os.write(fd, view) :]
    os.fsync(fd)
    os.close(fd)
    temp.replace(path)
    folder = os.open(path.parent, os.O_RDONLY | os.O_DIRECTORY)
    os.fsync(folder)
    os.close(folder)


def timed_ms(work: Callable[[], object]) -> float:
    """Wall time of one call, ms."""
    start = time.perf_counter()
    work()
    return (time.perf_counter() - start) * 1000


def save_ms(folder: Path, many: int, rounds: int) -> tuple[float, float]:
    """Median milliseconds of an action saved at so many records, and of its floor, taken in turn."""
    book, other = job_file(folder / f"{many}.json", many), folder / "floor.json"
    saves, floors = [], []
    for turn in range(rounds + WARM):
        one = book.job.of(Equipment)["E2"]
        changes: Sequence[Change] = [edit(one, msgspec.structs.replace(one, watts=100.0 + turn))]
        saves.append(timed_ms(lambda: book.act("Edit E2", changes)))  # noqa: B023 - called at once
        raw = book.path.read_bytes()
        floors.append(timed_ms(lambda: durable_write(other, raw)))  # noqa: B023 - called at once
    book.close()
    return statistics.median(saves[WARM:]), statistics.median(floors[WARM:])


# --- kills ---


def one_action(count: int) -> Callable[[Job], list[Change]]:
    """An action over three tables whose parts must be there together or not at all; now longer, now shorter."""

    def changes(job: Job) -> list[Change]:
        wall, old = job.of(Wall)["W1"], list(job.of(Contact).values())
        long = Note("x" * (3000 if count % 2 else 10))
        made: list[Change] = [edit(wall, msgspec.structs.replace(wall, name=str(count), notes=long))]
        made += [drop(each) for each in old]
        return [*made, add(Contact(tag="", name=str(count), trade="owner"))]

    return changes


def _act_until_killed(path: Path, ready: int) -> None:
    book = Book.open(path, "child", today)
    count = int(book.job.of(Wall)["W1"].name) + 1
    book.act(f"Count {count}", one_action(count))  # the first takes several times as long as those after it
    os.write(ready, b"x")
    while True:
        count += 1
        book.act(f"Count {count}", one_action(count))


def forked(work: Callable[[], object]) -> int:
    """The number of a child process that does some work and ends; what it raises ends it with 1."""
    pid = os.fork()
    if pid == 0:
        status = 1
        try:
            work()
            status = 0
        finally:
            os._exit(status)
    return pid


def kill_once(path: Path, within_s: float, chance: random.Random) -> str:
    """Start a child that saves without pause, kill it at some moment; what is wrong then, or an empty text."""
    reading, writing = os.pipe()
    pid = forked(lambda: _act_until_killed(path, writing))
    os.read(reading, 1)
    time.sleep(chance.random() * within_s)
    os.kill(pid, signal.SIGKILL)
    os.waitpid(pid, 0)
    os.close(reading)
    os.close(writing)
    return look(path)


def look(path: Path) -> str:
    """`damaged` when the file does not open whole, `half` when it holds a part of an action."""
    try:
        book = Book.open(path, "look", today)
    except StudbookError:
        return "damaged"
    book.audit()
    wall, contacts = book.job.of(Wall)["W1"], list(book.job.of(Contact).values())
    book.close()
    whole = [each.name for each in contacts] == [wall.name]
    return "" if whole and not book.job.outside else "half"


def killed(folder: Path, kills: int, many: int = 200, seed: int = 1) -> dict[str, int]:
    """Kill so many times; how often the file was damaged or held half an action, how much was left lying about, and how
    many actions were saved beyond each child's first, which ends before its time to be killed begins.
    """
    chance = random.Random(seed)
    found = {"damaged": 0, "half": 0, "litter": 0, "actions": 0}
    for turn in range(0, kills, KILLS_A_FILE):
        path = folder / f"killed{turn}.json"
        within_s = begin(path, many) * ACTIONS_A_KILL / 1000
        here = min(KILLS_A_FILE, kills - turn)
        for _ in range(here):
            if wrong := kill_once(path, within_s, chance):
                found[wrong] += 1
            left = list(folder.glob(f".{path.name}.saving")) + list(folder.glob(f".{path.name}.*.new"))
            found["litter"] = max(found["litter"], len(left))
        found["actions"] += int(Book.open(path, "look", today).job.of(Wall)["W1"].name) - BEGUN - here
    return found


def begin(path: Path, many: int) -> float:
    """Make a file to be killed over; milliseconds of an action on it. What an action imports is imported then."""
    book = job_file(path, many)
    wall = book.job.of(Wall)["W1"]
    book.act("Begin", [edit(wall, msgspec.structs.replace(wall, name="0"))])
    taken = [timed_ms(partial(book.act, "Count", one_action(count + 1))) for count in range(BEGUN)]
    book.close()
    return statistics.median(taken)


# --- a crowd ---


def crowded(folder: Path, processes: int, actions: int) -> dict[str, int]:
    """So many processes with so many actions each, at once; what is lost, given twice, or not sealed."""
    path = folder / "crowd.json"
    book = job_file(path, 100)
    book.act("Begin", [add(Contact(tag="", name="count", trade="owner", phone="0"))])
    before = len(book.entries())
    children = [forked(lambda: _work(path, actions)) for _ in range(processes)]
    failed = sum(os.waitpid(pid, 0)[1] != 0 for pid in children)
    book.refresh()
    book.audit()
    wanted = processes * actions
    contacts: Any = book.job.of(Contact)
    return {
        "failed": failed,
        "lost": wanted - (len(contacts) - 1),
        "miscounted": wanted - int(contacts["T1"].phone),
        "entries missing": wanted - (len(book.entries()) - before),
        "outside": len(book.job.outside),
    }


def _work(path: Path, actions: int) -> None:
    book = Book.open(path, "child", today)

    def changes(job: Job) -> list[Change]:
        one = job.of(Contact)["T1"]
        counted = msgspec.structs.replace(one, phone=str(int(one.phone) + 1))
        return [edit(one, counted), add(Contact(tag="", name="x", trade="owner"))]

    for _ in range(actions):
        book.act("Count", changes)


def run(kills: int = 1000) -> list[Row]:
    """The rows of this bench."""
    rows = []
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for many, rounds, bar in ((200, 60, None), (2_000, 60, SAVE_BAR), (20_000, 15, None)):
            value, floor = save_ms(folder, many, rounds)
            rows.append(Row(f"one action saved, {many:,} records", value, "ms", floor, bar))
        found, crowd = killed(folder, kills), crowded(folder, 4, 250)
    times = f"kill -9 at random moments, {kills:,} times in {found['actions']:,} actions"
    wrong = sum(abs(count) for count in crowd.values())
    return [
        *rows,
        Row(f"{times}: damaged", found["damaged"], bar=0),
        Row(f"{times}: half an action", found["half"], bar=0),
        Row(f"{times}: temporary files left, at most", found["litter"], bar=2),
        Row(f"4 processes x 250 actions on one file: {', '.join(crowd)}", wrong, bar=0),
    ]
