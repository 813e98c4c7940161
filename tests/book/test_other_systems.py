"""Nothing that only some systems have is needed: the store runs with all of it hidden."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]

HIDDEN = """
import os, sys, fcntl, pathlib

_lock = fcntl.lockf
flags = (fcntl.LOCK_EX | fcntl.LOCK_NB)


class Locking:
    # The byte locks of Windows, made of what there is here.
    LK_NBLCK = 2

    @staticmethod
    def locking(fd, mode, many):
        assert mode == 2
        _lock(fd, flags, many, os.lseek(fd, 0, os.SEEK_CUR), os.SEEK_SET)


sys.modules["msvcrt"] = Locking
for name in ("fcntl", "pwd", "grp", "resource", "termios"):
    sys.modules[name] = None
for name in (
    "O_NOFOLLOW", "O_NONBLOCK", "O_CLOEXEC", "O_DIRECTORY", "fchmod", "fchown", "chown", "geteuid", "getuid", "getgid",
    "getxattr", "setxattr", "removexattr", "listxattr", "link", "fork", "uname", "mkfifo", "sched_yield",
):
    if hasattr(os, name):
        delattr(os, name)
if not hasattr(os, "link"):
    def link(*given, **more):
        raise OSError(1, "no second names here")
    os.link = link
real = os.fsync
"""

WORK = """
from datetime import date
from pathlib import Path
from store.book.book import Book
from store.book import drafts
from store.book.changes import Put, add, drop
from store.book.copies import copies_of
from store.book.drafts import Draft
from store.book.ground import disk
from store.book.putback import put_back
from store.book.restore import restore
from store.measure.errors import StudbookError
from store.records.people import Contact
from templates.sheets.write import NotOurs, write_sheet
from templates.starters import load

disk.KEEPS_OPEN = sys.argv[2] == "open"
folder = Path(sys.argv[1])
path = folder / "wall.json"
book = Book.create(path, load("demo", date.today()), "Ann", "Begin")
for number in range(5):
    book.act("Add", [add(Contact(tag="", name=f"N{number}", trade="owner"))])
assert book.undo() is not None
assert book.redo() is not None
other = Book.open(path, "Ben")
other.act("Add", [add(Contact(tag="", name="Ben's", trade="owner"))])
assert book.refresh()
assert len(copies_of(path)) == 2, copies_of(path)
book.close(); other.close()
whole = path.read_bytes()
path.write_bytes(whole[:200])
try:
    Book.open(path, "Ann")
except StudbookError as error:
    print(type(error).__name__)
done = restore(path, "copy0")
book = Book.open(path, "Ann")
book.audit(inside=True)
assert book.job.outside == ()
assert put_back(book) == []
write_sheet(folder / "a.csv", "a\\r\\n", "csv", job=path)
write_sheet(folder / "a.csv", "b\\r\\n", "csv", job=path)
(folder / "a.csv").write_text("mine")
try:
    write_sheet(folder / "a.csv", "c\\r\\n", "csv", job=path)
except NotOurs:
    print("left as it is")
drafts.keep(path, "0a", Draft("New", "contact", "new", "", {}, {"name": "x"}))
print(sorted(each.name for each in folder.iterdir()))
"""


@pytest.mark.parametrize("kept", ["open", "closed"])
def test_the_store_runs_without_what_only_posix_has(kept: str, tmp_path: Path) -> None:
    """`closed`: as where a file that is open cannot be replaced."""
    result = subprocess.run(
        [sys.executable, "-c", HIDDEN + WORK, str(tmp_path), kept],
        cwd=ROOT, env={**os.environ, "PYTHONPATH": str(ROOT)}, capture_output=True, text=True, timeout=120, check=False,
    )  # fmt: skip
    assert result.stderr == ""
    damaged, left, names = result.stdout.splitlines()
    assert (damaged, left) == ("Damaged", "left as it is")
    assert "wall.json.before-restore" in names
    assert ".new" not in names
    assert ".saving" not in names


def test_a_second_process_waits_for_byte_locks_too(tmp_path: Path) -> None:
    holder = """
path = sys.argv[1]
from pathlib import Path
from store.book.file import DurableFile
file = DurableFile(Path(path), "Ann")
with file.locked():
    print("held", flush=True)
    sys.stdin.readline()
"""
    asker = """
from pathlib import Path
from store.book.file import DurableFile
try:
    with DurableFile(Path(sys.argv[1])).locked(patience_s=0.1):
        print("given twice")
except Exception as error:
    print(error)
"""
    given = {"cwd": ROOT, "env": {**os.environ, "PYTHONPATH": str(ROOT)}, "text": True}
    path = str(tmp_path / "wall.json")
    command = [sys.executable, "-c"]
    with subprocess.Popen(
        [*command, HIDDEN + holder, path],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        **given,  # type: ignore[call-overload]
    ) as first:
        assert first.stdout.readline() == "held\n"
        told = subprocess.run([*command, HIDDEN + asker, path], capture_output=True, check=False, **given)  # type: ignore[call-overload]
        first.stdin.write("\n")
        first.stdin.close()
        first.wait(20)
    assert told.stderr == ""
    assert "another copy of Studbook is saving (Ann, process " in told.stdout
    again = subprocess.run([*command, HIDDEN + asker, path], capture_output=True, check=False, **given)  # type: ignore[call-overload]
    assert again.stdout == "given twice\n"


NEITHER = """
import sys
from datetime import date
from pathlib import Path

for name in ("fcntl", "msvcrt", "pwd"):
    sys.modules[name] = None
from store.book.book import Book
from store.measure.errors import StudbookError
from templates.starters import load
from tui.shared.who import who

path = Path(sys.argv[1]) / "wall.json"
try:
    Book.create(path, load("demo", date.today()), who(), "Begin")
except StudbookError as error:
    print(who(), error.exit_status, path.exists(), error)
"""


def test_a_system_without_locks_and_without_a_list_of_users_is_told_in_words(tmp_path: Path) -> None:
    nobody = {key: value for key, value in os.environ.items() if key not in ("LOGNAME", "USER", "LNAME", "USERNAME")}
    nobody.pop("STUDBOOK_NAME", None)
    result = subprocess.run(
        [sys.executable, "-c", NEITHER, str(tmp_path)], cwd=ROOT, env={**nobody, "PYTHONPATH": str(ROOT)},
        capture_output=True, text=True, timeout=120, check=False,
    )  # fmt: skip
    assert result.stderr == ""
    assert result.stdout.startswith("somebody 5 False ")
    assert "this system has no locks for files" in result.stdout
