"""Each call to the system failing in turn, on the side that writes and on the side that reads."""

from __future__ import annotations

import contextlib
import errno
import os
import shutil
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from store.book.copies import seen_of
from store.book.drafts import Draft, keep, left
from store.book.putback import put_back
from store.book.restore import newest_good, restore
from templates.sheets.write import write_sheet
from tests.faults.tried import Tried, acted, job, opened, print_of, told, wrong_with

CALLS = (
    "open", "close", "read", "write", "fsync", "link", "replace", "unlink", "lstat", "stat", "fstat", "ftruncate",
    "lseek", "fchmod", "fchown", "getxattr", "scandir", "listdir", "mkdir", "utime",
)  # fmt: skip
ERRORS = (errno.EIO, errno.ENOSPC, errno.EACCES, errno.EMFILE, errno.ESTALE, errno.EROFS)
MOST_CALLS = 60


class Failing:
    """The call of a number fails; all calls are counted."""

    def __init__(self, name: str, at: int, error: int) -> None:
        self.name, self.at, self.error = name, at, error
        self.count = 0
        self.failed = False

    @contextlib.contextmanager
    def patched(self) -> Iterator[None]:
        """While this holds, the call fails when its turn comes."""
        real: Any = getattr(os, self.name)

        def call(*given: Any, **more: Any) -> Any:
            self.count += 1
            if self.count == self.at:
                self.failed = True
                raise OSError(self.error, os.strerror(self.error))
            return real(*given, **more)

        setattr(os, self.name, call)
        try:
            yield
        finally:
            setattr(os, self.name, real)


Work = Callable[[Path], Callable[[], object]]


def _act(path: Path) -> Callable[[], object]:
    book = opened(path)
    return lambda: acted(book, "new")


def _undo(path: Path) -> Callable[[], object]:
    book = opened(path)
    acted(book, "old")
    acted(book, "new")
    return book.undo


def _again(path: Path) -> Callable[[], object]:
    book = opened(path)
    path.unlink()
    return book.write_again


def _restore(path: Path) -> Callable[[], object]:
    path.unlink()
    return lambda: restore(path, "copy0")


def _put_back(path: Path) -> Callable[[], object]:
    path.write_text(path.read_text("utf-8").replace("North wall", "Eve's wall", 1), "utf-8")
    return lambda: put_back(opened(path))


def _create(path: Path) -> Callable[[], object]:
    return lambda: job(path.parent, "another.json", 0)


def _sheet(path: Path) -> Callable[[], object]:
    write_sheet(path.with_name("a.csv"), "old\r\n", "csv", job=path)
    return lambda: write_sheet(path.with_name("a.csv"), "new\r\n", "csv", job=path)


def _draft(path: Path) -> Callable[[], object]:
    draft = Draft("New", "contact", "new", "", {}, {"name": "x"})

    def work() -> None:
        with contextlib.suppress(OSError):  # the form keeps what is typed, and keeps trying
            keep(path, "0a", draft)

    return work


WRITING: dict[str, Work] = {
    "an action": _act,
    "an undo": _undo,
    "a file written again": _again,
    "a copy brought back": _restore,
    "what was changed outside put back": _put_back,
    "a new job": _create,
    "a sheet": _sheet,
    "a draft": _draft,
}
SHORT = ("an action", "a copy brought back", "a sheet")
GONE_BEFORE = ("a file written again", "a copy brought back")
"""Works on a file that is not there: when they fail, it still is not, and the copies are."""


def writing(short: bool) -> list[Tried]:
    """Every work that writes, each call failing in turn: afterwards the job is whole, as before or as after."""
    works = [(name, work) for name, work in WRITING.items() if not short or name in SHORT]
    return [_tried(f"each system call failing in {name}", work, short, name) for name, work in works]


def _tried(what: str, work: Work, short: bool, name: str) -> Tried:
    row = Tried(what)
    for call in CALLS:
        if not hasattr(os, call):
            continue
        for error in ERRORS[:1] if short else ERRORS:
            for at in range(1, MOST_CALLS):
                with tempfile.TemporaryDirectory() as folder:
                    if not _once(row, Path(folder), work, Failing(call, at, error), name):
                        break
    return row


def _once(row: Tried, folder: Path, work: Work, failing: Failing, name: str) -> bool:
    """Try one; False when there was no call of that number."""
    path = job(folder)
    do = work(path)
    before = print_of(path)
    with failing.patched():
        came = told(do)
    if not failing.failed:
        return False
    row.times += 1
    where = f"{failing.name} {failing.at} {errno.errorcode[failing.error]}"
    if came.startswith("!"):
        row.bad(f"{where}: {came}")
    if ("is as it was" in came or "Nothing was changed" in came) and print_of(path) != before:
        row.bad(f"{where}: it is said that nothing was changed, and the file is another: {came}")
    if path.exists() or name not in GONE_BEFORE:
        wrong = "" if name == "what was changed outside put back" else wrong_with(path)
        if wrong:
            row.bad(f"{where}: {wrong}")
    elif newest_good(path) is None:
        row.bad(f"{where}: neither the file nor a copy is left")
    litter = [each.name for each in folder.iterdir() if each.name.endswith((".saving", ".new"))]
    if len(litter) > 1:
        row.bad(f"{where}: left behind {litter}")
    return True


def _open(path: Path) -> object:
    return opened(path)


def _look_at(path: Path) -> object:
    book = opened(path)
    book.audit(inside=True)
    return book.entries()


def _refresh(path: Path) -> object:
    book = opened(path)
    acted(opened(path), "from another")
    return book.refresh()


def _verify(path: Path) -> object:
    return [newest_good(path), seen_of(path), left(path)]


READING: dict[str, Callable[[Path], object]] = {
    "opening": _open,
    "looking at every seal": _look_at,
    "taking over another's change": _refresh,
    "looking for good copies": _verify,
}


def reading(short: bool) -> list[Tried]:
    """Every work that reads: what fails is a sentence, and no file is another afterwards."""
    return [_read(f"each system call failing in {name}", work, short) for name, work in READING.items()]


def _read(what: str, work: Callable[[Path], object], short: bool) -> Tried:
    row = Tried(what)
    with tempfile.TemporaryDirectory() as name:
        whole = Path(name) / "whole"
        whole.mkdir()
        job(whole)
        for call in CALLS:
            if not hasattr(os, call):
                continue
            for error in ERRORS[:1] if short else ERRORS:
                for at in range(1, MOST_CALLS):
                    folder = Path(name) / "tried"
                    shutil.copytree(whole, folder)
                    failing = Failing(call, at, error)
                    with failing.patched():
                        came = told(lambda: work(folder / "wall.json"))  # noqa: B023 - called at once
                    wrong = wrong_with(folder / "wall.json")
                    shutil.rmtree(folder)
                    if not failing.failed:
                        break
                    row.times += 1
                    where = f"{call} {at} {errno.errorcode[error]}"
                    if came.startswith("!"):
                        row.bad(f"{where}: {came}")
                    if wrong:
                        row.bad(f"{where}: {wrong}")
    return row
