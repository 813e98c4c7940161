"""Answers of the command line, kept between runs.

What `status` and `figures` say, and what a sheet without pictures says, follows from the bytes of the job's file, its
name, the day and the program, and from nothing else. An answer that was worked out for just these is as true as one
worked out anew, so it is kept, per person and outside of the job's file, under a digest of all of them. Nothing decides
by it: the gate works everything out itself.
"""

from __future__ import annotations

import contextlib
import os
import re
import stat
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

from store.book.ground import disk
from store.book.ground.own_folder import own_folder, own_number

try:
    from _blake2 import blake2b  # what `hashlib` gives under this name, without the library for all other digests
except ImportError:
    from hashlib import blake2b

MOST = 40
"""How many answers are kept; the ones that were asked for longest ago go first."""
LONG = 48
"""Letters of a digest."""
PROGRAM = tuple(Path(__file__).parents[2] / each for each in ("store", "templates", "tui"))
"""The folders that hold the program."""


def key_of(path: Path, *asked: str) -> str | None:
    """The digest under which the answer to what is asked of a file is kept; None where none can be kept."""
    try:
        real = os.path.realpath(path)  # a link may point to a twin tomorrow, and the answer names the file
        raw = _bytes_of(real)
        said = blake2b(raw)
        for each in (*asked, str(path), real, _today(), sys.version, *_program(), *_pictures(raw, real)):
            said.update(b"\0" + os.fsencode(each))
    except OSError:
        return None
    return said.hexdigest()[:LONG]


def answer_to(path: Path, asked: Sequence[str], work_out: Callable[[], tuple[str, bool]]) -> str:
    """The answer to what is asked of a file: as it was kept, or worked out now, and kept where it will hold.

    `work_out` gives the answer, and whether it follows from the file alone.
    """
    before = key_of(path, *asked)
    kept = recall(before) if before else None
    if kept is not None:
        return kept
    answer, lasting = work_out()
    # A file that was changed while it was read has an answer to no key.
    if before and lasting and key_of(path, *asked) == before:
        keep(before, answer)
    return answer


def recall(key: str) -> str | None:
    """The answer kept under a digest, whole as it was kept; or None."""
    try:
        file = _folder() / key
        seal, _, answer = file.read_bytes().partition(b"\n")
        if seal.decode("ascii") != _seal(key, answer):
            return None
        os.utime(file)
        return answer.decode("utf-8")
    except (OSError, ValueError):
        return None


def keep(key: str, answer: str) -> None:
    """Keep an answer; not being able to is no reason to stop."""
    with contextlib.suppress(OSError, ValueError):
        said = answer.encode("utf-8")
        folder = _folder(make=True)
        fresh = folder / f"{key}.{os.getpid()}.new"
        fresh.touch(mode=0o600)
        fresh.write_bytes(_seal(key, said).encode("ascii") + b"\n" + said)
        fresh.replace(folder / key)
        # Only what has the name of an answer is ever taken away.
        kept = [each for each in folder.iterdir() if len(each.name.partition(".")[0]) == LONG]
        for each in sorted(kept, key=lambda each: each.stat().st_mtime, reverse=True)[MOST:]:
            each.unlink(missing_ok=True)


def _today() -> str:
    """The day here, as the job's own dates count it."""
    return time.strftime("%Y-%m-%d")


def _folder(*, make: bool = False) -> Path:
    """Where the answers are. Raises OSError where there is no such place that is this person's alone."""
    folder = own_folder("XDG_CACHE_HOME", ".cache") / "answers"
    if make:
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    seen = folder.lstat()
    own = own_number()
    others = own is not None and (seen.st_uid != own or seen.st_mode & 0o022)
    if not stat.S_ISDIR(seen.st_mode) or others:
        raise PermissionError(f"{folder}: others could write answers there")
    return folder


def _bytes_of(path: str) -> bytes:
    """The bytes of a plain file. Raises OSError."""
    return disk.read_plain(path)


def _seal(key: str, answer: bytes) -> str:
    """What tells a file that was cut short, or that is another's, from an answer."""
    return blake2b(key.encode("ascii") + answer).hexdigest()[:32]


_PICTURES = re.compile(rb'"pictures":\s*(\{(?:[^"{}]|"(?:[^"\\]|\\.)*")*\})')


def _pictures(raw: bytes, real: str) -> Iterator[str]:
    """The pictures that the file says items rest on, as they lie on the disk now: an answer holds while they do."""
    if b'"pictures"' not in raw:
        return
    import json  # only where a file has pictures

    names: set[str] = set()
    for found in _PICTURES.findall(raw):
        with contextlib.suppress(ValueError):
            names.update(json.loads(found))
    for name in sorted(names):
        try:
            seen = os.stat(os.path.join(os.path.dirname(real), os.path.expanduser(name)))  # noqa: PTH111, PTH116, PTH118, PTH120
            yield f"{name} {seen.st_ino} {seen.st_size} {seen.st_mtime_ns} {seen.st_ctime_ns}"
        except (OSError, ValueError):
            yield f"no folder {name} any more"


def _program() -> Iterator[str]:
    """What changes when the program does: name, size and time of each of its files."""
    folders = [str(each) for each in PROGRAM]
    while folders:
        with os.scandir(folders.pop()) as entries:
            for each in sorted(entries, key=lambda each: each.name):
                if each.name == "__pycache__":
                    continue
                if each.is_dir():
                    folders.append(each.path)
                else:
                    seen = each.stat()
                    yield f"{each.path} {seen.st_size} {seen.st_mtime_ns}"
