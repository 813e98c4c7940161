"""The copies kept beside a job file: the save before, and a few spread over time; told apart by what is in them."""

from __future__ import annotations

import os
from datetime import datetime
from pathlib import Path

import msgspec

from store.book.ground import disk
from store.book.ground.owner import whose
from store.measure.dates import show_date
from store.measure.text import clean

COPIES = 6
"""How many good copies are kept beside the file."""
COPY_EVERY_S = 600.0
"""The newest spaced copy is at least this old before another is kept; `.copy0` is always the save before."""

_raw_decoder = msgspec.json.Decoder(dict[str, msgspec.Raw])


class _Meta(msgspec.Struct):
    last: int = 0


class _Entry(msgspec.Struct):
    n: int
    at: str = ""
    who: str = ""


class Copy(msgspec.Struct, frozen=True):
    """One copy, by the last entry of the history in it."""

    path: Path
    actions: int
    """How many actions it holds; -1 where it cannot be read."""
    at: str = ""
    """When the last of them was made, UTC, ISO 8601."""
    who: str = ""
    wrong: str = ""
    owner: str = ""
    """Whose it is, where it is someone else's."""

    @property
    def says(self) -> str:
        """`.wall.json.copy0: 12 actions, the last Dec 4, 2026 14:03 by Ann`."""
        if self.wrong:
            return f"{self.path.name}: {self.wrong}"
        count = f"{self.actions} action{'' if self.actions == 1 else 's'}"
        when = f", the last {when_made(self.at)}" if self.at else ""
        owner = f" ({self.owner})" if self.owner else ""
        return f"{self.path.name}: {count}{when}{f' by {self.who}' if self.who and when else ''}{owner}"


def when_made(at: str) -> str:
    """The day and the minute of a moment in the history, as the clock on the wall had it; the moment itself where it
    is none."""
    try:
        local = datetime.fromisoformat(at).astimezone()
    except (ValueError, OverflowError, OSError):
        return clean(at)
    return f"{show_date(local.date())} {local:%H:%M}"


def slots(path: Path) -> list[Path]:
    """The names that copies of a file have, in no order of time."""
    return [path.with_name(f".{path.name}.copy{number}") for number in range(COPIES)]


def copies_of(path: Path) -> list[Path]:
    """The copies kept beside a file, the one with the newest history first."""
    return [each.path for each in seen_of(path)]


def seen_of(path: Path) -> list[Copy]:
    """The same, with what is in each; what cannot be read comes last. Links are no copies: this program makes none."""
    found = []
    # Where a link was put in the place of the file, its copies are still those of its own name.
    for each in dict.fromkeys((*slots(Path(os.path.realpath(path))), *slots(path.absolute()))):
        try:
            if disk.plain(each) is not None:
                found.append(look_at(each))
        except OSError as error:
            found.append(Copy(each, -1, wrong=f"cannot be read ({error.strerror})"))
    return sorted(found, key=lambda each: (each.actions, each.at), reverse=True)


def look_at(copy: Path) -> Copy:
    """What is in a copy, by its history; never by the time of the file, which a copying or a clock changes."""
    try:
        tables = _raw_decoder.decode(disk.read_plain(copy))
        meta = msgspec.json.decode(tables.get("_meta", b"{}"), type=dict[str, _Meta]).get("1", _Meta())
        entries = msgspec.json.decode(tables.get("history", b"{}"), type=dict[str, _Entry])
    except (OSError, msgspec.MsgspecError, UnicodeDecodeError, RecursionError) as error:
        return Copy(copy, -1, wrong=f"cannot be read ({getattr(error, 'strerror', None) or error})")
    last = max(entries.values(), key=lambda each: each.n, default=_Entry(0))
    return Copy(copy, max(meta.last, last.n), last.at, last.who, owner=whose(copy))


def keep_copies(path: Path, now: float, due: float) -> float:
    """Keep the file as it is now as `.copy0`, and where one is due by the clock also as one of the spaced copies.

    `now` and `due` in seconds of the clock; gives when the next spaced copy will be due.
    """
    copy = f"{path.parent}/.{path.name}.copy"
    link(path, copy + "0")
    if now < due:
        return due
    ages = [(_time_of(f"{copy}{number}"), f"{copy}{number}") for number in range(1, COPIES)]
    newest, oldest = max(ages)[0], min(ages)[1]
    # A time that has not come is no age: after a clock was put back, copies are spaced again.
    if newest and 0 <= now - newest <= COPY_EVERY_S:
        return newest + COPY_EVERY_S
    link(path, oldest)
    return min(max(_time_of(oldest), now - COPY_EVERY_S), now) + COPY_EVERY_S


def _time_of(path: str) -> float:
    """When a file was written, seconds of the clock; 0 when there is none."""
    try:
        return os.lstat(path).st_mtime
    except FileNotFoundError:
        return 0.0


def link(path: Path, copy: str) -> None:
    """Keep `path` also under the name `copy`; never half of it, and never through a link that has that name."""
    fresh = copy + ".new"
    disk.remove(fresh)
    try:
        _second_name(path, fresh)
    except OSError:  # a folder or a system without hard links
        _copied(path, fresh)
    os.replace(fresh, copy)  # noqa: PTH105
    # Of two names of one file, which a save that failed leaves, the first is not taken away by that.
    disk.remove(fresh)


def _second_name(path: Path, fresh: str) -> None:
    if os.link in os.supports_follow_symlinks:
        os.link(path, fresh, follow_symlinks=False)
    else:
        os.link(path, fresh)


def _copied(path: Path, fresh: str) -> None:
    from store.book.ground.owner import give, manners_of  # rarely needed

    seen, manners = os.lstat(path), manners_of(path)
    raw = disk.read_plain(path)
    fd = disk.open_new(fresh, 0o600)
    try:
        try:
            give(fd, manners)
            disk.write_all(fd, raw)
        finally:
            disk.let_go(fd)
        os.utime(fresh, ns=(seen.st_atime_ns, seen.st_mtime_ns))
    except BaseException:
        disk.remove(fresh)
        raise
