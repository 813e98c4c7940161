"""What happens to the file, its folder and its clock while a job is open."""

from __future__ import annotations

import os
import signal
import stat
import sys
import tempfile
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

from store.book.book import Book
from store.book.copies import copies_of
from store.book.errors import Busy
from store.book.file import DurableFile
from store.book.ground import lock
from store.measure.errors import StudbookError
from tests.bench.storage_bench import forked
from tests.faults.tried import Tried, acted, job, opened, print_of, told, wrong_with

Fault = Callable[[Path], object]


def _other(path: Path) -> None:
    other = job(path.parent, "other.json", 1)
    other.replace(path)


def _older(path: Path) -> None:
    path.write_bytes(copies_of(path)[-1].read_bytes())


def _link(path: Path) -> None:
    trap = path.with_name("trap")
    trap.write_text("precious")
    path.unlink()
    path.symlink_to(trap)


def _pipe(path: Path) -> None:
    path.unlink()
    os.mkfifo(path)


def _folder(path: Path) -> None:
    path.unlink()
    path.mkdir()


WHILE_OPEN: dict[str, Fault] = {
    "removed": lambda path: path.unlink(),
    "emptied": lambda path: path.write_bytes(b""),
    "truncated": lambda path: path.write_bytes(path.read_bytes()[:500]),
    "replaced by another job": _other,
    "replaced by an older version": _older,
    "replaced by a link": _link,
    "replaced by a pipe": _pipe,
    "replaced by a folder": _folder,
    "replaced by another program's file": lambda path: path.write_text('{"mine": 1}'),
    "made unreadable": lambda path: path.chmod(0),
}
GOES_ON = ("replaced by an older version", "made unreadable")
"""After these an action may be saved: the file is a version of the job. (Who may do anything reads every mode.)"""


def while_open() -> list[Tried]:
    """A file changed behind an open job is never written over, and what is open stays."""
    rows = []
    for name, fault in WHILE_OPEN.items():
        row = Tried(f"file {name} while open")
        with tempfile.TemporaryDirectory() as folder:
            path = job(Path(folder))
            book = opened(path)
            fault(path)
            before, records = print_of(path), sum(len(each) for each in book.job.tables.values())
            for work in (book.refresh, lambda: acted(book, "new"), book.undo):  # noqa: B023 - called at once
                row.times += 1
                came = told(work)
                if came.startswith("!"):
                    row.bad(came)
                if name not in GOES_ON and print_of(path) != before:
                    row.bad(f"it was written over: {came}")
            if name not in GOES_ON and sum(len(each) for each in book.job.tables.values()) != records:
                row.bad("what was open is no longer")
            if not copies_of(path):
                row.bad("its copies are gone")
            trap = path.with_name("trap")
            if trap.exists() and trap.read_text() != "precious":
                row.bad("a link was followed")
        rows.append(row)
    return rows


def locks() -> list[Tried]:
    """A lock that is held, planted or taken away: told in time, and nothing is written."""
    row = Tried("lock held, planted or taken away")
    plants: dict[str, Fault] = {
        "a folder": lambda path: path.mkdir(),
        "a link": lambda path: path.symlink_to(path.with_name("trap")),
        "a pipe": os.mkfifo,
        "held by another program": _hold,
    }
    for name, plant in plants.items():
        with tempfile.TemporaryDirectory() as folder:
            path = job(Path(folder))
            place = path.with_name(f".{path.name}.lock")
            place.unlink()
            held = plant(place)
            book = opened(path)
            book.wait_at_most(0.2)
            said: list[str] = []
            before, start = print_of(path), time.monotonic()
            lock.tell = said.append
            came = told(lambda: acted(book, "new"))  # noqa: B023 - called at once
            row.times += 1
            if came == "done" or came.startswith("!") or print_of(path) != before:
                row.bad(f"{name}: {came}")
            if time.monotonic() - start > 3:
                row.bad(f"{name}: waited {time.monotonic() - start:.1f} s")
            if name == "held by another program" and not said:
                row.bad(f"{name}: waited without a word")
            if os.path.lexists(path.with_name("trap")):
                row.bad(f"{name}: a link was followed")
            if isinstance(held, int):
                os.close(held)
    return [row]


def _hold(path: Path) -> int:
    fd = os.open(path, os.O_RDWR | os.O_CREAT, 0o600)
    lock.taken(fd, 1)
    return fd


def clock() -> list[Tried]:
    """A clock put back or forward: saves go on, copies stay in the order of what is in them."""
    row = Tried("clock put back and forward between saves")
    real = time.time
    with tempfile.TemporaryDirectory() as folder:
        path = job(Path(folder))
        book = opened(path)
        for number, by in enumerate((0, -86_400 * 400, 3_600, -3_600, 86_400 * 4000, 0, -86_400)):
            time.time = partial(_shifted, by)
            try:
                came = told(lambda: acted(book, f"n{number}"))  # noqa: B023 - called at once
            finally:
                time.time = real
            os.utime(path, (max(0.0, real() + by), max(0.0, real() + by)))
            row.times += 1
            if came != "done":
                row.bad(came)
            counts = [opened(each).actions for each in copies_of(path)]
            if counts != sorted(counts, reverse=True) or (counts and counts[0] != book.actions - 1):
                row.bad(f"copies hold {counts} of {book.actions}")
        if wrong := wrong_with(path):
            row.bad(wrong)
    return [row]


_now = time.time


def _shifted(by: float) -> float:
    return _now() + by


def no_home() -> list[Tried]:
    """Nobody at home, and no place for the person's own files."""
    row = Tried("no home, no place for own files")
    names = ("HOME", "XDG_STATE_HOME", "XDG_CACHE_HOME", "XDG_CONFIG_HOME")
    was = {name: os.environ.get(name) for name in names}
    try:
        for home in ("/nonexistent", "relative", "", "/proc/1"):
            for name in names:
                os.environ[name] = home
            with tempfile.TemporaryDirectory() as folder:
                from tui.cli.main import main

                path = Path(folder) / "wall.json"
                with _quiet():
                    for words in (["new", str(path)], ["status", str(path)], ["verify", str(path)],
                                  ["export", "wall", str(path), str(path.with_name("a.csv"))]):  # fmt: skip
                        row.times += 1
                        came = told(lambda: _status(main(words)))  # noqa: B023 - called at once
                        if came != "done":
                            row.bad(f"HOME={home!r} {words[0]}: {came}")
    finally:
        for name, value in was.items():
            if value is None:
                os.environ.pop(name, None)
            else:
                os.environ[name] = value
    return [row]


def _status(status: int) -> None:
    if status:
        raise RuntimeError(f"status {status}")


class _quiet:
    """Standard output and error away."""

    def __enter__(self) -> None:
        self._was = sys.stdout, sys.stderr
        sys.stdout = sys.stderr = Path(os.devnull).open("w", encoding="utf-8")

    def __exit__(self, *error: object) -> None:
        sys.stdout.close()
        sys.stdout, sys.stderr = self._was


def full_disk() -> list[Tried]:
    """A disk that is full at every length of the file on its way."""
    import resource

    row = Tried("disk full after so many bytes")
    with tempfile.TemporaryDirectory() as folder:
        path = job(Path(folder))
        before, size = print_of(path), path.stat().st_size

        def limited(most: int) -> None:
            signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
            book = opened(path)
            sys.dont_write_bytecode = True  # cut short like the job's file, it would be read by others
            resource.setrlimit(resource.RLIMIT_FSIZE, (most, resource.RLIM_INFINITY))
            try:
                acted(book, "x" * 500)
            except Busy:
                return
            raise SystemExit(1)

        for most in range(0, size + 1, max(1, size // 40)):
            row.times += 1
            pid = forked(lambda: limited(most))  # noqa: B023 - called at once
            if os.waitpid(pid, 0)[1] != 0:
                row.bad(f"at {most} bytes: not refused in words")
            if print_of(path) != before:
                row.bad(f"at {most} bytes: the file is another")
            if list(path.parent.glob("*.saving")) + list(path.parent.glob(".*.saving")):
                row.bad(f"at {most} bytes: a temporary file is left")
        if wrong := wrong_with(path):
            row.bad(wrong)
    return [row]


def manners() -> list[Tried]:
    """Mode, group and access list of a file stay through a save; a shared folder's are taken for what is new in it."""
    row = Tried("mode, group and access list through a save")
    for mode in (0o600, 0o640, 0o660, 0o664, 0o644):
        with tempfile.TemporaryDirectory() as folder:
            path = job(Path(folder))
            group = 12_345 if os.geteuid() == 0 else path.stat().st_gid
            os.chown(path, -1, group)
            path.chmod(mode)
            acted(opened(path), "new")
            seen = path.stat()
            row.times += 1
            if (stat.S_IMODE(seen.st_mode), seen.st_gid) != (mode, group):
                row.bad(f"{mode:o} became {stat.S_IMODE(seen.st_mode):o}, group {group} {seen.st_gid}")
    with tempfile.TemporaryDirectory() as name:
        shared = Path(name)
        if os.geteuid() == 0:
            os.chown(shared, -1, 12_345)
        shared.chmod(0o2770)
        path = job(shared)
        row.times += 1
        for each in (path, *copies_of(path), path.with_name(f".{path.name}.lock")):
            seen = each.stat()
            if stat.S_IMODE(seen.st_mode) != 0o660 or seen.st_gid != shared.stat().st_gid:
                row.bad(f"{each.name} in a shared folder: {stat.S_IMODE(seen.st_mode):o}, group {seen.st_gid}")
    return [row]


def two_people() -> list[Tried]:
    """Someone else's job: what may only be read is not replaced, and it is said whose it is."""
    row = Tried("two accounts on one job")
    if os.geteuid() != 0:
        row.skipped = "takes two accounts: only root can be both"
        return [row]
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        folder.chmod(0o777)
        path = job(folder)
        path.chmod(0o644)
        path.with_name(f".{path.name}.lock").chmod(0o666)
        before, said = print_of(path), folder / "said"
        said.touch(0o666)
        said.chmod(0o666)

        def other() -> None:
            os.setgid(65534)
            os.setuid(65534)
            book = Book.open(path, "Ben")
            try:
                acted(book, "new")
            except StudbookError as error:
                said.write_text(str(error))

        os.waitpid(forked(other), 0)
        row.times += 1
        if print_of(path) != before or "it belongs to root" not in said.read_text():
            row.bad(f"said: {said.read_text()!r}, {'changed' if print_of(path) != before else 'whole'}")
    return [row]


def held_by_two() -> list[Tried]:
    """Two copies of the program at once, each action on the newest state."""
    row = Tried("two copies of the program in turn")
    with tempfile.TemporaryDirectory() as folder:
        path = job(Path(folder))
        books = [opened(path), opened(path)]
        for number in range(40):
            row.times += 1
            came = told(lambda: acted(books[number % 2], f"n{number}"))  # noqa: B023 - called at once
            if came != "done":
                row.bad(came)
        with DurableFile(path).locked():
            pass
        if (wrong := wrong_with(path)) or opened(path).actions != 44:
            row.bad(wrong or "an action is missing")
    return [row]
