"""Answers of the command line, kept between runs.

What `status` and `figures` say, and what a sheet without pictures says, follows from the bytes of the job's file, the
day and the program, and from nothing else. An answer that was worked out for just these is as true as one worked out anew, so it is kept, per person and
outside of the job's file, under a digest of all three. Nothing decides by it: the gate works everything out itself.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
import sys
from collections.abc import Iterator
from datetime import date
from pathlib import Path

MOST = 40
"""How many answers are kept; the ones that were asked for longest ago go first."""
PROGRAM = tuple(Path(__file__).parent.parent / each for each in ("store", "templates", "tui"))
"""The folders that hold the program."""


def key_of(path: Path, *asked: str) -> str | None:
    """The digest under which the answer to what is asked of a file is kept; None where it cannot be read."""
    try:
        said = hashlib.blake2b(path.read_bytes())
    except OSError:
        return None
    for each in (*asked, str(path), str(Path.cwd()), str(date.today()), sys.version, *_program()):
        said.update(b"\0" + os.fsencode(each))
    return said.hexdigest()[:48]


def recall(key: str) -> str | None:
    """The answer kept under a digest, whole as it was kept; or None."""
    file = _folder() / key
    try:
        seal, _, answer = file.read_bytes().partition(b"\n")
        if seal.decode("ascii") != _seal(key, answer):
            return None
        os.utime(file)
        return answer.decode("utf-8")
    except (OSError, ValueError):
        return None


def keep(key: str, answer: str) -> None:
    """Keep an answer; not being able to is no reason to stop."""
    said = answer.encode("utf-8")
    folder = _folder()
    fresh = folder / f"{key}.{os.getpid()}.new"
    with contextlib.suppress(OSError):
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        fresh.touch(mode=0o600)
        fresh.write_bytes(_seal(key, said).encode("ascii") + b"\n" + said)
        fresh.replace(folder / key)
        kept = sorted(folder.iterdir(), key=lambda each: each.stat().st_mtime, reverse=True)
        for each in kept[MOST:]:
            each.unlink(missing_ok=True)


def _folder() -> Path:
    return Path(os.environ.get("XDG_CACHE_HOME") or "~/.cache").expanduser() / "studbook" / "answers"


def _seal(key: str, answer: bytes) -> str:
    """What tells a file that was cut short, or that is another's, from an answer."""
    return hashlib.blake2b(key.encode("ascii") + answer).hexdigest()[:32]


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
                    stat = each.stat()
                    yield f"{each.path} {stat.st_size} {stat.st_mtime_ns}"
