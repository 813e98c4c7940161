"""A save is whole or not at all, whatever fails while it happens."""

from __future__ import annotations

import errno
import fcntl
import json
import os
import pwd
import shutil
import signal
import stat
import subprocess
import sys
import tempfile
import textwrap
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from tinydb import TinyDB

from store.book.book import Book
from store.book.changes import add
from store.book.errors import Busy
from store.book.file import DurableFile
from store.book.migrate import FORMAT
from store.records.wall import Wall
from tests.book.build import litter, make, names_in, raw, reopen, wall

ROOT = Path(__file__).parents[2]


class Crash(BaseException):
    """Stands for the program being gone at once."""


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """A job file with one wall, saved once more so that it has a copy."""
    path = tmp_path / "wall.json"
    book = make(path, wall("W1"))
    book.act("Add a wall", [add(wall(name="South wall"))])
    book.close()
    return path


def _fail_at(monkeypatch: pytest.MonkeyPatch, where: str, error: BaseException, path: Path) -> None:
    """Let one step of a save fail: fsync of the new file, its replacing, a copy kept, a write."""
    real: dict[str, Callable[..., Any]] = {name: getattr(os, name) for name in ("fsync", "replace", "link", "write")}

    def fsync(fd: int) -> None:
        if not stat.S_ISDIR(os.fstat(fd).st_mode):
            raise error
        real["fsync"](fd)

    def replace(source: Any, target: Any) -> None:
        if Path(target) == path:
            raise error
        real["replace"](source, target)

    def link(source: Any, target: Any) -> None:
        raise error

    def write(fd: int, data: Any) -> int:
        real["write"](fd, bytes(data)[:100])
        raise error

    monkeypatch.setattr(os, where, {"fsync": fsync, "replace": replace, "link": link, "write": write}[where])


@pytest.mark.parametrize("where", ["write", "fsync", "replace"])
@pytest.mark.parametrize("error", [OSError(errno.EIO, "Input/output error"), Crash()], ids=["error", "crash"])
def test_a_failed_save_leaves_the_old_file_and_nothing_else(
    job: Path, where: str, error: BaseException, monkeypatch: pytest.MonkeyPatch
) -> None:
    book = reopen(job)
    before, names = job.read_bytes(), names_in(job.parent)
    with monkeypatch.context() as patched:
        _fail_at(patched, where, error, job)
        with pytest.raises((Busy, Crash)):
            book.act("Add a wall", [add(wall(name="West wall"))])
    assert job.read_bytes() == before
    assert litter(job) == []
    assert names_in(job.parent) == names
    # The same book goes on as if nothing had been, and gives the tag that was not used up.
    book.act("Add a wall", [add(wall(name="West wall"))])
    assert reopen(job).job.of(Wall)["W3"].name == "West wall"


def test_the_refusal_names_the_file_and_says_that_it_is_whole(job: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    book = reopen(job)
    _fail_at(monkeypatch, "fsync", OSError(errno.ENOSPC, "No space left on device"), job)
    with pytest.raises(Busy, match=r"No space left on device. The file is as it was\.") as caught:
        book.act("Add a wall", [add(wall())])
    assert str(job) in str(caught.value)
    assert caught.value.exit_status == 5


def test_a_folder_that_cannot_be_synced_is_told_and_the_book_knows_what_is_there(
    job: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    book = reopen(job)
    real = os.fsync

    def fsync(fd: int) -> None:
        if stat.S_ISDIR(os.fstat(fd).st_mode):
            raise OSError(errno.EIO, "Input/output error")
        real(fd)

    with monkeypatch.context() as patched:
        patched.setattr(os, "fsync", fsync)
        with pytest.raises(Busy, match="saved, but the disk did not confirm it"):
            book.act("Add a wall", [add(wall(name="West wall"))])
    assert reopen(job).job.of(Wall)["W3"].name == "West wall"
    book.refresh()
    assert book.job.of(Wall)["W3"].name == "West wall"
    assert book.act("Add a wall", [add(wall(name="East wall"))]).of(Wall)["W4"].name == "East wall"


def test_without_hard_links_the_copy_is_made_by_copying(job: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    book = reopen(job)
    before = job.read_bytes()
    _fail_at(monkeypatch, "link", OSError(errno.EPERM, "Operation not permitted"), job)
    book.act("Add a wall", [add(wall(name="West wall"))])
    assert (job.parent / f".{job.name}.copy0").read_bytes() == before
    assert litter(job) == []


def _run(script: str, *arguments: object) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", textwrap.dedent(script), *map(str, arguments)],
        cwd=ROOT, env={**os.environ, "PYTHONPATH": str(ROOT)}, capture_output=True, text=True, timeout=60, check=False,
    )  # fmt: skip


ACT = """
from store.book.changes import add
from tests.book.build import reopen, wall
from store.book.errors import Busy
from pathlib import Path
import os, resource, signal, sys
path = Path(sys.argv[1])
def act(book):
    try:
        book.act("Add a wall", [add(wall(name="x" * 3000))])
    except Busy as error:
        print(error)
"""


def test_a_full_disk_loses_nothing(job: Path) -> None:
    before = job.read_bytes()
    result = _run(
        ACT
        + """
book = reopen(path)
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
sys.dont_write_bytecode = True  # cut short like the job's file, it would be read by others
resource.setrlimit(resource.RLIMIT_FSIZE, (path.stat().st_size // 2, resource.RLIM_INFINITY))
act(book)
resource.setrlimit(resource.RLIMIT_FSIZE, (resource.RLIM_INFINITY, resource.RLIM_INFINITY))
print(path.stat().st_size, [each for each in os.listdir(path.parent) if each.endswith(".saving")])
act(book)
print(len(reopen(path).job.tables["wall"]))
""",
        job,
    )
    assert result.stderr == ""
    refused, after, count = result.stdout.splitlines()
    assert refused.endswith("File too large. The file is as it was.")
    assert after == f"{len(before)} []"
    assert count == "3"


def test_a_folder_that_cannot_be_written_to_is_told_and_can_be_read() -> None:
    # Whoever runs the tests may be root, whom no mode stops: a child gives that up first. The folders of tests are for
    # their owner alone, and other runs may close one at any moment; so this one lies by itself.
    folder = Path(tempfile.mkdtemp())
    path = folder / "wall.json"
    make(path, wall("W1")).close()
    before = path.read_bytes()
    path.chmod(0o644)
    folder.chmod(0o555)
    (folder / f".{path.name}.lock").unlink()
    try:
        result = _run(
            ACT
            + """
import store.book.database
import store.book.judging
if os.geteuid() == 0:
    os.setgid(65534)
    os.setuid(65534)
book = reopen(path)
print(len(book.job.tables["wall"]))
act(book)
""",
            path,
        )
    finally:
        folder.chmod(0o755)
    assert result.stderr == ""
    count, refused = result.stdout.splitlines()
    assert count == "1"
    owner = f"; it belongs to {pwd.getpwuid(0).pw_name}" if os.geteuid() == 0 else ""
    assert refused == f"{folder}: can't write there: Permission denied{owner}. Nothing was changed."
    assert path.read_bytes() == before
    shutil.rmtree(folder)


def test_a_lock_file_taken_away_while_saving_stops_the_save(job: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    book = reopen(job)
    before = job.read_bytes()
    real = os.fsync

    def fsync(fd: int) -> None:
        (job.parent / f".{job.name}.lock").unlink(missing_ok=True)
        real(fd)

    with monkeypatch.context() as patched:
        patched.setattr(os, "fsync", fsync)
        with pytest.raises(Busy, match=r"someone deleted the lock file while saving\. Nothing was changed\. Try again"):
            book.act("Add a wall", [add(wall())])
    assert job.read_bytes() == before
    assert litter(job) == []
    book.act("Add a wall", [add(wall())])
    assert len(reopen(job).job.of(Wall)) == 3


def test_a_lock_file_made_anew_by_another_copy_stops_the_first(job: Path) -> None:
    first, second = DurableFile(job), DurableFile(job)
    first.read()
    with first.locked():
        (job.parent / f".{job.name}.lock").unlink()
        with second.locked():
            second.commit({**second.read(), "extra": {}})
        with pytest.raises(Busy, match="someone deleted the lock file"):
            first.commit(first.read())
    assert "extra" in raw(job)


def test_a_lock_that_is_held_too_long_is_told(job: Path) -> None:
    file = DurableFile(job)
    before = job.read_bytes()
    lock = os.open(job.parent / f".{job.name}.lock", os.O_RDWR | os.O_CREAT)
    fcntl.flock(lock, fcntl.LOCK_EX)
    try:
        with pytest.raises(Busy, match="another copy of Studbook is saving"), file.locked(patience_s=0.02):
            raise AssertionError("the lock was given twice")
    finally:
        os.close(lock)
    assert job.read_bytes() == before
    with file.locked(patience_s=0.02):
        pass


def test_nothing_is_written_outside_of_the_lock(job: Path) -> None:
    file = DurableFile(job)
    with pytest.raises(RuntimeError, match="outside of the lock"):
        file.commit(file.read())


def test_a_symlink_is_followed_once_and_stays_a_symlink(job: Path, tmp_path: Path) -> None:
    other = tmp_path / "elsewhere"
    other.mkdir()
    link = other / "link.json"
    link.symlink_to(job)
    book = reopen(link)
    book.act("Add a wall", [add(wall(name="West wall"))])
    assert link.is_symlink()
    assert names_in(other) == ["link.json"]
    assert book.path == job
    assert reopen(job).job.of(Wall)["W3"].name == "West wall"
    # Led elsewhere while the book is open, the link does not lead the next save astray.
    trap = other / "trap.json"
    trap.write_text("precious")
    link.unlink()
    link.symlink_to(trap)
    book.act("Add a wall", [add(wall(name="East wall"))])
    assert trap.read_text() == "precious"
    assert len(reopen(job).job.of(Wall)) == 4


def test_a_symlink_in_place_of_the_temporary_file_is_not_written_through(job: Path, tmp_path: Path) -> None:
    trap = tmp_path / "trap"
    trap.write_text("precious")
    (job.parent / f".{job.name}.saving").symlink_to(trap)
    reopen(job).act("Add a wall", [add(wall())])
    assert trap.read_text() == "precious"
    assert litter(job) == []


@pytest.mark.parametrize("mode", [0o600, 0o640, 0o664, 0o400])
def test_the_mode_of_a_file_is_kept(job: Path, mode: int) -> None:
    job.chmod(mode)
    old = os.umask(0o077)
    try:
        reopen(job).act("Add a wall", [add(wall())])
    finally:
        os.umask(old)
    assert stat.S_IMODE(job.stat().st_mode) == mode
    assert stat.S_IMODE((job.parent / f".{job.name}.copy0").stat().st_mode) == mode


@pytest.mark.parametrize("mask", [0o000, 0o022, 0o077])
def test_a_new_file_is_for_its_owner_alone(tmp_path: Path, mask: int) -> None:
    path = tmp_path / "new.json"
    old = os.umask(mask)
    try:
        make(path)
    finally:
        os.umask(old)
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert stat.S_IMODE((tmp_path / ".new.json.lock").stat().st_mode) == 0o600


def test_a_new_job_does_not_take_the_place_of_a_file(job: Path) -> None:
    before = job.read_bytes()
    with pytest.raises(Busy, match="this file exists"):
        make(job)
    assert job.read_bytes() == before


def test_a_new_job_in_no_folder_is_refused(tmp_path: Path) -> None:
    with pytest.raises(Busy, match="can't write there: No such file or directory"):
        make(tmp_path / "missing" / "new.json")


def test_the_plain_database_opens_the_file(job: Path) -> None:
    with TinyDB(job) as database:
        assert database.tables() == {"_meta", "job", "wall", "history"}
        walls = database.table("wall").all()
        assert [(each.doc_id, each["tag"], each["name"]) for each in walls] == [
            (1, "W1", "North wall"),
            (2, "W2", "South wall"),
        ]
        assert [each["n"] for each in database.table("history").all()] == [1, 2]
        assert database.table("_meta").all()[0]["studbook"] == FORMAT


@pytest.mark.parametrize("where", ["write", "fsync", "replace", "after"])
def test_a_kill_in_the_middle_of_a_save_leaves_a_whole_file(job: Path, where: str) -> None:
    before = raw(job)
    result = _run(
        ACT
        + """
where = sys.argv[2]
book = reopen(path)
def gone(*given): os.kill(os.getpid(), signal.SIGKILL)
real = os.fsync
if where == "write":
    write = os.write
    os.write = lambda fd, data: (write(fd, bytes(data)[:100]), gone())
elif where == "fsync":
    os.fsync = gone
elif where == "replace":
    os.replace = gone
else:
    import stat
    os.fsync = lambda fd: gone() if stat.S_ISDIR(os.fstat(fd).st_mode) else real(fd)
act(book)
""",
        job,
        where,
    )
    assert result.returncode == -signal.SIGKILL
    book = reopen(job)
    assert len(book.job.of(Wall)) == (3 if where == "after" else 2)
    assert where == "after" or raw(job) == before
    book.act("Add a wall", [add(wall(name="next"))])
    assert litter(job) == []
    book.audit()
    assert book.job.outside == ()


def test_a_book_that_could_not_be_opened_holds_no_file_open(tmp_path: Path) -> None:
    path = tmp_path / "bad.json"
    path.write_text(json.dumps({"_meta": {"1": {"studbook": FORMAT}}, "job": {}}))
    before = _next_descriptor()
    for _ in range(5):
        with pytest.raises(Exception, match="no job record"):
            Book.open(path, "Ann")
    assert _next_descriptor() == before


def _next_descriptor() -> int:
    """The number that the next file to be opened gets: the lowest that is free."""
    found = os.open(os.devnull, os.O_RDONLY)
    os.close(found)
    return found
